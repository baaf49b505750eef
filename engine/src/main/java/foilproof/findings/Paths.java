package foilproof.findings;

import foilproof.motion.Segments;

/** Distances in plan between places and the paths of segments. */
final class Paths {
    private Paths() {}

    /** Distance of a place from a segment's path in plan, mm; from the point for a plunge. */
    static double distanceMm(Segments s, int i, double xMm, double yMm) {
        double[] box = s.planBox(i);
        double out = Math.max(Math.max(box[0] - xMm, xMm - box[2]), Math.max(Math.max(box[1] - yMm, yMm - box[3]), 0));
        if (!s.isArc(i) || out > 5) {
            return s.isArc(i) ? out : straight(s.x0Mm(i), s.y0Mm(i), s.x1Mm(i), s.y1Mm(i), xMm, yMm);
        }
        int steps = (int) Math.max(8, Math.min(2000, s.planLengthMm(i) / 0.02));
        double best = Double.POSITIVE_INFINITY;
        double[] before = s.pointAt(i, 0);
        for (int k = 1; k <= steps; k++) {
            double[] p = s.pointAt(i, (double) k / steps);
            best = Math.min(best, straight(before[0], before[1], p[0], p[1], xMm, yMm));
            before = p;
        }
        return best;
    }

    private static double straight(double ax, double ay, double bx, double by, double px, double py) {
        double dx = bx - ax;
        double dy = by - ay;
        double l2 = dx * dx + dy * dy;
        double t = l2 == 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / l2));
        return StrictMath.hypot(ax + t * dx - px, ay + t * dy - py);
    }
}
