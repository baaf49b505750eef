package foilproof.copper;

/**
 * Measures the copper left round holes at the foil's bottom.
 *
 * <p>On each of {@link #RAYS} rays from the hole's edge copper is followed cell by cell in the map to where it ends. A
 * cell counts by its centre, so the end may lie some cells to either side: it is sought by halving, with the cutters'
 * shapes, from two cells before to one cell after (more where copper goes on), to 1e-8 mm. Rays that cannot be the least
 * are passed over. Supposed is that within these cells copper ends once on a ray: a wall that only grazes a ray there, by
 * less than c2 / 8 R (2 um deep over three cells of 10 um and a cutter of 0.05 mm radius), may be met or not.
 *
 * <p>Why rays may be passed over: the halving gives a place no more than two cells before the first cell without copper.
 * (1) A ray whose first such cell comes three cells or more after the least one of all rays ends no sooner than that ray.
 * (2) A ray that has copper at the least distance so far, and ends after it, is no less.
 */
public final class RingMeter {
    private static final int RAYS = 720;
    private static final int HALVINGS = 22;
    /** How many cells farther an end is sought where copper goes on: as far as a wall nearly along the ray asks. */
    private static final int MORE_CELLS = 6;

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
            for (double d = step; d < reached + 3 * step; d += step) {
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
                double low = Math.max(0, d - 2 * step);
                if ((pass == 0) == (d <= reached) && low < best) {
                    if (d + step <= best || !copper(xMm, yMm, k, radiusMm + best)) {
                        best = Math.min(best, endMm(xMm, yMm, k, radiusMm, low, d + step, best));
                    }
                }
            }
        }
        return Math.max(0, best);
    }

    private boolean copper(double xMm, double yMm, int ray, double r) {
        return field.copperAt(xMm + COS[ray] * r, yMm + SIN[ray] * r);
    }

    /** Where copper ends on a ray, by halving; from {@code most} on only that it is no less. */
    private double endMm(double xMm, double yMm, int ray, double radiusMm, double low, double high, double most) {
        double a = low;
        double b = high;
        for (int k = 0; k < MORE_CELLS && b < most && copper(xMm, yMm, ray, radiusMm + b); k++) {
            a = b;
            b += field.cellMm();
        }
        for (int k = 0; k < HALVINGS && a < most; k++) {
            double mid = (a + b) / 2;
            if (copper(xMm, yMm, ray, radiusMm + mid)) {
                a = mid;
            } else {
                b = mid;
            }
        }
        return b;
    }
}
