package foilproof.findings;

import foilproof.design.LayerImage;
import foilproof.design.RasterGrid;
import foilproof.electrical.Chord;
import foilproof.electrical.NetPlace;
import foilproof.electrical.NetVerdict;
import foilproof.motion.Segments;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Where a net was cut: the least wanted copper that is gone between two of its parts, and the line that took it. */
final class Cuts {
    private static final double MOST_CELLS = 3e6;

    private Cuts() {}

    /**
     * A cut through a net.
     *
     * @param side side, from 1
     * @param xMm its middle, blank's frame of the side
     * @param yMm likewise
     * @param lengthMm how much wanted copper is gone along the net there, mm
     * @param errorMm how far that may be off
     */
    record Cut(int side, double xMm, double yMm, double lengthMm, double errorMm) {}

    /** The cut between two groups of places; null where no layer image tells the way or they share no side. */
    static @Nullable Cut between(Examination x, NetVerdict.Open open) {
        for (CopperFacts copper : x.copper()) {
            LayerImage layer = x.design().layerUp(copper.side());
            if (layer == null) {
                continue;
            }
            for (int g = 1; g < open.groups().size(); g++) {
                Cut cut = onSide(
                        x, copper, layer, open.groups().get(0), open.groups().get(g));
                if (cut != null) {
                    return cut;
                }
            }
        }
        return null;
    }

    private static @Nullable Cut onSide(
            Examination x, CopperFacts copper, LayerImage layer, List<NetPlace> from, List<NetPlace> to) {
        double w = x.job().blank().widthMm();
        double h = x.job().blank().heightMm();
        double cell = Math.max(0.01, Math.sqrt(w * h / MOST_CELLS));
        int columns = (int) Math.ceil(w / cell);
        int rows = (int) Math.ceil(h / cell);
        BitSet wanted = layer.mapped(x.design().blankFromDesign(copper.side()))
                .rasterise(new RasterGrid(0, 0, cell, columns, rows));
        int[] parent = new int[columns * rows];
        int[] cost = costs(copper, cells(x, copper, from, cell, columns, rows, wanted), wanted, parent, cell, columns);
        int end = -1;
        for (int i : cells(x, copper, to, cell, columns, rows, wanted)) {
            if (cost[i] < Integer.MAX_VALUE && (end < 0 || cost[i] < cost[end])) {
                end = i;
            }
        }
        if (end < 0) {
            return null;
        }
        int[] back = costs(copper, List.of(end), wanted, new int[columns * rows], cell, columns);
        return longestGone(copper, parent, new Between(cost, back, cost[end]), end, cell, columns);
    }

    /** How many cells of lost copper lie between a cell and either part of the net, itself counted in both. */
    private record Between(int[] from, int[] to, int least) {
        boolean beside(int i, int middle) {
            // beyond the ends of the gap a cell is as far from one part, but not on any short way to the other
            return from[i] == from[middle] && to[i] < Integer.MAX_VALUE && from[i] + to[i] - 1 <= least;
        }
    }

    /** The least number of lost cells on the way to each wanted cell. */
    private static int[] costs(
            CopperFacts copper, List<Integer> starts, BitSet wanted, int[] parent, double cell, int columns) {
        int[] cost = new int[parent.length];
        Arrays.fill(cost, Integer.MAX_VALUE);
        Arrays.fill(parent, -1);
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        for (int i : starts) {
            cost[i] = 0;
            queue.addLast(i);
        }
        while (!queue.isEmpty()) {
            int i = queue.pollFirst();
            int c = i % columns;
            int[] beside = {c < columns - 1 ? i + 1 : -1, c > 0 ? i - 1 : -1, i + columns, i - columns};
            for (int j : beside) {
                if (j < 0 || j >= cost.length || !wanted.get(j)) {
                    continue;
                }
                int step = pieceAt(copper, j, cell, columns) < 0 || otherPiece(copper, i, j, cell, columns) ? 1 : 0;
                if (cost[i] + step < cost[j]) {
                    cost[j] = cost[i] + step;
                    parent[j] = i;
                    if (step == 0) {
                        queue.addFirst(j);
                    } else {
                        queue.addLast(j);
                    }
                }
            }
        }
        return cost;
    }

    private static int pieceAt(CopperFacts copper, int i, double cell, int columns) {
        return copper.map().pieceAt((i % columns + 0.5) * cell, (i / columns + 0.5) * cell);
    }

    private static boolean gone(CopperFacts copper, int i, double cell, int columns) {
        return pieceAt(copper, i, cell, columns) < 0;
    }

    /** Whether two neighbouring cells lie on two pieces: a cut finer than a cell runs between them. */
    private static boolean otherPiece(CopperFacts copper, int i, int j, double cell, int columns) {
        int a = pieceAt(copper, i, cell, columns);
        int b = pieceAt(copper, j, cell, columns);
        return a >= 0 && b >= 0 && a != b;
    }

    /** The longest gap on the way at which the piece changes; where no piece changes, the longest gap. */
    private static @Nullable Cut longestGone(
            CopperFacts copper, int[] parent, Between between, int end, double cell, int columns) {
        int bestLength = -1;
        int bestMiddle = -1;
        boolean bestParts = false;
        int length = 0;
        int before = -1;
        int piece = -1;
        int[] way = new int[64];
        for (int i = end; i >= 0; i = parent[i]) {
            int here = pieceAt(copper, i, cell, columns);
            if (here < 0) {
                if (length == way.length) {
                    way = Arrays.copyOf(way, 2 * length);
                }
                way[length++] = i;
                continue;
            }
            boolean parts = piece >= 0 && here != piece;
            if ((length > 0 || parts) && (parts && !bestParts || parts == bestParts && length > bestLength)) {
                bestParts = parts;
                bestLength = length;
                bestMiddle = length > 0 ? way[length / 2] : before;
            }
            length = 0;
            piece = here;
            before = i;
        }
        return bestMiddle < 0
                ? null
                : measured(
                        copper,
                        acrossNet(copper, between, bestMiddle, cell, columns),
                        bestLength * cell,
                        cell,
                        columns);
    }

    /**
     * The middle of the gap across the net: the way found may run along its edge, where it is no longer. All cells as far
     * into the gap as the way's own middle lie on a line across it.
     */
    private static int acrossNet(CopperFacts copper, Between between, int middle, double cell, int columns) {
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        BitSet seen = new BitSet();
        List<Integer> line = new ArrayList<>();
        queue.add(middle);
        seen.set(middle);
        double sumC = 0;
        double sumR = 0;
        while (!queue.isEmpty()) {
            int i = queue.pollFirst();
            line.add(i);
            sumC += i % columns;
            sumR += i / columns;
            for (int k = 0; k < 9; k++) {
                int c = i % columns + k % 3 - 1;
                int j = (i / columns + k / 3 - 1) * columns + c;
                if (c >= 0
                        && c < columns
                        && j >= 0
                        && j < between.from().length
                        && !seen.get(j)
                        && between.beside(j, middle)
                        && gone(copper, j, cell, columns)) {
                    seen.set(j);
                    queue.addLast(j);
                }
            }
        }
        int best = middle;
        double least = Double.POSITIVE_INFINITY;
        for (int i : line) {
            double d = StrictMath.hypot(i % columns - sumC / line.size(), i / columns - sumR / line.size());
            if (d < least - 1e-9 || d < least + 1e-9 && i < best) {
                least = d;
                best = i;
            }
        }
        return best;
    }

    /** How wide the gap is from wall to wall; the way in steps along the grid is up to the root of two longer. */
    private static Cut measured(CopperFacts copper, int place, double steps, double cell, int columns) {
        double px = (place % columns + 0.5) * cell;
        double py = (place / columns + 0.5) * cell;
        Chord chord = Chord.narrowest(
                (qx, qy) -> copper.field().exactMarginMm(qx, qy) <= 0,
                px,
                py,
                copper.field().cellMm() / 2,
                steps + 4 * cell);
        if (chord == null
                || chord.lengthMm() < steps / Math.sqrt(2) - 4 * cell
                || StrictMath.hypot(chord.xMm() - px, chord.yMm() - py) > steps) {
            double lengthMm = steps * (1 + 1 / Math.sqrt(2)) / 2;
            return new Cut(copper.side(), px, py, lengthMm, steps - lengthMm + 2 * cell);
        }
        // between parallel walls the chord may slide along them: the place stays in the middle of the net
        return new Cut(copper.side(), px, py, chord.lengthMm(), 0.002);
    }

    private static List<Integer> cells(
            Examination x,
            CopperFacts copper,
            List<NetPlace> places,
            double cell,
            int columns,
            int rows,
            BitSet wanted) {
        List<Integer> out = new ArrayList<>();
        for (NetPlace place : places) {
            if (x.design().sideOf(place.face()) != copper.side()) {
                continue;
            }
            var map = x.design().blankFromDesign(copper.side());
            for (double[] p : place.probes()) {
                int c = (int) Math.floor(map.xMm(p[0], p[1]) / cell);
                int r = (int) Math.floor(map.yMm(p[0], p[1]) / cell);
                // a place of a pad that the cut itself took is no end of the way
                if (c >= 0
                        && r >= 0
                        && c < columns
                        && r < rows
                        && wanted.get(r * columns + c)
                        && !gone(copper, r * columns + c, cell, columns)) {
                    out.add(r * columns + c);
                }
            }
        }
        return out;
    }

    /** The segment that took the copper at a place: the one whose path passes nearest, at foil depth; -1 where none. */
    static int segmentAt(Examination x, int side, double px, double py) {
        Segments s = x.plan().segments();
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (RunFacts run : x.runs()) {
            if (run.side().number() != side || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (low > -x.foilMm() || !x.removes(i)) {
                    continue;
                }
                double radius = run.knownTool().cutRadiusAtHeightMm(-low - x.foilMm());
                double d = Paths.distanceMm(s, i, px, py) - radius;
                if (d < least - 1e-9) {
                    least = d;
                    best = i;
                }
            }
        }
        return best;
    }
}
