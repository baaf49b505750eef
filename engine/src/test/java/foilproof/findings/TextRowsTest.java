package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.HEAD;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/**
 * Further rows of section A of the needs: slips, work offsets, machine moves, start of the spindle, comments, cycles,
 * compensation, switches, state left by other jobs. The limits are those of needs.md (common practice, no source).
 */
class TextRowsTest {
    private static final String GROOVE = rectangle(3, 3, 13, 11, -0.1);
    private static final String BORES = bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65);

    // ---- A2

    @Test
    @Fires("A2 decimal-slip")
    void shouldStopAtAWholeNumberBeyondTheBlankInACuttingMove() {
        Bench.job()
                .runs(isolation().replace("G1 X13.0 F300", "G1 X13000 F300"))
                .raises(Kinds.DECIMAL_SLIP, STOP, GEOMETRY)
                .onLineOf("X13000")
                .measuring(13000, "mm", 1e-9)
                .against(20);
        Bench.job()
                .runs(isolation().replace("G1 Y11.0", "G1 Y16"))
                .raises(Kinds.DECIMAL_SLIP, STOP, GEOMETRY)
                .measuring(16, "mm", 1e-9);
    }

    @Test
    @Silent("A2 decimal-slip")
    void shouldNotMindWholeNumbersOnTheBlankPointsOrParking() {
        Bench.job().runs(isolation().replace("G1 X13.0 F300", "G1 X20 F300")).isSilentOn(Kinds.DECIMAL_SLIP);
        Bench.job().runs(isolation().replace("G1 X13.0 F300", "G1 X21.0 F300")).isSilentOn(Kinds.DECIMAL_SLIP);
        Bench.job()
                .runs(isolation().replace("M5\nM2", "G0 X0 Y100\nG1 X1000 F600\nM5\nM2"))
                .isSilentOn(Kinds.DECIMAL_SLIP);
    }

    // ---- A5

    private static final String TWO_GROOVES =
            start(1) + rectangle(3, 3, 8, 6, -0.1) + "%s" + rectangle(3, 8, 8, 11, -0.1) + END;

    @Test
    @Fires("A5 work-offset")
    void shouldAskToMendAChangeOfTheWorkSystemInMidWork() {
        Bench.job()
                .runs(TWO_GROOVES.formatted("G55\n"))
                .raises(Kinds.WORK_OFFSET, FIX, GEOMETRY)
                .onLineOf("G55")
                .saying("G54 to G55");
    }

    @Test
    @Fires("A5 work-offset")
    void shouldAskToMendFilesOfOneSideInDifferentWorkSystems() {
        Bench.job()
                .program("a.ngc", isolation())
                .program("b.ngc", (start(2) + BORES + END).replace("G54", "G56"))
                .raises(Kinds.WORK_OFFSET, FIX, GEOMETRY)
                .in("b.ngc")
                .saying("G56");
    }

    @Test
    @Fires("A5 work-offset")
    void shouldAskToMendShiftsThatOutliveTheProgram() {
        Bench.job()
                .runs(isolation().replace("G0 X3.0", "G92 X0 Y0\nG0 X3.0"))
                .raises(Kinds.WORK_OFFSET, FIX, GEOMETRY)
                .onLineOf("G92");
        Bench.job()
                .runs(isolation().replace("M5\nG0 Z25", "G10 L2 P1 X0 Y0\nM5\nG0 Z25"))
                .raises(Kinds.WORK_OFFSET, FIX, GEOMETRY)
                .onLineOf("G10");
    }

    @Test
    @Fires("A5 work-offset")
    void shouldOnlyNoteAProgramThatNamesNoWorkSystem() {
        Verdicts v = Bench.job().runs(isolation().replace(" G54", "")).examined();
        v.raises(Kinds.WORK_OFFSET, NOTE, GEOMETRY);
        v.raisesNothingAboveANote();
    }

    @Test
    @Silent("A5 work-offset")
    void shouldNotMindOneSystemNorAChangeWithATool() {
        Bench.job().runs(TWO_GROOVES.formatted("G54\n")).isSilentOn(Kinds.WORK_OFFSET);
        Bench.job()
                .runs(start(1) + GROOVE + "M5\nG0 Z25\nT2 M6\nM0\nG55\nS16000 M3\nG4 P3\n" + BORES + END)
                .isSilentOn(Kinds.WORK_OFFSET);
        Bench.job().runs(isolation().replace("G0 X3.0", "G92.1\nG0 X3.0")).isSilentOn(Kinds.WORK_OFFSET);
        Bench.job().runs(isolation().replace("M5\nM2", "G92 X1\nG92.1\nM5\nM2")).isSilentOn(Kinds.WORK_OFFSET);
    }

    @Test
    @Silent("A5 work-offset")
    void shouldNotMindAZeroThatIsSetByProbing() {
        for (String zero : new String[] {"G92 Z0", "G10 L20 P1 Z0"}) {
            String program = HEAD + "T1 M6\nG0 X16 Y12\nG0 Z2\nG38.2 Z-2 F50\n" + zero + "\nG0 Z5\nS16000 M3\nG4 P3\n"
                    + GROOVE + END;
            Bench.job().runs(program).isSilentOn(Kinds.WORK_OFFSET);
        }
    }

    // ---- A4

    @Test
    @Fires("A4 distance-mode")
    void shouldStopWhereTheIncrementalModeOfARetractStaysOn() {
        Bench.job()
                .runs(start(1) + "G91 G28 Z0\nG0 X-14 Y-9\nG0 Z-4\n" + "G1 Z-30 F90\nG1 X8 F300\nG0 Z5\nG90\n" + END)
                .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                .saying("written for the retract");
    }

    @Test
    @Fires("A4 distance-mode")
    void shouldStopWhereIncrementalMovesWalkOffIntoTheAir() {
        Bench.job()
                .runs(isolation().replace("G0 Z1\n", "G91\nG0 Z1\n"))
                .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                .folding(Kinds.WRONG_Z_REFERENCE);
    }

    /** Two sides of a rectangle with round corners, then whatever is put in their midst. */
    private static String roundCorners(String inTheMidst, String secondArc) {
        return start(1) + "G0 X5 Y4\nG0 Z1\nG1 Z-0.1 F90\nG1 X12 F300\nG3 X13 Y5 I0 J1\nG1 Y9\n" + inTheMidst
                + secondArc + "G1 X5\nG0 Z5\n" + END;
    }

    /** NISTIR 6556, sections 3.5.3 and 3.5.17: in G91 the end is counted from where the cutter stands, the centre always. */
    @Test
    @Fires("A4 distance-mode")
    void shouldNameTheDistanceModeWhereAnArcFitsOnlyAsAbsolute() {
        for (String arc : new String[] {"G3 X12 Y10 I-1 J0\n", "G3 X12 Y10 R1\n"}) {
            Bench.job()
                    .runs(roundCorners("G91\n", arc))
                    .isSilentOn(Kinds.PROGRAM_ERROR)
                    .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                    .onLineOf("G3 X12")
                    .saying("as absolute its numbers fit")
                    .folding(Kinds.PROGRAM_ERROR);
        }
        Bench.job()
                .runs(roundCorners("", "G3 X12 Y10 I-1 J0\n").replace(" G90 ", " G91 "))
                .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                .onLineOf("G3 X13");
    }

    @Test
    @Silent("A4 distance-mode")
    void shouldNotBlameTheDistanceModeForAnArcThatIsWrongByItself() {
        Bench.job()
                .runs(roundCorners("G91\n", "G3 X-1 Y1.2 I-1 J0\nG90\n"))
                .isSilentOn(Kinds.DISTANCE_MODE)
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("G3 X-1");
        Bench.job()
                .runs(roundCorners("G91\n", "G3 X-1 Y1 I-1 J0\nG90\n"))
                .isSilentOn(Kinds.DISTANCE_MODE)
                .isSilentOn(Kinds.PROGRAM_ERROR);
    }

    // ---- A13

    @Test
    @Fires("A13 length-offset")
    void shouldStopWhereTheLengthOffsetEndsInMidWork() {
        Bench.job()
                .machine("on_tool_change", "measured")
                .tool("engraver", "length", "30.00 mm")
                .runs(start(1).replace("G0 Z5\n", "G43 H1\nG0 Z5\n")
                        + GROOVE.replace("G1 Y11", "G49\nG1 Z-0.1\nG1 Y11")
                        + END)
                .raises(Kinds.LENGTH_OFFSET, STOP, SET_UP)
                .measuring(30, "mm", 1e-9);
    }

    // ---- A6

    private static Bench placed() {
        return Bench.job()
                .machine(
                        "blank_at",
                        "[\"10 mm\", \"10 mm\", \"-38 mm\"]",
                        "travel",
                        "[\"160 mm\", \"100 mm\", \"45 mm\"]");
    }

    @Test
    @Fires("A6 rapid-in-material")
    void shouldStopAtAHomeMoveThatCrossesTheBlankTooLow() {
        placed().runs(isolation().replace("G0 Z10\nM5", "G0 Z0.15\nG28 X4 Y4\nM5"))
                .raises(Kinds.RAPID_IN_MATERIAL, STOP, SET_UP)
                .onLineOf("G28 X4")
                .measuring(0.15, "mm", 1e-3);
        // with G90 in force G28 Z0 first goes down to the foil top
        placed().runs(isolation().replace("G0 Z10\nM5", "G28 Z0\nM5"))
                .raises(Kinds.RAPID_IN_MATERIAL, STOP, SET_UP)
                .onLineOf("G28 Z0");
    }

    @Test
    @Fires("A6 rapid-in-material")
    void shouldWatchLowMachineMovesWhereMachinePositionsAreNotKnown() {
        Bench.job()
                .runs(isolation().replace("G0 Z10\nM5", "G0 Z0.15\nG53 G0 X0 Y0\nM5"))
                .raises(Kinds.RAPID_IN_MATERIAL, WATCH, SET_UP)
                .onLineOf("G53");
    }

    @Test
    @Silent("A6 rapid-in-material")
    void shouldNotMindRetractsNorHighMachineMoves() {
        for (String retract : new String[] {
            "G91 G28 Z0\nG90\n", "G53 G0 Z0\nG53 G0 X0 Y0\n", "G0 Z10\nG28\n", "G0 Z5\nG53 G0 X1 Y1\n", "G53 G0 Z-2\n"
        }) {
            String program = isolation().replace("G0 Z10\nM5", retract + "M5");
            Bench.job().runs(program).examined().raisesNothingAbove(NOTE, Kinds.RAPID_IN_MATERIAL);
            placed().runs(program).examined().raisesNothingAbove(NOTE, Kinds.RAPID_IN_MATERIAL);
        }
    }

    // ---- A8

    /** From above a clamp's height on its left to below it on its right: the straight way passes over the clamp. */
    private static Bench overAClamp(double fromZ) {
        return Bench.job()
                .machine("rapid", "[\"2500 mm/min\", \"2500 mm/min\", \"2500 mm/min\"]")
                .keepOut("clamp", 9, 5, 10, 9, 3)
                .runs(start(1) + "G0 Z" + fromZ + "\nG0 X2 Y7\nG0 X17 Y7 Z2\nG1 Z-0.1 F90\nG1 X18 F300\nG0 Z5\n" + END);
    }

    @Test
    @Fires("A8 keep-out-contact")
    void shouldWatchARapidThatHitsAClampOnlyAsADogleg() {
        overAClamp(8)
                .raises(Kinds.KEEP_OUT_CONTACT, WATCH, SET_UP)
                .onLineOf("X17 Y7 Z2")
                .saying("straight line");
    }

    @Test
    @Silent({"A8 keep-out-contact", "A8 rapid-in-material"})
    void shouldNotMindADoglegThatIsClear() {
        overAClamp(17).isSilentOn(Kinds.KEEP_OUT_CONTACT).isSilentOn(Kinds.RAPID_IN_MATERIAL);
    }

    @Test
    @Fires("A8 rapid-in-material")
    void shouldWatchARapidThatEntersTheBlanksEdgeOnlyAsADogleg() {
        // from beside the blank and below its top: X alone first, since Z has farther to go
        Bench.job()
                .machine("rapid", "[\"2500 mm/min\", \"2500 mm/min\", \"250 mm/min\"]")
                .runs(start(1) + GROOVE + "G0 X-8 Y7\nG0 Z-1\nG0 X4 Y7 Z15\n" + END)
                .raises(Kinds.RAPID_IN_MATERIAL, WATCH, SET_UP)
                .onLineOf("X4 Y7 Z15");
    }

    // ---- A9

    @Test
    @Fires("A9 feed-unset")
    void shouldAskToMendInverseTimeThatIsLeftOn() {
        Bench.job()
                .runs(start(1) + "G0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X8 F300\nG93\nG1 X9 F100\nG1 Y5 F60\nG0 Z5\n" + END)
                .raises(Kinds.FEED_UNSET, FIX, GEOMETRY)
                .onLineOf("G93");
    }

    @Test
    @Silent("A9 feed-unset")
    void shouldNotMindInverseTimeThatEnds() {
        Bench.job()
                .runs(start(1) + "G0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X8 F300\nG93\nG1 X9 F100\nG94\nG1 Y5 F300\nG0 Z5\n"
                        + END)
                .isSilentOn(Kinds.FEED_UNSET);
    }

    // ---- A10

    @Test
    @Fires("A10 spindle-not-turning")
    void shouldStopWhereAToolChangeStoppedTheSpindleForGood() {
        Bench.job()
                .runs(HEAD + "S16000 M3\nG4 P3\nG0 Z25\nT1 M6\nG0 Z5\n" + GROOVE + END)
                .raises(Kinds.SPINDLE_NOT_TURNING, STOP, GEOMETRY);
    }

    // ---- A11

    @Test
    @Fires("A11 spin-up")
    void shouldWatchAContactLessThanTwoSecondsAfterTheSpindleStarts() {
        Bench.job()
                .runs(isolation().replace("G4 P3\n", "").replace("G0 Z1\n", "G0 Z0.1\n"))
                .raises(Kinds.SPIN_UP, WATCH, RULE_OF_THUMB)
                .onLineOf("M3")
                .saying("s after the spindle starts");
        Bench.job()
                .machine("dwell", "ms")
                .runs(isolation().replace("G0 Z1\n", "G0 Z0.1\n"))
                .raises(Kinds.SPIN_UP, WATCH, RULE_OF_THUMB)
                .against(2);
    }

    @Test
    @Silent("A11 spin-up")
    void shouldNotMindTwoSecondsHoweverTheyPass() {
        Bench.job().runs(isolation()).isSilentOn(Kinds.SPIN_UP);
        Bench.job()
                .machine("dwell", "ms")
                .runs(isolation().replace("P3\n", "P3000\n"))
                .isSilentOn(Kinds.SPIN_UP);
        // a plunge of 1 mm at 30 mm/min takes two seconds in air
        Bench.job()
                .runs(isolation().replace("G4 P3\n", "").replace("F90", "F30"))
                .isSilentOn(Kinds.SPIN_UP);
        Bench.job().runs(isolation().replace("G4 P3\n", "M5\nM0\nM3\nG4 P2\n")).isSilentOn(Kinds.SPIN_UP);
    }

    // ---- A12

    @Test
    @Fires("A12 tool-unknown")
    void shouldAskToMendACommentThatNamesAnotherCutter() {
        for (String comment : new String[] {
            "(T2 0.6 mm end mill)",
            "(tool: 1 mm endmill)",
            "(T2 D=1.0 CR=0 - flat end mill)",
            "(MSG, insert 1/16 in end mill)",
            "(T2 V-bit 30 deg)",
            "(0.9 end mill)",
            "(tool diameter 1.0 mm)",
            "(T2: 1.0 mm)",
            "(T2 = 3.175 mm end mill)",
            "(T2 1.0 mm end mill, 3.175 mm shank)",
            "(T2 shank 3.175 mm, end mill 1.0 mm)"
        }) {
            String program = start(2).replace("T2 M6\n", "T2 M6 " + comment + "\n") + BORES + END;
            Bench.job()
                    .runs(program)
                    .raises(Kinds.TOOL_UNKNOWN, FIX, GEOMETRY)
                    .onLineOf(comment)
                    .with("cutter");
        }
        for (String comment :
                new String[] {"(T1 60 deg V-bit)", "(0.8 end mill)", "(engraving bit 30 deg tip 0.2 mm)"}) {
            String program = start(1).replace("T1 M6\n", comment + "\nT1 M6\n") + GROOVE + END;
            Bench.job()
                    .runs(program)
                    .raises(Kinds.TOOL_UNKNOWN, FIX, GEOMETRY)
                    .onLineOf(comment)
                    .with("engraver");
        }
    }

    @Test
    @Silent("A12 tool-unknown")
    void shouldNotMindCommentsThatFitOrSpeakOfOtherThings() {
        for (String comment : new String[] {
            "(T2 0.8 mm end mill)",
            "(T2 1/32 in end mill 2 flutes)",
            "(0.8 end mill)",
            "(T2 2 flute 0.8 mm end mill)",
            "(0.031 end mill)",
            "(depth 1.65 mm)",
            "(holes 1.0 mm bored with T2)",
            "(drill 1.00 mm)",
            "(cutter)",
            "(T2 D=0.8 CR=0 - flat end mill)",
            "(blank 20 x 15 mm, FR-1 1.5 mm)",
            "(feed 300 mm/min)",
            "(T2 end mill 0.87 mm)",
            "(3.175 mm shank, 0.8 mm end mill)",
            "(T2 0.8 mm end mill 1/8 in shank)",
            "(T2 end mill, shank dia 3.175 mm)",
            "(T2 end mill)",
            "(tool #2 end mill)",
            "(step down 0.4 mm)",
            "(T2 H2 D2)",
            "(T2: 0.1 mm deep)",
            "(T2 - 1.65 mm below foil)"
        }) {
            String program = start(2).replace("T2 M6\n", comment + "\nT2 M6\n") + BORES + END;
            Bench.job().runs(program).isSilentOn(Kinds.TOOL_UNKNOWN);
        }
        for (String comment : new String[] {
            "(T1 30 deg V-bit)",
            "(V-bit 30 deg tip 0.12 mm)",
            "(engraving bit 0.12 mm)",
            "(T1 D=3.175 TAPER=15DEG - V-bit)",
            "(isolation, 30 deg, cut width 0.15 mm)",
            "(T1 3.175 mm engraving bit)"
        }) {
            String program = start(1).replace("T1 M6\n", comment + "\nT1 M6\n") + GROOVE + END;
            Bench.job().runs(program).isSilentOn(Kinds.TOOL_UNKNOWN);
        }
    }

    @Test
    @Fires("A12 tool-unknown")
    void shouldAskToMendAToolThatIsCalledAndNeverPutIn() {
        Bench.job()
                .runs(start(1) + GROOVE + "M5\nG0 Z25\nT2\nM0\nS16000 M3\nG4 P3\n" + BORES + END)
                .examined()
                .raises(Kinds.TOOL_UNKNOWN, FIX, GEOMETRY)
                .onLineOf("T2")
                .saying("no M6");
    }

    @Test
    @Silent("A12 tool-unknown")
    void shouldNotMindAToolThatIsMadeReadyBeforeItsChange() {
        Bench.job()
                .runs(start(1) + "T2\n" + GROOVE + "M5\nG0 Z25\nM6\nM0\nT1\nS16000 M3\nG4 P3\n" + BORES + END)
                .isSilentOn(Kinds.TOOL_UNKNOWN);
    }

    // ---- A14, A15

    @Test
    @Silent("A15 arc-suspect")
    void shouldNotMindRingsThatClearAnAreaFromWithin() {
        StringBuilder t = new StringBuilder(start(2) + "G0 X8 Y7\nG0 Z1\nG1 Z-0.1 F90\n");
        for (int k = 1; k <= 6; k++) {
            t.append("G1 X")
                    .append(8 + 0.5 * k)
                    .append(" F300\nG3 X")
                    .append(8 + 0.5 * k)
                    .append(" Y7 I")
                    .append(-0.5 * k)
                    .append(" J0\n");
        }
        Bench.job().runs(t + "G0 Z5\n" + END).isSilentOn(Kinds.ARC_SUSPECT);
    }

    @Test
    @Fires("A15 arc-suspect")
    void shouldStopAtAFullCircleAfterShortMovesThoughALongOneFollows() {
        Bench.job()
                .runs(start(1)
                        + "G0 X3 Y5\nG0 Z1\nG1 Z-0.1 F90\nG1 X4 F300\nG1 X5\nG1 X6\nG2 X6 Y5 I0 J3.05\nG1 X12\nG0 Z5\n"
                        + END)
                .raises(Kinds.ARC_SUSPECT, STOP, GEOMETRY)
                .onLineOf("G2 X6");
    }

    // ---- A16

    private static String drill(String cycle) {
        return start(4, 15000) + cycle + "G80\n" + END;
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopWhereRLiesAtOrBelowTheFoilTop() {
        Bench.job()
                .runs(drill("G81 X5 Y5 Z-1.95 R0 F200\nX9\n"))
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("G81")
                .measuring(0, "mm", 1e-9);
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopWhereG99TravelsBelowTheBowAndHalfAMillimetre() {
        Bench.job()
                .spread("bow", "0.05 mm")
                .runs(drill("G99 G81 X5 Y5 Z-1.95 R0.54 F200\nX9\n"))
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("G99")
                .measuring(0.54, "mm", 1e-9)
                .against(0.55);
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopWhereThePeckIsMissing() {
        Bench.job()
                .runs(drill("G83 X5 Y5 Z-1.95 R1 F200\nX9\n"))
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("G83")
                .folding(Kinds.PROGRAM_ERROR);
        Bench.job().runs(drill("G83 X5 Y5 Z-1.95 R1 Q0 F200\nX9\n")).raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY);
    }

    private static Bench rings(String holes) {
        StringBuilder t = new StringBuilder(start(1));
        for (int k = 0; k < 4; k++) {
            t.append(rectangle(3 + 3.5 * k, 4, 5 + 3.5 * k, 6, -0.1));
        }
        return Bench.job().program("rings.ngc", t + END).program("holes.ngc", drill(holes));
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopAtAHoleOutsideAllRingsOfACycleThatWasLeftOn() {
        rings("G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nX11\nX14.5\nF600\nX10 Y12 (meant as a rapid)\n")
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("X10 Y12")
                .at(10, 12);
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldOnlyWatchAFeedChangedInACycleWhereNoPadsAreKnown() {
        Bench.job()
                .runs(drill("G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nF600\nX10 Y12\n"))
                .raises(Kinds.CYCLE_SUSPECT, WATCH, GEOMETRY)
                .onLineOf("X10 Y12");
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopAtAHoleOnTheBlanksEdge() {
        Bench.job()
                .runs(drill("G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nX0 Y0\n"))
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("X0 Y0")
                .at(0, 0);
    }

    @Test
    @Fires("A16 cycle-suspect")
    void shouldStopAtAHoleThatTheDrillFileDoesNotAskFor() {
        String file = "M48\nMETRIC,TZ\nT1C1.000\n%\nG90\nG05\nT1\nX4.0Y5.0\nX7.5Y5.0\nM30\n";
        Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", file)
                .runs(drill("G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nX12 Y9\n"))
                .raises(Kinds.CYCLE_SUSPECT, STOP, GEOMETRY)
                .onLineOf("X12 Y9")
                .folding(Kinds.HOLE_MISSING);
    }

    @Test
    @Silent("A16 cycle-suspect")
    void shouldNotMindCyclesAsGeneratorsWriteThem() {
        rings("G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nX11\nX14.5\nX10 Y12\n").isSilentOn(Kinds.CYCLE_SUSPECT);
        Bench.job()
                .spread("bow", "0.05 mm")
                .runs(drill("G99 G81 X5 Y5 Z-1.95 R0.55 F200\nX9\nX13\n"))
                .isSilentOn(Kinds.CYCLE_SUSPECT);
        Bench.job().runs(drill("G98 G83 X5 Y5 Z-1.95 R0.3 Q0.6 F200\nX9\n")).isSilentOn(Kinds.CYCLE_SUSPECT);
        Bench.job().runs(drill("G81 X5 Y5 Z-1.95 R0.1 F200\nX9\n")).isSilentOn(Kinds.CYCLE_SUSPECT);
    }

    // ---- A17

    private static String compensated(String words) {
        return start(2) + "G0 X1 Y1\nG0 Z1\nG1 Z-0.1 F90\n" + words
                + "\nG1 X4 Y3 F300\nG1 X12\nG1 Y10\nG1 X4\nG1 Y5\nG40\nG0 Z5\n" + END;
    }

    @Test
    @Fires("A17 cutter-compensation")
    void shouldStopAtCompensationWithoutADiameter() {
        Bench.job()
                .runs(compensated("G42"))
                .raises(Kinds.CUTTER_COMPENSATION, STOP, GEOMETRY)
                .onLineOf("G42");
    }

    private static final String OUTLINE =
            "%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.100000*%\nD10*\nX4000000Y3000000D02*\nX12000000D01*\n"
                    + "Y10000000D01*\nX4000000D01*\nY3000000D01*\nM02*\n";

    private static Bench outlined(double by) {
        String path = Programs.text(
                "G1 X%s Y%s F300\nG1 X%s\nG1 Y%s\nG1 X%s\nG1 Y4\nG40\nG0 Z5\n",
                4 - by, 3 - by, 12 + by, 10 + by, 4 - by);
        return Bench.job()
                .blank("copper", "one side")
                .design("outline", "outline.gbr", OUTLINE)
                .also("")
                .program(
                        "a.ngc",
                        start(2) + "G0 X1 Y" + (3 - by) + "\nG0 Z1\nG1 Z-0.4 F90\nG42 D2\n" + path + END,
                        "work",
                        "outline");
    }

    @Test
    @Fires("A17 cutter-compensation")
    void shouldStopAtAnOutlineThatIsMovedOutwardTwice() {
        outlinedOnTop(0.4).raises(Kinds.CUTTER_COMPENSATION, STOP, GEOMETRY).measuring(0.8, "mm", 0.02);
    }

    @Test
    @Silent("A17 cutter-compensation")
    void shouldNotMindAnOutlineMovedOnceNorCompensationWithItsDiameter() {
        outlinedOnTop(0).isSilentOn(Kinds.CUTTER_COMPENSATION);
        Bench.job().runs(compensated("G42 D2")).isSilentOn(Kinds.CUTTER_COMPENSATION);
    }

    private static Bench outlinedOnTop(double by) {
        return outlined(by).side("face", "top");
    }

    // ---- A20, A3

    @Test
    @Fires("A3 program-error")
    void shouldStopAtAByteOrderMark() {
        Bench.job().runs("\uFEFF" + isolation()).raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY);
    }

    // ---- A21

    @Test
    @Fires("A21 block-delete")
    void shouldWatchLinesBehindTheSwitchThatChangeTheBoard() {
        Bench.job()
                .runs(isolation()
                        .replace(
                                "G0 Z10\n",
                                "/" + Programs.line(5, 5, 9, 5, -0.1).replace("\n", "\n/") + "G0 Z10\n"))
                .raises(Kinds.BLOCK_DELETE, WATCH, GEOMETRY)
                .saying("off (they run)");
        Bench.job()
                .machine("on_tool_change", "ignored")
                .runs(start(1) + GROOVE + "M5\nG0 Z25\nT2 M6\nM1\nS16000 M3\nG4 P3\n" + BORES + END)
                .raises(Kinds.BLOCK_DELETE, WATCH, GEOMETRY)
                .onLineOf("T2 M6");
    }

    @Test
    @Silent("A21 block-delete")
    void shouldNotMindASwitchThatChangesNothingCut() {
        Bench.job()
                .runs(isolation().replace("G0 Z10\n", "/M8\n/G0 X1 Y1\nG0 Z10\n"))
                .isSilentOn(Kinds.BLOCK_DELETE);
        Bench.job().runs(isolation().replace("G0 Z10\n", "G0 Z10\nM5\nM1\n")).isSilentOn(Kinds.BLOCK_DELETE);
    }

    // ---- A22

    @Test
    @Fires("A22 wasted-moves")
    void shouldNotePathsThatAreRunTwice() {
        String longer = rectangle(3, 3, 17, 12, -0.1) + rectangle(3, 3, 17, 12, -0.1) + rectangle(3, 3, 17, 12, -0.1);
        Verdicts v = Bench.job().runs(start(1) + longer + END).examined();
        assertThat(v.findings().stream()
                        .filter(f -> f.kind().equals(Kinds.WASTED_MOVES))
                        .map(Finding::severity))
                .contains(NOTE);
        v.raisesNothingAbove(NOTE, Kinds.WASTED_MOVES);
    }

    @Test
    @Fires("A22 wasted-moves")
    void shouldNoteFeedsThroughAir() {
        Bench.job()
                .runs(isolation().replace("G0 Z5\nG0 Z10", "G1 Z5 F60\nG1 X3\nG0 Z10"))
                .raises(Kinds.WASTED_MOVES, NOTE, GEOMETRY)
                .saying("at feed cuts nothing");
    }

    @Test
    @Silent("A22 wasted-moves")
    void shouldNotMindLeadOversAndPlungesFromJustAbove() {
        Bench.job().runs(isolation()).isSilentOn(Kinds.WASTED_MOVES);
    }

    // ---- A24

    @Test
    @Fires("A24 start-state")
    void shouldWatchArcsThatRelyOnThePlaneLeftByTheJobBefore() {
        Bench.job()
                .runs(start(2).replace("G17 ", "") + BORES + END)
                .raises(Kinds.START_STATE, WATCH, GEOMETRY)
                .onLineOf("G3");
    }

    /** What only an aborted job leaves behind is a note: many sound programs say no G40, G49 or G94. */
    @Test
    @Silent("A24 start-state")
    void shouldOnlyNoteWhatAnAbortedJobWouldLeave() {
        Bench.job()
                .runs(isolation().replace("G40 ", ""))
                .raises(Kinds.START_STATE, NOTE, GEOMETRY)
                .saying("radius compensation (G41)");
        Bench.job()
                .runs(isolation().replace("G49 ", ""))
                .raises(Kinds.START_STATE, NOTE, GEOMETRY)
                .saying("a length offset (G43)");
        Bench.job()
                .runs("%\n" + start(2).replace("G91.1 ", "").replace("G94 ", "") + BORES + END)
                .raises(Kinds.START_STATE, NOTE, GEOMETRY)
                .saying("absolute arc centres (G90.1)");
    }

    @Test
    @Silent("A24 start-state")
    void shouldNotMindASafeStartNorAProgramThatNeedsNoPlane() {
        Bench.job().runs(start(2) + BORES + END).isSilentOn(Kinds.START_STATE);
        Bench.job().runs(isolation().replace("G17 ", "")).isSilentOn(Kinds.START_STATE);
        Bench.job()
                .runs(isolation().replace("G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G61", "G21 G90"))
                .examined()
                .raisesNothingAboveANote();
    }
}
