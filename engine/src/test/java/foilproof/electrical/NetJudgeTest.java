package foilproof.electrical;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.Face;
import foilproof.bench.Join;
import foilproof.bench.Turn;
import foilproof.bench.XyMm;
import foilproof.copper.Terminal;
import foilproof.design.DesignReader;
import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Netlist;
import foilproof.design.Placement;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Opens and shorts: the assertion of the layer format's section 6.8.1.1, on boards with a known truth. */
class NetJudgeTest {
    private static LayerImage layer(String body) throws InputException {
        String text = "%FSLAX36Y36*%%MOMM*%%ADD10C,1.6*%%ADD11C,0.4*%%TA.AperFunction,ViaPad*%%ADD12C,1.2*%%TD*%G01*"
                + body + "M02*";
        return DesignReader.readLayer(SourceFile.ofText("layer.gbr", text), InputLimits.DEFAULT)
                .value();
    }

    private static String xy(double x, double y) {
        return "X" + Math.round(x * 1e6) + "Y" + Math.round(y * 1e6);
    }

    private static String pad(String net, String pin, double x, double y) {
        return "%TO.N," + net + "*%%TO.P,U1," + pin + "*%D10*" + xy(x, y) + "D03*%TD.P*%";
    }

    private static String via(String net, double x, double y) {
        return "%TO.N," + net + "*%D12*" + xy(x, y) + "D03*";
    }

    private static String track(String net, double x, double y, double u, double v) {
        return "%TO.N," + net + "*%D11*" + xy(x, y) + "D02*" + xy(u, v) + "D01*";
    }

    private static PieceProbe drawn(Map<Face, LayerImage> layers) {
        return (face, x, y) -> {
            LayerImage l = layers.get(face);
            return l == null ? -1 : l.pieces().pieceAt(x, y);
        };
    }

    private static final DrillFile HOLES = holes();

    private static DrillFile holes() {
        try {
            return DesignReader.readDrill(
                            SourceFile.ofText(
                                    "holes.drl",
                                    "M48\nMETRIC\nT1C0.800\n%\nT1\nX0.0Y0.0\nX10.0Y0.0\nX5.0Y5.0\nX20.0Y0.0\nM30\n"),
                            InputLimits.DEFAULT)
                    .value();
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void shouldFindGoodNetsWholeAndApart() throws InputException {
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        layers.put(
                Face.BOTTOM,
                layer(pad("VIN", "1", 0, 0)
                        + pad("VIN", "2", 10, 0)
                        + track("VIN", 0, 0, 10, 0)
                        + pad("GND", "3", 20, 0)));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.BOTTOM));
        assertThat(nets.source()).isEqualTo(IntendedNets.Source.ATTRIBUTES);
        NetVerdict verdict = NetJudge.judge(nets, List.of(), drawn(layers));
        assertThat(verdict.opens()).isEmpty();
        assertThat(verdict.shorts()).isEmpty();
        assertThat(verdict.nets()).allMatch(NetVerdict.NetState::good);
        assertThat(nets.nets().get(0).places().get(0).holeMm()).isEqualTo(0.8);
    }

    @Test
    void shouldNameBothNetsOfAShortAndThePlacesOfAnOpen() throws InputException {
        Map<Face, LayerImage> meant = Map.of(
                Face.BOTTOM,
                layer(pad("VIN", "1", 0, 0)
                        + pad("VIN", "2", 10, 0)
                        + track("VIN", 0, 0, 10, 0)
                        + pad("GND", "3", 20, 0)
                        + pad("OUT", "4", 0, 9)));
        Map<Face, LayerImage> milled = Map.of(
                Face.BOTTOM,
                layer(pad("VIN", "1", 0, 0)
                        + pad("VIN", "2", 10, 0)
                        + track("VIN", 0, 0, 4, 0)
                        + track("VIN", 10, 0, 20, 0)
                        + pad("GND", "3", 20, 0)));
        IntendedNets nets = IntendedNets.of(meant, null, null, Set.of(Face.BOTTOM));
        NetVerdict verdict = NetJudge.judge(nets, List.of(), drawn(milled));
        assertThat(verdict.shorts()).hasSize(1);
        assertThat(verdict.shorts().get(0).netA()).isEqualTo("VIN");
        assertThat(verdict.shorts().get(0).netB()).isEqualTo("GND");
        assertThat(verdict.shorts().get(0).placeA().label()).isEqualTo("U1-2");
        assertThat(verdict.opens()).hasSize(2);
        assertThat(verdict.opens().get(0).net()).isEqualTo("VIN");
        assertThat(verdict.opens().get(0).groups()).hasSize(2);
        assertThat(verdict.opens().get(1).net()).isEqualTo("OUT");
        assertThat(verdict.opens().get(1).missing()).hasSize(1);
    }

    @Test
    void shouldJoinPinsAlwaysAndViasOnlyWhereAJoinIsDeclared() throws InputException {
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        layers.put(Face.TOP, layer(pad("A", "1", 0, 0) + track("A", 0, 0, 5, 5) + via("A", 5, 5)));
        layers.put(
                Face.BOTTOM,
                layer(pad("A", "1", 0, 0) + pad("A", "2", 10, 0) + track("A", 10, 0, 5, 5) + via("A", 5, 5)));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.TOP, Face.BOTTOM));
        NetVerdict without = NetJudge.judge(nets, List.of(), drawn(layers));
        assertThat(without.opens()).hasSize(1);
        assertThat(without.opens().get(0).onlyVias()).isTrue();
        assertThat(without.opens().get(0).viasToJoin().get(0).xMm()).isEqualTo(5);
        assertThat(without.handJoins()).extracting(NetVerdict.HandJoin::kind).containsExactly("pin");
        Join wire = new Join(
                new Join.End(new XyMm(5, 5), Face.TOP),
                new Join.End(new XyMm(5, 5), Face.BOTTOM),
                OptionalDouble.of(0.6));
        NetVerdict with = NetJudge.judge(nets, List.of(wire), drawn(layers));
        assertThat(with.opens()).isEmpty();
        assertThat(with.shorts()).isEmpty();
    }

    /** Gerber Layer Format 5.6.13: a pad of net N/C is alone; a through pin has a land on each face. */
    @Test
    void shouldTakeTheTwoLandsOfAnUnconnectedPinForOnePad() throws InputException {
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        layers.put(Face.TOP, layer(pad("A", "3", 20, 0) + pad("N/C", "1", 0, 0) + pad("N/C", "2", 10, 0)));
        layers.put(Face.BOTTOM, layer(pad("N/C", "1", 0, 0) + pad("N/C", "2", 10, 0)));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.TOP, Face.BOTTOM));
        assertThat(nets.source()).isEqualTo(IntendedNets.Source.ATTRIBUTES);
        assertThat(nets.nets()).extracting(n -> n.places().size()).containsExactly(1, 2, 2);
        NetVerdict verdict = NetJudge.judge(nets, List.of(), drawn(layers));
        assertThat(verdict.shorts()).isEmpty();
        assertThat(verdict.opens()).isEmpty();
        // no drill file: the same pin on both faces is a through pin all the same
        IntendedNets undrilled = IntendedNets.of(layers, null, null, Set.of(Face.TOP, Face.BOTTOM));
        assertThat(NetJudge.judge(undrilled, List.of(), drawn(layers)).opens()).isEmpty();
    }

    @Test
    void shouldStillTellTwoUnconnectedPinsThatAreJoined() throws InputException {
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        layers.put(Face.TOP, layer(pad("A", "3", 20, 0) + pad("N/C", "1", 0, 0) + pad("N/C", "2", 10, 0)));
        layers.put(Face.BOTTOM, layer(pad("N/C", "1", 0, 0) + pad("N/C", "2", 10, 0) + track("N/C", 0, 0, 10, 0)));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.TOP, Face.BOTTOM));
        assertThat(NetJudge.judge(nets, List.of(), drawn(layers)).shorts()).hasSize(1);
        // two pads of no net, one over the other, that no hole joins are two
        Map<Face, LayerImage> flat = Map.of(
                Face.TOP, layer(pad("A", "3", 20, 0) + pad("N/C", "1", 3, 3)),
                Face.BOTTOM, layer(pad("N/C", "2", 3, 3)));
        assertThat(IntendedNets.of(flat, null, HOLES, Set.of(Face.TOP, Face.BOTTOM))
                        .nets())
                .hasSize(3);
    }

    private static String land(String net, double x, double y) {
        return "%TO.N," + net + "*%D10*" + xy(x, y) + "D03*";
    }

    /** A net over both faces that meets in one hole of 0.8 mm at (5, 5); the pad at (0, 0) is a part's where told. */
    private static NetVerdict throughOneHole(String first, DrillFile holes) throws InputException {
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        layers.put(Face.TOP, layer(first + track("A", 0, 0, 5, 5) + land("A", 5, 5)));
        layers.put(Face.BOTTOM, layer(land("A", 20, 20) + track("A", 20, 20, 5, 5) + land("A", 5, 5)));
        IntendedNets nets = IntendedNets.of(layers, null, holes, Set.of(Face.TOP, Face.BOTTOM));
        return NetJudge.judge(nets, List.of(), drawn(layers));
    }

    private static DrillFile drill(String function) throws InputException {
        return DesignReader.readDrill(
                        SourceFile.ofText("h.drl", "M48\nMETRIC\n" + function + "T1C0.800\n%\nT1\nX5.0Y5.0\nM30\n"),
                        InputLimits.DEFAULT)
                .value();
    }

    @Test
    void shouldAskForAWireWhereAFileTellsThatALandIsAVia() throws InputException {
        // a pad that names its pin shows that pins are told: the bored land without one is a via
        assertThat(throughOneHole(pad("A", "1", 0, 0), HOLES).opens())
                .hasSize(1)
                .allMatch(NetVerdict.Open::onlyVias);
        // XNC specification, tool attribute .AperFunction
        assertThat(throughOneHole(land("A", 0, 0), drill("; #@! TA.AperFunction,Plated,PTH,ViaDrill\n"))
                        .opens())
                .hasSize(1)
                .allMatch(NetVerdict.Open::onlyVias);
    }

    @Test
    void shouldNotCallABoredLandAViaWhereNoFileTells() throws InputException {
        NetVerdict verdict = throughOneHole(land("A", 0, 0), HOLES);
        assertThat(verdict.opens()).isEmpty();
        assertThat(verdict.handJoins()).extracting(NetVerdict.HandJoin::kind).containsExactly("pin or via");
        assertThat(throughOneHole(pad("A", "1", 0, 0), drill("; #@! TA.AperFunction,Plated,PTH,ComponentDrill\n"))
                        .opens())
                .isEmpty();
    }

    @Test
    void shouldTakePinsAndHolesFromTheNetlistWhereTheLayerImagesNameNone() throws InputException {
        String records = record("VIN", "J1", "1", 0, 0) + record("VIN", "VIA", "", 10, 0);
        Netlist netlist = DesignReader.readNetlist(
                        SourceFile.ofText("n.ipc", "P  UNITS CUST 1\n" + records + "999\n"), InputLimits.DEFAULT)
                .value();
        String image = "%TO.N,VIN*%D10*X0Y0D03*X10000000D03*D11*X0Y0D02*X10000000D01*";
        Map<Face, LayerImage> both = new EnumMap<>(Face.class);
        both.put(Face.TOP, layer(image));
        both.put(Face.BOTTOM, layer(image));
        IntendedNets nets = IntendedNets.of(both, netlist, null, Set.of(Face.TOP, Face.BOTTOM));
        assertThat(nets.source()).isEqualTo(IntendedNets.Source.ATTRIBUTES);
        assertThat(nets.nets().get(0).places())
                .filteredOn(p -> p.xMm() == 0)
                .allMatch(p -> !p.via() && "J1-1".equals(p.pin()) && p.holeMm() != null);
        assertThat(nets.nets().get(0).places())
                .filteredOn(p -> p.xMm() == 10)
                .allMatch(p -> p.via() && p.pin() == null && p.holeMm() != null);
    }

    @Test
    void shouldTakeNetsFromTheNetlistAndTellWhereTheLayerDisagrees() throws InputException {
        String head = "P  UNITS CUST 1\n";
        String records =
                record("VIN", "J1", "1", 0, 0) + record("VIN", "J1", "2", 10, 0) + record("GND", "J1", "3", 20, 0);
        Netlist netlist = DesignReader.readNetlist(
                        SourceFile.ofText("n.ipc", head + records + "999\n"), InputLimits.DEFAULT)
                .value();
        Map<Face, LayerImage> good =
                Map.of(Face.BOTTOM, layer("D10*X0Y0D03*X10000000D03*X20000000D03*D11*X0Y0D02*X10000000D01*"));
        assertThat(NetlistCheck.compare(netlist, good, null).nets()).allMatch(NetVerdict.NetState::good);
        assertThat(IntendedNets.of(good, netlist, null, Set.of(Face.BOTTOM)).source())
                .isEqualTo(IntendedNets.Source.NETLIST);
        Map<Face, LayerImage> other =
                Map.of(Face.BOTTOM, layer("D10*X0Y0D03*X10000000D03*X20000000D03*D11*X10000000Y0D02*X20000000D01*"));
        NetVerdict verdict = NetlistCheck.compare(netlist, other, null);
        assertThat(verdict.opens()).hasSize(1);
        assertThat(verdict.shorts()).hasSize(1);
    }

    static String record(String net, String part, String pin, double x, double y) {
        return String.format(
                        java.util.Locale.ROOT,
                        "317%-14s   %-6s-%-4s D0800PA00X%+07dY%+07dX1600Y0000R000 S0%n",
                        net,
                        part,
                        pin,
                        Math.round(x * 1000),
                        Math.round(y * 1000))
                .replace(System.lineSeparator(), "\n");
    }

    @Test
    void shouldFallBackOnWhatTheLayerJoins() throws InputException {
        Map<Face, LayerImage> layers =
                Map.of(Face.BOTTOM, layer("D10*X0Y0D03*X10000000D03*X20000000D03*D11*X0Y0D02*X10000000D01*"));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.BOTTOM));
        assertThat(nets.source()).isEqualTo(IntendedNets.Source.CONNECTIVITY);
        assertThat(nets.nets()).hasSize(2);
        assertThat(nets.nets().get(0).named()).isFalse();
        assertThat(IntendedNets.of(Map.of(), null, null, Set.of(Face.TOP)).source())
                .isEqualTo(IntendedNets.Source.NONE);
    }

    @Test
    void shouldGiveTerminalsOnTheRingInTheBlanksFrame() throws InputException {
        Map<Face, LayerImage> layers = Map.of(
                Face.BOTTOM,
                layer(pad("VIN", "1", 0, 0)
                        + pad("VIN", "2", 10, 0)
                        + track("VIN", 0, 0, 10, 0)
                        + pad("VIN", "3", 20, 0)));
        IntendedNets nets = IntendedNets.of(layers, null, HOLES, Set.of(Face.BOTTOM));
        Placement placement = new Placement(60, 40, 5, 7, 0, List.of(new Placement.Side(Face.BOTTOM, Turn.NO)));
        List<Terminal> terminals = SideTerminals.of(nets, placement, 0, layers.get(Face.BOTTOM), (x, y) -> true);
        assertThat(terminals).hasSize(3);
        assertThat(terminals.get(0).group()).isEqualTo(terminals.get(1).group());
        assertThat(terminals.get(2).group()).isNotEqualTo(terminals.get(0).group());
        assertThat(terminals.get(0).xMm()).isBetween(60 - 5 - 0.8, 60 - 5 - 0.4);
        assertThat(terminals.get(0).yMm()).isEqualTo(7);
    }

    @Test
    void shouldAskMilledPiecesInTheBlanksFrame() {
        Placement placement = new Placement(
                60,
                40,
                5,
                7,
                0,
                List.of(new Placement.Side(Face.BOTTOM, Turn.NO), new Placement.Side(Face.TOP, Turn.ABOUT_Y)));
        PlacedPieces pieces = new PlacedPieces(
                placement, List.of((x, y) -> x == 52 && y == 11 ? 3 : -1, (x, y) -> x == 8 && y == 11 ? 4 : -1));
        assertThat(pieces.pieceAt(Face.BOTTOM, 3, 4)).isEqualTo(3);
        assertThat(pieces.pieceAt(Face.TOP, 3, 4)).isEqualTo(4);
        assertThat(pieces.pieceAt(Face.TOP, 4, 4)).isEqualTo(-1);
    }

    @Test
    void shouldNameThePlantedBridgeFiftyTimesInFiftyAndStaySilentOnCleanBoards() throws InputException {
        for (long seed = 1; seed <= 50; seed++) {
            Random random = new Random(seed);
            int n = 8 + random.nextInt(12);
            StringBuilder body = new StringBuilder();
            for (int k = 0; k < n; k++) {
                body.append(pad("N" + k, "" + (2 * k), 0, 3 * k)).append(pad("N" + k, "" + (2 * k + 1), 30, 3 * k));
                body.append(track("N" + k, 0, 3 * k, 30, 3 * k));
            }
            Map<Face, LayerImage> clean = Map.of(Face.BOTTOM, layer(body.toString()));
            IntendedNets nets = IntendedNets.of(clean, null, null, Set.of(Face.BOTTOM));
            NetVerdict good = NetJudge.judge(nets, List.of(), drawn(clean));
            assertThat(good.nets()).as("seed %d", seed).allMatch(NetVerdict.NetState::good);
            int from = random.nextInt(n - 1);
            double x = 2 + 26 * random.nextDouble();
            body.append("%TD*%D11*")
                    .append(xy(x, 3 * from))
                    .append("D02*")
                    .append(xy(x, 3 * from + 3))
                    .append("D01*");
            Map<Face, LayerImage> bridged = Map.of(Face.BOTTOM, layer(body.toString()));
            NetVerdict bad = NetJudge.judge(nets, List.of(), drawn(bridged));
            assertThat(bad.shorts()).as("seed %d", seed).hasSize(1);
            assertThat(bad.shorts().get(0).netA()).isEqualTo("N" + from);
            assertThat(bad.shorts().get(0).netB()).isEqualTo("N" + (from + 1));
            assertThat(bad.opens()).isEmpty();
        }
    }
}
