package foilproof.electrical;

import foilproof.design.CopperProbe;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * Where copper that nobody asked for joins nets: from the places of every net the copper is flooded, wide parts first, so
 * that two floods meet at the narrowest place of the best way between them (flooding from markers; F. Meyer, Signal
 * Processing 38, 1994, from memory). Copper that the design wants counts as wide without limit: a bridge is looked for
 * outside it. Foil that a groove thinned counts as the narrowest of all, wherever it lies: so floods meet on the floor of
 * a groove that is too shallow, not in the copper beside it. Every stretch along which two floods meet is one bridge.
 */
public final class CopperBridges {
    private static final int MOST_CELLS = 12_000_000;
    private static final int STRAIGHT = 5;
    private static final int DIAGONAL = 7;
    private static final int WIDEST = 4000;

    private final int columns;
    private final int rows;
    private final double x0Mm;
    private final double y0Mm;
    private final double cellMm;
    private final short[] clear;
    private final short[] open;
    private final short[] label;

    /**
     * A bridge, to a cell or two.
     *
     * @param netA one net, as the seeds number it
     * @param netB the other, larger
     * @param xMm where, frame of the copper
     * @param yMm where
     */
    public record Bridge(int netA, int netB, double xMm, double yMm) {}

    /**
     * A place of a net.
     *
     * @param net its number, from 0
     * @param xMm where, frame of the copper
     * @param yMm where
     */
    public record Seed(int net, double xMm, double yMm) {}

    /** What grooves left of the foil. */
    public interface Floor {
        /** Share of the foil that is left at a place where a cutter took some, above 0 and below 1; 0 elsewhere. */
        double share(double xMm, double yMm);
    }

    /** Cells, row by row, in the copper's frame. */
    public interface Wanted {
        /** Which cells of a grid the design wants as copper; lower-left corner, cell, columns, rows. */
        BitSet on(double x0Mm, double y0Mm, double cellMm, int columns, int rows);
    }

    private CopperBridges(CopperProbe copper, Floor thinned, double[] box, double cellMm, Wanted wanted) {
        double w = box[2] - box[0];
        double h = box[3] - box[1];
        int k = 1;
        while ((w / (k * cellMm) + 3) * (h / (k * cellMm) + 3) > MOST_CELLS) {
            k++;
        }
        this.cellMm = k * cellMm;
        x0Mm = Math.floor(box[0] / this.cellMm - 1) * this.cellMm;
        y0Mm = Math.floor(box[1] / this.cellMm - 1) * this.cellMm;
        columns = (int) Math.ceil((box[2] - x0Mm) / this.cellMm) + 1;
        rows = (int) Math.ceil((box[3] - y0Mm) / this.cellMm) + 1;
        clear = new short[columns * rows];
        open = new short[columns * rows];
        label = new short[columns * rows];
        Arrays.fill(label, (short) -1);
        for (int r = 0; r < rows; r++) {
            for (int c = 0; c < columns; c++) {
                clear[r * columns + c] = copperIn(copper, c, r, k, cellMm) ? (short) WIDEST : 0;
            }
        }
        chamfer();
        BitSet floor = new BitSet(clear.length);
        for (int i = 0; i < clear.length; i++) {
            double x = x0Mm + (i % columns + 0.5) * this.cellMm;
            double y = y0Mm + (i / columns + 0.5) * this.cellMm;
            double share = clear[i] > 0 ? thinned.share(x, y) : 0;
            if (share > 0) {
                floor.set(i);
                // Below all whole copper, the thickest foil first: there the nets are joined most.
                open[i] = (short) (WIDEST * (share - 1));
                clear[i] = 1;
            } else {
                open[i] = clear[i];
            }
        }
        BitSet want = wanted.on(x0Mm, y0Mm, this.cellMm, columns, rows);
        want.andNot(floor);
        for (int i = want.nextSetBit(0); i >= 0; i = want.nextSetBit(i + 1)) {
            if (clear[i] > 0) {
                clear[i] = WIDEST;
            }
        }
    }

    /**
     * Finds the bridges of one piece of copper.
     *
     * @param copper the piece
     * @param thinned how much a cutter left where it took foil
     * @param box the box round it: x0, y0, x1, y1, mm
     * @param cellMm cell on which the copper was judged, mm; larger ones are used where the box needs too many
     * @param wanted what the design wants there; nothing where it is not known
     * @param seeds places of the nets on the piece
     */
    public static List<Bridge> find(
            CopperProbe copper, Floor thinned, double[] box, double cellMm, Wanted wanted, List<Seed> seeds) {
        CopperBridges b = new CopperBridges(copper, thinned, box, cellMm, wanted);
        b.flood(seeds);
        return b.meetings();
    }

    private boolean copperIn(CopperProbe copper, int c, int r, int k, double fineMm) {
        for (int j = 0; j < k; j++) {
            for (int i = 0; i < k; i++) {
                if (copper.copperAt(x0Mm + c * cellMm + (i + 0.5) * fineMm, y0Mm + r * cellMm + (j + 0.5) * fineMm)) {
                    return true;
                }
            }
        }
        return false;
    }

    private void chamfer() {
        for (int i = 0; i < clear.length; i++) {
            int c = i % columns;
            if (clear[i] > 0) {
                int d = clear[i];
                d = Math.min(d, STRAIGHT + at(i - 1, c > 0));
                d = Math.min(d, STRAIGHT + at(i - columns, true));
                d = Math.min(d, DIAGONAL + at(i - columns - 1, c > 0));
                d = Math.min(d, DIAGONAL + at(i - columns + 1, c < columns - 1));
                clear[i] = (short) d;
            }
        }
        for (int i = clear.length - 1; i >= 0; i--) {
            int c = i % columns;
            if (clear[i] > 0) {
                int d = clear[i];
                d = Math.min(d, STRAIGHT + at(i + 1, c < columns - 1));
                d = Math.min(d, STRAIGHT + at(i + columns, true));
                d = Math.min(d, DIAGONAL + at(i + columns + 1, c < columns - 1));
                d = Math.min(d, DIAGONAL + at(i + columns - 1, c > 0));
                clear[i] = (short) d;
            }
        }
    }

    private int at(int i, boolean inRow) {
        return inRow && i >= 0 && i < clear.length ? clear[i] : 0;
    }

    private void flood(List<Seed> seeds) {
        int[] next = new int[clear.length];
        int[] head = new int[WIDEST + 1];
        int[] tail = new int[WIDEST + 1];
        Arrays.fill(head, -1);
        for (Seed seed : seeds) {
            int c = (int) Math.floor((seed.xMm() - x0Mm) / cellMm);
            int r = (int) Math.floor((seed.yMm() - y0Mm) / cellMm);
            int i = r * columns + c;
            if (c >= 0 && r >= 0 && c < columns && r < rows && clear[i] > 0 && label[i] < 0) {
                label[i] = (short) seed.net();
                push(next, head, tail, WIDEST, i);
            }
        }
        for (int level = WIDEST; level > 0; ) {
            int i = head[level];
            if (i < 0) {
                level--;
                continue;
            }
            head[level] = next[i];
            int c = i % columns;
            spread(next, head, tail, level, i, c < columns - 1 ? i + 1 : -1);
            spread(next, head, tail, level, i, c > 0 ? i - 1 : -1);
            spread(next, head, tail, level, i, i + columns);
            spread(next, head, tail, level, i, i - columns);
        }
    }

    private void spread(int[] next, int[] head, int[] tail, int level, int from, int to) {
        if (to >= 0 && to < clear.length && clear[to] > 0 && label[to] < 0) {
            label[to] = label[from];
            push(next, head, tail, Math.min(level, clear[to]), to);
        }
    }

    private static void push(int[] next, int[] head, int[] tail, int level, int i) {
        next[i] = -1;
        if (head[level] < 0) {
            head[level] = i;
        } else {
            next[tail[level]] = i;
        }
        tail[level] = i;
    }

    /** Cells beside a cell of another net, gathered into stretches; the widest cell of each is the bridge. */
    private List<Bridge> meetings() {
        BitSet border = new BitSet(clear.length);
        for (int i = 0; i < clear.length; i++) {
            if (label[i] >= 0 && otherBeside(i) >= 0) {
                border.set(i);
            }
        }
        List<Bridge> out = new ArrayList<>();
        int[] stack = new int[border.cardinality()];
        for (int start = border.nextSetBit(0); start >= 0; start = border.nextSetBit(0)) {
            int size = 0;
            stack[size++] = start;
            border.clear(start);
            int a = Math.min(label[start], otherBeside(start));
            int b = Math.max(label[start], otherBeside(start));
            int best = start;
            while (size > 0) {
                int i = stack[--size];
                best = open[i] > open[best] ? i : best;
                for (int dr = -1; dr <= 1; dr++) {
                    for (int dc = -1; dc <= 1; dc++) {
                        int j = i + dr * columns + dc;
                        if (j >= 0 && j < clear.length && border.get(j) && pairOf(j, a, b)) {
                            border.clear(j);
                            stack[size++] = j;
                        }
                    }
                }
            }
            out.add(new Bridge(a, b, x0Mm + (best % columns + 0.5) * cellMm, y0Mm + (best / columns + 0.5) * cellMm));
        }
        return out;
    }

    private boolean pairOf(int i, int a, int b) {
        int other = otherBeside(i);
        return Math.min(label[i], other) == a && Math.max(label[i], other) == b;
    }

    private int otherBeside(int i) {
        int c = i % columns;
        int[] beside = {c < columns - 1 ? i + 1 : -1, c > 0 ? i - 1 : -1, i + columns, i - columns};
        for (int j : beside) {
            if (j >= 0 && j < label.length && label[j] >= 0 && label[j] != label[i]) {
                return label[j];
            }
        }
        return -1;
    }
}
