package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Face;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/**
 * Layer images against the Gerber Layer Format specification 2021.02 (section named at each test) and closed
 * forms. JTS, which the product does not use, is the judge of random boards.
 */
class LayerImageTest {
    static final String HEAD = "%FSLAX36Y36*%%MOMM*%";

    static Reading<LayerImage> read(String text) throws InputException {
        return DesignReader.readLayer(SourceFile.ofText("layer.gbr", text), InputLimits.DEFAULT);
    }

    static LayerImage image(String body) throws InputException {
        Reading<LayerImage> reading = read(HEAD + body + "M02*");
        assertThat(reading.warnings()).isEmpty();
        return reading.value();
    }

    static List<String> codes(Reading<LayerImage> reading) {
        return reading.warnings().stream().map(Diagnostic::code).toList();
    }

    /** A coordinate in the 3.6 format. */
    static String c(double mm) {
        return Long.toString(Math.round(mm * 1e6));
    }

    static String at(double x, double y, String d) {
        return "X" + c(x) + "Y" + c(y) + d + "*";
    }

    static double flashArea(String aperture) throws InputException {
        LayerImage image = image("%ADD10" + aperture + "*%D10*X0Y0D03*");
        assertThat(image.pieces().size()).isEqualTo(1);
        assertThat(image.pieces().areaMm2(0)).isCloseTo(image.areaMm2(), within(1e-9));
        return image.areaMm2();
    }

    @Test
    void shouldMeasureStandardAperturesByTheirClosedForms() throws InputException {
        // specification 4.4, areas by elementary geometry (row F4)
        assertThat(flashArea("C,10X5")).isCloseTo(58.904862, within(5e-7));
        assertThat(flashArea("R,2.5X1.5")).isCloseTo(3.75, within(1e-12));
        assertThat(flashArea("O,0.4X1.0")).isCloseTo(0.365664, within(5e-7));
        assertThat(flashArea("P,1.00X3")).isCloseTo(0.324760, within(5e-7));
        assertThat(flashArea("R,2X1X0.5")).isCloseTo(2 - Math.PI / 16, within(1e-12));
        assertThat(flashArea("P,2X6X15X0.5")).isCloseTo(1.5 * Math.sqrt(3) - Math.PI / 16, within(1e-9));
    }

    @Test
    void shouldPutTheFirstCornerOfAPolygonOnPlusX() throws InputException {
        // specification 4.4.5 (row F3)
        LayerImage image = image("%ADD10P,1X3*%D10*X0Y0D03*");
        assertThat(image.bounds().maxXMm()).isCloseTo(0.5, within(1e-12));
        assertThat(image.bounds().minXMm()).isCloseTo(-0.25, within(1e-12));
        assertThat(image.covers(0.49, 0)).isTrue();
        assertThat(image.covers(-0.26, 0)).isFalse();
    }

    @Test
    void shouldLetTheHoleOfAnApertureShowWhatLiesBelow() throws InputException {
        // specification 4.4.6: the hole is transparent, it does not clear (row F3)
        LayerImage image = image("%ADD10C,10X5*%%ADD11C,2*%D11*X0Y0D03*D10*X0Y0D03*");
        assertThat(image.covers(0, 0)).isTrue();
        assertThat(image.covers(2, 0)).isFalse();
        assertThat(image.pieces().size()).isEqualTo(2);
    }

    @Test
    void shouldDrawTheArcOfTheSpecification() throws InputException {
        // specification 4.7.2, worked out by its rule (row F6): centre (0,2), r 5, 286.2602 degrees, 24.98092 mm
        LayerImage image =
                image("%ADD10C,0.1*%D10*G75*X3000000Y-2000000D02*G03*X-3000000Y-2000000I-3000000J4000000D01*");
        PathEdge stroke = ((ArcFigure) image.figureOf(0)).stroke.mapped(PlaneMap.shift(3, -2));
        assertThat(stroke.cxMm()).isCloseTo(0, within(1e-9));
        assertThat(stroke.cyMm()).isCloseTo(2, within(1e-9));
        assertThat(stroke.radiusMm()).isCloseTo(5, within(1e-9));
        assertThat(Math.toDegrees(stroke.turnRad())).isCloseTo(286.2602, within(5e-5));
        assertThat(stroke.lengthMm()).isCloseTo(24.98092, within(5e-6));
        // closed form: length x pen + two half discs
        assertThat(image.areaMm2()).isCloseTo(24.98092 * 0.1 + Math.PI * 0.0025, within(1e-6));
        assertThat(image.covers(0, 7)).isTrue();
        assertThat(image.covers(0, -3)).isFalse();
    }

    @Test
    void shouldTakeEqualEndsForAFullCircleInMultiQuadrantModeOnly() throws InputException {
        // specification 4.7.2 and 8.1.10 (row F6)
        LayerImage full = image("%ADD10C,0.2*%D10*G75*X5000000Y0D02*G02*X5000000Y0I-5000000J0D01*");
        assertThat(full.areaMm2()).isCloseTo(Math.PI * (5.1 * 5.1 - 4.9 * 4.9), within(1e-9));
        Reading<LayerImage> single = read(HEAD + "%ADD10C,0.2*%D10*G74*X5000000Y0D02*G02*X5000000Y0I5000000J0D01*M02*");
        assertThat(single.value().areaMm2()).isCloseTo(Math.PI * 0.01, within(1e-9));
        assertThat(codes(single)).containsExactly("layer-deprecated");
    }

    @Test
    void shouldFindTheCentreOfSingleQuadrantArcs() throws InputException {
        // specification 8.1.10: offsets without sign, at most 90 degrees (row F6)
        Reading<LayerImage> reading =
                read(HEAD + "%ADD10C,0.1*%D10*G74*X5000000Y0D02*G03*X0Y5000000I5000000J0D01*M02*");
        PathEdge stroke = ((ArcFigure) reading.value().figureOf(0)).stroke;
        assertThat(stroke.cxMm()).isEqualTo(-5);
        assertThat(Math.toDegrees(stroke.turnRad())).isCloseTo(90, within(1e-9));
    }

    static String contour(double... p) {
        StringBuilder out = new StringBuilder(at(p[0], p[1], "D02"));
        for (int i = 2; i < p.length; i += 2) {
            out.append(at(p[i], p[i + 1], "D01"));
        }
        return out.append(at(p[0], p[1], "D01")).toString();
    }

    @Test
    void shouldMeasureTheRegionsOfTheSpecification() throws InputException {
        // specification 4.10.4, areas by the shoelace formula and pi r^2 (row F7)
        String arrow = contour(2, 3, 7, 3, 7, 1, 11, 5, 7, 9, 7, 7, 2, 7);
        assertThat(image("G01*G36*" + arrow + "G37*").areaMm2()).isCloseTo(36, within(1e-9));
        String square = contour(0, 0, 10, 0, 10, 10, 0, 10);
        String apart = contour(20, 0, 24, 4, 20, 8, 16, 4);
        LayerImage two = image("G01*G36*" + square + apart + "G37*");
        assertThat(two.areaMm2()).isCloseTo(132, within(1e-9));
        assertThat(two.pieces().size()).isEqualTo(2);
        String inside = contour(5, 1, 9, 5, 5, 9, 1, 5);
        LayerImage united = image("G01*G36*" + square + inside + "G37*");
        assertThat(united.areaMm2()).isCloseTo(100, within(1e-9));
        assertThat(united.pieces().size()).isEqualTo(1);
    }

    @Test
    void shouldCutAHoleByCoincidentEdges() throws InputException {
        // specification 4.10.3: plate 10 x 8 less a disc of radius 3 by a cut-in (row F7)
        String body = "G75*G01*G36*" + at(0, 0, "D02") + at(10, 0, "D01") + at(10, 8, "D01") + at(0, 8, "D01")
                + at(0, 4, "D01") + at(2, 4, "D01") + "G02*X2000000Y4000000I3000000J0D01*G01*" + at(0, 4, "D01")
                + at(0, 0, "D01") + "G37*";
        LayerImage image = image(body);
        assertThat(image.areaMm2()).isCloseTo(51.725666, within(5e-7));
        assertThat(image.covers(5, 4)).isFalse();
        assertThat(image.covers(1, 4.001)).isTrue();
        assertThat(image.pieces().size()).isEqualTo(1);
    }

    @Test
    void shouldApplyPolarityInOrder() throws InputException {
        // specification 4.10.4.6 (row F8)
        String disc5 = "G36*X5000000Y10000000D02*G75*G02*X5000000Y10000000I5000000J0D01*G01*G37*";
        String disc25 = "G36*X11500000Y10000000D02*G02*X11500000Y10000000I2500000J0D01*G01*G37*";
        LayerImage image = image("G01*%LPD*%G36*" + contour(2.5, 2.5, 17.5, 2.5, 17.5, 17.5, 2.5, 17.5) + "G37*%LPC*%"
                + disc5 + "%LPD*%G36*" + contour(7.5, 7.5, 12.5, 7.5, 12.5, 12.5, 7.5, 12.5) + "G37*%LPC*%" + disc25);
        assertThat(image.areaMm2()).isCloseTo(162.757290, within(5e-7));
        CopperPieces pieces = image.pieces();
        assertThat(pieces.size()).isEqualTo(2);
        int outer = pieces.pieceAt(3, 3);
        int inner = pieces.pieceAt(8, 8);
        assertThat(pieces.areaMm2(outer)).isCloseTo(140.552885, within(5e-7));
        assertThat(pieces.areaMm2(inner)).isCloseTo(22.204405, within(5e-7));
        assertThat(pieces.pieceAt(10, 6)).isEqualTo(-1);
        assertThat(pieces.pieceAt(12, 10)).isEqualTo(-1);
    }

    @Test
    void shouldTurnMacroPrimitivesAboutTheMacrosZero() throws InputException {
        // specification 4.5.4.5 worked out (row F11): lower-left corner at the zero stays there
        LayerImage image = image("%AMTILT*21,1,6.8,1.2,3.4,0.6,30*%%ADD10TILT*%D10*X0Y0D03*");
        assertThat(image.areaMm2()).isCloseTo(8.16, within(1e-9));
        PathFigure part = ((CompoundFigure) image.figureOf(0)).parts.get(0);
        List<PathEdge> corners = part.contours.get(0);
        assertThat(corners.get(0).x0Mm()).isCloseTo(0, within(1e-12));
        assertThat(corners.get(2).x0Mm()).isCloseTo(5.28897, within(5e-6));
        assertThat(corners.get(2).y0Mm()).isCloseTo(4.43923, within(5e-6));
        assertThat((corners.get(0).x0Mm() + corners.get(2).x0Mm()) / 2).isCloseTo(2.64449, within(5e-6));
        assertThat((corners.get(0).y0Mm() + corners.get(2).y0Mm()) / 2).isCloseTo(2.21962, within(5e-6));
    }

    @Test
    void shouldMeasureTheMacrosOfTheSpecification() throws InputException {
        // specification 4.5.4 and 4.5.6 (row F11)
        assertThat(macroArea("1,1,0.1,0,0*1,0,0.08,0,0*", "")).isCloseTo(0.00282743, within(5e-9));
        assertThat(macroArea("7,0,0,0.8,0.55,0.125,45*", "")).isCloseTo(0.202196, within(5e-7));
        String rounded = "$4=$1-$3-$3*$5=$2-$3-$3*21,1,$4,$2,0,0,0*21,1,$1,$5,0,0,0*"
                + "1,1,$3+$3,$4/2,$5/2*1,1,$3x2,-$4/2,$5/2*1,1,2x$3,-$4/2,-$5/2*1,1,$3x(1+1),$4/2,-$5/2*";
        assertThat(macroArea(rounded, ",2X1X0.2")).isCloseTo(1.965664, within(5e-7));
        assertThat(macroArea("0 a comment, not a primitive*4,1,3,0,0,1,0,0,1,0,0,0*", ""))
                .isCloseTo(0.5, within(1e-12));
        assertThat(macroArea("5,1,4,1,1,2,45*", "")).isCloseTo(2, within(1e-12));
        assertThat(macroArea("20,1,0.5,0,0,3,4,0*", "")).isCloseTo(2.5, within(1e-12));
        // an argument that is not given is 0 (specification 4.5.4.2)
        assertThat(macroArea("21,1,1+$1,1+$7,0,0,0*", ",1")).isCloseTo(2, within(1e-12));
    }

    private static double macroArea(String body, String arguments) throws InputException {
        return image("%AMM1*" + body + "%%ADD10M1" + arguments + "*%D10*X5000000Y5000000D03*")
                .areaMm2();
    }

    @Test
    void shouldKeepExposureInsideTheMacro() throws InputException {
        // specification 4.5.1.2 (row F10): exposure off clears within the macro, not what lies below it
        LayerImage image = image("%AMDONUT*1,1,4,0,0*1,0,2,0,0*%%ADD10R,9X9*%%ADD11DONUT*%D10*X0Y0D03*D11*X0Y0D03*");
        assertThat(image.covers(0, 0)).isTrue();
        assertThat(image.areaMm2()).isCloseTo(81, within(1e-9));
    }

    @Test
    void shouldStepAndRepeatInYFirstThenX() throws InputException {
        // specification 4.11 (row F12)
        LayerImage image = image("%ADD10C,1*%D10*%SRX3Y2I5.0J4.0*%X0Y0D03*X2000000Y0D03*%SR*%X50000000Y0D03*");
        assertThat(image.size()).isEqualTo(13);
        List<Pad> pads = image.pads();
        assertThat(pads.get(2).yMm()).isEqualTo(4);
        assertThat(pads.get(4).xMm()).isEqualTo(5);
        assertThat(image.areaMm2()).isCloseTo(13 * Math.PI / 4, within(1e-9));
        assertThat(image.pieces().size()).isEqualTo(13);
    }

    @Test
    void shouldNestBlocksAndToggleTheirPolarity() throws InputException {
        // specification 4.6 and 4.9 (row F12)
        String body = "%ADD10C,1*%%ADD11R,1X4*%%ABD12*%D11*X0Y0D03*%LPC*%D10*X0Y0D03*%LPD*%%AB*%"
                + "%ABD13*%D12*X0Y0D03*X10000000Y0D03*%AB*%D13*X0Y0D03*%LMX*%%LR90*%%LS2*%X0Y100000000D03*";
        LayerImage image = image(body);
        assertThat(image.size()).isEqualTo(8);
        double one = 4 - Math.PI / 4;
        assertThat(image.areaMm2()).isCloseTo(2 * one + 2 * 4 * one, within(1e-8));
        // mirrored in X, turned by 90 degrees, twice as large: (10, 0) goes to (0, -20)
        assertThat(image.covers(0, 100 - 20 + 1.2)).isFalse();
        assertThat(image.covers(-1.5, 100 - 20)).isTrue();
        assertThat(image.covers(0, 100 - 20)).isFalse();
    }

    @Test
    void shouldNotAddUpMirrorTurnAndScale() throws InputException {
        // specification 4.9.1: each replaces the one before (row F12)
        LayerImage image = image("%ADD10R,4X1*%D10*%LR30*%%LR90*%%LS3*%%LS1*%X0Y0D03*");
        assertThat(image.bounds().widthMm()).isEqualTo(1);
        assertThat(image.bounds().heightMm()).isEqualTo(4);
    }

    @Test
    void shouldReadAttributesWithoutChangingTheImage() throws InputException {
        // specification 5.2 to 5.6 (row F13)
        String body = "%TF.FileFunction,Copper,L2,Bot*%%TF.FilePolarity,Positive*%%TA.AperFunction,ComponentPad*%"
                + "%ADD10C,1*%%TD.AperFunction*%%ADD11C,0.3*%%TO.N,VIN*%%TO.P,U1,4*%D10*X0Y0D03*%TD.P*%D11*"
                + "X5000000Y0D01*%TO.N,*%X9000000Y0D02*X9000000Y1000000D01*%TO.N,N/C*%D10*X20000000Y0D03*%TD*%"
                + "X30000000Y0D03*";
        LayerImage image = image(body);
        assertThat(image.statedFace()).isEqualTo(Face.BOTTOM);
        assertThat(image.fileAttributes()).containsEntry("FilePolarity", List.of("Positive"));
        Pad first = image.pads().get(0);
        assertThat(first.net()).isEqualTo("VIN");
        assertThat(first.pinName()).isEqualTo("U1-4");
        assertThat(first.attributes().function()).isEqualTo("ComponentPad");
        assertThat(image.attributesOf(1).net()).isEqualTo("VIN");
        assertThat(image.attributesOf(1).function()).isNull();
        assertThat(image.attributesOf(2).nets()).containsExactly("");
        assertThat(image.pads().get(1).attributes().single()).isTrue();
        assertThat(image.pads().get(2).attributes().nets()).isEmpty();
        assertThat(image.netNames()).containsExactly("VIN");
        assertThat(image.netAt(3, 0)).isEqualTo("VIN");
        assertThat(image.netAt(3, 1)).isNull();
        LayerImage bare = image(body.replaceAll("%T[FAOD][^%]*%", ""));
        assertThat(bare.areaMm2()).isEqualTo(image.areaMm2());
    }

    @Test
    void shouldReadTheOwnMinimalFile() throws InputException {
        // row F16, elementary geometry: two pads 1.5 x 1.0 and a track 0.254 wide between them
        LayerImage image =
                image("%ADD10R,1.5X1.0*%%ADD11C,0.254*%D10*X0Y0D03*X10000000Y0D03*D11*X0Y0D02*X10000000D01*");
        assertThat(image.areaMm2()).isCloseTo(5.159, within(1e-9));
        assertThat(image.pieces().size()).isEqualTo(1);
    }

    @Test
    void shouldGiveOneImageInBothUnits() throws InputException {
        // 1 inch = 25.4 mm; specification 4.2 (row F2)
        LayerImage inch =
                read("%FSLAX26Y26*%%MOIN*%%ADD10C,0.1*%D10*X1000000Y0D03*M02*").value();
        assertThat(inch.pads().get(0).xMm()).isCloseTo(25.4, within(1e-12));
        assertThat(inch.areaMm2()).isCloseTo(Math.PI * 1.27 * 1.27, within(1e-12));
        assertThat(image("%ADD10C,1*%D10*X10000000Y0D03*").pads().get(0).xMm()).isEqualTo(10);
    }

    @Test
    void shouldReadDeprecatedFormsAndSayThemOnce() throws InputException {
        // specification 8.1 (row F2: 3 and 4 decimals are still met)
        String old = "G04 old*%FSLAX24Y24*%%MOIN*%%IPDARK*%%OFA0B0*%%MIA0B0*%%SFA1B1*%%LNold*%%ADD10R,0.05X0.05*%"
                + "%ADD11C,0.01*%G70*G90*G54D10*X10000Y10000D03*X20000*G54D11*G01X10000Y20000D02*X20000D01*Y30000*M02*";
        Reading<LayerImage> reading = read(old);
        assertThat(reading.value().size()).isEqualTo(4);
        assertThat(codes(reading)).containsOnly("layer-deprecated");
        assertThat(reading.value().pads().get(1).xMm()).isCloseTo(50.8, within(1e-12));
        Reading<LayerImage> trailing = read("%FSTAX23Y23*%%MOMM*%%ADD10C,1*%D10*X1Y015D03*M02*");
        assertThat(trailing.value().pads().get(0).xMm()).isEqualTo(10);
        assertThat(trailing.value().pads().get(0).yMm()).isEqualTo(1.5);
    }

    @Test
    void shouldWarnOfUnknownCommandsAndGoOn() throws InputException {
        // specification 4.1 (row F1): warn, then go on
        Reading<LayerImage> reading = read(HEAD + "\n%ADD10C,1*%\n%KQ17*%\nG99*\nD10*\nX0Y0D03*\nM02*");
        assertThat(codes(reading)).containsExactly("layer-unknown-command", "layer-unknown-command");
        assertThat(reading.warnings().get(0).span().line()).isEqualTo(3);
        assertThat(reading.warnings().get(0).span().column()).isEqualTo(2);
        assertThat(reading.warnings().get(1).span().line()).isEqualTo(4);
        assertThat(reading.value().size()).isEqualTo(1);
    }

    private static void refused(String text, String code, int line, int column) {
        assertThatThrownBy(() -> read(text)).isInstanceOfSatisfying(InputException.class, e -> {
            Diagnostic d = e.diagnostics().get(0);
            assertThat(d.code()).isEqualTo(code);
            assertThat(d.span().line()).isEqualTo(line);
            assertThat(d.span().column()).isEqualTo(column);
        });
    }

    @Test
    void shouldRefuseWhatLeavesTheImageUndefined() {
        refused("", "layer-empty", 0, 0);
        refused(HEAD + "\n%ADD10C,1*%\nD11*\nM02*", "layer-aperture-undefined", 3, 1);
        refused(HEAD + "\nX0Y0D03*\nM02*", "layer-aperture-undefined", 2, 1);
        refused("%FSLAX36Y36*%\n%ADD10C,1*%\nM02*", "layer-units", 2, 2);
        refused("%MOMM*%\n%ADD10C,1*%\nD10*\nX0Y0D03*\nM02*", "layer-format", 4, 1);
        refused(HEAD + "\n%ADD10C,1", "layer-cut-short", 2, 1);
        refused(HEAD + "\n%ADD10C,1*%\nD10*\nX0Y0D0", "layer-cut-short", 4, 1);
        refused(HEAD + "\n%ADD10O,1X2*%\nD10*\nX0Y0D02*\nX5Y5D01*\nM02*", "layer-draw-aperture", 5, 1);
        refused(HEAD + "\nG36*\nX0Y0D02*\nX5Y5D01*\n", "layer-cut-short", 4, 9);
        refused(HEAD + "\n%ADD10C,-1*%\nM02*", "layer-aperture", 2, 7);
        refused(HEAD + "\n%ADD10C,1e3*%\nM02*", "layer-number", 2, 9);
        refused(HEAD + "\n%ADD10C,1*%\nD10*\nX1.5Y0D03*\nM02*", "layer-number", 4, 1);
        refused(HEAD + "\n%IPNEG*%\nM02*", "layer-negative", 2, 2);
    }

    @Test
    void shouldSayWhatIsSuspectAndGoOn() throws InputException {
        String arcs = "%ADD10C,0.2*%D10*G75*X0Y0D02*G02*X0Y0I0J0D01*X5000000Y0I0J0D01*";
        assertThat(codes(read(HEAD + arcs + "M02*"))).containsExactly("layer-arc-suspect", "layer-arc-suspect");
        assertThat(codes(read(HEAD + "%ADD10C,1*%%ADD10C,2*%D10*X0Y0D03*M02*")))
                .containsExactly("layer-aperture-redefined");
        assertThat(codes(read(HEAD + "G01*G36*" + contour(0, 0, 10, 10, 10, 0, 0, 10) + "G37*M02*")))
                .containsExactly("layer-region-crossing");
        assertThat(codes(read(HEAD + "%ADD10C,1*%D10*X9999000000Y0D03*M02*")))
                .containsExactly("layer-coordinate-absurd");
        assertThat(codes(read(HEAD + "%ADD10C,1*%D10*X0Y0D03*"))).containsExactly("layer-cut-short");
        assertThat(codes(read(HEAD + "G36*X0Y0D02*G01*X5000000D01*Y5000000D01*G37*M02*")))
                .containsExactly("layer-contour-open");
    }

    @Test
    void shouldFillEverythingThatASelfCrossingContourGoesRound() throws InputException {
        LayerImage image = read(HEAD + "G01*G36*" + contour(0, 0, 10, 10, 10, 0, 0, 10) + "G37*M02*")
                .value();
        assertThat(image.areaMm2()).isCloseTo(50, within(1e-6));
    }

    @Test
    void shouldHoldAMillionFlashesInBoundedMemory() throws InputException {
        StringBuilder text = new StringBuilder(HEAD + "%ADD10C,0.05*%D10*\n");
        for (int i = 0; i < 1_000_000; i++) {
            text.append('X')
                    .append(i % 1000 * 100_000)
                    .append('Y')
                    .append(i / 1000 * 100_000)
                    .append("D03*\n");
        }
        LayerImage image = read(text.append("M02*").toString()).value();
        assertThat(image.size()).isEqualTo(1_000_000);
        assertThat(image.covers(99.9, 99.9)).isTrue();
        assertThat(image.covers(99.95, 99.9)).isFalse();
        assertThat(image.areaMm2()).isCloseTo(1e6 * Math.PI * 0.000625, within(1e-6));
        assertThat(image.pieces().size()).isEqualTo(1_000_000);
    }

    @Test
    void shouldAgreeWithAnotherLibraryOnRandomBoards() throws InputException {
        for (long seed = 1; seed <= 12; seed++) {
            Random random = new Random(seed);
            GeometryFactory factory = new GeometryFactory();
            Geometry expected = factory.createPolygon();
            StringBuilder text = new StringBuilder(HEAD + "%ADD10C,1.0*%%ADD11R,1.2X0.7*%G01*");
            for (int i = 0; i < 60; i++) {
                boolean dark = random.nextInt(4) > 0;
                double x = random.nextInt(10_000) / 1000.0;
                double y = random.nextInt(10_000) / 1000.0;
                double u = random.nextInt(10_000) / 1000.0;
                double v = random.nextInt(10_000) / 1000.0;
                text.append(dark ? "%LPD*%" : "%LPC*%");
                Geometry shape;
                if (random.nextBoolean()) {
                    text.append("D10*").append(at(x, y, "D02")).append(at(u, v, "D01"));
                    shape = factory.createLineString(new Coordinate[] {new Coordinate(x, y), new Coordinate(u, v)})
                            .buffer(0.5, 256);
                } else {
                    text.append("D11*").append(at(x, y, "D03"));
                    shape = factory.toGeometry(
                            new org.locationtech.jts.geom.Envelope(x - 0.6, x + 0.6, y - 0.35, y + 0.35));
                }
                expected = dark ? expected.union(shape) : expected.difference(shape);
            }
            LayerImage image = read(text + "M02*").value();
            // a 1024-gon of radius 0.5 lacks 5e-6 of a disc: a few 1e-5 mm2 over the board
            assertThat(image.areaMm2()).as("seed %d", seed).isCloseTo(expected.getArea(), within(3e-4));
            int large = 0;
            for (int k = 0; k < expected.getNumGeometries(); k++) {
                large += expected.getGeometryN(k).getArea() > 1e-3 ? 1 : 0;
            }
            int own = 0;
            for (int k = 0; k < image.pieces().size(); k++) {
                own += image.pieces().areaMm2(k) > 1e-3 ? 1 : 0;
            }
            assertThat(own).as("seed %d", seed).isEqualTo(large);
        }
    }

    /**
     * Tracks on a raster that meet in shared round ends, where outlines lie on one another over whole arcs; on a stack
     * that holds no deep calls. The other library judges area and pieces.
     */
    @Test
    void shouldUniteTracksThatShareRoundEnds() throws Exception {
        for (long seed = 1; seed <= 12; seed++) {
            Random random = new Random(seed);
            GeometryFactory factory = new GeometryFactory();
            Geometry expected = factory.createPolygon();
            StringBuilder text = new StringBuilder(HEAD + "%ADD10C,0.6*%%ADD11C,2.1*%G01*");
            for (int net = 0; net < 12; net++) {
                int x = 4 + random.nextInt(24);
                int y = 4 + random.nextInt(24);
                text.append("D10*").append(at(x * 0.635, y * 0.635, "D02"));
                for (int k = 0; k < 8; k++) {
                    int steps = 1 + random.nextInt(6);
                    int turn = random.nextInt(8);
                    int u = x + steps * Integer.signum((int) Math.rint(2 * Math.cos(turn * Math.PI / 4)));
                    int v = y + steps * Integer.signum((int) Math.rint(2 * Math.sin(turn * Math.PI / 4)));
                    text.append(at(u * 0.635, v * 0.635, "D01"));
                    expected = expected.union(factory.createLineString(new Coordinate[] {
                                new Coordinate(x * 0.635, y * 0.635), new Coordinate(u * 0.635, v * 0.635)
                            })
                            .buffer(0.3, 256));
                    x = u;
                    y = v;
                }
                text.append("D11*").append(at(x * 0.635, y * 0.635, "D03"));
                expected = expected.union(factory.createPoint(new Coordinate(x * 0.635, y * 0.635))
                        .buffer(1.05, 256));
            }
            LayerImage image = read(text + "M02*").value();
            Throwable[] broken = new Throwable[1];
            Thread small = new Thread(null, () -> image.pieces().size(), "small stack", 160 * 1024);
            small.setUncaughtExceptionHandler((t, e) -> broken[0] = e);
            small.start();
            small.join();
            assertThat(broken[0]).as("seed %d", seed).isNull();
            assertThat(image.areaMm2()).as("seed %d", seed).isCloseTo(expected.getArea(), within(2e-3));
            assertThat(image.pieces().size()).as("seed %d", seed).isEqualTo(expected.getNumGeometries());
        }
    }

    @Test
    void shouldRasteriseExactlyWhatItCovers() throws InputException {
        Random random = new Random(7);
        StringBuilder text = new StringBuilder(HEAD + "%ADD10C,0.7X0.3*%%ADD11O,1.2X0.5*%%ADD12C,0.2*%G75*");
        for (int i = 0; i < 80; i++) {
            text.append(random.nextInt(5) > 0 ? "%LPD*%" : "%LPC*%");
            double x = random.nextInt(5000) / 1000.0;
            double y = random.nextInt(5000) / 1000.0;
            int what = random.nextInt(4);
            if (what < 2) {
                text.append("%LR")
                        .append(random.nextInt(360))
                        .append("*%D")
                        .append(10 + what)
                        .append("*");
                text.append(at(x, y, "D03"));
            } else if (what == 2) {
                text.append("D12*G01*").append(at(x, y, "D02")).append(at(y, x, "D01"));
            } else {
                text.append("D12*G03*").append(at(x, y, "D02"));
                text.append("X").append(c(x - 1)).append("Y").append(c(y + 1)).append("I-1000000J0D01*");
            }
        }
        LayerImage image = read(text + "M02*").value();
        RasterGrid grid = RasterGrid.over(image.bounds(), 0.0173);
        BitSet raster = image.rasterise(grid);
        for (int r = 0; r < grid.rows(); r++) {
            for (int k = 0; k < grid.columns(); k++) {
                assertThat(raster.get(grid.index(k, r)))
                        .as("cell %d, %d", k, r)
                        .isEqualTo(image.covers(grid.centreXMm(k), grid.centreYMm(r)));
            }
        }
    }

    /** Rows Q12 (lens of two discs) and Q14 (unit discs that share half their area lie 0.8079455 apart). */
    @Test
    void shouldUniteTwoDiscsThatShareHalfTheirArea() throws InputException {
        double d = 0.8079455;
        LayerImage two = read(HEAD + "%ADD10C,2*%D10*X0Y0D03*X" + Math.round(d * 1e6) + "Y0D03*M02*")
                .value();
        assertThat(two.areaMm2()).isCloseTo(1.5 * Math.PI, within(2e-6));
        LayerImage lens =
                read(HEAD + "%ADD10C,2*%D10*X0Y0D03*X1000000Y0D03*M02*").value();
        assertThat(2 * Math.PI - lens.areaMm2()).isCloseTo(1.2283697, within(1e-6));
    }
}
