package foilproof.stock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Every kernel against brute force: the tip set down at many places along each move, which may only lie above the exact
 * surface, and by no more than the spacing of the places allows.
 */
class SweepExactnessTest {
    private static final double CELL = 0.02;
    private static final int PLACES = 1500;

    private static List<ToolProfile> profiles() {
        return List.of(
                ToolProfile.flat(0.8, 0),
                ToolProfile.flat(0.8, 0.02),
                StockFixtures.v30(0.1),
                StockFixtures.v30(0),
                ToolProfile.vFlatTip(StockFixtures.rad(120), 0.1, 1.2, 0.01),
                ToolProfile.vRoundTip(StockFixtures.rad(40), 0.1, 1.2, 0),
                ToolProfile.vRoundTip(StockFixtures.rad(40), 0.1, 1.2, 0.03),
                ToolProfile.ball(0.9, 0),
                ToolProfile.ball(0.9, 0.03),
                ToolProfile.drill(0.8, StockFixtures.rad(118), 0));
    }

    private static CutPath randomMove(Random random, int kind) {
        double x = 6 + 2 * random.nextDouble();
        double y = 6 + 2 * random.nextDouble();
        double z = -0.3 * random.nextDouble();
        double z1 = kind % 2 == 0 ? z : -0.6 * random.nextDouble();
        if (kind < 2) {
            double a = 7 * random.nextDouble();
            double l = 0.05 + 1.5 * random.nextDouble();
            return CutPath.builder()
                    .line(x, y, z, x + l * StrictMath.cos(a), y + l * StrictMath.sin(a), z1)
                    .build();
        }
        double a = 7 * random.nextDouble();
        double r = 0.05 + 0.9 * random.nextDouble();
        double sweep = (random.nextBoolean() ? 1 : -1) * (0.1 + 7 * random.nextDouble());
        return CutPath.builder()
                .arc(x, y, z, x + r * StrictMath.cos(a), y + r * StrictMath.sin(a), sweep, z1)
                .build();
    }

    private static double bruteMm(CutPath path, ToolProfile profile, double x, double y) {
        double best = Double.POSITIVE_INFINITY;
        for (int k = 0; k <= PLACES; k++) {
            double f = (double) k / PLACES;
            double px = path.x0Mm[0] + (path.x1Mm[0] - path.x0Mm[0]) * f;
            double py = path.y0Mm[0] + (path.y1Mm[0] - path.y0Mm[0]) * f;
            if (path.sweepRad[0] != 0) {
                double c = Math.cos(path.sweepRad[0] * f);
                double s = Math.sin(path.sweepRad[0] * f);
                double dx = path.x0Mm[0] - path.cxMm[0];
                double dy = path.y0Mm[0] - path.cyMm[0];
                px = path.cxMm[0] + dx * c - dy * s;
                py = path.cyMm[0] + dx * s + dy * c;
            }
            best = Math.min(best, path.zMm(0, f) + profile.riseMm(Math.hypot(x - px, y - py)));
        }
        return best;
    }

    @Test
    void shouldLieExactlyAtTheLowestPlaceThatTheCutterReaches() {
        long seed = 4711;
        Random random = new Random(seed);
        List<String> wrong = new ArrayList<>();
        List<ToolProfile> profiles = profiles();
        for (ToolProfile profile : profiles) {
            for (int kind = 0; kind < 4; kind++) {
                for (int n = 0; n < 5; n++) {
                    CutPath path = randomMove(random, kind);
                    check(
                            path,
                            profile,
                            random,
                            wrong,
                            "seed " + seed + " kind " + kind + " profile " + profiles.indexOf(profile) + " n " + n);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    @Test
    void shouldBoreExactlyWithAFlatCutterOnAGentleHelix() {
        long seed = 31;
        Random random = new Random(seed);
        for (int n = 0; n < 30; n++) {
            double r = 0.05 + 0.6 * random.nextDouble();
            ToolProfile mill = ToolProfile.flat(0.3 + 0.7 * random.nextDouble(), 0.01 * (n % 2));
            double a = 7 * random.nextDouble();
            double turns = (random.nextBoolean() ? 1 : -1) * (1 + 6 * random.nextDouble());
            double z = -0.3 * random.nextDouble();
            double fall = (random.nextBoolean() ? 1 : -1) * 0.045 * Math.abs(turns);
            CutPath path = CutPath.builder()
                    .arc(10 + r * StrictMath.cos(a), 8 + r * StrictMath.sin(a), z, 10, 8, turns, z - fall)
                    .build();
            Envelope envelope = StockFixtures.sweep(path, mill, CELL);
            for (int k = 0; k < 3000; k++) {
                int i = (int) Math.floor((10 + 3 * (random.nextDouble() - 0.5)) / CELL);
                int j = (int) Math.floor((8 + 3 * (random.nextDouble() - 0.5)) / CELL);
                double x = (i + 0.5) * CELL;
                double y = (j + 0.5) * CELL;
                double grid = envelope.heightMm(i, j);
                if (Math.abs(grid - envelope.exactHeightMm(x, y)) > 2e-5) {
                    // Only within a hair of the wall or of a step of the floor may single precision differ.
                    double near = 2e-6;
                    double low = Double.MAX_VALUE;
                    double high = -Double.MAX_VALUE;
                    for (int d = 0; d < 8; d++) {
                        double at = envelope.exactHeightMm(
                                x + near * Math.cos(d * Math.PI / 4), y + near * Math.sin(d * Math.PI / 4));
                        low = Math.min(low, at);
                        high = Math.max(high, at);
                    }
                    assertThat(grid)
                            .as("seed %d bore %d cell %d %d", seed, n, i, j)
                            .isBetween(low - 1e-4, high + 1e-4);
                    assertThat(high - low).as("at a wall").isGreaterThan(1e-4);
                }
            }
        }
    }

    private static void check(CutPath path, ToolProfile profile, Random random, List<String> wrong, String what) {
        Envelope envelope = StockFixtures.sweep(path, profile, CELL);
        double slope = Math.max(profile.coneRise(), 30);
        double step = (Math.hypot(path.x1Mm[0] - path.x0Mm[0], path.y1Mm[0] - path.y0Mm[0])
                        + Math.abs(path.sweepRad[0]) * 1.5)
                / PLACES;
        for (int k = 0; k < 40; k++) {
            double x = path.x0Mm[0] + 3 * (random.nextDouble() - 0.5);
            double y = path.y0Mm[0] + 3 * (random.nextDouble() - 0.5);
            double brute = Math.min(envelope.capMm(), bruteMm(path, profile, x, y));
            double exact = envelope.exactHeightMm(x, y);
            boolean below = exact > brute + 1e-7;
            // Within a hair of an upright wall the places along the move may all fall outside it.
            boolean above = exact < brute - slope * step - 1e-9 && !wallWithin(path, profile, x, y, 2 * step + 1e-6);
            if (below || above) {
                wrong.add(what + " at " + x + ", " + y + ": exact " + exact + ", brute " + brute);
            }
        }
        for (int k = 0; k < 40; k++) {
            int i = (int) Math.floor((path.x0Mm[0] + 3 * (random.nextDouble() - 0.5)) / CELL);
            int j = (int) Math.floor((path.y0Mm[0] + 3 * (random.nextDouble() - 0.5)) / CELL);
            double x = (i + 0.5) * CELL;
            double y = (j + 0.5) * CELL;
            double grid = envelope.heightMm(i, j);
            double exact = envelope.exactHeightMm(x, y);
            if (Math.abs(grid - exact) > 2e-6 && !wallWithin(path, profile, x, y, 1e-6)) {
                wrong.add(what + " cell " + i + ", " + j + ": grid " + grid + ", exact " + exact);
            }
        }
    }

    /** Whether the brute surface with the wall moved a little in and out differs: the point is at a wall. */
    private static boolean wallWithin(CutPath path, ToolProfile profile, double x, double y, double d) {
        for (int k = 0; k < 8; k++) {
            double a = k * Math.PI / 4;
            double near = bruteMm(path, profile, x + d * Math.cos(a), y + d * Math.sin(a));
            double here = bruteMm(path, profile, x, y);
            if (Double.isInfinite(near) != Double.isInfinite(here) || Math.abs(near - here) > 0.01) {
                return true;
            }
        }
        return false;
    }
}
