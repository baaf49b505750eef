package foilproof.copper;

import java.util.Arrays;

/**
 * One band of the merge tree: which basin every cell ascends to, and the highest saddles between the basins. Bands are
 * independent; a cell whose way up leaves the band gets a stand-in basin that {@link MergeTree} resolves.
 *
 * <p>Every cell ascends to the highest of its four neighbours (equal heights: the later cell), so cells of a wall flow
 * to the crest above them without sorting anything. Cells at the headroom's cap form runs, one basin each.
 */
final class TreeStripe {
    final int firstRow;
    final int endRow;
    /** Basin of each cell of the first and last row, -1 where there is no copper; local numbers. */
    final int[] firstBasins;

    final int[] lastBasins;
    final float[] firstHeights;
    final float[] lastHeights;
    final DoubleList peak = new DoubleList(64);
    final IntList peakRow = new IntList(64);
    final IntList peakColumn = new IntList(64);
    /** -1: the ascent leaves the band downwards, 1: upwards, 0: the basin's peak is here. */
    final IntList leaves = new IntList(64);

    int[] copperCells = new int[0];
    int[] capCells = new int[0];
    Saddles saddles = new Saddles(0);
    final int[] pointBasin;

    private final int columns;
    private final float cap;
    private final float floor;
    private final MarginRows margins;
    private final int[] up;

    /**
     * @param field what is mapped
     * @param from first row of the band
     * @param to one past its last row
     * @param floorMm cells not above this are left out
     * @param points rows and columns of cells whose basin is wanted: row, column, row, column ...
     */
    TreeStripe(MarginField field, int from, int to, float floorMm, int[] points) {
        firstRow = from;
        endRow = to;
        columns = field.columns();
        cap = (float) (field.capMm() - 1e-6);
        floor = floorMm;
        margins = new MarginRows(field, from - 1, to + 1);
        up = new int[(to - from) * columns];
        for (int j = from; j < to; j++) {
            point(j, field.rows());
        }
        resolve();
        count();
        firstBasins = Arrays.copyOf(up, columns);
        lastBasins = Arrays.copyOfRange(up, up.length - columns, up.length);
        firstHeights = margins.lifted(from).clone();
        lastHeights = margins.lifted(to - 1).clone();
        collectSaddles();
        pointBasin = new int[points.length / 2];
        for (int k = 0; k < pointBasin.length; k++) {
            int row = points[2 * k];
            pointBasin[k] = row >= from && row < to ? up[(row - from) * columns + points[2 * k + 1]] : -1;
        }
    }

    private int newBasin(int row, int column, float height, int direction) {
        peak.add(height);
        peakRow.add(row);
        peakColumn.add(column);
        leaves.add(direction);
        return -(peak.size - 1) - 2;
    }

    /** Fills {@code up} of one row: a cell of the band, or -2 - basin; -1 for no copper. */
    private void point(int row, int rows) {
        float[] m = margins.lifted(row);
        float[] low = row > 0 ? margins.lifted(row - 1) : null;
        float[] high = row + 1 < rows ? margins.lifted(row + 1) : null;
        int base = (row - firstRow) * columns;
        int i = 0;
        while (i < columns) {
            float v = m[i];
            if (v <= floor) {
                up[base + i++] = -1;
                continue;
            }
            if (v >= cap) {
                int start = i;
                while (i < columns && m[i] >= cap) {
                    i++;
                }
                Arrays.fill(up, base + start, base + i, newBasin(row, start + (i - start) / 2, cap, 0));
                continue;
            }
            float best = v;
            int to = base + i;
            int leave = 0;
            if (low != null && low[i] > best) {
                best = low[i];
                to = base + i - columns;
                leave = row == firstRow ? -1 : 0;
            }
            if (i > 0 && m[i - 1] > best) {
                best = m[i - 1];
                to = base + i - 1;
                leave = 0;
            }
            if (i + 1 < columns && (m[i + 1] > best || (m[i + 1] == best && to == base + i))) {
                best = m[i + 1];
                to = base + i + 1;
                leave = 0;
            }
            if (high != null && (high[i] > best || (high[i] == best && to == base + i))) {
                best = high[i];
                to = base + i + columns;
                leave = row + 1 == endRow ? 1 : 0;
            }
            if (leave != 0) {
                up[base + i] = newBasin(row, i, best, leave);
            } else {
                up[base + i] = to == base + i ? newBasin(row, i, v, 0) : to;
            }
            i++;
        }
    }

    /** Follows every ascent to its basin and shortens the way for the cells passed. */
    private void resolve() {
        for (int c = 0; c < up.length; c++) {
            int at = c;
            while (up[at] >= 0) {
                at = up[at];
            }
            int end = up[at];
            int walk = c;
            while (up[walk] >= 0) {
                int then = up[walk];
                up[walk] = end;
                walk = then;
            }
        }
        for (int c = 0; c < up.length; c++) {
            up[c] = up[c] == -1 ? -1 : -2 - up[c];
        }
    }

    private void count() {
        copperCells = new int[peak.size];
        capCells = new int[peak.size];
        for (int j = firstRow; j < endRow; j++) {
            float[] raw = margins.raw(j);
            int base = (j - firstRow) * columns;
            for (int i = 0; i < columns; i++) {
                if (raw[i] > 0 && up[base + i] >= 0) {
                    copperCells[up[base + i]]++;
                    if (raw[i] >= cap) {
                        capCells[up[base + i]]++;
                    }
                }
            }
        }
    }

    private void collectSaddles() {
        SaddleMap map = new SaddleMap();
        for (int j = firstRow; j < endRow; j++) {
            float[] m = margins.lifted(j);
            float[] high = j + 1 < endRow ? margins.lifted(j + 1) : m;
            int base = (j - firstRow) * columns;
            int above = j + 1 < endRow ? base + columns : base;
            for (int i = 0; i < columns; i++) {
                int here = up[base + i];
                if (here < 0) {
                    continue;
                }
                int next = i + 1 < columns ? up[base + i + 1] : -1;
                if (next >= 0 && next != here) {
                    offer(map, here, next, m[i], m[i + 1], j, i, j, i + 1);
                }
                int over = up[above + i];
                if (over >= 0 && over != here) {
                    offer(map, here, over, m[i], high[i], j, i, j + 1, i);
                }
            }
        }
        saddles = map.spanning(peak.size);
    }

    private static void offer(SaddleMap map, int a, int b, float ha, float hb, int ja, int ia, int jb, int ib) {
        if (ha <= hb) {
            map.offer(a, b, ha, (long) ja << 32 | ia);
        } else {
            map.offer(a, b, hb, (long) jb << 32 | ib);
        }
    }
}
