package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.plunge;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Checks of depth: Z zero, foil, duty, spoil board, holes. */
class DepthChecksTest {
    private static Bench isolating(int tool, double z) {
        return Bench.job().runs(start(tool) + rectangle(3, 3, 13, 11, z) + END);
    }

    private static Bench declared(int tool, double z) {
        return Bench.job().program("a.ngc", start(tool) + rectangle(3, 3, 13, 11, z) + END, "work", "isolation");
    }

    // ---- wrong-z-reference

    @Test
    @Fires("B1 wrong-z-reference")
    void shouldStopWhereCopperWorkDoesNotReachTheFoil() {
        isolating(1, -0.0149)
                .raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY)
                .measuring(0.0149, "mm", 1e-6)
                .against(0.015)
                .with("engraver");
        declared(1, 0.6).raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY).saying("cuts air");
        isolating(1, 0.6).raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY).saying("cuts air");
    }

    @Test
    @Fires({"A2 wrong-z-reference", "B1 wrong-z-reference"})
    void shouldStopWhereCopperWorkIsDeeperThanHalfAMillimetre() {
        declared(3, -0.501)
                .raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY)
                .onLineOf("G1 Z-0.501")
                .at(3, 3)
                .measuring(0.501, "mm", 1e-6)
                .against(0.5);
    }

    @Test
    @Fires("A2 wrong-z-reference")
    void shouldStopAtATenfoldDepth() {
        declared(5, -1.0).raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY).measuring(1.0, "mm", 1e-6);
    }

    @Test
    @Silent({"A2 wrong-z-reference", "B1 wrong-z-reference"})
    void shouldNotMindCopperWorkBetweenTheLimits() {
        isolating(1, -0.0151).isSilentOn(Kinds.WRONG_Z_REFERENCE);
        declared(3, -0.5).isSilentOn(Kinds.WRONG_Z_REFERENCE);
        // an outline and bores are no copper work
        isolating(2, -1.65).isSilentOn(Kinds.WRONG_Z_REFERENCE);
        Bench.job().runs(start(2) + plunge(5, 5, -1.65) + END).isSilentOn(Kinds.WRONG_Z_REFERENCE);
    }

    @Test
    @Fires("B1 wrong-z-reference")
    void shouldStopWhereTheZeroLiesOnTheSpoilBoardButTheProgramCountsFromTheFoil() {
        declared(1, -0.1).side("z_zero", "spoil board").examined().raises(Kinds.WRONG_Z_REFERENCE, STOP, GEOMETRY);
    }

    @Test
    @Silent("B1 wrong-z-reference")
    void shouldCountFromTheSpoilBoardWhereTheZeroLiesThere() {
        // the foil's top lies 1.5 + 0.1 mm above the spoil board
        String program =
                start(1) + rectangle(3, 3, 13, 11, 1.5).replace("Z1.0", "Z3").replace("G0 Z1\n", "G0 Z3\n") + END;
        Bench.job().side("z_zero", "spoil board").runs(program).examined().raisesNothingAboveANote();
    }

    // ---- blank-thickness

    /** Copper cut from the spoil board: at 0.1 mm a blank thinner by more than 0.0776 mm leaves foil. */
    private static Bench fromSpoilBoard(String spread) {
        String program =
                start(1) + rectangle(3, 3, 13, 11, 1.5).replace("Z1.0", "Z3").replace("G0 Z1\n", "G0 Z3\n") + END;
        return Bench.job()
                .side("z_zero", "spoil board")
                .spread("thickness", spread)
                .runs(program);
    }

    @Test
    @Fires("B16 blank-thickness")
    void shouldTellCopperThatRestsOnTheBlanksThickness() {
        fromSpoilBoard("0.08 mm")
                .raises(Kinds.BLANK_THICKNESS, WATCH, SET_UP)
                .measuring(0.0776, "mm", 5e-4)
                .against(0.08)
                .saying("foil left in a groove");
        fromSpoilBoard("0.05 mm").raises(Kinds.BLANK_THICKNESS, NOTE, SET_UP);
        isolating(2, -1.65).isSilentOn(Kinds.BLANK_THICKNESS);
        isolating(2, -1.62)
                .raises(Kinds.BLANK_THICKNESS, NOTE, SET_UP)
                .against(1.65)
                .saying("would not go through");
    }

    @Test
    @Silent("B16 blank-thickness")
    void shouldSayNothingOfThicknessWhereNothingRestsOnIt() {
        fromSpoilBoard("0.077 mm").examined().raisesNothingAbove(NOTE, Kinds.BLANK_THICKNESS);
        isolating(1, -0.1).isSilentOn(Kinds.BLANK_THICKNESS);
        isolating(2, -1.65).isSilentOn(Kinds.BLANK_THICKNESS);
    }

    // ---- foil-left

    @Test
    @Fires("D1 foil-left")
    void shouldStopWhereTheFoilIsNotCleared() {
        // 17.4 um of foil and 5 um below it
        isolating(1, -0.0221)
                .raises(Kinds.FOIL_LEFT, STOP, GEOMETRY)
                .measuring(0.0221, "mm", 0.0005)
                .against(0.0224)
                .with("engraver")
                .in("a.ngc");
    }

    @Test
    @Silent("D1 foil-left")
    void shouldNotMindAFoilThatIsJustCleared() {
        isolating(1, -0.0227).isSilentOn(Kinds.FOIL_LEFT);
    }

    @Test
    @Fires("D1 foil-left")
    void shouldTellTheLowPlaceOfABlank() {
        dished(-0.09)
                .raises(Kinds.FOIL_LEFT, STOP, GEOMETRY)
                .at(8, 3)
                .onLineOf("G1 X13")
                .measuring(0.01, "mm", 0.003);
    }

    @Test
    @Silent("D1 foil-left")
    void shouldNotMindALowPlaceThatIsStillCleared() {
        dished(-0.074).isSilentOn(Kinds.FOIL_LEFT);
    }

    /** A rectangle at Z-0.1 on a blank that lies low at (8, 3). */
    private static Bench dished(double low) {
        return isolating(1, -0.1)
                .blank(
                        "surface",
                        "[[\"0 mm\",\"0 mm\",\"0 mm\"], [\"20 mm\",\"0 mm\",\"0 mm\"], [\"8 mm\",\"3 mm\",\"" + low
                                + " mm\"], [\"0 mm\",\"9 mm\",\"0 mm\"], [\"20 mm\",\"9 mm\",\"0 mm\"], [\"0 mm\",\"15 mm\",\"0 mm\"],"
                                + " [\"20 mm\",\"15 mm\",\"0 mm\"], [\"18.5 mm\",\"13.5 mm\",\"0 mm\"]]");
    }

    @Test
    @Fires("D1 foil-left")
    void shouldTellFoilLeftOnlyUnderAZErrorAsAMatterOfSetUp() {
        isolating(1, -0.1).set("z_error.engraver=-0.08 mm").raises(Kinds.FOIL_LEFT, STOP, SET_UP);
    }

    // ---- thin-margin

    @Test
    @Fires({"B4 thin-margin", "D2 thin-margin"})
    void shouldWatchAMarginBelowTwentyMicrometres() {
        // lower end 0.0224 - 0.0722 = -0.0498, the spread ends at -0.030
        isolating(1, -0.0722)
                .raises(Kinds.THIN_MARGIN, WATCH, SET_UP)
                .measuring(0.0198, "mm", 0.0003)
                .against(0.020)
                .with("engraver");
        // upper end 0.15 - 0.1003 by the duty
        isolating(1, -0.1003)
                .raises(Kinds.THIN_MARGIN, WATCH, SET_UP)
                .measuring(0.0197, "mm", 0.0003)
                .against(0.020);
    }

    @Test
    @Silent({"B4 thin-margin", "B5 thin-margin", "D2 thin-margin", "D6 thin-margin"})
    void shouldNotMindAMarginOfTwentyMicrometres() {
        isolating(1, -0.1).isSilentOn(Kinds.THIN_MARGIN);
        isolating(1, -0.0727).isSilentOn(Kinds.THIN_MARGIN);
    }

    @Test
    @Fires("D2 thin-margin")
    void shouldAskToMendAMarginBelowZero() {
        isolating(1, -0.0520).raises(Kinds.THIN_MARGIN, FIX, SET_UP).measuring(-0.0004, "mm", 0.0003);
        isolating(1, -0.1203).raises(Kinds.THIN_MARGIN, FIX, SET_UP).measuring(-0.0003, "mm", 0.0003);
    }

    @Test
    @Fires("B5 thin-margin")
    void shouldTakeBowFromTheSpreadByTheLengthOfTheJob() {
        // 10 mm at 0.20 mm in 100: 0.020; with 0.03 of touch-off the spread begins at -0.05, the window at -0.0621
        bowed("0.20 mm").raises(Kinds.THIN_MARGIN, WATCH, SET_UP).measuring(0.0121, "mm", 0.0003);
    }

    @Test
    @Silent("B5 thin-margin")
    void shouldNotMindALittleBow() {
        bowed("0.12 mm").isSilentOn(Kinds.THIN_MARGIN);
    }

    private static Bench bowed(String bow) {
        return isolating(1, -0.0845).without("spread", "z").spread("z_touch", "0.03 mm", "bow", bow);
    }

    @Test
    @Fires("D6 thin-margin")
    void shouldSayThatNoDepthWorksWhereTheSpreadIsWiderThanTheWindow() {
        // from 0.0224 to 0.15 of depth: 0.1276 mm
        isolating(1, -0.0862)
                .spread("z", "[\"-0.0645 mm\", \"0.0645 mm\"]")
                .raises(Kinds.THIN_MARGIN, FIX, SET_UP)
                .saying("No depth setting works");
    }

    @Test
    @Silent("D6 thin-margin")
    void shouldNotSaySoWhereTheSpreadFits() {
        String told = isolating(1, -0.0862)
                .spread("z", "[\"-0.063 mm\", \"0.063 mm\"]")
                .examined()
                .toString();
        assertThat(told).doesNotContain("No depth setting works");
    }

    // ---- too-deep

    @Test
    @Fires("D4 too-deep")
    void shouldNoteCopperWorkDeeperThanNeeded() {
        isolating(5, -0.2184)
                .raises(Kinds.TOO_DEEP, NOTE, RULE_OF_THUMB)
                .measuring(0.2184, "mm", 1e-6)
                .against(0.2174);
    }

    @Test
    @Fires("D4 too-deep")
    void shouldWatchCopperWorkThatTakesTwoFifthsOfTheBlank() {
        declared(2, -0.321)
                .blank("thickness", "0.8 mm")
                .raises(Kinds.TOO_DEEP, WATCH, RULE_OF_THUMB)
                .measuring(0.321, "mm", 1e-6)
                .against(0.32);
    }

    @Test
    @Silent("D4 too-deep")
    void shouldNotMindCopperWorkOfUsualDepth() {
        isolating(5, -0.2170).isSilentOn(Kinds.TOO_DEEP);
        declared(2, -0.319).blank("thickness", "0.8 mm").examined().raisesNothingAbove(NOTE, Kinds.TOO_DEEP);
    }

    // ---- duty-broken

    @Test
    @Fires("C13 duty-broken")
    void shouldWatchACopperOnlyCutterBelowFifteenHundredths() {
        isolating(1, -0.151)
                .raises(Kinds.DUTY_BROKEN, WATCH, GEOMETRY)
                .onLineOf("G1 Z-0.151")
                .at(3, 3)
                .with("engraver")
                .measuring(0.151, "mm", 1e-6)
                .against(0.15);
    }

    /** A groove whose Z follows a foil that falls by 0.012 mm a mm, this deep below it; zero is set at X0.5. */
    private static Bench following(double depth) {
        return following(1, depth);
    }

    private static Bench following(int tool, double depth) {
        StringBuilder t = new StringBuilder(start(tool)).append("G0 X3 Y5\nG0 Z1\n");
        for (int i = 0; i <= 12; i++) {
            double z = -depth - 0.012 * (3 + i) + 0.006;
            t.append(i == 0 ? text("G1 Z%s F90\n", z) : text("G1 X%s Z%s F300\n", 3 + i, z));
        }
        return Bench.job()
                .side("touch_off", "[\"0.5 mm\", \"7 mm\"]")
                .blank(
                        "surface",
                        "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"20 mm\",\"0 mm\",\"-0.24 mm\"],"
                                + "[\"0 mm\",\"15 mm\",\"0 mm\"],[\"20 mm\",\"15 mm\",\"-0.24 mm\"]]")
                .runs(t.append("G0 Z5\n").append(END).toString());
    }

    @Test
    @Fires("C13 duty-broken")
    void shouldCountDepthBelowTheFoilWhereTheProgramFollowsIt() {
        following(0.152)
                .raises(Kinds.DUTY_BROKEN, WATCH, GEOMETRY)
                .measuring(0.152, "mm", 1e-4)
                .saying("below the foil as it lies");
    }

    @Test
    @Silent("C13 duty-broken")
    void shouldNotMindAProgramThatGoesDownWithTheFoil() {
        following(0.1).isSilentOn(Kinds.DUTY_BROKEN);
        following(0.149).isSilentOn(Kinds.DUTY_BROKEN);
    }

    @Test
    @Fires("C13 duty-broken")
    void shouldAskToMendACopperOnlyCutterBelowThreeTenths() {
        isolating(3, -0.301)
                .raises(Kinds.DUTY_BROKEN, FIX, GEOMETRY)
                .measuring(0.301, "mm", 1e-6)
                .against(0.30);
    }

    @Test
    @Fires("C13 duty-broken")
    void shouldStopACopperOnlyCutterThatBoresOrCutsOut() {
        Bench.job()
                .runs(start(3) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .raises(Kinds.DUTY_BROKEN, STOP, GEOMETRY)
                .at(8, 7)
                .with("isolator");
        isolating(3, -1.65)
                .raises(Kinds.DUTY_BROKEN, STOP, GEOMETRY)
                .saying("outline")
                .onLineOf("G1 Z-1.65");
        Bench.job()
                .program("a.ngc", start(3) + rectangle(3, 3, 13, 11, -0.1) + END, "work", "outline")
                .raises(Kinds.DUTY_BROKEN, STOP, GEOMETRY);
    }

    @Test
    @Fires("C13 duty-broken")
    void shouldStopACutterOutsideAListOfDuties() {
        isolating(2, -1.65)
                .tool("cutter", "duty", "[\"boring\"]")
                .raises(Kinds.DUTY_BROKEN, STOP, GEOMETRY)
                .saying("outline");
    }

    @Test
    @Silent("C13 duty-broken")
    void shouldNotMindACutterInItsDuty() {
        isolating(1, -0.15).isSilentOn(Kinds.DUTY_BROKEN);
        isolating(3, -0.3).examined().raises(Kinds.DUTY_BROKEN, WATCH, GEOMETRY);
        isolating(2, -1.65).isSilentOn(Kinds.DUTY_BROKEN);
        isolating(2, -1.65).tool("cutter", "duty", "[\"outline\", \"boring\"]").isSilentOn(Kinds.DUTY_BROKEN);
        // a list of works promises nothing about depth
        isolating(1, -0.18)
                .tool("engraver", "duty", "[\"isolation\", \"clearing\"]")
                .isSilentOn(Kinds.DUTY_BROKEN);
        // off the blank nothing of the duty is told
        Bench.job().runs(start(3) + line(-3, 3, -3, 11, -0.5) + END).isSilentOn(Kinds.DUTY_BROKEN);
    }

    @Test
    @Fires("C13 duty-broken")
    void shouldCountAZErrorAsDepth() {
        isolating(1, -0.14).set("z_error.engraver=0.011 mm").raises(Kinds.DUTY_BROKEN, WATCH, GEOMETRY);
        isolating(1, -0.14).set("z_error.engraver=0.009 mm").isSilentOn(Kinds.DUTY_BROKEN);
    }

    // ---- spoil board

    @Test
    @Fires("I1 spoil-board-contact")
    void shouldStopACopperOnlyCutterBelowTheBlank() {
        isolating(3, -1.501)
                .raises(Kinds.SPOIL_BOARD_CONTACT, STOP, GEOMETRY)
                .onLineOf("G1 Z-1.501")
                .at(3, 3)
                .measuring(0.001, "mm", 1e-6);
        // beside the blank, too
        Bench.job()
                .runs(start(3) + line(-3, 3, -3, 11, -1.51) + END)
                .raises(Kinds.SPOIL_BOARD_CONTACT, STOP, GEOMETRY)
                .at(-3, 3);
    }

    @Test
    @Fires("I1 spoil-board-contact")
    void shouldWatchACopperOnlyCutterNearTheSpoilBoard() {
        isolating(3, -1.201)
                .raises(Kinds.SPOIL_BOARD_CONTACT, WATCH, GEOMETRY)
                .measuring(0.299, "mm", 1e-6)
                .against(0.3);
        isolating(3, -1.5).raises(Kinds.SPOIL_BOARD_CONTACT, WATCH, GEOMETRY);
    }

    @Test
    @Silent("I1 spoil-board-contact")
    void shouldNotMindACopperOnlyCutterWellAboveTheSpoilBoardNorOtherCuttersInIt() {
        isolating(3, -1.2).isSilentOn(Kinds.SPOIL_BOARD_CONTACT);
        isolating(2, -1.65).isSilentOn(Kinds.SPOIL_BOARD_CONTACT);
    }

    @Test
    @Fires("I2 spoil-board-deep")
    void shouldNoteThenWatchThenRefuseOverCut() {
        isolating(2, -1.801)
                .raises(Kinds.SPOIL_BOARD_DEEP, NOTE, GEOMETRY)
                .onLineOf("G1 Z-1.801")
                .measuring(0.301, "mm", 1e-6)
                .against(0.30);
        isolating(2, -2.001)
                .raises(Kinds.SPOIL_BOARD_DEEP, WATCH, GEOMETRY)
                .measuring(0.501, "mm", 1e-6)
                .against(0.50);
        // tape 0.1 and spoil board 6 mm below the blank: less than 0.5 mm of it is left below -7.1
        isolating(2, -7.101)
                .raises(Kinds.SPOIL_BOARD_DEEP, FIX, GEOMETRY)
                .measuring(0.499, "mm", 1e-6)
                .against(0.5);
    }

    @Test
    @Silent("I2 spoil-board-deep")
    void shouldNotMindUsualOverCut() {
        isolating(2, -1.8).isSilentOn(Kinds.SPOIL_BOARD_DEEP);
        isolating(2, -2.0).examined().raisesNothingAbove(NOTE, Kinds.SPOIL_BOARD_DEEP);
        isolating(2, -7.099).examined().raisesNothingAbove(WATCH, Kinds.SPOIL_BOARD_DEEP);
    }

    /** A drill's point, 0.5 / tan(59 deg) = 0.3004 mm, may go below the full diameter. */
    @Test
    @Silent("I2 spoil-board-deep")
    void shouldCountOverCutOfADrillAtItsFullDiameter() {
        drilled(-2.099).isSilentOn(Kinds.SPOIL_BOARD_DEEP);
        drilled(-2.102).raises(Kinds.SPOIL_BOARD_DEEP, NOTE, GEOMETRY);
    }

    @Test
    @Fires("I2 table-contact")
    void shouldStopACutterThatReachesTheTable() {
        isolating(2, -7.601)
                .raises(Kinds.TABLE_CONTACT, STOP, GEOMETRY)
                .onLineOf("G1 Z-7.601")
                .measuring(0.001, "mm", 1e-6);
    }

    @Test
    @Silent("I2 table-contact")
    void shouldNotMindACutterAboveTheTableAndSayWhereTheTableIsNotKnown() {
        isolating(2, -7.6).isSilentOn(Kinds.TABLE_CONTACT);
        assertThat(isolating(2, -7.7)
                        .spoilBoard("unknown")
                        .isSilentOn(Kinds.TABLE_CONTACT)
                        .notChecked()
                        .toString())
                .contains("table");
    }

    // ---- not-through

    private static Bench bored(double... heights) {
        return Bench.job().runs(start(2) + bore(8, 7, 1.2, 0.8, heights) + END);
    }

    private static Bench drilled(double z) {
        return Bench.job().runs(start(4, 15000) + plunge(8, 7, z) + END);
    }

    @Test
    @Fires({"G4 not-through", "I3 not-through"})
    void shouldTellABoreThatTheThickestBlankStops() {
        // 1.5 mm and 0.05 mm of spread
        bored(-0.4, -0.8, -1.2, -1.549)
                .raises(Kinds.NOT_THROUGH, FIX, SET_UP)
                .at(8, 7)
                .with("cutter")
                .measuring(1.549, "mm", 1e-6)
                .against(1.55);
        bored(-0.4, -0.8, -1.2, -1.499).raises(Kinds.NOT_THROUGH, FIX, GEOMETRY).measuring(1.499, "mm", 1e-6);
    }

    @Test
    @Silent({"G4 not-through", "I3 not-through"})
    void shouldTakeATieForThrough() {
        bored(-0.4, -0.8, -1.2, -1.55).isSilentOn(Kinds.NOT_THROUGH);
        bored(-0.4, -0.8, -1.2, -1.52).spread("thickness", "0.02 mm").isSilentOn(Kinds.NOT_THROUGH);
    }

    /**
     * Zero on the spoil board, 0.1 mm of tape below the blank: a cut to 0.10 mm above the spoil board passes every blank,
     * and 0.101 mm leaves 0.001 mm in every one.
     */
    private static Bench fromTheSpoilBoard(double deepest) {
        String bore = start(2) + bore(8, 7, 1.2, 0.8, 1.2, 0.8, 0.4, deepest);
        return Bench.job().side("z_zero", "spoil board").runs(bore.replace("G1 Z0.0 F90", "G1 Z1.6 F90") + END);
    }

    @Test
    @Fires({"G4 not-through", "I3 not-through"})
    void shouldTellABoreThatStopsShortOfTheUndersideAboveTheSpoilBoard() {
        fromTheSpoilBoard(0.101)
                .raises(Kinds.NOT_THROUGH, FIX, GEOMETRY)
                .measuring(1.499, "mm", 1e-6)
                .against(1.5);
    }

    @Test
    @Silent({"G4 not-through", "I3 not-through", "H8 not-through"})
    void shouldNotAddTheSpreadOfThicknessWhereTheZeroLiesOnTheSpoilBoard() {
        fromTheSpoilBoard(0.0999).isSilentOn(Kinds.NOT_THROUGH);
        StringBuilder outline = new StringBuilder(start(2) + text("G0 X2 Y2\nG0 Z2.6\n"));
        for (double z : new double[] {1.15, 0.7, 0.25, 0.115}) {
            outline.append(text("G1 Z%s F90\nG1 X15 F200\nG1 Y12\nG1 X2\nG1 Y2\n", z));
        }
        Bench.job().side("z_zero", "spoil board").runs(outline + END).isSilentOn(Kinds.NOT_THROUGH);
    }

    @Test
    @Fires("H8 not-through")
    void shouldTellASkinAboveTheTapeWhereTheZeroLiesOnTheSpoilBoard() {
        StringBuilder outline = new StringBuilder(start(2) + text("G0 X2 Y2\nG0 Z2.6\n"));
        for (double z : new double[] {1.15, 0.7, 0.25, 0.121}) {
            outline.append(text("G1 Z%s F90\nG1 X15 F200\nG1 Y12\nG1 X2\nG1 Y2\n", z));
        }
        Bench.job()
                .side("z_zero", "spoil board")
                .runs(outline + END)
                .raises(Kinds.NOT_THROUGH, FIX, GEOMETRY)
                .measuring(0.021, "mm", 1e-6)
                .against(0.02);
    }

    /** The controller follows a foil that lies 0.12 mm higher at the bore; the underside stays on the spoil board. */
    private static Bench followed(double height, double deepest) {
        return bored(-0.4, -0.8, -1.2, -deepest)
                .machine("applies_height_map", "true")
                .blank(
                        "surface",
                        text(
                                "[[\"0 mm\",\"0 mm\",\"%s mm\"],[\"20 mm\",\"0 mm\",\"%s mm\"],[\"0 mm\",\"15 mm\",\"%s mm\"]]",
                                height, height, height));
    }

    @Test
    @Fires({"G4 not-through", "I2 spoil-board-deep"})
    void shouldCountFromTheUndersideWhereTheControllerFollowsTheFoil() {
        followed(0.12, 1.66).raises(Kinds.NOT_THROUGH, FIX, SET_UP).against(1.67);
        followed(-0.2, 1.65).raises(Kinds.SPOIL_BOARD_DEEP, NOTE, GEOMETRY).measuring(0.35, "mm", 1e-6);
    }

    @Test
    @Silent("G4 not-through")
    void shouldTakeABoreForThroughWhereTheFoilLiesLow() {
        followed(-0.1, 1.46).isSilentOn(Kinds.NOT_THROUGH);
    }

    @Test
    @Fires("G4 not-through")
    void shouldSeeThatAHelixWithoutALevelTurnEndsInARamp() {
        String level = start(2) + bore(8, 7, 1.2, 0.8, -0.4, -0.8, -1.2, -1.6) + END;
        Bench.job().runs(level).isSilentOn(Kinds.NOT_THROUGH);
        Bench.job()
                .runs(level.replace("G3 X8.2 Y7.0 I-0.2 J0\n", ""))
                .raises(Kinds.NOT_THROUGH, FIX, GEOMETRY)
                .measuring(1.2, "mm", 1e-6);
    }

    @Test
    @Fires("G4 not-through")
    void shouldLeaveTheDrillsPointOutOfTheDepth() {
        drilled(-1.849).raises(Kinds.NOT_THROUGH, FIX, SET_UP).at(8, 7).measuring(1.5486, "mm", 1e-4);
        drilled(-1.851).isSilentOn(Kinds.NOT_THROUGH);
    }

    @Test
    @Silent("G4 not-through")
    void shouldNotMindSpotMarks() {
        drilled(-0.5).isSilentOn(Kinds.NOT_THROUGH);
    }

    @Test
    @Fires("H8 not-through")
    void shouldTellAnOutlineThatLeavesASkinInTheThickestBlank() {
        isolating(2, -1.529)
                .raises(Kinds.NOT_THROUGH, FIX, SET_UP)
                .onLineOf("G1 X13")
                .at(13, 3)
                .measuring(0.021, "mm", 1e-6)
                .against(0.02);
        isolating(2, -1.479).raises(Kinds.NOT_THROUGH, FIX, GEOMETRY).measuring(0.071, "mm", 1e-6);
    }

    @Test
    @Silent("H8 not-through")
    void shouldNotMindAnOutlineThatPassesNorTabsNorRecesses() {
        isolating(2, -1.531).isSilentOn(Kinds.NOT_THROUGH);
        isolating(2, -0.74).isSilentOn(Kinds.NOT_THROUGH);
        // a tab of 2 mm, 0.5 mm thick, in the last round of an outline
        Bench.job()
                .runs(start(2) + "G0 X3 Y3\nG0 Z1\nG1 Z-0.6 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\nG1 Z-1.2 F90\n"
                        + "G1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\nG1 Z-1.65 F90\nG1 X7 F300\nG1 Z-1.0\nG1 X9\nG1 Z-1.65 F90\n"
                        + "G1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\nG1 X3.4\nG0 Z5\n" + END)
                .isSilentOn(Kinds.NOT_THROUGH);
    }

    // ---- wrong-bit-drilling

    @Test
    @Fires("G1 wrong-bit-drilling")
    void shouldStopAtHolesMadeWithAVShapedBitAndSayTheirShape() {
        // needs, row G1: 30 deg, tip 0.10, 1.6 mm and 0.2 mm over-cut
        Bench.job()
                .blank("thickness", "1.6 mm")
                .runs(start(5) + plunge(8, 7, -1.8) + END)
                .raises(Kinds.WRONG_BIT_DRILLING, STOP, GEOMETRY)
                .onLineOf("G1 Z-1.8")
                .at(8, 7)
                .saying("entry 1.06")
                .saying("exit 0.207")
                .saying("0.60 mm wire stops 0.867 mm down")
                .measuring(1.8, "mm", 1e-6)
                .against(0.3);
        Bench.job().runs(start(5) + plunge(8, 7, -0.301) + END).raises(Kinds.WRONG_BIT_DRILLING, STOP, GEOMETRY);
    }

    @Test
    @Fires("C12 wrong-bit-drilling")
    void shouldStopAtAVShapedBitThatCutsOut() {
        isolating(5, -0.301)
                .raises(Kinds.WRONG_BIT_DRILLING, STOP, GEOMETRY)
                .onLineOf("G1 X13")
                .measuring(0.301, "mm", 1e-6)
                .against(0.3);
    }

    /** Needs, depth law: what a groove is deep is counted from the surface where it is, not from the zero. */
    @Test
    @Fires("C12 wrong-bit-drilling")
    void shouldCountAVShapedBitsDepthBelowTheFoilAsItLies() {
        // the pencil's zero is set at X0.5, where the foil lies 0.006 mm low; it goes 0.18 mm lower than that at X15
        following(5, 0.303).raises(Kinds.WRONG_BIT_DRILLING, STOP, GEOMETRY).measuring(0.303, "mm", 0.002);
    }

    @Test
    @Silent("C12 wrong-bit-drilling")
    void shouldNotMindAVShapedBitThatGoesDownWithTheFoil() {
        following(5, 0.293).isSilentOn(Kinds.WRONG_BIT_DRILLING);
    }

    @Test
    @Silent({"C12 wrong-bit-drilling", "G1 wrong-bit-drilling"})
    void shouldNotMindShallowWorkOfAVShapedBitNorHolesOfOtherCutters() {
        isolating(5, -0.3).isSilentOn(Kinds.WRONG_BIT_DRILLING);
        Bench.job().runs(start(5) + plunge(8, 7, -0.3) + END).isSilentOn(Kinds.WRONG_BIT_DRILLING);
        drilled(-1.9).isSilentOn(Kinds.WRONG_BIT_DRILLING);
        bored(-0.4, -0.8, -1.2, -1.6).isSilentOn(Kinds.WRONG_BIT_DRILLING);
    }

    @Test
    @Fires("G1 wrong-bit-drilling")
    void shouldTellWhatTheBitBeforeWouldLeaveWhereNobodyIsAskedToChangeIt() {
        Bench.job()
                .machine("on_tool_change", "ignored")
                .runs(start(5) + rectangle(3, 3, 13, 11, -0.1) + "M5\nG0 Z5\nT2 M6\nS16000 M3\n" + plunge(8, 7, -1.7)
                        + END)
                .raises(Kinds.WRONG_BIT_DRILLING, WATCH, SET_UP)
                .onLineOf("G1 Z-1.7")
                .saying("still in the collet");
    }
}
