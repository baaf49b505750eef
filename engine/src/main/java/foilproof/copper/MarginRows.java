package foilproof.copper;

import org.jspecify.annotations.Nullable;

/**
 * A band of rows of a field, raw and <em>lifted</em>.
 *
 * <p>A ridge between two V-shaped grooves is sharper than a cell: its crest passes between cell centres, and a grid
 * that looks at the centres only breaks it into crumbs and sees it lower than it is (by up to half a cell times the
 * wall's slope: 19 um of Z at 10 um cells and 30 degrees). Each wall is a plane across the ridge, so two samples on each
 * side give the crest exactly: the lines through them meet there. A lifted row gives every cell the largest crest that
 * passes within one cell of it along the row or the column. At any angle to the grid the lifted cells of a level ridge
 * form a 4-connected band at the height of the crest.
 */
final class MarginRows {
    /** A crest looks two cells to either side. */
    private static final int WIDER = 4;
    /** Curved walls lower a crest by at most this share of a wall's rise over one cell. */
    private static final float CURVED = 0.4f;

    private static final float RIPPLE = 0.0005f;

    private final int first;
    private final int columns;
    private final int rows;
    private final RowPool pool;
    private final float[][] raw;
    private final float[] @Nullable [] lifted;
    private final float steepestStep;
    private final float @Nullable [][] others;
    private final TileSpans spans;
    private final TileSpans otherSpans;

    /**
     * @param field where the rows come from
     * @param from first row needed
     * @param to one past the last row needed
     * @param pool lends the rows until {@link #release}
     */
    MarginRows(MarginField field, int from, int to, RowPool pool) {
        this.pool = pool;
        columns = field.columns();
        rows = field.rows();
        first = Math.max(0, from - 2);
        int end = Math.min(rows, to + 2);
        raw = new float[Math.max(0, end - first)][];
        lifted = new float[raw.length][];
        for (int j = first; j < end; j++) {
            raw[j - first] = pool.take();
            field.marginRow(j, raw[j - first]);
        }
        steepestStep = steepestStep(field);
        ToolRunField withOthers =
                field instanceof ToolRunField && ((ToolRunField) field).hasOthers() ? (ToolRunField) field : null;
        int last = Math.max(end, first + 1);
        spans = TileSpans.of(
                (x, y) -> field.untouched(x, y) && (withOthers == null || withOthers.untouchedByOthers(x, y)),
                columns,
                first,
                last,
                WIDER);
        otherSpans = TileSpans.of(
                (x, y) -> withOthers == null || withOthers.untouchedByOthers(x, y), columns, first, last, WIDER);
        others = withOthers == null || otherSpans.isEmpty() ? null : maskOthers(withOthers, end);
    }

    /** Where in the band a cutter came, with room for what looks at neighbours; elsewhere all cells are at the cap. */
    TileSpans spans() {
        return spans;
    }

    /** Takes out what other runs cleared, keeping their margins for the place of that wall. */
    private float[][] maskOthers(ToolRunField field, int end) {
        float[][] margins = new float[raw.length][];
        for (int j = first; j < end; j++) {
            float[] o = pool.take();
            margins[j - first] = o;
            float[] m = raw[j - first];
            field.othersRow(j, o);
            for (int k = 0; k < otherSpans.size(); k++) {
                mask(o, m, otherSpans.from(k), otherSpans.to(k));
            }
        }
        return margins;
    }

    private static void mask(float[] o, float[] m, int from, int to) {
        for (int i = from; i < to; i++) {
            if (o[i] <= 0) {
                m[i] = Float.NEGATIVE_INFINITY;
            }
        }
    }

    /** Largest difference of two neighbouring cells on a sloping wall, with room for rounding and curved walls. */
    static float steepestStep(MarginField field) {
        return (float) (field.cellMm() * field.steepestSlope() * 1.03 + 0.001);
    }

    /** Gives the rows back: a band that is done keeps only what it found, and asks for no row again. */
    void release() {
        for (int k = 0; k < raw.length; k++) {
            pool.give(raw[k]);
            float[] high = lifted[k];
            if (high != null) {
                pool.give(high);
            }
            if (others != null) {
                pool.give(others[k]);
            }
        }
    }

    float[] raw(int row) {
        return raw[row - first];
    }

    float[] lifted(int row) {
        float[] have = lifted[row - first];
        if (have == null) {
            have = lift(row);
            lifted[row - first] = have;
        }
        return have;
    }

    /**
     * Those cells of a row that lie at or below a level while a crest above it passes: all that matters for joining
     * copper at that level.
     *
     * @param runs the row's runs of cells above the level: start, end, start, end ...
     * @param into takes the columns, rising
     * @param close takes the columns of cells that a crest passes only just below the level: where walls are curved, at a
     *     saddle between two round groove ends, the crest may be higher than two samples on each wall say
     */
    void liftedColumns(int row, float level, IntList runs, IntList into, IntList close) {
        into.size = 0;
        close.size = 0;
        float[] c = raw(row);
        float least = level - steepestStep;
        float almost = level - CURVED * steepestStep;
        int from = 0;
        for (int k = 0; k <= runs.size; k += 2) {
            int to = k < runs.size ? runs.data[k] : columns;
            for (int i = from; i < to; i++) {
                if (c[i] > least) {
                    float crest = crestNear(row, i);
                    if (crest > level) {
                        into.add(i);
                    } else if (crest > almost || ridge(row, i)) {
                        close.add(i);
                    }
                }
            }
            from = k < runs.size ? runs.data[k + 1] : columns;
        }
    }

    /** The highest crest that passes within a cell of this one along its row or column. */
    float crestNear(int row, int i) {
        float[] c = raw(row);
        float p = Float.NEGATIVE_INFINITY;
        if (i >= 1 && i + 2 < columns) {
            p = Math.max(p, crest(c[i - 1], c[i], c[i + 1], c[i + 2], steepestStep));
        }
        if (i >= 2 && i + 1 < columns) {
            p = Math.max(p, crest(c[i - 2], c[i - 1], c[i], c[i + 1], steepestStep));
        }
        if (row >= 1 && row + 2 < rows) {
            p = Math.max(p, crest(raw(row - 1)[i], c[i], raw(row + 1)[i], raw(row + 2)[i], steepestStep));
        }
        if (row >= 2 && row + 1 < rows) {
            p = Math.max(p, crest(raw(row - 2)[i], raw(row - 1)[i], c[i], raw(row + 1)[i], steepestStep));
        }
        return p;
    }

    /** Whether a cell stands above both its neighbours: a ridge narrower than a cell shows no more of its walls. */
    private boolean ridge(int row, int i) {
        float[] c = raw(row);
        float v = c[i] - RIPPLE;
        if (i >= 1 && i + 1 < columns && v > c[i - 1] && v > c[i + 1]) {
            return true;
        }
        return row >= 1 && row + 1 < rows && v > raw(row - 1)[i] && v > raw(row + 1)[i];
    }

    private float[] lift(int row) {
        float[] c = raw(row);
        float[] out = pool.take();
        System.arraycopy(c, 0, out, 0, columns);
        for (int k = 0; k < spans.size(); k++) {
            int from = spans.from(k);
            int to = spans.to(k);
            liftAlong(c, out, Math.max(1, from), Math.min(columns - 2, to));
            if (row >= 1 && row + 2 < rows) {
                liftAcross(raw(row - 1), c, raw(row + 1), raw(row + 2), out, from, to);
            }
            if (row >= 2 && row + 1 < rows) {
                liftAcross(raw(row - 2), raw(row - 1), c, raw(row + 1), out, from, to);
            }
        }
        if (others != null) {
            for (int k = 0; k < otherSpans.size(); k++) {
                liftAtOthers(row, c, out, otherSpans.from(k), otherSpans.to(k));
            }
        }
        return out;
    }

    private void liftAlong(float[] c, float[] out, int from, int to) {
        for (int i = from; i < to; i++) {
            if (c[i] > c[i - 1] && c[i + 1] > c[i + 2]) {
                float p = crest(c[i - 1], c[i], c[i + 1], c[i + 2], steepestStep);
                out[i] = Math.max(out[i], p);
                out[i + 1] = Math.max(out[i + 1], p);
            }
        }
    }

    /**
     * Where another run's wall cuts off a rising wall of this one, the crest stands at that wall: its place is
     * interpolated from the other runs' margins (half-way where their wall is vertical).
     */
    private void liftAtOthers(int row, float[] c, float[] out, int from, int to) {
        float[][] all = java.util.Objects.requireNonNull(others);
        float[] o = all[row - first];
        for (int i = Math.max(1, from); i < Math.min(columns - 1, to); i++) {
            if (o[i] > 0 && o[i + 1] <= 0) {
                liftPair(out, i, i + 1, cut(c[i - 1], c[i], o[i], o[i + 1]));
            } else if (o[i] > 0 && o[i - 1] <= 0) {
                liftPair(out, i, i - 1, cut(c[i + 1], c[i], o[i], o[i - 1]));
            }
        }
        for (int side = -1; side <= 1; side += 2) {
            int near = row + side;
            int far = row + 2 * side;
            int back = row - side;
            if (near < first || near >= first + raw.length) {
                continue;
            }
            float[] on = all[near - first];
            float[] back0 = back >= first && back < first + raw.length ? raw(back) : null;
            float[] far0 = far >= first && far < first + raw.length ? raw(far) : null;
            for (int i = from; i < to; i++) {
                if (back0 != null && o[i] > 0 && on[i] <= 0) {
                    out[i] = Math.max(out[i], cut(back0[i], c[i], o[i], on[i]));
                } else if (far0 != null && o[i] <= 0 && on[i] > 0) {
                    out[i] = Math.max(out[i], cut(far0[i], raw(near)[i], on[i], o[i]));
                }
            }
        }
    }

    private static void liftPair(float[] out, int a, int b, float crest) {
        out[a] = Math.max(out[a], crest);
        out[b] = Math.max(out[b], crest);
    }

    private float cut(float a, float b, float otherB, float otherC) {
        float rise = b - a;
        if (!(rise > 0 && rise <= steepestStep)) {
            return Float.NEGATIVE_INFINITY;
        }
        float jump = otherB - otherC;
        return b + rise * (jump <= steepestStep ? otherB / jump : 0.5f);
    }

    private void liftAcross(float[] a, float[] b, float[] c, float[] d, float[] out, int from, int to) {
        for (int i = from; i < to; i++) {
            if (b[i] > a[i] && c[i] > d[i]) {
                out[i] = Math.max(out[i], crest(a[i], b[i], c[i], d[i], steepestStep));
            }
        }
    }

    /**
     * Height of the crest between the second and third of four equally spaced samples, where the first two lie on one
     * wall and the last two on the other; negative infinity where no crest lies between them or a wall is vertical.
     */
    static float crest(float a, float b, float c, float d, float steepestStep) {
        float s1 = b - a;
        float s2 = c - d;
        if (!(s1 > 0 && s2 > 0) || s1 > steepestStep || s2 > steepestStep) {
            return Float.NEGATIVE_INFINITY;
        }
        float x = (c - b + s2) / (s1 + s2);
        return x >= 0 && x <= 1 ? b + s1 * x : Float.NEGATIVE_INFINITY;
    }
}
