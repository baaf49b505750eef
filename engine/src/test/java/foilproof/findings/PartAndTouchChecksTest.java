package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.plunge;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import org.junit.jupiter.api.Test;

/** Parts that come free, tabs, touch-off spots, drills that wander. */
class PartAndTouchChecksTest {
    private static String outline(double x0, double y0, double x1, double y1) {
        return rectangle(x0, y0, x1, y1, -0.4)
                + rectangle(x0, y0, x1, y1, -0.8)
                + rectangle(x0, y0, x1, y1, -1.2)
                + rectangle(x0, y0, x1, y1, -1.65);
    }

    /** The last pass rises to {@code tabZ} over {@code width} of the path in the middle of two opposite sides. */
    private static String tabbed(double tabZ, double width, boolean both) {
        double a = 8 - width / 2;
        double b = 8 + width / 2;
        String first = "G1 X" + a + "\nG1 Z" + tabZ + "\nG1 X" + b + "\nG1 Z-1.65\n";
        String second = "G1 X" + b + "\nG1 Z" + tabZ + "\nG1 X" + a + "\nG1 Z-1.65\n";
        return rectangle(3, 3, 13, 11, -0.4)
                + rectangle(3, 3, 13, 11, -0.8)
                + rectangle(3, 3, 13, 11, -1.2)
                + "G0 X3 Y3\nG0 Z1\nG1 Z-1.65 F90\nF300\n" + first + "G1 X13\nG1 Y11\n" + (both ? second : "")
                + "G1 X3\nG1 Y3\nG1 X3.4\nG0 Z5\n";
    }

    private static Bench held(String hold, String text) {
        return Bench.job().blank("hold", hold).runs(start(2) + text + END);
    }

    @Test
    @Fires("H2 part-free")
    void shouldStopWhereClampsLeaveThePartLooseAndOnlyNoteItOnTape() {
        held("edge clamps", outline(3, 3, 13, 11))
                .raises(Kinds.PART_FREE, STOP, SET_UP)
                .with("cutter");
        held("full tape", outline(3, 3, 13, 11)).raises(Kinds.PART_FREE, NOTE, SET_UP);
    }

    @Test
    @Silent("H2 part-free")
    void shouldSayNothingOfAPartThatTabsHoldOrThatIsNotCutThrough() {
        held("edge clamps", tabbed(-1.0, 2.8, true)).isSilentOn(Kinds.PART_FREE);
        held("edge clamps", rectangle(3, 3, 13, 11, -0.4) + rectangle(3, 3, 13, 11, -0.8))
                .isSilentOn(Kinds.PART_FREE);
    }

    @Test
    @Fires("H5 part-free")
    void shouldTellWorkThatGoesOnInAPartThatIsFree() {
        held("full tape", outline(3, 3, 13, 11) + plunge(8, 7, -1.0))
                .raises(Kinds.PART_FREE, WATCH, SET_UP)
                .saying("already free");
    }

    @Test
    @Silent("H5 part-free")
    void shouldSayNothingOfWorkBeforeThePartIsFree() {
        held("full tape", plunge(8, 7, -1.0) + outline(3, 3, 13, 11))
                .examined()
                .raisesNothingAbove(NOTE, Kinds.PART_FREE);
    }

    @Test
    @Fires("H6 part-free")
    void shouldTellALargeSlugThatNothingHolds() {
        held("edge clamps", outline(5, 4, 10, 9) + tabbed(-1.0, 2.8, true))
                .raises(Kinds.PART_FREE, FIX, SET_UP)
                .saying("slug");
    }

    @Test
    @Silent("H6 part-free")
    void shouldSayNothingOfASlugOfThreeMillimetres() {
        held("edge clamps", outline(6, 5, 9.8, 8.8) + tabbed(-1.0, 2.8, true)).isSilentOn(Kinds.PART_FREE);
    }

    @Test
    @Fires("H3 tabs")
    void shouldTellASingleTabAndOneThatIsTooThin() {
        held("edge clamps", tabbed(-1.0, 2.8, false))
                .raises(Kinds.TABS, WATCH, RULE_OF_THUMB)
                .at(8, 3);
        // (1.5 - 0.8) mm wide, 0.5 mm thick: 0.35 mm2
        held("edge clamps", tabbed(-1.0, 1.5, true)).raises(Kinds.TABS, NOTE, RULE_OF_THUMB);
    }

    @Test
    @Silent("H3 tabs")
    void shouldSayNothingOfTwoTabsOfOneSquareMillimetre() {
        held("edge clamps", tabbed(-1.0, 2.8, true)).isSilentOn(Kinds.TABS);
    }

    private static Bench touching(String touch, String... more) {
        Bench bench = Bench.job();
        bench.side("touch_off", touch);
        if (more.length > 0) {
            bench.side(more);
        }
        return bench.program("a.ngc", start(1) + rectangle(3, 3, 13, 11, -0.1) + END)
                .program("b.ngc", start(2) + plunge(8, 7, -1.0) + END);
    }

    @Test
    @Fires("B2 touch-off-spoilt")
    void shouldStopWhereTheSecondCutterIsTouchedOffBesideAGroove() {
        // cutter 0.8 wide: 0.4 + 0.5 mm must be whole round the touch point; the groove's near edge is at 12.92
        touching("[\"13.95 mm\", \"7 mm\"]")
                .raises(Kinds.TOUCH_OFF_SPOILT, STOP, GEOMETRY)
                .at(13.95, 7)
                .with("cutter");
    }

    @Test
    @Silent("B2 touch-off-spoilt")
    void shouldSayNothingOfATouchPointWithFoilAllRound() {
        touching("[\"14.02 mm\", \"7 mm\"]").isSilentOn(Kinds.TOUCH_OFF_SPOILT);
    }

    @Test
    @Fires("B3 touch-off-spoilt")
    void shouldStopWhereAGrooveCutsTheTouchPointOffFromTheClip() {
        touching("[\"10 mm\", \"7 mm\"]", "probe_clip", "[\"18 mm\", \"13 mm\"]")
                .raises(Kinds.TOUCH_OFF_SPOILT, STOP, GEOMETRY)
                .saying("never closes");
    }

    @Test
    @Silent("B3 touch-off-spoilt")
    void shouldSayNothingWhereTouchPointAndClipShareTheirCopper() {
        touching("[\"16 mm\", \"7 mm\"]", "probe_clip", "[\"18 mm\", \"13 mm\"]")
                .isSilentOn(Kinds.TOUCH_OFF_SPOILT);
    }

    private static Bench probing(double x, double toZ) {
        return Bench.job()
                .side("probe_clip", "[\"18 mm\", \"13 mm\"]")
                .program("a.ngc", start(1) + rectangle(3, 3, 13, 11, -0.1) + END)
                .program(
                        "b.ngc", Programs.HEAD + "T2 M6\nG0 Z5\nG0 X" + x + " Y7\nG38.2 Z" + toZ + " F30\nG0 Z5\nM2\n");
    }

    @Test
    @Fires("B3 touch-off-spoilt")
    void shouldStopWhereAProbeMeetsCopperThatIsNotJoinedToTheClipOrNone() {
        probing(8, -1).raises(Kinds.TOUCH_OFF_SPOILT, STOP, GEOMETRY).saying("without tripping");
        probing(16, 0.1).raises(Kinds.TOUCH_OFF_SPOILT, STOP, GEOMETRY).onLineOf("G38.2 Z0.1");
    }

    @Test
    @Silent("B3 touch-off-spoilt")
    void shouldSayNothingWhereAProbeTripsOnTheClipsCopper() {
        probing(16, -1).isSilentOn(Kinds.TOUCH_OFF_SPOILT);
    }

    /** A flat cutter wider than a groove stands on the copper beside it; its middle alone would fall in. */
    @Test
    @Fires("B2 touch-off-spoilt")
    void shouldTripWhereTheEdgeOfACutterMeetsTheFoil() {
        probing(13, -1)
                .raises(Kinds.TOUCH_OFF_SPOILT, STOP, GEOMETRY)
                .onLineOf("G38.2")
                .saying("0.100 mm");
        probing(15, -1).isSilentOn(Kinds.TOUCH_OFF_SPOILT);
    }

    private static Bench drilling(String diameter, String text) {
        return Bench.job().tool("drill", "diameter", diameter).runs(text);
    }

    @Test
    @Fires("G5 drill-wander")
    void shouldTellASmallDrillWithoutASpotMarkAndOneThatGoesDeepInOne() {
        drilling("0.59 mm", start(4) + plunge(8, 7, -1.7) + END)
                .raises(Kinds.DRILL_WANDER, WATCH, RULE_OF_THUMB)
                .saying("spot mark");
        drilling("0.6 mm", start(4) + plunge(8, 7, -3.05) + END)
                .raises(Kinds.DRILL_WANDER, WATCH, RULE_OF_THUMB)
                .saying("peck");
    }

    @Test
    @Silent("G5 drill-wander")
    void shouldSayNothingOfADrillThatIsMarkedOrNotSmall() {
        drilling("0.6 mm", start(4) + plunge(8, 7, -2.95) + END).isSilentOn(Kinds.DRILL_WANDER);
        Bench.job()
                .tool("drill", "diameter", "0.5 mm")
                .program("mark.ngc", start(5) + plunge(8, 7, -0.15) + END)
                .program("drill.ngc", start(4) + plunge(8, 7, -1.8) + END)
                .isSilentOn(Kinds.DRILL_WANDER);
    }
}
