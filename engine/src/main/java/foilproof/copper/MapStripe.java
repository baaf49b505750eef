package foilproof.copper;

import org.jspecify.annotations.Nullable;

/**
 * One band of a copper map: runs of copper cells, the places where the contour crosses the lines between cell centres, and
 * how these follow each other round the copper (copper on the left). Bands do not depend on each other, so they are
 * built in parallel; {@link CopperMap} joins them.
 *
 * <p>Square row r lies between the centres of cell rows r and r + 1; rows -1 and {@code rows} stand for the outside of
 * the blank, whose edge is met half a cell before. A band owns the cell rows and the horizontal crossings of its square
 * rows' lower sides; crossings on the upper side of its last square row belong to the next band and are referred to by
 * their order there (coded as -2 - ordinal).
 */
final class MapStripe {
    static final byte SLOPED = 0;
    static final byte WALL = 1;
    static final byte OUTLINE = 2;

    final int firstRow;
    final int endRow;
    final IntList runStart = new IntList(256);
    final IntList runEnd = new IntList(256);
    final IntList runCopper = new IntList(256);
    final IntList runMiddle = new IntList(256);
    /** Cells of a run that only a crest between cell centres passes: their copper is not in the contour's area. */
    final IntList runHidden = new IntList(256);

    /** Cells that a crest passes only just below the level: row, column, row, column ... */
    final IntList close = new IntList(16);

    final int[] rowRuns;
    final DoubleList x = new DoubleList(256);
    final DoubleList y = new DoubleList(256);
    final IntList next = new IntList(256);
    final IntList run = new IntList(256);
    final IntList kind = new IntList(256);
    /** Links that start at a crossing of the next band: its ordinal there. */
    final IntList foreignFrom = new IntList(16);
    /** Where they lead: a crossing of this band, or -2 - ordinal of the next. */
    final IntList foreignTo = new IntList(16);

    private final MarginField field;
    private final float level;
    private final double cellMm;
    private final int columns;
    private final int rows;
    private final float steepestStep;
    private final MarginRows margins;
    private final IntList liftedHere = new IntList(64);
    private final IntList closeHere = new IntList(64);
    private IntList below = new IntList(64);
    private IntList above = new IntList(64);
    private int[] idBelow;
    private int[] idAbove;
    private final int[] idAcross;
    private final long[] active;
    private final boolean areaOnly;

    /**
     * @param areaOnly whether the contour alone is wanted: no runs, and no crests between cells but where the contour asks
     */
    MapStripe(MarginField field, float levelMm, int firstSquareRow, int endSquareRow, RowPool pool, boolean areaOnly) {
        this.field = field;
        this.areaOnly = areaOnly;
        level = levelMm;
        cellMm = field.cellMm();
        columns = field.columns();
        rows = field.rows();
        firstRow = Math.max(0, firstSquareRow);
        endRow = Math.min(rows, endSquareRow);
        steepestStep = MarginRows.steepestStep(field);
        margins = new MarginRows(field, firstSquareRow - 1, endSquareRow + 2, pool);
        rowRuns = new int[Math.max(0, endRow - firstRow) + 1];
        idBelow = new int[columns + 1];
        idAbove = new int[columns + 1];
        idAcross = new int[columns + 1];
        active = new long[(columns + 1 >> 6) + 1];
        build(firstSquareRow, endSquareRow);
        margins.release();
    }

    private void build(int firstSquareRow, int endSquareRow) {
        runsOf(firstSquareRow, below);
        if (firstSquareRow >= 0) {
            addRuns(firstSquareRow, below);
            crossRow(firstSquareRow, below, idBelow);
        }
        for (int r = firstSquareRow; r < endSquareRow; r++) {
            runsOf(r + 1, above);
            markAcross(r);
            if (r + 1 >= endSquareRow) {
                for (int k = 0; k < above.size; k++) {
                    idAbove[above.data[k]] = -2 - k;
                }
            } else if (r + 1 < rows) {
                addRuns(r + 1, above);
                crossRow(r + 1, above, idAbove);
            }
            linkSquares(r);
            IntList runs = below;
            below = above;
            above = runs;
            int[] ids = idBelow;
            idBelow = idAbove;
            idAbove = ids;
        }
        rowRuns[rowRuns.length - 1] = runStart.size;
    }

    /** Runs of cells above the level in the raw margins: start, end, start, end ... */
    private void runsOf(int row, IntList into) {
        into.size = 0;
        if (row < 0 || row >= rows) {
            return;
        }
        float[] m = margins.raw(row);
        TileSpans spans = margins.spans();
        boolean copperBetween = field.capMm() - 1e-6 > level;
        int i = 0;
        while (i < columns) {
            while (i < columns && m[i] <= level) {
                i++;
            }
            if (i == columns) {
                break;
            }
            into.add(i);
            while (i < columns && m[i] > level) {
                i++;
                // Where nothing came all is copper.
                if (copperBetween && (i & 63) == 32) {
                    i = spans.next(i, columns);
                }
            }
            into.add(i);
        }
    }

    /** Adds the runs of one row of the lifted margins, by which pieces are told apart. */
    private void addRuns(int row, IntList rawRuns) {
        if (areaOnly) {
            return;
        }
        rowRuns[row - firstRow] = runStart.size;
        margins.liftedColumns(row, level, rawRuns, liftedHere, closeHere);
        for (int c = 0; c < closeHere.size; c++) {
            close.add(row);
            close.add(closeHere.data[c]);
        }
        int l = 0;
        int k = 0;
        int start = -1;
        int end = -1;
        int longest = 0;
        int middle = -1;
        int hidden = 0;
        while (k < rawRuns.size || l < liftedHere.size) {
            int run = k < rawRuns.size ? rawRuns.data[k] : Integer.MAX_VALUE;
            int cell = l < liftedHere.size ? liftedHere.data[l] : Integer.MAX_VALUE;
            int next = Math.min(run, cell);
            if (next > end && start >= 0) {
                addRun(start, end, longest, middle, hidden);
                start = -1;
            }
            if (start < 0) {
                start = next;
                longest = 0;
                middle = -1;
                hidden = 0;
            }
            if (run < cell) {
                end = rawRuns.data[k + 1];
                if (end - run > longest) {
                    longest = end - run;
                    middle = run + longest / 2;
                }
                k += 2;
            } else {
                end = cell + 1;
                hidden++;
                l++;
            }
        }
        if (start >= 0) {
            addRun(start, end, longest, middle, hidden);
        }
    }

    private void addRun(int start, int end, int copper, int middle, int hidden) {
        runStart.add(start);
        runEnd.add(end);
        runCopper.add(copper);
        runMiddle.add(middle);
        runHidden.add(hidden);
    }

    /** Adds the crossings of the line through one row of cell centres, from left to right. */
    private void crossRow(int row, IntList runs, int[] ids) {
        int at = rowRuns[row - firstRow];
        float[] m = margins.raw(row);
        double centreY = (row + 0.5) * cellMm;
        for (int k = 0; k < runs.size; k++) {
            boolean left = (k & 1) == 0;
            int copper = left ? runs.data[k] : runs.data[k] - 1;
            int step = left ? -1 : 1;
            int out = copper + step;
            ids[runs.data[k]] = x.size;
            double centreX = (copper + 0.5) * cellMm;
            if (out < 0 || out >= columns) {
                add(left ? 0 : field.widthMm(), centreY, OUTLINE);
            } else {
                float a = copper - step < 0 || copper - step >= columns ? Float.NaN : m[copper - step];
                float d = out + step < 0 || out + step >= columns ? Float.NaN : m[out + step];
                float f = fraction(a, m[copper], m[out], d);
                if (Float.isNaN(f)) {
                    double w = field.wallFraction(centreX, centreY, centreX + step * cellMm, centreY, level);
                    add(centreX + step * cellMm * w, centreY, WALL);
                } else {
                    add(centreX + step * cellMm * f, centreY, SLOPED);
                }
            }
            if (areaOnly) {
                continue;
            }
            while (runEnd.data[at] <= copper) {
                at++;
            }
            run.data[run.size - 1] = at;
        }
    }

    private void add(double xMm, double yMm, byte wall) {
        x.add(xMm);
        y.add(yMm);
        kind.add(wall);
        next.add(-1);
        run.add(-1);
    }

    private void mark(int square) {
        active[square >> 6] |= 1L << (square & 63);
    }

    /** Finds the crossings up the columns between rows r and r + 1, and which squares the contour passes. */
    private void markAcross(int r) {
        for (int k = 0; k < below.size; k++) {
            mark(below.data[k]);
        }
        for (int k = 0; k < above.size; k++) {
            mark(above.data[k]);
        }
        int a = 0;
        int b = 0;
        int from = -1;
        while (a < below.size || b < above.size) {
            int pa = a < below.size ? below.data[a] : Integer.MAX_VALUE;
            int pb = b < above.size ? above.data[b] : Integer.MAX_VALUE;
            int at = Math.min(pa, pb);
            if (from >= 0) {
                crossColumns(r, from, at);
            }
            a += pa == at ? 1 : 0;
            b += pb == at ? 1 : 0;
            from = ((a ^ b) & 1) != 0 ? at : -1;
        }
    }

    private void crossColumns(int r, int from, int to) {
        float @Nullable [] low = r < 0 ? null : margins.raw(r);
        float @Nullable [] high = r + 1 >= rows ? null : margins.raw(r + 1);
        for (int i = from; i < to; i++) {
            mark(i);
            mark(i + 1);
            idAcross[i] = x.size;
            double centreX = (i + 0.5) * cellMm;
            if (low == null) {
                add(centreX, 0, OUTLINE);
            } else if (high == null) {
                add(centreX, field.heightMm(), OUTLINE);
            } else {
                boolean up = low[i] > level;
                float before = r - 1 >= 0 ? margins.raw(r - 1)[i] : Float.NaN;
                float after = r + 2 < rows ? margins.raw(r + 2)[i] : Float.NaN;
                double yLow = (r + 0.5) * cellMm;
                double yHigh = yLow + cellMm;
                float f = up ? fraction(before, low[i], high[i], after) : fraction(after, high[i], low[i], before);
                double y0 = up ? yLow : yHigh;
                double y1 = up ? yHigh : yLow;
                if (Float.isNaN(f)) {
                    add(centreX, y0 + (y1 - y0) * field.wallFraction(centreX, y0, centreX, y1, level), WALL);
                } else {
                    add(centreX, y0 + (y1 - y0) * f, SLOPED);
                }
            }
        }
    }

    /**
     * Where the contour passes between the second (copper) and the third (cleared) of four equally spaced samples, as a
     * fraction of their distance; NaN at a vertical wall. Where the wall ends between the two, at the groove's floor or
     * at a ridge's crest, the line through the two samples that lie on the wall is followed instead of the chord.
     */
    private float fraction(float a, float p, float q, float d) {
        float above = p - level;
        float jump = p - q;
        if (!(jump <= steepestStep)) {
            return Float.NaN;
        }
        float chord = above / jump;
        float copperSide = a - p;
        if (copperSide > 1.1f * jump + 1e-4f && copperSide <= steepestStep) {
            return Math.min(1f, above / copperSide);
        }
        float clearedSide = q - d;
        if (clearedSide > 1.1f * jump + 1e-4f && clearedSide <= steepestStep) {
            return Math.max(0f, 1f - (level - q) / clearedSide);
        }
        return chord;
    }

    private void linkSquares(int r) {
        float @Nullable [] low = r < 0 ? null : margins.raw(r);
        float @Nullable [] high = r + 1 >= rows ? null : margins.raw(r + 1);
        for (int word = 0; word < active.length; word++) {
            long bits = active[word];
            active[word] = 0;
            while (bits != 0) {
                int square = (word << 6) + Long.numberOfTrailingZeros(bits);
                bits &= bits - 1;
                int i = square - 1;
                int corners = (copper(low, i) ? 1 : 0)
                        | (copper(low, i + 1) ? 2 : 0)
                        | (copper(high, i + 1) ? 4 : 0)
                        | (copper(high, i) ? 8 : 0);
                if (corners != 0 && corners != 15) {
                    link(r, i, corners);
                }
            }
        }
    }

    private boolean copper(float @Nullable [] m, int i) {
        return m != null && i >= 0 && i < columns && m[i] > level;
    }

    /** Links the contour through one square; corners A (1) lower left, B (2), C (4), D (8) counter-clockwise. */
    private void link(int r, int i, int corners) {
        int s = idBelow[i + 1];
        int e = i + 1 < columns ? idAcross[i + 1] : -1;
        int n = idAbove[i + 1];
        int w = i >= 0 ? idAcross[i] : -1;
        switch (corners) {
            case 1 -> turn(s, w, r, i);
            case 2 -> turn(e, s, r, i);
            case 4 -> turn(n, e, r, i);
            case 8 -> turn(w, n, r, i);
            case 14 -> turn(w, s, r, i);
            case 13 -> turn(s, e, r, i);
            case 11 -> turn(e, n, r, i);
            case 7 -> turn(n, w, r, i);
            case 3 -> turn(e, w, r, i);
            case 6 -> turn(n, s, r, i);
            case 12 -> turn(w, e, r, i);
            case 9 -> turn(s, n, r, i);
            case 5 -> {
                boolean joined = lifted(r, i + 1) || lifted(r + 1, i);
                turn(s, joined ? e : w, r, i);
                turn(n, joined ? w : e, r, i);
            }
            default -> {
                boolean joined = lifted(r, i) || lifted(r + 1, i + 1);
                turn(e, joined ? n : s, r, i);
                turn(w, joined ? s : n, r, i);
            }
        }
    }

    private boolean lifted(int row, int i) {
        return row >= 0 && row < rows && i >= 0 && i < columns && margins.crestNear(row, i) > level;
    }

    private void turn(int from, int to, int r, int i) {
        boolean cornerOfBlank = (r < 0 || r == rows - 1) && (i < 0 || i == columns - 1);
        if (!cornerOfBlank) {
            setNext(from, to);
            return;
        }
        int corner = x.size;
        add(i < 0 ? 0 : field.widthMm(), r < 0 ? 0 : field.heightMm(), OUTLINE);
        setNext(from, corner);
        setNext(corner, to);
    }

    private void setNext(int from, int to) {
        if (from >= 0) {
            next.data[from] = to;
        } else {
            foreignFrom.add(-2 - from);
            foreignTo.add(to);
        }
    }
}
