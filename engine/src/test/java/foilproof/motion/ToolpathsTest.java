package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Job;
import foilproof.bench.Work;
import org.junit.jupiter.api.Test;

/** Shapes read off the moves; all figures follow from the programs by elementary geometry. */
class ToolpathsTest {
    private static final String HEAD = "G21 G90 G94 G17\nM3 S20000\nF200\nG0 Z2\n";

    private record Read(Job job, MotionPlan plan, Toolpaths paths) {}

    private static Read read(String text, String tool) {
        Jobs jobs = Jobs.job().program(HEAD + text + "G0 Z2\nM2\n", tool, true);
        Job job = jobs.build();
        MotionPlan plan = MotionPlanner.plan(job);
        assertThat(plan.programs().get(0).interpretation().errors()).isEmpty();
        return new Read(job, plan, Toolpaths.of(plan, job));
    }

    @Test
    void shouldTellAnIsolationGrooveFromAHole() {
        Read r = read("G0 X5 Y5\nG1 Z-0.1\nX15\nY12\nX5\nY5\nX6\nG0 Z2\n", "engraver");
        assertThat(r.paths.holes()).isEmpty();
        assertThat(r.paths.strokes()).hasSize(1);
        Stroke stroke = r.paths.strokes().get(0);
        assertThat(stroke.closed()).isTrue();
        assertThat(stroke.lengthMm()).isCloseTo(35, within(1e-9));
        assertThat(stroke.depthMm()).isCloseTo(0.1, within(1e-9));
        assertThat(r.paths.workOf(stroke)).isEqualTo(Work.ISOLATION);
        assertThat(r.paths.loops()).hasSize(1);
        assertThat(r.paths.loops().get(0).areaMm2()).isCloseTo(70, within(1e-9));
        assertThat(r.paths.outlines()).isEmpty();
        assertThat(r.paths.judgedWorkOfProgram(0)).isEqualTo(Work.ISOLATION);
    }

    /** A quarter of a turn more than round is a lead-over, not a second lap; area and length by pi r2 and 2 pi r. */
    @Test
    void shouldCountARingWithALongLeadOverAsOneLap() {
        Read r = read("G0 X14 Y10\nG1 Z-0.8\nG3 X14 Y10 I-4 J0\nG3 X10 Y14 I-4 J0\nG0 Z2\n", "cutter");
        CutLoop loop = r.paths.loops().get(0);
        assertThat(loop.areaMm2()).isCloseTo(Math.PI * 16, within(1e-6));
        assertThat(loop.lengthMm()).isCloseTo(2 * Math.PI * 4, within(1e-6));
        Read two = read("G0 X14 Y10\nG1 Z-0.8\nG3 X14 Y10 I-4 J0\nG3 X14 Y10 I-4 J0\nG0 Z2\n", "cutter");
        assertThat(two.paths.loops().get(0).areaMm2()).isCloseTo(Math.PI * 16, within(1e-6));
        assertThat(two.paths.loops().get(0).lengthMm()).isCloseTo(2 * Math.PI * 4, within(1e-6));
    }

    @Test
    void shouldNotCallAnOpenGrooveClosed() {
        Read r = read("G0 X5 Y5\nG1 Z-0.1\nX15\nY12\nX5\nY5.3\nG0 Z2\n", "engraver");
        assertThat(r.paths.strokes().get(0).closed()).isFalse();
        assertThat(r.paths.loops()).isEmpty();
    }

    @Test
    void shouldFindStraightPlungesAndCyclesWithTheirPecks() {
        Read r = read("G0 X5 Y5\nG1 Z-1.7\nG0 Z2\nG98 G83 X9 Y5 Z-1.7 R0.5 Q0.6\nX12\nG80\n", "cutter");
        assertThat(r.paths.holes()).hasSize(3);
        Hole first = r.paths.holes().get(0);
        assertThat(first.kind()).isEqualTo(Hole.Kind.PLUNGE);
        assertThat(first.xMm()).isCloseTo(7, within(1e-9));
        assertThat(first.yMm()).isCloseTo(7, within(1e-9));
        assertThat(first.strokes()).isEqualTo(1);
        assertThat(first.longestPlungeMm()).isCloseTo(1.7, within(1e-9));
        assertThat(first.cycle()).isFalse();
        assertThat(first.line()).isEqualTo(6);
        Hole pecked = r.paths.holes().get(1);
        assertThat(pecked.cycle()).isTrue();
        assertThat(pecked.depthMm()).isCloseTo(1.7, within(1e-9));
        // From R 0.5 by 0.6: -0.1, -0.7, -1.3, -1.7; it comes back 0.254 above (as the reference reader did, from
        // memory).
        assertThat(pecked.strokes()).isEqualTo(4);
        assertThat(pecked.longestPlungeMm()).isLessThan(0.9);
        assertThat(r.paths.workOf(r.paths.strokes().get(0))).isEqualTo(Work.BORING);
        assertThat(first.diameterAtMm(Jobs.CUTTER, -1.5)).isCloseTo(0.79375, within(1e-12));
        assertThat(first.diameterAtMm(Jobs.CUTTER, -1.8)).isZero();
    }

    @Test
    void shouldGiveEntryAndExitOfAHoleMadeWithTheWrongBit() {
        // needs.md G1: 30 deg, tip 0.10, through 1.6 + 0.2: entry 1.06, exit 0.21 (at 1.6 below the foil top).
        Read r = read("G0 X5 Y5\nG1 Z-1.8\nG0 Z2\n", "engraver");
        Hole hole = r.paths.holes().get(0);
        assertThat(hole.diameterAtMm(Jobs.ENGRAVER, 0)).isCloseTo(1.0646, within(5e-5));
        assertThat(hole.diameterAtMm(Jobs.ENGRAVER, -1.6)).isCloseTo(0.2072, within(5e-5));
        assertThat(r.paths.holesThrough(0.0174)).hasSize(1);
    }

    @Test
    void shouldMeasureAHelicalBore() {
        // Path radius 0.153 with a 0.79375 cutter: 1.1 mm hole; three turns of 0.6 and one flat.
        StringBuilder text = new StringBuilder("G0 X10.153 Y10\nG1 Z0\n");
        for (int k = 1; k <= 3; k++) {
            text.append("G3 X10.153 Y10 I-0.153 Z").append(-0.6 * k).append('\n');
        }
        text.append("G3 X10.153 Y10 I-0.153\nG0 Z2\n");
        Read r = read(text.toString(), "cutter");
        assertThat(r.paths.holes()).hasSize(1);
        Hole hole = r.paths.holes().get(0);
        assertThat(hole.kind()).isEqualTo(Hole.Kind.HELIX);
        assertThat(hole.xMm()).isCloseTo(12, within(1e-9));
        assertThat(hole.yMm()).isCloseTo(12, within(1e-9));
        assertThat(hole.pathRadiusMm()).isCloseTo(0.153, within(1e-9));
        assertThat(hole.depthMm()).isCloseTo(1.8, within(1e-9));
        assertThat(hole.depthPerTurnMm()).isCloseTo(0.6, within(1e-9));
        assertThat(hole.diameterAtMm(Jobs.CUTTER, -1)).isCloseTo(0.79375 + 0.306, within(1e-9));
        assertThat(r.paths.workOf(r.paths.strokes().get(0))).isEqualTo(Work.BORING);
    }

    @Test
    void shouldMeasureABoreByCirclesOfChordsFromItsMiddle() {
        StringBuilder text = new StringBuilder("G0 X10 Y10\nG1 Z-0.9\nG1 X10.3\n");
        for (int k = 1; k <= 24; k++) {
            double a = 2 * Math.PI * k / 24;
            text.append(String.format(
                    java.util.Locale.ROOT,
                    "X%.4f Y%.4f\n",
                    10 + 0.3 * StrictMath.cos(a),
                    10 + 0.3 * StrictMath.sin(a)));
        }
        text.append("X10\nG0 Z2\n");
        Read r = read(text.toString(), "cutter");
        assertThat(r.paths.holes()).hasSize(1);
        Hole hole = r.paths.holes().get(0);
        assertThat(hole.kind()).isEqualTo(Hole.Kind.CIRCLES);
        assertThat(hole.pathRadiusMm()).isCloseTo(0.3, within(1e-3));
        assertThat(hole.longestPlungeMm()).isCloseTo(0.9, within(1e-9));
    }

    @Test
    void shouldNotCallARingABore() {
        // Path radius 2 with a 0.79 cutter leaves a slug of 3.2 mm: a cut-out, no bore.
        Read r = read("G0 X12 Y10\nG1 Z-1.7\nG2 X12 Y10 I-2\nG0 Z2\n", "cutter");
        assertThat(r.paths.holes()).isEmpty();
        assertThat(r.paths.outlines()).hasSize(1);
        CutLoop loop = r.paths.outlines().get(0);
        assertThat(loop.areaMm2()).isCloseTo(4 * Math.PI, within(1e-9));
        assertThat(loop.lengthMm()).isCloseTo(4 * Math.PI, within(1e-9));
        assertThat(loop.deepestStepMm()).isCloseTo(1.7, within(1e-9));
        assertThat(loop.tabs()).isEmpty();
        assertThat(r.paths.judgedWorkOfProgram(0)).isEqualTo(Work.OUTLINE);
    }

    @Test
    void shouldFollowAnOutlineInPassesWithRisenTabs() {
        String lap = "G1 Z%s\nX40\nY30\nX5\nY5\n";
        String last = "G1 Z-1.75\nX20\nZ-1.1\nX22\nZ-1.75\nX40\nY30\nX22\nZ-1.1\nX20\nZ-1.75\nX5\nY5\n";
        Read r = read(
                "G0 X5 Y5\n" + String.format(lap, "-0.6") + String.format(lap, "-1.2") + last + "G0 Z2\n", "cutter");
        assertThat(r.paths.outlines()).hasSize(1);
        CutLoop loop = r.paths.outlines().get(0);
        assertThat(loop.lengthMm()).isCloseTo(120, within(1e-6));
        assertThat(loop.areaMm2()).isCloseTo(35 * 25, within(1e-6));
        assertThat(loop.deepestStepMm()).isCloseTo(0.6, within(1e-9));
        assertThat(loop.tabs()).hasSize(2);
        CutLoop.Tab tab = loop.tabs().get(0);
        assertThat(tab.xMm()).isCloseTo(23, within(1e-6));
        assertThat(tab.yMm()).isCloseTo(7, within(1e-6));
        assertThat(tab.pathMm()).isCloseTo(2, within(1e-6));
        assertThat(tab.lowestMm()).isCloseTo(-1.1, within(1e-9));
    }

    @Test
    void shouldFollowAnOutlineInStrokesOfOneDepthEach() {
        String lap = "G0 X5 Y5\nG1 Z%s\nX40\nY30\nX5\nY5\nG0 Z2\n";
        Read r = read(String.format(lap, "-0.9") + String.format(lap, "-1.7"), "cutter");
        assertThat(r.paths.outlines()).hasSize(1);
        CutLoop loop = r.paths.outlines().get(0);
        assertThat(loop.strokes()).hasSize(2);
        assertThat(loop.deepestStepMm()).isCloseTo(0.9, within(1e-9));
        assertThat(loop.depthMm()).isCloseTo(1.7, within(1e-9));
    }

    @Test
    void shouldCloseARingOfCutsOverItsGaps() {
        Read r = read("G0 X20 Y5\nG1 Z-1.7\nX40\nY30\nX22\nG0 Z2\nG0 X20\nG1 Z-1.7\nX5\nY5\nX18\nG0 Z2\n", "cutter");
        assertThat(r.paths.outlines()).hasSize(1);
        CutLoop loop = r.paths.outlines().get(0);
        assertThat(loop.closedByGaps()).isTrue();
        assertThat(loop.tabs()).hasSize(2);
        assertThat(loop.tabs().get(0).pathMm()).isCloseTo(2, within(1e-9));
        assertThat(loop.tabs().get(0).xMm()).isCloseTo(23, within(1e-9));
        assertThat(loop.areaMm2()).isCloseTo(875, within(1e-9));
    }

    @Test
    void shouldJudgeDensePathsAsClearing() {
        StringBuilder text = new StringBuilder("G0 X5 Y5\nG1 Z-0.1\n");
        for (int k = 0; k < 20; k++) {
            text.append("Y")
                    .append(5 + 0.6 * k)
                    .append('\n')
                    .append("X")
                    .append(k % 2 == 0 ? 20 : 5)
                    .append('\n');
        }
        Read r = read(text + "G0 Z2\n", "cutter");
        assertThat(r.paths.judgedWorkOfProgram(0)).isEqualTo(Work.CLEARING);
    }

    @Test
    void shouldCountMarksAsHolesButNotAsBoring() {
        Read r = read("G0 X5 Y5\nG1 Z-0.15\nG0 Z2\n", "engraver");
        assertThat(r.paths.holes()).hasSize(1);
        assertThat(r.paths.workOf(r.paths.strokes().get(0))).isEqualTo(Work.ISOLATION);
        assertThat(r.paths.holesThrough(0.0174)).hasSize(1);
        assertThat(r.paths.holesThrough(0.2)).isEmpty();
    }
}
