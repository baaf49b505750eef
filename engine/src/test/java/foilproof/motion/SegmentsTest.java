package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Machine;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Geometry of single segments, by elementary geometry and by sampling. */
class SegmentsTest {
    @Test
    void shouldBoxArcsExactly() {
        long seed = 42;
        SplittableRandom random = new SplittableRandom(seed);
        for (int n = 0; n < 300; n++) {
            PathSketch sketch = new PathSketch().run(1, Jobs.CUTTER);
            sketch.rapidTo(random.nextDouble(-5, 5), random.nextDouble(-5, 5), 1);
            double sweep = random.nextDouble(-2 * Math.PI, 2 * Math.PI);
            sketch.arc(random.nextDouble(-5, 5), random.nextDouble(-5, 5), sweep, -1);
            Segments s = sketch.build().segments();
            int arc = s.size() - 1;
            double[] box = s.planBox(arc);
            double[] seen = {1e9, 1e9, -1e9, -1e9};
            for (int k = 0; k <= 2000; k++) {
                double[] p = s.pointAt(arc, k / 2000.0);
                seen[0] = Math.min(seen[0], p[0]);
                seen[1] = Math.min(seen[1], p[1]);
                seen[2] = Math.max(seen[2], p[0]);
                seen[3] = Math.max(seen[3], p[1]);
            }
            assertThat(box).as("seed %d, arc %d", seed, n).containsExactly(seen, within(5e-5));
            assertThat(box[0]).isLessThanOrEqualTo(seen[0] + 1e-12);
            assertThat(box[3]).isGreaterThanOrEqualTo(seen[3] - 1e-12);
        }
    }

    @Test
    void shouldTellDirectionsAndCorners() {
        Segments s = new PathSketch()
                .run(1, Jobs.CUTTER)
                .rapidTo(0, 0, 0)
                .feedTo(10, 0, 0)
                .arc(10, 5, Math.PI / 2, 0)
                .feedTo(15, 15, 0)
                .feedTo(5, 15, 0)
                .feedTo(8, 15, 0)
                .build()
                .segments();
        assertThat(s.direction(2, true)).containsExactly(new double[] {0, 1, 0}, within(1e-12));
        assertThat(s.cornerTurnRad(2)).isCloseTo(0, within(1e-7));
        assertThat(s.cornerTurnRad(3)).isCloseTo(0, within(1e-7));
        assertThat(s.cornerTurnRad(4)).isCloseTo(Math.PI / 2, within(1e-12));
        assertThat(s.cornerTurnRad(5)).isCloseTo(Math.PI, within(1e-7));
        assertThat(s.cornerTurnRad(0)).isZero();
        assertThat(s.isPlunge(0)).isTrue();
        assertThat(s.isPlunge(1)).isFalse();
    }

    @Test
    void shouldFindTheSegmentOfAMoment() {
        MotionPlan plan = new PathSketch()
                .run(1, Jobs.CUTTER)
                .rapidTo(0, 0, 0)
                .feedTo(10, 0, 0)
                .feedTo(10, 10, 0)
                .build();
        Segments s = plan.segments();
        for (int i = 0; i < s.size(); i++) {
            assertThat(s.at(s.startS(i))).isEqualTo(i);
            assertThat(s.at(s.startS(i) + s.durationS(i) / 2)).isEqualTo(i);
        }
        assertThat(s.at(-0.001)).isEqualTo(-1);
        assertThat(s.at(1e6)).isEqualTo(s.size() - 1);
        assertThat(plan.totals().totalS()).isEqualTo(plan.runs().get(0).endS());
        assertThat(plan.totals().rapidS() + plan.totals().cuttingS())
                .isCloseTo(plan.totals().totalS(), within(1e-12));
    }

    @Test
    void shouldRunAxesOneAfterTheOtherOnADogleg() {
        // needs.md A8. X 50 mm/s, Z 20 mm/s: 3 mm of X take 0.06 s, 10 mm of Z 0.5 s; Y stays.
        Segments s = new PathSketch()
                .run(1, Jobs.CUTTER)
                .rapidTo(0, 0, 0)
                .rapidTo(3, 0, 10)
                .build()
                .segments();
        double[][] corners = Dogleg.corners(s, 1, new Machine.AxisFeeds(3000, 3000, 1200));
        assertThat(corners.length).isEqualTo(3);
        assertThat(corners[0]).containsExactly(0, 0, 0);
        assertThat(corners[1]).containsExactly(new double[] {3, 0, 1.2}, within(1e-12));
        assertThat(corners[2]).containsExactly(3, 0, 10);
    }

    @Test
    void shouldMoveTheTipWithoutJumpsThroughTheWholePlan() {
        String text =
                "G21 G90 G94 G17\nT1 M6\nM3 S20000\nG4 P1\nG0 X1 Y1 Z1\nF300\nG1 Z-0.1\nG1 X9\nG3 X9 Y9 J4\nG1 X1\n"
                        + "G0 Z2\nG0 X20 Y20\nM5\nM2\n";
        MotionPlan plan = Jobs.job().program(text).plan();
        assertThat(plan.programs().get(0).interpretation().errors()).isEmpty();
        TipState before = plan.tipAt(0);
        double step = 0.01;
        for (double t = step; t < plan.totals().totalS(); t += step) {
            TipState now = plan.tipAt(t);
            double moved = Math.sqrt(Math.pow(now.xMm() - before.xMm(), 2)
                    + Math.pow(now.yMm() - before.yMm(), 2)
                    + Math.pow(now.zMm() - before.zMm(), 2));
            // No faster than the rapids allow together: 2500 and 2500 and 1000 mm/min.
            assertThat(moved).as("at %.3f s", t).isLessThanOrEqualTo(Math.sqrt(2 * 2500.0 * 2500 + 1e6) / 60 * step);
            assertThat(now.line()).isGreaterThanOrEqualTo(before.line());
            before = now;
        }
    }
}
