package foilproof.copper;

import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.HeightTiles;
import java.util.Arrays;

/** The margins of one side of a composed board: the cut, not clipped by the foil top, above the foil's glue plane. */
public final class SideField implements MarginField {
    /** Walls up to this steep are interpolated even where no cone is: ball ends, round noses, mm per mm. */
    static final double LEAST_SLOPE = 4;

    private final ComposedBoard board;
    private final ComposedSide side;
    private final boolean far;
    private final double foilMm;
    private final double capMm;

    /**
     * A side of a board.
     *
     * @param board the composed board
     * @param sideNumber from 1
     */
    public SideField(ComposedBoard board, int sideNumber) {
        this.board = board;
        side = board.side(sideNumber);
        far = board.cutFromFarSide(sideNumber);
        foilMm = side.foilMm();
        capMm = side.capMm() - side.highestMm() + foilMm;
    }

    @Override
    public int threads() {
        return side.threads();
    }

    @Override
    public double cellMm() {
        return side.cellMm();
    }

    @Override
    public int columns() {
        return side.columns();
    }

    @Override
    public int rows() {
        return side.rows();
    }

    @Override
    public double widthMm() {
        return side.blank().widthMm();
    }

    @Override
    public double heightMm() {
        return side.blank().heightMm();
    }

    @Override
    public double foilMm() {
        return foilMm;
    }

    @Override
    public double capMm() {
        return capMm;
    }

    @Override
    public void marginRow(int row, float[] into) {
        row(side, row, into, foilMm, capMm);
        if (far) {
            lowerByFarSide(board, side, row, into);
        }
    }

    @Override
    public boolean untouched(int tileX, int tileY) {
        return untouched(side, tileX, tileY)
                && (!far || -side.undersideMm() - foilMm > capMm && !board.farTouches(side.number(), tileX, tileY));
    }

    /** Whether a side's margins are at the cap all over a tile; never said of a blank that is not flat. */
    static boolean untouched(ComposedSide side, int tileX, int tileY) {
        return side.isFlat() && !side.touches(tileX, tileY);
    }

    /** Cut less glue plane along a row, clipped at the cap. */
    static void row(ComposedSide side, int row, float[] into, double foilMm, double capMm) {
        int n = side.columns();
        float cap = (float) capMm;
        if (side.isFlat()) {
            float foil = (float) foilMm;
            float above = Math.min(cap, (float) side.capMm() + foil);
            int tileY = Math.floorDiv(row, HeightTiles.TILE);
            for (int from = 0; from < n; from += HeightTiles.TILE) {
                int to = Math.min(n, from + HeightTiles.TILE);
                if (side.touches(from / HeightTiles.TILE, tileY)) {
                    flatRow(side, row, from, to, into, foil, cap);
                } else {
                    Arrays.fill(into, from, to, above);
                }
            }
            return;
        }
        side.cutRow(row, 0, n, into);
        double[] surface = new double[n];
        side.surfaceRow(row, 0, n, surface);
        for (int i = 0; i < n; i++) {
            into[i] = Math.min(cap, (float) (into[i] - surface[i] + foilMm));
        }
    }

    private static void flatRow(ComposedSide side, int row, int from, int to, float[] into, float foil, float cap) {
        side.cutRow(row, from, to - from, into, from);
        for (int i = from; i < to; i++) {
            into[i] = Math.min(cap, into[i] + foil);
        }
    }

    /** Where the other face's cutters come up to this foil, its copper is gone too. */
    static void lowerByFarSide(ComposedBoard board, ComposedSide side, int row, float[] into) {
        int n = side.columns();
        float[] up = new float[HeightTiles.TILE];
        double[] surface = new double[HeightTiles.TILE];
        double foilMm = side.foilMm();
        int tileY = Math.floorDiv(row, HeightTiles.TILE);
        for (int from = 0; from < n; from += HeightTiles.TILE) {
            if (side.isFlat() && !board.farTouches(side.number(), from / HeightTiles.TILE, tileY)) {
                // far below: the blank is thicker than foil and headroom
                float none = (float) (-foilMm - (float) side.undersideMm());
                for (int i = from; i < Math.min(n, from + HeightTiles.TILE); i++) {
                    into[i] = Math.min(into[i], none);
                }
                continue;
            }
            int count = Math.min(n - from, HeightTiles.TILE);
            board.farCutRow(side.number(), row, from, count, up);
            side.surfaceRow(row, from, count, surface);
            for (int i = 0; i < count; i++) {
                into[from + i] = Math.min(into[from + i], (float) (surface[i] - foilMm - up[i]));
            }
        }
    }

    @Override
    public double exactMarginMm(double xMm, double yMm) {
        double bottom = side.foilBottomMm(xMm, yMm);
        double margin = Math.min(capMm, side.exactCutMm(xMm, yMm) - bottom);
        return far ? Math.min(margin, bottom - board.exactFarCutMm(side.number(), xMm, yMm)) : margin;
    }

    @Override
    public boolean copperAt(double xMm, double yMm) {
        double bottom = side.foilBottomMm(xMm, yMm);
        return capMm > 0
                && !side.cutReaches(xMm, yMm, bottom)
                && !(far && bottom - board.exactFarCutMm(side.number(), xMm, yMm) <= 0);
    }

    @Override
    public double steepestSlope() {
        return Math.max(LEAST_SLOPE, side.steepestConeSlope());
    }
}
