package foilproof.copper;

/**
 * Measures a strip or a gap on one line across it, from the cutters' shapes and not from the cells: that is what a
 * person reads, and what guards against faults that the grid alone makes.
 */
final class SectionMeter {
    /** Places found by halving to 0.1 um; the rest is the sweep's own rounding. */
    static final double ERROR_MM = 0.0005;

    private final MarginField field;

    SectionMeter(MarginField field) {
        this.field = field;
    }

    /** The middle of the last section measured at the foil's bottom. */
    double middleXMm;

    double middleYMm;

    /**
     * Width of copper at a level on a line through a place in or near it.
     *
     * @param x a place on the line
     * @param y likewise
     * @param ux direction of the line, length 1
     * @param uy likewise
     * @param reach how far either way the walls may lie, mm
     * @return 0 where the crest on the line does not reach the level
     */
    double copperMm(double x, double y, double ux, double uy, double reach, double level) {
        double crest = crest(x, y, ux, uy, reach);
        if (field.exactMarginMm(x + crest * ux, y + crest * uy) <= level) {
            return 0;
        }
        double low = edge(x, y, -ux, -uy, -crest, 2 * reach, level, true);
        double high = edge(x, y, ux, uy, crest, 2 * reach, level, true);
        middleXMm = x + 0.5 * (high - low) * ux;
        middleYMm = y + 0.5 * (high - low) * uy;
        return low + high;
    }

    /** Width of the gap at a level on a line through a cleared place; infinite where no wall is within reach. */
    double gapMm(double x, double y, double ux, double uy, double reach, double level) {
        double low = edge(x, y, -ux, -uy, 0, reach, level, false);
        double high = edge(x, y, ux, uy, 0, reach, level, false);
        return low >= reach || high >= reach ? Double.POSITIVE_INFINITY : low + high;
    }

    /** Where along the line the margin is highest, by thirds: a ridge rises to its crest from both sides. */
    private double crest(double x, double y, double ux, double uy, double reach) {
        double best = 0;
        double height = field.exactMarginMm(x, y);
        int steps = 8;
        for (int k = -steps; k <= steps; k++) {
            double s = reach * k / steps * 0.75;
            double m = field.exactMarginMm(x + s * ux, y + s * uy);
            if (m > height + 1e-12) {
                height = m;
                best = s;
            }
        }
        double step = reach / steps;
        while (step > 1e-4) {
            double a = field.exactMarginMm(x + (best - step) * ux, y + (best - step) * uy);
            double b = field.exactMarginMm(x + (best + step) * ux, y + (best + step) * uy);
            if (a > height + 1e-12 && a >= b) {
                height = a;
                best -= step;
            } else if (b > height + 1e-12) {
                height = b;
                best += step;
            } else {
                step *= 0.5;
            }
        }
        return best;
    }

    /** Distance along a direction, from the start, at which copper ends (or, in a gap, begins). */
    private double edge(
            double x, double y, double ux, double uy, double start, double reach, double level, boolean copper) {
        int steps = 16;
        double inside = start;
        double outside = start + reach;
        boolean met = false;
        for (int k = 1; k <= steps && !met; k++) {
            double s = start + reach * k / steps;
            if (field.exactMarginMm(x + s * ux, y + s * uy) > level != copper) {
                outside = s;
                met = true;
            } else {
                inside = s;
            }
        }
        if (!met) {
            return start + reach;
        }
        while (outside - inside > 1e-4) {
            double mid = 0.5 * (inside + outside);
            if (field.exactMarginMm(x + mid * ux, y + mid * uy) > level == copper) {
                inside = mid;
            } else {
                outside = mid;
            }
        }
        return 0.5 * (inside + outside);
    }
}
