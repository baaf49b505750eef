package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.language.PathMode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sources: rows T6 to T15 of the check values (closed forms); NISTIR 6556 sections 2.1.2.4, 2.1.2.16 and 4.3.5.3. */
class TimingTest {
    private static final MachineLimits FAST = limits(500, 1e9);

    private static MachineLimits limits(double acceleration, double rapid) {
        return new MachineLimits(rapid, rapid, rapid, Double.POSITIVE_INFINITY, acceleration, 100);
    }

    /** A chain of feed lines through the points, mm, at {@code feed} mm/s. */
    private static SegmentsBuilder lines(PathMode mode, double feed, double[]... points) {
        SegmentsBuilder b = new SegmentsBuilder(8);
        for (int k = 1; k < points.length; k++) {
            int i = b.add();
            b.kind[i] = 1;
            b.x0Mm[i] = points[k - 1][0];
            b.y0Mm[i] = points[k - 1][1];
            b.z0Mm[i] = points[k - 1][2];
            b.x1Mm[i] = points[k][0];
            b.y1Mm[i] = points[k][1];
            b.z1Mm[i] = points[k][2];
            b.feedMmPerMin[i] = feed * 60;
            b.pathMode[i] = (byte) mode.ordinal();
            b.deviationMm[i] = 0.01f;
        }
        return b;
    }

    private static double[] at(double x, double y, double z) {
        return new double[] {x, y, z};
    }

    private static SegmentsBuilder tenMillimetres(PathMode mode) {
        double[][] points = new double[11][];
        for (int k = 0; k <= 10; k++) {
            points[k] = at(k, 0, 0);
        }
        return lines(mode, 25.4, points);
    }

    @Test
    void shouldStopTenTimesInExactStopModeAndNeverAcrossStraightJoinsInTheOthers() {
        // T6, T14: full stop each 0.894427 s; as one block 0.444501 s; the constant-speed estimate is 0.393701 s.
        assertThat(new Timing(tenMillimetres(PathMode.EXACT_STOP), FAST).run(0, 10, 0))
                .isCloseTo(0.894427, within(5e-7));
        assertThat(new Timing(tenMillimetres(PathMode.EXACT_PATH), FAST).run(0, 10, 0))
                .isCloseTo(0.444501, within(5e-7));
        Timing continuous = new Timing(tenMillimetres(PathMode.CONTINUOUS), FAST);
        assertThat(continuous.run(0, 10, 0)).isCloseTo(0.444501, within(5e-7));
        assertThat(continuous.feedOnlyS()).isCloseTo(0.393701, within(5e-7));
    }

    @ParameterizedTest
    @CsvSource({"0.5, 15.8114", "1, 22.3607", "5, 50.0"})
    void shouldLimitTheSpeedOnArcs(double radius, double expected) {
        // T7: v = sqrt(a R), a 500.
        assertThat(Corner.arcSpeedMmPerS(radius, 500)).isCloseTo(expected, within(5e-5));
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 1000, at(radius, 0, 0), at(radius, 0, 0));
        b.sweepRad[0] = 40 * Math.PI;
        new Timing(b, FAST).run(0, 1, 0);
        assertThat(b.peakMmPerMin[0] / 60).isCloseTo(expected, within(5e-5));
    }

    @ParameterizedTest
    @CsvSource({"60, 2.23607", "90, 3.47434", "120, 5.68511", "135, 7.79008", "150, 11.90541", "175, 72.44531", "0, 0"})
    void shouldTakeCornersByAFittedArc(double interiorDeg, double expected) {
        // T8: R = e sin(A/2)/(1 - sin(A/2)), v = sqrt(a R), e 0.01, a 500. Sides long enough to hold the arc.
        double interior = StrictMath.toRadians(interiorDeg);
        assertThat(Corner.speedMmPerS(interior, 0.01, 500)).isCloseTo(expected, within(6e-6));
        double turn = Math.PI - interior;
        SegmentsBuilder b = lines(
                PathMode.CONTINUOUS,
                100,
                at(-100, 0, 0),
                at(0, 0, 0),
                at(100 * StrictMath.cos(turn), 100 * StrictMath.sin(turn), 0));
        // deviation is kept as float: 0.01f differs from 0.01 by 2e-8 relative.
        new Timing(b, FAST).run(0, 2, 0);
        assertThat((double) b.exitMmPerS[0]).isCloseTo(expected, within(1e-4));
        assertThat(b.entryMmPerS[1]).isEqualTo(b.exitMmPerS[0]);
    }

    @Test
    void shouldNotSlowDownWhereThePathGoesStraightOn() {
        assertThat(Corner.radiusMm(Math.PI, 0.01)).isInfinite();
    }

    @ParameterizedTest
    @CsvSource({"60, 1.00000", "90, 2.41421", "120, 6.46410"})
    void shouldFitTheCornersRadius(double interiorDeg, double expected) {
        // T9: R/e.
        assertThat(Corner.radiusMm(StrictMath.toRadians(interiorDeg), 1)).isCloseTo(expected, within(5e-6));
    }

    @Test
    void shouldCutAnExitThatAShortMoveDoesNotAllow() {
        // T5: 0.05 mm from rest at a 500 gives 7.0711 mm/s, whatever the corner allows.
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 20, at(0, 0, 0), at(0.05, 0, 0), at(50, 0, 0));
        new Timing(b, FAST).run(0, 2, 0);
        assertThat((double) b.exitMmPerS[0]).isCloseTo(7.0711, within(5e-5));
    }

    @ParameterizedTest
    @CsvSource({"30, 40, 10, 0.8", "3, 0, 10, 0.5"})
    void shouldCoordinateRapidsWithinEachAxisLimit(double x, double y, double z, double expectedS) {
        // T12: vx, vy 50, vz 20 mm/s, no acceleration taken into account.
        MachineLimits machine = new MachineLimits(3000, 3000, 1200, 1e9, Double.POSITIVE_INFINITY, 100);
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 1, at(0, 0, 0), at(x, y, z));
        b.kind[0] = 0;
        Timing timing = new Timing(b, machine);
        assertThat(timing.run(0, 1, 0)).isCloseTo(expectedS, within(1e-12));
        assertThat(timing.feedOnlyS()).isZero();
    }

    @Test
    void shouldCountTheFeedAlongThePathInThreeDimensions() {
        // T13: move (3, 4, 12) at F 600 takes 1.3 s.
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 10, at(0, 0, 0), at(3, 4, 12));
        Timing timing = new Timing(b, limits(Double.POSITIVE_INFINITY, 1e9));
        assertThat(timing.run(0, 1, 0)).isCloseTo(1.3, within(1e-12));
        // T15: with acceleration it takes longer than the feed-only reading.
        Timing real = new Timing(b, FAST);
        assertThat(real.run(0, 1, 0)).isGreaterThan(real.feedOnlyS());
    }

    @Test
    void shouldTimeAHelixAlongItsLength() {
        // C30: length sqrt((10 pi)^2 + 1) = 31.43184 mm at F 100 takes 18.8591 s; NISTIR 6556 section 2.1.2.6.
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 100.0 / 60, at(0, 0, 0), at(0, 0, -1));
        b.cxMm[0] = 5;
        b.sweepRad[0] = 2 * Math.PI;
        assertThat(new Timing(b, limits(Double.POSITIVE_INFINITY, 1e9)).run(0, 1, 0))
                .isCloseTo(18.8591, within(5e-5));
    }

    @Test
    void shouldStopAtCornersButNotAtTangentArcsInExactPathMode() {
        // T14 and NISTIR 6556 section 4.3.5.3: line, tangent quarter arc, then a square corner.
        SegmentsBuilder b =
                lines(PathMode.EXACT_PATH, 5, at(0, 0, 0), at(10, 0, 0), at(15, 5, 0), at(15, 15, 0), at(25, 15, 0));
        b.cxMm[1] = 10;
        b.cyMm[1] = 5;
        b.sweepRad[1] = Math.PI / 2;
        new Timing(b, FAST).run(0, 4, 0);
        assertThat(b.exitMmPerS[0]).isEqualTo(5f);
        assertThat(b.exitMmPerS[1]).isEqualTo(5f);
        assertThat(b.exitMmPerS[2]).isZero();
    }

    @Test
    void shouldRunAPolygonNearlyAsFastAsTheArcItStandsFor() {
        // Derived in Timing: the arc that fits half a chord has the circle's radius, so v tends to sqrt(a R).
        double radius = 2;
        int sides = 400;
        double[][] points = new double[10 * sides + 1][];
        for (int k = 0; k <= 10 * sides; k++) {
            double angle = 2 * Math.PI * k / sides;
            points[k] = at(radius * StrictMath.cos(angle), radius * StrictMath.sin(angle), 0);
        }
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 1000, points);
        new Timing(b, FAST).run(0, 10 * sides, 0);
        assertThat(b.exitMmPerS[5 * sides] / Corner.arcSpeedMmPerS(radius, 500)).isBetween(0.99, 1.01);
    }

    @Test
    void shouldKeepEverySpeedWithinReachOfItsNeighbours() {
        java.util.SplittableRandom random = new java.util.SplittableRandom(7);
        double[][] points = new double[500][];
        for (int k = 0; k < points.length; k++) {
            points[k] = at(random.nextDouble(0, 5), random.nextDouble(0, 5), random.nextDouble(-1, 0));
        }
        SegmentsBuilder b = lines(PathMode.CONTINUOUS, 30, points);
        double end = new Timing(b, FAST).run(0, 499, 3);
        double sum = 3;
        for (int i = 0; i < 499; i++) {
            double dx = b.x1Mm[i] - b.x0Mm[i];
            double dy = b.y1Mm[i] - b.y0Mm[i];
            double dz = b.z1Mm[i] - b.z0Mm[i];
            double length = Math.sqrt(dx * dx + dy * dy + dz * dz);
            double gain = Math.abs(b.exitMmPerS[i] * b.exitMmPerS[i] - b.entryMmPerS[i] * b.entryMmPerS[i]);
            assertThat(gain).as("seed 7, segment %d", i).isLessThanOrEqualTo(2 * 500 * length * (1 + 1e-5) + 1e-5);
            assertThat(b.startS[i]).isEqualTo(sum);
            sum += b.durationS[i];
        }
        assertThat(end).isEqualTo(sum);
        assertThat(b.entryMmPerS[0]).isZero();
        assertThat(b.exitMmPerS[498]).isZero();
    }
}
