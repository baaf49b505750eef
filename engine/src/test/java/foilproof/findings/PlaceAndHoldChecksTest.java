package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Where things lie, in which order they are made, and what holds them. Limits: common practice, no source. */
class PlaceAndHoldChecksTest {
    private static final String BORES = start(2) + hole(8, 7) + END;

    private static String hole(double x, double y) {
        return bore(x, y, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65);
    }

    /** An outline cut by the 0.8 mm cutter with two tabs, the path so far outside the box. */
    private static String outline(double outside, double tabTop, double... box) {
        double a = box[0] - outside;
        double b = box[1] - outside;
        double c = box[2] + outside;
        double d = box[3] + outside;
        double m = (a + c) / 2;
        StringBuilder t = new StringBuilder(start(2)).append(text("G0 X%s Y%s\nG0 Z1\n", a, b));
        for (double z : new double[] {-0.4, -0.8, -1.2, -1.65}) {
            double up = Math.max(z, tabTop);
            t.append(
                    text("G1 Z%s F90\nG1 X%s F400\nG1 Z%s F90\nG1 X%s F400\nG1 Z%s F90\n", z, m - 1.4, up, m + 1.4, z));
            t.append(text("G1 X%s F400\nG1 Y%s\nG1 X%s\nG1 Z%s F90\n", c, d, m + 1.4, up));
            t.append(text("G1 X%s F400\nG1 Z%s F90\nG1 X%s F400\nG1 Y%s\n", m - 1.4, z, a, b));
        }
        return t.append("G0 Z5\n").append(END).toString();
    }

    private static String profile(double x0, double y0, double x1, double y1) {
        return String.format(
                Locale.ROOT,
                "%%FSLAX46Y46*%%\n%%MOMM*%%\n%%ADD10C,0.1*%%\nD10*\nX%1$dY%2$dD02*\nX%3$dY%2$dD01*\nX%3$dY%4$dD01*\n"
                        + "X%1$dY%4$dD01*\nX%1$dY%2$dD01*\nM02*\n",
                Math.round(x0 * 1e6),
                Math.round(y0 * 1e6),
                Math.round(x1 * 1e6),
                Math.round(y1 * 1e6));
    }

    private static String lands(String function, double diameter, double... xy) {
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%LPD*%\n%TA.AperFunction," + function
                + "*%\n%ADD10C," + diameter + "*%\nD10*\n");
        for (int i = 0; i < xy.length; i += 2) {
            t.append("%TO.N,N").append(i).append("*%\n");
            if (function.equals("ComponentPad")) {
                t.append("%TO.P,J1,").append(i / 2 + 1).append("*%\n");
            }
            t.append(String.format(Locale.ROOT, "X%dY%dD03*\n", Math.round(xy[i] * 1e6), Math.round(xy[i + 1] * 1e6)));
        }
        return t.append("M02*\n").toString();
    }

    private static String land(double x, double y, double r) {
        return text("G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG3 X%s Y%s I%s J0 F300\nG0 Z5\n", x + r, y, x + r, y, -r);
    }

    // ---- order

    @Test
    @Fires({"G14 order"})
    void shouldTellHolesBeforeCopperAndAnOutlineBeforeHoles() {
        Bench.job()
                .program("b.ngc", BORES)
                .program("a.ngc", Programs.isolation())
                .raises(Kinds.ORDER, WATCH, RULE_OF_THUMB)
                .in("a.ngc");
        Bench.job()
                .program("a.ngc", Programs.isolation())
                .program("o.ngc", outline(0.4, -1.0, 2, 2, 15, 12))
                .program("b.ngc", BORES)
                .raises(Kinds.ORDER, WATCH, RULE_OF_THUMB)
                .in("b.ngc")
                .saying("after the outline cut");
    }

    @Test
    @Silent({"G14 order", "I5 order"})
    void shouldNotMindTheUsualOrder() {
        Bench.job()
                .program("a.ngc", Programs.isolation())
                .program("b.ngc", BORES)
                .program("o.ngc", outline(0.4, -1.0, 2, 2, 15, 12))
                .isSilentOn(Kinds.ORDER);
        // holes for the pins come first
        Bench.job()
                .side("pins", "[[\"8 mm\", \"7 mm\"]]")
                .program("b.ngc", BORES)
                .program("a.ngc", Programs.isolation())
                .isSilentOn(Kinds.ORDER);
    }

    @Test
    @Fires("I5 order")
    void shouldTellAFineCutterThatComesBackToCopperFromTheTape() {
        Bench.job()
                .program("b.ngc", BORES)
                .program("a.ngc", start(2) + rectangle(3, 3, 13, 11, -0.1) + END)
                .examined()
                .findings()
                .stream()
                .filter(f -> f.kind().equals(Kinds.ORDER) && f.message().contains("down in the tape"))
                .findFirst()
                .ifPresentOrElse(
                        f -> assertThat(f.program()).isEqualTo("a.ngc"),
                        () -> fail("no word of the glue in the flutes"));
    }

    // ---- bores

    @Test
    @Fires("G7 bore-tight")
    void shouldNoteABoreHardlyWiderThanItsCutter() {
        Bench.job()
                .runs(start(2) + bore(8, 7, 0.896, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .raises(Kinds.BORE_TIGHT, NOTE, RULE_OF_THUMB)
                .measuring(0.048, "mm", 0.001)
                .against(0.05);
    }

    @Test
    @Silent("G7 bore-tight")
    void shouldNotMindABoreWithRoomForChips() {
        Bench.job()
                .runs(start(2) + bore(8, 7, 0.9, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .isSilentOn(Kinds.BORE_TIGHT);
    }

    /** A land round (8, 7) that ends 0.4 mm from the bore, and a groove so far from it cut wide on the inside. */
    private static Bench boreBeside(double gap) {
        // the flat cutter clears a ring; its outer wall is where other copper begins
        double r = 0.5 + gap - 0.4;
        return Bench.job()
                .cellUm(10)
                .program("a.ngc", start(3) + land(8, 7, r) + rectangle(3, 3, 13, 11, -0.1) + END)
                .program("b.ngc", BORES);
    }

    @Test
    @Fires("G9 narrow-gap")
    void shouldTellABoreNearCopperThatIsNotItsLand() {
        boreBeside(0.197)
                .raises(Kinds.NARROW_GAP, WATCH, GEOMETRY)
                .measuring(0.197, "mm", 0.003)
                .in("b.ngc");
    }

    @Test
    @Silent("G9 narrow-gap")
    void shouldNotMindABoreTwoTenthsFromOtherCopperNorItsOwnLand() {
        boreBeside(0.205).isSilentOn(Kinds.NARROW_GAP);
        Bench.job()
                .cellUm(10)
                .program("a.ngc", start(1) + land(8, 7, 0.95) + END)
                .program("b.ngc", BORES)
                .isSilentOn(Kinds.NARROW_GAP);
    }

    // ---- two sides

    private static Bench twoSides(double land) {
        double r = land + 0.0822;
        return Bench.job()
                .cellUm(10)
                .blank("copper", "both sides")
                .machine("backlash", "[\"0.04 mm\", \"0.04 mm\"]")
                .side("face", "top")
                .program("a.ngc", start(1) + land(8, 7, 1.2) + END)
                .program("b.ngc", BORES)
                .nextSide("bottom", "about Y")
                .program("c.ngc", start(1) + land(12, 7, r) + END);
    }

    @Test
    @Fires("B12 ring-thin")
    void shouldTakeTheRegistrationBudgetOffTheRingOfTheOtherSide() {
        // ring 0.23, budget 0.03 + 0.04 + 0.02
        assertThat(twoSides(0.73).examined().findings()).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.RING_THIN);
            assertThat(f.severity()).isEqualTo(WATCH);
            assertThat(f.certainty()).isEqualTo(SET_UP);
            assertThat(f.atMm()).containsExactly(new double[] {12, 7}, within(1e-6));
            assertThat(Objects.requireNonNull(f.measured()).value()).isCloseTo(0.14, within(0.004));
            assertThat(Objects.requireNonNull(f.limit()).value()).isEqualTo(0.15);
        });
        assertThat(twoSides(0.58).examined().findings())
                .anyMatch(f -> f.kind().equals(Kinds.RING_THIN) && f.certainty() == SET_UP && f.severity() == FIX);
    }

    @Test
    @Silent("B12 ring-thin")
    void shouldNotMindARingThatBearsTheBudget() {
        twoSides(0.81).isSilentOn(Kinds.RING_THIN);
    }

    @Test
    @Fires("B17 burr")
    void shouldNoteThatTheSecondSideMayLieOnBurrs() {
        assertThat(twoSides(1.0).examined().findings())
                .anyMatch(f -> f.kind().equals(Kinds.BURR) && f.severity() == NOTE && f.certainty() == SET_UP);
    }

    @Test
    @Silent("B17 burr")
    void shouldNotSpeakOfBurrsWhereTheFaceWasDeburred() {
        assertThat(twoSides(1.0).side("deburred", "true").examined().findings())
                .noneMatch(f -> f.kind().equals(Kinds.BURR) && f.certainty() == SET_UP);
    }

    @Test
    @Fires("I4 spoil-board-cut")
    void shouldNoteAHoleOverASpoilBoardThatTheSideBeforeCut() {
        twoSides(1.0)
                .program("d.ngc", start(2) + hole(8, 7) + END)
                .raises(Kinds.SPOIL_BOARD_CUT, NOTE, GEOMETRY)
                .in("d.ngc")
                .at(8, 7);
        // two holes of 1 mm that overlap by a tenth on the table
        twoSides(1.0).program("d.ngc", start(2) + hole(8, 7.9) + END).raises(Kinds.SPOIL_BOARD_CUT, NOTE, GEOMETRY);
    }

    @Test
    @Silent("I4 spoil-board-cut")
    void shouldNotMindAHoleOverFreshSpoilBoard() {
        twoSides(1.0).program("d.ngc", start(2) + hole(5, 10) + END).isSilentOn(Kinds.SPOIL_BOARD_CUT);
        twoSides(1.0).program("d.ngc", start(2) + hole(8, 8.1) + END).isSilentOn(Kinds.SPOIL_BOARD_CUT);
    }

    private static Bench listed(String function) {
        return twoSides(1.0)
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX8.0Y7.0\nM30\n")
                .design(
                        "top_copper",
                        "top.gbr",
                        lands(function, 2.0, 8, 7)
                                .replace(
                                        "M02*\n",
                                        "%TA.AperFunction,Conductor*%\n%ADD11C,0.5*%\nD11*\nX8000000Y7000000D02*\nX12000000D01*\nM02*\n"))
                .design("bottom_copper", "bottom.gbr", lands(function, 2.0, 8, 7));
    }

    @Test
    @Fires({"G12 via-list", "G13 solder-access"})
    void shouldListViasAndPinsOnTheComponentSide() {
        listed("ViaPad")
                .raises(Kinds.VIA_LIST, NOTE, GEOMETRY)
                .saying("1 via needs")
                .saying("0.85 mm");
        listed("ComponentPad").raises(Kinds.SOLDER_ACCESS, NOTE, SET_UP).saying("Question");
    }

    @Test
    @Silent({"G12 via-list", "G13 solder-access"})
    void shouldListNothingThatIsNotThere() {
        listed("ComponentPad").isSilentOn(Kinds.VIA_LIST);
        listed("ViaPad").isSilentOn(Kinds.SOLDER_ACCESS);
        twoSides(1.0).isSilentOn(Kinds.VIA_LIST).isSilentOn(Kinds.SOLDER_ACCESS);
    }

    @Test
    @Fires("B10 mirrored")
    void shouldNoteThatMirroringCannotBeKnownWithoutADesign() {
        Bench.job()
                .runs(Programs.isolation())
                .raises(Kinds.MIRRORED, NOTE, GEOMETRY)
                .saying("one engraved word");
    }

    @Test
    @Silent("B10 mirrored")
    void shouldNotSpeakOfMirroringWhereALayerIsGivenOrNoCopperIsMilled() {
        Bench.job()
                .side("face", "top")
                .design("top_copper", "top.gbr", lands("ComponentPad", 2.0, 8, 7))
                .runs(start(1) + land(8, 7, 1.08) + END)
                .isSilentOn(Kinds.MIRRORED);
        Bench.job().runs(start(2) + END).isSilentOn(Kinds.MIRRORED);
    }

    // ---- the blank

    @Test
    @Fires("B13 off-blank")
    void shouldTellCopperWorkBesideTheBlankAndTheNudgeThatFits() {
        Bench.job()
                .runs(start(1) + rectangle(-0.5, 3, 13, 11, -0.1) + END)
                .raises(Kinds.OFF_BLANK, WATCH, GEOMETRY)
                .measuring(0.5, "mm", 0.001)
                .at(-0.5, 3);
    }

    @Test
    @Silent("B13 off-blank")
    void shouldNotMindCopperWorkOnTheBlankNorAnOutlineAlongItsEdge() {
        Bench.job().runs(start(1) + rectangle(0.05, 3, 13, 11, -0.1) + END).isSilentOn(Kinds.OFF_BLANK);
        Bench.job().runs(outline(0.4, -1.0, 0, 0, 20, 15)).isSilentOn(Kinds.OFF_BLANK);
    }

    private static Bench tilted(double rise) {
        String h = String.format(Locale.ROOT, "%.4f mm", rise * 2);
        return Bench.job()
                .blank(
                        "surface",
                        "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"20 mm\",\"0 mm\",\"" + h
                                + "\"],[\"0 mm\",\"15 mm\",\"0 mm\"],[\"20" + " mm\",\"15 mm\",\"" + h + "\"]]");
    }

    @Test
    @Fires("B6 tilt")
    void shouldTellATiltOfMoreThanFiveHundredthsAcrossTheJob() {
        tilted(0.052).runs(Programs.isolation()).raises(Kinds.TILT, FIX, SET_UP).measuring(0.052, "mm", 0.001);
    }

    @Test
    @Silent("B6 tilt")
    void shouldNotMindALittleTiltNorOneThatTheProgramFollows() {
        tilted(0.049).runs(Programs.isolation()).isSilentOn(Kinds.TILT);
        tilted(0.06).runs(mapped()).isSilentOn(Kinds.TILT).isSilentOn(Kinds.HEIGHT_MAP_TWICE);
    }

    /** A groove whose Z follows a rise of 0.06 mm on 10 mm. */
    private static String mapped() {
        StringBuilder t = new StringBuilder(start(1)).append("G0 X3 Y5\nG0 Z1\nG1 Z-0.082 F90\n");
        for (int i = 1; i <= 10; i++) {
            t.append(text("G1 X%s Z%s F300\n", 3 + i, -0.1 + 0.006 * (3 + i)));
        }
        return t.append("G0 Z5\n").append(END).toString();
    }

    @Test
    @Fires("B7 height-map-twice")
    void shouldStopWhereTheSurfaceIsCorrectedTwice() {
        tilted(0.06)
                .machine("applies_height_map", "true")
                .runs(mapped())
                .raises(Kinds.HEIGHT_MAP_TWICE, STOP, GEOMETRY);
    }

    @Test
    @Silent("B7 height-map-twice")
    void shouldNotMindAFlatProgramWhereTheMachineAppliesTheMap() {
        tilted(0.06)
                .machine("applies_height_map", "true")
                .runs(Programs.isolation())
                .isSilentOn(Kinds.HEIGHT_MAP_TWICE)
                .isSilentOn(Kinds.TILT);
    }

    // ---- outline

    private static Bench cut(double outside) {
        return Bench.job()
                .side("face", "top")
                .design("outline", "out.gbr", profile(3, 3, 15, 12))
                .runs(outline(outside, -1.0, 3, 3, 15, 12));
    }

    @Test
    @Fires("H1 outline-off")
    void shouldTellABoardCutToTheWrongSizeAndStopWhereTheCutIsOnTheWrongSide() {
        cut(0.4 + 0.052)
                .raises(Kinds.OUTLINE_OFF, WATCH, GEOMETRY)
                .measuring(0.104, "mm", 0.001)
                .against(0.10);
        cut(0).raises(Kinds.OUTLINE_OFF, STOP, GEOMETRY)
                .measuring(0.8, "mm", 0.001)
                .saying("on the line itself");
        cut(-0.4)
                .raises(Kinds.OUTLINE_OFF, STOP, GEOMETRY)
                .measuring(1.6, "mm", 0.001)
                .saying("wrong side");
        cut(0.8).raises(Kinds.OUTLINE_OFF, STOP, GEOMETRY)
                .measuring(0.8, "mm", 0.001)
                .saying("off the line twice");
    }

    @Test
    @Silent({"H1 outline-off", "H11 outline-off"})
    void shouldNotMindABoardOfTheRightSize() {
        cut(0.4 + 0.048).isSilentOn(Kinds.OUTLINE_OFF);
        Bench.job()
                .also("[design]\nfinished_size = [\"9 mm\", \"12 mm\"]")
                .runs(outline(0.4, -1.0, 3, 3, 15, 12))
                .isSilentOn(Kinds.OUTLINE_OFF);
    }

    /** An L of 12 x 9 mm, its corner of 5 x 4 mm left out; the cut is beside the two edges of that corner by so much. */
    private static Bench cutL(double beside) {
        String drawn =
                "%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.1*%\nD10*\nX3000000Y3000000D02*\nX15000000D01*\nY8000000D01*\n"
                        + "X10000000D01*\nY12000000D01*\nX3000000D01*\nY3000000D01*\nM02*\n";
        StringBuilder t = new StringBuilder(start(2)).append("G0 X2.6 Y2.6\nG0 Z1\n");
        for (double z : new double[] {-0.4, -0.8, -1.2, -1.65}) {
            double up = Math.max(z, -1.0);
            t.append(text(
                    "G1 Z%s F90\nG1 X6.6 F400\nG1 Z%s F90\nG1 X9.4 F400\nG1 Z%s F90\nG1 X15.4 F400\nG1 Y%s\n",
                    z, up, z, 8 + beside));
            t.append(text("G1 X%s\nG1 Y12.4\nG1 X8.4\nG1 Z%s F90\nG1 X5.6 F400\nG1 Z%s F90\n", 10 + beside, up, z));
            t.append("G1 X2.6 F400\nG1 Y2.6\n");
        }
        return Bench.job()
                .blank("hold", "edge clamps")
                .side("face", "top")
                .design("outline", "out.gbr", drawn)
                .runs(t.append("G0 Z5\n").append(END).toString());
    }

    @Test
    @Fires("H1 outline-off")
    void shouldCompareTheEdgeWithTheDrawnContourWhereTheBoxesAgree() {
        cutL(0.4 - 0.8)
                .raises(Kinds.OUTLINE_OFF, STOP, GEOMETRY)
                .measuring(0.4 + 0.4 * Math.sqrt(2), "mm", 0.002)
                .saying("wrong side");
        cutL(0.0)
                .raises(Kinds.OUTLINE_OFF, STOP, GEOMETRY)
                .measuring(0.4, "mm", 0.002)
                .saying("on the line itself");
        cutL(0.4 + 0.11)
                .raises(Kinds.OUTLINE_OFF, WATCH, GEOMETRY)
                .measuring(0.11, "mm", 0.002)
                .against(0.10);
    }

    @Test
    @Silent({"H1 outline-off", "H3 tabs", "H7 deep-pass"})
    void shouldNotMindTheRoundInsideCornerOfAnLNorCountItsPassesAsOne() {
        cutL(0.4).isSilentOn(Kinds.OUTLINE_OFF).isSilentOn(Kinds.TABS).isSilentOn(Kinds.DEEP_PASS);
        cutL(0.4 + 0.09).isSilentOn(Kinds.OUTLINE_OFF);
    }

    @Test
    @Fires("H11 outline-off")
    void shouldHoldTheBoardToAStatedFitAllowance() {
        cut(0.4 + 0.04)
                .also("[limits]\nfit_allowance_most = \"0.05 mm\"")
                .raises(Kinds.OUTLINE_OFF, WATCH, GEOMETRY)
                .against(0.05);
    }

    /** A drawn polygon and a closed cut along another one: x, y of each corner. */
    private static Bench polygons(double[] drawn, double[] path) {
        StringBuilder d = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.1*%\nD10*\n");
        StringBuilder t = new StringBuilder(start(2)).append(text("G0 X%s Y%s\nG0 Z1\n", path[0], path[1]));
        for (int k = 0; k <= drawn.length; k += 2) {
            int i = k % drawn.length;
            d.append(String.format(
                    Locale.ROOT,
                    "X%dY%dD0%d*\n",
                    Math.round(drawn[i] * 1e6),
                    Math.round(drawn[i + 1] * 1e6),
                    k == 0 ? 2 : 1));
        }
        for (double z : new double[] {-0.4, -0.8, -1.2, -1.65}) {
            t.append(text("G1 Z%s F90\n", z));
            for (int k = 2; k <= path.length; k += 2) {
                t.append(text("G1 X%s Y%s F400\n", path[k % path.length], path[(k + 1) % path.length]));
            }
        }
        return Bench.job()
                .side("face", "top")
                .design("outline", "out.gbr", d.append("M02*\n").toString())
                .runs(t.append("G0 Z5\n").append(END).toString());
    }

    private static final double[] NOTCHED = {3, 3, 15, 3, 15, 9, 12, 9, 12, 12, 3, 12};

    /** The cut round the notched board, its inside corner cut off by this much along both edges of the path. */
    private static double[] roundNotch(double cutOff) {
        return new double[] {
            2.6, 2.6, 15.4, 2.6, 15.4, 9.4, 12.4 + cutOff, 9.4, 12.4, 9.4 + cutOff, 12.4, 12.4, 2.6, 12.4
        };
    }

    @Test
    @Fires("H1 outline-off")
    void shouldTellABoardOfTheRightSizeAndAnotherShape() {
        double[] rectangle = {2.6, 2.6, 15.4, 2.6, 15.4, 12.4, 2.6, 12.4};
        polygons(NOTCHED, rectangle).raises(Kinds.OUTLINE_OFF, WATCH, GEOMETRY).saying("not the drawn shape");
        double[] chamfered = {2.6, 2.6, 15.4, 2.6, 15.4, 11.4, 14.4, 12.4, 2.6, 12.4};
        polygons(new double[] {3, 3, 15, 3, 15, 12, 3, 12}, chamfered)
                .raises(Kinds.OUTLINE_OFF, WATCH, GEOMETRY)
                .at(15, 12)
                .saying("too much away");
    }

    @Test
    @Silent({"H1 outline-off", "H9 corner-left"})
    void shouldNotMindWhatACutterLeavesInACorner() {
        polygons(NOTCHED, roundNotch(0.001)).isSilentOn(Kinds.OUTLINE_OFF).isSilentOn(Kinds.CORNER_LEFT);
        // the corner of the path lies 0.4 sqrt 2 from the drawn one; cut off by c it is c / sqrt 2 farther
        polygons(NOTCHED, roundNotch(0.46)).isSilentOn(Kinds.OUTLINE_OFF).isSilentOn(Kinds.CORNER_LEFT);
    }

    /** Chord of the path: 0.4 sqrt 2 + c / sqrt 2 from the drawn corner, the wall 0.4 nearer. */
    @Test
    @Fires("H9 corner-left")
    void shouldNoteMaterialInAnInsideCorner() {
        polygons(NOTCHED, roundNotch(0.5))
                .raises(Kinds.CORNER_LEFT, NOTE, GEOMETRY)
                .at(12, 9)
                .measuring(0.4 * StrictMath.sqrt(2) + 0.5 / StrictMath.sqrt(2) - 0.4, "mm", 0.003)
                .against(0.5);
    }

    private static Bench landAtEdge(double gap) {
        return Bench.job()
                .side("face", "top")
                .design("top_copper", "top.gbr", lands("ComponentPad", 2.0, 9, 7, 4 + gap, 7))
                .runs(outline(0.4, -1.0, 3, 3, 15, 12));
    }

    @Test
    @Fires("H10 edge-copper")
    void shouldTellCopperOfTheDesignAtTheEdge() {
        landAtEdge(0.245)
                .raises(Kinds.EDGE_COPPER, WATCH, GEOMETRY)
                .measuring(0.245, "mm", 0.003)
                .at(3.25, 7);
        landAtEdge(-0.05)
                .raises(Kinds.EDGE_COPPER, FIX, GEOMETRY)
                .measuring(-0.05, "mm", 0.003)
                .against(0);
    }

    @Test
    @Silent("H10 edge-copper")
    void shouldNotMindCopperAQuarterMillimetreFromTheEdgeNorLeftoverCopper() {
        landAtEdge(0.255).isSilentOn(Kinds.EDGE_COPPER);
        Bench.job().runs(outline(0.4, -1.0, 3, 3, 15, 12)).isSilentOn(Kinds.EDGE_COPPER);
    }

    // ---- hold-down

    @Test
    @Fires("H4 tabs")
    void shouldTellATabThatTheZSpreadMayEatByHalf() {
        Bench.job()
                .runs(outline(0.4, -1.0, 3, 3, 15, 12))
                .spread("z", "[\"-0.03 mm\", \"0.26 mm\"]")
                .raises(Kinds.TABS, WATCH, SET_UP)
                .saying("which the set-up allows");
    }

    @Test
    @Silent("H4 tabs")
    void shouldNotMindATabThatKeepsMoreThanHalf() {
        Bench.job()
                .runs(outline(0.4, -1.0, 3, 3, 15, 12))
                .spread("z", "[\"-0.03 mm\", \"0.24 mm\"]")
                .isSilentOn(Kinds.TABS);
    }

    private static String loose(double side, double passMm) {
        return loose(side, side, passMm);
    }

    private static String loose(double width, double height, double passMm) {
        return start(2) + freed(3, 3, width, height, passMm) + END;
    }

    private static String freed(double x, double y, double width, double height, double passMm) {
        StringBuilder t = new StringBuilder();
        for (double z = -passMm; z > -1.65; z -= passMm) {
            t.append(rectangle(x, y, x + width, y + height, z));
        }
        return t + rectangle(x, y, x + width, y + height, -1.65);
    }

    @Test
    @Fires("I6 hold-weak")
    void shouldTellAPartThatItsTapeHardlyHolds() {
        // 3.4 mm square: about 11 mm2 hold 0.2 N; 150 N/mm2 x 0.85 mm x 0.009 mm pull 1.2 N and up
        Bench.job()
                .runs(loose(4.2, 0.825))
                .raises(Kinds.HOLD_WEAK, WATCH, RULE_OF_THUMB)
                .against(1);
        Bench.job().runs(loose(3.81, 0.825)).raises(Kinds.HOLD_WEAK, WATCH, RULE_OF_THUMB);
        // a part of 2 x 8 mm is no chip: 16 mm2 hold 0.32 N, against the same pull
        Bench.job()
                .runs(loose(2.8, 8.8, 0.825))
                .raises(Kinds.HOLD_WEAK, WATCH, RULE_OF_THUMB)
                .saying("(16 mm2)");
    }

    @Test
    @Silent("I6 hold-weak")
    void shouldNotMindAPartOnEnoughTapeNorOneOnTabs() {
        Bench.job().runs(loose(11, 0.3)).isSilentOn(Kinds.HOLD_WEAK);
        // what is no larger than 3 x 3 mm is a chip and no part (row H6)
        Bench.job().runs(loose(3.8, 0.825)).isSilentOn(Kinds.HOLD_WEAK);
        // nor is what a slot leaves inside a part, no wider than 3 mm
        Bench.job()
                .runs(start(2) + freed(5, 5, 3.8, 6, 0.3) + freed(2, 2, 14, 11, 0.3) + END)
                .isSilentOn(Kinds.HOLD_WEAK);
        Bench.job().runs(outline(0.4, -1.0, 3, 3, 8, 8)).isSilentOn(Kinds.HOLD_WEAK);
    }

    // ---- files of one side against each other

    private static final double[] PLACES = {4, 4, 9, 4, 14, 4, 4, 10, 9, 10, 14, 9};

    private static Bench onRings(double scale, double... shifts) {
        StringBuilder rings = new StringBuilder(start(1));
        StringBuilder bores = new StringBuilder(start(2));
        for (int i = 0; i < PLACES.length; i += 2) {
            rings.append(land(PLACES[i], PLACES[i + 1], 1.3));
            double dx = shifts[i % shifts.length];
            double dy = shifts[(i + 1) % shifts.length];
            bores.append(hole(PLACES[i] * scale + dx, PLACES[i + 1] * scale + dy));
        }
        return Bench.job().program("a.ngc", rings + END).program("b.ngc", bores + END);
    }

    @Test
    @Fires({"B8 sides-shifted", "B19 sides-shifted"})
    void shouldTellBoresThatLieOffTheRingsMilledRoundThem() {
        onRings(1, 0.052, 0)
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .measuring(0.052, "mm", 0.0013)
                .against(0.05)
                .in("b.ngc");
        onRings(1, 0.3, -0.2)
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .measuring(0.3606, "mm", 0.005)
                .against(0.15);
        onRings(1.002, 0, 0).raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY).saying("scaled by 1.0020");
    }

    @Test
    @Silent({"B8 sides-shifted", "B19 sides-shifted", "A23 other-revision"})
    void shouldNotMindBoresOnTheirRings() {
        onRings(1, 0.049, 0).isSilentOn(Kinds.SIDES_SHIFTED).isSilentOn(Kinds.OTHER_REVISION);
        onRings(1.0005, 0, 0).isSilentOn(Kinds.SIDES_SHIFTED);
        Bench.job()
                .program("a.ngc", Programs.isolation())
                .program("o.ngc", outline(0.4, -1.0, 2.5, 2.5, 15, 12))
                .isSilentOn(Kinds.OTHER_REVISION);
    }

    /** Needs, row G3: no match within 0.15, to the drill file, else to rings. One hole off is no shift of all (B8). */
    @Test
    @Fires("G3 hole-missing")
    @Silent({"B8 sides-shifted", "A23 other-revision"})
    void shouldTellOneHoleThatLiesOffItsRingAndNoShiftOfAll() {
        Verdicts moved = onRings(1, 0, 0, 0, 0, 0.153, 0, 0, 0, 0, 0, 0, 0)
                .isSilentOn(Kinds.SIDES_SHIFTED)
                .isSilentOn(Kinds.OTHER_REVISION);
        moved.raises(Kinds.HOLE_MISSING, STOP, GEOMETRY)
                .at(14.153, 4)
                .measuring(0.153, "mm", 0.0013)
                .against(0.15)
                .saying("5 others")
                .in("b.ngc");
        // four tenths off, and all of them shifted besides
        onRings(1, 0.06, 0, 0.06, 0, 0.46, 0, 0.06, 0, 0.06, 0, 0.06, 0)
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .measuring(0.06, "mm", 0.0013)
                .saying("5 of 6");
    }

    @Test
    @Silent({"G3 hole-missing", "B8 sides-shifted"})
    void shouldNotMindOneHoleLessThanFifteenHundredthsOffItsRing() {
        onRings(1, 0, 0, 0, 0, 0.147, 0, 0, 0, 0, 0, 0, 0)
                .isSilentOn(Kinds.HOLE_MISSING)
                .isSilentOn(Kinds.SIDES_SHIFTED);
    }

    @Test
    @Fires("A23 other-revision")
    void shouldStopWhereHolesScatterAgainstTheRings() {
        onRings(1, 0.4, 0, -0.4, 0.2, 0, 0.5)
                .raises(Kinds.OTHER_REVISION, STOP, GEOMETRY)
                .against(0.15);
    }

    @Test
    @Fires("A23 other-revision")
    void shouldStopWhereTheOutlineDoesNotHoldTheCopperWorkOrTheCopperFitsNoLayer() {
        Bench.job()
                .program("a.ngc", Programs.isolation())
                .program("o.ngc", outline(0.4, -1.0, 2.5, 2.5, 9, 12))
                .raises(Kinds.OTHER_REVISION, STOP, GEOMETRY)
                .in("a.ngc");
        Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", lands("ComponentPad", 4.0, 4, 4, 9, 4, 14, 5, 4, 10, 10, 10))
                .runs(start(1) + land(4, 4, 0.9) + land(9, 4, 0.9) + land(14, 5, 1.1) + land(4, 10, 1.2) + END)
                .raises(Kinds.OTHER_REVISION, STOP, GEOMETRY)
                .saying("in no way");
    }

    private static Bench slot(double pitch) {
        StringBuilder holes = new StringBuilder(start(4, 8000));
        for (int k = 0; k * pitch < 4 + 1e-6; k++) {
            holes.append(text("G83 X%s Y7 Z-1.9 R1 Q0.5 F200\n", 6 + k * pitch));
        }
        return Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX6.0Y7.0G85X10.0Y7.0\nM30\n")
                .runs(holes + "G80\n" + END);
    }

    @Test
    @Fires({"G10 slot-web", "G3 hole-missing"})
    void shouldTellWhatStandsInASlotAndASlotThatNobodyMakes() {
        // cusp of two holes of 1 mm at 0.5 mm: (1 - sqrt(1 - 0.25)) / 2 = 0.067 mm (closed form)
        slot(0.5)
                .raises(Kinds.SLOT_WEB, FIX, GEOMETRY)
                .measuring(0.067, "mm", 0.015)
                .saying("cusp");
        // 0.5 - sqrt(0.25 - (4 / 9)^2 / 4) = 0.0521 mm
        slot(4.0 / 9)
                .raises(Kinds.SLOT_WEB, FIX, GEOMETRY)
                .measuring(0.0521, "mm", 0.004)
                .saying("cusp");
        slot(2).raises(Kinds.SLOT_WEB, FIX, GEOMETRY).measuring(1.0, "mm", 0.05).saying("web");
        Bench.job()
                .side("face", "top")
                .design(
                        "drill",
                        "holes.drl",
                        "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX8.0Y7.0\nX12.0Y3.0G85X12.0Y9.0\nM30\n")
                .runs(BORES)
                .raises(Kinds.HOLE_MISSING, STOP, GEOMETRY)
                .saying("slot");
    }

    @Test
    @Silent("G10 slot-web")
    void shouldNotMindASlotOfCloseHolesNorTakeThemForHolesTooMany() {
        // 0.25 mm apart: cusps of 0.016 mm
        slot(0.4).isSilentOn(Kinds.SLOT_WEB); // 0.0417 mm
        slot(0.25).isSilentOn(Kinds.SLOT_WEB).isSilentOn(Kinds.HOLE_MISSING);
    }
}
