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
    private final int first;
    private final int columns;
    private final int rows;
    private final float[][] raw;
    private final float[] @Nullable [] lifted;
    private final float steepestStep;

    /**
     * @param field where the rows come from
     * @param from first row needed
     * @param to one past the last row needed
     */
    MarginRows(MarginField field, int from, int to) {
        columns = field.columns();
        rows = field.rows();
        first = Math.max(0, from - 2);
        int end = Math.min(rows, to + 2);
        raw = new float[Math.max(0, end - first)][columns];
        lifted = new float[raw.length][];
        for (int j = first; j < end; j++) {
            field.marginRow(j, raw[j - first]);
        }
        steepestStep = steepestStep(field);
    }

    /** Largest difference of two neighbouring cells on a sloping wall, with room for rounding and curved walls. */
    static float steepestStep(MarginField field) {
        return (float) (field.cellMm() * field.steepestSlope() * 1.03 + 0.001);
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

    private float[] lift(int row) {
        float[] c = raw(row);
        float[] out = c.clone();
        for (int i = 1; i + 2 < columns; i++) {
            if (c[i] > c[i - 1] && c[i + 1] > c[i + 2]) {
                float p = crest(c[i - 1], c[i], c[i + 1], c[i + 2], steepestStep);
                out[i] = Math.max(out[i], p);
                out[i + 1] = Math.max(out[i + 1], p);
            }
        }
        if (row >= 1 && row + 2 < rows) {
            liftAcross(raw(row - 1), c, raw(row + 1), raw(row + 2), out);
        }
        if (row >= 2 && row + 1 < rows) {
            liftAcross(raw(row - 2), raw(row - 1), c, raw(row + 1), out);
        }
        return out;
    }

    private void liftAcross(float[] a, float[] b, float[] c, float[] d, float[] out) {
        for (int i = 0; i < columns; i++) {
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
