package foilproof.stock;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Sweeps the pieces of one tile, with buffers of its own: one for each thread. Pieces are taken lowest first, in
 * groups of one height, so that what lies above a finished floor is skipped.
 */
final class TileSweep {
    private static final int BLOCKS = HeightTiles.TILE / BlockKernel.BLOCK;

    private final Pieces pieces;
    private final SegmentBins bins;
    private final ToolProfile profile;
    private final float untouched;
    private final double cellMm;
    final BlockKernel kernel;
    private final float[] h = new float[BlockKernel.CELLS];
    private long[] order = new long[64];
    private int count;

    TileSweep(Pieces pieces, SegmentBins bins, ToolProfile profile, double cellMm, float untouched) {
        this.pieces = pieces;
        this.bins = bins;
        this.profile = profile;
        this.cellMm = cellMm;
        this.untouched = untouched;
        this.kernel = new BlockKernel(cellMm, profile);
    }

    /**
     * The tile after pieces {@code p0} (inclusive) to {@code p1} (exclusive).
     *
     * @param tile index of the tile in the bins
     * @param base the tile before, or null where untouched; not written to
     * @return a new tile, or {@code base} where no piece comes near
     */
    float @Nullable [] sweep(int tile, float @Nullable [] base, int p0, int p1) {
        collect(tile, p0, p1);
        if (count == 0) {
            return base;
        }
        double tileX = (bins.tileX0 + tile % bins.tilesX) * bins.tileMm;
        double tileY = (bins.tileY0 + tile / bins.tilesX) * bins.tileMm;
        float[] out = null;
        for (int b = 0; b < BLOCKS * BLOCKS; b++) {
            int column = b % BLOCKS * BlockKernel.BLOCK;
            int row = b / BLOCKS * BlockKernel.BLOCK;
            double bx = tileX + column * cellMm + kernel.halfMm();
            double by = tileY + row * cellMm + kernel.halfMm();
            int corner = row * HeightTiles.TILE + column;
            if (block(bx, by, base, corner, p0, p1)) {
                if (out == null) {
                    out = base == null ? untouchedTile() : base.clone();
                }
                for (int j = 0; j < BlockKernel.BLOCK; j++) {
                    System.arraycopy(h, j * BlockKernel.BLOCK, out, corner + j * HeightTiles.TILE, BlockKernel.BLOCK);
                }
            }
        }
        return out == null ? base : out;
    }

    private float[] untouchedTile() {
        float[] tile = new float[HeightTiles.TILE_CELLS];
        Arrays.fill(tile, untouched);
        return tile;
    }

    /** The tile's pieces in the range, lowest first; equal heights in time order. */
    private void collect(int tile, int p0, int p1) {
        int from = p0 == 0 ? bins.from(tile) : bins.from(tile, p0);
        int to = bins.to(tile);
        count = 0;
        if (order.length < to - from) {
            order = new long[Math.max(to - from, order.length * 2)];
        }
        boolean sorted = true;
        for (int at = from; at < to && bins.piece(at) < p1; at++) {
            int p = bins.piece(at);
            long key = (long) sortable((float) pieces.lowest(p)) << 32 | p;
            sorted &= count == 0 || order[count - 1] <= key;
            order[count++] = key;
        }
        if (!sorted) {
            Arrays.sort(order, 0, count);
        }
    }

    /** An int that sorts as the float does. */
    private static int sortable(float value) {
        int bits = Float.floatToRawIntBits(value + 0f);
        return bits ^ (bits >> 31 & Integer.MAX_VALUE);
    }

    private boolean block(double bx, double by, float @Nullable [] base, int corner, int p0, int p1) {
        boolean loaded = false;
        int at = 0;
        while (at < count) {
            int high = (int) (order[at] >> 32);
            float z = (float) pieces.lowest((int) order[at]);
            if (loaded && highest() <= z) {
                return true;
            }
            boolean any = false;
            for (; at < count && (int) (order[at] >> 32) == high; at++) {
                int p = (int) order[at];
                if (!touches(p, bx, by, p0, p1)) {
                    continue;
                }
                if (!loaded) {
                    load(base, corner);
                    loaded = true;
                }
                if (pieces.level(p)) {
                    if (!any) {
                        kernel.reset();
                        any = true;
                    }
                    level(p, bx, by);
                } else {
                    kernel.sloped(pieces, p, profile, bx, by, h);
                }
            }
            if (any) {
                kernel.lower(h, z);
            }
        }
        return loaded;
    }

    /** Takes a level piece into the kernel's least distances. */
    void level(int p, double bx, double by) {
        switch (pieces.kind[p]) {
            case Pieces.LINE -> kernel.line(pieces, p, bx, by);
            case Pieces.ARC -> kernel.arc(pieces, p, bx, by);
            default -> kernel.point(pieces, p, bx, by);
        }
    }

    private float highest() {
        float max = h[0];
        for (int c = 1; c < BlockKernel.CELLS; c++) {
            max = Math.max(max, h[c]);
        }
        return max;
    }

    private void load(float @Nullable [] base, int corner) {
        if (base == null) {
            Arrays.fill(h, untouched);
            return;
        }
        for (int j = 0; j < BlockKernel.BLOCK; j++) {
            System.arraycopy(base, corner + j * HeightTiles.TILE, h, j * BlockKernel.BLOCK, BlockKernel.BLOCK);
        }
    }

    /** Whether a piece may add something to a block that its neighbours in the range do not. */
    private boolean touches(int p, double bx, double by, int p0, int p1) {
        return switch (pieces.kind[p]) {
            case Pieces.LINE -> lineTouches(p, bx, by, p0, p1, pieces.reach[p]);
            case Pieces.ARC -> near(p, bx, by, pieces.reach[p]);
            default ->
                !(pieces.inNext[p] && p + 1 < p1)
                        && !(pieces.inPrevious[p] && p > p0)
                        && near(p, bx, by, pieces.reach[p]);
        };
    }

    /**
     * Whether a piece may cut something in a block after all pieces before it: before its start a joined line cannot.
     *
     * @param reachMm how far from the piece there is anything to cut; no more than the piece's own reach counts
     */
    boolean mayCut(int p, double bx, double by, double reachMm) {
        double reach = Math.min(pieces.reach[p], reachMm);
        return pieces.kind[p] == Pieces.LINE ? lineTouches(p, bx, by, 0, p + 1, reach) : near(p, bx, by, reach);
    }

    /** Whether a piece that is no line may reach a block, whatever its neighbours do. */
    private boolean near(int p, double bx, double by, double reachMm) {
        double reach = reachMm + ToolProfile.TOUCH_MM;
        double half = kernel.halfMm();
        double d = pieces.kind[p] == Pieces.ARC
                ? PieceShape.arcDistance(pieces, p, bx, by)
                : Math.sqrt((bx - pieces.x0[p]) * (bx - pieces.x0[p]) + (by - pieces.y0[p]) * (by - pieces.y0[p]));
        return d <= reach + half * 1.4142135624;
    }

    /**
     * Whether a line may reach a block, without what a joined neighbour covers: beyond its end a line adds nothing to the next
     * one, before its start nothing to the previous one unless the block lies in the wedge beyond that one's end.
     */
    private boolean lineTouches(int p, double bx, double by, int p0, int p1, double reachMm) {
        double ux = pieces.ux[p];
        double uy = pieces.uy[p];
        double dx = bx - pieces.x0[p];
        double dy = by - pieces.y0[p];
        double reach = reachMm + ToolProfile.TOUCH_MM;
        double half = kernel.halfMm();
        double extent = half * (Math.abs(ux) + Math.abs(uy));
        double aside = Math.abs(dx * uy - dy * ux) - extent;
        if (aside > reach) {
            return false;
        }
        double t = dx * ux + dy * uy;
        double away = -(t + extent);
        if (away > 0) {
            if (p > p0 && pieces.joined[p]) {
                double vx = pieces.ux[p - 1];
                double vy = pieces.uy[p - 1];
                if (dx * vx + dy * vy + half * (Math.abs(vx) + Math.abs(vy)) <= 0) {
                    return false;
                }
            }
        } else {
            away = t - extent - pieces.length[p];
            if (away <= 0) {
                return true;
            }
            if (p + 1 < p1 && pieces.joined[p + 1]) {
                return false;
            }
        }
        return aside <= 0 ? away <= reach : aside * aside + away * away <= reach * reach;
    }
}
