package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.Job;
import foilproof.bench.Machine;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever the programs say, the plan is whole: no exception, times finite and in order, runs that cover everything. */
class MotionFuzzTest {
    /** Lines that mostly stand by themselves; # is a coordinate, @ a small offset that is not 0. */
    private static final String[] LINES = {
        "G0 X# Y#",
        "G0 Z2",
        "G1 X# Y# Z#",
        "G1 X#",
        "G1 Z#",
        "G1 X# Y#",
        "G17 G2 I@ J@",
        "G17 G3 I@ Z#",
        "G17 G2 X# Y# R9",
        "G18 G2 I@ K@ X# Z#",
        "G18 G3 I@ K@",
        "G19 G3 J@ K@",
        "G19 G2 J@",
        "G91",
        "G90",
        "G91 G1 X@ Y@",
        "G90 G1 X1 Y1",
        "G98 G81 X# Y# Z-1 R1",
        "G99 G83 X# Y# Z-1.5 R1 Q0.4",
        "G82 X# Y# Z-1 R1 P0.1",
        "G73 X# Y# Z-1 R1 Q0.3",
        "G80",
        "G28",
        "G91 G28 Z0",
        "G30",
        "G53 G0 Z0",
        "G53 G0 X1 Y1",
        "G20",
        "G21",
        "G54",
        "G55",
        "G92 X0 Y0",
        "G92.1",
        "G10 L2 P1 X1",
        "G93 G1 X# F20",
        "G94 F200",
        "F0",
        "F500",
        "F9000",
        "S12000 M3",
        "M4",
        "M5",
        "M7",
        "M9",
        "M0",
        "M1",
        "T1 M6",
        "T2 M6",
        "T3 M6",
        "T0 M6",
        "T2",
        "M6",
        "G43 H1",
        "G43 H2",
        "G49",
        "G4 P0.2",
        "G61",
        "G61.1",
        "G64",
        "G64 P0.05",
        "G38.2 Z-3",
        "(MSG, hello)",
        "G0 X1",
        "G0 X1",
        "G1 X1"
    };

    private static String text(SplittableRandom random) {
        StringBuilder out = new StringBuilder("G21 G90 F200\n");
        int lines = random.nextInt(5, 120);
        for (int k = 0; k < lines; k++) {
            String line = LINES[random.nextInt(LINES.length)];
            for (int c = 0; c < line.length(); c++) {
                switch (line.charAt(c)) {
                    case '#' -> out.append(Math.rint(random.nextDouble(-5, 5) * 10) / 10);
                    case '@' -> out.append((random.nextBoolean() ? 1 : -1) * (random.nextInt(1, 30) / 10.0));
                    default -> out.append(line.charAt(c));
                }
            }
            out.append('\n');
        }
        return out.toString();
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13, 14, 15, 16})
    void shouldPlanAnythingWithoutTrouble(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int moved = 0;
        for (int n = 0; n < 400; n++) {
            Jobs jobs = Jobs.job();
            jobs.onToolChange = Machine.OnToolChange.values()[random.nextInt(4)];
            if (random.nextBoolean()) {
                jobs.tools.set(0, Jobs.withLength(Jobs.ENGRAVER, 30));
                jobs.tools.set(1, Jobs.withLength(Jobs.CUTTER, 28.5));
            }
            jobs.blankAt = random.nextBoolean() ? new foilproof.bench.XyzMm(10, 10, -38) : null;
            int programs = random.nextInt(1, 4);
            for (int p = 0; p < programs; p++) {
                jobs.program(text(random), random.nextBoolean() ? "cutter" : null, random.nextInt(3) > 0);
            }
            Job job = jobs.build();
            MotionPlan plan = MotionPlanner.plan(job);
            String as = "seed " + seed + ", job " + n;
            check(plan, as);
            Toolpaths paths = Toolpaths.of(plan, job);
            for (Stroke stroke : paths.strokes()) {
                assertThat(paths.judgedWork(stroke)).as(as).isNotNull();
                assertThat(stroke.depthMm()).as(as).isPositive();
            }
            moved += plan.segments().size();
        }
        assertThat(moved).isGreaterThan(2000);
    }

    private static void check(MotionPlan plan, String as) {
        Segments s = plan.segments();
        double t = 0;
        for (int i = 0; i < s.size(); i++) {
            assertThat(s.startS(i)).as(as).isGreaterThanOrEqualTo(t - 1e-9);
            assertThat(s.durationS(i)).as(as).isFinite().isPositive();
            t = s.endS(i);
            assertThat(s.peakMmPerMin(i)).as(as).isFinite().isPositive();
            assertThat(s.x1Mm(i) + s.y1Mm(i) + s.z1Mm(i) + s.cxMm(i) + s.sweepRad(i))
                    .as(as)
                    .isFinite();
            assertThat(s.line(i)).as(as).isPositive();
            ToolRun run = plan.runOf(i);
            assertThat(i).as(as).isBetween(run.firstSegment(), run.endSegment() - 1);
            if (i > 0 && s.run(i) == s.run(i - 1) && s.program(i) == s.program(i - 1)) {
                assertThat(s.x0Mm(i)).as(as).isEqualTo(s.x1Mm(i - 1));
                assertThat(s.z0Mm(i)).as(as).isEqualTo(s.z1Mm(i - 1));
            }
        }
        assertThat(plan.totals().totalS()).as(as).isFinite().isGreaterThanOrEqualTo(t - 1e-9);
        double parts = plan.totals().cuttingS()
                + plan.totals().rapidS()
                + plan.totals().dwellS()
                + plan.totals().toolChangeS();
        assertThat(plan.totals().totalS()).as(as).isCloseTo(parts, org.assertj.core.api.Assertions.within(1e-6));
        int covered = 0;
        for (ToolRun run : plan.runs()) {
            assertThat(run.firstSegment()).as(as).isEqualTo(covered);
            covered = run.endSegment();
            assertThat(run.zeroRun()).as(as).isLessThanOrEqualTo(run.index());
            assertThat(plan.runs().get(run.zeroRun()).touchedOff()).as(as).isTrue();
        }
        assertThat(covered).as(as).isEqualTo(s.size());
        double last = 0;
        for (MotionEvent event : plan.events()) {
            assertThat(event.timeS()).as(as).isGreaterThanOrEqualTo(last - 1e-9);
            last = event.timeS();
        }
    }
}
