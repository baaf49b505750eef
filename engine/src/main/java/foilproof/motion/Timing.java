package foilproof.motion;

import foilproof.language.PathMode;

/**
 * Gives every segment of a chain its speeds and its time. A chain is a stretch of moves that nothing interrupts: it
 * begins and ends at rest. Three passes, each linear: corner limits, backwards so that every move can still brake,
 * forwards so that every move can accelerate; then the trapezoids.
 *
 * <p>Corners: exact stop ends every move at rest; exact path keeps speed only across tangent joins; continuous mode
 * rounds the corner by a fitted arc ({@link Corner}) within the deviation in force. That arc must also fit into half
 * of the shorter neighbour, which makes a polygon as fast as the arc it stands for: with chords c on a circle of
 * radius R the radius that fits is (c/2) / tan(c / 2R), very nearly R.
 *
 * <p>Exact path and continuous mode may not change direction faster than the acceleration allows on arcs either:
 * v <= sqrt(a R) of the plan view's circle.
 */
final class Timing {
    private static final byte EXACT_STOP = (byte) PathMode.EXACT_STOP.ordinal();
    private static final byte EXACT_PATH = (byte) PathMode.EXACT_PATH.ordinal();

    private final SegmentsBuilder s;
    private final MachineLimits limits;
    private double[] lengthMm = new double[0];
    private double[] cruiseMmPerS = new double[0];
    private double[] jointMmPerS = new double[0];
    private double feedOnlyS;

    Timing(SegmentsBuilder segments, MachineLimits limits) {
        this.s = segments;
        this.limits = limits;
    }

    /** Seconds of the feed moves at their programmed feeds, without acceleration. */
    double feedOnlyS() {
        return feedOnlyS;
    }

    /** Times segments {@code from} to {@code end} (exclusive) from {@code startS}; returns when they end. */
    double run(int from, int end, double startS) {
        int n = end - from;
        if (n <= 0) {
            return startS;
        }
        if (lengthMm.length < n) {
            int room = Math.max(n, 256);
            lengthMm = new double[room];
            cruiseMmPerS = new double[room];
            jointMmPerS = new double[room + 1];
        }
        for (int k = 0; k < n; k++) {
            measure(from + k, k);
        }
        joints(from, n);
        double a = limits.accelerationMmPerS2();
        for (int k = n - 1; k > 0; k--) {
            jointMmPerS[k] = Math.min(jointMmPerS[k], Trapezoid.reachable(jointMmPerS[k + 1], lengthMm[k], a));
        }
        double t = startS;
        for (int k = 0; k < n; k++) {
            double entry = jointMmPerS[k];
            double exit = Math.min(jointMmPerS[k + 1], Trapezoid.reachable(entry, lengthMm[k], a));
            jointMmPerS[k + 1] = exit;
            double peak = Trapezoid.peakMmPerS(lengthMm[k], cruiseMmPerS[k], a, entry, exit);
            int i = from + k;
            s.startS[i] = t;
            s.durationS[i] = Trapezoid.durationAtPeakS(lengthMm[k], peak, a, entry, exit);
            s.entryMmPerS[i] = (float) entry;
            s.exitMmPerS[i] = (float) exit;
            s.peakMmPerMin[i] = peak * 60;
            t += s.durationS[i];
        }
        return t;
    }

    private void measure(int i, int k) {
        double dx = s.x1Mm[i] - s.x0Mm[i];
        double dy = s.y1Mm[i] - s.y0Mm[i];
        double dz = s.z1Mm[i] - s.z0Mm[i];
        double length;
        double cruise;
        if (s.sweepRad[i] != 0) {
            double radius = radiusMm(i);
            double plan = Math.abs(radius * s.sweepRad[i]);
            length = Math.sqrt(plan * plan + dz * dz);
            double axes = axisLimit(plan, plan, dz, length);
            double turning = Corner.arcSpeedMmPerS(radius, limits.accelerationMmPerS2()) * length / plan;
            cruise = Math.min(axes, turning);
        } else {
            length = Math.sqrt(dx * dx + dy * dy + dz * dz);
            cruise = axisLimit(dx, dy, dz, length);
        }
        lengthMm[k] = length;
        if (s.kind[i] == 0) {
            // NISTIR 6556 section 2.1.2.4: a traverse is coordinated, each axis within its own limit.
            s.feedMmPerMin[i] = cruise * 60;
        } else {
            double feed = s.feedMmPerMin[i];
            boolean set = feed > 0;
            double wanted = (set ? feed : limits.feedStandInMmPerMin()) / 60;
            if (set && s.kind[i] == 1) {
                feedOnlyS += length / wanted;
            }
            cruise = Math.min(cruise, Math.min(wanted, limits.maxFeedMmPerMin() / 60));
        }
        cruiseMmPerS[k] = cruise;
    }

    private double axisLimit(double dx, double dy, double dz, double length) {
        double slowest = Double.POSITIVE_INFINITY;
        slowest = Math.min(slowest, axis(limits.rapidXMmPerMin(), dx, length));
        slowest = Math.min(slowest, axis(limits.rapidYMmPerMin(), dy, length));
        return Math.min(slowest, axis(limits.rapidZMmPerMin(), dz, length));
    }

    private static double axis(double limitMmPerMin, double d, double length) {
        return d == 0 ? Double.POSITIVE_INFINITY : limitMmPerMin / 60 * length / Math.abs(d);
    }

    private double radiusMm(int i) {
        double rx = s.x0Mm[i] - s.cxMm[i];
        double ry = s.y0Mm[i] - s.cyMm[i];
        return Math.sqrt(rx * rx + ry * ry);
    }

    private void joints(int from, int n) {
        jointMmPerS[0] = 0;
        jointMmPerS[n] = 0;
        double[] out = new double[3];
        double[] in = new double[3];
        direction(from, lengthMm[0], true, out);
        for (int k = 1; k < n; k++) {
            direction(from + k, lengthMm[k], false, in);
            double allowed = corner(from + k, k, out, in);
            jointMmPerS[k] = Math.min(allowed, Math.min(cruiseMmPerS[k - 1], cruiseMmPerS[k]));
            if (s.sweepRad[from + k] != 0) {
                direction(from + k, lengthMm[k], true, out);
            } else {
                double[] swap = out;
                out = in;
                in = swap;
            }
        }
    }

    private double corner(int i, int k, double[] out, double[] in) {
        byte mode = s.pathMode[i];
        // Where the mode changes at the corner, the stricter one rules it.
        byte before = s.pathMode[i - 1];
        if (mode == EXACT_STOP || before == EXACT_STOP) {
            return 0;
        }
        double mx = out[0] - in[0];
        double my = out[1] - in[1];
        double mz = out[2] - in[2];
        double px = out[0] + in[0];
        double py = out[1] + in[1];
        double pz = out[2] + in[2];
        double halfSine = Math.sqrt(mx * mx + my * my + mz * mz) / 2;
        double halfCosine = Math.sqrt(px * px + py * py + pz * pz) / 2;
        if (mode == EXACT_PATH || before == EXACT_PATH) {
            return halfSine < Corner.TANGENT_HALF_SINE ? Double.POSITIVE_INFINITY : 0;
        }
        if (halfSine < 1e-12 || Double.isInfinite(limits.accelerationMmPerS2())) {
            return Double.POSITIVE_INFINITY;
        }
        double deviation = Math.min(s.deviationMm[i - 1], s.deviationMm[i]);
        double fitted = Corner.radiusFromHalfTurn(halfSine, halfCosine, deviation);
        double room = Math.min(lengthMm[k - 1], lengthMm[k]) / 2 * halfCosine / halfSine;
        return Math.sqrt(limits.accelerationMmPerS2() * Math.min(fitted, room));
    }

    /** Unit direction of travel at the start or the end of segment {@code i}. */
    private void direction(int i, double length, boolean atEnd, double[] into) {
        if (s.sweepRad[i] == 0) {
            into[0] = (s.x1Mm[i] - s.x0Mm[i]) / length;
            into[1] = (s.y1Mm[i] - s.y0Mm[i]) / length;
            into[2] = (s.z1Mm[i] - s.z0Mm[i]) / length;
            return;
        }
        double rx = (atEnd ? s.x1Mm[i] : s.x0Mm[i]) - s.cxMm[i];
        double ry = (atEnd ? s.y1Mm[i] : s.y0Mm[i]) - s.cyMm[i];
        double r = Math.sqrt(rx * rx + ry * ry);
        double plan = Math.abs(radiusMm(i) * s.sweepRad[i]) / length;
        double turn = s.sweepRad[i] > 0 ? plan : -plan;
        into[0] = -ry / r * turn;
        into[1] = rx / r * turn;
        into[2] = (s.z1Mm[i] - s.z0Mm[i]) / length;
    }
}
