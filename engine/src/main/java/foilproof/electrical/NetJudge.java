package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.bench.Join;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Decides which nets are whole and apart: copper joins the places on one piece, hands join what {@code [[join]]} names
 * and the two faces of every part's pin; a via joins nothing unless a join names it.
 */
public final class NetJudge {
    private final IntendedNets nets;
    private final PieceProbe pieces;
    private final Map<Long, Integer> nodeOfPiece = new HashMap<>();
    private final List<NetPlace> places = new ArrayList<>();
    private final List<Integer> netOf = new ArrayList<>();
    private final List<Integer> nodeOf = new ArrayList<>();
    private final List<int[]> joined = new ArrayList<>();
    private final List<int[]> viaJoins = new ArrayList<>();
    private final List<Integer> viaPlace = new ArrayList<>();
    private final List<NetVerdict.HandJoin> handJoins = new ArrayList<>();
    /** Copper that the k-th join goes between. */
    private final Map<Integer, int[]> declared = new LinkedHashMap<>();

    private NetJudge(IntendedNets nets, PieceProbe pieces) {
        this.nets = nets;
        this.pieces = pieces;
    }

    /**
     * Judges.
     *
     * @param nets what was meant
     * @param joins joins made by hand
     * @param pieces the copper as milled
     */
    public static NetVerdict judge(IntendedNets nets, List<Join> joins, PieceProbe pieces) {
        NetJudge judge = new NetJudge(nets, pieces);
        judge.collect();
        judge.join(joins);
        return judge.verdict();
    }

    private int node(Face face, int piece) {
        return nodeOfPiece.computeIfAbsent((long) face.ordinal() << 32 | piece, k -> nodeOfPiece.size());
    }

    private void collect() {
        for (int n = 0; n < nets.nets().size(); n++) {
            for (NetPlace place : nets.nets().get(n).places()) {
                places.add(place);
                netOf.add(n);
                int piece = pieceOf(place);
                nodeOf.add(piece < 0 ? -1 : node(place.face(), piece));
            }
        }
    }

    /** The piece that most of a place's points lie on; the earlier one where two are as frequent. */
    private int pieceOf(NetPlace place) {
        Map<Integer, Integer> count = new LinkedHashMap<>();
        for (double[] p : place.probes()) {
            int piece = pieces.pieceAt(place.face(), p[0], p[1]);
            if (piece >= 0) {
                count.merge(piece, 1, Integer::sum);
            }
        }
        int best = -1;
        int most = 0;
        for (Map.Entry<Integer, Integer> e : count.entrySet()) {
            if (e.getValue() > most) {
                most = e.getValue();
                best = e.getKey();
            }
        }
        return best;
    }

    private void join(List<Join> joins) {
        List<Integer> throughs = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            NetPlace p = places.get(i);
            if (p.holeMm() != null || p.via() || p.pin() != null) {
                throughs.add(i);
            }
        }
        for (Join j : joins) {
            int a = endNode(j.from());
            int b = endNode(j.to());
            int place = placeNear(j.from());
            NetVerdict.HandJoin made = new NetVerdict.HandJoin(
                    j.through() ? "via wire" : "wire",
                    j.from().atMm().xMm(),
                    j.from().atMm().yMm(),
                    place < 0 ? "" : nets.nets().get(netOf.get(place)).name());
            if (a >= 0 && b >= 0) {
                joined.add(new int[] {a, b});
                declared.put(handJoins.size(), new int[] {a, b});
            }
            handJoins.add(made);
        }
        Map<Long, List<Integer>> cells = new HashMap<>();
        for (int i : throughs) {
            NetPlace p = places.get(i);
            for (int k : cells.getOrDefault(cell(p), List.of())) {
                pairFaces(i, k);
            }
            for (int dx = -1; dx <= 1; dx++) {
                for (int dy = -1; dy <= 1; dy++) {
                    cells.computeIfAbsent(
                                    (Math.round(p.xMm() * 2) + dx) * 1_000_003L + Math.round(p.yMm() * 2) + dy,
                                    c -> new ArrayList<>())
                            .add(i);
                }
            }
        }
    }

    private static long cell(NetPlace p) {
        return Math.round(p.xMm() * 2) * 1_000_003L + Math.round(p.yMm() * 2);
    }

    private void pairFaces(int i, int k) {
        NetPlace a = places.get(k);
        NetPlace b = places.get(i);
        if (!a.sharesHoleWith(b)) {
            return;
        }
        if (nodeOf.get(i) < 0 || nodeOf.get(k) < 0) {
            return;
        }
        int[] edge = {nodeOf.get(i), nodeOf.get(k)};
        if (a.via() || b.via()) {
            viaJoins.add(edge);
            viaPlace.add(k);
        } else {
            joined.add(edge);
            handJoins.add(new NetVerdict.HandJoin(
                    a.pin() != null || b.pin() != null ? "pin" : "pin or via",
                    a.xMm(),
                    a.yMm(),
                    nets.nets().get(netOf.get(k)).name()));
        }
    }

    private int placeNear(Join.End end) {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < places.size(); i++) {
            NetPlace p = places.get(i);
            double d = StrictMath.hypot(
                    p.xMm() - end.atMm().xMm(), p.yMm() - end.atMm().yMm());
            if (p.face() == end.face() && p.near(end.atMm().xMm(), end.atMm().yMm()) && d < least) {
                least = d;
                best = i;
            }
        }
        return best;
    }

    /** The copper that an end is soldered to: that of the place it lies in, else of the ring round it. */
    private int endNode(Join.End end) {
        int place = placeNear(end);
        if (place >= 0 && nodeOf.get(place) >= 0) {
            return nodeOf.get(place);
        }
        for (double r : new double[] {0, 0.3, 0.5, 0.7}) {
            for (int k = 0; k < (r == 0 ? 1 : 8); k++) {
                double turn = k * StrictMath.PI / 4;
                int piece = pieces.pieceAt(
                        end.face(),
                        end.atMm().xMm() + r * StrictMath.cos(turn),
                        end.atMm().yMm() + r * StrictMath.sin(turn));
                if (piece >= 0) {
                    return node(end.face(), piece);
                }
            }
        }
        return -1;
    }

    private NetVerdict verdict() {
        DisjointSet sets = new DisjointSet(nodeOfPiece.size());
        DisjointSet withVias = new DisjointSet(nodeOfPiece.size());
        for (int[] edge : joined) {
            sets.union(edge[0], edge[1]);
            withVias.union(edge[0], edge[1]);
        }
        for (int[] edge : viaJoins) {
            withVias.union(edge[0], edge[1]);
        }
        List<NetVerdict.Short> shorts = shorts(sets);
        Map<String, List<String>> with = new HashMap<>();
        for (List<String> together : netsTogether(sets)) {
            for (String name : together) {
                List<String> others = new ArrayList<>(together);
                others.remove(name);
                with.put(name, others);
            }
        }
        List<NetVerdict.NetState> states = new ArrayList<>();
        List<NetVerdict.Open> opens = new ArrayList<>();
        for (int n = 0; n < nets.nets().size(); n++) {
            IntendedNets.Net net = nets.nets().get(n);
            Map<Integer, List<NetPlace>> groups = new LinkedHashMap<>();
            List<NetPlace> missing = new ArrayList<>();
            Map<Integer, Boolean> groupsWithVias = new HashMap<>();
            for (int i = 0; i < places.size(); i++) {
                if (netOf.get(i) != n) {
                    continue;
                }
                if (nodeOf.get(i) < 0) {
                    missing.add(places.get(i));
                } else {
                    groups.computeIfAbsent(sets.find(nodeOf.get(i)), k -> new ArrayList<>())
                            .add(places.get(i));
                    groupsWithVias.put(withVias.find(nodeOf.get(i)), true);
                }
            }
            states.add(new NetVerdict.NetState(
                    net, groups.size(), missing.size(), with.getOrDefault(net.name(), List.of())));
            if (groups.size() > 1 || !missing.isEmpty()) {
                List<List<NetPlace>> parts = new ArrayList<>(groups.values());
                parts.sort(Comparator.comparingInt(g -> -g.size()));
                boolean cured = missing.isEmpty() && groupsWithVias.size() == 1;
                opens.add(new NetVerdict.Open(net.name(), parts, missing, cured ? viasOf(n, sets) : List.of()));
            }
        }
        return new NetVerdict(states, opens, shorts, handJoins);
    }

    private List<NetPlace> viasOf(int net, DisjointSet sets) {
        List<NetPlace> out = new ArrayList<>();
        for (int v = 0; v < viaJoins.size(); v++) {
            int[] edge = viaJoins.get(v);
            if (netOf.get(viaPlace.get(v)) == net && sets.find(edge[0]) != sets.find(edge[1])) {
                out.add(places.get(viaPlace.get(v)));
            }
        }
        return out;
    }

    private Map<Integer, Map<Integer, List<Integer>>> netsByCopper(DisjointSet sets) {
        Map<Integer, Map<Integer, List<Integer>>> out = new LinkedHashMap<>();
        for (int i = 0; i < places.size(); i++) {
            if (nodeOf.get(i) >= 0) {
                out.computeIfAbsent(sets.find(nodeOf.get(i)), k -> new LinkedHashMap<>())
                        .computeIfAbsent(netOf.get(i), k -> new ArrayList<>())
                        .add(i);
            }
        }
        return out;
    }

    private List<List<String>> netsTogether(DisjointSet sets) {
        // a net that is open may be shorted in one of its parts only: all nets that touch are told together
        DisjointSet together = new DisjointSet(nets.nets().size());
        for (Map<Integer, List<Integer>> byNet : netsByCopper(sets).values()) {
            int first = byNet.keySet().iterator().next();
            for (int net : byNet.keySet()) {
                together.union(first, net);
            }
        }
        Map<Integer, List<String>> groups = new LinkedHashMap<>();
        for (int n = 0; n < nets.nets().size(); n++) {
            groups.computeIfAbsent(together.find(n), k -> new ArrayList<>())
                    .add(nets.nets().get(n).name());
        }
        List<List<String>> out = new ArrayList<>();
        for (List<String> group : groups.values()) {
            if (group.size() > 1) {
                out.add(group);
            }
        }
        return out;
    }

    private List<NetVerdict.Short> shorts(DisjointSet sets) {
        List<NetVerdict.Short> out = new ArrayList<>();
        for (Map<Integer, List<Integer>> byNet : netsByCopper(sets).values()) {
            List<Integer> inside = new ArrayList<>();
            List<Integer> outside = new ArrayList<>(byNet.keySet());
            inside.add(outside.remove(0));
            while (!outside.isEmpty()) {
                Pair best = null;
                for (int a : inside) {
                    for (int b : outside) {
                        Pair pair = closest(byNet.getOrDefault(a, List.of()), byNet.getOrDefault(b, List.of()));
                        best = best == null || pair.distance() < best.distance() ? pair : best;
                    }
                }
                if (best == null) {
                    break;
                }
                int netA = netOf.get(best.a());
                int netB = netOf.get(best.b());
                out.add(new NetVerdict.Short(
                        nets.nets().get(netA).name(),
                        nets.nets().get(netB).name(),
                        places.get(best.a()),
                        places.get(best.b()),
                        byHand(byNet, netA, netB),
                        joinBetween(byNet, netA, netB)));
                inside.add(netB);
                outside.remove((Integer) netB);
            }
        }
        return out;
    }

    private Set<Integer> nodes(Map<Integer, List<Integer>> byNet, int net) {
        Set<Integer> nodes = new HashSet<>();
        byNet.getOrDefault(net, List.of()).forEach(i -> nodes.add(nodeOf.get(i)));
        return nodes;
    }

    /** Whether the two nets share no piece of copper. */
    private boolean byHand(Map<Integer, List<Integer>> byNet, int netA, int netB) {
        return Collections.disjoint(nodes(byNet, netA), nodes(byNet, netB));
    }

    /** The declared join that goes from copper of one net to copper of the other; the first where there are several. */
    private NetVerdict.@Nullable HandJoin joinBetween(Map<Integer, List<Integer>> byNet, int netA, int netB) {
        Set<Integer> a = nodes(byNet, netA);
        Set<Integer> b = nodes(byNet, netB);
        for (Map.Entry<Integer, int[]> e : declared.entrySet()) {
            int[] ends = e.getValue();
            if (a.contains(ends[0]) && b.contains(ends[1]) || a.contains(ends[1]) && b.contains(ends[0])) {
                return handJoins.get(e.getKey());
            }
        }
        return null;
    }

    private record Pair(int a, int b, double distance) {}

    private Pair closest(List<Integer> a, List<Integer> b) {
        @Nullable Pair best = null;
        for (int i : a) {
            for (int k : b) {
                NetPlace p = places.get(i);
                NetPlace q = places.get(k);
                double d = StrictMath.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
                if (best == null || d < best.distance()) {
                    best = new Pair(i, k, d);
                }
            }
        }
        return best == null ? new Pair(0, 0, Double.POSITIVE_INFINITY) : best;
    }
}
