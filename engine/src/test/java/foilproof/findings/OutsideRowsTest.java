package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.plunge;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Faults planted from the texts of the needs alone, each beside a near miss (catalogue of needs, rows A to E). */
class OutsideRowsTest {
    private static final double[][] HOLES = {{4, 3}, {9, 3}, {4, 7}, {9, 7}, {14, 3}, {16, 11}};

    /** A rectangle that stops short of its start by a gap between the middles of the cutter. */
    private static String shortOf(double gapMm) {
        return text("G0 X6 Y4\nG0 Z1\nG1 Z-0.1 F90\nG1 Y11 F300\nG1 X14\nG1 Y2\nG1 X6\nG1 Y%s\nG0 Z5\n", 4 - gapMm);
    }

    @Test
    @Fires("E1 short")
    void shouldStopAtALoopThatStopsShortOfItsStart() {
        // a flat cutter of 0.8 mm: its two round ends part when their middles are farther apart than that
        Bench.job()
                .cellUm(10)
                .program("a.ngc", start(2) + shortOf(0.9) + END, "work", "isolation")
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .at(6, 3.55)
                .measuring(0.1, "mm", 0.005)
                .against(0)
                .onLineOf("G1 Y3.1");
    }

    @Test
    @Silent("E1 short")
    void shouldNotMindALoopWhoseEndsJustMeetNorAnOpenWay() {
        Bench.job()
                .cellUm(10)
                .program("a.ngc", start(2) + shortOf(0.75) + END, "work", "isolation")
                .isSilentOn(Kinds.SHORT);
        // three sides of a rectangle are no loop
        String open = "G0 X6 Y4\nG0 Z1\nG1 Z-0.1 F90\nG1 Y11 F300\nG1 X14\nG1 Y4\nG0 Z5\n";
        Bench.job()
                .cellUm(10)
                .program("a.ngc", start(2) + open + END, "work", "isolation")
                .isSilentOn(Kinds.SHORT);
    }

    /** A groove round a land with its trace: two half turns and two straights. */
    private static String stadium(double x0, double x1, double y) {
        return text("G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG1 X%s F300\nG2 X%s Y%s I0 J-1.3\n", x0, y + 1.3, x1, x1, y - 1.3)
                + text("G1 X%s\nG2 X%s Y%s I0 J1.3\nG1 X%s\nG0 Z5\n", x0, x0, y + 1.3, x0 + 0.4);
    }

    private static Bench boredOff(double dxMm, double dyMm) {
        String copper = start(2) + stadium(4, 9, 3) + stadium(4, 9, 7) + stadium(14, 16, 11) + END;
        StringBuilder bores = new StringBuilder(start(2));
        for (double[] h : new double[][] {{4, 3}, {9, 3}, {4, 7}, {9, 7}, {14, 11}, {16, 11}}) {
            bores.append(bore(h[0] + dxMm, h[1] + dyMm, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65));
        }
        return Bench.job()
                .program("a.ngc", copper, "work", "isolation")
                .program("b.ngc", bores + END, "work", "boring");
    }

    @Test
    @Fires("B8 sides-shifted")
    void shouldTellBoresThatLieOffTheRoundEndsOfGrooves() {
        boredOff(0.12, -0.12)
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .in("b.ngc")
                .measuring(0.1697, "mm", 0.004)
                .against(0.15);
        boredOff(0.06, 0)
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .in("b.ngc")
                .measuring(0.06, "mm", 0.004)
                .against(0.05);
    }

    @Test
    @Silent("B8 sides-shifted")
    void shouldNotMindBoresFourHundredthsOffTheRoundEndsOfGrooves() {
        boredOff(0.04, 0).isSilentOn(Kinds.SIDES_SHIFTED);
    }

    private interface Move {
        double[] of(double x, double y);
    }

    private static String rings(Move move) {
        StringBuilder t = new StringBuilder(start(2));
        for (double[] h : HOLES) {
            double[] p = move.of(h[0], h[1]);
            t.append(text(
                    "G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG2 X%s Y%s I-1.3 J0 F300\nG0 Z5\n",
                    p[0] + 1.3, p[1], p[0] + 1.3, p[1]));
        }
        return t + END;
    }

    /** Rings on both sides, holes from the first; no design. */
    private static Bench bothSides(Move second) {
        StringBuilder bores = new StringBuilder(start(2));
        for (double[] h : HOLES) {
            bores.append(bore(h[0], h[1], 1.0, 0.8, -0.4, -0.8, -1.2, -1.65));
        }
        return Bench.job()
                .blank("copper", "both sides")
                .side("face", "top")
                .program("a.ngc", rings((x, y) -> new double[] {x, y}), "work", "isolation")
                .program("b.ngc", bores + END, "work", "boring")
                .nextSide("bottom", "about Y")
                .program("c.ngc", rings(second), "work", "isolation");
    }

    @Test
    @Fires({"B11 mirrored", "B11 sides-shifted"})
    void shouldLayTheRingsOfTheSecondSideOnTheHolesOfTheFirst() {
        bothSides((x, y) -> new double[] {x, 15 - y})
                .raises(Kinds.MIRRORED, STOP, GEOMETRY)
                .in("c.ngc");
        bothSides((x, y) -> new double[] {20 - x + 0.12, y})
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .in("c.ngc")
                .measuring(0.12, "mm", 0.003)
                .against(0.10);
        bothSides((x, y) -> new double[] {20 - x, y - 0.08})
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .measuring(0.08, "mm", 0.003)
                .against(0.05);
    }

    @Test
    @Silent({"B11 mirrored", "B11 sides-shifted"})
    void shouldNotMindRingsThatLieOnTheHolesOfTheOtherSide() {
        Verdicts v = bothSides((x, y) -> new double[] {20 - x, y + 0.04}).examined();
        v.raisesNothingAbove(Severity.NOTE, Kinds.SIDES_SHIFTED);
        v.raisesNothingAbove(Severity.NOTE, Kinds.MIRRORED);
    }

    @Test
    void shouldNotTakeOneWrongZeroForAsManyMissingHoles() {
        StringBuilder drill = new StringBuilder("M48\nMETRIC\nT1C1.000\n%\nG05\nT1\n");
        StringBuilder bores = new StringBuilder(start(2));
        for (double[] h : HOLES) {
            drill.append(text("X%sY%s\n", h[0], h[1]));
            bores.append(bore(h[0] + 0.25, h[1] - 0.2, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65));
        }
        Bench.job()
                .side("face", "top")
                .program("a.ngc", rings((x, y) -> new double[] {x, y}), "work", "isolation")
                .program("b.ngc", bores + END, "work", "boring")
                .design("drill", "holes.drl", drill + "M30\n")
                .isSilentOn(Kinds.HOLE_MISSING);
        // one hole alone beside its place is missing there, and one is made that nobody asks for
        String one = bores.toString().replace("X16.35", "X16.75");
        Bench other = Bench.job()
                .side("face", "top")
                .program("a.ngc", rings((x, y) -> new double[] {x, y}), "work", "isolation")
                .program("b.ngc", one + END, "work", "boring")
                .design("drill", "holes.drl", drill + "M30\n");
        assertThat(other.examined().findings().stream()
                        .filter(f -> f.kind().equals(Kinds.HOLE_MISSING))
                        .toList())
                .hasSize(2)
                .allMatch(f -> f.severity() == STOP && f.consequences().isEmpty());
    }

    @Test
    void shouldBlameTheIntermediatePointAndNotG91WhereG90FollowsTheHomeMove() {
        String low = "G0 X5 Y5\nG0 Z1\nG91 G28 X5 Y2 Z-1.5\nG90\nM5\nM2\n";
        Bench.job()
                .machine("blank_at", "[\"10 mm\", \"10 mm\", \"-38 mm\"]")
                .runs(start(2) + low)
                .isSilentOn(Kinds.DISTANCE_MODE)
                .raises(Kinds.RAPID_IN_MATERIAL, STOP, GEOMETRY)
                .onLineOf("G91 G28 X5 Y2 Z-1.5");
    }

    @Test
    void shouldNotMindInverseTimeThatEndsBeforeTheProgramDoes() {
        String timed = "G93\nG1 Z-0.1 F45\nG1 X15 F40\nG94 F300\nG0 Z5\n";
        Bench.job()
                .runs(start(2) + line(5, 4, 9, 4, -0.1) + "G0 X5 Y8\n" + timed + END)
                .isSilentOn(Kinds.FEED_UNSET);
    }

    @Test
    void shouldHoldALowRapidToTwoTenthsAndTheTouchOffOnlyBeyond() {
        // rows A7 (0.2 mm, geometry) and B15 (that and what the touch-off allows, set-up)
        Bench low = Bench.job().runs(start(2) + "G0 X5 Y5\nG0 Z0.19\nG0 X15\n" + END);
        low.raises(Kinds.RAPID_IN_MATERIAL, WATCH, GEOMETRY)
                .measuring(0.19, "mm", 1e-6)
                .against(0.2);
        Bench near = Bench.job().runs(start(2) + "G0 X5 Y5\nG0 Z0.22\nG0 X15\n" + END);
        near.raises(Kinds.RAPID_IN_MATERIAL, WATCH, SET_UP)
                .measuring(0.22, "mm", 1e-6)
                .against(0.23);
        Bench.job().runs(start(2) + "G0 X5 Y5\nG0 Z0.23\nG0 X15\n" + END).isSilentOn(Kinds.RAPID_IN_MATERIAL);
    }

    @Test
    void shouldTellAVShapedBitThatSlotsInAProgramOfBores() {
        String slot = "G0 X5 Y5\nG0 Z1\nG1 Z-0.3 F90\nG1 X9 F200\nG1 Z-0.6 F90\nG1 X5 F200\n";
        Bench.job()
                .program("a.ngc", start(5) + slot + END, "work", "boring")
                .raises(Kinds.WRONG_BIT_DRILLING, STOP, GEOMETRY)
                .measuring(0.6, "mm", 0.001)
                .against(0.3);
    }

    @Test
    void shouldNameTheLineOfTheZWordThatStepsTheFloor() {
        String steps = "G0 X5 Y5\nG0 Z1\nG1 Z-0.1 F90\nG1 X9 F300\nG1 Z-0.14\nG1 X14\nG0 Z5\n";
        Bench.job()
                .program("a.ngc", start(1) + steps + END, "work", "isolation")
                .raises(Kinds.TOO_DEEP, WATCH, GEOMETRY)
                .onLineOf("G1 Z-0.14");
    }

    @Test
    void shouldNotBendAShankThatNobodyStates() {
        // 0.45 mm deep through copper at 0.015 mm a tooth: 1.0 N; the flutes alone bend 2 um (check value P9's beam)
        Bench cut = Bench.job()
                .tool("cutter", "stick_out", "10 mm")
                .toolWithout("cutter", "shank")
                .program("a.ngc", start(2) + "G0 X3 Y5\nG0 Z1\nG1 Z-0.45 F90\nG1 X15 F480\n" + END, "work", "outline");
        cut.isSilentOn(Kinds.SIDE_LOAD);
        assertThat(cut.examined().notChecked()).anyMatch(n -> n.what().contains("bends above its flutes"));
        cut.tool("cutter", "shank", "0.8 mm").raises(Kinds.SIDE_LOAD, WATCH, RULE_OF_THUMB);
    }

    @Test
    void shouldCountOfAPlungeOnlyWhatLiesInTheBlank() {
        // six plunges of 5.1 mm, of which 0.1 mm each is in material
        StringBuilder t = new StringBuilder(start(1));
        for (int k = 0; k < 6; k++) {
            t.append(plunge(4 + 2 * k, 6, -0.1).replace("G0 Z0.5", "G0 Z5"));
        }
        Bench.job().set("limits.wear_v_paper=0.9 mm").runs(t + END).isSilentOn(Kinds.TOOL_WEAR);
        Bench.job()
                .set("limits.wear_v_paper=0.8 mm")
                .runs(t + END)
                .raises(Kinds.TOOL_WEAR, WATCH, RULE_OF_THUMB)
                .measuring(0.6, "mm", 1e-6);
    }

    @Test
    void shouldTakeWhatStandsWithinALetterForPartOfTheWord() {
        // a closed letter of 0.8 x 0.8 mm between its grooves' middles; its inside is 0.45 mm2 at the foil bottom
        String letter = text(
                "G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG1 X%s F300\nG1 Y%s\nG1 X%s\nG1 Y%s\nG0 Z5\n",
                8, 8, 8.8, 8.8, 8, 7.9);
        Bench.job().program("a.ngc", start(1) + letter + END, "work", "text").isSilentOn(Kinds.STRAY_COPPER);
        Bench.job()
                .program("a.ngc", start(1) + letter + END, "work", "isolation")
                .raises(Kinds.STRAY_COPPER, WATCH, GEOMETRY)
                .in("a.ngc")
                .at(8.4, 8.4);
    }

    private static final String LANDS = """
            %FSLAX46Y46*%
            %MOMM*%
            %LPD*%
            G75*
            %TA.AperFunction,ComponentPad*%
            %ADD10C,1.8*%
            %TD.AperFunction*%
            D10*
            %TO.N,A*%
            %TO.P,J1,1*%
            X4000000Y3000000D03*
            %TO.N,B*%
            %TO.P,J2,1*%
            X16000000Y11000000D03*
            %TD*%
            M02*
            """;

    /** Rings round two lands, all numbers divided by a factor. */
    private static Bench ringsDividedBy(double factor) {
        StringBuilder t = new StringBuilder(start(2).replace("G21 ", ""));
        for (double[] land : new double[][] {{4, 3}, {16, 11}}) {
            double px = (land[0] + 1.3) / factor;
            double py = land[1] / factor;
            t.append(text(
                    "G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG2 X%s Y%s I%s J0 F300\nG0 Z5\n", px, py, px, py, -1.3 / factor));
        }
        return Bench.job()
                .machine("units", "mm")
                .side("face", "top")
                .design("top_copper", "top.gbr", LANDS)
                .program("a.ngc", t + END, "work", "isolation");
    }

    @Test
    @Fires("A1 units-unset")
    void shouldStopWhereCopperWorkIsTheInchSmallerThanTheLayerImage() {
        ringsDividedBy(25.4).raises(Kinds.UNITS_UNSET, STOP, GEOMETRY).in("a.ngc");
    }

    @Test
    @Silent("A1 units-unset")
    void shouldOnlyNoteTheMachinesUnitsWhereCopperWorkFitsTheLayerImage() {
        ringsDividedBy(1).examined().raisesNothingAbove(Severity.NOTE, Kinds.UNITS_UNSET);
    }

    @Test
    void shouldFoldWhatAProgramThatBreaksOffLeavesUndone() {
        String half = "G0 X3 Y3\nG0 Z1\nG1 Z-0.5 F90\nG1 X17 F300\nG1 Y12\nG1 X3,5\n";
        Bench.job()
                .program("a.ngc", start(2) + half + END, "work", "outline")
                .raises(Kinds.PROGRAM_ERROR, STOP, GEOMETRY);
        Bench.job().program("a.ngc", start(2) + half + END, "work", "outline").isSilentOn(Kinds.NOT_THROUGH);
    }
}
