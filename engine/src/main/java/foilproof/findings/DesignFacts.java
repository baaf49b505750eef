package foilproof.findings;

import foilproof.bench.Face;
import foilproof.bench.Side;
import foilproof.copper.Terminal;
import foilproof.design.LayerImage;
import foilproof.design.Placement;
import foilproof.design.PlaneMap;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetJudge;
import foilproof.electrical.NetPlace;
import foilproof.electrical.NetVerdict;
import foilproof.electrical.SideTerminals;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What was intended, laid on the blank, and which nets came out whole and apart. */
public final class DesignFacts {
    private final Examination x;
    private final ReadDesign read;
    private final Placement placement;
    private final IntendedNets nets;
    private final boolean netsKnown;
    private @Nullable NetVerdict verdict;
    private final Set<Long> netPieces = new HashSet<>();

    DesignFacts(Examination x, ReadDesign read) {
        this.x = x;
        this.read = read;
        this.placement = Placement.of(x.job());
        this.nets = IntendedNets.of(read.layers(), read.netlist(), read.drill(), faces());
        this.netsKnown = nets.source() != IntendedNets.Source.NONE;
    }

    private Set<Face> faces() {
        if (x.job().blank().bothSides()) {
            return EnumSet.allOf(Face.class);
        }
        return EnumSet.of(x.job().sides().get(0).face());
    }

    /** The files as read. */
    public ReadDesign read() {
        return read;
    }

    /** Where the design lies. */
    public Placement placement() {
        return placement;
    }

    /** The nets that were meant. */
    public IntendedNets nets() {
        return nets;
    }

    /** Which nets are whole and apart; null where no file says what the nets are. */
    public @Nullable NetVerdict verdict() {
        synchronized (x) {
            if (netsKnown && verdict == null) {
                verdict = NetJudge.judge(nets, x.job().joins(), this::pieceAt);
            }
            return verdict;
        }
    }

    /** The last side on which a face lies up, from 1; 0 where it never does. */
    public int sideOf(Face face) {
        int found = 0;
        for (Side side : x.job().sides()) {
            if (side.face() == face) {
                found = side.number();
            }
        }
        return found;
    }

    /** The layer image of the face that lies up on a side, in design coordinates, or null. */
    public @Nullable LayerImage layerUp(int side) {
        return read.layers().get(x.job().sides().get(side - 1).face());
    }

    /** From design coordinates to the blank as it lies on a side, from 1. */
    public PlaneMap blankFromDesign(int side) {
        return placement.blankFromDesign(side - 1);
    }

    /** From the blank as it lies on a side, from 1, to design coordinates. */
    public PlaneMap designFromBlank(int side) {
        return placement.designFromBlank(side - 1);
    }

    /** A place of a net on the blank: side (from 1), x, y in mm; null where its face is never milled. */
    public double @Nullable [] onBlank(NetPlace place) {
        int side = sideOf(place.face());
        if (side == 0) {
            return null;
        }
        PlaneMap map = blankFromDesign(side);
        return new double[] {side, map.xMm(place.xMm(), place.yMm()), map.yMm(place.xMm(), place.yMm())};
    }

    /** A place as it lies on the blank; extents swap where the design is turned by a quarter. */
    NetPlace laidOn(NetPlace place, double[] at) {
        PlaneMap map = blankFromDesign((int) at[0]);
        return new NetPlace(
                place.face(),
                at[1],
                at[2],
                Math.abs(map.xx()) * place.widthMm() + Math.abs(map.xy()) * place.heightMm(),
                Math.abs(map.yx()) * place.widthMm() + Math.abs(map.yy()) * place.heightMm(),
                place.holeMm(),
                place.pin(),
                place.via(),
                place.line());
    }

    /** Whether a piece of a side's copper carries a place of any net; false where no nets are known. */
    boolean carriesNet(int side, int piece) {
        verdict();
        return netPieces.contains(side * 1_000_000L + piece);
    }

    /** Name of a net on a piece of a side's copper; null where it carries none. */
    @Nullable
    String netOn(int side, int piece) {
        if (!carriesNet(side, piece)) {
            return null;
        }
        for (IntendedNets.Net net : nets.nets()) {
            if (touches(net, side, piece)) {
                return net.name();
            }
        }
        return null;
    }

    /** Stated voltage of the net on a piece of a side's copper, V; 0 where none is stated. */
    double volts(int side, int piece) {
        for (foilproof.bench.Net stated : x.job().nets()) {
            if (stated.voltageV().isEmpty()) {
                continue;
            }
            for (IntendedNets.Net net : nets.nets()) {
                if (net.name().equals(stated.name()) && touches(net, side, piece)) {
                    return stated.voltageV().getAsDouble();
                }
            }
        }
        return 0;
    }

    /** Whether a net of that name has copper on a piece of a side. */
    boolean carries(String name, int side, int piece) {
        for (IntendedNets.Net net : nets.nets()) {
            if (net.name().equals(name) && touches(net, side, piece)) {
                return true;
            }
        }
        return false;
    }

    /** Whether any design file has a net of that name. */
    boolean has(String name) {
        return nets.nets().stream().anyMatch(n -> n.name().equals(name));
    }

    /** A few of the design's net names, for messages. */
    String someNames() {
        List<String> names = nets.nets().stream()
                .filter(IntendedNets.Net::named)
                .map(IntendedNets.Net::name)
                .sorted()
                .limit(8)
                .toList();
        return names.isEmpty() ? "no named nets" : String.join(", ", names);
    }

    private boolean touches(IntendedNets.Net net, int side, int piece) {
        for (NetPlace place : net.places()) {
            for (double[] probe : place.probes()) {
                if (sideOf(place.face()) == side && pieceAt(place.face(), probe[0], probe[1]) == piece) {
                    return true;
                }
            }
        }
        return false;
    }

    private int pieceAt(Face face, double xMm, double yMm) {
        int side = sideOf(face);
        if (side == 0) {
            // copper that no side mills is whole
            return x.job().blank().bothSides() ? 0 : -1;
        }
        PlaneMap map = blankFromDesign(side);
        int piece = x.copper(side).map().pieceAt(map.xMm(xMm, yMm), map.yMm(xMm, yMm));
        netPieces.add(side * 1_000_000L + piece);
        return piece;
    }

    /** The places that the copper of a side must join or keep apart, as the Z window asks for them. */
    static List<Terminal> terminals(Examination x, ReadDesign read, int side, foilproof.design.CopperProbe stays) {
        if (read.layers().isEmpty() && read.netlist() == null) {
            return List.of();
        }
        Set<Face> faces = x.job().blank().bothSides()
                ? EnumSet.allOf(Face.class)
                : EnumSet.of(x.job().sides().get(0).face());
        return SideTerminals.of(
                IntendedNets.of(read.layers(), read.netlist(), read.drill(), faces),
                Placement.of(x.job()),
                side - 1,
                read.layers().get(x.job().sides().get(side - 1).face()),
                stays);
    }
}
