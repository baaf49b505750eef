package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Machine;
import foilproof.bench.XyMm;
import foilproof.bench.XyzMm;
import foilproof.bench.ZZero;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/**
 * How a job's programs become segments and tool runs. Sources: the job file's contract (tool changes, touch-offs,
 * frames) and NISTIR 6556 for what the words mean; figures are worked out beside the checks.
 */
class MotionPlannerTest {
    private static final String HEAD = "G21 G90 G94 G17\n";

    private static List<MotionEvent> events(MotionPlan plan, MotionEvent.Kind kind) {
        return plan.events().stream().filter(e -> e.kind() == kind).toList();
    }

    @Test
    void shouldPlaceMovesInTheBlanksFrameAndHeightsInTheRunsZero() {
        MotionPlan plan = Jobs.job()
                .program(HEAD + "T1 M6\nM3 S20000\nG0 Z2\nG0 X10 Y5\nG1 Z-0.1 F100\nG1 X20 F300\nG0 Z2\nM5\nM2\n")
                .plan();
        Segments s = plan.segments();
        assertThat(s.size()).isEqualTo(5);
        // Work zero (2, 2): program X10 Y5 is (12, 7) on the blank.
        assertThat(s.x1Mm(1)).isCloseTo(12, within(1e-9));
        assertThat(s.y1Mm(1)).isCloseTo(7, within(1e-9));
        assertThat(s.z1Mm(2)).isCloseTo(-0.1, within(1e-9));
        assertThat(s.x1Mm(3)).isCloseTo(22, within(1e-9));
        assertThat(s.line(3)).isEqualTo(7);
        assertThat(s.kind(3)).isEqualTo(SegmentKind.FEED);
        assertThat(s.spindleRpm(3)).isEqualTo(20_000);
        assertThat(s.spindleTurn(3)).isEqualTo(1);
        assertThat(s.feedMmPerMin(3)).isCloseTo(300, within(1e-9));
        assertThat(plan.runs()).hasSize(1);
        ToolRun run = plan.runs().get(0);
        assertThat(run.toolName()).isEqualTo("engraver");
        assertThat(run.cause()).isEqualTo(TouchOffCause.PROGRAM_START);
        assertThat(run.touchXMm()).isEqualTo(2);
        assertThat(run.touchYMm()).isEqualTo(38);
        // Cut below the foil top: the plunge from 2 to -0.1 counts with its last 0.1 mm, then 10 mm.
        assertThat(run.cutLengthMm()).isCloseTo(10.1, within(1e-9));
        assertThat(plan.totals().toolChanges()).isZero();
        assertThat(plan.totals().toolChangeS()).isZero();
    }

    @Test
    void shouldCutAJobIntoToolRunsAtStopsForToolChanges() {
        MotionPlan plan = Jobs.job()
                .program(
                        HEAD + "T1 M6\nG0 X1 Y1 Z1\nG1 Z-0.1 F100\nG0 Z1\nT2 M6\nM0\nG0 X5\nG1 Z-1.7 F100\nG0 Z1\nM2\n")
                .plan();
        assertThat(plan.runs()).hasSize(2);
        ToolRun second = plan.runs().get(1);
        assertThat(second.toolName()).isEqualTo("cutter");
        assertThat(second.cause()).isEqualTo(TouchOffCause.TOOL_CHANGE_STOP);
        assertThat(second.touchedOff()).isTrue();
        assertThat(second.stopInProgram()).isTrue();
        assertThat(second.startLine()).isEqualTo(6);
        assertThat(second.firstSegment()).isEqualTo(plan.runs().get(0).endSegment());
        assertThat(plan.runs().get(0).stopInProgram()).isFalse();
        assertThat(plan.totals().toolChanges()).isEqualTo(1);
        assertThat(plan.totals().toolChangeS()).isEqualTo(120);
        assertThat(second.startS()).isCloseTo(plan.runs().get(0).endS() + 120, within(1e-9));
        assertThat(events(plan, MotionEvent.Kind.TOOL_CHANGE)).hasSize(2);
        assertThat(events(plan, MotionEvent.Kind.TOUCH_OFF)).hasSize(2);
        assertThat(events(plan, MotionEvent.Kind.PROGRAM_STOP)).hasSize(1);
    }

    @Test
    void shouldNotCallALiftBeforeTheFirstToolChangeARunOfAnotherCutter() {
        String text = HEAD + "G0 Z2\nT%d M6\nG0 X1 Y1\nG1 Z-0.1 F100\nG0 Z2\nM2\n";
        MotionPlan plan = Jobs.job()
                .program(String.format(java.util.Locale.ROOT, text, 1))
                .program(String.format(java.util.Locale.ROOT, text, 2))
                .plan();
        assertThat(plan.runs()).extracting(ToolRun::toolName).containsExactly("engraver", "cutter");
        assertThat(plan.runs()).extracting(ToolRun::cause).containsOnly(TouchOffCause.PROGRAM_START);
        assertThat(plan.totals().toolChanges()).isEqualTo(1);
        assertThat(events(plan, MotionEvent.Kind.TOUCH_OFF)).hasSize(2);
    }

    @Test
    void shouldBeginAToolRunWithEachProgramUnlessItGoesOn() {
        String cut = HEAD + "G0 Z1\nG0 X1 Y1\nG1 Z-0.1 F100\nG1 X9\nG0 Z1\nM2\n";
        MotionPlan plan = Jobs.job()
                .program(cut, "engraver", true)
                .program(cut, "engraver", true)
                .program(cut, null, false)
                .program(cut, "cutter", true)
                .plan();
        assertThat(plan.runs()).hasSize(3);
        assertThat(plan.runs().get(1).firstProgram()).isEqualTo(1);
        assertThat(plan.runs().get(1).lastProgram()).isEqualTo(2);
        assertThat(plan.runs().get(1).touchedOff()).isTrue();
        assertThat(plan.runs().get(2).toolName()).isEqualTo("cutter");
        assertThat(plan.totals().toolChanges()).isEqualTo(1);
        PlannedProgram third = plan.programs().get(2);
        // It goes on from where the second left the cutter: no start is unknown.
        assertThat(plan.segments().has(third.firstSegment(), Segments.START_UNKNOWN))
                .isFalse();
        assertThat(plan.segments().x0Mm(third.firstSegment())).isCloseTo(11, within(1e-9));
        assertThat(plan.segments().has(plan.programs().get(1).firstSegment(), Segments.START_UNKNOWN))
                .isTrue();
    }

    @Test
    void shouldTellWhereNobodyIsAskedToChangeTheCutterAndPlanWithTheOneThatIsMeant() {
        String text = HEAD + "T1 M6\nG0 Z1\nG1 Z-0.1 F100\nG0 Z1\nT2 M6\nG1 Z-1.7\nG0 Z1\nM2\n";
        MotionPlan plan =
                Jobs.job().on(Machine.OnToolChange.IGNORED).program(text).plan();
        assertThat(plan.runs()).extracting(ToolRun::toolName).containsExactly("engraver", "cutter");
        assertThat(events(plan, MotionEvent.Kind.TOOL_CHANGE_IGNORED)).hasSize(1);
        assertThat(plan.runs().get(1).stopInProgram()).isFalse();
        // A stop in the program is where a person changes the cutter after all.
        MotionPlan stopped = Jobs.job()
                .on(Machine.OnToolChange.IGNORED)
                .program(text.replace("T2 M6\n", "T2 M6\nM0\n"))
                .plan();
        assertThat(stopped.runs()).extracting(ToolRun::toolName).containsExactly("engraver", "cutter");
        assertThat(events(stopped, MotionEvent.Kind.TOOL_CHANGE_IGNORED)).isEmpty();
    }

    @Test
    void shouldPutAnotherCutterIntoTheColletWhereAWhatIfSaysSo() {
        Jobs jobs = Jobs.job().program(HEAD + "T1 M6\nG0 Z1\nG1 Z-0.1 F100\nG0 Z1\nM2\n");
        jobs.program(HEAD + "G0 Z1\nG1 Z-0.1 F100\nG0 Z1\nM2\n", "engraver", true);
        jobs.inCollet = Map.of(1, "cutter");
        MotionPlan plan = jobs.plan();
        for (ToolRun run : plan.runs()) {
            assertThat(run.toolName()).isEqualTo("cutter");
            assertThat(run.intendedTool()).isEqualTo(Jobs.ENGRAVER);
            assertThat(run.toolNumber()).isEqualTo(1);
        }
    }

    @Test
    void shouldShiftACutterWhoseLengthOffsetIsMissingOrWrong() {
        String first = HEAD + "T1 M6\nG43 H1\nG0 Z5\nG0 X1 Y1\nG1 Z-0.1 F100\nG0 Z5\n";
        String second = "G0 X9\nG1 Z-1.7\nG0 Z5\nM2\n";
        Jobs right = Jobs.job().on(Machine.OnToolChange.MEASURED);
        right.tools = List.of(Jobs.withLength(Jobs.ENGRAVER, 32.1), Jobs.withLength(Jobs.CUTTER, 30));
        MotionPlan good = right.program(first + "T2 M6\nG43 H2\n" + second).plan();
        ToolRun run = good.runs().get(1);
        assertThat(run.touchedOff()).isFalse();
        assertThat(run.zeroRun()).isZero();
        assertThat(run.cause()).isEqualTo(TouchOffCause.NONE_MEASURED);
        assertThat(run.lengthsMeasured()).isTrue();
        assertThat(run.residualZMm()).isCloseTo(0, within(1e-9));
        assertThat(Extents.ofRun(good, run).z0Mm()).isCloseTo(-1.7, within(1e-9));
        assertThat(Extents.ofRun(good, good.runs().get(0)).z0Mm()).isCloseTo(-0.1, within(1e-9));
        assertThat(good.segments().z0Mm(0)).isCloseTo(5, within(1e-6));

        // H1 stays in force for a cutter 2.1 mm shorter: the offset is 2.1 mm too long, so it runs 2.1 mm high.
        Jobs forgot = Jobs.job().on(Machine.OnToolChange.MEASURED);
        forgot.tools = right.tools;
        MotionPlan bad = forgot.program(first + "T2 M6\n" + second).plan();
        assertThat(bad.runs().get(1).residualZMm()).isCloseTo(2.1, within(1e-9));
        assertThat(Extents.ofRun(bad, bad.runs().get(1)).z0Mm()).isCloseTo(0.4, within(1e-9));

        // Unknown lengths: nothing is guessed.
        Jobs unknown = Jobs.job().on(Machine.OnToolChange.MEASURED);
        MotionPlan open = unknown.program(first + "T2 M6\nG43 H2\n" + second).plan();
        assertThat(open.runs().get(1).residualZMm()).isNaN();
        assertThat(Extents.ofRun(open, open.runs().get(1)).z0Mm()).isCloseTo(-1.7, within(1e-9));
    }

    @Test
    void shouldKeepTheZeroWhereTheMachineMeasuresTheCutterItself() {
        MotionPlan plan = Jobs.job()
                .on(Machine.OnToolChange.PROBE)
                .program(HEAD + "T1 M6\nG0 Z5\nG1 Z-0.1 F100\nG0 Z5\nT2 M6\nG1 Z-1.7\nG0 Z5\nM2\n")
                .plan();
        assertThat(plan.runs().get(1).cause()).isEqualTo(TouchOffCause.NONE_PROBED);
        assertThat(plan.runs().get(1).zeroRun()).isZero();
        assertThat(plan.runs().get(1).residualZMm()).isZero();
        assertThat(Extents.ofRun(plan, plan.runs().get(1)).z0Mm()).isCloseTo(-1.7, within(1e-9));
    }

    @Test
    void shouldTellTheMachinePlaceOfTheWorkZeroWhereTheBlankIsKnownToLie() {
        Jobs jobs = Jobs.job().program(HEAD + "T1 M6\nG0 Z1\nG53 G0 Z0\nG53 G0 X0 Y0\nM2\n");
        jobs.blankAt = new XyzMm(10, 10, -38);
        MotionPlan plan = jobs.plan();
        PlannedProgram.MachinePlace place = plan.programs().get(0).workZeroMachineMm();
        // -38 + 0.1 tape + 1.5 blank.
        assertThat(place.xMm()).isEqualTo(12);
        assertThat(place.zMm()).isCloseTo(-36.4, within(1e-9));
        Segments s = plan.segments();
        int last = s.size() - 1;
        assertThat(s.z1Mm(last - 1)).isCloseTo(36.4, within(1e-9));
        assertThat(s.x1Mm(last)).isCloseTo(-10, within(1e-9));
        assertThat(s.has(last, Segments.MACHINE_COORDINATES)).isTrue();
        assertThat(s.has(last, Segments.POSITION_UNKNOWN)).isFalse();
    }

    @Test
    void shouldFlagMovesToPlacesThatNobodyKnows() {
        MotionPlan plan = Jobs.job()
                .program(HEAD + "T1 M6\nG0 Z1\nG0 X5 Y5\nG91 G28 Z0\nG90\nG0 X7\nG0 Z1\nM2\n")
                .plan();
        Segments s = plan.segments();
        int home = -1;
        for (int i = 0; i < s.size(); i++) {
            if (s.has(i, Segments.MACHINE_COORDINATES) && s.has(i, Segments.POSITION_UNKNOWN)) {
                home = i;
            }
        }
        assertThat(home).isNotNegative();
        // It goes up to a safe height and nowhere in X and Y.
        assertThat(s.z1Mm(home)).isGreaterThanOrEqualTo(10);
        assertThat(s.x1Mm(home)).isCloseTo(7, within(1e-9));
        assertThat(s.lowestMm(home + 1)).isGreaterThanOrEqualTo(1);
    }

    @Test
    void shouldCountDwellsInTheUnitOfTheJob() {
        Jobs seconds = Jobs.job().program(HEAD + "G0 Z1\nG4 P2\nG0 Z3\nM2\n", "cutter", true);
        assertThat(seconds.plan().totals().dwellS()).isEqualTo(2);
        Jobs ms = Jobs.job().program(HEAD + "G0 Z1\nG4 P2000\nG0 Z3\nM2\n", "cutter", true);
        ms.dwell = Machine.Dwell.MILLISECONDS;
        MotionPlan plan = ms.plan();
        assertThat(plan.totals().dwellS()).isEqualTo(2);
        assertThat(plan.segments().startS(1) - plan.segments().endS(0)).isCloseTo(2, within(1e-9));
        MotionEvent dwell = events(plan, MotionEvent.Kind.DWELL).get(0);
        assertThat(dwell.line()).isEqualTo(3);
        assertThat(plan.tipAt(dwell.timeS() + 1).moving()).isFalse();
        assertThat(plan.tipAt(dwell.timeS() + 1).words(plan)).isEqualTo("p1.ngc line 2 of 5, dwell");
    }

    @Test
    void shouldTimeInverseTimeMovesByTheirOwnWord() {
        // C37: G93 G1 X10 F2 takes half a minute, 20 mm/min.
        Jobs jobs = Jobs.job().program("G21 G90 G61.1 G0 X0 Y0 Z1\nG93 G1 X10 F2\nM2\n", "cutter", true);
        MotionPlan plan = jobs.plan();
        Segments s = plan.segments();
        int last = s.size() - 1;
        assertThat(s.feedMmPerMin(last)).isCloseTo(20, within(1e-9));
        assertThat(s.has(last, Segments.INVERSE_TIME)).isTrue();
        // From and to rest at 250 mm/s2: d/v + v/a = 30 + (1/3)/250 s.
        assertThat(s.durationS(last)).isCloseTo(30 + 1 / 3.0 / 250, within(1e-9));
    }

    @Test
    void shouldTurnArcsAndHelicesTheRightWay() {
        MotionPlan plan = Jobs.job()
                .program(
                        HEAD + "G0 X0 Y0 Z0\nF300\nG3 X0 Y0 Z-1 I5\nG2 X5 Y5 I5 J0\nG2 X5 Y5 I0 J-5\nM2\n",
                        "cutter",
                        true)
                .plan();
        Segments s = plan.segments();
        int helix = s.size() - 3;
        // C30: a full turn with centre (5, 0), length sqrt((10 pi)^2 + 1).
        assertThat(s.sweepRad(helix)).isCloseTo(2 * Math.PI, within(1e-12));
        assertThat(s.lengthMm(helix)).isCloseTo(31.43184, within(5e-6));
        assertThat(s.cxMm(helix)).isCloseTo(7, within(1e-9));
        double[] quarter = s.pointAt(helix, 0.25);
        assertThat(quarter[0]).isCloseTo(7, within(1e-9));
        assertThat(quarter[1]).isCloseTo(-3, within(1e-9));
        assertThat(quarter[2]).isCloseTo(-0.25, within(1e-9));
        assertThat(s.planBox(helix)).containsExactly(new double[] {2, -3, 12, 7}, within(1e-9));
        // Clockwise quarter from (0, 0) about (5, 0) to (5, 5).
        assertThat(s.sweepRad(helix + 1)).isCloseTo(-Math.PI / 2, within(1e-12));
        assertThat(s.sweepRad(helix + 2)).isCloseTo(-2 * Math.PI, within(1e-12));
    }

    @Test
    void shouldReplaceArcsInTheOtherPlanesByChordsWithinHalfAMicrometre() {
        // C28 and C29: quarter turns about (0,10) in (Z,X) order and about (10,0) in (Y,Z) order.
        MotionPlan plan = Jobs.job()
                .program(
                        HEAD + "G0 X0 Y0 Z0\nF300\nG18 G3 X10 Z10 I10 K0\nG0 X0 Y0 Z0\nG19 G2 Y10 Z10 J10 K0\nM2\n",
                        "cutter",
                        true)
                .plan();
        Segments s = plan.segments();
        int chords = 0;
        for (int i = 0; i < s.size(); i++) {
            if (!s.has(i, Segments.ARC_CHORD)) {
                continue;
            }
            chords++;
            boolean inXz = Math.abs(s.y1Mm(i) - 2) < 1e-9 && s.x1Mm(i) - 2 > 1e-9;
            double[] m = s.pointAt(i, 0.5);
            double off = inXz ? 10 - StrictMath.hypot(m[0] - 2 - 10, m[2]) : 10 - StrictMath.hypot(m[1] - 2 - 10, m[2]);
            assertThat(off).isBetween(-1e-9, 0.0005 + 1e-9);
        }
        // Q23: pi / acos(1 - e/R) for a full turn, a quarter each: 4.00 degrees... 157.08 / 4 rounded up, twice.
        int quarter = (int) Math.ceil(Math.PI / 4 / StrictMath.acos(1 - 0.0005 / 10));
        assertThat(chords).isEqualTo(2 * quarter);
    }

    @Test
    void shouldStopProbesAtTheFoilAndTellWhereTheyTripped() {
        MotionPlan plan = Jobs.job()
                .program(HEAD + "G0 X5 Y5 Z2\nG38.2 Z-3 F50\nG0 Z2\nM2\n", "cutter", true)
                .plan();
        MotionEvent trip = events(plan, MotionEvent.Kind.PROBE_TRIPPED).get(0);
        assertThat(trip.value()).isCloseTo(0, within(1e-9));
        int probe = trip.beforeSegment() - 1;
        assertThat(plan.segments().kind(probe)).isEqualTo(SegmentKind.PROBE);
        assertThat(plan.segments().z1Mm(probe)).isCloseTo(0, within(1e-9));
        MotionPlan missed = MotionPlanner.plan(
                Jobs.job()
                        .program(HEAD + "G0 X5 Y5 Z2\nG38.2 Z-3 F50\nG0 Z2\nM2\n", "cutter", true)
                        .build(),
                MotionOptions.DEFAULT.withProbes(move -> OptionalDouble.empty()));
        assertThat(events(missed, MotionEvent.Kind.PROBE_MISSED)).hasSize(1);
        assertThat(Extents.ofRun(missed, missed.runs().get(0)).z0Mm()).isCloseTo(-3, within(1e-9));
    }

    @Test
    void shouldTakeTheSpoilBoardAsZeroWhereTheJobSaysSo() {
        Jobs jobs = Jobs.job()
                .program(HEAD + "G0 Z5\nG1 Z1.5 F100\nG0 Z5\nM2\n", "cutter", true, new XyMm(0, 0), ZZero.SPOIL_BOARD);
        MotionPlan plan = jobs.plan();
        ToolRun run = plan.runs().get(0);
        assertThat(run.zZero()).isEqualTo(ZZero.SPOIL_BOARD);
        // The foil top is 1.6 above the spoil board, so 0.1 of the plunge is in the blank.
        assertThat(run.cutLengthMm()).isCloseTo(0.1, within(1e-9));
        assertThat(Toolpaths.foilTopMm(jobs.build(), run)).isCloseTo(1.6, within(1e-12));
    }

    @Test
    void shouldPlanUpToAnErrorAndGoOnWithTheNextProgram() {
        MotionPlan plan = Jobs.job()
                .program(HEAD + "G0 Z1\nG0 X1,5\nG0 X9\nM2\n", "cutter", true)
                .program(HEAD + "G0 Z1\nG0 X3\nM2\n", "cutter", true)
                .plan();
        assertThat(plan.programs().get(0).interpretation().errors()).isNotEmpty();
        assertThat(plan.programs().get(0).endSegment()).isEqualTo(1);
        assertThat(plan.programs().get(1).endSegment() - plan.programs().get(1).firstSegment())
                .isEqualTo(2);
        assertThat(events(plan, MotionEvent.Kind.PROGRAM_END)).hasSize(2);
    }

    @Test
    void shouldTakeTheToolThatTheJobNamesOrSayWhatItTook() {
        String text = HEAD + "G0 Z1\nG0 X3\nM2\n";
        assertThat(Jobs.job().program(text, "cutter", true).plan().runs().get(0).toolName())
                .isEqualTo("cutter");
        MotionPlan none = Jobs.job().program(text).plan();
        assertThat(none.runs().get(0).tool()).isNull();
        MotionPlan worded = Jobs.job().program(HEAD + "T2\nG0 Z1\nM2\n").plan();
        assertThat(worded.runs().get(0).toolName()).isEqualTo("cutter");
        assertThat(worded.assumed()).hasSize(1);
        MotionPlan unknown = Jobs.job().program(HEAD + "T7 M6\nG0 Z1\nM2\n").plan();
        assertThat(unknown.runs().get(0).tool()).isNull();
        assertThat(unknown.runs().get(0).toolNumber()).isEqualTo(7);
    }

    @Test
    void shouldSayWhereTheTipIsAtAnyMoment() {
        Jobs jobs = Jobs.job().program(HEAD + "G61.1 G0 X0 Y0 Z0\nG1 X10 F600\nM2\n", "cutter", true);
        jobs.acceleration = 100;
        MotionPlan plan = jobs.plan();
        Segments s = plan.segments();
        int i = s.size() - 1;
        // v 10 mm/s, a 100: 0.1 s and 0.5 mm to get up to speed; T = 1 + 0.1 s.
        assertThat(s.durationS(i)).isCloseTo(1.1, within(1e-9));
        assertThat(plan.tipAt(s.startS(i) + 0.05).xMm()).isCloseTo(2 + 0.125, within(1e-6));
        assertThat(plan.tipAt(s.startS(i) + 0.05).speedMmPerMin()).isCloseTo(300, within(1e-3));
        assertThat(plan.tipAt(s.startS(i) + 0.55).xMm()).isCloseTo(7, within(1e-6));
        assertThat(plan.tipAt(s.endS(i) - 0.05).xMm()).isCloseTo(12 - 0.125, within(1e-6));
        assertThat(plan.tipAt(1e9).xMm()).isCloseTo(12, within(1e-9));
        assertThat(plan.tipAt(-1).segment()).isEqualTo(-1);
        assertThat(plan.totals().totalS()).isCloseTo(s.endS(i), within(1e-9));
    }

    @Test
    void shouldStopAtSpindleCommandsAndKeepRunningAtFeedWords() {
        MotionPlan plan = Jobs.job()
                .program(HEAD + "G0 Y0 Z1\nG1 X10 F600\nF500\nX20\nM3 S1000\nX30\nM2\n", "cutter", true)
                .plan();
        Segments s = plan.segments();
        int last = s.size() - 1;
        assertThat(s.exitMmPerS(last - 2)).isGreaterThan(8);
        assertThat(s.exitMmPerS(last - 1)).isZero();
        assertThat(s.spindleTurn(last - 1)).isZero();
        assertThat(s.spindleTurn(last)).isEqualTo(1);
    }

    @Test
    void shouldMarkFeedsAndUnitsThatWereNeverSet() {
        MotionPlan plan =
                Jobs.job().program("G90 G0 Z1\nG1 X5\nM2\n", "cutter", true).plan();
        Segments s = plan.segments();
        int last = s.size() - 1;
        if (s.kind(last) == SegmentKind.FEED) {
            assertThat(s.has(last, Segments.FEED_UNSET)).isTrue();
            assertThat(s.feedMmPerMin(last)).isNaN();
        }
        assertThat(s.has(0, Segments.UNITS_UNSET)).isTrue();
    }

    @Test
    void shouldKeepTheSidesApart() {
        Jobs jobs = Jobs.job().program(HEAD + "G0 Z1\nG0 X3\nM2\n", "cutter", true);
        jobs.nextSide();
        jobs.program(HEAD + "G0 Z1\nG0 X3\nM2\n", "cutter", false);
        MotionPlan plan = jobs.plan();
        // Nothing goes on across the turning of the blank, even where the job says so.
        assertThat(plan.runs()).extracting(ToolRun::side).containsExactly(1, 2);
        assertThat(plan.runs().get(1).touchedOff()).isTrue();
    }

    @Test
    void shouldSettleProbingMovesOneAfterTheOtherFromWhatWasCutBefore() {
        String text =
                HEAD + "G0 X5 Y5 Z2\nG38.2 Z-3 F50\nG92 Z0\nG0 Z2\nX9\nG38.2 Z-3\nG0 Z2\nX20\nG38.2 Z-3\nG0 Z2\nM2\n";
        java.util.List<Integer> asked = new java.util.ArrayList<>();
        // The foil stands 0.2 mm high everywhere; the third probe is not joined to the clip.
        MotionPlan plan = MotionPlanner.plan(
                Jobs.job().program(text, "cutter", true).build(), MotionOptions.DEFAULT, (soFar, segment, move) -> {
                    asked.add(segment);
                    assertThat(soFar.segments().size()).isGreaterThanOrEqualTo(segment);
                    double fraction = (move.fromZMm() - 0.2) / (move.fromZMm() - move.toZMm());
                    return move.ordinal() == 2 ? OptionalDouble.empty() : OptionalDouble.of(fraction);
                });
        List<MotionEvent> trips = events(plan, MotionEvent.Kind.PROBE_TRIPPED);
        assertThat(trips).hasSize(2);
        assertThat(trips.get(0).value()).isCloseTo(0.2, within(1e-9));
        assertThat(trips.get(1).value()).isCloseTo(0.2, within(1e-9));
        assertThat(events(plan, MotionEvent.Kind.PROBE_MISSED)).hasSize(1);
        // G92 moved the program's zero up by 0.2: Z-3 is -2.8 in the run's zero.
        assertThat(Extents.ofRun(plan, plan.runs().get(0)).z0Mm()).isCloseTo(-2.8, within(1e-9));
        assertThat(asked).hasSize(3).isSorted();
    }
}
