package foilproof.stock;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntConsumer;
import org.jspecify.annotations.Nullable;

/**
 * What each move of a run removed, in time order, from the surface as it was at that moment: the order-dependent side
 * of a run (rapid in material, first contact, depth engaged). Volumes are sums over cells: good to half a cell along
 * the moves' edges, and told with that error; spoil board counts, off the blank it is all there is.
 */
public final class Replay {
    /** Less depth than this is rounding, not a cut, mm: single precision of heights with a wide margin. */
    public static final double LEAST_CUT_MM = 1e-5;

    private final double[] removedMm3;
    private final double[] removedFoilMm3;
    private final float[] engagedMm;

    private Replay(double[] removedMm3, double[] removedFoilMm3, float[] engagedMm) {
        this.removedMm3 = removedMm3;
        this.removedFoilMm3 = removedFoilMm3;
        this.engagedMm = engagedMm;
    }

    /**
     * Replays a run over the surface that it met.
     *
     * @param board the board under conditions
     * @param side number of the side on which the run works
     * @param run index of the run in the job
     * @param threads how many threads; the result does not depend on it
     * @throws IllegalArgumentException where the run is absent or not on this side
     */
    public static Replay of(ComposedBoard board, int side, int run, int threads) {
        Layer layer = board.side(side).layer(run);
        ComposedSide before = board.before(side, run);
        Envelope envelope = layer.envelope();
        SegmentBins bins = envelope.bins();
        int entries = bins.tileCount() == 0 ? 0 : bins.to(bins.tileCount() - 1);
        double[] volume = new double[entries];
        double[] foil = new double[entries];
        float[] depth = new float[entries];
        Parallel.run(bins.tileCount(), threads, () -> new Worker(layer, before, volume, foil, depth));
        int moves = envelope.path().size();
        double[] removed = new double[moves];
        double[] removedFoil = new double[moves];
        float[] engaged = new float[moves];
        for (int at = 0; at < entries; at++) {
            int move = envelope.pieces().move[bins.piece(at)];
            removed[move] += volume[at];
            removedFoil[move] += foil[at];
            engaged[move] = Math.max(engaged[move], depth[at]);
        }
        return new Replay(removed, removedFoil, engaged);
    }

    /**
     * Replays a run, or takes what was replayed for the same moves over the same surface before.
     *
     * @param memo what was replayed before; null for nothing
     */
    public static Replay of(@Nullable Memo memo, ComposedBoard board, int side, int run, int threads) {
        ComposedSide before = board.before(side, run);
        List<ComposedSide.LayerLikeness> own =
                ComposedSide.likenessOf(List.of(board.side(side).layer(run)));
        return Memo.of(
                memo,
                new Key(before.likeness(), own.get(0)),
                replay -> 20L * replay.size(),
                () -> of(board, side, run, threads));
    }

    private record Key(Object before, ComposedSide.LayerLikeness own) {}

    /** How many moves. */
    public int size() {
        return removedMm3.length;
    }

    /** Volume that a move (index within the run) removed, mm3. */
    public double removedMm3(int move) {
        return removedMm3[move];
    }

    /** Volume of foil that a move removed, mm3. */
    public double removedFoilMm3(int move) {
        return removedFoilMm3[move];
    }

    /** Volume that the moves from one (inclusive) to another (exclusive) removed, mm3. */
    public double removedMm3(int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += removedMm3[i];
        }
        return sum;
    }

    /** Largest depth that a move took off at any place, mm: what it was engaged in below the surface of that moment. */
    public double engagedMm(int move) {
        return engagedMm[move];
    }

    /** Whether a move removed anything. */
    public boolean removes(int move) {
        return engagedMm[move] > LEAST_CUT_MM;
    }

    /** The first move that removed anything, or -1. */
    public int firstContact() {
        for (int i = 0; i < engagedMm.length; i++) {
            if (removes(i)) {
                return i;
            }
        }
        return -1;
    }

    /** Replays tile by tile; every tile writes to its own places of the result. */
    private static final class Worker implements IntConsumer {
        private static final int BLOCKS = HeightTiles.TILE / BlockKernel.BLOCK;
        private static final int LEFT = BlockKernel.CELLS / 4;
        /** What passes this far above or beside a surface does not touch it, however single precision rounds, mm. */
        private static final double CLEAR_MM = 1e-4;

        private final Envelope envelope;
        private final SegmentBins bins;
        private final Pieces pieces;
        private final TileSweep sweep;
        private final ComposedSide before;
        private final double[] volume;
        private final double[] foil;
        private final float[] depth;
        private final double cellArea;
        private final double layerShiftMm;
        private final float shift;
        /** The surface of the moment, block by block, in the run's own zero. */
        private final float[][] now = new float[BLOCKS * BLOCKS][BlockKernel.CELLS];

        /** The foil's glue plane likewise; what is off the blank has none. */
        private final float[][] glue = new float[BLOCKS * BLOCKS][BlockKernel.CELLS];

        private final float[] row = new float[HeightTiles.TILE];
        private final double[] top = new double[HeightTiles.TILE];
        private final float[] foilPart = new float[BlockKernel.CELLS];
        private final float[] most = new float[BlockKernel.CELLS];
        private final boolean untouched;

        Worker(Layer layer, ComposedSide before, double[] volume, double[] foil, float[] depth) {
            envelope = layer.envelope();
            bins = envelope.bins();
            pieces = envelope.pieces();
            sweep = envelope.tileSweep();
            this.before = before;
            this.volume = volume;
            this.foil = foil;
            this.depth = depth;
            layerShiftMm = layer.shiftMm();
            shift = (float) layerShiftMm;
            untouched = before.layers().isEmpty() && before.isFlat();
            cellArea = before.cellMm() * before.cellMm();
        }

        @Override
        public void accept(int tile) {
            int from = bins.from(tile);
            int to = bins.from(tile, envelope.endPiece());
            if (from == to) {
                return;
            }
            load(tile);
            double size = BlockKernel.BLOCK * before.cellMm();
            double x0 = (bins.tileX0 + tile % bins.tilesX) * bins.tileMm + size / 2;
            double y0 = (bins.tileY0 + tile / bins.tilesX) * bins.tileMm + size / 2;
            double highest = highest();
            for (int at = from; at < to; at++) {
                int p = bins.piece(at);
                // Flanks above all there is to cut, as most of a V-shaped bit's are, cut nothing.
                double rise = highest - pieces.lowest(p) + CLEAR_MM;
                double reach = envelope.profile().radiusMm(rise) + CLEAR_MM;
                for (int b = 0; b < BLOCKS * BLOCKS; b++) {
                    double bx = x0 + b % BLOCKS * size;
                    double by = y0 + b / BLOCKS * size;
                    if (rise > 0 && sweep.mayCut(p, bx, by, reach)) {
                        cut(at, p, bx, by, now[b], glue[b]);
                    }
                }
            }
        }

        /** Highest place of the tile before the run: the surface only ever sinks. */
        private double highest() {
            float most = now[0][0];
            for (float[] block : now) {
                for (int c = 0; c < BlockKernel.CELLS; c++) {
                    most = Math.max(most, block[c]);
                }
            }
            return most;
        }

        private void load(int tile) {
            int i0 = (bins.tileX0 + tile % bins.tilesX) * HeightTiles.TILE;
            int j0 = (bins.tileY0 + tile / bins.tilesX) * HeightTiles.TILE;
            int last = HeightTiles.TILE - 1;
            if (untouched && i0 >= 0 && j0 >= 0 && i0 + last < before.columns() && j0 + last < before.rows()) {
                for (int b = 0; b < now.length; b++) {
                    Arrays.fill(now[b], -shift);
                    Arrays.fill(glue[b], (float) (-before.foilMm() - layerShiftMm));
                }
                return;
            }
            float spoil = (float) before.spoilBoardMm();
            for (int j = 0; j < HeightTiles.TILE; j++) {
                before.heightRow(j0 + j, i0, HeightTiles.TILE, row);
                before.surfaceRow(j0 + j, i0, HeightTiles.TILE, top);
                for (int i = 0; i < HeightTiles.TILE; i++) {
                    boolean on = i0 + i >= 0 && i0 + i < before.columns() && j0 + j >= 0 && j0 + j < before.rows();
                    float height = on ? row[i] : Math.min(row[i], spoil);
                    int block = j / BlockKernel.BLOCK * BLOCKS + i / BlockKernel.BLOCK;
                    int cell = j % BlockKernel.BLOCK * BlockKernel.BLOCK + i % BlockKernel.BLOCK;
                    now[block][cell] = height - shift;
                    glue[block][cell] = on ? (float) (top[i] - before.foilMm() - layerShiftMm) : Float.MAX_VALUE;
                }
            }
        }

        private void cut(int at, int p, double bx, double by, float[] surface, float[] bottom) {
            float lowest = (float) pieces.lowest(p);
            float[] cut = sweep.kernel.d2;
            if (pieces.level(p)) {
                sweep.kernel.reset();
                sweep.level(p, bx, by);
                sweep.kernel.heights(lowest);
            } else {
                System.arraycopy(surface, 0, cut, 0, BlockKernel.CELLS);
                sweep.kernel.sloped(pieces, p, envelope.profile(), bx, by, cut);
            }
            takeLoop(surface, cut, bottom, foilPart);
            fold(cut, foilPart, most);
            double sum = 0;
            double foilSum = 0;
            float deepest = 0;
            for (int c = 0; c < LEFT; c++) {
                sum += cut[c];
                foilSum += foilPart[c];
                deepest = Math.max(deepest, most[c]);
            }
            volume[at] += sum * cellArea;
            foil[at] += foilSum * cellArea;
            depth[at] = Math.max(depth[at], deepest);
        }

        /**
         * Sums of {@code a} and {@code b} and greatest of {@code a} folded in halves down to {@link #LEFT} cells: element
         * by element, so that the compiler makes vector code; the order never changes.
         */
        private static void fold(float[] a, float[] b, float[] greatest) {
            for (int c = 0; c < BlockKernel.CELLS / 2; c++) {
                greatest[c] = Math.max(a[c], a[c + BlockKernel.CELLS / 2]);
                a[c] += a[c + BlockKernel.CELLS / 2];
                b[c] += b[c + BlockKernel.CELLS / 2];
            }
            for (int c = 0; c < LEFT; c++) {
                greatest[c] = Math.max(greatest[c], greatest[c + LEFT]);
                a[c] += a[c + LEFT];
                b[c] += b[c + LEFT];
            }
        }

        /** surface = min(surface, cut); cut = what was taken off; part = what of it lay above the foil's bottom. */
        private static void takeLoop(float[] surface, float[] cut, float[] bottom, float[] part) {
            for (int c = 0; c < BlockKernel.CELLS; c++) {
                float less = surface[c] - cut[c];
                less = 0.5f * (less + Math.abs(less));
                float above = surface[c] - bottom[c];
                part[c] = Math.min(less, 0.5f * (above + Math.abs(above)));
                surface[c] -= less;
                cut[c] = less;
            }
        }
    }
}
