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
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.WATCH;

import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Floors of grooves, cleared areas, blending, lands as milled, and the other foil weight. */
class FloorAndLandChecksTest {
    private static final double TAN = StrictMath.tan(Math.PI / 12);

    private static Bench fine() {
        return Bench.job().cellUm(10);
    }

    // ---- A18

    private static Bench blending(String mode) {
        return Bench.job().runs(isolation().replace("G61", mode));
    }

    @Test
    @Fires("A18 path-blending")
    void shouldWatchABlendingToleranceAboveTwoHundredths() {
        blending("G64 P0.021")
                .raises(Kinds.PATH_BLENDING, WATCH, SET_UP)
                .measuring(0.021, "mm", 1e-6)
                .against(0.02);
        fine().tool("engraver", "tip_width", "0.03 mm")
                .runs(isolation().replace("G61", "G64 P0.016"))
                .raises(Kinds.PATH_BLENDING, WATCH, SET_UP);
        blending("").raises(Kinds.PATH_BLENDING, NOTE, SET_UP);
    }

    @Test
    @Silent("A18 path-blending")
    void shouldNotMindTightBlendingNorExactPath() {
        blending("G64 P0.02").isSilentOn(Kinds.PATH_BLENDING);
        blending("G61").isSilentOn(Kinds.PATH_BLENDING);
    }

    // ---- D5, D8

    private static Bench stepped(double second) {
        return Bench.job()
                .runs(start(1)
                        + text(
                                "G0 X3 Y3\nG0 Z1\nG1 Z-0.08 F90\nG1 X13 F300\nG1 Y11\nG1 Z%s\nG1 X3\nG1 Y3\nG0 Z5\n",
                                second)
                        + END);
    }

    @Test
    @Fires("D5 too-deep")
    void shouldWatchAStepInTheFloorOfOneGroove() {
        stepped(-0.115)
                .raises(Kinds.TOO_DEEP, WATCH, GEOMETRY)
                .measuring(0.035, "mm", 1e-6)
                .against(0.03)
                .in("a.ngc");
    }

    @Test
    @Silent("D5 too-deep")
    void shouldNotMindSmallStepsNorDepthPassesNorRampsNorAHeightMap() {
        stepped(-0.108).isSilentOn(Kinds.TOO_DEEP);
        // two depth passes in one stroke, the second a full one
        Bench.job()
                .runs(start(1)
                        + "G0 X3 Y3\nG0 Z1\nG1 Z-0.05 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\nG1 Z-0.1 F90\nG1 X13"
                        + " F300\nG1 Y11\nG1 X3\nG1 Y3\nG0 Z5\n" + END)
                .isSilentOn(Kinds.TOO_DEEP);
        // a slope over a whole side
        Bench.job()
                .runs(start(1)
                        + "G0 X3 Y3\nG0 Z1\nG1 Z-0.06 F90\nG1 X6 F300\nG1 X13 Z-0.12\nG1 Y11\nG1 X3\nG1 Y3 Z-0.06\nG1 X5\n"
                        + "G0 Z5\n" + END)
                .isSilentOn(Kinds.TOO_DEEP);
        StringBuilder map = new StringBuilder("G0 X3 Y3\nG0 Z1\nG1 Z-0.08 F90\n");
        for (int k = 1; k <= 9; k++) {
            map.append(text("G1 X%s Z%s F300\n", 3 + k, -0.08 - (k % 3) * 0.035 - k * 0.001));
            map.append(text("G1 X%s\n", 3.9 + k));
        }
        Bench.job().runs(start(1) + map + "G0 Z5\n" + END).isSilentOn(Kinds.TOO_DEEP);
    }

    private static String loop(double z, String end) {
        return text("G0 X3 Y3\nG0 Z1\nG1 Z%s F90\nG1 X13 F300\nG1 Y11\n", z) + end + "G0 Z5\n";
    }

    @Test
    @Fires("D8 floor-left")
    void shouldAskToMendADeeperPassThatStopsHalfWay() {
        Bench.job()
                .runs(start(1) + loop(-0.05, "G1 X3\nG1 Y3\n") + loop(-0.08, "") + END)
                .raises(Kinds.FLOOR_LEFT, FIX, GEOMETRY)
                .measuring(0.03, "mm", 1e-6)
                .against(0.02);
    }

    @Test
    @Silent("D8 floor-left")
    void shouldNotMindWholePassesNorGroovesThatCross() {
        Bench.job()
                .runs(start(1) + loop(-0.05, "G1 X3\nG1 Y3\n") + loop(-0.08, "G1 X3\nG1 Y3\n") + END)
                .isSilentOn(Kinds.FLOOR_LEFT);
        Bench.job()
                .runs(start(1) + loop(-0.07, "G1 X3\nG1 Y3\n") + line(8, 2, 8, 12, -0.11) + END)
                .isSilentOn(Kinds.FLOOR_LEFT);
        Bench.job()
                .runs(start(1) + loop(-0.07, "G1 X3\nG1 Y3\n") + loop(-0.085, "") + END)
                .isSilentOn(Kinds.FLOOR_LEFT);
    }

    // ---- E5

    private static Bench raster(int missing, String work) {
        StringBuilder t = new StringBuilder(start(3));
        for (int k = 0; k < 9; k++) {
            if (k != missing) {
                t.append(line(3, 3 + 0.6 * k, 12, 3 + 0.6 * k, -0.1));
            }
        }
        return fine().program("a.ngc", t + END, "work", work);
    }

    @Test
    @Fires("E5 stray-copper")
    void shouldWatchCopperThatAMissingRowLeavesInAClearedArea() {
        raster(4, "clearing")
                .raises(Kinds.STRAY_COPPER, WATCH, GEOMETRY)
                .at(7.5, 5.4)
                .against(0.02)
                .saying("0.400 mm");
    }

    @Test
    @Silent("E5 stray-copper")
    void shouldNotMindAWholeClearingNorRowsOfIsolation() {
        raster(-1, "clearing").isSilentOn(Kinds.STRAY_COPPER);
        raster(4, "isolation").examined().raisesNothingAbove(NOTE, Kinds.STRAY_COPPER);
    }

    // ---- lands

    /** A layer image with one round land of this size at (8, 7), bottom face as it lies. */
    private static String layer(double... diameters) {
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%TF.FileFunction,Copper,L1,Top*%\n%LPD*%\n"
                + "%TA.AperFunction,ComponentPad*%\n");
        for (int k = 0; k < diameters.length; k++) {
            t.append(String.format(Locale.ROOT, "%%ADD%dC,%.4f*%%%n", 10 + k, diameters[k]));
        }
        for (int k = 0; k < diameters.length; k++) {
            t.append(String.format(
                    Locale.ROOT,
                    "%%TO.N,N%d*%%%n%%TO.P,U1,%d*%%%nD%d*%nX%d000000Y7000000D03*%n",
                    k,
                    k + 1,
                    10 + k,
                    8 + 3 * k));
        }
        return t.append("M02*\n").toString().replace("\r", "");
    }

    /** A closed round groove whose path has this radius. */
    private static String ring(double cx, double r, double z) {
        return text("G0 X%s Y7\nG0 Z1\nG1 Z%s F90\nG3 X%s Y7 I%s J0 F300\nG0 Z5\n", cx + r, z, cx + r, -r);
    }

    private static Bench land(double diameter, double pathRadius, double z, String more) {
        return fine().side("face", "top")
                .design("top_copper", "top.gbr", layer(diameter))
                .runs(start(1) + ring(8, pathRadius, z) + more + END);
    }

    /**
     * Top width of the land is 2 r - w(d + 0.03), w = 0.12 + 2 d tan 15 deg, 0.03 the spread: at d = 0.1 w = 0.1897.
     */
    @Test
    @Fires("D3 too-deep")
    void shouldWatchALandThatLosesMoreThanAFifthOfItsWidth() {
        double w = 0.12 + 2 * 0.13 * TAN;
        land(1, 0.5 * (0.79 + w), -0.1, "")
                .raises(Kinds.TOO_DEEP, WATCH, SET_UP)
                .measuring(0.79, "mm", 0.004);
        land(0.3, 0.5 * (0.14 + w), -0.1, "")
                .raises(Kinds.TOO_DEEP, FIX, SET_UP)
                .against(0.15);
    }

    @Test
    @Silent("D3 too-deep")
    void shouldNotMindALandThatKeepsFourFifths() {
        double w = 0.12 + 2 * 0.13 * TAN;
        land(1, 0.5 * (0.81 + w), -0.1, "").isSilentOn(Kinds.TOO_DEEP);
    }

    @Test
    @Fires("E9 land-small")
    void shouldWatchALandOfLessThanThreeQuartersOfItsArea() {
        double w = 0.12 + 2 * (0.1 - 0.0174) * TAN;
        // 0.84 of the diameter is 0.706 of the area
        land(1, 0.5 * (0.84 + w), -0.1, "")
                .raises(Kinds.LAND_SMALL, WATCH, GEOMETRY)
                .measuring(70.6, "%", 1.5);
    }

    @Test
    @Silent("E9 land-small")
    void shouldNotMindALandOfMoreThanThreeQuarters() {
        double w = 0.12 + 2 * (0.1 - 0.0174) * TAN;
        land(1, 0.5 * (0.89 + w), -0.1, "").isSilentOn(Kinds.LAND_SMALL);
    }

    /** The engraver's groove is 0.12 + 2 (d - 0.0174) tan 15 deg wide at the foil bottom. */
    private static Bench landGap(double gap) {
        double d = 0.0174 + (gap - 0.12) / (2 * TAN);
        return land(1.6, 0.8 + 0.5 * gap, -d, "");
    }

    /** Two lands of two nets whose only groove between them is as wide as the gap. */
    private static Bench twoLands(double gap) {
        double d = 0.0174 + (gap - 0.12) / (2 * TAN);
        return fine().side("face", "top")
                .design("top_copper", "top.gbr", layer(3 - gap, 3 - gap))
                .runs(start(1) + ring(8, 1.5, -d) + ring(11, 1.5, -d) + END);
    }

    @Test
    @Fires("E4 narrow-gap")
    void shouldWatchAGapBesideALandBelowTwoTenths() {
        twoLands(0.197)
                .raises(Kinds.NARROW_GAP, WATCH, RULE_OF_THUMB)
                .at(9.5, 7)
                .measuring(0.197, "mm", 0.002)
                .against(0.20);
    }

    /** One pass round a land: the copper beyond belongs to no net, and a sound board is full of such gaps. */
    @Test
    @Silent("E4 narrow-gap")
    void shouldOnlyNoteAGapBetweenALandAndCopperOfNoNet() {
        landGap(0.197).raises(Kinds.NARROW_GAP, NOTE, RULE_OF_THUMB).saying("no net");
    }

    @Test
    @Silent("E4 narrow-gap")
    void shouldNotMindTwoTenthsBesideALandNorNarrowerGapsElsewhere() {
        landGap(0.203).isSilentOn(Kinds.NARROW_GAP);
        twoLands(0.203).isSilentOn(Kinds.NARROW_GAP);
        fine().runs(isolation()).isSilentOn(Kinds.NARROW_GAP);
    }

    @Test
    @Fires({"E10 land-heat", "F9 land-heat"})
    void shouldNoteLandsThatAPlaneCoolsAndLandsThatAreSmall() {
        fine().side("face", "top")
                .design("top_copper", "top.gbr", layer(1.6))
                .runs(start(1) + rectangle(1, 1, 18, 14, -0.1) + END)
                .raises(Kinds.LAND_HEAT, NOTE, RULE_OF_THUMB)
                .saying("large copper");
        fine().side("face", "top")
                .design("top_copper", "top.gbr", layer(1.4))
                .program("a.ngc", start(1) + ring(8, 0.7 + 0.083, -0.1) + END)
                .program("b.ngc", start(2) + bore(8, 7, 0.9, 0.8, -0.8, -1.6) + END)
                .raises(Kinds.LAND_HEAT, NOTE, RULE_OF_THUMB)
                .saying("round the bore");
    }

    @Test
    @Silent({"E10 land-heat", "F9 land-heat"})
    void shouldNotMindIsolatedLands() {
        land(1.6, 0.9, -0.1, "").isSilentOn(Kinds.LAND_HEAT);
    }

    @Test
    @Fires("E12 lettering")
    void shouldNoteLettersThatAreSmallerThanTwoGrooves() {
        fine().program("a.ngc", start(1) + line(5, 5, 5.3, 5, -0.1) + END, "work", "text")
                .raises(Kinds.LETTERING, NOTE, GEOMETRY);
    }

    @Test
    @Silent("E12 lettering")
    void shouldNotMindLettersThatCanBeRead() {
        fine().program("a.ngc", start(1) + line(5, 5, 6.3, 5, -0.1) + END, "work", "text")
                .isSilentOn(Kinds.LETTERING);
    }

    // ---- B16

    @Test
    @Fires("B16 foil-weight")
    void shouldTellWhatTheOtherFoilWouldRaise() {
        String shallow = start(1) + rectangle(3, 3, 13, 11, -0.035) + END;
        Bench.job()
                .blank("foil_known", "false")
                .runs(shallow)
                .raises(Kinds.FOIL_WEIGHT, WATCH, SET_UP)
                .saying("34.8 um");
        Bench.job().runs(shallow).raises(Kinds.FOIL_WEIGHT, NOTE, SET_UP).saying("foil left in a groove");
    }

    @Test
    @Silent("B16 foil-weight")
    void shouldSayNothingWhereBothFoilsComeOffAlike() {
        fine().spread("z", "[\"-0.010 mm\", \"0.010 mm\"]")
                .runs(start(2) + rectangle(3, 3, 13, 11, -0.1) + END)
                .isSilentOn(Kinds.FOIL_WEIGHT);
        fine().spread("z", "[\"-0.010 mm\", \"0.010 mm\"]")
                .blank("foil_known", "false")
                .runs(start(2) + rectangle(3, 3, 13, 11, -0.1) + END)
                .isSilentOn(Kinds.FOIL_WEIGHT);
    }

    // ---- C9

    /** Check-values Q26: runout widens the cut by its whole indicator reading (closed form). */
    @Test
    void shouldWidenEveryGapByTheRunout() {
        for (double runout : new double[] {0, 0.004, 0.008}) {
            double tip = 0.13 - 2 * (0.1 - 0.0174) * TAN;
            fine().tool("engraver", "tip_width", text("%s mm", tip), "runout", text("%s mm", runout))
                    .runs(isolation())
                    .raises(Kinds.NARROW_GAP, WATCH, GEOMETRY)
                    .measuring(0.13 + runout, "mm", 0.002);
        }
    }
}
