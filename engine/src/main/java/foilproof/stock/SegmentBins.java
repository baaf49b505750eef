package foilproof.stock;

import java.util.Arrays;

/**
 * Which pieces of a path may reach which tile: for every tile of the swept domain a list of pieces in time order. The
 * sweep works tile by tile from it, and the same lists answer who cut at a point.
 */
final class SegmentBins {
    /** More tiles than this are refused: the domain is too large for the cell. */
    private static final long MOST_TILES = 64_000_000L;

    final int tileX0;
    final int tileY0;
    final int tilesX;
    final int tilesY;
    final double tileMm;
    private final int[] start;
    private final int[] pieceOf;

    private SegmentBins(int tileX0, int tileY0, int tilesX, int tilesY, double tileMm, int[] start, int[] pieceOf) {
        this.tileX0 = tileX0;
        this.tileY0 = tileY0;
        this.tilesX = tilesX;
        this.tilesY = tilesY;
        this.tileMm = tileMm;
        this.start = start;
        this.pieceOf = pieceOf;
    }

    /**
     * Sorts pieces into tiles.
     *
     * @param domainMm left, lower, right, upper of what is swept: tiles wholly outside have no lists
     * @throws IllegalArgumentException where the domain has too many tiles
     */
    static SegmentBins of(Pieces pieces, double cellMm, double[] domainMm) {
        double tileMm = cellMm * HeightTiles.TILE;
        double[] used = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        double[] box = new double[4];
        for (int p = 0; p < pieces.size; p++) {
            pieces.box(p, box);
            used[0] = Math.min(used[0], box[0] - pieces.reach[p]);
            used[1] = Math.min(used[1], box[1] - pieces.reach[p]);
            used[2] = Math.max(used[2], box[2] + pieces.reach[p]);
            used[3] = Math.max(used[3], box[3] + pieces.reach[p]);
        }
        double left = Math.max(used[0], domainMm[0]);
        double lower = Math.max(used[1], domainMm[1]);
        double right = Math.min(used[2], domainMm[2]);
        double upper = Math.min(used[3], domainMm[3]);
        if (pieces.size == 0 || !(left < right) || !(lower < upper)) {
            return new SegmentBins(0, 0, 0, 0, tileMm, new int[1], new int[0]);
        }
        int tx0 = (int) Math.floor(left / tileMm);
        int ty0 = (int) Math.floor(lower / tileMm);
        long nx = (long) Math.floor(right / tileMm) - tx0 + 1;
        long ny = (long) Math.floor(upper / tileMm) - ty0 + 1;
        if (nx * ny > MOST_TILES) {
            throw new IllegalArgumentException("cells of " + cellMm + " mm are too fine for a domain of "
                    + (right - left) + " mm x " + (upper - lower) + " mm");
        }
        SegmentBins empty = new SegmentBins(tx0, ty0, (int) nx, (int) ny, tileMm, new int[0], new int[0]);
        int[] start = new int[(int) (nx * ny) + 1];
        empty.visit(pieces, (tile, piece) -> start[tile + 1]++);
        for (int t = 0; t + 1 < start.length; t++) {
            start[t + 1] = Math.addExact(start[t + 1], start[t]);
        }
        int[] fill = Arrays.copyOf(start, start.length - 1);
        int[] pieceOf = new int[start[start.length - 1]];
        empty.visit(pieces, (tile, piece) -> pieceOf[fill[tile]++] = piece);
        return new SegmentBins(tx0, ty0, (int) nx, (int) ny, tileMm, start, pieceOf);
    }

    private interface Visitor {
        void visit(int tile, int piece);
    }

    private void visit(Pieces pieces, Visitor visitor) {
        double[] box = new double[4];
        for (int p = 0; p < pieces.size; p++) {
            double reach = pieces.reach[p] + ToolProfile.TOUCH_MM;
            pieces.box(p, box);
            int fromX = (int) Math.max(tileX0, Math.floor((box[0] - reach) / tileMm));
            int toX = (int) Math.min(tileX0 + tilesX - 1.0, Math.floor((box[2] + reach) / tileMm));
            int fromY = (int) Math.max(tileY0, Math.floor((box[1] - reach) / tileMm));
            int toY = (int) Math.min(tileY0 + tilesY - 1.0, Math.floor((box[3] + reach) / tileMm));
            boolean few = fromX >= toX && fromY >= toY;
            for (int ty = fromY; ty <= toY; ty++) {
                for (int tx = fromX; tx <= toX; tx++) {
                    if (few || near(pieces, p, tx, ty, reach)) {
                        visitor.visit((ty - tileY0) * tilesX + tx - tileX0, p);
                    }
                }
            }
        }
    }

    /** Whether a piece may reach a tile: exact for the sides of lines, generous at corners. */
    private boolean near(Pieces pieces, int p, int tx, int ty, double reach) {
        double half = tileMm / 2;
        double x = (tx + 0.5) * tileMm;
        double y = (ty + 0.5) * tileMm;
        if (pieces.kind[p] == Pieces.LINE) {
            double dx = x - pieces.x0[p];
            double dy = y - pieces.y0[p];
            double ux = pieces.ux[p];
            double uy = pieces.uy[p];
            double extent = half * (Math.abs(ux) + Math.abs(uy));
            return Math.abs(dx * uy - dy * ux) <= reach + extent;
        }
        if (pieces.kind[p] == Pieces.ARC) {
            return PieceShape.arcDistance(pieces, p, x, y) <= reach + half * Math.sqrt(2) * (1 + 1e-9);
        }
        return true;
    }

    int tileCount() {
        return tilesX * tilesY;
    }

    /** Index in other bins of the same size of the tile that lies where one of these lies; -1 where there is none. */
    int sameTile(int tile, SegmentBins other) {
        int x = tileX0 + tile % tilesX - other.tileX0;
        int y = tileY0 + tile / tilesX - other.tileY0;
        return tileMm == other.tileMm && x >= 0 && y >= 0 && x < other.tilesX && y < other.tilesY
                ? y * other.tilesX + x
                : -1;
    }

    /** First place in {@link #piece} of a tile's list, given its index row by row. */
    int from(int tile) {
        return start[tile];
    }

    /** One past the last place of a tile's list. */
    int to(int tile) {
        return start[tile + 1];
    }

    /** First place of a tile's list whose piece is not below {@code piece}. */
    int from(int tile, int piece) {
        int at = Arrays.binarySearch(pieceOf, start[tile], start[tile + 1], piece);
        return at < 0 ? -at - 1 : at;
    }

    /** The piece at a place. */
    int piece(int at) {
        return pieceOf[at];
    }

    /** Index of the tile that holds a point, or -1 where no list exists. */
    int tileAt(double xMm, double yMm) {
        double x = xMm / tileMm;
        double y = yMm / tileMm;
        if (!(x >= tileX0 && y >= tileY0 && x < tileX0 + tilesX && y < tileY0 + tilesY)) {
            return -1;
        }
        // the library's floor takes long until the thorough compiler comes, and this is asked for every height
        int column = (int) x;
        int row = (int) y;
        return ((y < row ? row - 1 : row) - tileY0) * tilesX + (x < column ? column - 1 : column) - tileX0;
    }
}
