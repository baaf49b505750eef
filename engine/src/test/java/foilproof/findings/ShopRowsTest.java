package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import org.junit.jupiter.api.Test;

/** Rows of the needs on cutters, time, order, heat and hands (C8, C10, E11, K, L); limits are common practice, no source. */
class ShopRowsTest {
    private static final String GROOVE = rectangle(3, 3, 13, 11, -0.1);
    private static final String BORES = bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65);

    // ---- C8

    @Test
    @Fires("C8 side-load")
    void shouldWatchABendAtACopperWallThatBreaksNothing() {
        // F 10 um a tooth at 0.3 mm depth in FR-1: 0.45 N; the bend comes from a long, thin cutter (check value P9)
        Bench.job()
                .tool("cutter", "flute_length", "8 mm", "stick_out", "30 mm")
                .runs(start(2) + line(3, 5, 12, 5, -0.3).replace("F300", "F320") + END)
                .raises(Kinds.SIDE_LOAD, WATCH, RULE_OF_THUMB)
                .saying("off its line");
    }

    // ---- C10

    @Test
    @Fires("C10 shank-contact")
    void shouldStopWhereTheShankRubsBesideANarrowGroove() {
        Bench.job()
                .tool("cutter", "flute_length", "1.2 mm")
                .runs(start(2) + line(3, 5, 12, 5, -0.6) + line(3, 5, 12, 5, -1.21) + END)
                .raises(Kinds.SHANK_CONTACT, STOP, GEOMETRY)
                .onLineOf("Z-1.21")
                .folding(Kinds.SHANK_CONTACT);
    }

    @Test
    @Fires("C10 shank-contact")
    void shouldAskToMendACutDeeperThanTheFlutesOfAnEqualShank() {
        Bench.job()
                .tool("cutter", "flute_length", "1.2 mm", "shank", "0.8 mm")
                .runs(start(2) + line(3, 5, 12, 5, -0.6) + line(3, 5, 12, 5, -1.21) + END)
                .raises(Kinds.SHANK_CONTACT, FIX, GEOMETRY)
                .measuring(1.21, "mm", 1e-3)
                .against(1.2);
    }

    @Test
    @Silent("C10 shank-contact")
    void shouldNotMindFlutesThatReach() {
        Bench.job()
                .tool("cutter", "flute_length", "1.2 mm")
                .runs(start(2) + line(3, 5, 12, 5, -0.6) + line(3, 5, 12, 5, -1.2) + END)
                .isSilentOn(Kinds.SHANK_CONTACT);
    }

    // ---- E11

    @Test
    @Fires("E11 burr")
    void shouldNoteBurrsOfACutterThatIsWornAtTheEnd() {
        Bench.job()
                .set("limits.wear_v_paper=50 mm")
                .runs(isolation())
                .raises(Kinds.BURR, NOTE, RULE_OF_THUMB)
                .with("engraver");
    }

    @Test
    @Silent("E11 burr")
    void shouldSayNothingOfBurrsOfAFreshCutter() {
        Bench.job().runs(isolation()).isSilentOn(Kinds.BURR);
    }

    // ---- K

    @Test
    @Fires("K1 time")
    void shouldNoteARangeWhereAccelerationMakesTheTime() {
        StringBuilder t = new StringBuilder("G0 X2 Y2\nG0 Z1\nG1 Z-0.1 F90\n");
        for (int k = 0; k < 30; k++) {
            t.append("G1 X")
                    .append(2 + 0.5 * (k + 1) / 2.0)
                    .append(" F1000\nG1 Y")
                    .append(k % 2 == 0 ? 2.5 : 2)
                    .append('\n');
        }
        Bench.job()
                .machine("acceleration", "50 mm/s2")
                .runs(start(3) + t + "G0 Z5\n" + END)
                .raises(Kinds.TIME, NOTE, RULE_OF_THUMB)
                .saying("acceleration");
    }

    private static Bench backAndForth(String each) {
        String iso = start(3) + rectangle(3, 3, 8, 6, -0.1) + END;
        String cut = start(2) + bore(12, 5, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END;
        return Bench.job()
                .machine("tool_change", each)
                .program("a.ngc", iso)
                .program("b.ngc", cut)
                .program("c.ngc", start(3) + rectangle(3, 8, 8, 11, -0.1) + END);
    }

    @Test
    @Fires("K2 order")
    void shouldNoteChangesThatAnotherOrderSaves() {
        backAndForth("121 s").raises(Kinds.ORDER, NOTE, GEOMETRY).saying("2 times; 1 would do");
    }

    @Test
    @Silent({"K2 order", "K4 tool-changes"})
    void shouldSayNothingOfChangesThatSaveNoMoreThanTwoMinutes() {
        org.assertj.core.api.Assertions.assertThat(
                        backAndForth("120 s").isSilentOn(Kinds.TOOL_CHANGES).findings().stream()
                                .filter(f -> f.kind().equals(Kinds.ORDER) && f.severity() == NOTE))
                .isEmpty();
    }

    @Test
    @Fires("K3 time")
    void shouldNoteAFineCutterThatClearsWideAreas() {
        StringBuilder t = new StringBuilder("G0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\n");
        for (int k = 0; k < 60; k++) {
            t.append("G1 X")
                    .append(k % 2 == 0 ? 15 : 3)
                    .append(" F60\nG1 Y")
                    .append(3 + 0.1 * (k + 1))
                    .append('\n');
        }
        Bench.job()
                .program("a.ngc", start(1) + t + "G0 Z5\n" + END, "work", "clearing")
                .raises(Kinds.TIME, NOTE, GEOMETRY)
                .saying("cutter");
    }

    @Test
    @Silent({"K1 time", "K3 time"})
    void shouldSayNothingOfTimeWhereNothingIsToBeSaved() {
        Bench.job().machine("acceleration", "5000 mm/s2").runs(isolation()).isSilentOn(Kinds.TIME);
    }

    @Test
    @Fires("K4 tool-changes")
    void shouldNoteAChangeOverTheBlank() {
        Bench.job()
                .runs(start(1) + GROOVE + "M5\nG0 Z25\nT2 M6\nM0\nS16000 M3\nG4 P3\n" + BORES + END)
                .raises(Kinds.TOOL_CHANGES, NOTE, SET_UP)
                .onLineOf("T2 M6");
    }

    @Test
    @Fires("K5 order")
    void shouldWatchBoresAfterTheOutlineAndCopperAfterBores() {
        String outline = start(2) + "G0 X2 Y2\nG0 Z1\nG1 Z-1.65 F90\nG1 X16 F300\nG1 Y13\nG1 X2\nG1 Y2\nG0 Z5\n" + END;
        String tab = "G1 X%s\nG1 Z-1.0\nG1 X%s\nG1 Z-1.65 F90\n";
        String tabs = outline.replace("G1 X16 F300\n", tab.formatted("7 F300", "10") + "G1 X16 F300\n")
                .replace("G1 X2\n", tab.formatted("10", "7") + "G1 X2 F300\n");
        Bench.job()
                .program("a.ngc", tabs)
                .program("b.ngc", start(2) + BORES + END)
                .raises(Kinds.ORDER, WATCH, RULE_OF_THUMB)
                .in("b.ngc")
                .saying("boring comes after the outline cut");
        // in a part that is free already it is that part's finding
        Bench.job()
                .program("a.ngc", outline)
                .program("b.ngc", start(2) + BORES + END)
                .examined()
                .folds(Kinds.PART_FREE, Kinds.ORDER)
                .in("b.ngc");
        Bench.job()
                .program("a.ngc", start(2) + BORES + END)
                .program("b.ngc", isolation())
                .raises(Kinds.ORDER, WATCH, RULE_OF_THUMB)
                .in("b.ngc");
    }

    @Test
    @Silent("K5 order")
    void shouldNotMindHolesForPinsBesideTheCopperBeforeIt() {
        Bench.job()
                .program("a.ngc", start(2) + bore(17, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .program("b.ngc", isolation())
                .isSilentOn(Kinds.ORDER);
    }

    @Test
    @Silent("K5 order")
    void shouldNotMindShallowFirstRoundsOfBoresOutlinesAndPecks() {
        String twice =
                start(2) + "G0 X5 Y5\nG0 Z1\nG1 Z-0.2 F90\nG0 Z1\nG1 Z-1.65 F90\nG0 Z2\nG0 X9 Y5\nG0 Z1\nG1 Z-0.2 F90\n"
                        + "G0 Z1\nG1 Z-1.65 F90\nG0 Z2\n" + END;
        String drilled = start(4, 15000) + "G83 X5 Y5 Z-1.95 R1 Q0.2 F200\nX9\nX13\nG80\n" + END;
        for (String program : new String[] {twice, drilled}) {
            Bench.job().runs(program).isSilentOn(Kinds.ORDER);
        }
    }

    @Test
    @Silent("K5 order")
    void shouldNotMindTheUsualOrder() {
        String outline = start(2) + "G0 X2 Y2\nG0 Z1\nG1 Z-1.65 F90\nG1 X16 F300\nG1 Y13\nG1 X2\nG1 Y2\nG0 Z5\n" + END;
        Bench.job()
                .program("a.ngc", isolation())
                .program("b.ngc", start(2) + BORES + END)
                .program("c.ngc", outline)
                .isSilentOn(Kinds.ORDER);
    }

    @Test
    @Fires("K6 look-alike")
    void shouldNoteCuttersThatLookAlike() {
        Bench.job()
                .program("a.ngc", start(3) + GROOVE + END)
                .program("b.ngc", start(2) + BORES + END)
                .raises(Kinds.LOOK_ALIKE, NOTE, GEOMETRY);
    }

    @Test
    @Silent("K6 look-alike")
    void shouldSayNothingOfCuttersThatDiffer() {
        Bench.job()
                .program("a.ngc", isolation())
                .program("b.ngc", start(2) + BORES + END)
                .isSilentOn(Kinds.LOOK_ALIKE);
    }

    // ---- L2

    private static Bench dwelling(String seconds) {
        return Bench.job().runs(isolation().replace("G1 Y11.0\n", "G1 Y11.0\nG4 P" + seconds + "\n"));
    }

    @Test
    @Fires("L2 burn")
    void shouldWatchADwellInTheCut() {
        dwelling("0.51")
                .raises(Kinds.BURN, WATCH, RULE_OF_THUMB)
                .onLineOf("P0.51")
                .measuring(0.51, "s", 1e-9)
                .at(13, 11);
    }

    @Test
    @Fires("L2 burn")
    void shouldWatchRubbingOverMoreThanAMetre() {
        Bench.job()
                .set("limits.rubbing_length=30 mm")
                .runs(isolation().replace("F300", "F60"))
                .raises(Kinds.BURN, WATCH, RULE_OF_THUMB)
                .saying("rubs over");
    }

    @Test
    @Silent("L2 burn")
    void shouldNotMindShortDwellsNorDwellsAboveTheBlank() {
        dwelling("0.5").isSilentOn(Kinds.BURN);
        Bench.job().runs(isolation()).isSilentOn(Kinds.BURN);
        Bench.job()
                .set("limits.rubbing_length=50 mm")
                .runs(isolation().replace("F300", "F60"))
                .isSilentOn(Kinds.BURN);
    }

    // ---- L3

    @Test
    @Fires("L3 dust")
    void shouldNoteTheChecklistBeforeALongCut() {
        Bench.job().set("limits.long_cut=5 s").runs(isolation()).raises(Kinds.DUST, NOTE, RULE_OF_THUMB);
    }

    @Test
    @Silent("L3 dust")
    void shouldSayNothingBeforeAShortCut() {
        Bench.job().runs(isolation()).isSilentOn(Kinds.DUST);
    }

    // ---- L4

    @Test
    @Fires("L4 unsafe-pause")
    void shouldStopAtAStopWhileTheSpindleTurns() {
        Bench.job()
                .runs(isolation().replace("G0 Z10\n", "G0 Z10\nM0\n"))
                .raises(Kinds.UNSAFE_PAUSE, STOP, GEOMETRY)
                .saying("spindle still turns");
    }

    @Test
    @Fires("L4 unsafe-pause")
    void shouldStopAtAStopInTheBlank() {
        Bench.job()
                .runs(isolation().replace("G1 Y11.0\n", "G1 Y11.0\nM5\nM0 (look)\nM3\nG4 P3\n"))
                .raises(Kinds.UNSAFE_PAUSE, STOP, GEOMETRY)
                .onLineOf("(look)")
                .at(13, 11)
                .saying("below the foil top");
    }

    @Test
    @Fires("L4 unsafe-pause")
    void shouldStopAtAToolChangeThatNothingIsLiftedFor() {
        String low = start(1) + GROOVE.substring(0, GROOVE.lastIndexOf("G0 Z5"))
                + "M5\nT2 M6\nS16000 M3\nG4 P3\nG0 Z5\n" + BORES + END;
        Bench.job()
                .runs(low)
                .raises(Kinds.UNSAFE_PAUSE, STOP, GEOMETRY)
                .onLineOf("T2 M6")
                .saying("nothing is lifted");
    }

    @Test
    @Silent("L4 unsafe-pause")
    void shouldNotMindStopsWithTheSpindleOffAndTheCutterUp() {
        Bench.job()
                .runs(start(1) + GROOVE + "M5\nG0 Z25\nT2 M6\nM0\nS16000 M3\nG4 P3\n" + BORES + END)
                .isSilentOn(Kinds.UNSAFE_PAUSE);
        // M6 stops the spindle by itself (NISTIR 6556 section 3.6.3)
        Bench.job()
                .runs(start(1) + GROOVE + "G0 Z25\nT2 M6\nM0\nS16000 M3\nG4 P3\n" + BORES + END)
                .isSilentOn(Kinds.UNSAFE_PAUSE);
    }
}
