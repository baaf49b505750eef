package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.WATCH;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Checks of current, voltage and mains on nets that the job names. */
class ElectricalChecksTest {
    private static final double TAN_15 = StrictMath.tan(Math.PI / 12);

    private static final double BOTTOM_MM = 0.12 + 2 * (0.1 - 0.0174) * TAN_15;

    /** Net A: a straight trace with pads at (4, 7) and (12, 7); net B all round it. */
    private static final String LAYER = "%FSLAX46Y46*%\n%MOMM*%\n%TF.FileFunction,Copper,L1,Top*%\n%LPD*%\n"
            + "%TA.AperFunction,ComponentPad*%\n%ADD10C,0.4*%\nD10*\n%TO.N,A*%\n%TO.P,U1,1*%\nX4000000Y7000000D03*\n"
            + "%TO.P,U1,2*%\nX12000000Y7000000D03*\n%TO.N,B*%\n%TO.P,U1,3*%\nX17000000Y7000000D03*\nM02*\n";

    /** A trace 0.5 mm wide at the foil bottom within a groove as wide there as said. */
    private static Bench trace(double gapMm) {
        double half = (0.5 + gapMm) / 2;
        return Bench.job()
                .cellUm(10)
                .tool("engraver", "tip_width", text("%s mm", gapMm - (BOTTOM_MM - 0.12)))
                .side("face", "top")
                .design("top_copper", "top.gbr", LAYER)
                .runs(start(1) + rectangle(3, 7 - half, 13, 7 + half, -0.1) + END);
    }

    private static String net(String name, String keys) {
        return "[[net]]\nname = \"" + name + "\"\n" + keys;
    }

    /** IPC-2221 chart formula, external: I = 0.048 dT^0.44 A^0.725, A in square thou; the trapezium as milled. */
    private static String currentFor(double riseK) {
        double areaMm2 = 0.0174 * (0.5 - 0.0174 * TAN_15);
        double area = areaMm2 / (0.0254 * 0.0254);
        double amps = 0.048 * StrictMath.pow(riseK, 0.44) * StrictMath.pow(area, 0.725);
        return text("current = \"%s A\"\n", amps);
    }

    @Test
    @Fires("J6 hot-trace")
    void shouldWatchATraceAboveTwentyKelvinAndMendOneAboveForty() {
        trace(BOTTOM_MM)
                .also(net("A", currentFor(20.6)))
                .raises(Kinds.HOT_TRACE, WATCH, RULE_OF_THUMB)
                .measuring(20.6, "K", 0.5)
                .against(20)
                .saying("Net A");
        trace(BOTTOM_MM)
                .also(net("A", currentFor(41)))
                .raises(Kinds.HOT_TRACE, FIX, RULE_OF_THUMB)
                .measuring(41, "K", 0.9)
                .against(40);
    }

    @Test
    @Silent("J6 hot-trace")
    void shouldNotMindATraceBelowTwentyKelvinAndNoteUnknownCurrentsOnce() {
        trace(BOTTOM_MM).also(net("A", currentFor(19.4))).isSilentOn(Kinds.HOT_TRACE);
        Verdicts unknown = trace(BOTTOM_MM).examined().raisesNothingAbove(NOTE, Kinds.HOT_TRACE);
        unknown.raises(Kinds.HOT_TRACE, NOTE, GEOMETRY).saying("currents unknown");
    }

    /** 8 mm of 0.495 mm in half-ounce foil: 16.2 squares of 0.99 mohm, 16 mohm, at 1 A 16 mV; 3 % of 0.53 V. */
    @Test
    @Fires("J5 narrow-net")
    void shouldWatchANetThatLosesMoreThanThreePercentOfItsRail() {
        trace(BOTTOM_MM)
                .also(net("A", "current = \"1 A\"\nvoltage = \"0.46 V\"\n"))
                .raises(Kinds.NARROW_NET, WATCH, GEOMETRY)
                .measuring(0.016, "V", 0.002)
                .against(0.03 * 0.46);
    }

    @Test
    @Silent("J5 narrow-net")
    void shouldNotMindASmallDrop() {
        trace(BOTTOM_MM)
                .also(net("A", "current = \"1 A\"\nvoltage = \"0.62 V\"\n"))
                .isSilentOn(Kinds.NARROW_NET);
    }

    /** Needs, row J7: 0.1 mm up to 30 V, 0.6 mm up to 150 V. */
    @Test
    @Fires("J7 spacing")
    void shouldTellAGapThatIsTooNarrowForItsVoltage() {
        trace(0.098)
                .also(net("A", "voltage = \"30 V\"\n"))
                .raises(Kinds.SPACING, FIX, GEOMETRY)
                .measuring(0.098, "mm", 0.002)
                .against(0.1);
        trace(BOTTOM_MM)
                .also(net("A", "voltage = \"31 V\"\n"))
                .raises(Kinds.SPACING, FIX, GEOMETRY)
                .against(0.6);
    }

    @Test
    @Silent("J7 spacing")
    void shouldNotMindAGapThatIsWideEnoughForItsVoltage() {
        trace(0.103).also(net("A", "voltage = \"30 V\"\n")).isSilentOn(Kinds.SPACING);
    }

    @Test
    @Fires("L6 spacing")
    void shouldRefuseMains() {
        Bench.job()
                .runs(isolation())
                .also(net("LINE", "voltage = \"61 V\"\n"))
                .raises(Kinds.SPACING, FIX, GEOMETRY)
                .measuring(61, "V", 1e-9)
                .against(60)
                .saying("refuses");
    }

    @Test
    @Silent("L6 spacing")
    void shouldNotRefuseSixtyVolts() {
        Bench.job().runs(isolation()).also(net("LINE", "voltage = \"60 V\"\n")).isSilentOn(Kinds.SPACING);
    }

    /**
     * 8 mm less two pads of 0.4 mm are 7.6 mm of 0.495 mm: 15.3 squares of 0.99 mohm, 15.2 mohm; the copper is 9.87 x 0.5
     * mm. 0.5 W a cm2 are reached at 1.28 A.
     */
    @Test
    @Fires("J11 hot-trace")
    void shouldWatchMoreThanHalfAWattASquareCentimetreOnPhenolicPaper() {
        assertThat(trace(BOTTOM_MM)
                        .also(net("A", "current = \"1.35 A\"\n"))
                        .examined()
                        .findings()
                        .toString())
                .contains("W a cm2");
    }

    @Test
    @Silent("J11 hot-trace")
    void shouldNotMindLessHeatNorGlass() {
        assertThat(trace(BOTTOM_MM)
                        .also(net("A", "current = \"1.2 A\"\n"))
                        .examined()
                        .findings()
                        .toString())
                .doesNotContain("W a cm2");
        assertThat(trace(BOTTOM_MM)
                        .blank("substrate", "FR-4")
                        .also(net("A", "current = \"1.35 A\"\n"))
                        .examined()
                        .findings()
                        .toString())
                .doesNotContain("W a cm2");
    }

    /** Needs, row J9a: below 0.40 mm beside what is flooded. */
    @Test
    @Fires("J9a narrow-gap")
    void shouldWatchAGapThatASolderFloodJumps() {
        trace(0.39)
                .also(net("A", "flooded = true\n"))
                .raises(Kinds.NARROW_GAP, WATCH, RULE_OF_THUMB)
                .measuring(0.39, "mm", 0.003)
                .against(0.40)
                .saying("Net A");
    }

    @Test
    @Silent("J9a narrow-gap")
    void shouldNotMindAWideGapNorOneBesideWhatIsNotFlooded() {
        trace(0.41).also(net("A", "flooded = true\n")).isSilentOn(Kinds.NARROW_GAP);
        trace(0.39).also(net("A", "flooded = false\n")).isSilentOn(Kinds.NARROW_GAP);
    }

    @Test
    @Fires("J9a flood-gap")
    void shouldNoteGapsOnceWhereNobodySaysWhatIsFlooded() {
        trace(0.39)
                .raises(Kinds.FLOOD_GAP, NOTE, RULE_OF_THUMB)
                .measuring(0.39, "mm", 0.003)
                .against(0.40);
    }

    @Test
    @Silent("J9a flood-gap")
    void shouldSayNothingOfFloodsWhereGapsAreWideOrNetsAreNamed() {
        trace(0.41).isSilentOn(Kinds.FLOOD_GAP);
        trace(0.39).also(net("A", "flooded = true\n")).isSilentOn(Kinds.FLOOD_GAP);
    }

    @Test
    @Fires("E12a leakage")
    void shouldNoteNarrowGapsBesideANetOfHighImpedance() {
        trace(0.197)
                .also(net("A", "high_impedance = true\n"))
                .raises(Kinds.LEAKAGE, NOTE, RULE_OF_THUMB)
                .measuring(0.197, "mm", 0.003)
                .against(0.2)
                .saying("Net A");
    }

    @Test
    @Silent("E12a leakage")
    void shouldSayNothingOfLeakageOverWideGapsOrBesideOtherNets() {
        trace(0.203).also(net("A", "high_impedance = true\n")).isSilentOn(Kinds.LEAKAGE);
        trace(0.197).isSilentOn(Kinds.LEAKAGE);
    }

    /** A piece 0.4 mm wide in the copper of net B: loose, its diagonal of 0.57 mm crosses the gap of 0.164 mm. */
    private static Bench withDebris(double gapMm, double pieceMm) {
        double half = (0.5 + gapMm) / 2;
        double side = pieceMm + gapMm;
        return trace(gapMm)
                .runs(start(1)
                        + rectangle(3, 7 - half, 13, 7 + half, -0.1)
                        + rectangle(15, 2, 15 + side, 2 + side, -0.1)
                        + END);
    }

    @Test
    @Fires("J9 stray-copper")
    void shouldNameTheNetsThatALoosePieceCanJoin() {
        withDebris(BOTTOM_MM, 0.4)
                .raises(Kinds.STRAY_COPPER, WATCH, GEOMETRY)
                .saying("across the gaps between A and B");
    }

    @Test
    @Silent("J9 stray-copper")
    void shouldNameNoNetsThatALoosePieceIsTooShortToJoin() {
        assertThat(withDebris(0.6, 0.2)
                        .raises(Kinds.STRAY_COPPER, WATCH, GEOMETRY)
                        .finding()
                        .message())
                .doesNotContain("across the gaps");
    }

    @Test
    void shouldNoteANetThatNoFileHas() {
        Verdicts v = trace(BOTTOM_MM).also(net("VCC", "current = \"1 A\"\n")).examined();
        v.raises(Kinds.NARROW_NET, NOTE, GEOMETRY).saying("VCC");
    }

    /** A pad of 3 x 0.4 mm turned by a quarter lies along Y on the blank: its extents swap with the design. */
    @Test
    void shouldTurnThePadsWithTheDesign() {
        String layer = "%FSLAX46Y46*%\n%MOMM*%\n%TF.FileFunction,Copper,L1,Top*%\n%LPD*%\n"
                + "%TA.AperFunction,ComponentPad*%\n%ADD10R,3X0.4*%\nD10*\n%TO.N,A*%\n%TO.P,U1,1*%\nX4000000Y-8000000D03*\n"
                + "%TO.P,U1,2*%\nX12000000Y-8000000D03*\n%TO.N,B*%\n%TO.P,U1,3*%\nX4000000Y-18000000D03*\nM02*\n";
        String program = start(1) + rectangle(8 - 0.25 - BOTTOM_MM / 2, 2, 8 + 0.25 + BOTTOM_MM / 2, 14, -0.1) + END;
        Verdicts turned = Bench.job()
                .cellUm(10)
                .side("face", "top")
                .design("top_copper", "top.gbr", layer)
                .set("design.rotated=90 deg")
                .runs(program)
                .also(net("A", "current = \"1 A\"\nvoltage = \"0.2 V\"\n"))
                .examined();
        // 8 mm between centres less 3 mm of pads is 5 mm; with the extents not swapped it would be 7.6 mm
        // 0.99088 mohm per square of 17.4 um (IEC 60028; check-values M9)
        double mohm = 0.99088 * 5.0 / 0.495;
        turned.raises(Kinds.NARROW_NET, WATCH, GEOMETRY).measuring(mohm / 1000, "V", 0.0015);
    }
}
