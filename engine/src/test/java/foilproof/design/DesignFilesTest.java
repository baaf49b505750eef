package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Face;
import foilproof.bench.Turn;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Drill files (XNC, IPC-NC-349: values worked out from the format's rules, rows X1-X5), netlists (IPC-D-356A, column
 * table of check-values 7.3), outlines and the placement of the design.
 */
class DesignFilesTest {
    static Reading<DrillFile> drill(String text) throws InputException {
        return DesignReader.readDrill(SourceFile.ofText("holes.drl", text), InputLimits.DEFAULT);
    }

    static Reading<Netlist> netlist(String text) throws InputException {
        return DesignReader.readNetlist(SourceFile.ofText("board.ipc", text), InputLimits.DEFAULT);
    }

    static List<String> codes(Reading<?> reading) {
        return reading.warnings().stream().map(Diagnostic::code).toList();
    }

    private static void refusedDrill(String text, String code, int line) {
        assertThatThrownBy(() -> drill(text)).isInstanceOfSatisfying(InputException.class, e -> {
            assertThat(e.diagnostics().get(0).code()).isEqualTo(code);
            assertThat(e.diagnostics().get(0).span().line()).isEqualTo(line);
        });
    }

    @Test
    void shouldReadTheXncSkeleton() throws InputException {
        // row X1
        Reading<DrillFile> reading = drill("M48\n; made by hand\nMETRIC\nT01C0.800\nT02C1.000\n%\nG05\nT01\nX1.0Y2.0\n"
                + "X3.0\nT02\nX-1.5Y-.25\nM30\n");
        assertThat(reading.warnings()).isEmpty();
        List<DrillFile.Hole> holes = reading.value().holes();
        assertThat(holes).hasSize(3);
        assertThat(holes.get(1).xMm()).isEqualTo(3);
        assertThat(holes.get(1).yMm()).isEqualTo(2);
        assertThat(holes.get(2).diameterMm()).isEqualTo(1);
        assertThat(holes.get(2).yMm()).isEqualTo(-0.25);
        assertThat(holes.get(2).line()).isEqualTo(12);
    }

    @Test
    void shouldReadInches() throws InputException {
        // row X2
        DrillFile file = drill("M48\nINCH\nT1C0.032\n%\nT1\nX0.5Y1.\nM30\n").value();
        assertThat(file.holes().get(0).xMm()).isCloseTo(12.7, within(1e-12));
        assertThat(file.tools().get(0).diameterMm()).isCloseTo(0.8128, within(1e-12));
    }

    @Test
    void shouldReadSlotsAndRoutedPaths() throws InputException {
        // row X3
        Reading<DrillFile> reading = drill("M48\nMETRIC\nT1C1.0\n%\nG05\nT1\nX1.0Y1.0G85X4.0Y1.0\nG00X10.0Y0.0\nM15\n"
                + "G01X12.0\nG03X12.0Y2.0A1.0\nG01X10.0\nM16\nG05\nX20.0Y20.0\nM30\n");
        assertThat(reading.warnings()).isEmpty();
        DrillFile file = reading.value();
        assertThat(file.slots()).hasSize(2);
        assertThat(file.slots().get(0).path().get(0)).isEqualTo(PathEdge.line(1, 1, 4, 1));
        PathEdge arc = file.slots().get(1).path().get(1);
        assertThat(arc.cxMm()).isCloseTo(12, within(1e-9));
        assertThat(arc.cyMm()).isCloseTo(1, within(1e-9));
        assertThat(arc.turnRad()).isCloseTo(Math.PI, within(1e-9));
        assertThat(file.holes()).hasSize(1);
    }

    @Test
    void shouldPadDigitsByTheDeclaredZeroRule() throws InputException {
        // row X4: 2.4 inch, X00581 is 0.5810 in where leading zeros are kept, 0.0581 in where trailing zeros are kept
        Reading<DrillFile> leading = drill("M48\nINCH,LZ\nT1C0.04\n%\nT1\nX00581Y01\nM30\n");
        assertThat(leading.value().holes().get(0).xMm()).isCloseTo(0.5810 * 25.4, within(1e-9));
        assertThat(leading.value().holes().get(0).yMm()).isCloseTo(25.4, within(1e-9));
        DrillFile trailing =
                drill("M48\nINCH,TZ\nT1C0.04\n%\nT1\nX00581Y10000\nM30\n").value();
        assertThat(trailing.holes().get(0).xMm()).isCloseTo(0.0581 * 25.4, within(1e-9));
        assertThat(trailing.holes().get(0).yMm()).isCloseTo(25.4, within(1e-9));
        assertThat(codes(leading)).containsExactly("drill-format-assumed");
        DrillFile metric =
                drill("M48\nMETRIC,TZ,000.00\nT1C0.8\n%\nT1\nX1050Y-200\nM30\n").value();
        assertThat(metric.holes().get(0).xMm()).isCloseTo(10.5, within(1e-12));
        assertThat(metric.holes().get(0).yMm()).isCloseTo(-2, within(1e-12));
    }

    @Test
    void shouldRepeatHolesAndTellPlatedFromBare() throws InputException {
        DrillFile file = drill("M48\nMETRIC\n; #@! TA.AperFunction,Plated,PTH,ComponentDrill\nT1C0.8\n; #@! TD\n"
                        + ";TYPE=NON_PLATED\nT2C3.0\n%\nT1\nX1.0Y1.0\nR3X2.54\nT2\nX9.0Y9.0\nM30\n")
                .value();
        assertThat(file.holes()).hasSize(5);
        assertThat(file.holes().get(3).xMm()).isCloseTo(1 + 3 * 2.54, within(1e-12));
        assertThat(file.tools().get(0).plated()).isTrue();
        assertThat(file.tools().get(0).function()).isEqualTo("ComponentDrill");
        assertThat(file.holes().get(4).tool().plated()).isFalse();
    }

    @Test
    void shouldRefuseDrillFilesThatLeaveHolesUndefined() {
        refusedDrill("", "drill-empty", 0);
        refusedDrill("M48\nT1C0.8\n%\nT1\nX1.0Y1.0\nM30\n", "drill-units", 2);
        refusedDrill("M48\nMETRIC\nT1C0.8\n%\nT3\nX1.0Y1.0\nM30\n", "drill-tool-undefined", 5);
        refusedDrill("M48\nMETRIC\nT1C0.8\n%\nX1.0Y1.0\nM30\n", "drill-tool-undefined", 5);
        refusedDrill("M48\nINCH\nT1C0.8\n%\nT1\nX00581Y00581\nM30\n", "drill-zeros", 6);
        refusedDrill("M48\nMETRIC\nT1C0.8\n%\nT1\nX1.0.0Y1.0\nM30\n", "drill-number", 6);
        refusedDrill("M48\nMETRIC\nT1C0.8\n%\nT1\nM25\nX1.0Y1.0\nM01\nM02X5.0\nM08\nM30\n", "drill-pattern", 6);
    }

    @Test
    void shouldSayWhatItDoesNotKnow() throws InputException {
        Reading<DrillFile> reading = drill("M48\nMETRIC\nT1C0.8\nWHAT,ON\n%\nT1\nX1.0Y1.0\nQ7\n");
        assertThat(codes(reading)).containsExactly("drill-unknown", "drill-unknown", "drill-cut-short");
        assertThat(reading.warnings().get(1).span().line()).isEqualTo(8);
        assertThat(codes(drill("M48\nMETRIC\nT1C0.8\n%\nT1\nX99999.0Y1.0\nM30")))
                .containsExactly("drill-coordinate-absurd");
    }

    private static final String J1 = "317NET1             J1    -1    D0800PA00X+001000Y+002000X1600Y0000R000 S0";
    private static final String R12 = "327GND              R12   -2          A01X-002540Y+012700X1200Y0600R090 S0";

    @Test
    void shouldReadTheNetlistColumns() throws InputException {
        // check-values 7.3, both check lines
        Reading<Netlist> reading = netlist("C  own board\nP  UNITS CUST 1\n" + J1 + "\n" + R12 + "\n999\n");
        assertThat(reading.warnings()).isEmpty();
        Netlist.TestPoint a = reading.value().points().get(0);
        assertThat(a.net()).isEqualTo("NET1");
        assertThat(a.reference()).isEqualTo("J1");
        assertThat(a.pin()).isEqualTo("1");
        assertThat(a.holeMm()).isCloseTo(0.8, within(1e-12));
        assertThat(a.plated()).isTrue();
        assertThat(a.access()).isEqualTo(Netlist.Access.BOTH);
        assertThat(a.xMm()).isCloseTo(1, within(1e-12));
        assertThat(a.yMm()).isCloseTo(2, within(1e-12));
        assertThat(a.sizeXMm()).isCloseTo(1.6, within(1e-12));
        assertThat(a.round()).isTrue();
        Netlist.TestPoint b = reading.value().points().get(1);
        assertThat(b.kind()).isEqualTo(Netlist.Kind.SURFACE_PAD);
        assertThat(b.access()).isEqualTo(Netlist.Access.TOP);
        assertThat(b.xMm()).isCloseTo(-2.54, within(1e-12));
        assertThat(b.yMm()).isCloseTo(12.7, within(1e-12));
        assertThat(b.sizeYMm()).isCloseTo(0.6, within(1e-12));
        assertThat(b.rotationDeg()).isEqualTo(90);
        assertThat(b.holeMm()).isNull();
    }

    @Test
    void shouldReadInchNetlistsAliasesAndContinuations() throws InputException {
        Netlist inch = netlist("P  UNITS CUST 0\n" + J1 + "\n999\n").value();
        assertThat(inch.points().get(0).xMm()).isCloseTo(2.54, within(1e-12));
        String alias = J1.replace("NET1  ", "NNAME1");
        String more = "017" + " ".repeat(14) + alias.substring(17).replace("X+001000", "X+009000");
        Netlist named = netlist("P  UNITS SI\nP  NNAME1  A_VERY_LONG_NET_NAME\n" + alias + "\n" + more + "\n999\n")
                .value();
        assertThat(named.nets()).containsOnlyKeys("A_VERY_LONG_NET_NAME");
        assertThat(named.nets().get("A_VERY_LONG_NET_NAME")).hasSize(2);
        Netlist single = netlist("P  UNITS SI\n" + J1.replace("NET1", "N/C ") + "\n999\n")
                .value();
        assertThat(single.points().get(0).single()).isTrue();
        assertThat(single.nets()).isEmpty();
    }

    @Test
    void shouldRefuseNetlistsThatAreCutShortOrUnclear() throws InputException {
        assertThat(codes(netlist("P  UNITS SI\n" + J1 + "\n"))).containsExactly("netlist-cut-short");
        assertThat(codes(netlist("P  UNITS SI\n555what\n" + J1 + "\n999\n"))).containsExactly("netlist-unknown");
        for (String text : List.of(
                "",
                J1 + "\n999\n",
                "P  UNITS SI\n" + J1.substring(0, 47) + "\n",
                "P  UNITS SI\n" + J1.replace("X+001000", "X+0010A0") + "\n999\n",
                "P  UNITS SI\n" + J1.substring(0, 30))) {
            assertThatThrownBy(() -> netlist(text)).as(text).isInstanceOf(InputException.class);
        }
    }

    @Test
    void shouldJoinStrokesIntoClosedOutlines() throws InputException {
        // area by closed form: 40 x 30 with one corner rounded by r 5 (r^2 (1 - pi/4) off) and a round hole of r 3
        String body = LayerImageTest.HEAD + "%ADD10C,0.1*%D10*G75*G01*" + LayerImageTest.at(0, 0, "D02")
                + LayerImageTest.at(40, 0, "D01") + LayerImageTest.at(0, 30, "D02") + LayerImageTest.at(0, 0, "D01")
                + LayerImageTest.at(40, 0, "D02") + LayerImageTest.at(40, 25, "D01")
                + "G03*X35000000Y30000000I-5000000J0D01*"
                + "G01*" + LayerImageTest.at(0, 30, "D01") + LayerImageTest.at(23, 15, "D02")
                + "G02*X23000000Y15000000I-3000000J0D01*M02*";
        Outline outline = DesignReader.readOutline(SourceFile.ofText("edge.gbr", body), InputLimits.DEFAULT)
                .value();
        assertThat(outline.rings()).hasSize(2);
        assertThat(outline.rings().get(0).areaMm2()).isCloseTo(1200 - 25 * (1 - Math.PI / 4), within(1e-9));
        assertThat(outline.rings().get(1).areaMm2()).isCloseTo(9 * Math.PI, within(1e-9));
        assertThat(outline.holds(1, 1)).isTrue();
        assertThat(outline.holds(20, 15)).isFalse();
        assertThat(outline.holds(39.9, 29.9)).isFalse();
        assertThat(outline.bounds().maxXMm()).isEqualTo(40);
    }

    @Test
    void shouldTellAnOutlineThatDoesNotClose() {
        String open = LayerImageTest.HEAD + "%ADD10C,0.1*%D10*G01*X0Y0D02*X40000000D01*Y30000000D01*M02*";
        assertThatThrownBy(() -> DesignReader.readOutline(SourceFile.ofText("edge.gbr", open), InputLimits.DEFAULT))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no closed contour");
    }

    @Test
    void shouldPlaceTheDesignOnEverySide() {
        // design section 4: (px + x, py + y); bottom first (W - px - x, py + y); about Y: W - X; about X: H - Y
        var top = new Placement.Side(Face.TOP, Turn.NO);
        var bottom = new Placement.Side(Face.BOTTOM, Turn.NO);
        PlaneMap one = new Placement(60, 40, 5, 7, 0, List.of(top)).blankFromDesign(0);
        assertThat(one.xMm(3, 4)).isEqualTo(8);
        assertThat(one.yMm(3, 4)).isEqualTo(11);
        Placement two = new Placement(60, 40, 5, 7, 0, List.of(bottom, new Placement.Side(Face.TOP, Turn.ABOUT_Y)));
        assertThat(two.blankFromDesign(0).xMm(3, 4)).isEqualTo(60 - 5 - 3);
        assertThat(two.blankFromDesign(0).mirrors()).isTrue();
        assertThat(two.blankFromDesign(1).xMm(3, 4)).isEqualTo(8);
        assertThat(two.blankFromDesign(1).mirrors()).isFalse();
        Placement aboutX = new Placement(60, 40, 5, 7, 90, List.of(bottom, new Placement.Side(Face.TOP, Turn.ABOUT_X)));
        // turned by 90 degrees first: (3, 4) becomes (-4, 3)
        assertThat(aboutX.blankFromDesign(1).xMm(3, 4)).isEqualTo(60 - 5 + 4);
        assertThat(aboutX.blankFromDesign(1).yMm(3, 4)).isEqualTo(40 - 7 - 3);
        PlaneMap back = aboutX.designFromBlank(1);
        assertThat(back.xMm(59, 30)).isCloseTo(3, within(1e-12));
        assertThat(back.yMm(59, 30)).isCloseTo(4, within(1e-12));
        assertThat(aboutX.blankFromBlank(1, 0).yMm(10, 10)).isEqualTo(30);
    }

    @Test
    void shouldRefuseFacesThatContradictTheTurns() {
        var top = new Placement.Side(Face.TOP, Turn.NO);
        assertThatThrownBy(
                        () -> new Placement(60, 40, 0, 0, 0, List.of(top, new Placement.Side(Face.TOP, Turn.ABOUT_X))))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Placement(60, 40, 0, 0, 45, List.of(top)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Placement(60, 40, 0, 0, 0, List.of(new Placement.Side(Face.TOP, Turn.ABOUT_Y))))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
