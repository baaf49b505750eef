package foilproof.stock;

import org.jspecify.annotations.Nullable;

/**
 * An immutable map of heights on a grid of square cells, in tiles of {@value #TILE} x {@value #TILE} cells that exist
 * only where something was reached.
 *
 * <p>The grid is aligned to the blank's lower-left corner: cell (i, j) has its centre at ((i + 0.5) h, (j + 0.5) h),
 * indices may be negative or lie beyond the blank. Tile (tx, ty) holds the cells from (tx x 64, ty x 64); within a
 * tile the value of cell (i, j) stands at {@code (j - ty * 64) * 64 + (i - tx * 64)}. Values are mm in the frame that
 * the owner states; {@link #untouchedMm()} means that nothing reached the cell below the headroom.
 */
public final class HeightTiles {
    /** Cells along one side of a tile. */
    public static final int TILE = 64;
    /** Cells of a tile. */
    public static final int TILE_CELLS = TILE * TILE;

    private final double cellMm;
    private final float untouchedMm;
    private final int tileX0;
    private final int tileY0;
    private final int tilesX;
    private final int tilesY;
    private final float[] @Nullable [] tiles;

    /** Takes over {@code tiles} (row by row from the lower left, null where untouched). */
    HeightTiles(
            double cellMm,
            float untouchedMm,
            int tileX0,
            int tileY0,
            int tilesX,
            int tilesY,
            float[] @Nullable [] tiles) {
        this.cellMm = cellMm;
        this.untouchedMm = untouchedMm;
        this.tileX0 = tileX0;
        this.tileY0 = tileY0;
        this.tilesX = tilesX;
        this.tilesY = tilesY;
        this.tiles = tiles;
    }

    /** Side of a cell, mm. */
    public double cellMm() {
        return cellMm;
    }

    /** The value of a cell that nothing reached: the headroom's top, mm. */
    public float untouchedMm() {
        return untouchedMm;
    }

    /** Column of the leftmost tile. */
    public int tileX0() {
        return tileX0;
    }

    /** Row of the lowest tile. */
    public int tileY0() {
        return tileY0;
    }

    /** Columns of tiles. */
    public int tilesX() {
        return tilesX;
    }

    /** Rows of tiles. */
    public int tilesY() {
        return tilesY;
    }

    /** How many tiles exist. */
    public int tileCount() {
        int count = 0;
        for (float[] tile : tiles) {
            count += tile == null ? 0 : 1;
        }
        return count;
    }

    /**
     * The values of a tile, or null where nothing was reached in it. The array is shared between all who ask and all
     * keyframes: never write to it.
     */
    public float @Nullable [] sharedTile(int tileX, int tileY) {
        int x = tileX - tileX0;
        int y = tileY - tileY0;
        return x < 0 || y < 0 || x >= tilesX || y >= tilesY ? null : tiles[y * tilesX + x];
    }

    /** The value of a cell, mm. */
    public float heightMm(int i, int j) {
        float[] tile = sharedTile(Math.floorDiv(i, TILE), Math.floorDiv(j, TILE));
        return tile == null ? untouchedMm : tile[(j & (TILE - 1)) * TILE + (i & (TILE - 1))];
    }

    float @Nullable [] at(int index) {
        return tiles[index];
    }

    float[] @Nullable [] copyOfTiles() {
        return tiles.clone();
    }

    /**
     * A hash of all that exists, over the bits of every value: equal for equal maps on every machine (FNV-1a over the
     * tiles' places and values, 64 bits).
     */
    public long fingerprint() {
        long hash = 0xcbf29ce484222325L;
        for (int k = 0; k < tiles.length; k++) {
            float[] tile = tiles[k];
            if (tile != null) {
                hash = (hash ^ (tileX0 + k % tilesX)) * 0x100000001b3L;
                hash = (hash ^ (tileY0 + k / tilesX)) * 0x100000001b3L;
                for (float value : tile) {
                    hash = (hash ^ Float.floatToIntBits(value)) * 0x100000001b3L;
                }
            }
        }
        return hash;
    }
}
