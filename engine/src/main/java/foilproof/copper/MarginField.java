package foilproof.copper;

import foilproof.stock.Parallel;

/**
 * How far the finished surface of one side lies above the foil's glue plane, sampled at the cell centres ((i + 0.5) h,
 * (j + 0.5) h) of a grid that covers the blank from its lower-left corner, and asked exactly anywhere.
 *
 * <p>Margin m in mm: m &gt; 0 is copper, m &lt;= 0 is cleared; {@code foil thickness} is the foil's top. The margin is
 * <em>not</em> clipped at the foil top: where a cutter passed above the foil, or where the wall of a V-shaped groove
 * goes on above it, the cutter's envelope still counts, up to {@link #capMm()} (the headroom). That is what lets a
 * threshold answer for another Z error, and a contour at the foil's thickness give the groove's width on top.
 *
 * <p>Implementations are immutable and safe to ask from several threads at once.
 */
public interface MarginField {
    /** Edge of a cell, mm. */
    double cellMm();

    /** Cells along X: those whose centre lies inside the blank. */
    int columns();

    /** Cells along Y: those whose centre lies inside the blank. */
    int rows();

    /** The blank's width (X), mm; the last column stands for what is left of it. */
    double widthMm();

    /** The blank's height (Y), mm; the last row stands for what is left of it. */
    double heightMm();

    /** Foil thickness t, mm: the margin of the bare foil's top. */
    double foilMm();

    /** Margin where no cutter came near, mm; no margin is above it. At least the foil thickness. */
    double capMm();

    /**
     * Copies the margins of one row of cells, mm.
     *
     * @param row 0 to {@code rows() - 1}
     * @param into at least {@code columns()} long; NaN never, negative infinity where nothing can be copper
     */
    void marginRow(int row, float[] into);

    /**
     * Whether no cutter comes into a tile of {@link foilproof.stock.HeightTiles#TILE} cells: all its margins are one and
     * the same, at the cap. False where it is not known.
     */
    default boolean untouched(int tileX, int tileY) {
        return false;
    }

    /** The margin at a place in the blank's frame, mm, from the cutters' shapes and not from the cells. */
    double exactMarginMm(double xMm, double yMm);

    /** Whether copper is left at a place: the same as a margin above 0, sooner known. */
    default boolean copperAt(double xMm, double yMm) {
        return exactMarginMm(xMm, yMm) > 0;
    }

    /** How many threads may go through the field at once; what comes out does not depend on it. */
    default int threads() {
        return Parallel.defaultThreads();
    }

    /**
     * The steepest sloping wall in the field, mm of height per mm sideways (3.73 for a 30 degree V-shaped bit): a larger
     * jump between two cells is a vertical wall, whose place is asked for with {@link #wallFraction}.
     */
    double steepestSlope();

    /**
     * The flattest sloping wall, mm of height per mm sideways: how far a wall can move sideways when a cutter goes
     * deeper. Infinite where all walls are vertical.
     */
    default double flattestSlope() {
        return steepestSlope();
    }

    /**
     * Where between two points the margin passes a level, exactly: by halving the interval with
     * {@link #exactMarginMm}, to 1/1024 of its length.
     *
     * @param x0Mm the end whose margin is above the level
     * @param y0Mm likewise
     * @param x1Mm the end whose margin is not above the level
     * @param y1Mm likewise
     * @param levelMm the level
     * @return 0 at the first point, 1 at the second
     */
    default double wallFraction(double x0Mm, double y0Mm, double x1Mm, double y1Mm, double levelMm) {
        double low = 0;
        double high = 1;
        for (int i = 0; i < 10; i++) {
            double mid = 0.5 * (low + high);
            double xMm = x0Mm + (x1Mm - x0Mm) * mid;
            double yMm = y0Mm + (y1Mm - y0Mm) * mid;
            if (levelMm == 0 ? copperAt(xMm, yMm) : exactMarginMm(xMm, yMm) > levelMm) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return 0.5 * (low + high);
    }
}
