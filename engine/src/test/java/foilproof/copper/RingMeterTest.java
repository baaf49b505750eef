package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Rings by closed form, and against every ray walked in small steps. */
class RingMeterTest {
    private static final double CELL_MM = 0.01;
    private static final double FOIL_MM = 0.0174;

    /** The least of all rays, each walked in steps of 1 um and then halved, from the closed forms alone. */
    private static double everyRay(MarginField field, double x, double y, double radius) {
        double best = Math.min(Math.min(x, y), Math.min(field.widthMm() - x, field.heightMm() - y)) - radius;
        for (int k = 0; k < 720; k++) {
            double dx = StrictMath.cos(2 * Math.PI * k / 720);
            double dy = StrictMath.sin(2 * Math.PI * k / 720);
            for (double d = 0; d < best; d += 0.001) {
                if (field.exactMarginMm(x + dx * (radius + d), y + dy * (radius + d)) <= 0) {
                    double low = Math.max(0, d - 0.001);
                    double high = d;
                    for (int h = 0; h < 20; h++) {
                        double middle = 0.5 * (low + high);
                        double r = radius + middle;
                        boolean copper = field.exactMarginMm(x + dx * r, y + dy * r) > 0;
                        low = copper ? middle : low;
                        high = copper ? high : middle;
                    }
                    best = high;
                    break;
                }
            }
        }
        return Math.max(0, best);
    }

    @Test
    void shouldMeasureTheRingBesideAStraightGrooveByClosedForm() {
        // A cut of half width 0.396875 along y = 2.5, a hole of 0.3 round (2, 1.5) mm: 1 - 0.396875 - 0.3.
        GrooveField field = new GrooveField(4, 4, CELL_MM, FOIL_MM, 0.3).flat(-1, 2.5, 5, 2.5, 0.2, 0.396875);
        double ring = new RingMeter(CopperMap.of(field, 0)).ringMm(2, 1.5, 0.3, 5);
        assertThat(ring).isCloseTo(0.303125, within(1e-7));
    }

    @Test
    void shouldFindNoRingWhereTheHoleStandsInAGroove() {
        GrooveField field = new GrooveField(4, 4, CELL_MM, FOIL_MM, 0.3).flat(-1, 2, 5, 2, 0.2, 0.6);
        assertThat(new RingMeter(CopperMap.of(field, 0)).ringMm(2, 2, 0.3, 5)).isLessThan(1e-7);
    }

    @Test
    void shouldFindTheLeastOfAllRaysThoughItPassesMostOver() {
        for (long seed = 1; seed <= 60; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            GrooveField field = new GrooveField(4, 4, CELL_MM, FOIL_MM, 0.3);
            for (int k = 0; k < 7; k++) {
                double x = random.nextDouble(0, 4);
                double y = random.nextDouble(0, 4);
                double turn = random.nextDouble(0, 6.283);
                double length = random.nextDouble(0, 2.5);
                double x1 = x + length * StrictMath.cos(turn);
                double y1 = y + length * StrictMath.sin(turn);
                if (random.nextBoolean()) {
                    field.v30(x, y, x1, y1, random.nextDouble(0.03, 0.2));
                } else {
                    field.flat(x, y, x1, y1, 0.2, random.nextDouble(0.05, 0.5));
                }
            }
            RingMeter meter = new RingMeter(CopperMap.of(field, 0));
            for (int k = 0; k < 5; k++) {
                double x = random.nextDouble(0.5, 3.5);
                double y = random.nextDouble(0.5, 3.5);
                double radius = random.nextDouble(0.1, 0.4);
                // A wall that grazes a ray within one step of the walk is met by the one and not by the other.
                assertThat(meter.ringMm(x, y, radius, 5))
                        .as("seed %d, hole %d", seed, k)
                        .isCloseTo(everyRay(field, x, y, radius), within(0.001));
            }
        }
    }
}
