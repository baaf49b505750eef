package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sources: uniformly accelerated motion in closed form; the expected figures are rows T1 to T5 and T11 of the check values (T1b is printed
 * truncated there: 100/25.4 + 25.4/500 = 3.98780787). */
class TrapezoidTest {
    @ParameterizedTest(name = "{0}: d {1}, v {2}, a {3}, {4} -> {5}")
    @CsvSource({
        "T1a, 10, 25.4, 500, 0, 0, 0.4445008",
        "T1b, 100, 25.4, 500, 0, 0, 3.9878078",
        "T1c, 100, 50, 250, 0, 0, 2.2",
        "T2a, 1, 25.4, 500, 0, 0, 0.0894427",
        "T2b, 0.1, 25.4, 500, 0, 0, 0.0282843",
        "T2c, 5, 50, 250, 0, 0, 0.2828427",
        "T3, 10, 50, 250, 0, 0, 0.4",
        "T4a, 10, 25, 500, 5, 10, 0.425",
        "T4b, 0.5, 25, 500, 5, 10, 0.0407107",
        "T4c, 1, 25, 500, 0, 20, 0.066",
    })
    void shouldTakeTheTimeOfTheClosedForm(
            String row, double d, double v, double a, double v0, double v1, double expectedS) {
        assertThat(Trapezoid.durationS(d, v, a, v0, v1)).isCloseTo(expectedS, within(1e-7));
    }

    @Test
    void shouldReachThePeakOfTheTriangle() {
        // T2: peak sqrt(a d). T4: vp = min(v, sqrt((2ad + v0^2 + v1^2)/2)).
        assertThat(Trapezoid.peakMmPerS(1, 25.4, 500, 0, 0)).isCloseTo(22.3607, within(5e-5));
        assertThat(Trapezoid.peakMmPerS(0.5, 25, 500, 5, 10)).isCloseTo(17.67767, within(5e-6));
    }

    @Test
    void shouldCutAnExitThatTheDistanceDoesNotAllow() {
        // T5: d 0.05, a 500 from rest reaches sqrt(2 a d) = 7.0711 mm/s; 20 mm/s would need 0.4 mm.
        assertThat(Trapezoid.reachable(0, 0.05, 500)).isCloseTo(7.0711, within(5e-5));
        assertThat(Trapezoid.reachable(0, 0.4, 500)).isCloseTo(20, within(1e-12));
    }

    @Test
    void shouldTakeNoMoreThanTheProgrammedTimeWithoutAcceleration() {
        assertThat(Trapezoid.durationS(10, 25, Double.POSITIVE_INFINITY, 0, 0)).isCloseTo(0.4, within(1e-12));
    }

    @Test
    void shouldAgreeWithStepwiseIntegrationOnSeededMoves() {
        long seed = 20260101;
        SplittableRandom random = new SplittableRandom(seed);
        for (int n = 0; n < 200; n++) {
            double a = random.nextDouble(50, 2000);
            double v = random.nextDouble(1, 60);
            double d = random.nextDouble(0.01, 20);
            double v0 = random.nextDouble(0, v);
            double v1 = Math.min(random.nextDouble(0, v), Trapezoid.reachable(v0, d, a));
            v0 = Math.min(v0, Trapezoid.reachable(v1, d, a));
            double peak = Trapezoid.peakMmPerS(d, v, a, v0, v1);
            double duration = Trapezoid.durationS(d, v, a, v0, v1);
            // Independent route: integrate 1/speed over the path, speed the lower of the three envelopes (midpoints).
            double sum = 0;
            int steps = 20_000;
            for (int k = 0; k < steps; k++) {
                double x = (k + 0.5) / steps * d;
                double speed =
                        Math.min(v, Math.min(Math.sqrt(v0 * v0 + 2 * a * x), Math.sqrt(v1 * v1 + 2 * a * (d - x))));
                sum += d / steps / speed;
            }
            assertThat(duration).as("seed %d, move %d", seed, n).isCloseTo(sum, within(2e-3 * sum + 1e-4));
            double mid = Trapezoid.fraction(d, peak, a, v0, v1, duration, duration / 2);
            assertThat(mid).as("seed %d, move %d", seed, n).isBetween(0.0, 1.0);
            assertThat(Trapezoid.fraction(d, peak, a, v0, v1, duration, duration * (1 - 1e-12)))
                    .as("seed %d, move %d", seed, n)
                    .isCloseTo(1, within(1e-8));
        }
    }

    @Test
    void shouldAddTheJerkLimitsShareToARestToRestMove() {
        // T11: T = d/v + v/a + a/j, d 10, v 25, a 500, j 20 000.
        assertThat(Trapezoid.jerkLimitedS(10, 25, 500, 20_000)).isCloseTo(0.475, within(1e-12));
        // Without a limit to speak of it is T1.
        assertThat(Trapezoid.jerkLimitedS(10, 25.4, 500, 1e15)).isCloseTo(0.4445008, within(1e-7));
        assertThat(Trapezoid.jerkLimitedS(1, 25.4, 500, 1e15)).isCloseTo(0.0894427, within(1e-7));
        // Neither speed nor acceleration reached: four parts of constant jerk, T = 4 (d / 2j)^(1/3).
        assertThat(Trapezoid.jerkLimitedS(0.01, 1000, 1e6, 20_000))
                .isCloseTo(4 * StrictMath.cbrt(0.01 / 40_000), within(1e-12));
    }

    @Test
    void shouldTakeTheJerkLimitedTimeThatSteppingThroughTheProfileTakes() {
        long seed = 5;
        SplittableRandom random = new SplittableRandom(seed);
        for (int n = 0; n < 60; n++) {
            double v = random.nextDouble(2, 60);
            double a = random.nextDouble(50, 1000);
            double j = random.nextDouble(1000, 100_000);
            double d = StrictMath.exp(random.nextDouble(-5, 4));
            // Independent route: the fastest symmetric profile found by bisection on its top speed, its way summed up.
            double low = 0;
            double high = v;
            for (int k = 0; k < 60; k++) {
                double middle = (low + high) / 2;
                if (rampWay(middle, a, j) * 2 <= d) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            double expected = 2 * rampTime(low, a, j) + (d - 2 * rampWay(low, a, j)) / low;
            assertThat(Trapezoid.jerkLimitedS(d, v, a, j))
                    .as("seed %d, move %d", seed, n)
                    .isCloseTo(expected, within(1e-6 * expected + 1e-9));
        }
    }

    private static double rampTime(double v, double a, double j) {
        double top = Math.min(a, Math.sqrt(v * j));
        return 2 * top / j + (v - top * top / j) / top;
    }

    private static double rampWay(double v, double a, double j) {
        double top = Math.min(a, Math.sqrt(v * j));
        double rise = top / j;
        double hold = (v - top * top / j) / top;
        double v1 = j * rise * rise / 2;
        double x1 = j * rise * rise * rise / 6;
        double v2 = v1 + top * hold;
        double x2 = v1 * hold + top * hold * hold / 2;
        return x1 + x2 + v2 * rise + top * rise * rise / 2 - j * rise * rise * rise / 6;
    }
}
