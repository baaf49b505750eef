package foilproof.stock;

/**
 * How fine, how high and where tool runs are swept.
 *
 * @param cellMm side of a cell, mm
 * @param headroomMm how far above the nominal foil top heights are kept, mm, see {@link #headroomMm(double, double,
 *     double)}
 * @param leftMm left edge of what is swept, blank's frame, mm
 * @param lowerMm lower edge
 * @param rightMm right edge
 * @param upperMm upper edge
 * @param threads how many threads; the result does not depend on it
 */
public record SweepSettings(
        double cellMm, double headroomMm, double leftMm, double lowerMm, double rightMm, double upperMm, int threads) {
    /** How far beyond the blank sweeps go unless a caller says otherwise, mm: spoil board round the blank. */
    public static final double MARGIN_MM = 5;

    /** The least headroom, mm: a blank that lies this much higher still has its walls. */
    public static final double LEAST_HEADROOM_MM = 0.3;

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException where the cell or the headroom is not positive
     */
    public SweepSettings {
        if (!(cellMm > 0) || !(headroomMm > 0) || threads < 1) {
            throw new IllegalArgumentException("a sweep needs a cell and a headroom above 0 and a thread");
        }
    }

    /** The blank and {@link #MARGIN_MM} round it, the least headroom, all processors. */
    public static SweepSettings forBlank(double cellMm, double widthMm, double heightMm) {
        return new SweepSettings(
                cellMm,
                LEAST_HEADROOM_MM,
                -MARGIN_MM,
                -MARGIN_MM,
                widthMm + MARGIN_MM,
                heightMm + MARGIN_MM,
                Parallel.defaultThreads());
    }

    /**
     * Headroom as the design sets it: max(0.3 mm, highest surface + largest Z error + thickness change in question).
     *
     * @param highestSurfaceMm highest place of the foil top above its nominal place, mm
     * @param largestZErrorMm largest Z error in question, mm, + = really deeper
     * @param thicknessChangeMm how much thinner the blank may be in question, mm
     */
    public static double headroomMm(double highestSurfaceMm, double largestZErrorMm, double thicknessChangeMm) {
        return Math.max(
                LEAST_HEADROOM_MM,
                Math.max(highestSurfaceMm, 0) + Math.max(largestZErrorMm, 0) + Math.abs(thicknessChangeMm));
    }

    /** The same with another headroom, mm. */
    public SweepSettings withHeadroom(double newHeadroomMm) {
        return new SweepSettings(cellMm, newHeadroomMm, leftMm, lowerMm, rightMm, upperMm, threads);
    }

    /** The same on another number of threads. */
    public SweepSettings withThreads(int newThreads) {
        return new SweepSettings(cellMm, headroomMm, leftMm, lowerMm, rightMm, upperMm, newThreads);
    }

    /** The same with another cell, mm. */
    public SweepSettings withCell(double newCellMm) {
        return new SweepSettings(newCellMm, headroomMm, leftMm, lowerMm, rightMm, upperMm, threads);
    }

    double[] domainMm() {
        return new double[] {leftMm, lowerMm, rightMm, upperMm};
    }
}
