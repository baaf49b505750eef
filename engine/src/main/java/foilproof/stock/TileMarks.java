package foilproof.stock;

/** Which tiles over a rectangle hold anything, asked once: most of a board is never touched, and is passed over. */
final class TileMarks {
    /** Whether a tile holds anything. */
    @FunctionalInterface
    interface Tiles {
        /** The answer for the tile of this column and row. */
        boolean at(int tileX, int tileY);
    }

    /** Takes a stretch of a row that lies within tiles of one sort. */
    @FunctionalInterface
    interface Stretch {
        /**
         * A stretch.
         *
         * @param from its first column
         * @param count how many cells
         * @param at where it begins in the row's arrays
         * @param touched whether its tiles hold anything
         */
        void accept(int from, int count, int at, boolean touched);
    }

    private final int x0;
    private final int y0;
    private final int tilesX;
    private final int tilesY;
    private final boolean[] marks;

    /**
     * Asks for all tiles over a rectangle and those next to it.
     *
     * @param cellMm side of a cell
     * @param boxMm left, lower, right, upper
     * @param tiles the answer
     */
    TileMarks(double cellMm, double[] boxMm, Tiles tiles) {
        double size = cellMm * HeightTiles.TILE;
        x0 = (int) Math.floor(boxMm[0] / size) - 1;
        y0 = (int) Math.floor(boxMm[1] / size) - 1;
        tilesX = (int) Math.ceil(boxMm[2] / size) + 2 - x0;
        tilesY = (int) Math.ceil(boxMm[3] / size) + 2 - y0;
        marks = new boolean[tilesX * tilesY];
        for (int k = 0; k < marks.length; k++) {
            marks[k] = tiles.at(x0 + k % tilesX, y0 + k / tilesX);
        }
    }

    /** Whether a tile holds anything; beyond the rectangle true, since nobody asked. */
    boolean at(int tileX, int tileY) {
        int x = tileX - x0;
        int y = tileY - y0;
        return x < 0 || y < 0 || x >= tilesX || y >= tilesY || marks[y * tilesX + x];
    }

    /** Goes along a row of cells, stretch by stretch. */
    void row(int j, int i0, int count, Stretch stretch) {
        int tileY = Math.floorDiv(j, HeightTiles.TILE);
        int end = i0 + count;
        int from = i0;
        while (from < end) {
            int tile = Math.floorDiv(from, HeightTiles.TILE);
            boolean touched = at(tile, tileY);
            int to = (tile + 1) * HeightTiles.TILE;
            while (to < end && at(Math.floorDiv(to, HeightTiles.TILE), tileY) == touched) {
                to += HeightTiles.TILE;
            }
            to = Math.min(to, end);
            stretch.accept(from, to - from, from - i0, touched);
            from = to;
        }
    }
}
