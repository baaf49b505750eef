package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Checks against the design: nets whole and apart, holes of the drill file, rings. */
class DesignChecksTest {
    private static final double BOTTOM_MM = 0.12 + 2 * (0.1 - 0.0174) * StrictMath.tan(Math.PI / 12);

    /** A layer image: net A has pads at (8, 7) and (11, 7), net B one at (17, 7); 1.6 mm round. */
    private static final String LAYER = layer("A", 8, 7, "A", 11, 7, "B", 17, 7);

    private static String layer(Object... netXy) {
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%TF.FileFunction,Copper,L1,Top*%\n%LPD*%\n"
                + "%TA.AperFunction,ComponentPad*%\n%ADD10C,1.6*%\nD10*\n");
        for (int i = 0; i < netXy.length; i += 3) {
            t.append("%TO.N,")
                    .append(netXy[i])
                    .append("*%\n%TO.P,U1,")
                    .append(i / 3 + 1)
                    .append("*%\n");
            t.append(String.format(
                    Locale.ROOT, "X%d000000Y%d000000D03*%n", (Integer) netXy[i + 1], (Integer) netXy[i + 2]));
        }
        return t.append("M02*\n").toString().replace("\r", "");
    }

    private static Bench with(String program) {
        return Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", LAYER)
                .runs(start(1) + program + END);
    }

    /** A groove round net A whose ends stay so far apart at the foil bottom; below 0 they overlap. */
    private static String almostClosed(double neckMm) {
        double y = 3 + BOTTOM_MM + neckMm;
        return text("G0 X6 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X6\nG1 Y%s\nG0 Z5\n", y);
    }

    // ---- short, open

    @Test
    @Fires({"C3 short", "E1 short", "E2 short", "J1 short"})
    void shouldStopWhereAGrooveDoesNotCloseBetweenTwoNets() {
        with(almostClosed(0.03))
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .saying("Nets A and B")
                .measuring(0.03, "mm", 0.003)
                .at(6, 3 + BOTTOM_MM / 2 + 0.015)
                .in("a.ngc")
                .with("engraver");
    }

    @Test
    @Silent({"C3 short", "E1 short", "E2 short", "J1 short"})
    void shouldNotMindAGrooveThatJustCloses() {
        with(almostClosed(-0.03)).isSilentOn(Kinds.SHORT).isSilentOn(Kinds.OPEN);
        with(rectangle(6, 3, 13, 11, -0.1)).isSilentOn(Kinds.SHORT).isSilentOn(Kinds.OPEN);
    }

    @Test
    void shouldSayThatAGrooveBetweenTwoNetsIsTooShallow() {
        // 17.4 um of foil, 16 um cut: 1.4 um are left
        with(rectangle(6, 3, 13, 11, -0.016))
                .examined()
                .folds(Kinds.FOIL_LEFT, Kinds.SHORT)
                .saying("runs between them")
                .saying("1.4 um of foil");
    }

    @Test
    void shouldSayThatAJoinOfTheJobAndNoCopperJoinsTwoNets() {
        Raised raised = with(rectangle(6, 3, 13, 11, -0.1))
                .also("[[join]]\n"
                        + "from = [\"8 mm\", \"7 mm\", \"top\"]\n"
                        + "to = [\"3 mm\", \"7 mm\", \"top\"]\n"
                        + "wire = \"0.6 mm\"")
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .saying("joined by hand, not by copper")
                .saying("(wire) at (8.00, 7.00) mm")
                .at(8, 7);
        assertThat(raised.finding().line()).isNull();
    }

    @Test
    void shouldNotAskBoresAloneToPartNets() {
        Verdicts v = with("").examined().isSilentOn(Kinds.SHORT).isSilentOn(Kinds.THIN_MARGIN);
        assertThat(v.notChecked()).anyMatch(n -> n.what().equals("whether nets are apart"));
    }

    @Test
    @Fires({"J2 open", "J8 open"})
    void shouldStopWhereACutPartsANet() {
        with(rectangle(6, 3, 13, 11, -0.1) + line(9.5, 3, 9.5, 11, -0.1))
                .raises(Kinds.OPEN, STOP, GEOMETRY)
                .saying("Net A")
                .in("a.ngc");
    }

    @Test
    @Silent({"J2 open", "J8 open"})
    void shouldNotMindACutThatEndsInTheNetNorOneThatAWireBridges() {
        with(rectangle(6, 3, 13, 11, -0.1) + line(9.5, 3, 9.5, 10.7, -0.1)).isSilentOn(Kinds.OPEN);
        with(rectangle(6, 3, 13, 11, -0.1) + line(9.5, 3, 9.5, 11, -0.1))
                .also("[[join]]\n"
                        + "from = [\"8 mm\", \"7 mm\", \"top\"]\n"
                        + "to = [\"11 mm\", \"7 mm\", \"top\"]\n"
                        + "wire = \"0.6 mm\"")
                .isSilentOn(Kinds.OPEN);
    }

    @Test
    void shouldSayThatNetsAreNotCheckedWithoutADesign() {
        assertThat(Bench.job()
                        .runs(Programs.isolation())
                        .examined()
                        .notChecked()
                        .toString())
                .contains("opens and shorts")
                .contains("no drill file");
    }

    // ---- suspected bridge without a design

    private static Bench withoutDesign(String program) {
        return Bench.job().cellUm(10).runs(start(1) + program + END);
    }

    /** Needs, row J4: a neck below 1.2 grooves with more than 2 mm2 on both sides. */
    @Test
    @Fires("J4 short")
    void shouldWatchANeckThatTwoGrooveEndsFaceAcross() {
        String gap = "G0 X6 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X6\nG1 Y7.25\nG0 Z1\n"
                + "G0 Y7\nG1 Z-0.1 F90\nG1 Y3 F300\nG0 Z5\n";
        withoutDesign(gap)
                .raises(Kinds.SHORT, WATCH, RULE_OF_THUMB)
                .at(6, 7.125)
                .measuring(0.25 - BOTTOM_MM, "mm", 0.003)
                .against(1.2 * BOTTOM_MM);
    }

    /** A groove within a loop that parts it in two but for a neck before the loop's far wall. */
    private static Bench divided(double neck) {
        double end = 11 - BOTTOM_MM - neck;
        return withoutDesign(rectangle(6, 3, 13, 11, -0.1) + line(9, 3, 9, end, -0.1));
    }

    @Test
    @Fires("J4 short")
    void shouldWatchAGrooveThatStopsShortOfAnotherOnesFlank() {
        divided(0.15)
                .raises(Kinds.SHORT, WATCH, RULE_OF_THUMB)
                .at(9, 11 - BOTTOM_MM / 2 - 0.075)
                .measuring(0.15, "mm", 0.003)
                .against(1.2 * BOTTOM_MM);
    }

    @Test
    @Silent("J4 short")
    void shouldNotMindAGrooveThatEndsFarFromAFlankOrMeetsIt() {
        divided(0.21).isSilentOn(Kinds.SHORT);
        divided(-0.02).isSilentOn(Kinds.SHORT);
        // a slit beside a wall that parts nothing
        withoutDesign(rectangle(6, 3, 13, 11, -0.1) + line(9, 5, 9, 11 - BOTTOM_MM - 0.15, -0.1))
                .isSilentOn(Kinds.SHORT);
    }

    @Test
    @Silent("J4 short")
    void shouldNotMindClosedGroovesTracesNorWideGaps() {
        withoutDesign(rectangle(6, 3, 13, 11, -0.1)).isSilentOn(Kinds.SHORT);
        // two grooves side by side leave a trace between them
        withoutDesign(line(4, 5, 14, 5, -0.1) + line(4, 5.35, 14, 5.35, -0.1)).isSilentOn(Kinds.SHORT);
        String wide = "G0 X6 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X6\nG1 Y7.5\nG0 Z1\n"
                + "G0 Y7\nG1 Z-0.1 F90\nG1 Y3 F300\nG0 Z5\n";
        withoutDesign(wide).isSilentOn(Kinds.SHORT);
    }

    // ---- netlist against layer image, joins made by hand

    private static Bench withNetlist(String netOfSecond) {
        String point = "327%-14s   U1    -%d          A01X%+07dY%+07dX1600Y0000R000 S0%n";
        String list = "P  UNITS CUST 1\n"
                + String.format(Locale.ROOT, point, "A", 1, 8000, 7000)
                + String.format(Locale.ROOT, point, netOfSecond, 2, 11000, 7000)
                + String.format(Locale.ROOT, point, "B", 3, 17000, 7000)
                + "999\n";
        String joined = LAYER.replace(
                "M02*", "%ADD11C,0.4*%\nD11*\n%TO.N,A*%\nX8000000Y7000000D02*\nX11000000Y7000000D01*\nM02*");
        return Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", joined)
                .design("netlist", "board.ipc", list.replace("\r", ""))
                .runs(start(1) + rectangle(6, 3, 13, 11, -0.1) + END);
    }

    @Test
    @Fires("J3 netlist-differs")
    void shouldWatchANetlistThatTheLayerImageContradicts() {
        withNetlist("B")
                .raises(Kinds.NETLIST_DIFFERS, WATCH, GEOMETRY)
                .saying("U1-2 is in net B of the netlist and in A of the layer image");
    }

    @Test
    @Silent("J3 netlist-differs")
    void shouldNotMindANetlistThatFitsTheLayerImage() {
        withNetlist("A").isSilentOn(Kinds.NETLIST_DIFFERS);
    }

    @Test
    @Fires("J8 hand-joins")
    void shouldNoteTheJoinsThatHandsMake() {
        with(rectangle(6, 3, 13, 11, -0.1) + line(9.5, 3, 9.5, 11, -0.1))
                .also("[[join]]\n"
                        + "from = [\"8 mm\", \"7 mm\", \"top\"]\n"
                        + "to = [\"11 mm\", \"7 mm\", \"top\"]\n"
                        + "wire = \"0.6 mm\"")
                .raises(Kinds.HAND_JOINS, NOTE, GEOMETRY)
                .saying("wire of A at (8.00, 7.00)");
    }

    @Test
    @Silent("J8 hand-joins")
    void shouldNotListJoinsWhereThereAreNone() {
        with(rectangle(6, 3, 13, 11, -0.1)).isSilentOn(Kinds.HAND_JOINS);
    }

    @Test
    @Silent({"J2 open", "D6 thin-margin"})
    void shouldNotMindBoredPadsWhereNoDrillFileSaysThatTheyAreBored() {
        // the hole's wall lies where the pad is asked for copper half-way to its edge
        String bores = bore(8, 7, 0.82, 0.8, -0.4, -0.8, -1.2, -1.65)
                + bore(11, 7, 0.82, 0.8, -0.4, -0.8, -1.2, -1.65)
                + bore(17, 7, 0.82, 0.8, -0.4, -0.8, -1.2, -1.65);
        for (String face : new String[] {"top", "bottom"}) {
            Bench.job()
                    .cellUm(10)
                    .side("face", face)
                    .design(face + "_copper", "a.gbr", LAYER)
                    .program("holes.ngc", start(2) + bores + END)
                    .isSilentOn(Kinds.OPEN)
                    .isSilentOn(Kinds.THIN_MARGIN);
        }
    }

    /** Two lands of one net on both faces over one hole; nothing in the files tells a part's pin from a via. */
    @Test
    void shouldSayThatNoFileTellsPinsFromVias() {
        String image = "%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,1.6*%\n%TO.N,A*%\nD10*\nX8000000Y7000000D03*\nM02*\n";
        Bench.job()
                .cellUm(10)
                .blank("copper", "both sides")
                .side("face", "top")
                .design("top_copper", "top.gbr", image)
                .design("bottom_copper", "bottom.gbr", image)
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C0.800\n%\nG05\nT1\nX8.0Y7.0\nM30\n")
                .runs(start(1) + rectangle(6, 3, 13, 11, -0.1) + END)
                .nextSide("bottom", "about Y")
                .program("b.ngc", start(1) + rectangle(7, 3, 14, 11, -0.1) + END)
                .raises(Kinds.HAND_JOINS, NOTE, GEOMETRY)
                .saying("pin or via of A at (8.00, 7.00)")
                .saying("No file tells");
    }

    // ---- hole-missing, hole-size

    private static Bench drilled(double x, double diameter) {
        return Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX8.0Y7.0\nM30\n")
                .runs(start(2) + bore(x, 7, diameter, 0.8, -0.4, -0.8, -1.2, -1.65) + END);
    }

    @Test
    @Fires("G3 hole-missing")
    void shouldStopAtAHoleThatIsNotWhereTheDrillFileHasIt() {
        Verdicts v = drilled(8.151, 1.0).examined();
        assertThat(v.findings().stream().filter(f -> f.kind().equals(Kinds.HOLE_MISSING)))
                .as("%s", v)
                .hasSize(2)
                .allMatch(f -> f.severity() == STOP && f.certainty() == GEOMETRY)
                .anyMatch(f -> f.message().contains("asks for a hole"))
                .anyMatch(f -> f.message().contains("does not ask for"));
        Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX8.0Y7.0\nX4.0Y7.0\nM30\n")
                .runs(start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .raises(Kinds.HOLE_MISSING, STOP, GEOMETRY)
                .at(4, 7);
    }

    /** A hole of 3 mm by a cutter of 0.8 mm: a ring, whose core of 1.4 mm comes loose. */
    private static Bench ringed(double x, double diameter) {
        return Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C3.000\n%\nG05\nT1\nX8.0Y7.0\nM30\n")
                .runs(start(2) + bore(x, 7, diameter, 0.8, -0.4, -0.8, -1.2, -1.65) + END);
    }

    /** Needs, row G3: no match within 0.15. A cut along a closed ring takes all of the hole from the blank. */
    @Test
    @Fires({"G3 hole-missing", "G2 hole-size"})
    void shouldTellARingThatIsNotTheHoleOfTheDrillFile() {
        ringed(8, 3.152).raises(Kinds.HOLE_SIZE, FIX, GEOMETRY).measuring(3.152, "mm", 0.001);
        ringed(8.151, 3.0)
                .design(
                        "drill",
                        "holes.drl",
                        "M48\nMETRIC\nT1C3.000\nT2C1.000\n%\nG05\nT1\nX8.0Y7.0\nT2\nX4.0Y7.0\nM30\n")
                .program("b.ngc", start(2) + bore(4, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .raises(Kinds.HOLE_MISSING, STOP, GEOMETRY)
                .at(8, 7)
                .saying("asks for a hole");
    }

    @Test
    @Silent({"G3 hole-missing", "G2 hole-size"})
    void shouldTakeABoreWiderThanTwiceItsCutterForAHole() {
        ringed(8.149, 3.0).isSilentOn(Kinds.HOLE_MISSING).isSilentOn(Kinds.HOLE_SIZE);
        ringed(8, 3.149).isSilentOn(Kinds.HOLE_SIZE);
        // the ring round a round board is no hole that the drill file lacks, nor work on holes
        Verdicts board = ringed(11, 7.0).isSilentOn(Kinds.HOLE_MISSING);
        assertThat(board.notChecked()).anyMatch(n -> n.why().contains("no program of this job makes holes"));
    }

    @Test
    @Silent("A16 cycle-suspect")
    void shouldTellAHoleOfACycleThatIsOnlyOutOfItsPlaceAsAHole() {
        Bench.job()
                .side("face", "top")
                .design("drill", "holes.drl", "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX4.0Y5.0\nX7.5Y5.0\nX12.0Y9.0\nM30\n")
                .runs(start(4, 15000) + "G81 X4 Y5 Z-1.95 R1 F200\nX7.5\nX12.2 Y9\nG80\n" + END)
                .isSilentOn(Kinds.CYCLE_SUSPECT);
    }

    @Test
    @Silent({"G2 hole-size", "G3 hole-missing"})
    void shouldNotMindAHoleNearItsPlaceAndSize() {
        drilled(8.149, 1.0).isSilentOn(Kinds.HOLE_MISSING).isSilentOn(Kinds.HOLE_SIZE);
        drilled(8, 1.149).isSilentOn(Kinds.HOLE_SIZE);
        drilled(8, 0.951).isSilentOn(Kinds.HOLE_SIZE);
    }

    @Test
    @Fires("G2 hole-size")
    void shouldTellAHoleThatIsTooLargeOrTooSmall() {
        drilled(8, 1.152)
                .raises(Kinds.HOLE_SIZE, FIX, GEOMETRY)
                .at(8, 7)
                .measuring(1.152, "mm", 0.001)
                .against(1.15)
                .with("cutter");
        drilled(8, 0.948)
                .raises(Kinds.HOLE_SIZE, FIX, GEOMETRY)
                .measuring(0.948, "mm", 0.001)
                .against(0.95);
    }

    // ---- ring-thin

    /** A round land whose copper ends so far from a bore of 1.0 mm. */
    private static Bench ring(double ringMm) {
        double r = 0.5 + ringMm + BOTTOM_MM / 2;
        String land = text("G0 X%s Y7\nG0 Z1\nG1 Z-0.1 F90\nG3 X%s Y7 I%s J0 F300\nG0 Z5\n", 8 + r, 8 + r, -r);
        return Bench.job()
                .cellUm(10)
                .program("a.ngc", start(1) + land + END)
                .program("b.ngc", start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END);
    }

    @Test
    @Fires({"E9 ring-thin", "G8 ring-thin"})
    void shouldTellARingThatIsTooThin() {
        ring(0.297)
                .raises(Kinds.RING_THIN, WATCH, GEOMETRY)
                .at(8, 7)
                .measuring(0.297, "mm", 0.002)
                .against(0.30)
                .in("b.ngc");
        ring(0.153).raises(Kinds.RING_THIN, WATCH, GEOMETRY).against(0.30);
        ring(0.147)
                .raises(Kinds.RING_THIN, FIX, GEOMETRY)
                .measuring(0.147, "mm", 0.002)
                .against(0.15);
    }

    @Test
    @Silent({"E9 ring-thin", "G8 ring-thin"})
    void shouldNotMindARingOfThreeTenths() {
        ring(0.303).isSilentOn(Kinds.RING_THIN);
        // a hole in a cleared area has no ring to lose
        Bench.job()
                .runs(start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .isSilentOn(Kinds.RING_THIN);
    }

    @Test
    @Fires("G8 ring-thin")
    void shouldStopWhereAHoleBreaksOutOfItsLand() {
        with(rectangle(6, 3, 13, 11, -0.1))
                .program("b.ngc", start(2) + bore(6.5, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .design("top_copper", "top.gbr", layer("A", 7, 7, "A", 11, 7, "B", 17, 7))
                .raises(Kinds.RING_THIN, STOP, GEOMETRY)
                .saying("breaks out");
    }

    // ---- severed-copper

    /** A groove beside the pad at (8, 7) that takes so much of it at the foil bottom. */
    private static Bench grazing(double takenMm) {
        double y = 7 + 0.8 + BOTTOM_MM / 2 - takenMm;
        return with(line(5, y, 9.4, y, -0.1));
    }

    @Test
    @Fires({"D7 severed-copper", "E7 severed-copper"})
    void shouldWatchWantedCopperThatIsCutAway() {
        grazing(0.10)
                .raises(Kinds.SEVERED_COPPER, WATCH, GEOMETRY)
                .at(8, 7.8)
                .in("a.ngc")
                .with("engraver");
        // an entry mark within a pad
        with(Programs.plunge(8.2, 7.1, -0.1))
                .raises(Kinds.SEVERED_COPPER, FIX, GEOMETRY)
                .saying("enters in copper")
                .against(0.05)
                .at(8.2, 7.1);
    }

    @Test
    @Silent({"D7 severed-copper", "E7 severed-copper"})
    void shouldNotMindWantedCopperLostOverLessThanFiveHundredths() {
        grazing(0.045).isSilentOn(Kinds.SEVERED_COPPER);
        // holes in lands are wanted
        with("").program("b.ngc", start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .isSilentOn(Kinds.SEVERED_COPPER);
    }

    private static Bench towardsTheFarFoil(double z) {
        return Bench.job()
                .blank("copper", "both sides")
                .program("a.ngc", start(2) + line(5, 5, 9, 5, z) + END, "work", "isolation");
    }

    @Test
    @Fires("E7 severed-copper")
    void shouldAskToMendCopperWorkThatReachesTheFarFoil() {
        towardsTheFarFoil(-1.4830)
                .raises(Kinds.SEVERED_COPPER, FIX, GEOMETRY)
                .saying("far side")
                .measuring(-0.0004, "mm", 1e-6)
                .against(0);
    }

    @Test
    @Silent("E7 severed-copper")
    void shouldNotMindCopperWorkAboveTheFarFoil() {
        towardsTheFarFoil(-1.4820).isSilentOn(Kinds.SEVERED_COPPER);
    }

    // ---- mirrored, sides-shifted

    /** Lands of 1.6 mm at places that no mirror image shares. */
    private static final double[][] LANDS = {{3, 3}, {7, 3}, {12, 4}, {5, 8}, {16, 11}, {9, 11}};

    private static final String LANDS_LAYER =
            layer("A", 3, 3, "B", 7, 3, "C", 12, 4, "D", 5, 8, "E", 16, 11, "F", 9, 11);

    /** Where a land's middle is milled. */
    private interface Move {
        double[] of(double x, double y);
    }

    private static String lands(Move move) {
        return lands(LANDS, move);
    }

    private static String lands(double[][] places, Move move) {
        double r = 0.8 + BOTTOM_MM / 2;
        StringBuilder t = new StringBuilder(start(1));
        for (double[] land : places) {
            double[] p = move.of(land[0], land[1]);
            t.append(text(
                    "G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\nG3 X%s Y%s I%s J0 F300\nG0 Z5\n",
                    p[0] + r, p[1], p[0] + r, p[1], -r));
        }
        return t + END;
    }

    private static Bench landed(Move move) {
        return Bench.job()
                .side("face", "top")
                .design("top_copper", "top.gbr", LANDS_LAYER)
                .runs(lands(move));
    }

    @Test
    @Fires("B9 mirrored")
    void shouldStopWhereTheCopperIsMilledMirrored() {
        landed((x, y) -> new double[] {20 - x, y}).raises(Kinds.MIRRORED, STOP, GEOMETRY);
        landed((x, y) -> new double[] {x, 15 - y}).raises(Kinds.MIRRORED, STOP, GEOMETRY);
    }

    private static Bench bothSides(Move second) {
        return Bench.job()
                .blank("copper", "both sides")
                .side("face", "top")
                .design("top_copper", "top.gbr", LANDS_LAYER)
                .design("bottom_copper", "bottom.gbr", LANDS_LAYER)
                .program("a.ngc", lands((x, y) -> new double[] {x, y}))
                .nextSide("bottom", "about Y")
                .program("b.ngc", lands(second));
    }

    @Test
    @Fires("B11 mirrored")
    void shouldStopWhereTheSecondSideIsMadeForAnotherTurn() {
        bothSides((x, y) -> new double[] {x, 15 - y}).raises(Kinds.MIRRORED, STOP, GEOMETRY);
    }

    @Test
    @Silent({"B9 mirrored", "B11 mirrored"})
    void shouldNotMindCopperThatLiesAsDeclared() {
        landed((x, y) -> new double[] {x, y}).isSilentOn(Kinds.MIRRORED).isSilentOn(Kinds.SIDES_SHIFTED);
        bothSides((x, y) -> new double[] {20 - x, y}).isSilentOn(Kinds.MIRRORED);
    }

    @Test
    @Fires({"B8 sides-shifted", "B11 sides-shifted"})
    void shouldTellASecondSideThatLiesOffTheFirst() {
        bothSides((x, y) -> new double[] {20 - x + 0.18, y})
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .measuring(0.18, "mm", 0.02)
                .against(0.15);
        bothSides((x, y) -> new double[] {20 - x, y + 0.11})
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .measuring(0.11, "mm", 0.02)
                .against(0.10);
        bothSides((x, y) -> new double[] {20 - x, y + 0.08})
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .in("b.ngc")
                .measuring(0.08, "mm", 0.01)
                .against(0.05);
    }

    @Test
    @Silent({"B8 sides-shifted", "B11 sides-shifted"})
    void shouldNotMindAShiftBelowFiveHundredths() {
        bothSides((x, y) -> new double[] {20 - x + 0.03, y - 0.03}).isSilentOn(Kinds.SIDES_SHIFTED);
    }

    /** Some lands in a plane that ends so far inside the blank's left, lower, right and upper edge, where nothing is milled. */
    private static Bench inAPlane(int count, double offMm, double... insideMm) {
        String plane = "%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,1.6*%\n%ADD11C,1.93*%\n%TO.N,GND*%\nG01*\nG36*\n"
                + corner(insideMm[0], insideMm[1], 2)
                + corner(20 - insideMm[2], insideMm[1], 1)
                + corner(20 - insideMm[2], 15 - insideMm[3], 1)
                + corner(insideMm[0], 15 - insideMm[3], 1)
                + corner(insideMm[0], insideMm[1], 1) + "G37*\n";
        StringBuilder clear = new StringBuilder("%TD*%\n%LPC*%\nD11*\n");
        StringBuilder dark = new StringBuilder("%LPD*%\nD10*\n");
        double[][] some = Arrays.copyOf(LANDS, count);
        for (double[] land : some) {
            clear.append(corner(land[0], land[1], 3));
            dark.append(corner(land[0], land[1], 3));
        }
        return Bench.job()
                .side("face", "top")
                .design("top_copper", "top.gbr", plane + clear + dark + "M02*\n")
                .runs(lands(some, (x, y) -> new double[] {x + offMm, y}));
    }

    private static String corner(double x, double y, int code) {
        return "X" + Math.round(x * 1e6) + "Y" + Math.round(y * 1e6) + "D0" + code + "*\n";
    }

    private static final double[] INSIDE_MM = {0, 0.1, 0.3, 0.35, 0.5, 1};

    /** The blank's edge is where copper ends, but no edge that a cutter made: it says nothing of a shift. */
    @Test
    @Silent("B8 sides-shifted")
    void shouldNotTakeTheBlanksEdgeForTheEdgeOfAPlane() {
        for (double in : INSIDE_MM) {
            for (int count : new int[] {1, 2, LANDS.length}) {
                inAPlane(count, 0, in, in, in, in)
                        .isSilentOn(Kinds.SIDES_SHIFTED)
                        .isSilentOn(Kinds.MIRRORED);
                inAPlane(count, 0, in, 1.5, 1.5, 1.5)
                        .isSilentOn(Kinds.SIDES_SHIFTED)
                        .isSilentOn(Kinds.MIRRORED);
                inAPlane(count, 0, in, in, 2, 2).isSilentOn(Kinds.SIDES_SHIFTED).isSilentOn(Kinds.MIRRORED);
            }
        }
    }

    @Test
    @Fires("B8 sides-shifted")
    void shouldTellLandsThatLieOffInAPlaneThatEndsAtTheBlanksEdge() {
        for (double in : INSIDE_MM) {
            inAPlane(LANDS.length, 0.2, in, in, in, in)
                    .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                    .measuring(0.2, "mm", 0.03);
            inAPlane(LANDS.length, 0.2, in, 1.5, 1.5, in)
                    .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                    .measuring(0.2, "mm", 0.03);
        }
    }

    /** Two planes so far inside the blank, parted and with their lands; round them nothing is milled, or a way along them. */
    private static Bench twoPlanes(double offMm, double inside, boolean round) {
        StringBuilder layer = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,1.6*%\n%ADD11C,1.93*%\nG01*\n");
        double half = BOTTOM_MM / 2;
        double[][] planes = {{inside, 10 - half, 0}, {10 + half, 20 - inside, 1}};
        for (double[] p : planes) {
            layer.append("%TO.N,P" + (int) p[2] + "*%\nG36*\n")
                    .append(corner(p[0], inside, 2))
                    .append(corner(p[1], inside, 1))
                    .append(corner(p[1], 15 - inside, 1))
                    .append(corner(p[0], 15 - inside, 1))
                    .append(corner(p[0], inside, 1))
                    .append("G37*\n");
        }
        StringBuilder clear = new StringBuilder("%TD*%\n%LPC*%\nD11*\n");
        StringBuilder dark = new StringBuilder("%LPD*%\nD10*\n");
        double[][] some = {{3, 3}, {7, 6}, {12.5, 4}};
        for (double[] land : some) {
            clear.append(corner(land[0], land[1], 3));
            dark.append(corner(land[0], land[1], 3));
        }
        String cuts = lands(some, (x, y) -> new double[] {x + offMm, y}).replace(END, "")
                + line(10 + offMm, 0, 10 + offMm, 15, -0.1)
                + (round
                        ? rectangle(
                                inside - half + offMm,
                                inside - half,
                                20 - inside + half + offMm,
                                15 - inside + half,
                                -0.1)
                        : "");
        return Bench.job()
                .side("face", "top")
                .design("top_copper", "top.gbr", layer.toString() + clear + dark + "M02*\n")
                .program("a.ngc", cuts + END, "work", "isolation");
    }

    @Test
    @Silent("B8 sides-shifted")
    void shouldNotTakeTheBlanksEdgeForTheEdgeOfTwoPlanes() {
        for (double in : INSIDE_MM) {
            twoPlanes(0, in, false).isSilentOn(Kinds.SIDES_SHIFTED).isSilentOn(Kinds.MIRRORED);
            if (in > 0.2) {
                twoPlanes(0, in, true).isSilentOn(Kinds.SIDES_SHIFTED).isSilentOn(Kinds.MIRRORED);
            }
        }
    }

    @Test
    @Fires("B8 sides-shifted")
    void shouldTellTwoPlanesThatLieOff() {
        for (double in : INSIDE_MM) {
            twoPlanes(0.2, in, in > 0.2)
                    .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                    .measuring(0.2, "mm", 0.03);
        }
    }

    private static Bench boredOff(double offMm) {
        StringBuilder holes = new StringBuilder("M48\nMETRIC\nT1C1.000\n%\nG05\nT1\n");
        StringBuilder bores = new StringBuilder(start(2));
        for (double[] land : LANDS) {
            holes.append(text("X%sY%s\n", land[0], land[1]));
            bores.append(bore(land[0] + offMm, land[1], 1.0, 0.8, -0.4, -0.8, -1.2, -1.65));
        }
        return landed((x, y) -> new double[] {x, y})
                .design("drill", "holes.drl", holes + "M30\n")
                .program("b.ngc", bores + END);
    }

    @Test
    @Fires("B8 sides-shifted")
    void shouldTellBoresThatLieOffTheCopper() {
        boredOff(0.18)
                .raises(Kinds.SIDES_SHIFTED, FIX, GEOMETRY)
                .saying("bores")
                .measuring(0.18, "mm", 0.02);
        boredOff(0.11)
                .raises(Kinds.SIDES_SHIFTED, WATCH, GEOMETRY)
                .saying("bores")
                .measuring(0.11, "mm", 0.02);
    }

    @Test
    @Silent("B8 sides-shifted")
    void shouldNotMindBoresThatLieOnTheCopper() {
        boredOff(0.04).isSilentOn(Kinds.SIDES_SHIFTED);
    }

    /** Needs, row B8: a shift of all bores. One that was moved is G3's alone. */
    @Test
    @Silent("B8 sides-shifted")
    @Fires("G3 hole-missing")
    void shouldTakeOneMovedHoleForAMovedHoleAndNotForAShiftOrAScale() {
        StringBuilder holes = new StringBuilder("M48\nMETRIC\nT1C1.000\n%\nG05\nT1\n");
        StringBuilder bores = new StringBuilder(start(2));
        for (double[] land : LANDS) {
            holes.append(text("X%sY%s\n", land[0], land[1]));
            double off = land[0] == 16 ? 0.3 : 0;
            bores.append(bore(land[0] + off, land[1], 1.0, 0.8, -0.4, -0.8, -1.2, -1.65));
        }
        Verdicts v = landed((x, y) -> new double[] {x, y})
                .design("drill", "holes.drl", holes + "M30\n")
                .program("b.ngc", bores + END)
                .isSilentOn(Kinds.SIDES_SHIFTED);
        assertThat(v.findings().stream().filter(f -> f.kind().equals(Kinds.HOLE_MISSING)))
                .hasSize(2)
                .allMatch(f -> f.severity() == STOP);
    }

    private static Bench withLayer(String header) {
        String layer = "%FSLAX46Y46*%\n%MOMM*%\n" + header + "%ADD10C,1*%\nD10*\nX0Y0D03*\nM02*\n";
        return Bench.job().runs(Programs.isolation()).design("bottom_copper", "layer.gbr", layer);
    }

    /** Gerber Layer Format specification 2021.02, sections 5.6.3 and 5.6.4: FileFunction, FilePolarity. */
    @Test
    void shouldRefuseALayerImageThatSaysItIsNoCopperOrNegative() {
        assertThatThrownBy(
                        () -> withLayer("%TF.FileFunction,Soldermask,Bot*%\n").examined())
                .hasMessageContaining("layer.gbr")
                .hasMessageContaining("Soldermask,Bot");
        assertThatThrownBy(() -> withLayer("%TF.FilePolarity,Negative*%\n").examined())
                .hasMessageContaining("negative");
        assertThat(withLayer("%TF.FileFunction,Copper,L1,Top*%\n").examined().notChecked())
                .anyMatch(n -> n.what().contains("layer.gbr") && n.why().contains("shows the top copper"));
        assertThat(withLayer("%TF.FileFunction,Copper,L2,Bot*%\n%TF.FilePolarity,Positive*%\n")
                        .examined()
                        .notChecked())
                .noneMatch(n -> n.what().contains("layer.gbr"));
    }

    /** Row F14 (Gerber Layer Format 6.8.1.1): pads named N/C are each apart from every other. */
    @Test
    void shouldHoldPadsOfNoNetApartFromEachOther() {
        Bench apart = Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", layer("N/C", 8, 7, "N/C", 3, 7))
                .runs(start(1) + rectangle(6, 3, 13, 11, -0.1) + END);
        apart.isSilentOn(Kinds.OPEN).isSilentOn(Kinds.SHORT);
        Bench joined = Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", layer("N/C", 8, 7, "N/C", 11, 7))
                .runs(start(1) + rectangle(6, 3, 13, 11, -0.1) + END);
        joined.examined().raises(Kinds.SHORT, STOP, GEOMETRY);
    }
}
