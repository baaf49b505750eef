package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Closed forms (check-values Q7, Q9) and thresholds of the same field. */
class MergeTreeTest {
    /** Two 30 degree / 0.10 grooves 0.20 apart at depth 0.10 in one-ounce foil: issue 3, e = +0.1214 (Q1 solved). */
    @Test
    void shouldLoseTheTraceBetweenTwoGroovesAtTheSameErrorAtAnyAngleToTheGrid() {
        for (double cell : new double[] {0.005, 0.01}) {
            for (double degrees = 0; degrees <= 90; degrees += 7.3) {
                double e = lastError(degrees, cell, 0.0);
                assertThat(e).as("%f degrees, cell %f", degrees, cell).isCloseTo(0.1214, within(0.003));
                assertThat(lastError(degrees, cell, 0.5 * cell)).isCloseTo(0.1214, within(0.003));
            }
        }
    }

    private static double lastError(double degrees, double cell, double shift) {
        double c = StrictMath.cos(StrictMath.toRadians(degrees));
        double s = StrictMath.sin(StrictMath.toRadians(degrees));
        GrooveField f = new GrooveField(3, 3, cell, 0.0348, 0.3);
        for (int side = -1; side <= 1; side += 2) {
            double ox = 1.5 + shift - side * 0.1 * s;
            double oy = 1.5 + 0.3 * shift + side * 0.1 * c;
            f.v30(ox - 5 * c, oy - 5 * s, ox + 5 * c, oy + 5 * s, 0.1);
        }
        // e* is the margin itself: one run, at its set-up. The trace is asked for at two places along it.
        MergeTree tree = MergeTree.of(
                f, -0.1, 1.5 + shift - 0.8 * c, 1.5 - 0.8 * s + 0.3 * shift, 1.5 + shift + 0.8 * c, 1.5 + 0.8 * s);
        return Bottleneck.between(tree, 0, 1);
    }

    @Test
    void shouldCountTheComponentsThatThresholdingGives() {
        GrooveField f = new GrooveField(8, 6, 0.01, 0.0348, 0.3);
        java.util.Random random = new java.util.Random(11);
        for (int k = 0; k < 25; k++) {
            f.v30(
                    random.nextDouble() * 8,
                    random.nextDouble() * 6,
                    random.nextDouble() * 8,
                    random.nextDouble() * 6,
                    0.1);
        }
        MergeTree tree = MergeTree.of(f, -0.1);
        for (double e : new double[] {-0.03, 0, 0.05, 0.1, 0.2}) {
            CopperMap map = CopperMap.of(f, e);
            assertThat(tree.componentsAt(e))
                    .as("e %f", e)
                    .isEqualTo(map.pieces().size() + map.crumbs());
        }
    }
}
