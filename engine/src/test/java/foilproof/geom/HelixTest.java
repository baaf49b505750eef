package foilproof.geom;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Arcs and helices against closed forms and dense sampling. */
class HelixTest {
    private static Helix arc(
            double sx, double sy, double ex, double ey, double cx, double cy, int turn, double z0, double z1) {
        return Helix.between(sx, sy, ex, ey, cx, cy, turn, z0, z1, 1e-6);
    }

    @Test // rows C20 and C30 of the check values (NISTIR 6556 sections 3.5.3.2 and 2.1.2.6)
    void shouldMeasureSweepAndLength() {
        Helix c20 = arc(7, 7, 10, 16, 10, 11, -1, 9, 9);
        assertThat(Math.toDegrees(c20.sweepRad())).isCloseTo(-143.1301, within(5e-5));
        assertThat(c20.lengthMm()).isCloseTo(12.49046, within(5e-6));
        assertThat(arc(0, 0, 0, 0, 5, 0, 1, 0, -1).lengthMm()).isCloseTo(31.43184, within(5e-6));
    }

    @Test // row F6: from (3,-2) about (0,2) to (-3,-2) counter-clockwise: 286.2602 deg, 24.98092
    void shouldSweepTheLongWayRound() {
        Helix f6 = arc(3, -2, -3, -2, 0, 2, 1, 0, 0);
        assertThat(Math.toDegrees(f6.sweepRad())).isCloseTo(286.2602, within(5e-5));
        assertThat(f6.lengthMm()).isCloseTo(24.98092, within(5e-6));
    }

    @Test // row Q23: sagitta and number of chords, closed form
    void shouldCountChordsWithinATolerance() {
        assertThat(arc(0, 0, 0, 0, 0.396875, 0, 1, 0, 0).chordsWithinMm(0.001)).isEqualTo(45);
    }

    @Test
    void shouldAgreeWithDenseSamplingOnSeededArcs() {
        long seed = 77;
        Random random = new Random(seed);
        for (int i = 0; i < 200; i++) {
            double radius = 0.05 + 20 * random.nextDouble();
            double a = 2 * Math.PI * random.nextDouble();
            double b = 2 * Math.PI * random.nextDouble();
            double cx = 10 * random.nextGaussian();
            double cy = 10 * random.nextGaussian();
            Helix h = arc(
                    cx + radius * Math.cos(a),
                    cy + radius * Math.sin(a),
                    cx + radius * Math.cos(b),
                    cy + radius * Math.sin(b),
                    cx,
                    cy,
                    random.nextBoolean() ? 1 : -1,
                    random.nextGaussian(),
                    random.nextGaussian());
            double px = cx + 2 * radius * random.nextGaussian();
            double py = cy + 2 * radius * random.nextGaussian();
            int steps = 4000;
            double length = 0;
            double nearest = Double.MAX_VALUE;
            double[] box = {1e9, 1e9, -1e9, -1e9};
            for (int k = 0; k <= steps; k++) {
                double t = (double) k / steps;
                double x = h.firstAtMm(t);
                double y = h.secondAtMm(t);
                nearest = Math.min(nearest, Math.hypot(x - px, y - py));
                box = new double[] {Math.min(box[0], x), Math.min(box[1], y), Math.max(box[2], x), Math.max(box[3], y)};
                if (k > 0) {
                    double s = (k - 1.0) / steps;
                    length += Math.hypot(
                            Math.hypot(x - h.firstAtMm(s), y - h.secondAtMm(s)), h.axialAtMm(t) - h.axialAtMm(s));
                }
            }
            double tolerance = 2e-6 * radius + 1e-9;
            assertThat(h.lengthMm()).as("seed %d round %d", seed, i).isCloseTo(length, within(1e-5 * length));
            assertThat(h.distanceMm(px, py)).as("seed %d round %d", seed, i).isCloseTo(nearest, within(1e-3 * radius));
            assertThat(h.distanceMm(px, py)).isLessThanOrEqualTo(nearest + 1e-9);
            double[] got = h.boxMm();
            for (int side = 0; side < 4; side++) {
                assertThat(got[side])
                        .as("seed %d round %d side %d", seed, i, side)
                        .isCloseTo(box[side], within(tolerance));
            }
        }
    }

    @Test
    void shouldReachItsEndWhereTheRadiiDiffer() {
        Helix h = arc(1, 0, 0, 1.004, 0, 0, 1, 0, -1);
        assertThat(h.firstAtMm(1)).isCloseTo(0, within(1e-12));
        assertThat(h.secondAtMm(1)).isCloseTo(1.004, within(1e-12));
        assertThat(h.axialAtMm(0.5)).isEqualTo(-0.5);
    }
}
