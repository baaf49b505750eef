package foilproof.design;

/**
 * A regular grid of square cells in the frame of the image that it is laid over. Cell (column, row) has its
 * centre at (x0 + (column + 0.5) cell, y0 + (row + 0.5) cell); rows go up with Y.
 *
 * @param x0Mm X of the left edge, mm
 * @param y0Mm Y of the lower edge, mm
 * @param cellMm edge of a cell, mm, above 0
 * @param columns number of columns, at least 0
 * @param rows number of rows, at least 0
 */
public record RasterGrid(double x0Mm, double y0Mm, double cellMm, int columns, int rows) {
    /** Checks that the grid has a positive cell and fits an {@code int} index. */
    public RasterGrid {
        if (!(cellMm > 0) || columns < 0 || rows < 0 || (long) columns * rows > Integer.MAX_VALUE) {
            throw new IllegalArgumentException(
                    "a grid needs a cell above 0 mm and at most 2^31 - 1 cells: " + columns + " x " + rows);
        }
    }

    /** The smallest grid of that cell that covers the box, whole cells from its lower-left corner. */
    public static RasterGrid over(Bounds box, double cellMm) {
        return new RasterGrid(box.minXMm(), box.minYMm(), cellMm, (int) Math.ceil(box.widthMm() / cellMm), (int)
                Math.ceil(box.heightMm() / cellMm));
    }

    /** X of the centre of a column, mm. */
    public double centreXMm(int column) {
        return x0Mm + (column + 0.5) * cellMm;
    }

    /** Y of the centre of a row, mm. */
    public double centreYMm(int row) {
        return y0Mm + (row + 0.5) * cellMm;
    }

    /** Index of a cell: row by row. */
    public int index(int column, int row) {
        return row * columns + column;
    }
}
