package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.HEAD;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import org.junit.jupiter.api.Test;

/** Checks of program text and modal state (needs, section A), each just beyond and just inside its limit. */
class ProgramTextChecksTest {
    // ---- program-error

    @Test
    @Fires("A3 program-error")
    void shouldStopAtADecimalComma() {
        Bench.job()
                .runs(isolation().replace("X13.0 F300", "X13,0 F300"))
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("X13,0")
                .at(3, 3);
    }

    @Test
    @Fires("A3 program-error")
    void shouldStopAtAMinusThatATextProcessorMadeLonger() {
        Bench.job()
                .runs(isolation().replace("Z-0.1", "Z\u22120.1"))
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("\u22120.1");
    }

    @Test
    @Fires("A20 program-error")
    void shouldStopAtWordsThatAreInNeitherLanguage() {
        Bench.job()
                .runs(isolation().replace("G1 Y11.0", "O100 sub"))
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("O100");
    }

    @Test
    @Fires("A20 program-error")
    void shouldStopAtTwoCodesOfOneModalGroup() {
        Bench.job()
                .runs(isolation().replace("G1 Y11.0", "G1 G0 Y11.0"))
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("G1 G0");
    }

    @Test
    @Silent({"A3 program-error", "A20 program-error", "A14 program-error", "A19 program-truncated"})
    void shouldReadASoundProgramWithoutAWord() {
        Bench.job()
                .runs(isolation())
                .isSilentOn(Kinds.PROGRAM_ERROR)
                .isSilentOn(Kinds.PROGRAM_TRUNCATED)
                .isSilentOn(Kinds.ARC_SUSPECT);
    }

    /** A half circle of 2 mm whose start and end radius differ by twice {@code off}. */
    private static String halfCircle(double off) {
        return start(1) + text("G0 X5 Y5\nG0 Z1\nG1 Z-0.1 F90\nG2 X9 Y5 I%s J0 F300\nG0 Z5\n", 2 + off) + END;
    }

    @Test
    @Fires("A14 program-error")
    void shouldRefuseAnArcWhoseRadiiDifferByMoreThanFiveMicrometres() {
        Bench.job()
                .runs(halfCircle(0.00255))
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("G2 X9");
    }

    @Test
    @Fires("A14 program-error")
    void shouldRefuseAnArcWhoseRadiiDifferByMoreThanTwoMicrometresInTheStrictLanguage() {
        String strict = halfCircle(0.00105).replace("G91.1 ", "");
        Bench.job()
                .machine("language", "strict")
                .runs(strict)
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY)
                .onLineOf("G2 X9");
        Bench.job()
                .machine("language", "strict")
                .runs(strict.replace("I2.00105", "I2.00095"))
                .isSilentOn(Kinds.PROGRAM_ERROR);
    }

    @Test
    @Fires("A14 arc-suspect")
    void shouldWatchAnArcWhoseRadiiDifferByMoreThanRoundingToThreeDecimalsGives() {
        Bench.job()
                .runs(halfCircle(0.00120))
                .raises(Kinds.ARC_SUSPECT, WATCH, GEOMETRY)
                .onLineOf("G2 X9")
                .measuring(0.0024, "mm", 1e-6)
                .against(0.002);
        Bench.job().runs(halfCircle(0.00245)).raises(Kinds.ARC_SUSPECT, WATCH, GEOMETRY);
    }

    @Test
    @Silent({"A14 arc-suspect", "A14 program-error"})
    void shouldNotMindRoundingOfAnArcToThreeDecimals() {
        Bench.job().runs(halfCircle(0.00110)).isSilentOn(Kinds.ARC_SUSPECT).isSilentOn(Kinds.PROGRAM_ERROR);
    }

    /** An arc in radius form of 2 mm that sweeps so much. */
    private static String radiusForm(double sweepDeg) {
        double chord = 4 * StrictMath.sin(StrictMath.toRadians(sweepDeg) / 2);
        return start(1) + text("G0 X5 Y5\nG0 Z1\nG1 Z-0.1 F90\nG2 X%s Y5 R2.0 F300\nG0 Z5\n", 5 + chord) + END;
    }

    @Test
    @Fires("A14 arc-suspect")
    void shouldWatchARadiusFormWithinOneDegreeOfAHalfTurn() {
        Bench.job()
                .runs(radiusForm(179.1))
                .raises(Kinds.ARC_SUSPECT, WATCH, GEOMETRY)
                .onLineOf("R2.0")
                .measuring(179.1, "deg", 0.05);
    }

    @Test
    @Silent("A14 arc-suspect")
    void shouldNotMindARadiusFormMoreThanOneDegreeFromAHalfTurn() {
        Bench.job().runs(radiusForm(178.9)).isSilentOn(Kinds.ARC_SUSPECT);
    }

    /** Short moves in line with an arc between them whose start and end are one point. */
    private static String tinyArc(double moveMm, double radiusMm) {
        return start(1)
                + text(
                        "G0 X3 Y5\nG0 Z1\nG1 Z-0.1 F90\nG1 X4 F300\nG1 X5\nG1 X%s\nG2 X%s Y5 I0 J%s\nG1 X%s\nG1 X8\nG0 Z5\n",
                        5 + moveMm, 5 + moveMm, radiusMm, 5 + 2 * moveMm)
                + END;
    }

    @Test
    @Fires("A15 arc-suspect")
    void shouldStopAtAFullCircleInTheMidstOfShortMoves() {
        Bench.job()
                .runs(tinyArc(1.0, 3.05))
                .raises(Kinds.ARC_SUSPECT, STOP, GEOMETRY)
                .onLineOf("G2 X")
                .measuring(3.05, "mm", 1e-6)
                .at(6, 5);
    }

    @Test
    @Silent("A15 arc-suspect")
    void shouldNotMindAFullCircleThatIsNoMoreThanThreeMovesLarge() {
        Bench.job().runs(tinyArc(1.0, 2.95)).isSilentOn(Kinds.ARC_SUSPECT);
    }

    @Test
    @Silent("A15 arc-suspect")
    void shouldNotMindBoresAndCirclesWithALeadIn() {
        String bore = start(2) + Programs.bore(5, 5, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END;
        Bench.job().runs(bore).isSilentOn(Kinds.ARC_SUSPECT);
        // a round outline of 10 mm entered and left tangentially by lines of 1 mm
        String circle =
                start(2) + "G0 X15 Y6.5\nG0 Z1\nG1 Z-0.5 F90\nG1 Y7.5 F300\nG3 X15 Y7.5 I-5 J0\nG1 Y8.5\nG0 Z5\n" + END;
        Bench.job().runs(circle).isSilentOn(Kinds.ARC_SUSPECT);
        // the same entered by a line and a quarter arc
        String both = start(2) + "G0 X13 Y6.5\nG0 Z1\nG1 Z-0.5 F90\nG1 X14 F300\nG3 X15 Y7.5 I0 J1\n"
                + "G3 X15 Y7.5 I-5 J0\nG3 X14 Y8.5 I-1 J0\nG1 X13\nG0 Z5\n" + END;
        Bench.job().runs(both).isSilentOn(Kinds.ARC_SUSPECT);
        // the same entered and left by quarter arcs
        String arcs = start(2) + "G0 X14 Y6.5\nG0 Z1\nG1 Z-0.5 F90\nG3 X15 Y7.5 I0 J1 F300\nG3 X15 Y7.5 I-5 J0\n"
                + "G3 X14 Y8.5 I-1 J0\nG0 Z5\n" + END;
        Bench.job().runs(arcs).isSilentOn(Kinds.ARC_SUSPECT);
    }

    // ---- program-truncated

    private static String cutAfter(String text) {
        String whole = isolation();
        return whole.substring(0, whole.indexOf(text) + text.length());
    }

    @Test
    @Fires("A19 program-truncated")
    void shouldStopWhereTheProgramBreaksOffInAWord() {
        Bench.job()
                .runs(cutAfter("G1 X13.0 F300\nG1 Y"))
                .raises(Kinds.PROGRAM_TRUNCATED, STOP, GEOMETRY)
                .saying("middle of line")
                .folding(Kinds.PROGRAM_ERROR)
                .in("a.ngc");
    }

    @Test
    @Fires("A19 program-truncated")
    void shouldStopWhereTheProgramEndsBelowTheFoilTop() {
        Bench.job()
                .runs(cutAfter("G1 X13.0 F300\n"))
                .raises(Kinds.PROGRAM_TRUNCATED, STOP, GEOMETRY)
                .saying("below the foil top")
                .at(13, 3);
    }

    @Test
    @Fires("A19 program-truncated")
    void shouldOnlyNoteAMissingEndWordWhileTheCutterIsUp() {
        Bench.job()
                .runs(isolation().replace("M2\n", ""))
                .raises(Kinds.PROGRAM_TRUNCATED, NOTE, GEOMETRY)
                .saying("no M2");
    }

    // ---- units-unset

    /** Copper work within a box, and an outline of 18 x 13 mm, each with its numbers divided. */
    private static Bench copperInOutline(
            double copperBy, double outlineBy, double x0, double y0, double x1, double y1) {
        String copper = start(3) + rectangle(x0 / copperBy, y0 / copperBy, x1 / copperBy, y1 / copperBy, -0.1) + END;
        String outline = start(2)
                + rectangle(1 / outlineBy, 1 / outlineBy, 19 / outlineBy, 14 / outlineBy, -0.8)
                + rectangle(1 / outlineBy, 1 / outlineBy, 19 / outlineBy, 14 / outlineBy, -1.65)
                + END;
        return Bench.job().program("a.ngc", copper, "work", "isolation").program("b.ngc", outline, "work", "outline");
    }

    @Test
    @Fires("A1 units-unset")
    void shouldTellCopperWorkThatFillsItsOutlineOnlyInTheOtherUnit() {
        // 18 mm over 10 mm / 25.4: 46 times, and 13 over 7 / 25.4: 47 times; the ratio alone says nothing
        copperInOutline(25.4, 1, 5, 4, 15, 11)
                .raises(Kinds.UNITS_UNSET, STOP, GEOMETRY)
                .in("a.ngc");
        copperInOutline(1, 25.4, 2, 2, 18, 13)
                .raises(Kinds.UNITS_UNSET, STOP, GEOMETRY)
                .in("b.ngc");
    }

    @Test
    @Silent("A1 units-unset")
    void shouldNotMindSmallCopperWorkInALargeOutline() {
        copperInOutline(1, 1, 5, 4, 15, 11).isSilentOn(Kinds.UNITS_UNSET);
        // so small, but not where its board would be in inches
        copperInOutline(1, 1, 9, 7, 9.6, 7.5).isSilentOn(Kinds.UNITS_UNSET);
        // in a corner of the board, and too small for its board even in inches
        copperInOutline(1, 1, 0.1, 0.1, 0.4, 0.3).isSilentOn(Kinds.UNITS_UNSET);
    }

    @Test
    @Fires("A1 units-unset")
    void shouldStopWhereNobodySaysTheUnits() {
        Bench.job()
                .machine("units", "unknown")
                .runs(isolation().replace("G21 ", ""))
                .raises(Kinds.UNITS_UNSET, STOP, GEOMETRY)
                .onLineOf("G0 Z25");
    }

    @Test
    @Silent("A1 units-unset")
    void shouldOnlyNoteUnitsThatTheMachineAssumes() {
        Bench.job().runs(isolation().replace("G21 ", "")).raises(Kinds.UNITS_UNSET, NOTE, GEOMETRY);
        Bench.job().machine("units", "unknown").runs(isolation()).isSilentOn(Kinds.UNITS_UNSET);
    }

    private static Bench ratio(double times) {
        return Bench.job()
                .program("small.ngc", start(1) + rectangle(3, 3, 3.45, 3.4, -0.1) + END)
                .program("large.ngc", start(1) + rectangle(4, 4, 4 + 0.45 * times, 4 + 0.4 * times, -0.1) + END);
    }

    private static final double[][] DRILLED = {{4, 3}, {9, 3}, {4, 7}, {9, 7}, {14, 3}, {16, 11}};

    /** Copper of the pencil in mm, then holes of the drill in the same file, their numbers divided by a factor. */
    private static String holesDividedBy(double factor, String unit) {
        StringBuilder t = new StringBuilder(
                start(5) + rectangle(2, 2, 18, 13, -0.1) + "M5\nG0 Z25\nT4 M6\nM0\n" + unit + "\nS15000 M3\nG4 P3\n");
        for (double[] h : DRILLED) {
            t.append(
                    text("G0 Z%s\nG0 X%s Y%s\nG1 Z%s F90\n", 2 / factor, h[0] / factor, h[1] / factor, -1.95 / factor));
        }
        return t + END;
    }

    private static Bench drilledBy(String program) {
        StringBuilder drill = new StringBuilder("M48\nMETRIC\nT1C1.000\n%\nG05\nT1\n");
        for (double[] h : DRILLED) {
            drill.append(text("X%sY%s\n", h[0], h[1]));
        }
        return Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", drill + "M30\n")
                .runs(program);
    }

    /** An inch is 25.4 mm (international inch, 1959). */
    @Test
    @Fires("A1 units-unset")
    void shouldStopWhereHolesFitTheDrillFileOnlyInTheOtherUnit() {
        drilledBy(holesDividedBy(25.4, "G21"))
                .raises(Kinds.UNITS_UNSET, STOP, GEOMETRY)
                .with("drill")
                .saying("6 of 6")
                .saying("read as inches");
        drilledBy(holesDividedBy(1, "G20"))
                .raises(Kinds.UNITS_UNSET, STOP, GEOMETRY)
                .saying("read as mm");
    }

    @Test
    @Silent("A1 units-unset")
    void shouldNotMindUnitsThatChangeWithTheirNumbersNorHolesOfAnotherBoard() {
        drilledBy(holesDividedBy(25.4, "G20")).isSilentOn(Kinds.UNITS_UNSET);
        drilledBy(holesDividedBy(1, "G21")).isSilentOn(Kinds.UNITS_UNSET);
        drilledBy(holesDividedBy(23, "G21")).isSilentOn(Kinds.UNITS_UNSET);
    }

    /** A hole bored 1.2 mm wide spans 0.4 mm, a cut of 10 mm is 25 times that and no inch. */
    @Test
    @Silent("A1 units-unset")
    void shouldNotTakeASingleHoleForAFileInTheOtherUnit() {
        Bench.job()
                .program("hole.ngc", start(2) + Programs.bore(8, 7, 1.2, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .program("large.ngc", start(1) + rectangle(3, 3, 13, 13, -0.1) + END)
                .isSilentOn(Kinds.UNITS_UNSET);
    }

    @Test
    @Fires("A1 units-unset")
    void shouldStopWhereTwoFilesDifferByTheInch() {
        ratio(23.1).raises(Kinds.UNITS_UNSET, STOP, GEOMETRY).in("small.ngc").saying("23.1 times");
        ratio(27.9).raises(Kinds.UNITS_UNSET, STOP, GEOMETRY);
    }

    @Test
    @Silent("A1 units-unset")
    void shouldNotMindFilesOfDifferentExtents() {
        ratio(22.9).isSilentOn(Kinds.UNITS_UNSET);
        ratio(28.1).isSilentOn(Kinds.UNITS_UNSET);
    }

    // ---- distance-mode

    @Test
    @Fires("A4 distance-mode")
    void shouldStopWhereNobodySaysAbsoluteOrIncremental() {
        Bench.job()
                .runs(isolation().replace("G90 ", ""))
                .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                .onLineOf("G0 Z25");
    }

    @Test
    @Fires("A4 distance-mode")
    void shouldStopWhereIncrementalMovesWalkAway() {
        Bench.job()
                .runs(start(1) + "G0 X4 Y4\nG0 Z1\nG1 Z-0.1 F90\nG91\nG1 X6 F300\nG1 Y3\nG1 X0.2\nG0 Z5\nM5\nM2\n")
                .raises(Kinds.DISTANCE_MODE, STOP, GEOMETRY)
                .onLineOf("G1 X6");
    }

    @Test
    @Silent("A4 distance-mode")
    void shouldNotMindIncrementalMovesThatEnd() {
        Bench.job()
                .runs(start(1) + "G0 X4 Y4\nG0 Z1\nG1 Z-0.1 F90\nG91\nG1 X6 F300\nG1 Y3\nG90\nG1 X4.5\nG0 Z5\nM5\nM2\n")
                .isSilentOn(Kinds.DISTANCE_MODE);
        // a retract in incremental mode at the end cuts nothing
        Bench.job()
                .runs(isolation().replace("G0 Z10\n", "G91\nG0 Z10\nG0 X1\n"))
                .isSilentOn(Kinds.DISTANCE_MODE);
        Bench.job().runs(isolation().replace("G0 Z10\n", "G91 G28 Z0\n")).isSilentOn(Kinds.DISTANCE_MODE);
    }

    // ---- tool-unknown

    @Test
    @Fires("A12 tool-unknown")
    void shouldStopAtAToolThatTheJobDoesNotHave() {
        Bench.job()
                .runs(isolation().replace("T1 M6", "T9 M6"))
                .raises(Kinds.TOOL_UNKNOWN, STOP, GEOMETRY)
                .onLineOf("T9 M6")
                .saying("T9");
    }

    @Test
    @Fires("A12 tool-unknown")
    void shouldAskForATWordAtAToolChangeWithoutOne() {
        Bench.job()
                .program("a.ngc", isolation().replace("T1 M6", "M6"), "tool", "engraver")
                .raises(Kinds.TOOL_UNKNOWN, FIX, GEOMETRY)
                .onLineOf("M6");
    }

    @Test
    @Silent("A12 tool-unknown")
    void shouldNotMindAToolThatTheJobNames() {
        Bench.job().runs(isolation()).isSilentOn(Kinds.TOOL_UNKNOWN);
        Bench.job()
                .program("a.ngc", isolation().replace("T1 M6\n", ""), "tool", "engraver")
                .isSilentOn(Kinds.TOOL_UNKNOWN);
    }

    // ---- length-offset

    private static final String TWO_TOOLS = start(1) + rectangle(3, 3, 13, 11, -0.1) + "M5\nG0 Z25\n";
    private static final String BORES = "S16000 M3\nG4 P3\n" + Programs.bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65);

    @Test
    @Fires("A13 length-offset")
    void shouldStopWhereAnIgnoredToolChangeHasNoStop() {
        Bench.job()
                .machine("on_tool_change", "ignored")
                .runs(TWO_TOOLS + "T2 M6\n" + BORES + END)
                .raises(Kinds.LENGTH_OFFSET, STOP, SET_UP)
                .onLineOf("G3")
                .with("cutter");
    }

    @Test
    @Silent("A13 length-offset")
    void shouldNotMindAnIgnoredToolChangeWithAStop() {
        Bench.job()
                .machine("on_tool_change", "ignored")
                .runs(TWO_TOOLS + "T2 M6\nM0\n" + BORES + END)
                .isSilentOn(Kinds.LENGTH_OFFSET);
    }

    @Test
    @Silent("A13 length-offset")
    void shouldNotMindAToolChangeThatStopsOrProbes() {
        for (String change : new String[] {"stop", "probe"}) {
            Bench.job()
                    .machine("on_tool_change", change)
                    .runs(TWO_TOOLS + "T2 M6\n" + BORES + END)
                    .isSilentOn(Kinds.LENGTH_OFFSET);
        }
    }

    private static Bench measured(String lengthOfCutter) {
        return Bench.job()
                .machine("on_tool_change", "measured")
                .tool("engraver", "length", "30.00 mm")
                .tool("cutter", "length", lengthOfCutter);
    }

    @Test
    @Fires("A13 length-offset")
    void shouldStopWhereTheLengthOfAnotherToolIsInForce() {
        String first = TWO_TOOLS.replace("G0 Z5\n", "G43 H1\nG0 Z5\n");
        measured("31.50 mm")
                .runs(first + "T2 M6\n" + BORES + END)
                .raises(Kinds.LENGTH_OFFSET, STOP, SET_UP)
                .measuring(1.5, "mm", 1e-6)
                .saying("too low");
        measured("30.01 mm")
                .runs(first + "T2 M6\n" + BORES + END)
                .raises(Kinds.LENGTH_OFFSET, STOP, SET_UP)
                .measuring(0.01, "mm", 1e-6);
    }

    @Test
    @Silent("A13 length-offset")
    void shouldNotMindTheToolsOwnLength() {
        String first = TWO_TOOLS.replace("G0 Z5\n", "G43 H1\nG0 Z5\n");
        measured("31.50 mm").runs(first + "T2 M6\nG43 H2\n" + BORES + END).isSilentOn(Kinds.LENGTH_OFFSET);
        measured("30.00 mm").runs(first + "T2 M6\n" + BORES + END).isSilentOn(Kinds.LENGTH_OFFSET);
    }

    @Test
    @Fires("A13 length-offset")
    void shouldStopWhereAMeasuredLengthIsNotGiven() {
        measured("31.50 mm")
                .toolWithout("cutter", "length")
                .runs(TWO_TOOLS.replace("G0 Z5\n", "G43 H1\nG0 Z5\n") + "T2 M6\nG43 H2\n" + BORES + END)
                .raises(Kinds.LENGTH_OFFSET, STOP, SET_UP);
    }

    @Test
    void shouldRaiseNothingAboveANoteOnASoundProgram() {
        Bench.job().runs(isolation()).examined().raisesNothingAboveANote();
        Bench.job().runs(HEAD + "M2\n").examined().raisesNothingAboveANote();
    }
}
