package foilproof.findings;

import foilproof.motion.Hole;
import foilproof.motion.Segments;

/** How deep a bore is all round: a helix that ends without a level turn leaves its floor a ramp. */
final class BoreFloor {
    private static final double ROUND_MM = 0.02;
    private static final double WHOLE_TURN_RAD = 2 * Math.PI - 0.02;

    private BoreFloor() {}

    /** Height down to which a hole has its shape all round, in the run's own zero, mm. */
    static double allRoundMm(Segments s, Hole hole) {
        if (hole.pathRadiusMm() <= 0) {
            return hole.deepestMm();
        }
        double turned = 0;
        double highest = Double.NEGATIVE_INFINITY;
        double best = Double.POSITIVE_INFINITY;
        for (int i = hole.endSegment() - 1; i >= hole.firstSegment(); i--) {
            double turn = s.isFeed(i) ? Math.abs(turnRad(s, i, hole)) : 0;
            if (turn == 0) {
                turned = 0;
                highest = Double.NEGATIVE_INFINITY;
                continue;
            }
            double part = Math.min(1, (2 * Math.PI - turned) / turn);
            highest = Math.max(highest, Math.max(s.z1Mm(i), s.z1Mm(i) + (s.z0Mm(i) - s.z1Mm(i)) * part));
            turned += turn;
            if (turned >= WHOLE_TURN_RAD) {
                best = Math.min(best, highest);
                turned = 0;
                highest = Double.NEGATIVE_INFINITY;
            }
        }
        return Double.isInfinite(best) ? hole.deepestMm() : best;
    }

    /** Angle about the hole's centre that a segment on its circle turns through, rad; 0 off the circle. */
    private static double turnRad(Segments s, int i, Hole hole) {
        double a = radius(s.x0Mm(i), s.y0Mm(i), hole);
        double b = radius(s.x1Mm(i), s.y1Mm(i), hole);
        if (Math.abs(a - hole.pathRadiusMm()) > ROUND_MM || Math.abs(b - hole.pathRadiusMm()) > ROUND_MM) {
            return 0;
        }
        if (s.isArc(i)) {
            return radius(s.cxMm(i), s.cyMm(i), hole) <= ROUND_MM ? s.sweepRad(i) : 0;
        }
        double turn = StrictMath.atan2(s.y1Mm(i) - hole.yMm(), s.x1Mm(i) - hole.xMm())
                - StrictMath.atan2(s.y0Mm(i) - hole.yMm(), s.x0Mm(i) - hole.xMm());
        return turn > Math.PI ? turn - 2 * Math.PI : turn < -Math.PI ? turn + 2 * Math.PI : turn;
    }

    private static double radius(double xMm, double yMm, Hole hole) {
        return StrictMath.hypot(xMm - hole.xMm(), yMm - hole.yMm());
    }
}
