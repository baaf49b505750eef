package foilproof.geom;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.CGAlgorithmsDD;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.triangulate.quadedge.TrianglePredicate;

/** Judged by JTS 1.20 (extended precision), which the product does not use. */
class PredicatesTest {
    @Test
    void shouldTellTheSideOfPointsALastDigitOffALine() {
        long seed = 5;
        Random random = new Random(seed);
        int zero = 0;
        for (int i = 0; i < 20_000; i++) {
            double ax = random.nextInt(100) / 10.0;
            double ay = random.nextInt(100) / 10.0;
            double bx = ax + random.nextInt(50) / 8.0;
            double by = ay + random.nextInt(50) / 8.0;
            double t = random.nextInt(9) / 4.0;
            double cx = nudge(ax + t * (bx - ax), random);
            double cy = nudge(ay + t * (by - ay), random);
            int expected = CGAlgorithmsDD.orientationIndex(ax, ay, bx, by, cx, cy);
            assertThat(Predicates.orientation(ax, ay, bx, by, cx, cy))
                    .as("seed %d round %d", seed, i)
                    .isEqualTo(expected);
            assertThat(Predicates.orientation(bx, by, ax, ay, cx, cy)).isEqualTo(-expected);
            zero += expected == 0 ? 1 : 0;
        }
        assertThat(zero).as("the test meets points on the line").isPositive();
    }

    private static double nudge(double value, Random random) {
        // Beside zero the next double is so small that the judge's 106 bits do not hold the products.
        return switch (value == 0 ? 0 : random.nextInt(3)) {
            case 0 -> value;
            case 1 -> Math.nextUp(value);
            default -> Math.nextDown(value);
        };
    }

    @Test
    void shouldTellTheSideOfPointsALastDigitOffACircle() {
        double[][] circle = {
            {5, 0}, {4, 3}, {3, 4}, {0, 5}, {-3, 4}, {-4, 3}, {-5, 0}, {-4, -3}, {-3, -4}, {0, -5}, {3, -4}, {4, -3}
        };
        long seed = 6;
        Random random = new Random(seed);
        int zero = 0;
        for (int i = 0; i < 20_000; i++) {
            int a = random.nextInt(10);
            int b = a + 1 + random.nextInt(11 - a);
            int c = b + 1 >= 12 ? b : b + 1 + random.nextInt(12 - b - 1);
            if (c == b) {
                continue;
            }
            double[] d = circle[random.nextInt(12)];
            double dx = nudge(d[0], random);
            double dy = nudge(d[1], random);
            int got = Predicates.inCircle(
                    circle[a][0], circle[a][1], circle[b][0], circle[b][1], circle[c][0], circle[c][1], dx, dy);
            double squared = new java.math.BigDecimal(dx)
                    .pow(2)
                    .add(new java.math.BigDecimal(dy).pow(2))
                    .subtract(java.math.BigDecimal.valueOf(25))
                    .signum();
            assertThat(got).as("seed %d round %d", seed, i).isEqualTo((int) -squared);
            zero += got == 0 ? 1 : 0;
        }
        assertThat(zero).isPositive();
    }

    @Test
    void shouldAgreeWithTheJudgeOnSeededCircles() {
        long seed = 7;
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            double[] p = random.doubles(8, -50, 50).toArray();
            int turn = Predicates.orientation(p[0], p[1], p[2], p[3], p[4], p[5]);
            boolean inside = TrianglePredicate.isInCircleDDSlow(
                    new Coordinate(p[0], p[1]),
                    new Coordinate(p[2], p[3]),
                    new Coordinate(p[4], p[5]),
                    new Coordinate(p[6], p[7]));
            int got = Predicates.inCircle(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7]);
            assertThat(got > 0).as("seed %d round %d turn %d", seed, i, turn).isEqualTo(inside);
        }
    }

    @Test
    void shouldStayRightWhereProductsVanish() {
        double tiny = Double.MIN_VALUE;
        assertThat(Predicates.orientation(0, 0, tiny, 0, 0, tiny)).isEqualTo(1);
        assertThat(Predicates.inCircle(0, 0, tiny, 0, 0, tiny, tiny, tiny)).isZero();
    }
}
