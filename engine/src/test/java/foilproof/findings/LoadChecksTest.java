package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Checks of what the cutter bears (common practice, no source) and of dust. */
class LoadChecksTest {
    /** One straight cut of 10 mm at a depth and feed; the plunge goes down a ramp of its own before. */
    private static Bench cut(int tool, double z, double feed, int rpm) {
        return Bench.job()
                .runs(start(tool, rpm) + text("G0 X4 Y7\nG0 Z1\nG1 Z%s F90\nG1 X14 F%s\nG0 Z5\n", z, feed) + END);
    }

    // ---- deep-pass

    @Test
    @Fires("H7 deep-pass")
    void shouldWatchAPassDeeperThanThreeQuartersOfTheDiameterInPaper() {
        cut(2, -0.61, 200, 16000)
                .raises(Kinds.DEEP_PASS, WATCH, RULE_OF_THUMB)
                .onLineOf("G1 X14")
                .measuring(0.61, "mm", 0.001)
                .against(0.6);
        cut(2, -0.89, 200, 16000).raises(Kinds.DEEP_PASS, WATCH, RULE_OF_THUMB);
        cut(2, -0.91, 200, 16000).raises(Kinds.DEEP_PASS, FIX, RULE_OF_THUMB);
    }

    @Test
    @Fires("H7 deep-pass")
    void shouldWatchAPassDeeperThanHalfTheDiameterInGlass() {
        cut(2, -0.41, 200, 16000)
                .blank("substrate", "FR-4")
                .raises(Kinds.DEEP_PASS, WATCH, RULE_OF_THUMB)
                .against(0.4);
    }

    @Test
    @Silent("H7 deep-pass")
    void shouldNotMindUsualPasses() {
        cut(2, -0.59, 200, 16000).isSilentOn(Kinds.DEEP_PASS);
        cut(2, -0.39, 200, 16000).blank("substrate", "FR-4").isSilentOn(Kinds.DEEP_PASS);
        // a second pass over the first takes only its own depth
        Bench.job()
                .runs(start(2) + "G0 X4 Y7\nG0 Z1\nG1 Z-0.55 F90\nG1 X14 F200\nG1 Z-1.1 F90\nG1 X4 F200\nG0 Z5\n" + END)
                .isSilentOn(Kinds.DEEP_PASS);
    }

    @Test
    @Silent({"H7 deep-pass", "C7 side-load"})
    void shouldNotTakeAThinCutDownAnEarlierWallForADeepPass() {
        // the last pass runs two hundredths beside the earlier ones, all the way down
        Bench.job()
                .runs(start(2) + "G0 X4 Y7\nG0 Z1\nG1 Z-0.5 F90\nG1 X14 F200\nG1 Z-1 F90\nG1 X4 F200\nG1 Z-1.5 F90\n"
                        + "G1 X14 F200\nG1 Y7.02\nG1 X4\nG0 Z5\n" + END)
                .isSilentOn(Kinds.DEEP_PASS)
                .isSilentOn(Kinds.SIDE_LOAD);
        // a round cut whose last pass is written as three arcs, so with other chords than the full turns above it
        String r = "G0 X12 Y8\nG0 Z1\nG1 Z-0.5 F90\nG3 X12 Y8 I-4 J0 F300\nG1 Z-1 F90\nG3 X12 Y8 I-4 J0 F300\n"
                + "G1 Z-1.5 F90\nG3 X8 Y12 I-4 J0 F300\nG3 X4 Y8 I0 J-4\nG3 X12 Y8 I4 J0\nG0 Z5\n";
        Bench.job().runs(start(2) + r + END).isSilentOn(Kinds.DEEP_PASS).isSilentOn(Kinds.SIDE_LOAD);
    }

    @Test
    @Fires("H7 deep-pass")
    void shouldStillTellADeepPassBesideAnEarlierOneAndOneInManyShortMoves() {
        // half of the cutter's width in whole material
        Bench.job()
                .runs(start(2)
                        + "G0 X4 Y7\nG0 Z1\nG1 Z-0.5 F90\nG1 X14 F200\nG1 Z-0.95 F90\nG1 X4 F200\nG1 Y7.4\nG1 X14\n"
                        + "G0 Z5\n" + END)
                .raises(Kinds.DEEP_PASS, FIX, RULE_OF_THUMB)
                .measuring(0.95, "mm", 0.005);
        StringBuilder t = new StringBuilder(start(2)).append("G0 X4 Y7\nG0 Z1\nG1 Z-0.7 F90\nF200\n");
        for (int i = 1; i <= 100; i++) {
            t.append(Programs.text("G1 X%s\n", 4 + 0.05 * i));
        }
        Bench.job()
                .runs(t.append("G0 Z5\n").append(END).toString())
                .raises(Kinds.DEEP_PASS, WATCH, RULE_OF_THUMB)
                .measuring(0.7, "mm", 0.005);
    }

    // ---- chip-load: feed / (speed x flutes), check value P1

    @Test
    @Fires("C5 chip-load")
    void shouldWatchASmallCutterThatRubs() {
        // 0.004 mm x 16000 x 2 = 128 mm/min
        cut(2, -0.1, 127, 16000)
                .raises(Kinds.CHIP_LOAD, WATCH, RULE_OF_THUMB)
                .onLineOf("F127")
                .measuring(127 / 32000.0, "mm", 1e-9)
                .against(0.004);
    }

    @Test
    @Silent("C5 chip-load")
    void shouldNotMindFourMicrometresATooth() {
        cut(2, -0.1, 128, 16000).isSilentOn(Kinds.CHIP_LOAD);
        // larger cutters are not judged
        cut(2, -0.1, 127, 16000).tool("cutter", "diameter", "1.1 mm").isSilentOn(Kinds.CHIP_LOAD);
    }

    @Test
    @Fires("C6 chip-load")
    void shouldWatchAChipLoadAboveThreePercentInPaper() {
        // 3 % of 0.8 mm at 15000 x 2: 720 mm/min
        cut(2, -0.21, 721, 15000)
                .raises(Kinds.CHIP_LOAD, WATCH, RULE_OF_THUMB)
                .onLineOf("F721")
                .measuring(721 / 30000.0, "mm", 1e-9)
                .against(0.024);
        cut(2, -0.21, 481, 15000)
                .blank("substrate", "FR-4")
                .raises(Kinds.CHIP_LOAD, WATCH, RULE_OF_THUMB)
                .against(0.016);
        cut(2, -0.21, 1441, 15000).machine("max_feed", "2000 mm/min").raises(Kinds.CHIP_LOAD, FIX, RULE_OF_THUMB);
    }

    @Test
    @Silent("C6 chip-load")
    void shouldNotMindThreePercentNorShallowCuts() {
        cut(2, -0.21, 720, 15000).isSilentOn(Kinds.CHIP_LOAD);
        cut(2, -0.21, 480, 15000).blank("substrate", "FR-4").isSilentOn(Kinds.CHIP_LOAD);
        cut(2, -0.19, 1000, 15000).isSilentOn(Kinds.CHIP_LOAD);
        cut(2, -0.21, 1439, 15000)
                .machine("max_feed", "2000 mm/min")
                .examined()
                .raisesNothingAbove(WATCH, Kinds.CHIP_LOAD);
    }

    /** V-shaped tips are judged only where they go deeper than the foil and 0.1 mm. */
    @Test
    @Fires("C6 chip-load")
    void shouldWatchAVShapedBitBelowTheFoilAndATenth() {
        cut(5, -0.13, 385, 16000).raises(Kinds.CHIP_LOAD, WATCH, RULE_OF_THUMB).against(0.02);
        cut(5, -0.13, 319, 16000).isSilentOn(Kinds.CHIP_LOAD);
        cut(5, -0.11, 385, 16000).isSilentOn(Kinds.CHIP_LOAD);
    }

    // ---- side-load: cantilever, stress 32 F L / (pi d^3), force 150 N/mm2 x depth x chip load in paper

    /** Feed at which a 0.8 mm cutter, core 0.56 mm, 4 mm of flutes, bears a stress at 0.5 mm depth, mm/min. */
    private static double feedFor(double stress, double pressure) {
        double force = stress * Math.PI * 0.56 * 0.56 * 0.56 / (32 * 4);
        return force / (pressure * 0.5) * 16000 * 2;
    }

    @Test
    @Fires("C7 side-load")
    void shouldWatchThenStopAtTheStressThatSnapsACutter() {
        cut(2, -0.5, feedFor(1005, 150), 16000)
                .set("limits.deflection=1 mm")
                .machine("max_feed", "9000 mm/min")
                .raises(Kinds.SIDE_LOAD, WATCH, RULE_OF_THUMB)
                .onLineOf("G1 X14")
                .measuring(1005, "N/mm2", 4)
                .against(1000);
        cut(2, -0.5, feedFor(2515, 400), 16000)
                .blank("substrate", "FR-4")
                .machine("max_feed", "9000 mm/min")
                .raises(Kinds.SIDE_LOAD, STOP, RULE_OF_THUMB)
                .measuring(2515, "N/mm2", 8)
                .against(2500);
    }

    @Test
    @Silent({"C7 side-load", "C8 side-load"})
    void shouldNotMindAStressThatCarbideBearsNorVShapedBits() {
        cut(2, -0.5, feedFor(990, 150), 16000)
                .set("limits.deflection=1 mm")
                .machine("max_feed", "9000 mm/min")
                .examined()
                .raisesNothingAbove(NOTE, Kinds.SIDE_LOAD);
        cut(5, -0.28, 1200, 16000).isSilentOn(Kinds.SIDE_LOAD);
        slender(0.0195).isSilentOn(Kinds.SIDE_LOAD);
    }

    /** A cutter of one diameter, 0.8 mm, core 0.56 mm, flutes to the collet: bend F L^3 / (3 E I), E = 600 kN/mm2. */
    private static Bench slender(double bendMm) {
        double second = Math.PI * 0.56 * 0.56 * 0.56 * 0.56 / 64;
        double length = 10;
        double force = bendMm * 3 * 600_000 * second / (length * length * length);
        double feed = force / (150 * 0.3) * 16000 * 2;
        return cut(2, -0.3, feed, 16000).machine("max_feed", "9000 mm/min").tool("cutter", "flute_length", "10 mm");
    }

    @Test
    @Fires("C8 side-load")
    void shouldWatchACutterThatBendsOffItsLineAtACopperWall() {
        slender(0.0205)
                .raises(Kinds.SIDE_LOAD, WATCH, RULE_OF_THUMB)
                .measuring(0.0205, "mm", 0.0003)
                .against(0.02);
    }

    // ---- tool-wear

    private static Bench worn(String budget) {
        return Bench.job().set("limits.wear_v_paper=" + budget).runs(isolation());
    }

    /** The rectangle is 36 mm; the lead-over removes nothing, and of the plunge 0.1 mm lies in material. */
    @Test
    @Fires("C4 tool-wear")
    void shouldWatchWearFromSeventyPercentAndMendItAboveAHundred() {
        worn("51.5 mm").raises(Kinds.TOOL_WEAR, WATCH, RULE_OF_THUMB).with("engraver");
        worn("35 mm")
                .raises(Kinds.TOOL_WEAR, FIX, RULE_OF_THUMB)
                .measuring(36.1, "mm", 0.001)
                .against(35);
    }

    @Test
    @Silent("C4 tool-wear")
    void shouldNotMindWearBelowSeventyPercent() {
        worn("51.6 mm").isSilentOn(Kinds.TOOL_WEAR);
        worn("38 mm").examined().raisesNothingAbove(WATCH, Kinds.TOOL_WEAR);
        Bench.job().runs(isolation()).isSilentOn(Kinds.TOOL_WEAR);
    }

    // ---- dust

    @Test
    @Fires("L1 dust")
    void shouldWatchGlassFibreWithoutExtraction() {
        Bench.job()
                .blank("substrate", "FR-4")
                .machine("extraction", "false")
                .runs(isolation())
                .raises(Kinds.DUST, WATCH, GEOMETRY);
    }

    @Test
    @Silent("L1 dust")
    void shouldNotMindPaperNorExtractionNorAProgramThatCutsNothing() {
        Bench.job().machine("extraction", "false").runs(isolation()).isSilentOn(Kinds.DUST);
        Bench.job().blank("substrate", "FR-4").runs(isolation()).isSilentOn(Kinds.DUST);
        Bench.job()
                .blank("substrate", "FR-4")
                .machine("extraction", "false")
                .runs(start(1) + "G0 X5\n" + END)
                .isSilentOn(Kinds.DUST);
    }

    @Test
    void shouldSayWhatItCannotJudgeWithoutFlutes() {
        assertThat(cut(2, -0.5, 200, 16000)
                        .toolWithout("cutter", "flutes")
                        .examined()
                        .notChecked()
                        .toString())
                .contains("flutes");
    }
}
