package foilproof.electrical;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Face;
import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The pump driver's feed (needs.md job 4): neck and body, resistance, drop and rise. */
class NetFiguresTest {
    private static NetPlace pad(double x) {
        return new NetPlace(Face.BOTTOM, x, 0, 2.2, 2.2, null, null, false, 1);
    }

    private static NetFigures feed(double neckHalfMm, double foilMm) {
        CopperProbe feed = (x, y) -> x >= -1.1 && x <= 62.1 && Math.abs(y) <= (x > 29 && x < 33 ? neckHalfMm : 1.1);
        NetFigures f = NetFigures.of(
                "VIN", List.of(pad(0), pad(61)), feed, null, new Bounds(-1.1, -1.1, 62.1, 1.1), 130, foilMm, 0.05);
        assertThat(f).isNotNull();
        return f;
    }

    @Test
    void shouldRankNeckAndBody() {
        NetFigures neck = feed(0.45, 0.0174);
        assertThat(neck.neck().bottomMm()).isCloseTo(0.9, within(0.005));
        assertThat(neck.riseK(3.5)).isCloseTo(89, within(1.5));
        assertThat(neck.riseKInFoil(3.5, 0.0348)).isCloseTo(28.5, within(0.5));
        NetFigures body = feed(1.1, 0.0174);
        assertThat(body.riseK(3.5)).isCloseTo(20.5, within(0.2));
        assertThat(body.riseKInFoil(3.5, 0.0348)).isCloseTo(6.5, within(0.1));
    }

    @Test
    void shouldMeasureResistanceAndDrop() {
        // 60 mm x 2.2 mm of half-ounce foil: 27 mOhm, 0.095 V at 3.5 A; the pads' own 1.1 mm ends carry no drop
        NetFigures body = feed(1.1, 0.0174);
        double free = (61 - 2.2) / 2.2 * CopperMetal.sheetOhm(0.0174, 20);
        assertThat(body.ohm(20)).isBetween(free, free * 1.03);
        assertThat(body.ohm(20)).isCloseTo(0.027, within(0.001));
        assertThat(body.dropV(3.5, 20)).isCloseTo(0.095, within(0.003));
    }
}
