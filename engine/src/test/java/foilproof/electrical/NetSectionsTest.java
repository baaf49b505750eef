package foilproof.electrical;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The narrowest section of a net, on shapes whose widths are known by their making. */
class NetSectionsTest {
    private static final List<SheetResistance.Contact> ENDS =
            List.of(SheetResistance.Contact.disc(0, 0, 0.6), SheetResistance.Contact.disc(20, 0, 0.6));

    @Test
    void shouldFindTheNeckOfTheFeed() {
        // needs.md job 4: a 2.2 mm feed with a 0.9 mm neck, here 3 mm long
        CopperProbe feed = (x, y) -> x >= -1 && x <= 21 && Math.abs(y) <= (x > 9 && x < 12 ? 0.45 : 1.1);
        NetSections.Result r = NetSections.narrowest(feed, new Bounds(-1, -1.1, 21, 1.1), 0, ENDS, 0.05);
        assertThat(r).isNotNull();
        assertThat(r.narrowest().widthMm()).isCloseTo(0.9, within(0.002));
        assertThat(r.narrowest().xMm()).isBetween(9.0, 12.0);
        assertThat(r.neck().widthMm()).isCloseTo(0.9, within(0.002));
    }

    @Test
    void shouldNotTakeAShortNickForANeck() {
        CopperProbe feed = (x, y) -> x >= -1 && x <= 21 && Math.abs(y) <= (x > 9 && x < 9.4 ? 0.3 : 1.1);
        NetSections.Result r = NetSections.narrowest(feed, new Bounds(-1, -1.1, 21, 1.1), 0, ENDS, 0.05);
        assertThat(r.narrowest().widthMm()).isCloseTo(0.6, within(0.002));
        assertThat(r.neck().widthMm()).isGreaterThan(0.9);
    }

    @Test
    void shouldMeasureSlantedTracksAndKeepToTheWideWay() {
        // two ways: a straight one 0.3 wide and a round-about one 1.0 wide; the wide one carries the current
        double c = Math.cos(Math.toRadians(25));
        double s = Math.sin(Math.toRadians(25));
        CopperProbe loop = (x, y) -> {
            double u = x * c + y * s;
            double v = -x * s + y * c;
            boolean outer = u >= -1 && u <= 21 && v >= -1 && v <= 6;
            boolean hole = u >= 0.5 && u <= 19.5 && v >= -0.7 && v <= 5;
            return outer && !hole;
        };
        List<SheetResistance.Contact> ends = List.of(
                (x, y) -> x * c + y * s < 0.4 && -x * s + y * c < -0.5 && x * c + y * s > -0.9,
                (x, y) -> x * c + y * s > 19.6 && -x * s + y * c < -0.5 && x * c + y * s < 20.9);
        NetSections.Result r = NetSections.narrowest(loop, new Bounds(-5, -3, 22, 16), 0, ends, 0.05);
        assertThat(r.narrowest().widthMm()).isCloseTo(1.0, within(0.01));
    }

    @Test
    void shouldSayNothingOfContactsThatNothingJoins() {
        CopperProbe two = (x, y) -> Math.abs(y) <= 1 && (x < 9 || x > 10);
        assertThat(NetSections.narrowest(two, new Bounds(-1, -1, 21, 1), 0, ENDS, 0.05))
                .isNull();
    }
}
