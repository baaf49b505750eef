package foilproof.stock;

/**
 * The exact surface that one piece of a path leaves, at a point, in double precision.
 *
 * <p>The tip at offset v along the piece from the point's foot and at distance s beside it leaves height
 * {@code z(v) + rise(sqrt(s2 + v2))}. For a line both terms are convex in v, so the lowest place is where the slopes
 * cancel, held to the ends: for a cone of rise c per mm and a ramp of slope m, |v| = s m / sqrt(c2 - m2), which leaves
 * walls of slope sqrt(c2 - m2) (check-values Q17); on the flat core the lowest place is its rim.
 */
final class PieceShape {
    /**
     * Halvings of an angle or a length below a few mm: to 1e-8 mm, and where a height is least an error of the place
     * counts only by its square.
     */
    private static final int HALVINGS = 28;

    private PieceShape() {}

    /**
     * Height that a piece leaves at a point.
     *
     * @return mm in the run's own zero; infinite where the cutter does not come to the point
     */
    static double heightMm(Pieces pieces, int p, ToolProfile profile, double x, double y) {
        if (away(pieces, p, x, y)) {
            return Double.POSITIVE_INFINITY;
        }
        return switch (pieces.kind[p]) {
            case Pieces.POINT -> pieces.lowest(p) + profile.riseMm(distance(x - pieces.x0[p], y - pieces.y0[p]));
            case Pieces.LINE -> line(pieces, p, profile, x, y, lineFoot(pieces, p, profile, x, y));
            default -> arc(pieces, p, profile, x, y);
        };
    }

    /** Whether a point is so far from a piece that nothing of it comes below the headroom there; quick. */
    static boolean away(Pieces pieces, int p, double x, double y) {
        double reach = pieces.reach[p] + ToolProfile.TOUCH_MM;
        if (pieces.kind[p] == Pieces.LINE) {
            double dx = x - pieces.x0[p];
            double dy = y - pieces.y0[p];
            double along = dx * pieces.ux[p] + dy * pieces.uy[p];
            return Math.abs(dx * pieces.uy[p] - dy * pieces.ux[p]) > reach
                    || along < -reach
                    || along > pieces.length[p] + reach;
        }
        if (pieces.kind[p] == Pieces.ARC) {
            return Math.abs(distance(x - pieces.cx[p], y - pieces.cy[p]) - pieces.length[p]) > reach;
        }
        return false;
    }

    /** Height that the cutter at a fraction (0 to 1) of a piece leaves at a point, mm; infinite where it is away. */
    static double heightAt(Pieces pieces, int p, ToolProfile profile, double x, double y, double fraction) {
        double z = pieces.z0[p] + (pieces.z1[p] - pieces.z0[p]) * fraction;
        if (pieces.kind[p] == Pieces.ARC) {
            double a = pieces.turn[p] * fraction;
            double c = StrictMath.cos(a);
            double s = StrictMath.sin(a);
            double r = pieces.length[p];
            double px = pieces.cx[p] + r * (pieces.ux[p] * c - pieces.uy[p] * s);
            double py = pieces.cy[p] + r * (pieces.ux[p] * s + pieces.uy[p] * c);
            return z + profile.riseMm(distance(x - px, y - py));
        }
        double px = pieces.x0[p] + (pieces.x1[p] - pieces.x0[p]) * fraction;
        double py = pieces.y0[p] + (pieces.y1[p] - pieces.y0[p]) * fraction;
        return z + profile.riseMm(distance(x - px, y - py));
    }

    /** Fraction (0 to 1) of a piece from which a point is left lowest. */
    static double foot(Pieces pieces, int p, ToolProfile profile, double x, double y) {
        switch (pieces.kind[p]) {
            case Pieces.LINE:
                return lineFoot(pieces, p, profile, x, y) / pieces.length[p];
            case Pieces.ARC:
                return pieces.level(p) ? arcFoot(pieces, p, x, y) : helixFoot(pieces, p, profile, x, y);
            default:
                return pieces.z1[p] <= pieces.z0[p] ? 1 : 0;
        }
    }

    private static double arcFoot(Pieces pieces, int p, double x, double y) {
        double px = x - pieces.cx[p];
        double py = y - pieces.cy[p];
        if (!inWedge(pieces, p, px, py)) {
            return distance(x - pieces.x0[p], y - pieces.y0[p]) <= distance(x - pieces.x1[p], y - pieces.y1[p]) ? 0 : 1;
        }
        double turned = StrictMath.atan2(
                Math.abs(pieces.ux[p] * py - pieces.uy[p] * px), pieces.ux[p] * px + pieces.uy[p] * py);
        return Math.max(0, Math.min(1, turned / Math.abs(pieces.turn[p])));
    }

    /**
     * First fraction (0 to 1) of a piece at which a point is left at or below a level; NaN where it never is.
     *
     * @param levelMm in the run's own zero
     */
    static double reached(Pieces pieces, int p, ToolProfile profile, double x, double y, double levelMm) {
        double high = foot(pieces, p, profile, x, y);
        if (heightAt(pieces, p, profile, x, y, high) > levelMm + ToolProfile.TOUCH_MM) {
            return Double.NaN;
        }
        double low = 0;
        if (heightAt(pieces, p, profile, x, y, 0) <= levelMm) {
            return 0;
        }
        for (int k = 0; k < HALVINGS && low < high; k++) {
            double middle = (low + high) / 2;
            if (heightAt(pieces, p, profile, x, y, middle) <= levelMm) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private static double distance(double dx, double dy) {
        return Math.sqrt(dx * dx + dy * dy);
    }

    /** Place along a line piece, mm from its start, from which the point is left lowest. */
    static double lineFoot(Pieces pieces, int p, ToolProfile profile, double x, double y) {
        double dx = x - pieces.x0[p];
        double dy = y - pieces.y0[p];
        double along = dx * pieces.ux[p] + dy * pieces.uy[p];
        double m = (pieces.z1[p] - pieces.z0[p]) / pieces.length[p];
        if (m != 0) {
            double side = Math.abs(dx * pieces.uy[p] - dy * pieces.ux[p]);
            along -= Math.copySign(lead(profile, side, Math.abs(m)), m);
        }
        return Math.max(0, Math.min(pieces.length[p], along));
    }

    private static double line(Pieces pieces, int p, ToolProfile profile, double x, double y, double along) {
        double m = (pieces.z1[p] - pieces.z0[p]) / pieces.length[p];
        double dx = x - (pieces.x0[p] + along * pieces.ux[p]);
        double dy = y - (pieces.y0[p] + along * pieces.uy[p]);
        return pieces.z0[p] + m * along + profile.riseMm(distance(dx, dy));
    }

    /** How far towards the deeper end the lowest place lies from the foot, mm, on an endless ramp of slope m > 0. */
    static double lead(ToolProfile profile, double side, double m) {
        double max = profile.maxRadiusMm();
        double limit = side >= max ? 0 : Math.sqrt(max * max - side * side);
        double core = profile.coreMm();
        double onCore = side < core ? Math.sqrt(core * core - side * side) : 0;
        if (profile.isFlat()) {
            return onCore;
        }
        if (profile.noseMm() > 0) {
            double onNose = core > 0 ? noseLead(profile, side, m, onCore, limit) : ballLead(profile, side, m);
            if (!Double.isNaN(onNose)) {
                return Math.min(onNose, limit);
            }
        }
        if (!profile.hasCone() || m >= profile.coneRise()) {
            return limit;
        }
        double c = profile.coneRise();
        return Math.min(Math.max(onCore, side * m / Math.sqrt(c * c - m * m)), limit);
    }

    /** On a ball of radius r: v2 = m2 (r2 - s2) / (1 + m2); NaN where that lies beyond the ball. */
    private static double ballLead(ToolProfile profile, double side, double m) {
        double r = profile.noseMm();
        if (side >= r) {
            return Double.NaN;
        }
        double v = m * Math.sqrt((r * r - side * side) / (1 + m * m));
        return side * side + v * v <= profile.tangentMm() * profile.tangentMm() ? v : Double.NaN;
    }

    /** On a nose round a flat core: the slope along the ramp rises with v, so it is halved down; NaN where beyond. */
    private static double noseLead(ToolProfile profile, double side, double m, double onCore, double limit) {
        double outer = profile.coreMm() + profile.tangentMm();
        if (side >= outer) {
            return Double.NaN;
        }
        double high = Math.min(Math.sqrt(outer * outer - side * side), limit);
        if (slopeAlong(profile, side, high * (1 - 1e-12)) < m) {
            return profile.hasCone() ? Double.NaN : high;
        }
        double low = onCore;
        for (int k = 0; k < HALVINGS; k++) {
            double middle = (low + high) / 2;
            if (slopeAlong(profile, side, middle) < m) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private static double slopeAlong(ToolProfile profile, double side, double v) {
        double radius = Math.sqrt(side * side + v * v);
        return radius == 0 ? 0 : profile.slopeAt(radius) * v / radius;
    }

    private static double arc(Pieces pieces, int p, ToolProfile profile, double x, double y) {
        if (pieces.z0[p] == pieces.z1[p]) {
            return pieces.z0[p] + profile.riseMm(arcDistance(pieces, p, x, y));
        }
        if (profile.isFlat()) {
            double turn = flatTurn(pieces, p, profile.coreMm(), x, y);
            return Double.isNaN(turn) ? Double.POSITIVE_INFINITY : heightAtTurn(pieces, p, turn);
        }
        double fraction = helixFoot(pieces, p, profile, x, y);
        return heightAt(pieces, p, profile, x, y, fraction);
    }

    private static double heightAtTurn(Pieces pieces, int p, double turn) {
        double rise = Math.abs(pieces.z1[p] - pieces.z0[p]) / Math.abs(pieces.turn[p]);
        return Math.min(pieces.z0[p], pieces.z1[p]) + rise * turn;
    }

    /**
     * Of a flat end on a helix piece: turn from the lower end, going up, until its rim first comes over the point, rad;
     * NaN where it never does on this piece. Under a flat end every place is cut alike, so the first touch going up is
     * the lowest; most places of a bore lie under the cutter all the way round and need no angle at all.
     */
    private static double flatTurn(Pieces pieces, int p, double radiusMm, double x, double y) {
        double px = x - pieces.cx[p];
        double py = y - pieces.cy[p];
        double rho = distance(px, py);
        double r = pieces.length[p];
        if (rho + r <= radiusMm) {
            return 0;
        }
        double reach = radiusMm + ToolProfile.TOUCH_MM;
        if (Math.abs(rho - r) > reach) {
            return Double.NaN;
        }
        boolean falls = pieces.z1[p] < pieces.z0[p];
        double lowX = falls ? pieces.x1[p] : pieces.x0[p];
        double lowY = falls ? pieces.y1[p] : pieces.y0[p];
        if (distance(x - lowX, y - lowY) <= reach) {
            return 0;
        }
        // The rim round the point cuts the circle of the tips at this angle from the point's direction.
        double cos = Math.max(-1, Math.min(1, (rho * rho + r * r - radiusMm * radiusMm) / (2 * rho * r)));
        double up = Math.signum(pieces.turn[p]) * (falls ? -1 : 1);
        double sin = up * Math.sqrt(1 - cos * cos);
        double ex = (px * cos + py * sin) / rho;
        double ey = (py * cos - px * sin) / rho;
        double lx = (lowX - pieces.cx[p]) / r;
        double ly = (lowY - pieces.cy[p]) / r;
        double cross = up * (lx * ey - ly * ex);
        double dot = lx * ex + ly * ey;
        // A piece turns by a quarter at most: what lies behind or more than a quarter ahead is not on it.
        if (cross < 0 || dot < -1e-9) {
            return Double.NaN;
        }
        double span = Math.abs(pieces.turn[p]) * (1 + 1e-12);
        double turn = StrictMath.atan2(cross, dot);
        return turn <= span ? turn : Double.NaN;
    }

    /** Distance from a point to an arc piece in plan, mm. */
    static double arcDistance(Pieces pieces, int p, double x, double y) {
        double px = x - pieces.cx[p];
        double py = y - pieces.cy[p];
        double ends =
                Math.min(distance(x - pieces.x0[p], y - pieces.y0[p]), distance(x - pieces.x1[p], y - pieces.y1[p]));
        return inWedge(pieces, p, px, py) ? Math.min(ends, Math.abs(distance(px, py) - pieces.length[p])) : ends;
    }

    private static boolean inWedge(Pieces pieces, int p, double px, double py) {
        double sign = Math.signum(pieces.turn[p]);
        double ex = pieces.x1[p] - pieces.cx[p];
        double ey = pieces.y1[p] - pieces.cy[p];
        return sign * (pieces.ux[p] * py - pieces.uy[p] * px) >= 0 && sign * (px * ey - py * ex) >= 0;
    }

    /**
     * Fraction of a helix piece from which the point is left lowest. Going up from its lower end, the height is
     * z + k t + rise(d(t)); it can be lowest at either end, where the cutter's wall first comes to the point, or where
     * the slopes cancel while the cutter still comes nearer.
     */
    static double helixFoot(Pieces pieces, int p, ToolProfile profile, double x, double y) {
        if (profile.isFlat()) {
            double turn = flatTurn(pieces, p, profile.coreMm(), x, y);
            double share = Double.isNaN(turn) ? 0 : turn / Math.abs(pieces.turn[p]);
            return pieces.z1[p] < pieces.z0[p] ? 1 - share : share;
        }
        double px = x - pieces.cx[p];
        double py = y - pieces.cy[p];
        double rho = distance(px, py);
        double r = pieces.length[p];
        double span = Math.abs(pieces.turn[p]);
        double sign = Math.signum(pieces.turn[p]);
        // Angle of the point from the piece's start, in the direction of travel.
        double along =
                StrictMath.atan2(sign * (pieces.ux[p] * py - pieces.uy[p] * px), pieces.ux[p] * px + pieces.uy[p] * py);
        boolean falls = pieces.z1[p] < pieces.z0[p];
        // Angle from the point to the lower end, going up: -pi .. pi.
        double phi0 = falls ? along - span : -along;
        phi0 = StrictMath.IEEEremainder(phi0, 2 * Math.PI);
        double rise = Math.abs(pieces.z1[p] - pieces.z0[p]) / span;
        double best = 0;
        double bestHeight = climb(profile, rho, r, phi0, 0, rise);
        double[] others = {
            span,
            entry(0, phi0),
            entry(-angleAt(profile.maxRadiusMm(), rho, r), phi0),
            entry(-angleAt(profile.coreMm(), rho, r), phi0),
            slopeEntry(profile, rho, r, phi0, rise)
        };
        for (double t : others) {
            if (t >= 0 && t <= span) {
                double height = climb(profile, rho, r, phi0, t, rise);
                if (height < bestHeight) {
                    best = t;
                    bestHeight = height;
                }
            }
        }
        return falls ? 1 - best / span : best / span;
    }

    private static double climb(ToolProfile profile, double rho, double r, double phi0, double t, double rise) {
        double half = StrictMath.sin((phi0 + t) / 2);
        double d = Math.sqrt((rho - r) * (rho - r) + 4 * rho * r * half * half);
        return rise * t + profile.riseMm(d);
    }

    /** Angle between a point and the cutter about the helix's axis at which they are {@code d} apart; NaN if never. */
    private static double angleAt(double d, double rho, double r) {
        double cos = (rho * rho + r * r - d * d) / (2 * rho * r);
        return Math.abs(cos) <= 1 ? StrictMath.acos(cos) : Double.NaN;
    }

    private static double entry(double at, double phi0) {
        double t = at - phi0;
        return t >= 0 ? t : t + 2 * Math.PI;
    }

    /** Turn from the lower end until the cutter comes nearer as slowly as it rises, rad; NaN where it never does. */
    private static double slopeEntry(ToolProfile profile, double rho, double r, double phi0, double rise) {
        double b = 2 * rho * r;
        if (b == 0 || profile.isFlat()) {
            // A flat cutter has no slope to meet: it comes over the point or it does not.
            return Double.NaN;
        }
        double a = (rho - r) * (rho - r);
        // On the cone the slope goes with sin / d, which is largest at this angle; on core and nose it only grows with
        // the angle. So there is one crossing between the point and the farther of the two.
        double cosPeak = ((a + b) - Math.sqrt(a * (a + 2 * b))) / b;
        double far = StrictMath.acos(Math.max(-1, Math.min(1, cosPeak)));
        double rim = angleAt(profile.coreMm() + profile.tangentMm(), rho, r);
        if (rim > far) {
            far = rim;
        } else if (profile.coreMm() + profile.tangentMm() >= rho + r) {
            far = steepest(profile, a, b);
        }
        double near = 0;
        if (closing(profile, a, b, far) < rise) {
            return Double.NaN;
        }
        for (int k = 0; k < HALVINGS; k++) {
            double middle = (near + far) / 2;
            if (closing(profile, a, b, middle) < rise) {
                near = middle;
            } else {
                far = middle;
            }
        }
        return entry(-near, phi0);
    }

    /** Angle at which a nose that is always over the point closes in fastest: somewhere between 0 and pi. */
    private static double steepest(ToolProfile profile, double a, double b) {
        int samples = 32;
        int best = 1;
        for (int k = 2; k < samples; k++) {
            if (closing(profile, a, b, k * Math.PI / samples) > closing(profile, a, b, best * Math.PI / samples)) {
                best = k;
            }
        }
        double low = (best - 1) * Math.PI / samples;
        double high = (best + 1) * Math.PI / samples;
        for (int k = 0; k < HALVINGS; k++) {
            double third = (high - low) / 3;
            if (closing(profile, a, b, low + third) < closing(profile, a, b, high - third)) {
                low += third;
            } else {
                high -= third;
            }
        }
        return (low + high) / 2;
    }

    private static double closing(ToolProfile profile, double a, double b, double phi) {
        double half = StrictMath.sin(phi / 2);
        double d = Math.sqrt(a + 2 * b * half * half);
        return d == 0 ? profile.slopeAt(0) : profile.slopeAt(d) * (b / 2) * StrictMath.sin(phi) / d;
    }
}
