package foilproof.app.viewer;

/**
 * Values on an even grid over the blank, one per cell at the cell's centre; NaN where there is none. Immutable: nobody
 * changes the array any more.
 *
 * @param x0Mm left edge of the grid, mm
 * @param y0Mm lower edge of the grid, mm
 * @param cellMm side of a cell, mm
 * @param columns cells along X
 * @param rows cells along Y
 * @param values row by row from the lowest Y
 */
public record FieldMap(double x0Mm, double y0Mm, double cellMm, int columns, int rows, float[] values) {
    /** Cells along the longer side of a map that a picture is coloured by. */
    static final int MOST_CELLS = 2400;

    /** An empty grid over a blank, as fine as is useful: cells of 0.02 mm, larger on large blanks. */
    static FieldMap over(BoardSnapshot b) {
        double cell = Math.max(0.02, Math.max(b.widthMm(), b.heightMm()) / MOST_CELLS);
        int columns = Math.max(1, (int) Math.ceil(b.widthMm() / cell));
        int rows = Math.max(1, (int) Math.ceil(b.heightMm() / cell));
        float[] none = new float[columns * rows];
        java.util.Arrays.fill(none, Float.NaN);
        return new FieldMap(0, 0, cell, columns, rows, none);
    }

    /** The same grid with other values. */
    FieldMap with(float[] newValues) {
        return new FieldMap(x0Mm, y0Mm, cellMm, columns, rows, newValues);
    }

    /** The value of the cell in which a place lies, NaN where there is none. */
    public float at(double xMm, double yMm) {
        int c = (int) Math.floor((xMm - x0Mm) / cellMm);
        int r = (int) Math.floor((yMm - y0Mm) / cellMm);
        return c < 0 || r < 0 || c >= columns || r >= rows ? Float.NaN : values[r * columns + c];
    }

    /** Least and greatest value; {0, 1} where there are none. */
    public double[] range() {
        float low = Float.POSITIVE_INFINITY;
        float high = Float.NEGATIVE_INFINITY;
        for (float v : values) {
            if (!Float.isNaN(v)) {
                low = Math.min(low, v);
                high = Math.max(high, v);
            }
        }
        return low > high ? new double[] {0, 1} : new double[] {low, high > low ? high : low + 1};
    }
}
