package foilproof.app.ui;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Duty;
import foilproof.bench.Tool;
import org.junit.jupiter.api.Test;

/** The inverse of a groove's width, against the closed form of a cone (by hand: W = tip + 2 d tan(angle / 2)). */
class GrooveInverseTest {
    private static final Tool V30 = Tool.vFlatTip("engraver", 1, Math.toRadians(30), 0.10, Duty.ANY);

    private static GrooveInverse of(Tool t, double expected, double width, boolean bottom) {
        return GrooveInverse.of(t, expected, 0.0174, new GrooveInverse.Reading(width, 0.005, bottom));
    }

    @Test
    void shouldTellTheDepthOfTheKnownAnswer() {
        // needs.md section 3: 0.210 wide with 30 deg/0.10 => 0.205 deep, or tip worn to 0.156 at 0.10
        GrooveInverse a = of(V30, 0.100, 0.210, false);
        assertThat(a.depthMm()).isCloseTo(0.2053, within(0.0001));
        assertThat(a.zErrorMm()).isCloseTo(0.1053, within(0.0001));
        assertThat(a.tipMm()).isCloseTo(0.1564, within(0.0001));
        // half of 0.005 to each side of a cone of 30 deg: 0.0025 / tan 15 deg
        assertThat(a.plusMinusMm()).isCloseTo(0.0025 / StrictMath.tan(Math.toRadians(15)), within(1e-9));
    }

    @Test
    void shouldMeanTheSameAtTheFoilBottom() {
        // needs.md section 6: 30 deg/0.10 at 0.10: top 0.1536, half-ounce bottom 0.1443
        assertThat(of(V30, 0.100, 0.1443, true).depthMm()).isCloseTo(0.100, within(0.0002));
        assertThat(of(V30, 0.100, 0.1536, false).zErrorMm()).isCloseTo(0, within(0.0002));
    }

    @Test
    void shouldSolveARoundTip() {
        // needs.md section 6: 30 deg radius 0.127 at 0.10: 0.2485
        Tool round = Tool.vRoundTip("round", 1, Math.toRadians(30), 0.127, Duty.ANY);
        assertThat(of(round, 0.05, 0.2485, false).depthMm()).isCloseTo(0.100, within(0.0003));
    }

    @Test
    void shouldSayWhereAWidthCannotTell() {
        assertThat(of(Tool.flat("mill", 1, 0.794, Duty.ANY), 0.1, 0.82, false).words())
                .contains("as wide at any depth", "+0.026 mm");
        assertThat(of(V30, 0.1, 0.09, false).words()).contains("No depth cuts so narrow");
        assertThat(of(V30, 0.1, 0.09, false).offered()).isNull();
    }
}
