package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.design.CopperPieces;
import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Netlist;
import foilproof.design.Pad;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The nets that were meant: from the net names in the layer images where they carry any, else from the netlist, else
 * from what the layer images themselves join.
 *
 * @param source where they come from
 * @param nets every net, in the order of its file
 */
public record IntendedNets(Source source, List<Net> nets) {
    /** Copies the list. */
    public IntendedNets {
        nets = List.copyOf(nets);
    }

    /** Where the nets come from. */
    public enum Source {
        /** Net names in the layer images (attribute N). */
        ATTRIBUTES,
        /** The netlist file. */
        NETLIST,
        /** Copper that the layer images join; the nets have no names of their own. */
        CONNECTIVITY,
        /** No design file tells nets, or only layer images that were cut short. */
        NONE
    }

    /**
     * One net.
     *
     * @param name its name; for a pad of its own, or a net without a name, words that say where it is
     * @param named true where the name is the design's own
     * @param places where it must have copper
     */
    public record Net(String name, boolean named, List<NetPlace> places) {
        /** Copies the list. */
        public Net {
            places = List.copyOf(places);
        }
    }

    /**
     * Finds the nets.
     *
     * @param layers the layer images by face, those that there are, design coordinates
     * @param netlist the netlist, or null
     * @param drill the drill file, or null: it tells which pads are bored
     * @param faces the faces that the blank has copper on
     */
    public static IntendedNets of(
            Map<Face, LayerImage> layers, @Nullable Netlist netlist, @Nullable DrillFile drill, Set<Face> faces) {
        boolean named = false;
        for (LayerImage layer : layers.values()) {
            named |= !layer.netNames().isEmpty();
        }
        if (named) {
            IntendedNets byAttributes = fromAttributes(layers, netlist, drill, faces);
            // Names on areas and traces alone say nothing of pads: then the netlist, or what the image joins, tells
            // more.
            if (!byAttributes.nets().isEmpty()) {
                return byAttributes;
            }
        }
        if (netlist != null && !netlist.points().isEmpty()) {
            return fromNetlist(netlist, faces);
        }
        // what an image that was cut short leaves apart, the whole one may join
        return layers.isEmpty() || layers.values().stream().anyMatch(LayerImage::cutShort)
                ? new IntendedNets(Source.NONE, List.of())
                : fromConnectivity(layers, drill, faces);
    }

    /**
     * Nets by the names in the layer images. A netlist beside them tells which pads are bored and which of the bored
     * ones are pins of parts, where the images and the drill file do not.
     */
    public static IntendedNets fromAttributes(
            Map<Face, LayerImage> layers, @Nullable Netlist netlist, @Nullable DrillFile drill, Set<Face> faces) {
        Map<String, List<NetPlace>> byName = new LinkedHashMap<>();
        List<Net> singles = new ArrayList<>();
        HoleTable holes = new HoleTable(drill, netlist);
        boolean told = pinsTold(layers, netlist);
        for (Face face : Face.values()) {
            LayerImage layer = layers.get(face);
            if (layer == null || !faces.contains(face)) {
                continue;
            }
            for (Pad pad : layer.pads()) {
                NetPlace place = place(pad, face, holes, told);
                String net = pad.net();
                if (net != null) {
                    byName.computeIfAbsent(net, k -> new ArrayList<>()).add(place);
                } else if (pad.attributes().single()) {
                    addSingle(singles, place);
                }
            }
        }
        List<Net> nets = new ArrayList<>();
        byName.forEach((name, places) -> nets.add(new Net(name, true, places)));
        nets.addAll(singles);
        return new IntendedNets(Source.ATTRIBUTES, nets);
    }

    /** A pad of its own; the two lands of one bored pin, one on each face, are one pad. */
    private static void addSingle(List<Net> singles, NetPlace place) {
        for (int i = 0; i < singles.size(); i++) {
            NetPlace other = singles.get(i).places().get(0);
            if (singles.get(i).places().size() == 1
                    && other.sharesHoleWith(place)
                    && Objects.equals(other.pin(), place.pin())) {
                singles.set(i, new Net(singles.get(i).name(), false, List.of(other, place)));
                return;
            }
        }
        singles.add(new Net("no net at " + place.label(), false, List.of(place)));
    }

    /** Whether any file tells the pins of parts from vias; where none does, no bored land is called a via. */
    private static boolean pinsTold(Map<Face, LayerImage> layers, @Nullable Netlist netlist) {
        return netlist != null && netlist.points().stream().anyMatch(p -> p.pin() != null)
                || layers.values().stream()
                        .flatMap(l -> l.pads().stream())
                        .anyMatch(p -> p.pinName() != null || p.attributes().function() != null);
    }

    private static NetPlace place(Pad pad, Face face, HoleTable holes, boolean told) {
        String function = pad.attributes().function();
        double reach = Math.min(pad.widthMm(), pad.heightMm()) / 2;
        Double hole = holes.at(pad.xMm(), pad.yMm(), reach);
        String pin = pad.pinName() != null || hole == null ? pad.pinName() : holes.pinAt(pad.xMm(), pad.yMm(), reach);
        Boolean drilled = hole == null ? null : holes.viaAt(pad.xMm(), pad.yMm(), reach);
        boolean via = function != null
                ? function.startsWith("Via")
                : hole != null && pin == null && (drilled != null ? drilled : told);
        return new NetPlace(face, pad.xMm(), pad.yMm(), pad.widthMm(), pad.heightMm(), hole, pin, via, pad.line());
    }

    /** Nets by the netlist. */
    public static IntendedNets fromNetlist(Netlist netlist, Set<Face> faces) {
        Map<String, List<NetPlace>> byName = new LinkedHashMap<>();
        List<Net> singles = new ArrayList<>();
        for (Netlist.TestPoint p : netlist.points()) {
            if (p.kind() == Netlist.Kind.TOOLING_HOLE) {
                continue;
            }
            List<NetPlace> places = new ArrayList<>();
            for (Face face : Face.values()) {
                boolean here = p.holeMm() != null
                        || p.access() == Netlist.Access.BOTH
                        || (p.access() == Netlist.Access.TOP) == (face == Face.TOP);
                if (here && faces.contains(face)) {
                    places.add(place(p, face));
                }
            }
            if (places.isEmpty()) {
                continue;
            }
            if (p.single()) {
                singles.add(new Net("no net at " + places.get(0).label(), false, places));
            } else {
                byName.computeIfAbsent(p.net(), k -> new ArrayList<>()).addAll(places);
            }
        }
        List<Net> nets = new ArrayList<>();
        byName.forEach((name, places) -> nets.add(new Net(name, true, places)));
        nets.addAll(singles);
        return new IntendedNets(Source.NETLIST, nets);
    }

    private static NetPlace place(Netlist.TestPoint p, Face face) {
        double turn = StrictMath.toRadians(p.rotationDeg());
        double c = Math.abs(StrictMath.cos(turn));
        double s = Math.abs(StrictMath.sin(turn));
        String reference = p.reference();
        boolean via = isVia(p);
        return new NetPlace(
                face,
                p.xMm(),
                p.yMm(),
                p.sizeXMm() * c + p.sizeYMm() * s,
                p.sizeXMm() * s + p.sizeYMm() * c,
                p.holeMm(),
                via || reference == null || p.pin() == null ? null : reference + "-" + p.pin(),
                via,
                p.line());
    }

    private static boolean isVia(Netlist.TestPoint p) {
        return p.holeMm() != null && (p.reference() == null || p.reference().equals("VIA") || p.pin() == null);
    }

    /** Nets by what the layer images join; through pins join both faces. */
    public static IntendedNets fromConnectivity(
            Map<Face, LayerImage> layers, @Nullable DrillFile drill, Set<Face> faces) {
        HoleTable holes = new HoleTable(drill, null);
        boolean told = pinsTold(layers, null);
        List<NetPlace> places = new ArrayList<>();
        List<Integer> pieceOf = new ArrayList<>();
        int pieces = 0;
        for (Face face : Face.values()) {
            LayerImage layer = layers.get(face);
            if (layer == null || !faces.contains(face)) {
                continue;
            }
            CopperPieces own = layer.pieces();
            for (Pad pad : layer.pads()) {
                NetPlace place = place(pad, face, holes, told);
                int piece = -1;
                for (double[] q : place.probes()) {
                    piece = piece < 0 ? own.pieceAt(q[0], q[1]) : piece;
                }
                if (piece >= 0) {
                    places.add(place);
                    pieceOf.add(pieces + piece);
                }
            }
            pieces += own.size();
        }
        DisjointSet sets = new DisjointSet(pieces);
        for (int i = 0; i < places.size(); i++) {
            for (int j = 0; j < i && places.get(i).holeMm() != null; j++) {
                NetPlace a = places.get(i);
                NetPlace b = places.get(j);
                if (a.face() != b.face() && b.holeMm() != null && a.near(b.xMm(), b.yMm())) {
                    sets.union(pieceOf.get(i), pieceOf.get(j));
                }
            }
        }
        Map<Integer, List<NetPlace>> byPiece = new LinkedHashMap<>();
        for (int i = 0; i < places.size(); i++) {
            byPiece.computeIfAbsent(sets.find(pieceOf.get(i)), k -> new ArrayList<>())
                    .add(places.get(i));
        }
        List<Net> nets = new ArrayList<>();
        for (List<NetPlace> net : byPiece.values()) {
            NetPlace first = net.get(0);
            nets.add(new Net(
                    String.format(Locale.ROOT, "net at (%.2f, %.2f) mm", first.xMm(), first.yMm()), false, net));
        }
        return new IntendedNets(Source.CONNECTIVITY, nets);
    }

    /** Finds the hole through a pad, and the pin that sits in it. */
    private static final class HoleTable {
        private static final double CELL_MM = 2;
        private final Map<Long, List<Bored>> cells = new LinkedHashMap<>();

        /** A hole of a design file; the pin is null for a via and where none is known. */
        private record Bored(
                double xMm,
                double yMm,
                double diameterMm,
                @Nullable String pin,
                @Nullable Boolean via) {}

        HoleTable(@Nullable DrillFile drill, @Nullable Netlist netlist) {
            if (drill != null) {
                for (DrillFile.Hole hole : drill.holes()) {
                    String function = hole.tool().function();
                    Boolean via = function == null
                            ? null
                            : function.contains("ViaDrill")
                                    ? Boolean.TRUE
                                    : function.contains("ComponentDrill") ? Boolean.FALSE : null;
                    put(new Bored(hole.xMm(), hole.yMm(), hole.diameterMm(), null, via));
                }
            }
            if (netlist != null) {
                for (Netlist.TestPoint p : netlist.points()) {
                    if (p.holeMm() != null && p.kind() != Netlist.Kind.TOOLING_HOLE) {
                        String pin = isVia(p) ? null : p.reference() + "-" + p.pin();
                        put(new Bored(p.xMm(), p.yMm(), p.holeMm(), pin, null));
                    }
                }
            }
        }

        private void put(Bored hole) {
            cells.computeIfAbsent(key(hole.xMm(), hole.yMm(), 0, 0), k -> new ArrayList<>())
                    .add(hole);
        }

        private static long key(double x, double y, int dx, int dy) {
            return ((long) Math.floor(x / CELL_MM) + dx) * 1_000_003L + (long) Math.floor(y / CELL_MM) + dy;
        }

        /** Diameter of the nearest hole; of the drill file's where both files have it. */
        @Nullable
        Double at(double x, double y, double radiusMm) {
            Bored hole = nearest(x, y, radiusMm, false);
            return hole == null ? null : hole.diameterMm();
        }

        @Nullable
        String pinAt(double x, double y, double radiusMm) {
            Bored hole = nearest(x, y, radiusMm, true);
            return hole == null ? null : hole.pin();
        }

        /** Whether the drill file calls the hole here a via; null where it does not say. */
        @Nullable
        Boolean viaAt(double x, double y, double radiusMm) {
            Bored hole = nearest(x, y, radiusMm, false);
            return hole == null ? null : hole.via();
        }

        private @Nullable Bored nearest(double x, double y, double radiusMm, boolean pins) {
            Bored best = null;
            double least = Math.max(0.15, Math.min(radiusMm, CELL_MM));
            for (int dx = -1; dx <= 1; dx++) {
                for (int dy = -1; dy <= 1; dy++) {
                    for (Bored hole : cells.getOrDefault(key(x, y, dx, dy), List.of())) {
                        double d = StrictMath.hypot(hole.xMm() - x, hole.yMm() - y);
                        if (d < least && (!pins || hole.pin() != null)) {
                            least = d;
                            best = hole;
                        }
                    }
                }
            }
            return best;
        }
    }
}
