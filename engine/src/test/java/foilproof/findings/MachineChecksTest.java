package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.isolation;
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

/** Checks of what the machine is asked to do: feeds, speeds, rapids, plunges, travel, keep-outs. */
class MachineChecksTest {
    // ---- feeds

    @Test
    @Fires("A9 feed-unset")
    void shouldStopWhereNoFeedIsSet() {
        String none = isolation().replace(" F90", "").replace(" F300", "");
        Bench.job()
                .runs(none)
                .raises(Kinds.FEED_UNSET, STOP, GEOMETRY)
                .onLineOf("G1 Z-0.1")
                .at(3, 3);
        Bench.job().runs(isolation().replace("F90", "F0")).raises(Kinds.FEED_UNSET, STOP, GEOMETRY);
    }

    @Test
    @Silent("A9 feed-unset")
    void shouldNotMindAFeedSetBeforeTheFirstCut() {
        Bench.job().runs(isolation().replace("F90", "F0.1")).isSilentOn(Kinds.FEED_UNSET);
        Bench.job().runs(isolation().replace("G0 Z1\n", "F90 G0 Z1\n")).isSilentOn(Kinds.FEED_UNSET);
    }

    @Test
    @Fires("A9 feed-too-high")
    void shouldTellAFeedThatTheMachineCannotDo() {
        Bench.job()
                .runs(isolation().replace("F300", "F1201"))
                .raises(Kinds.FEED_TOO_HIGH, FIX, GEOMETRY)
                .onLineOf("F1201")
                .measuring(1201, "mm/min", 1e-9)
                .against(1200);
    }

    @Test
    @Silent("A9 feed-too-high")
    void shouldNotMindTheMachinesLargestFeed() {
        Bench.job().runs(isolation().replace("F300", "F1200")).isSilentOn(Kinds.FEED_TOO_HIGH);
    }

    // ---- spindle

    @Test
    @Fires("A10 spindle-not-turning")
    void shouldStopWhereTheSpindleStandsOrTurnsTheWrongWayInMaterial() {
        Bench.job()
                .runs(isolation().replace("S16000 M3\n", ""))
                .raises(Kinds.SPINDLE_NOT_TURNING, STOP, GEOMETRY)
                .onLineOf("G1 Z-0.1")
                .at(3, 3);
        Bench.job().runs(isolation().replace("S16000", "S0")).raises(Kinds.SPINDLE_NOT_TURNING, STOP, GEOMETRY);
        Bench.job()
                .runs(isolation().replace("G1 Y11.0\n", "M5\nG1 Y11.0\n"))
                .raises(Kinds.SPINDLE_NOT_TURNING, STOP, GEOMETRY)
                .onLineOf("G1 Y11.0");
        Bench.job()
                .runs(isolation().replace(" M3\n", " M4\n"))
                .raises(Kinds.SPINDLE_NOT_TURNING, STOP, GEOMETRY)
                .saying("M4");
    }

    @Test
    @Silent("A10 spindle-not-turning")
    void shouldNotMindASpindleThatStandsInAir() {
        Bench.job().runs(isolation().replace("G0 Z10\nM5\n", "M5\nG1 Z10\n")).isSilentOn(Kinds.SPINDLE_NOT_TURNING);
    }

    private static Bench speed(int rpm) {
        return Bench.job().runs(start(2, rpm) + rectangle(3, 3, 13, 11, -0.1) + END);
    }

    @Test
    @Fires("A10 spindle-speed")
    void shouldStopAtASpeedOutsideTheMachinesRange() {
        speed(24001)
                .raises(Kinds.SPINDLE_SPEED, STOP, GEOMETRY)
                .onLineOf("G1 Z-0.1")
                .measuring(24001, "rpm", 1e-9)
                .against(24000);
        speed(7999)
                .raises(Kinds.SPINDLE_SPEED, STOP, GEOMETRY)
                .measuring(7999, "rpm", 1e-9)
                .against(8000);
    }

    @Test
    @Fires("A10 spindle-speed")
    void shouldWatchASmallCutterBelowFifteenThousandTurns() {
        speed(14999)
                .raises(Kinds.SPINDLE_SPEED, WATCH, RULE_OF_THUMB)
                .measuring(14999, "rpm", 1e-9)
                .against(15000);
        speed(12000)
                .machine("spindle", "[\"8000 rpm\", \"12000 rpm\"]")
                .raises(Kinds.SPINDLE_SPEED, NOTE, RULE_OF_THUMB);
    }

    @Test
    @Silent("A10 spindle-speed")
    void shouldNotMindSpeedsWithinTheRange() {
        speed(24000).isSilentOn(Kinds.SPINDLE_SPEED);
        speed(15000).isSilentOn(Kinds.SPINDLE_SPEED);
        speed(8000).tool("cutter", "diameter", "1.01 mm").isSilentOn(Kinds.SPINDLE_SPEED);
        speed(12000)
                .machine("spindle", "[\"8000 rpm\", \"12000 rpm\"]")
                .examined()
                .raisesNothingAbove(NOTE, Kinds.SPINDLE_SPEED);
    }

    // ---- rapids

    private static String rapidDown(double z) {
        return start(1) + text("G0 X5 Y5\nG0 Z%s\nG0 Z5\n", z) + END;
    }

    /** A cone of 0.06 mm at the tip and 15 deg a side removes pi d/3 (a2 + ab + b2): 0.0005 mm3 at 0.0374 mm. */
    @Test
    @Fires("A7 rapid-in-material")
    void shouldStopAtARapidThatRemovesMoreThanATrifle() {
        Bench.job()
                .cellUm(5)
                .runs(rapidDown(-0.040))
                .raises(Kinds.RAPID_IN_MATERIAL, STOP, GEOMETRY)
                .onLineOf("G0 Z-0.04")
                .at(5, 5)
                .measuring(0.000538, "mm3", 0.00002)
                .against(0.0005);
    }

    @Test
    @Silent("A7 rapid-in-material")
    void shouldNotMindATrifleUnderARapid() {
        Bench.job().cellUm(5).runs(rapidDown(-0.035)).isSilentOn(Kinds.RAPID_IN_MATERIAL);
    }

    private static Bench across(double z) {
        return Bench.job().runs(start(1) + text("G0 X5 Y5\nG0 Z%s\nG0 X12\nG0 Z5\n", z) + END);
    }

    @Test
    @Fires({"A7 rapid-in-material", "B15 rapid-in-material"})
    void shouldWatchARapidThatCrossesTooLow() {
        across(0.199)
                .raises(Kinds.RAPID_IN_MATERIAL, WATCH, GEOMETRY)
                .onLineOf("G0 X12")
                .at(12, 5)
                .measuring(0.199, "mm", 1e-6);
        // with 0.03 mm of touch-off error 0.23 mm are wanted
        across(0.229)
                .raises(Kinds.RAPID_IN_MATERIAL, WATCH, SET_UP)
                .measuring(0.229, "mm", 1e-6)
                .against(0.23);
    }

    @Test
    @Fires("B15 rapid-in-material")
    void shouldMeasureARapidAboveTheHighestPlaceThatItCrosses() {
        // the touch point lies 0.0156 mm high itself, on the triangle of the peak and two corners
        across(0.3)
                .blank(
                        "surface",
                        "[[\"0 mm\",\"0 mm\",\"0 mm\"], [\"20 mm\",\"0 mm\",\"0 mm\"],"
                                + " [\"8 mm\",\"5 mm\",\"0.12 mm\"], [\"0 mm\",\"15 mm\",\"0 mm\"], [\"20 mm\",\"15 mm\",\"0 mm\"]]")
                .raises(Kinds.RAPID_IN_MATERIAL, WATCH, GEOMETRY)
                .measuring(0.1956, "mm", 0.002);
    }

    @Test
    @Silent({"A7 rapid-in-material", "B15 rapid-in-material"})
    void shouldNotMindRapidsThatAreHighEnoughOrBesideTheBlankOrVertical() {
        across(0.231).isSilentOn(Kinds.RAPID_IN_MATERIAL);
        Bench.job().runs(start(1) + "G0 X5 Y-3\nG0 Z0.1\nG0 X12\nG0 Z5\n" + END).isSilentOn(Kinds.RAPID_IN_MATERIAL);
        // a retract begins in the groove, an approach ends near the foil
        Bench.job().runs(isolation().replace("G0 Z1\n", "G0 Z0.05\n")).isSilentOn(Kinds.RAPID_IN_MATERIAL);
    }

    // ---- plunges

    private static Bench plunging(int tool, double z, double feed, int rpm) {
        return Bench.job().runs(start(tool, rpm) + text("G0 X5 Y5\nG0 Z0.5\nG1 Z%s F%s\nG0 Z2\n", z, feed) + END);
    }

    @Test
    @Fires("A9 plunge-too-fast")
    void shouldTellAPlungeWithTheFeedOfALateralMove() {
        plunging(2, -0.31, 301, 16000)
                .raises(Kinds.PLUNGE_TOO_FAST, FIX, GEOMETRY)
                .onLineOf("F301")
                .at(5, 5)
                .measuring(301, "mm/min", 1e-9)
                .against(300);
    }

    @Test
    @Silent("A9 plunge-too-fast")
    void shouldNotMindSlowOrShallowPlungesNorThoseOfLargerCutters() {
        plunging(2, -0.31, 300, 16000).isSilentOn(Kinds.PLUNGE_TOO_FAST);
        plunging(2, -0.29, 301, 16000).isSilentOn(Kinds.PLUNGE_TOO_FAST);
        plunging(4, -0.31, 301, 16000).isSilentOn(Kinds.PLUNGE_TOO_FAST);
    }

    @Test
    @Fires("G11 plunge-too-fast")
    void shouldWatchAPlungeOfMoreThanATwentiethOfTheDiameterATurn() {
        // 0.05 x 1.0 mm x 10000 = 500 mm/min
        plunging(4, -0.6, 501, 10000)
                .raises(Kinds.PLUNGE_TOO_FAST, WATCH, RULE_OF_THUMB)
                .onLineOf("F501")
                .measuring(0.0501, "mm", 1e-9)
                .against(0.05);
    }

    @Test
    @Silent("G11 plunge-too-fast")
    void shouldNotMindATwentiethOfTheDiameterATurnNorShallowPlunges() {
        plunging(4, -0.6, 500, 10000).isSilentOn(Kinds.PLUNGE_TOO_FAST);
        plunging(4, -0.49, 501, 10000).isSilentOn(Kinds.PLUNGE_TOO_FAST);
    }

    @Test
    @Fires("G11 chip-load")
    void shouldWatchAPlungeThatRubs() {
        plunging(2, -0.55, 79, 16000)
                .raises(Kinds.CHIP_LOAD, WATCH, RULE_OF_THUMB)
                .onLineOf("F79")
                .measuring(79 / 16000.0, "mm", 1e-9)
                .against(0.005);
    }

    @Test
    @Silent("G11 chip-load")
    void shouldNotMindFiveMicrometresATurnNorShallowSlowPlunges() {
        plunging(2, -0.55, 80, 16000).isSilentOn(Kinds.CHIP_LOAD);
        plunging(2, -0.45, 60, 16000).isSilentOn(Kinds.CHIP_LOAD);
    }

    @Test
    @Fires("G6 deep-plunge")
    void shouldWatchAnEndMillSentDeeperThanItsFlutesClear() {
        plunging(2, -1.21, 90, 16000)
                .raises(Kinds.DEEP_PLUNGE, WATCH, RULE_OF_THUMB)
                .onLineOf("G1 Z-1.21")
                .measuring(1.21, "mm", 0.001)
                .against(1.2);
    }

    @Test
    @Fires("G6 deep-plunge")
    void shouldTakeAPlungeWrittenInPartsForOnePlunge() {
        Bench.job()
                .runs(start(2) + "G0 X5 Y5\nG0 Z0.5\nG1 Z-0.5 F90\nG1 Z-0.9\nG1 Z-1.3\nG0 Z2\n" + END)
                .raises(Kinds.DEEP_PLUNGE, WATCH, RULE_OF_THUMB)
                .measuring(1.3, "mm", 0.001)
                .onLineOf("Z-1.3");
    }

    @Test
    @Silent("G6 deep-plunge")
    void shouldNotMindShallowPlungesDrillsAndPecks() {
        plunging(2, -1.19, 90, 16000).isSilentOn(Kinds.DEEP_PLUNGE);
        plunging(4, -1.9, 90, 10000).isSilentOn(Kinds.DEEP_PLUNGE);
        Bench.job()
                .runs(start(2) + "G83 X5 Y5 Z-1.7 R0.5 Q0.6 F90\nG80\n" + END)
                .isSilentOn(Kinds.DEEP_PLUNGE);
    }

    @Test
    @Fires("C11 deep-plunge")
    void shouldStopAtAStraightPlungeOfACutterThatCannot() {
        plunging(2, -0.1, 90, 16000)
                .tool("cutter", "centre_cutting", "false")
                .raises(Kinds.DEEP_PLUNGE, STOP, GEOMETRY)
                .onLineOf("G1 Z-0.1");
    }

    @Test
    @Silent("C11 deep-plunge")
    void shouldNotMindARampOfACutterThatCannotPlunge() {
        Bench.job()
                .tool("cutter", "centre_cutting", "false")
                .runs(start(2) + "G0 X5 Y5\nG0 Z0.5\nG1 Z0 F90\nG1 X12 Z-0.1\nG0 Z2\n" + END)
                .isSilentOn(Kinds.DEEP_PLUNGE);
    }

    // ---- travel

    private static Bench placed(String x, String y, String z) {
        return Bench.job()
                .machine(
                        "travel",
                        "[\"100 mm\", \"80 mm\", \"45 mm\"]",
                        "blank_at",
                        "[\"" + x + "\", \"" + y + "\", \"" + z + "\"]")
                .runs(start(1).replace("G0 Z25", "G0 Z20") + rectangle(3, 3, 13, 11, -0.1) + END);
    }

    @Test
    @Fires("B14 beyond-travel")
    void shouldStopAtAMoveBeyondTheTravel() {
        placed("87.01 mm", "10 mm", "-38 mm")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .onLineOf("G1 X13")
                .at(13, 3)
                .measuring(0.01, "mm", 1e-6)
                .saying("X+");
        placed("10 mm", "69.01 mm", "-38 mm")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .saying("Y+");
        placed("-3.01 mm", "10 mm", "-38 mm")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .saying("X-");
        // the foil's top lies 1.6 mm above the spoil board's, the tool change 20 mm above that
        placed("10 mm", "10 mm", "-21.59 mm")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .saying("Z+");
        placed("10 mm", "10 mm", "-46.51 mm")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .saying("Z-");
    }

    @Test
    @Silent("B14 beyond-travel")
    void shouldNotMindMovesWithinTheTravel() {
        placed("87 mm", "69 mm", "-21.6 mm").isSilentOn(Kinds.BEYOND_TRAVEL);
        placed("-3 mm", "-3 mm", "-46.5 mm").isSilentOn(Kinds.BEYOND_TRAVEL);
    }

    /** Two cutters of known lengths, the second 10 mm shorter; the spindle is sent home before each. */
    private static Bench measured(String home) {
        return Bench.job()
                .machine(
                        "travel",
                        "[\"100 mm\", \"80 mm\", \"45 mm\"]",
                        "blank_at",
                        "[\"10 mm\", \"10 mm\", \"-38 mm\"]",
                        "on_tool_change",
                        "measured")
                .tool("engraver", "length", "30 mm")
                .tool("cutter", "length", "20 mm")
                .runs(Programs.HEAD + "M5\nG53 G0 Z0\nT1 M6\nG43 H1\nS16000 M3\nG4 P3\nG0 Z5\n"
                        + rectangle(3, 3, 13, 11, -0.1) + "M5\n" + home + "\nT2 M6\nG43 H2\nS16000 M3\nG4 P3\nG0 Z5\n"
                        + rectangle(3, 3, 13, 11, -0.1) + "G53 G0 Z0\nM5\nM2\n");
    }

    /** Source: machine coordinates are the spindle's (NISTIR 6556, 3.5.11 G53 and 2.1.2.3 tool length offsets). */
    @Test
    @Fires("B14 beyond-travel")
    void shouldStopWhereTheSpindleIsSentAboveItsTravelWhateverTheCuttersLength() {
        measured("G53 G0 Z0.01")
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .onLineOf("G53 G0 Z0.01")
                .measuring(0.01, "mm", 1e-6)
                .saying("Z+");
    }

    @Test
    @Silent("B14 beyond-travel")
    void shouldNotMindASpindleSentHomeWithAShortCutter() {
        measured("G53 G0 Z0").isSilentOn(Kinds.BEYOND_TRAVEL);
    }

    @Test
    @Fires("B14 beyond-travel")
    void shouldJudgeTravelByExtentsWhereTheBlanksPlaceIsNotKnown() {
        Bench.job()
                .machine("travel", "[\"9.99 mm\", \"80 mm\", \"45 mm\"]")
                .runs(isolation())
                .raises(Kinds.BEYOND_TRAVEL, STOP, SET_UP)
                .in("a.ngc")
                .measuring(10, "mm", 1e-6)
                .against(9.99);
    }

    @Test
    @Silent("B14 beyond-travel")
    void shouldNotMindExtentsWithinTheTravelAndSayWhatIsNotChecked() {
        Verdicts v = Bench.job()
                .machine("travel", "[\"10 mm\", \"8 mm\", \"45 mm\"]")
                .runs(isolation())
                .isSilentOn(Kinds.BEYOND_TRAVEL);
        assertThat(v.notChecked().toString()).contains("blank_at is not given");
    }

    // ---- keep-outs

    private static Bench clamp(double x1, double top) {
        return Bench.job().keepOut("clamp", -5, 5, x1, 9, top).runs(isolation());
    }

    @Test
    @Fires({"B13 keep-out-contact", "I7 keep-out-contact"})
    void shouldStopWhereTheCutterPassesAClampWithinHalfAMillimetre() {
        // the path runs at x = 3; 8.1 mm above its tip the bit has its shank, 3.175 mm: 3 - 1.5875 - 0.5 = 0.9125
        clamp(0.93, 8).raises(Kinds.KEEP_OUT_CONTACT, STOP, SET_UP).at(3, 9).saying("clamp");
    }

    @Test
    @Silent({"B13 keep-out-contact", "I7 keep-out-contact"})
    void shouldNotMindAClampHalfAMillimetreAway() {
        clamp(0.9, 8).isSilentOn(Kinds.KEEP_OUT_CONTACT);
    }

    @Test
    @Fires({"B15 keep-out-contact", "I7 keep-out-contact"})
    void shouldStopAtARapidBelowTheTopOfAClamp() {
        Bench.job()
                .keepOut("screw", 8, 6, 10, 8, 5.01)
                .runs(start(1) + "G0 X2 Y7\nG0 X15\n" + rectangle(3, 3, 13, 11, -0.1) + END)
                .raises(Kinds.KEEP_OUT_CONTACT, STOP, SET_UP)
                .onLineOf("G0 X15")
                .saying("screw");
    }

    @Test
    @Silent({"B15 keep-out-contact", "I7 keep-out-contact"})
    void shouldNotMindARapidAboveTheTopOfAClamp() {
        Bench.job()
                .keepOut("screw", 8, 6, 10, 8, 4.99)
                .runs(start(1) + "G0 X2 Y7\nG0 X15\n" + rectangle(3, 3, 13, 11, -0.1) + END)
                .isSilentOn(Kinds.KEEP_OUT_CONTACT);
    }

    @Test
    @Fires("I7 keep-out-contact")
    void shouldStopWhereTheColletNutMeetsAClamp() {
        // the nut begins 10 mm above the tip, 9.9 mm above the foil: radius 8 reaches to x = 3 - 8 - 0.5
        Bench.job()
                .keepOut("far", -30, 0, -5.4, 9, 10)
                .runs(isolation())
                .machine("collet_nut", "[\"16 mm\", \"18 mm\"]")
                .raises(Kinds.KEEP_OUT_CONTACT, STOP, SET_UP)
                .saying("far");
    }

    @Test
    @Silent("I7 keep-out-contact")
    void shouldNotMindAClampBelowTheColletNut() {
        Bench.job()
                .keepOut("far", -30, 0, -5.4, 9, 9.85)
                .machine("collet_nut", "[\"16 mm\", \"18 mm\"]")
                .runs(isolation())
                .isSilentOn(Kinds.KEEP_OUT_CONTACT);
        Bench.job()
                .keepOut("far", -30, 0, -5.6, 9, 10)
                .machine("collet_nut", "[\"16 mm\", \"18 mm\"]")
                .runs(isolation())
                .isSilentOn(Kinds.KEEP_OUT_CONTACT);
    }

    @Test
    @Fires("I8 keep-out-contact")
    void shouldStopWhereABracketStandsInThePathOfTheSecondSide() {
        twoSides(3.0).raises(Kinds.KEEP_OUT_CONTACT, STOP, SET_UP).in("b.ngc");
    }

    @Test
    @Silent("I8 keep-out-contact")
    void shouldNotMindABracketBesideThePathsOfBothSides() {
        twoSides(0.5).isSilentOn(Kinds.KEEP_OUT_CONTACT);
    }

    private static Bench twoSides(double x1) {
        return Bench.job()
                .blank("copper", "both sides")
                .keepOut("bracket", 0, 5, x1, 9, 2)
                .program("a.ngc", start(1) + rectangle(7, 3, 16, 11, -0.1) + END)
                .nextSide("top", "about Y")
                .program("b.ngc", start(1) + rectangle(4, 3, 13, 11, -0.1) + END);
    }

    @Test
    void shouldFireNowhereOnAPlungeThatOnlyTouchesTheFoil() {
        Bench.job().runs(start(5) + plunge(5, 5, -0.1) + END).examined().raisesNothingAboveANote();
    }
}
