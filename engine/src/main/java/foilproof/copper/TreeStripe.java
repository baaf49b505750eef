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
    private static final int HERE = 0;
    private static final int DOWN = 1;
    private static final int LEFT = 2;
    private static final int RIGHT = 3;
    private static final int UP = 4;
    private static final int CAP = 5;
    private static final int NONE = 6;

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
    Saddles saddles = new Saddles(0);
    final int[] pointBasin;

    private final int columns;
    private final float cap;
    private final float floor;
    private final MarginRows margins;
    /** Beside these stretches all cells are at the cap. */
    private final TileSpans spans;

    private final float[] nothing;
    private int[] up;
    private byte[] way;
    private final IntList alias = new IntList(64);

    /**
     * @param field what is mapped
     * @param from first row of the band
     * @param to one past its last row
     * @param floorMm cells not above this are left out
     * @param ceilingMm cells not below this are all taken for one height
     * @param points rows and columns of cells whose basin is wanted: row, column, row, column ...
     * @param pool lends what the band needs while it is made
     */
    TreeStripe(MarginField field, int from, int to, float floorMm, float ceilingMm, int[] points, RowPool pool) {
        firstRow = from;
        endRow = to;
        columns = field.columns();
        cap = ceilingMm;
        floor = floorMm;
        margins = new MarginRows(field, from - 1, to + 1, pool);
        spans = margins.spans();
        nothing = new float[columns];
        Arrays.fill(nothing, Float.NEGATIVE_INFINITY);
        int cells = (to - from) * columns;
        up = pool.ints(cells);
        way = pool.bytes(cells);
        for (int j = from; j < to; j++) {
            point(j, field.rows());
        }
        resolve();
        firstBasins = Arrays.copyOf(up, columns);
        lastBasins = Arrays.copyOfRange(up, cells - columns, cells);
        firstHeights = margins.lifted(from).clone();
        lastHeights = margins.lifted(to - 1).clone();
        collectSaddles();
        pointBasin = new int[points.length / 2];
        for (int k = 0; k < pointBasin.length; k++) {
            int row = points[2 * k];
            pointBasin[k] = row >= from && row < to ? up[(row - from) * columns + points[2 * k + 1]] : -1;
        }
        // A band that is done keeps only what it found.
        up = new int[0];
        way = new byte[0];
        margins.release();
    }

    private int newBasin(int row, int column, float height, int direction) {
        peak.add(height);
        peakRow.add(row);
        peakColumn.add(column);
        leaves.add(direction);
        alias.add(peak.size - 1);
        return peak.size - 1;
    }

    /** The basin that a basin at the cap has become part of; itself otherwise. */
    int find(int basin) {
        int b = basin;
        while (alias.data[b] != b) {
            alias.data[b] = alias.data[alias.data[b]];
            b = alias.data[b];
        }
        return b;
    }

    /** Fills {@code up} of one row: a cell of the band, or -2 - basin; -1 for no copper. */
    private void point(int row, int rows) {
        float[] low = row > 0 ? margins.lifted(row - 1) : nothing;
        float[] high = row + 1 < rows ? margins.lifted(row + 1) : nothing;
        int base = (row - firstRow) * columns;
        float[] own = margins.lifted(row);
        Arrays.fill(way, base, base + columns, (byte) CAP);
        for (int k = 0; k < spans.size(); k++) {
            ways(own, low, high, base, spans.from(k), spans.to(k));
        }
        follow(row, base);
    }

    /** The way up from every cell of a row. Small and without calls: compiled early, it is most of the work. */
    private void ways(float[] m, float[] low, float[] high, int base, int from, int end) {
        float left = from > 0 ? m[from - 1] : Float.NEGATIVE_INFINITY;
        float v = m[from];
        for (int i = from; i < end; i++) {
            float right = i + 1 < columns ? m[i + 1] : Float.NEGATIVE_INFINITY;
            int to = HERE;
            float best = v;
            if (low[i] > best) {
                best = low[i];
                to = DOWN;
            }
            if (left > best) {
                best = left;
                to = LEFT;
            }
            if (right > best || (right == best && to == HERE)) {
                best = right;
                to = RIGHT;
            }
            if (high[i] > best || (high[i] == best && to == HERE)) {
                to = UP;
            }
            way[base + i] = (byte) (v >= cap ? CAP : v <= floor ? NONE : to);
            left = v;
            v = right;
        }
    }

    private void follow(int row, int base) {
        int i = 0;
        while (i < columns) {
            int to = way[base + i];
            if (to == CAP) {
                int start = i;
                while (i < columns && way[base + i] == CAP) {
                    i++;
                    if ((i & 63) == 32) {
                        i = spans.next(i, columns);
                    }
                }
                capRun(row, base, start, i);
                continue;
            }
            up[base + i] = to == RIGHT
                    ? base + i + 1
                    : to == LEFT
                            ? base + i - 1
                            : to == UP && row + 1 < endRow
                                    ? base + i + columns
                                    : to == DOWN && row > firstRow ? base + i - columns : ends(row, i, to);
            i++;
        }
    }

    /** What an ascent that ends here, or leaves the band, leads to. */
    private int ends(int row, int i, int to) {
        if (to == NONE) {
            return -1;
        }
        float here = margins.lifted(row)[i];
        return -2 - newBasin(row, i, here, to == UP ? 1 : to == DOWN ? -1 : 0);
    }

    /** A run at the cap: the basin of the runs that it lies against in the row below, which become one. */
    private void capRun(int row, int base, int start, int end) {
        int basin = -1;
        if (row > firstRow) {
            int below = base - columns;
            for (int k = start; k < end; k++) {
                int b = up[below + k];
                if (b < -1 && way[below + k] == CAP) {
                    int found = find(-2 - b);
                    if (basin < 0) {
                        basin = found;
                    } else if (found != basin) {
                        alias.data[Math.max(found, basin)] = Math.min(found, basin);
                        basin = Math.min(found, basin);
                    }
                    // The rest of that run belongs to the same basin.
                    while (k + 1 < end && up[below + k + 1] == b) {
                        k++;
                        if ((k & 63) == 32) {
                            k = Math.max(k, Math.min(end, spans.next(k, columns)) - 1);
                        }
                    }
                }
            }
        }
        if (basin < 0) {
            basin = newBasin(row, start + (end - start) / 2, cap, 0);
        }
        Arrays.fill(up, base + start, base + end, -2 - basin);
    }

    /** Follows every ascent to its basin, shortens the way for the cells passed, and counts the copper of each basin. */
    private void resolve() {
        copperCells = new int[peak.size];
        for (int j = firstRow; j < endRow; j++) {
            for (int k = 0; k < spans.size(); k++) {
                int base = (j - firstRow) * columns;
                shorten(base + spans.from(k), base + spans.to(k));
            }
        }
        for (int j = firstRow; j < endRow; j++) {
            float[] raw = margins.raw(j);
            int base = (j - firstRow) * columns;
            int at = 0;
            for (int k = 0; k < spans.size(); k++) {
                between(raw, base, at, spans.from(k));
                number(raw, base, spans.from(k), spans.to(k));
                at = spans.to(k);
            }
            between(raw, base, at, columns);
        }
    }

    private void shorten(int from, int to) {
        for (int c = from; c < to; c++) {
            if (up[c] < 0) {
                continue;
            }
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
    }

    private void number(float[] raw, int base, int from, int to) {
        int lastCode = -1;
        int lastBasin = -1;
        for (int i = from; i < to; i++) {
            int code = up[base + i];
            if (code != lastCode) {
                lastCode = code;
                lastBasin = code == -1 ? -1 : find(-2 - code);
            }
            up[base + i] = lastBasin;
            if (lastBasin >= 0 && raw[i] > 0) {
                copperCells[lastBasin]++;
            }
        }
    }

    /** Cells between two stretches: one run at the cap. */
    private void between(float[] raw, int base, int from, int to) {
        if (from < to) {
            int basin = find(-2 - up[base + from]);
            Arrays.fill(up, base + from, base + to, basin);
            copperCells[basin] += raw[from] > 0 ? to - from : 0;
        }
    }

    private void collectSaddles() {
        SaddleMap map = new SaddleMap();
        for (int j = firstRow; j < endRow; j++) {
            float[] m = margins.lifted(j);
            float[] high = j + 1 < endRow ? margins.lifted(j + 1) : m;
            int base = (j - firstRow) * columns;
            int above = j + 1 < endRow ? base + columns : base;
            for (int k = 0; k < spans.size(); k++) {
                saddles(map, j, m, high, base, above, Math.max(0, spans.from(k) - 1), spans.to(k));
            }
        }
        saddles = map.spanning(peak.size);
    }

    private void saddles(SaddleMap map, int j, float[] m, float[] high, int base, int above, int from, int end) {
        for (int i = from; i < end; i++) {
            int here = up[base + i];
            if (here < 0) {
                continue;
            }
            int next = i + 1 < columns ? up[base + i + 1] : -1;
            if (next >= 0 && next != here && !parallel(base + i, base + i + 1)) {
                offer(map, here, next, m[i], m[i + 1], j, i, j, i + 1);
            }
            int over = up[above + i];
            if (over >= 0 && over != here && !parallel(base + i, above + i)) {
                offer(map, here, over, m[i], high[i], j, i, j + 1, i);
            }
        }
    }

    /** Two neighbours that ascend the same way are neighbours again one step up, higher: that saddle is better. */
    private boolean parallel(int a, int b) {
        return way[a] == way[b] && way[a] != HERE && way[a] < CAP;
    }

    private static void offer(SaddleMap map, int a, int b, float ha, float hb, int ja, int ia, int jb, int ib) {
        if (ha <= hb) {
            map.offer(a, b, ha, (long) ja << 32 | ia);
        } else {
            map.offer(a, b, hb, (long) jb << 32 | ib);
        }
    }
}
