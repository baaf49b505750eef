package foilproof.stock;

import java.lang.ref.WeakReference;
import org.jspecify.annotations.Nullable;

/**
 * E_k of one tool run: the lowest surface that the cutter's swept shape reaches, in the run's own Z, not clipped by
 * the blank, kept up to a headroom above the nominal foil top. Immutable once swept.
 *
 * <p>Rapids are swept too where they come below the headroom: they remove material as well. Distances to the path are
 * exact; nothing is stamped along it. A height of {@link #capMm()} means: not reached below the headroom.
 */
public final class Envelope {
    private final CutPath path;
    private final ToolProfile profile;
    private final SweepSettings settings;
    private final double capMm;
    private final Pieces pieces;
    private final SegmentBins bins;
    private final HeightTiles tiles;
    /** Pieces from here on have not happened yet. */
    private final int endPiece;
    /** The done part of a move that is under way, or null. */
    private final @Nullable Pieces part;

    private Envelope(
            CutPath path,
            ToolProfile profile,
            SweepSettings settings,
            double capMm,
            Pieces pieces,
            SegmentBins bins,
            @Nullable Envelope like) {
        this.path = path;
        this.profile = profile;
        this.settings = settings;
        this.capMm = capMm;
        this.pieces = pieces;
        this.bins = bins;
        endPiece = pieces.size;
        part = null;
        tiles = like == null ? sweepPieces(empty(), 0, pieces.size) : sweepOthersThan(like);
    }

    /** The same cuts along a path that takes the same way at other moments. */
    private Envelope(Envelope whole, CutPath samePath) {
        path = samePath;
        profile = whole.profile;
        settings = whole.settings;
        capMm = whole.capMm;
        pieces = whole.pieces;
        bins = whole.bins;
        tiles = whole.tiles;
        endPiece = whole.endPiece;
        part = whole.part;
    }

    private Envelope(Envelope whole, HeightTiles tiles, int endPiece, @Nullable Pieces part) {
        path = whole.path;
        profile = whole.profile;
        settings = whole.settings;
        capMm = whole.capMm;
        pieces = whole.pieces;
        bins = whole.bins;
        this.tiles = tiles;
        this.endPiece = endPiece;
        this.part = part;
    }

    /**
     * Sweeps a tool run.
     *
     * @param path its moves
     * @param profile its cutter
     * @param settings cell, headroom, domain, threads
     * @param nominalZeroMm where the run's zero nominally lies above the nominal foil top: 0 for a zero on the foil,
     *     -(thickness + tape) for one on the spoil board
     * @throws IllegalArgumentException where the domain has too many tiles for the cell
     */
    public static Envelope sweep(CutPath path, ToolProfile profile, SweepSettings settings, double nominalZeroMm) {
        double capMm = (float) (settings.headroomMm() - nominalZeroMm);
        Pieces pieces = Pieces.of(path, profile, capMm);
        SegmentBins bins = SegmentBins.of(pieces, settings.cellMm(), settings.domainMm());
        return new Envelope(path, profile, settings, capMm, pieces, bins, null);
    }

    /**
     * Sweeps a tool run, or takes what was swept for the same moves, cutter and settings before; moments count for
     * nothing there. Envelopes of one way share their tiles.
     *
     * @param memo what was swept before; null for nothing
     */
    public static Envelope sweep(
            @Nullable Memo memo, CutPath path, ToolProfile profile, SweepSettings settings, double nominalZeroMm) {
        Envelope swept = Memo.of(
                memo,
                new Key(path, profile, settings, nominalZeroMm),
                Envelope::bytes,
                () -> sweepLikeBefore(memo, path, profile, settings, nominalZeroMm));
        return swept.path.sameMoments(path) ? swept : new Envelope(swept, path);
    }

    /** Sweeps a path; tiles that the same pieces cut in the last path of that cutter are taken from there. */
    private static Envelope sweepLikeBefore(
            @Nullable Memo memo, CutPath path, ToolProfile profile, SweepSettings settings, double nominalZeroMm) {
        Like like = new Like(profile, settings, nominalZeroMm);
        @Nullable Object last = Memo.peek(memo, like);
        @Nullable
        Envelope before = last instanceof WeakReference<?> kept && kept.get() instanceof Envelope e ? e : null;
        double capMm = (float) (settings.headroomMm() - nominalZeroMm);
        Pieces pieces = Pieces.of(path, profile, capMm);
        SegmentBins bins = SegmentBins.of(pieces, settings.cellMm(), settings.domainMm());
        Envelope swept = new Envelope(path, profile, settings, capMm, pieces, bins, before);
        Memo.put(memo, like, new WeakReference<>(swept));
        return swept;
    }

    /** What envelopes that may share tiles have in common. */
    private record Like(ToolProfile profile, SweepSettings settings, double nominalZeroMm) {}

    private HeightTiles sweepOthersThan(Envelope like) {
        float[] @Nullable [] out = new float[bins.tileCount()][];
        Parallel.run(bins.tileCount(), settings.threads(), () -> {
            TileSweep worker = tileSweep();
            return tile -> {
                int there = bins.sameTile(tile, like.bins);
                out[tile] = there >= 0 && sameCuts(tile, like, there)
                        ? like.tiles.at(there)
                        : worker.sweep(tile, null, 0, pieces.size);
            };
        });
        return map(out);
    }

    private boolean sameCuts(int tile, Envelope like, int there) {
        int n = bins.to(tile) - bins.from(tile);
        if (n != like.bins.to(there) - like.bins.from(there)) {
            return false;
        }
        for (int k = 0; k < n; k++) {
            int p = bins.piece(bins.from(tile) + k);
            if (!pieces.sameCut(p, like.pieces, like.bins.piece(like.bins.from(there) + k))) {
                return false;
            }
        }
        return true;
    }

    /** What an envelope's heights depend on. */
    private record Key(CutPath path, ToolProfile profile, SweepSettings settings, double nominalZeroMm) {
        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Key o
                    && nominalZeroMm == o.nominalZeroMm
                    && settings.equals(o.settings)
                    && profile.equals(o.profile)
                    && path.sameWay(o.path);
        }

        @Override
        public int hashCode() {
            return 31 * (31 * path.wayHash() + profile.hashCode()) + Double.hashCode(nominalZeroMm);
        }
    }

    /** Memory of the heights and of the moves, bytes, about. */
    private long bytes() {
        return tiles.tileCount() * (HeightTiles.TILE_CELLS * 4L + 16) + pieces.size * 150L;
    }

    /**
     * Memory that the heights of a run would take, bytes, without sweeping it: an upper bound, within a tenth for
     * grooves.
     *
     * @throws IllegalArgumentException where the domain has too many tiles for the cell
     */
    public static long bytesNeeded(CutPath path, ToolProfile profile, SweepSettings settings, double nominalZeroMm) {
        Pieces pieces = Pieces.of(path, profile, (float) (settings.headroomMm() - nominalZeroMm));
        SegmentBins bins = SegmentBins.of(pieces, settings.cellMm(), settings.domainMm());
        long tiles = 0;
        for (int t = 0; t < bins.tileCount(); t++) {
            tiles += bins.from(t) < bins.to(t) ? 1 : 0;
        }
        return tiles * (HeightTiles.TILE_CELLS * 4L + 16) + bins.tileCount() * 8L;
    }

    private HeightTiles empty() {
        float[][] none = new float[bins.tileCount()][];
        return map(none);
    }

    private HeightTiles map(float[] @Nullable [] content) {
        return new HeightTiles(
                settings.cellMm(), (float) capMm, bins.tileX0, bins.tileY0, bins.tilesX, bins.tilesY, content);
    }

    private HeightTiles sweepPieces(HeightTiles base, int p0, int p1) {
        float[] @Nullable [] out = base.copyOfTiles();
        Parallel.run(bins.tileCount(), settings.threads(), () -> {
            TileSweep worker = tileSweep();
            return tile -> out[tile] = worker.sweep(tile, out[tile], p0, p1);
        });
        return map(out);
    }

    TileSweep tileSweep() {
        return new TileSweep(pieces, bins, profile, settings.cellMm(), (float) capMm);
    }

    /**
     * The map after some more moves of this run, on a map that has the moves before them; tiles that do not change are
     * shared. Moves before {@code firstMove} and from {@code endMove} on are left out.
     */
    HeightTiles after(@Nullable HeightTiles base, int firstMove, int endMove) {
        return sweepPieces(base == null ? empty() : base, pieces.firstOf(firstMove), pieces.firstOf(endMove));
    }

    /**
     * The envelope at a moment.
     *
     * @param base the map that has the moves before {@code firstMove}
     * @param firstMove the first move that is not in {@code base}
     * @param timeS the moment, seconds since the job's start
     */
    Envelope at(@Nullable HeightTiles base, int firstMove, double timeS) {
        int begun = path.begunAt(timeS);
        int done = begun;
        if (begun > firstMove && path.endS(begun - 1) > timeS) {
            done--;
        }
        HeightTiles map = after(base, firstMove, done);
        if (done == begun) {
            return new Envelope(this, map, pieces.firstOf(done), null);
        }
        Pieces partPieces = Pieces.of(path.underWay(done, timeS), profile, capMm);
        return new Envelope(this, with(map, partPieces), pieces.firstOf(done), partPieces);
    }

    private HeightTiles with(HeightTiles base, Pieces partPieces) {
        SegmentBins partBins = SegmentBins.of(partPieces, settings.cellMm(), settings.domainMm());
        float[] @Nullable [] out = base.copyOfTiles();
        TileSweep worker = new TileSweep(partPieces, partBins, profile, settings.cellMm(), (float) capMm);
        for (int t = 0; t < partBins.tileCount(); t++) {
            int x = partBins.tileX0 + t % partBins.tilesX - bins.tileX0;
            int y = partBins.tileY0 + t / partBins.tilesX - bins.tileY0;
            if (x >= 0 && y >= 0 && x < bins.tilesX && y < bins.tilesY) {
                int index = y * bins.tilesX + x;
                out[index] = worker.sweep(t, out[index], 0, partPieces.size);
            }
        }
        return map(out);
    }

    /** The moves. */
    public CutPath path() {
        return path;
    }

    /** The cutter. */
    public ToolProfile profile() {
        return profile;
    }

    /** Cell, headroom, domain. */
    public SweepSettings settings() {
        return settings;
    }

    /** Top of the headroom in the run's own zero, mm: what is not reached below it has this height. */
    public double capMm() {
        return capMm;
    }

    /** The heights on the grid, mm in the run's own zero. */
    public HeightTiles tiles() {
        return tiles;
    }

    Pieces pieces() {
        return pieces;
    }

    int endPiece() {
        return endPiece;
    }

    SegmentBins bins() {
        return bins;
    }

    /** Height of a cell's centre from the grid, mm in the run's own zero. */
    public double heightMm(int i, int j) {
        return tiles.heightMm(i, j);
    }

    /**
     * The same surface at any point, from the segment bins in double precision: for walls, sections and questions.
     *
     * @param xMm blank's frame
     * @param yMm blank's frame
     * @return mm in the run's own zero; {@link #capMm()} where nothing reaches below the headroom, or the point lies
     *     outside the swept domain
     */
    public double exactHeightMm(double xMm, double yMm) {
        double height = exactHeightMm(xMm, yMm, endPiece);
        if (part != null) {
            for (int p = 0; p < part.size; p++) {
                height = Math.min(height, PieceShape.heightMm(part, p, profile, xMm, yMm));
            }
        }
        return height;
    }

    /** As {@link #exactHeightMm(double, double)}, of the first {@code moves} moves alone. */
    public double exactHeightAfterMm(double xMm, double yMm, int moves) {
        return exactHeightMm(xMm, yMm, Math.min(endPiece, pieces.firstOf(moves)));
    }

    private double exactHeightMm(double xMm, double yMm, int end) {
        int tile = bins.tileAt(xMm, yMm);
        double height = capMm;
        if (tile >= 0) {
            // Last first: later moves mostly lie deeper, and what lies no deeper than the best so far is passed over.
            int first = bins.from(tile);
            int last = end == pieces.size ? bins.to(tile) : bins.from(tile, end);
            for (int at = last - 1; at >= first; at--) {
                int p = bins.piece(at);
                if (pieces.lowest(p) < height) {
                    height = Math.min(height, PieceShape.heightMm(pieces, p, profile, xMm, yMm));
                }
            }
        }
        return height;
    }

    /**
     * Whether the exact height, shifted, is at a level or below it: ends at the first piece that comes down so far, and
     * looks at none that lies higher.
     */
    boolean reaches(double xMm, double yMm, double shiftMm, double levelMm) {
        if (part != null) {
            double height = exactHeightMm(xMm, yMm);
            return height < capMm && height + shiftMm <= levelMm;
        }
        int tile = bins.tileAt(xMm, yMm);
        if (tile < 0) {
            return false;
        }
        int first = bins.from(tile);
        int last = endPiece == pieces.size ? bins.to(tile) : bins.from(tile, endPiece);
        for (int at = last - 1; at >= first; at--) {
            int p = bins.piece(at);
            if (pieces.lowest(p) + shiftMm <= levelMm) {
                double height = PieceShape.heightMm(pieces, p, profile, xMm, yMm);
                if (height < capMm && height + shiftMm <= levelMm) {
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Steepest slope of a wall that is not upright, mm of height per mm: between two neighbouring cells heights can
     * differ by no more than this times the cell (and the diagonal), unless an upright wall stands between them.
     */
    public double steepestConeSlope() {
        return profile.coneRise();
    }
}
