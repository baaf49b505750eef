package foilproof.copper;

/**
 * Local thickness of copper or of a gap at a point: the diameter of the largest disc that lies wholly inside and holds
 * the point (Hildebrand and Ruegsegger, J. Microscopy 185, 1997; check-values Q25).
 *
 * <p>Distances are to the contour's edges, whose places are interpolated; the disc's centre is sought on a grid of
 * half-steps and then refined. Immutable once made; made once for a map, asked as often as wanted by one thread at a
 * time.
 */
public final class LocalThickness {
    private static final int STEPS = 32;

    private final CopperMap map;
    private final VertexIndex index;
    private double nearest;

    /** Prepares the contours of a map. */
    public LocalThickness(CopperMap map) {
        this.map = map;
        index = map.vertices();
    }

    /**
     * Thickness at a place.
     *
     * @param xMm blank's frame
     * @param yMm likewise
     * @param limitMm thicker is not told apart
     * @return mm; {@code limitMm} where it is at least that
     */
    public double atMm(double xMm, double yMm, double limitMm) {
        boolean copper = map.componentAt(xMm, yMm) >= 0;
        double radius = 0.5 * limitMm;
        double best = distance(xMm, yMm, radius);
        double bestX = xMm;
        double bestY = yMm;
        for (int v = -STEPS; v <= STEPS; v++) {
            for (int u = -STEPS; u <= STEPS; u++) {
                double x = xMm + radius * u / STEPS;
                double y = yMm + radius * v / STEPS;
                double d = inside(x, y, xMm, yMm, radius, copper);
                if (d > best) {
                    best = d;
                    bestX = x;
                    bestY = y;
                }
            }
        }
        for (double step = radius / STEPS; step > 1e-5; step *= 0.5) {
            boolean moved = true;
            while (moved) {
                moved = false;
                for (int k = 0; k < 16; k++) {
                    double turn = StrictMath.PI * k / 8;
                    double x = bestX + step * StrictMath.cos(turn);
                    double y = bestY + step * StrictMath.sin(turn);
                    double d = inside(x, y, xMm, yMm, radius, copper);
                    if (d > best + 1e-9) {
                        best = d;
                        bestX = x;
                        bestY = y;
                        moved = true;
                    }
                }
            }
        }
        return 2 * Math.min(best, radius);
    }

    /** Radius of the disc about a centre where it holds the point and its centre is of the same kind; else -1. */
    private double inside(double x, double y, double px, double py, double radius, boolean copper) {
        if ((map.componentAt(x, y) >= 0) != copper) {
            return -1;
        }
        double d = distance(x, y, radius);
        double away = (x - px) * (x - px) + (y - py) * (y - py);
        return d * d >= away ? d : -1;
    }

    /** Distance to the nearest contour, no more than a limit. */
    private double distance(double x, double y, double limit) {
        for (double window = Math.min(limit, 4 * map.field().cellMm()); ; window = Math.min(limit, 2 * window)) {
            double w = window + map.field().cellMm();
            nearest = Double.POSITIVE_INFINITY;
            index.visit(x - w, y - w, x + w, y + w, (k, vx, vy) -> {
                double rough = (vx - x) * (vx - x) + (vy - y) * (vy - y);
                double reach = nearest + 1.5 * map.field().cellMm();
                if (rough <= reach * reach) {
                    nearest = Math.min(nearest, index.distanceToEdges(x, y, k));
                }
            });
            if (nearest <= window || window >= limit) {
                return Math.min(nearest, limit);
            }
        }
    }
}
