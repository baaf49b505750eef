package foilproof.copper;

/**
 * Measures the copper left round holes at the foil's bottom.
 *
 * <p>On each of {@link #RAYS} rays from the hole's edge copper is followed cell by cell in the map to where it ends, and
 * the least of these ends is then sought by halving with the cutters' shapes, to 1e-8 mm. Rays that cannot be the least
 * are passed over. Supposed is that within the one cell in which copper ends on a ray it ends once: a wall that only
 * grazes a ray there, by less than c2 / 8 R (0.25 um deep for a cell of 10 um and a cutter of 0.05 mm radius), may be
 * met or not; the ring is off by no more than a cell on that ray alone.
 *
 * <p>Why rays may be passed over: the halving gives a place between the last cell with copper and the first without
 * one. (1) A ray whose first cell without copper comes a cell or more after the least such cell of all rays ends beyond
 * that cell, and so beyond the least. (2) A ray that has copper at the least distance so far ends, ending once, beyond it.
 */
public final class RingMeter {
    private static final int RAYS = 720;
    private static final int HALVINGS = 20;

    /** Less copper than this is none, mm: a tenth of what results are rounded to. */
    private static final double NOTHING_MM = 1e-7;

    private static final double[] COS = new double[RAYS];
    private static final double[] SIN = new double[RAYS];

    static {
        for (int k = 0; k < RAYS; k++) {
            COS[k] = StrictMath.cos(2 * Math.PI * k / RAYS);
            SIN[k] = StrictMath.sin(2 * Math.PI * k / RAYS);
        }
    }

    private final MarginField field;
    private final CopperMap map;

    /**
     * A meter for one side.
     *
     * @param map the copper at the foil's bottom (level 0)
     */
    public RingMeter(CopperMap map) {
        this.map = map;
        field = map.field();
    }

    /**
     * Copper left round a hole at the foil bottom: the least distance from its edge to where copper ends, mm; 0 where
     * none is left beside it somewhere.
     *
     * @param xMm centre of the hole
     * @param yMm likewise
     * @param radiusMm its radius at the foil bottom
     * @param mostMm rings of this width and more need not be told apart
     */
    public double ringMm(double xMm, double yMm, double radiusMm, double mostMm) {
        double step = field.cellMm();
        double best = Math.min(
                mostMm,
                Math.min(Math.min(xMm, yMm), Math.min(field.widthMm() - xMm, field.heightMm() - yMm)) - radiusMm);
        double[] ends = new double[RAYS];
        double reached = best;
        for (int k = 0; k < RAYS; k++) {
            ends[k] = Double.POSITIVE_INFINITY;
            for (double d = step; d < reached + step; d += step) {
                double r = radiusMm + d;
                if (map.pieceAt(xMm + COS[k] * r, yMm + SIN[k] * r) < 0) {
                    ends[k] = d;
                    reached = Math.min(reached, d);
                    break;
                }
            }
        }
        // First the rays that end in the least cell: they leave the fewest others in question.
        for (int pass = 0; pass < 2; pass++) {
            for (int k = 0; k < RAYS && best > NOTHING_MM; k++) {
                double d = ends[k];
                if ((pass == 0) == (d <= reached) && d - step < best) {
                    double r = radiusMm + best;
                    if (d < best || !field.copperAt(xMm + COS[k] * r, yMm + SIN[k] * r)) {
                        best = Math.min(best, endMm(xMm, yMm, k, radiusMm, Math.max(0, d - step), d, best));
                    }
                }
            }
        }
        return Math.max(0, best);
    }

    /** Where between two distances copper ends on a ray, by halving; from {@code most} on only that it is no less. */
    private double endMm(double xMm, double yMm, int ray, double radiusMm, double low, double high, double most) {
        double a = low;
        double b = high;
        for (int k = 0; k < HALVINGS && a < most; k++) {
            double mid = (a + b) / 2;
            if (field.copperAt(xMm + COS[ray] * (radiusMm + mid), yMm + SIN[ray] * (radiusMm + mid))) {
                a = mid;
            } else {
                b = mid;
            }
        }
        return b;
    }
}
