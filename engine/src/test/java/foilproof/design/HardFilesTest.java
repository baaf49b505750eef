package foilproof.design;

import static foilproof.design.DesignFilesTest.codes;
import static foilproof.design.DesignFilesTest.drill;
import static foilproof.design.DesignFilesTest.netlist;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Design files as older or careless programs write them. Layer images: Gerber Layer Format 2021.02, chapters 5
 * (attributes) and 8 (deprecated forms), check values 7.1. Drill files: IPC-NC-349 / XNC, check values 7.2, details from
 * memory. Netlists: IPC-D-356A, check values 7.3, continuation records from memory.
 */
class HardFilesTest {
    private static final String HEAD = "%FSLAX46Y46*%\n%MOMM*%\n";

    private static Reading<LayerImage> layer(String text) throws InputException {
        return DesignReader.readLayer(SourceFile.ofText("a.gbr", text), InputLimits.DEFAULT);
    }

    private static LayerImage image(String body) throws InputException {
        return layer(HEAD + body + "M02*\n").value();
    }

    private static List<String> nets(LayerImage image) {
        List<String> all = new ArrayList<>();
        for (int i = 0; i < image.size(); i++) {
            all.add(String.valueOf(image.attributesOf(i).net()));
        }
        return all;
    }

    // ---- attributes of layer images ----

    @Test
    void shouldKeepAnObjectsAttributesUntilTheyAreChangedOrDeleted() throws InputException {
        // 5.4: object attributes stay in force over apertures, moves and polarity; TD takes one away, or all
        LayerImage image = image("%ADD10C,1*%%ADD11C,2*%D10*%TO.N,A*%%TO.P,R1,1*%X0Y0D03*D11*X5000000D03*%LPC*%D10*"
                + "X5000000D03*%LPD*%%TD.P*%X10000000D03*%TO.N,B*%X15000000D03*%TD*%X20000000D03*");
        assertThat(nets(image)).containsExactly("A", "A", "A", "A", "B", "null");
        assertThat(image.attributesOf(1).pin()).isEqualTo("1");
        assertThat(image.attributesOf(3).pin()).isNull();
    }

    @Test
    void shouldFixAnAperturesAttributesWhereItIsDefined() throws InputException {
        // 5.3: what is in force at AD counts for all its objects; later changes do not reach back
        LayerImage image = image("%TA.AperFunction,ViaPad*%%ADD10C,1*%%TA.AperFunction,Conductor*%%ADD11C,0.3*%"
                + "%TD.AperFunction*%%ADD12C,2*%D10*X0Y0D03*D11*X5000000Y0D02*X9000000D01*D12*X20000000D03*"
                + "%TA.AperFunction,ComponentPad*%D10*X30000000D03*");
        assertThat(image.attributesOf(0).function()).isEqualTo("ViaPad");
        assertThat(image.attributesOf(1).function()).isEqualTo("Conductor");
        assertThat(image.attributesOf(2).function()).isNull();
        assertThat(image.attributesOf(3).function()).isEqualTo("ViaPad");
    }

    @Test
    void shouldGiveRegionsTheAttributesInForce() throws InputException {
        // 5.3, 5.4: a region takes the aperture attributes of the dictionary and the object attributes
        LayerImage image = image("%TA.AperFunction,Conductor*%%TO.N,POUR*%G36*X0Y0D02*G01*X4000000D01*Y4000000D01*"
                + "X0D01*Y0D01*G37*%TD*%G36*X10000000Y0D02*X14000000D01*Y4000000D01*X10000000D01*Y0D01*G37*");
        assertThat(image.attributesOf(0).net()).isEqualTo("POUR");
        assertThat(image.attributesOf(0).function()).isEqualTo("Conductor");
        assertThat(image.attributesOf(1)).isEqualTo(ObjectAttributes.NONE);
    }

    @Test
    void shouldLetABlocksFlashNameTheNetOfWhatItLeavesOpenAndKeepTheRest() throws InputException {
        // 4.11, 5.4: objects of a block keep what they were given; the flash names what they leave open
        LayerImage image = image("%TA.AperFunction,ComponentPad*%%ADD10C,1*%%TD*%%ABD20*%D10*%TO.P,U1,1*%X0Y0D03*%TD*%"
                + "%TO.N,OWN*%X3000000D03*%TD*%%AB*%%TO.N,NET*%D20*X10000000Y0D03*%TO.N,OTHER*%X30000000D03*");
        assertThat(nets(image)).containsExactly("NET", "OWN", "OTHER", "OWN");
        assertThat(image.attributesOf(0).function()).isEqualTo("ComponentPad");
        assertThat(image.pads().get(0).pinName()).isEqualTo("U1-1");
    }

    @Test
    void shouldNotTakeAUsersOwnAttributeForANet() throws InputException {
        // 5.1: standard names begin with a point
        LayerImage image = image("%ADD10C,1*%D10*%TON,NoNet*%%TOP,X,1*%X0Y0D03*%TO.N,REAL*%%TDN*%X5000000D03*");
        assertThat(nets(image)).containsExactly("null", "REAL");
        assertThat(image.pads().get(0).pinName()).isNull();
    }

    @Test
    void shouldReadAttributesOutOfStandardComments() throws InputException {
        LayerImage image = image("%ADD10C,1*%\nG04 #@! TO.N,A*\nD10*X0Y0D03*\nG04 #@! TD.N*\nX5000000D03*\n"
                + "G04 TO.N,NOT*\nX9000000D03*\n");
        assertThat(nets(image)).containsExactly("A", "null", "null");
    }

    @Test
    void shouldTellSeveralNetsAndEscapedNames() throws InputException {
        LayerImage image = image("%ADD10C,1*%D10*%TO.N,A,B*%X0Y0D03*%TO.N,\\u0394V*%X5000000D03*%TO.N*%X9000000D03*");
        assertThat(image.attributesOf(0).nets()).containsExactly("A", "B");
        assertThat(nets(image)).containsExactly("null", "\u0394V", "null");
        assertThat(image.attributesOf(2).nets()).containsExactly("");
    }

    @Test
    void shouldKeepAttributesThroughStepAndRepeat() throws InputException {
        LayerImage image = image("%ADD10C,1*%%TO.N,A*%%SRX2Y2I5J5*%D10*X0Y0D03*%SR*%%TO.N,B*%X20000000Y0D03*");
        assertThat(nets(image)).containsExactly("A", "A", "A", "A", "B");
    }

    // ---- the text of layer images ----

    @Test
    void shouldReadAnyLineEndAndLowerCase() throws InputException {
        String text = HEAD + "%ADD10C,1*%\nD10*\nX0Y0D03*\nX5000000Y0D03*\nM02*\n";
        for (String end : List.of("\n", "\r", "\r\n", "\n\n", "")) {
            Reading<LayerImage> reading = layer(text.replace("\n", end));
            assertThat(reading.warnings()).isEmpty();
            assertThat(reading.value().size()).isEqualTo(2);
        }
        Reading<LayerImage> low = layer(HEAD + "%ADD10C,1*%\nd10*\nx0y0d03*\nx5000000y0d03*\nm02*\n");
        assertThat(low.value().size()).isEqualTo(2);
        assertThat(codes(low)).containsExactly("layer-lower-case");
    }

    @Test
    void shouldSayThatTheEndIsMissingAndRefuseWhatIsCutInACommand() throws InputException {
        Reading<LayerImage> open = layer(HEAD + "%ADD10C,1*%\nD10*\nX0Y0D03*\n");
        assertThat(codes(open)).containsExactly("layer-cut-short");
        assertThat(open.value().cutShort()).isTrue();
        assertThat(image("%ADD10C,1*%D10*X0Y0D03*").cutShort()).isFalse();
        assertThatThrownBy(() -> layer(HEAD + "%ADD10C,1*%\nD10*\nX0Y0D"))
                .isInstanceOfSatisfying(InputException.class, e -> {
                    assertThat(e.diagnostics().get(0).span().line()).isEqualTo(5);
                });
    }

    @Test
    void shouldNeverFallOverAFileCutShortAnywhere() throws InputException {
        String whole = HEAD + "%TF.FileFunction,Copper,L1,Top*%%AMB*21,1,1,0.5,0,0,30*%%ADD10C,1*%%ADD11B*%%TO.N,A*%"
                + "D10*X0Y0D03*G01*X5000000D01*G75*G03X6000000Y1000000I0J1000000D01*D11*X9000000D03*G36*X0Y0D02*"
                + "X1000000D01*Y1000000D01*X0Y0D01*G37*%SRX2Y1I5J0*%D10*X0Y9000000D03*%SR*%M02*";
        LayerImage all = layer(whole).value();
        for (int cut = 1; cut < whole.length(); cut++) {
            try {
                Reading<LayerImage> part = layer(whole.substring(0, cut));
                assertThat(part.value().size()).isLessThanOrEqualTo(all.size());
                assertThat(codes(part))
                        .as("cut after %d", cut)
                        .containsAnyOf("layer-cut-short", "layer-syntax", "layer-no-objects");
                assertThat(part.value().cutShort() || part.value().size() == all.size())
                        .isTrue();
            } catch (InputException e) {
                assertThat(e.diagnostics().get(0).message()).isNotBlank();
            }
        }
    }

    // ---- deprecated forms, each against the file that it stands for ----

    private static void same(String old, String now) throws InputException {
        LayerImage a = layer(old).value();
        LayerImage b = layer(now).value();
        assertThat(a.size()).isEqualTo(b.size());
        assertThat(a.areaMm2()).isCloseTo(b.areaMm2(), within(1e-9));
        assertThat(a.bounds().minXMm()).isCloseTo(b.bounds().minXMm(), within(1e-9));
        assertThat(a.bounds().maxXMm()).isCloseTo(b.bounds().maxXMm(), within(1e-9));
        assertThat(a.bounds().minYMm()).isCloseTo(b.bounds().minYMm(), within(1e-9));
        assertThat(a.bounds().maxYMm()).isCloseTo(b.bounds().maxYMm(), within(1e-9));
        Random dice = new Random(3);
        for (int k = 0; k < 2000; k++) {
            double x = b.bounds().minXMm() + b.bounds().widthMm() * dice.nextDouble();
            double y = b.bounds().minYMm() + b.bounds().heightMm() * dice.nextDouble();
            assertThat(a.covers(x, y)).as("%s, %s", x, y).isEqualTo(b.covers(x, y));
        }
    }

    private static final String APERTURES = "%ADD10C,1*%%ADD11C,0.4*%";
    private static final String NOW = HEAD + APERTURES
            + "G01*D10*X2000000Y3000000D03*D11*X2000000Y3000000D02*X7000000Y4000000D01*G75*G03X8000000Y5000000I0J1000000D01*M02*";

    @Test
    void shouldReadPrefixesUnitsAndDistanceModesOfOldFiles() throws InputException {
        same(
                HEAD + APERTURES
                        + "G01*G54D10*X2000000Y3000000D03*G54D11*G01X2000000Y3000000D02*G01X7000000Y4000000D01*G75*"
                        + "G03X8000000Y5000000I0J1000000D01*M02*",
                NOW);
        same("%FSLAX46Y46*%" + "G71*" + APERTURES + NOW.substring(NOW.indexOf("G01*")), NOW);
        // incremental: every point from the one before
        same(
                HEAD + APERTURES + "G91*G01*D10*X2000000Y3000000D03*D11*X0Y0D02*X5000000Y1000000D01*G75*"
                        + "G03X1000000Y1000000I0J1000000D01*M02*",
                NOW);
        same(
                "%FSLIX46Y46*%%MOMM*%" + APERTURES + "G01*D10*X2000000Y3000000D03*D11*D02*X5000000Y1000000D01*G75*"
                        + "G03X1000000Y1000000I0J1000000D01*M02*",
                NOW);
        // inch by G70, 2.4 format
        same(
                "%FSLAX24Y24*%G70*%ADD10C,0.1*%D10*X10000Y20000D03*M02*",
                HEAD + "%ADD10C,2.54*%D10*X25400000Y50800000D03*M02*");
    }

    @Test
    void shouldReadImageParametersOfOldFiles() throws InputException {
        String body = NOW.substring(NOW.indexOf("G01*"));
        String mirrored = "G01*D10*X-2000000Y3000000D03*D11*X-2000000Y3000000D02*X-7000000Y4000000D01*G75*"
                + "G02X-8000000Y5000000I0J1000000D01*M02*";
        same(HEAD + "%MIA1B0*%" + APERTURES + body, HEAD + APERTURES + mirrored);
        same(HEAD + "%IPPOS*%%OFA0B0*%%SFA1.0B1.0*%%ASAXBY*%%IR0*%" + APERTURES + body, NOW);
        same(
                HEAD + "%OFA1.5B-2*%" + APERTURES + body,
                HEAD + APERTURES + "G01*D10*X3500000Y1000000D03*D11*X3500000Y1000000D02*X8500000Y2000000D01*G75*"
                        + "G03X9500000Y3000000I0J1000000D01*M02*");
        same(
                HEAD + "%ASAYBX*%" + APERTURES + body,
                HEAD + APERTURES + "G01*D10*X3000000Y2000000D03*D11*X3000000Y2000000D02*X4000000Y7000000D01*G75*"
                        + "G02X5000000Y8000000I1000000J0D01*M02*");
        same(
                HEAD + "%SFA2B2*%" + APERTURES + body,
                HEAD + APERTURES + "G01*D10*X4000000Y6000000D03*D11*X4000000Y6000000D02*X14000000Y8000000D01*G75*"
                        + "G03X16000000Y10000000I0J2000000D01*M02*");
        assertThatThrownBy(() -> layer(HEAD + "%IPNEG*%" + APERTURES + body)).isInstanceOf(InputException.class);
    }

    // ---- drill files ----

    private static final String TOOLS = "M48\nMETRIC\nT1C0.8\nT2C1.0\n%\n";

    private static void refused(String text, String code, int line) {
        assertThatThrownBy(() -> drill(text)).isInstanceOfSatisfying(InputException.class, e -> {
            assertThat(e.diagnostics().get(0).code()).isEqualTo(code);
            assertThat(e.diagnostics().get(0).span().line()).isEqualTo(line);
        });
    }

    @Test
    void shouldReadDrillFilesInLowerCaseAndWithAnyLineEnd() throws InputException {
        String text = TOOLS + "T1\nX1.0Y2.0\nT2\nX3.0\nM30\n";
        for (String end : List.of("\n", "\r", "\r\n")) {
            Reading<DrillFile> reading = drill(text.replace("\n", end));
            assertThat(reading.warnings()).isEmpty();
            assertThat(reading.value().holes()).hasSize(2);
            assertThat(reading.value().cutShort()).isFalse();
        }
        Reading<DrillFile> low = drill(text.toLowerCase(java.util.Locale.ROOT));
        assertThat(low.value().holes()).hasSize(2);
        assertThat(codes(low)).containsExactly("drill-lower-case");
    }

    @Test
    void shouldSayWhereADrillFileBreaksOff() throws InputException {
        Reading<DrillFile> part = drill(TOOLS + "T1\nX1.0Y2.0\nX2.0\n");
        assertThat(part.value().cutShort()).isTrue();
        assertThat(codes(part)).containsExactly("drill-cut-short");
        assertThat(part.warnings().get(0).message()).contains("2 holes");
    }

    @Test
    void shouldTakeTheFirstHoleOnTheToolsOwnLine() throws InputException {
        DrillFile file = drill(TOOLS + "T1X1.0Y2.0\nT2F100S20\nX3.0\nM30\n").value();
        assertThat(file.holes()).hasSize(2);
        assertThat(file.holes().get(0).xMm()).isEqualTo(1);
        assertThat(file.holes().get(1).diameterMm()).isEqualTo(1);
    }

    @Test
    void shouldReadToolsThatAreListedInTheBodyAndRefuseThoseListedTooLate() throws InputException {
        DrillFile file =
                drill("METRIC\nT1C0.8\nX1.0Y1.0\nT2C1.0\nX2.0Y1.0\nM30\n").value();
        assertThat(file.holes()).extracting(DrillFile.Hole::diameterMm).containsExactly(0.8, 1.0);
        refused("M48\nMETRIC\n%\nT1\nX1.0Y1.0\nT1C0.8\nM30\n", "drill-tool-undefined", 4);
    }

    @Test
    void shouldEndAHeaderThatDoesNotEndWhereAToolIsChosen() throws InputException {
        Reading<DrillFile> reading = drill("M48\nMETRIC\nT1C0.8\nT2C1.0\nT1\nX1.0Y1.0\nT2\nX2.0Y1.0\nM30\n");
        assertThat(codes(reading)).containsExactly("drill-header");
        assertThat(reading.value().holes())
                .extracting(DrillFile.Hole::diameterMm)
                .containsExactly(0.8, 1.0);
    }

    @Test
    void shouldReadBothZeroRulesInBothUnits() throws InputException {
        // X4: digits count from the left (LZ) or from the right (TZ); formats 3.3 and 2.4
        double[][] holes = {
            first("METRIC,LZ\nT1C0.8", "X0125Y-01"),
            first("METRIC,TZ\nT1C0.8", "X12500Y-10000"),
            first("METRIC,LZ,0000.00\nT1C0.8", "X00125Y-001"),
            first("METRIC\nT1C0.8", "X12.5Y-10."),
            first("INCH,LZ\nT1C0.03", "X12.5Y-10."),
        };
        for (int k = 0; k < 4; k++) {
            assertThat(holes[k]).as("%d", k).containsExactly(new double[] {12.5, -10}, within(1e-9));
        }
        assertThat(holes[4]).containsExactly(new double[] {12.5 * 25.4, -254}, within(1e-9));
        assertThat(first("INCH,LZ\nT1C0.03", "X005Y-01")).containsExactly(new double[] {12.7, -25.4}, within(1e-9));
        assertThat(first("INCH,TZ\nT1C0.03", "X5000Y-10000")).containsExactly(new double[] {12.7, -25.4}, within(1e-9));
    }

    private static double[] first(String header, String hole) throws InputException {
        DrillFile.Hole h = drill("M48\n" + header + "\n%\nT1\n" + hole + "\nM30\n")
                .value()
                .holes()
                .get(0);
        return new double[] {h.xMm(), h.yMm()};
    }

    @Test
    void shouldReadSlotsInBothWaysOfWriting() throws InputException {
        DrillFile file = drill(TOOLS + "T1\nX1.0Y1.0G85X4.0\nG00X1.0Y5.0\nM15\nG01X4.0\nM16\nG05\nX9.0Y9.0\nM30\n")
                .value();
        assertThat(file.slots()).hasSize(2);
        assertThat(file.slots().get(0).path()).containsExactly(PathEdge.line(1, 1, 4, 1));
        assertThat(file.slots().get(1).path()).containsExactly(PathEdge.line(1, 5, 4, 5));
        assertThat(file.holes()).hasSize(1);
        refused(TOOLS + "T1\nG00X1.0Y5.0\nM15\nG01X4.0\n", "drill-slot", 9);
        refused(TOOLS + "T1\nG00X1.0Y5.0\nM15\nG00X4.0\nM16\nM30\n", "drill-slot", 9);
    }

    @Test
    void shouldRefusePatternsAndMovedZerosInsteadOfLosingHoles() {
        for (String code : List.of("G82", "G83", "G84X1.0", "G87X1.0", "G32X1.0A2.0", "M25", "M02X5.0", "M08")) {
            refused(TOOLS + "T1\nX1.0Y1.0\n" + code + "\nM30\n", "drill-pattern", 8);
        }
        for (String code : List.of("G93X1.0Y1.0", "M70", "M80", "M90")) {
            refused(TOOLS + "T1\nX1.0Y1.0\n" + code + "\nM30\n", "drill-zero", 8);
        }
        refused("M48\nT1C0.8\n%\nT1\nX1.0Y1.0\nM30\n", "drill-units", 2);
        refused("M48\n%\nT1\nX1.0Y1.0\nM30\n", "drill-tool-undefined", 3);
    }

    @Test
    void shouldRepeatInSteps() throws InputException {
        DrillFile file = drill(TOOLS + "T1\nX1.0Y1.0\nR2X0.5Y1.0\nX9.0\nM30\n").value();
        assertThat(file.holes()).extracting(DrillFile.Hole::xMm).containsExactly(1.0, 1.5, 2.0, 9.0);
        assertThat(file.holes()).extracting(DrillFile.Hole::yMm).containsExactly(1.0, 2.0, 3.0, 3.0);
    }

    @Test
    void shouldNeverFallOverADrillFileCutShortAnywhere() {
        String whole =
                "M48\n; c\nMETRIC,LZ\nT1C0.8\nT2C1.0\n%\nG05\nT1\nX1.0Y1.0\nR2X0.5\nX1.0Y1.0G85X4.0Y1.0\nT2\nG00X1.0"
                        + "Y5.0\nM15\nG01X4.0\nG03X4.0Y7.0A1.0\nM16\nG05\nX0125Y01\nM30\n";
        for (int cut = 1; cut < whole.length() - 1; cut++) {
            try {
                Reading<DrillFile> part = drill(whole.substring(0, cut));
                assertThat(part.value().cutShort()).as("cut after %d", cut).isTrue();
                assertThat(codes(part)).contains("drill-cut-short");
            } catch (InputException e) {
                assertThat(e.diagnostics().get(0).message()).isNotBlank();
            }
        }
    }

    // ---- netlists ----

    private static final String J1 = "317NET1             J1    -1    D0800PA00X+001000Y+002000X1600Y0000R000 S0";

    @Test
    void shouldTakeFromAContinuationWhatItSaysAndFromItsRecordTheRest() throws InputException {
        String place = "017" + " ".repeat(14) + "   " + " ".repeat(12) + "      A02X+001000Y+002000X2000Y0000R000 S2";
        String size = "017" + " ".repeat(14) + "   " + " ".repeat(12) + "      A02" + " ".repeat(16) + "X2000Y1000";
        for (String more : List.of(place, size)) {
            List<Netlist.TestPoint> points = netlist("P  UNITS SI\n" + J1 + "\n" + more + "\n999\n")
                    .value()
                    .points();
            assertThat(points).hasSize(2);
            assertThat(points.get(1).net()).isEqualTo("NET1");
            assertThat(points.get(1).xMm()).isEqualTo(1);
            assertThat(points.get(1).yMm()).isEqualTo(2);
            assertThat(points.get(1).sizeXMm()).isEqualTo(2);
            assertThat(points.get(1).access()).isEqualTo(Netlist.Access.BOTTOM);
        }
    }

    @Test
    void shouldReadNetlistsInLowerCaseAndWithAnyLineEnd() throws InputException {
        String text = "C  own\nP  UNITS CUST 1\nP  NNAME1  A_LONG_NAME_OF_A_NET\n" + J1.replace("NET1  ", "NNAME1")
                + "\n999\n";
        for (String end : List.of("\n", "\r", "\r\n")) {
            Reading<Netlist> reading = netlist(text.replace("\n", end));
            assertThat(reading.warnings()).isEmpty();
            assertThat(reading.value().nets()).containsOnlyKeys("A_LONG_NAME_OF_A_NET");
        }
        Netlist low = netlist(text.replace("P  UNITS CUST", "p  units cust")
                        .replace("P  NNAME", "p  nname")
                        .replace(J1.substring(32, 40), J1.substring(32, 40).toLowerCase(java.util.Locale.ROOT)))
                .value();
        assertThat(low.nets()).containsOnlyKeys("A_LONG_NAME_OF_A_NET");
        assertThat(low.points().get(0).holeMm()).isCloseTo(0.8, within(1e-12));
    }

    @Test
    void shouldReadUnitsAndRefuseThemWhereTheyChange() throws InputException {
        // 0.0001 inch or 0.001 mm
        for (String unit : List.of("CUST 0", "CUST 1", "CUST 2", "SI")) {
            double mm = unit.equals("CUST 0") || unit.equals("CUST 2") ? 2.54 : 1;
            assertThat(netlist("P  UNITS " + unit + "\n" + J1 + "\n999\n")
                            .value()
                            .points()
                            .get(0)
                            .xMm())
                    .as(unit)
                    .isCloseTo(mm, within(1e-12));
        }
        assertThatThrownBy(() -> netlist(J1 + "\n999\n")).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> netlist("P  UNITS SI\n" + J1 + "\nP  UNITS CUST 0\n" + J1 + "\n999\n"))
                .isInstanceOf(InputException.class);
    }

    @Test
    void shouldTellNamesThatDoNotFitAndAliasesThatStandForTwo() throws InputException {
        String record = "317" + "NET_OF_SEVENTEEN_" + J1.substring(20);
        Reading<Netlist> reading = netlist("P  UNITS SI\n" + record + "\n999\n");
        assertThat(codes(reading)).containsExactly("netlist-name-long");
        assertThatThrownBy(() -> netlist("P  UNITS SI\nP  NNAME1  A\nP  NNAME1  B\n999\n"))
                .isInstanceOf(InputException.class);
    }

    @Test
    void shouldNeverFallOverANetlistCutShortAnywhere() {
        String whole = "C  own\nP  UNITS CUST 1\nP  NNAME1  LONG\n" + J1 + "\n"
                + "327GND              R12   -2          A01X-002540Y+012700X1200Y0600R090 S0\n"
                + "027                               A01X-002540Y+013700X1200Y0600R090 S0\n999\n";
        for (int cut = 1; cut < whole.length() - 3; cut++) {
            try {
                assertThat(codes(netlist(whole.substring(0, cut))))
                        .as("cut after %d", cut)
                        .contains("netlist-cut-short");
            } catch (InputException e) {
                assertThat(e.diagnostics().get(0).message()).isNotBlank();
            }
        }
    }
}
