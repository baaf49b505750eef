package foilproof.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Duty;
import foilproof.bench.Tool;
import org.junit.jupiter.api.Test;

/** Expected values: check-values rows Q1 to Q6, Q21, Q26 (closed forms of elementary geometry). */
class ToolProfileTest {
    private static final double TOL = 1e-5;

    @Test
    void shouldWidenAFlatTippedBitByTwiceTheDepthTimesTheTangentOfHalfTheAngle() {
        double[][] q1 = {{0.0254, 0.11361}, {0.05, 0.12679}, {0.1, 0.15359}, {0.15, 0.18038}, {0.2, 0.20718}};
        for (double[] row : q1) {
            assertThat(2 * StockFixtures.v30(0.1).radiusMm(row[0])).isEqualTo(row[1], within(TOL));
        }
        double[][] q2 = {{0.127, 0.0254, 0.14061}, {0.127, 0.05, 0.15379}, {0.127, 0.1, 0.18059}, {0.2, 0.1, 0.25359}};
        for (double[] row : q2) {
            assertThat(2 * StockFixtures.v30(row[0]).radiusMm(row[1])).isEqualTo(row[2], within(TOL));
        }
    }

    @Test // Q3, Q4
    void shouldFollowOtherAnglesAndTheInverse() {
        double[][] q3 = {{20, 0.13527}, {60, 0.21547}, {90, 0.3}};
        for (double[] row : q3) {
            ToolProfile bit = ToolProfile.vFlatTip(StockFixtures.rad(row[0]), 0.1, 3.175, 0);
            assertThat(2 * bit.radiusMm(0.1)).isEqualTo(row[1], within(TOL));
        }
        assertThat(StockFixtures.v30(0.1).riseMm(0.1)).as("Q4").isEqualTo(0.18660, within(TOL));
    }

    @Test // Q5, Q6
    void shouldBlendARoundTipIntoTheConeTangentially() {
        double[][] q5 = {{0.0174, 0.09693}, {0.0254, 0.11359}, {0.0508, 0.14368}, {0.1, 0.17053}};
        ToolProfile fine = ToolProfile.vRoundTip(StockFixtures.rad(30), 0.0762, 3.175, 0);
        for (double[] row : q5) {
            assertThat(2 * fine.radiusMm(row[0])).isEqualTo(row[1], within(TOL));
        }
        assertThat(fine.riseMm(0.0762 * StrictMath.cos(StockFixtures.rad(15))))
                .as("tangent depth")
                .isEqualTo(0.05648, within(TOL));
        assertThat(fine.radiusMm(0.0762 * (1 - StrictMath.sin(StrictMath.toRadians(15)))))
                .as("half the width there")
                .isEqualTo(0.07360, within(TOL));
        double[][] q6 = {{0.0174, 0.12833}, {0.0254, 0.15240}, {0.0508, 0.20320}, {0.1, 0.24849}};
        ToolProfile coarse = ToolProfile.vRoundTip(StockFixtures.rad(30), 0.127, 3.175, 0);
        for (double[] row : q6) {
            assertThat(2 * coarse.radiusMm(row[0])).isEqualTo(row[1], within(TOL));
        }
    }

    @Test // Q21; P11 says the same in round figures: 0.300 D, 0.207 D, 0.5 D
    void shouldMakeDrillPointsAsLongAsTheirAngleSays() {
        double[][] q21 = {{90, 0.5}, {118, 0.300430}, {130, 0.233154}, {135, 0.207107}, {140, 0.181985}};
        for (double[] row : q21) {
            ToolProfile drill = ToolProfile.drill(1, StockFixtures.rad(row[0]), 0);
            assertThat(drill.wallFootMm()).isEqualTo(row[1], within(1e-6));
            assertThat(drill.radiusMm(5)).isEqualTo(0.5);
        }
    }

    @Test
    void shouldWidenTheCutByTheRunout() {
        assertThat(2 * ToolProfile.flat(0.79375, 0.0127).maxRadiusMm())
                .as("Q26")
                .isEqualTo(0.80645, within(1e-12));
        Tool bit = Tool.vFlatTip("engraver", 1, StockFixtures.rad(30), 0.1, Duty.ANY);
        ToolProfile still = ToolProfile.of(bit);
        ToolProfile wobbling = ToolProfile.vFlatTip(StockFixtures.rad(30), 0.1, 3.175, 0.015);
        for (double rise : new double[] {0, 0.05, 0.2}) {
            assertThat(2 * wobbling.radiusMm(rise) - 2 * still.radiusMm(rise)).isEqualTo(0.015, within(1e-12));
        }
    }

    @Test
    void shouldInvertItselfAndEndAtTheShank() {
        ToolProfile[] all = {
            StockFixtures.v30(0.1),
            ToolProfile.vRoundTip(1, 0.1, 3, 0.02),
            ToolProfile.ball(0.8, 0.01),
            ToolProfile.drill(0.8, 2, 0.01)
        };
        for (ToolProfile profile : all) {
            for (int k = 1; k < 40; k++) {
                double radius = profile.coreMm() + (profile.maxRadiusMm() - profile.coreMm()) * k / 40;
                assertThat(profile.radiusMm(profile.riseMm(radius))).isEqualTo(radius, within(1e-9));
            }
            assertThat(profile.riseMm(profile.maxRadiusMm() + 1e-6)).isInfinite();
        }
    }

    @Test
    void shouldRefuseABitWhoseTipIsUnknown() {
        Tool flat = Tool.vFlatTip("engraver", 1, StockFixtures.rad(30), 0.1, Duty.ANY);
        Tool unknown = new Tool(
                flat.name(),
                flat.number(),
                flat.shape(),
                flat.diameterMm(),
                flat.includedAngleRad(),
                java.util.OptionalDouble.empty(),
                java.util.OptionalDouble.empty(),
                flat.shankMm(),
                flat.flutes(),
                flat.fluteLengthMm(),
                flat.stickOutMm(),
                0,
                true,
                flat.lengthMm(),
                flat.duty());
        assertThatThrownBy(() -> ToolProfile.of(unknown)).isInstanceOf(IllegalArgumentException.class);
    }
}
