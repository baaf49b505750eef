package foilproof.copper;

import foilproof.geom.DisjointSets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The Z errors between which the copper hangs together as it must: from a merge tree, by terminals where a design is
 * known, else by the pieces above {@link CopperMap#CRUMB_MM2} that the set-up itself (e = 0) leaves.
 */
public final class NetLimits {
    /** Limits that come near the least one and are found again on a finer grid, at most. */
    private static final int MOST_REFINED = 12;

    private final MergeTree tree;
    private final MarginField field;
    private final double errorMm;
    private final int leastCells;
    private @Nullable ZLimit apart;
    private @Nullable ZLimit whole;
    private boolean beyondTree;
    /** Where nets join and where one falls apart, as the cells have it. */
    private final List<ZLimit> aparts = new ArrayList<>();

    private final List<ZLimit> wholes = new ArrayList<>();
    private final Map<Integer, MarginRows> rowCache = new LinkedHashMap<>();
    private final RowPool pool;

    private NetLimits(MergeTree tree) {
        this.tree = tree;
        field = tree.field();
        pool = new RowPool(field.columns());
        // Crests are exact where two samples lie on each wall; heights are floats, walls curve within a cell.
        errorMm = Math.max(0.001, 0.1 * field.cellMm() * field.steepestSlope());
        leastCells = (int) StrictMath.ceil(CopperMap.CRUMB_MM2 / (field.cellMm() * field.cellMm()) - 1e-9);
    }

    /**
     * Judged by pieces: at e = 0 each piece counts; none may join another, fall into two pieces, or vanish.
     *
     * @param ignored indices of the tree's asked points that lie in pieces that are leftover and no nets
     */
    public static NetLimits byPieces(MergeTree tree, int... ignored) {
        NetLimits limits = new NetLimits(tree);
        limits.judgePieces(ignored);
        limits.refine();
        return limits;
    }

    /**
     * Judged by terminals: the k-th terminal is the k-th point that the tree was asked for.
     *
     * @param terminals at least the terminals of this side
     */
    public static NetLimits byTerminals(MergeTree tree, List<Terminal> terminals) {
        NetLimits limits = new NetLimits(tree);
        limits.judgeTerminals(terminals);
        limits.refine();
        return limits;
    }

    /** Whether two nets, or parts of one, hang together otherwise than the tree tells: then one without bounds is asked. */
    boolean beyondTree() {
        return beyondTree;
    }

    /**
     * Finds the limits again on a finer grid. The cells may see a saddle too low, by no more than
     * {@link SaddleRefiner#roomMm}: others that come so near to the limit are looked at, too.
     */
    private void refine() {
        double room = SaddleRefiner.roomMm(field);
        beyondTree = aparts.stream().anyMatch(l -> l.eMm() >= tree.ceilingMm())
                || wholes.stream().anyMatch(l -> Double.isInfinite(l.eMm()));
        aparts.sort(Comparator.comparingDouble(l -> -l.eMm()));
        ZLimit best = null;
        for (int k = 0; k < Math.min(MOST_REFINED, aparts.size()); k++) {
            if (best != null && aparts.get(k).eMm() + room <= best.eMm()) {
                break;
            }
            ZLimit finer = SaddleRefiner.saddle(field, aparts.get(k));
            best = best == null || finer.eMm() > best.eMm() ? finer : best;
        }
        apart = best;
        wholes.sort(Comparator.comparingDouble(ZLimit::eMm));
        best = null;
        for (int k = 0; k < Math.min(MOST_REFINED, wholes.size()); k++) {
            ZLimit limit = wholes.get(k);
            if (best != null && limit.eMm() - 2 * errorMm >= best.eMm()) {
                break;
            }
            ZLimit finer = limit.kind() == ZLimit.Kind.PIECE_LOST
                    ? SaddleRefiner.peak(field, limit)
                    : SaddleRefiner.saddle(field, limit);
            best = best == null || finer.eMm() < best.eMm() ? finer : best;
        }
        whole = best;
    }

    /** Below this error two nets are one; null where none are within what is known. */
    public @Nullable ZLimit apart() {
        return apart;
    }

    /** From this error on a net is in two or gone; null where none is within what is known. */
    public @Nullable ZLimit whole() {
        return whole;
    }

    private void judgePieces(int[] ignored) {
        Saddles s = tree.saddles();
        int n = tree.peaks();
        DisjointSets sets = new DisjointSets(n);
        long[] cells = new long[n];
        int[] top = new int[n];
        for (int i = 0; i < n; i++) {
            cells[i] = tree.copperCells(i);
            top[i] = i;
        }
        int positive = 0;
        List<int[]> splits = new ArrayList<>();
        while (positive < s.size && s.height[positive] > 0) {
            int a = sets.find(s.a[positive]);
            int b = sets.find(s.b[positive]);
            if (Math.min(cells[a], cells[b]) >= leastCells) {
                splits.add(new int[] {positive, top[a], top[b]});
            }
            join(sets, a, b, cells, top);
            positive++;
        }
        boolean[] skip = new boolean[n];
        for (int p : ignored) {
            if (tree.basinOfPoint(p) >= 0) {
                skip[sets.find(tree.basinOfPoint(p))] = true;
            }
        }
        boolean[] piece = new boolean[n];
        for (int i = 0; i < n; i++) {
            piece[i] = sets.find(i) == i && cells[i] >= leastCells && !skip[i];
        }
        judgeSplits(sets, splits, skip);
        judgeVanishing(piece, top);
        for (int k = positive; k < s.size && (aparts.isEmpty() || s.height[k] > highest(aparts)); k++) {
            int a = sets.find(s.a[k]);
            int b = sets.find(s.b[k]);
            if (piece[a] && piece[b]) {
                raiseApart(ZLimit.at(
                        ZLimit.Kind.NETS_JOINED, s.height[k], errorMm, tree.xOf(s.cell[k]), tree.yOf(s.cell[k])));
            }
            boolean any = piece[a] || piece[b];
            sets.union(a, b);
            piece[sets.find(a)] = any;
        }
    }

    /** Saddles not above this cannot be higher than the first, however finely they are looked at. */
    private double highest(List<ZLimit> found) {
        return found.get(0).eMm() - SaddleRefiner.roomMm(field);
    }

    private void join(DisjointSets sets, int a, int b, long[] cells, int[] top) {
        int high = tree.peakMm(top[a]) >= tree.peakMm(top[b]) ? top[a] : top[b];
        long c = cells[a] + cells[b];
        sets.union(a, b);
        int root = sets.find(a);
        cells[root] = c;
        top[root] = high;
    }

    /** The lowest saddle above e = 0 at which both sides are pieces. */
    private void judgeSplits(DisjointSets sets, List<int[]> splits, boolean[] skip) {
        Saddles s = tree.saddles();
        for (int k = splits.size() - 1; k >= 0; k--) {
            int saddle = splits.get(k)[0];
            if (skip[sets.find(s.a[saddle])]) {
                continue;
            }
            float e = s.height[saddle];
            if (!wholes.isEmpty() && e > wholes.get(0).eMm() + 2 * SaddleRefiner.roomMm(field)) {
                return;
            }
            if (isPiece(splits.get(k)[1], e) && isPiece(splits.get(k)[2], e)) {
                lowerWhole(ZLimit.at(
                        ZLimit.Kind.PIECE_SEVERED, e, errorMm, tree.xOf(s.cell[saddle]), tree.yOf(s.cell[saddle])));
            }
        }
    }

    /** A piece is lost where its highest peak is cleared; what breaks off it before may be a crumb. */
    private void judgeVanishing(boolean[] piece, int[] top) {
        for (int i = 0; i < piece.length; i++) {
            float peak = tree.peakMm(top[i]);
            if (piece[i] && peak < tree.ceilingMm()) {
                double x = (tree.peakColumn(top[i]) + 0.5) * field.cellMm();
                double y = (tree.peakRow(top[i]) + 0.5) * field.cellMm();
                lowerWhole(ZLimit.at(ZLimit.Kind.PIECE_LOST, peak, errorMm, x, y));
            }
        }
    }

    /** Whether the component of {e* > e} round a peak is larger than a crumb; stops as soon as it is. */
    private boolean isPiece(int peak, float e) {
        int columns = field.columns();
        double wanted = CopperMap.CRUMB_MM2 / (field.cellMm() * field.cellMm());
        double cells = 0;
        ArrayDeque<Long> queue = new ArrayDeque<>();
        Set<Long> seen = new HashSet<>();
        long start = (long) tree.peakRow(peak) * columns + tree.peakColumn(peak);
        queue.add(start);
        seen.add(start);
        while (!queue.isEmpty() && cells <= wanted) {
            long at = queue.poll();
            int j = (int) (at / columns);
            int i = (int) (at % columns);
            cells += coverage(j, i, e);
            if (rows(j).lifted(j)[i] <= e) {
                continue;
            }
            visit(queue, seen, j, i - 1, columns);
            visit(queue, seen, j, i + 1, columns);
            visit(queue, seen, j - 1, i, columns);
            visit(queue, seen, j + 1, i, columns);
        }
        return cells > wanted;
    }

    private void visit(ArrayDeque<Long> queue, Set<Long> seen, int j, int i, int columns) {
        if (i >= 0 && j >= 0 && i < columns && j < field.rows() && seen.add((long) j * columns + i)) {
            queue.add((long) j * columns + i);
        }
    }

    /** How much of a cell is copper at an error: by the wall's slope where it slopes, else whole or not at all. */
    private double coverage(int j, int i, float e) {
        MarginRows r = rows(j);
        float v = r.raw(j)[i];
        if (i < 1 || j < 1 || i + 1 >= field.columns() || j + 1 >= field.rows()) {
            return v > e ? 1 : 0;
        }
        double gx = 0.5 * (r.raw(j)[i + 1] - r.raw(j)[i - 1]);
        double gy = 0.5 * (r.raw(j + 1)[i] - r.raw(j - 1)[i]);
        double g = Math.sqrt(gx * gx + gy * gy);
        if (!(g > 1e-9 && g <= MarginRows.steepestStep(field))) {
            return v > e ? 1 : 0;
        }
        return Math.max(0, Math.min(1, 0.5 + (v - e) / g));
    }

    private MarginRows rows(int row) {
        int block = row >> 4;
        MarginRows have = rowCache.get(block);
        if (have == null) {
            if (rowCache.size() > 16) {
                rowCache.values().forEach(MarginRows::release);
                rowCache.clear();
            }
            have = new MarginRows(field, block << 4, Math.min(field.rows(), (block << 4) + 16), pool);
            rowCache.put(block, have);
        }
        return have;
    }

    private void judgeTerminals(List<Terminal> terminals) {
        int n = tree.peaks();
        DisjointSets sets = new DisjointSets(n);
        List<@Nullable Map<Integer, Integer>> groups = new ArrayList<>(java.util.Collections.nCopies(n, null));
        int[] net = new int[n];
        java.util.Arrays.fill(net, Integer.MIN_VALUE);
        Map<Integer, Integer> wanted = new HashMap<>();
        for (int k = 0; k < terminals.size(); k++) {
            Terminal t = terminals.get(k);
            wanted.merge(t.group(), 1, Integer::sum);
            int b = tree.basinOfPoint(k);
            if (b < 0) {
                lowerWhole(ZLimit.at(ZLimit.Kind.NET_OPEN, Double.NEGATIVE_INFINITY, 0, t.xMm(), t.yMm()));
                continue;
            }
            if (net[b] != Integer.MIN_VALUE && net[b] != t.net()) {
                raiseApart(ZLimit.at(ZLimit.Kind.NETS_JOINED, tree.peakMm(b), errorMm, t.xMm(), t.yMm()));
            }
            net[b] = t.net();
            Map<Integer, Integer> g = groups.get(b);
            if (g == null) {
                g = new HashMap<>();
                groups.set(b, g);
            }
            g.merge(t.group(), 1, Integer::sum);
            double peak = tree.peakMm(b);
            if (peak < tree.ceilingMm()) {
                lowerWhole(ZLimit.at(ZLimit.Kind.NET_OPEN, peak, errorMm, t.xMm(), t.yMm()));
            }
        }
        Saddles s = tree.saddles();
        for (int k = 0; k < s.size; k++) {
            mergeTerminals(sets, groups, net, s, k, wanted);
        }
        for (int k = 0; k < terminals.size(); k++) {
            Terminal t = terminals.get(k);
            int b = tree.basinOfPoint(k);
            Map<Integer, Integer> g = b < 0 ? null : groups.get(sets.find(b));
            if (g == null || !Objects.equals(wanted.get(t.group()), g.get(t.group()))) {
                lowerWhole(ZLimit.at(ZLimit.Kind.NET_OPEN, Double.NEGATIVE_INFINITY, 0, t.xMm(), t.yMm()));
            }
        }
    }

    private void mergeTerminals(
            DisjointSets sets,
            List<@Nullable Map<Integer, Integer>> groups,
            int[] net,
            Saddles s,
            int k,
            Map<Integer, Integer> wanted) {
        int a = sets.find(s.a[k]);
        int b = sets.find(s.b[k]);
        sets.union(a, b);
        int root = sets.find(a);
        Map<Integer, Integer> ga = groups.get(a);
        Map<Integer, Integer> gb = groups.get(b);
        double x = tree.xOf(s.cell[k]);
        double y = tree.yOf(s.cell[k]);
        if (ga != null && gb != null) {
            if (net[a] != net[b]) {
                raiseApart(ZLimit.at(ZLimit.Kind.NETS_JOINED, s.height[k], errorMm, x, y));
            }
            Map<Integer, Integer> small = ga.size() < gb.size() ? ga : gb;
            Map<Integer, Integer> large = small == ga ? gb : ga;
            for (Map.Entry<Integer, Integer> entry : small.entrySet()) {
                int have = large.merge(entry.getKey(), entry.getValue(), Integer::sum);
                if (have == wanted.getOrDefault(entry.getKey(), 0) && have > entry.getValue()) {
                    lowerWhole(ZLimit.at(ZLimit.Kind.NET_OPEN, s.height[k], errorMm, x, y));
                }
            }
            groups.set(root, large);
            net[root] = net[a];
        } else {
            groups.set(root, ga != null ? ga : gb);
            net[root] = ga != null ? net[a] : net[b];
        }
    }

    private void raiseApart(ZLimit limit) {
        aparts.add(limit);
    }

    private void lowerWhole(ZLimit limit) {
        wholes.add(limit);
    }
}
