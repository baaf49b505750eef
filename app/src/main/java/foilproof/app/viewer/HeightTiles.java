package foilproof.app.viewer;

import org.jspecify.annotations.Nullable;

/**
 * The removal envelope of one tool run as square tiles of heights, allocated only where a cutter went.
 *
 * <p>Heights are millimetres in the run's own Z, one per cell, at the cell's centre: cell (i, j) of the whole grid lies
 * at x0Mm + (i + 0.5) cellMm, y0Mm + (j + 0.5) cellMm. A cell that no cutter reached holds {@link #UNCUT_MM}.
 */
public final class HeightTiles {
    /** Height of a cell that no cutter reached, mm: above anything that can be drawn. */
    public static final float UNCUT_MM = 1.0e6f;

    private final double x0Mm;
    private final double y0Mm;
    private final double cellMm;
    private final int tileCells;
    private final int columns;
    private final int rows;
    private final @Nullable Tile[] tiles;
    /** Lowest height of each tile, 0 until it is asked for; racing threads write the same value. */
    private final float[] lowest;

    /** One immutable tile; equal tiles hold the same heights, for as long as they live. */
    public interface Tile {
        /** Copies all heights, row by row from the lowest Y, mm in the run's own Z, uncut cells as {@link #UNCUT_MM}. */
        void copyTo(float[] heightsMm);

        /** Height of the cell with this index (row times tile size plus column), mm, {@link #UNCUT_MM} where uncut. */
        float heightMm(int index);
    }

    /** A tile over an array that nobody changes any more; equal where they share the very same array. */
    public record ArrayTile(float[] heightsMm) implements Tile {
        @Override
        public void copyTo(float[] into) {
            System.arraycopy(heightsMm, 0, into, 0, heightsMm.length);
        }

        @Override
        public float heightMm(int index) {
            return heightsMm[index];
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof ArrayTile tile && tile.heightsMm == heightsMm;
        }

        @Override
        public int hashCode() {
            return System.identityHashCode(heightsMm);
        }
    }

    /**
     * @param x0Mm left edge of the grid, mm
     * @param y0Mm lower edge of the grid, mm
     * @param cellMm side of a cell, mm
     * @param tileCells cells along a tile's side, a power of two up to 512
     * @param columns tiles along X
     * @param rows tiles along Y
     * @param tiles row by row from the lowest Y, null where no cutter went; not copied, must not change any more
     * @throws IllegalArgumentException where the sizes do not fit together
     */
    public HeightTiles(
            double x0Mm, double y0Mm, double cellMm, int tileCells, int columns, int rows, @Nullable Tile[] tiles) {
        if (!(cellMm > 0) || Integer.bitCount(tileCells) != 1 || tileCells > 512 || tiles.length != columns * rows) {
            throw new IllegalArgumentException("tiles of " + tileCells + " cells of " + cellMm + " mm, " + columns
                    + " x " + rows + " of them in an array of " + tiles.length);
        }
        this.x0Mm = x0Mm;
        this.y0Mm = y0Mm;
        this.cellMm = cellMm;
        this.tileCells = tileCells;
        this.columns = columns;
        this.rows = rows;
        this.tiles = tiles;
        this.lowest = new float[tiles.length];
    }

    /** Left edge of the grid, mm. */
    public double x0Mm() {
        return x0Mm;
    }

    /** Lower edge of the grid, mm. */
    public double y0Mm() {
        return y0Mm;
    }

    /** Side of a cell, mm. */
    public double cellMm() {
        return cellMm;
    }

    /** Cells along a tile's side. */
    public int tileCells() {
        return tileCells;
    }

    /** Tiles along X. */
    public int columns() {
        return columns;
    }

    /** Tiles along Y. */
    public int rows() {
        return rows;
    }

    /** The tile in this column and row, or null where no cutter went. */
    public @Nullable Tile tile(int column, int row) {
        return tiles[row * columns + column];
    }

    /**
     * Lowest height in the tiles that meet this box, mm in the run's own Z, {@link #UNCUT_MM} where there are none.
     * Found once per tile and kept.
     */
    public float lowestIn(double boxX0Mm, double boxY0Mm, double boxX1Mm, double boxY1Mm) {
        double tileMm = cellMm * tileCells;
        int c0 = Math.max(0, (int) Math.floor((boxX0Mm - x0Mm) / tileMm));
        int c1 = Math.min(columns - 1, (int) Math.floor((boxX1Mm - x0Mm) / tileMm));
        int r0 = Math.max(0, (int) Math.floor((boxY0Mm - y0Mm) / tileMm));
        int r1 = Math.min(rows - 1, (int) Math.floor((boxY1Mm - y0Mm) / tileMm));
        float low = UNCUT_MM;
        for (int r = r0; r <= r1; r++) {
            for (int c = c0; c <= c1; c++) {
                low = Math.min(low, lowest(r * columns + c));
            }
        }
        return low;
    }

    private float lowest(int index) {
        Tile tile = tiles[index];
        if (tile == null) {
            return UNCUT_MM;
        }
        float low = lowest[index];
        if (low == 0) {
            low = UNCUT_MM;
            int n = tileCells * tileCells;
            // Every third cell: cutters are wider than that, and only the order of size is wanted.
            for (int i = 0; i < n; i += 3) {
                low = Math.min(low, tile.heightMm(i));
            }
            lowest[index] = low;
        }
        return low;
    }

    private float cellHeightMm(int column, int row) {
        int c = Math.floorDiv(column, tileCells);
        int r = Math.floorDiv(row, tileCells);
        if (c < 0 || r < 0 || c >= columns || r >= rows) {
            return UNCUT_MM;
        }
        Tile tile = tiles[r * columns + c];
        return tile == null ? UNCUT_MM : tile.heightMm((row - r * tileCells) * tileCells + column - c * tileCells);
    }

    /**
     * Height at a place, interpolated between the four cells round it exactly as the shader does it.
     *
     * @param xMm place in the run's frame, mm
     * @param yMm place in the run's frame, mm
     * @param topMm height that stands for uncut cells, so that walls run up to the headroom, mm in the run's own Z
     * @return height in the run's own Z, mm; topMm where nothing was cut
     */
    public double heightMm(double xMm, double yMm, double topMm) {
        double u = (xMm - x0Mm) / cellMm - 0.5;
        double v = (yMm - y0Mm) / cellMm - 0.5;
        int c = (int) Math.floor(u);
        int r = (int) Math.floor(v);
        double fu = u - c;
        double fv = v - r;
        double a = Math.min(topMm, cellHeightMm(c, r));
        double b = Math.min(topMm, cellHeightMm(c + 1, r));
        double d = Math.min(topMm, cellHeightMm(c, r + 1));
        double e = Math.min(topMm, cellHeightMm(c + 1, r + 1));
        return (a * (1 - fu) + b * fu) * (1 - fv) + (d * (1 - fu) + e * fu) * fv;
    }
}
