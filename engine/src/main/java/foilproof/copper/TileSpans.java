package foilproof.copper;

import foilproof.stock.HeightTiles;

/**
 * The stretches of a band of rows where a cutter came, a few cells wider than the tiles that hold anything. Between them
 * all cells of the band are alike and at the cap, so that whoever goes through the band may pass over them: on most boards
 * nine tenths of the cells.
 */
final class TileSpans {
    /** Whether nothing came into a tile. */
    @FunctionalInterface
    interface Untouched {
        /** The answer for the tile of this column and row. */
        boolean at(int tileX, int tileY);
    }

    private final IntList ends;

    private TileSpans(IntList ends) {
        this.ends = ends;
    }

    /**
     * The stretches of a band.
     *
     * @param untouched which tiles are left alone
     * @param columns cells in a row
     * @param fromRow first row of the band
     * @param endRow one past its last
     * @param wider how many cells to either side belong to a stretch
     */
    static TileSpans of(Untouched untouched, int columns, int fromRow, int endRow, int wider) {
        IntList ends = new IntList(16);
        int row0 = Math.floorDiv(fromRow, HeightTiles.TILE);
        int row1 = Math.floorDiv(endRow - 1, HeightTiles.TILE);
        for (int tile = 0; tile * HeightTiles.TILE < columns; tile++) {
            boolean any = false;
            for (int row = row0; row <= row1 && !any; row++) {
                any = !untouched.at(tile, row);
            }
            if (any) {
                int from = Math.max(0, tile * HeightTiles.TILE - wider);
                int to = Math.min(columns, (tile + 1) * HeightTiles.TILE + wider);
                if (ends.size > 0 && ends.data[ends.size - 1] >= from) {
                    ends.data[ends.size - 1] = to;
                } else {
                    ends.add(from);
                    ends.add(to);
                }
            }
        }
        return new TileSpans(ends);
    }

    boolean isEmpty() {
        return ends.size == 0;
    }

    int size() {
        return ends.size / 2;
    }

    int from(int k) {
        return ends.data[2 * k];
    }

    int to(int k) {
        return ends.data[2 * k + 1];
    }

    /** The first column at or after this one that is in a stretch; {@code columns} where none is. */
    int next(int column, int columns) {
        int low = 0;
        int high = size();
        while (low < high) {
            int mid = low + high >>> 1;
            if (to(mid) <= column) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low == size() ? columns : Math.max(column, from(low));
    }
}
