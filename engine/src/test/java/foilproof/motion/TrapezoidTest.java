package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sources: uniformly accelerated motion in closed form; the expected figures are rows T1 to T5 of the check values (T1b is printed
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
}
