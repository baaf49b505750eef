package foilproof.geom;

/**
 * An arc in a plane, or a helix about that plane's normal. Coordinates are those of the plane's two axes and the axis
 * across it. Where the programmed radii of start and end differ a little, the radius runs evenly from one to the other.
 *
 * @param centreFirstMm centre on the plane's first axis
 * @param centreSecondMm centre on the plane's second axis
 * @param startRadiusMm radius at the start, above 0
 * @param endRadiusMm radius at the end, above 0
 * @param startRad direction from the centre to the start
 * @param sweepRad counter-clockwise positive; full turns and more allowed
 * @param startAxialMm height of the start across the plane
 * @param endAxialMm height of the end across the plane
 */
public record Helix(
        double centreFirstMm,
        double centreSecondMm,
        double startRadiusMm,
        double endRadiusMm,
        double startRad,
        double sweepRad,
        double startAxialMm,
        double endAxialMm) {
    /**
     * The helix between two points about a centre.
     *
     * @param turn positive counter-clockwise, negative clockwise; start and end within {@code samePointMm} are a full turn
     */
    public static Helix between(
            double startFirstMm,
            double startSecondMm,
            double endFirstMm,
            double endSecondMm,
            double centreFirstMm,
            double centreSecondMm,
            int turn,
            double startAxialMm,
            double endAxialMm,
            double samePointMm) {
        double ax = startFirstMm - centreFirstMm;
        double ay = startSecondMm - centreSecondMm;
        double bx = endFirstMm - centreFirstMm;
        double by = endSecondMm - centreSecondMm;
        return new Helix(
                centreFirstMm,
                centreSecondMm,
                Math.sqrt(ax * ax + ay * ay),
                Math.sqrt(bx * bx + by * by),
                StrictMath.atan2(ay, ax),
                ArcSweep.sweepRad(ax, ay, bx, by, turn, samePointMm),
                startAxialMm,
                endAxialMm);
    }

    /** Radius at a fraction of the way, 0 to 1. */
    public double radiusAtMm(double fraction) {
        return startRadiusMm + fraction * (endRadiusMm - startRadiusMm);
    }

    /** The place at a fraction of the way on the plane's first axis. */
    public double firstAtMm(double fraction) {
        return centreFirstMm + radiusAtMm(fraction) * StrictMath.cos(startRad + fraction * sweepRad);
    }

    /** The place at a fraction of the way on the plane's second axis. */
    public double secondAtMm(double fraction) {
        return centreSecondMm + radiusAtMm(fraction) * StrictMath.sin(startRad + fraction * sweepRad);
    }

    /** The height at a fraction of the way across the plane. */
    public double axialAtMm(double fraction) {
        return startAxialMm + fraction * (endAxialMm - startAxialMm);
    }

    /** Length in the plane. Where the radii differ by dr it is exact to dr squared over 24 times the length. */
    public double planarLengthMm() {
        double around = (startRadiusMm + endRadiusMm) / 2 * sweepRad;
        double out = endRadiusMm - startRadiusMm;
        return Math.sqrt(around * around + out * out);
    }

    /** Length along the helix: feed runs along it, not along its projection (NISTIR 6556 section 2.1.2.6). */
    public double lengthMm() {
        double planar = planarLengthMm();
        double rise = endAxialMm - startAxialMm;
        return Math.sqrt(planar * planar + rise * rise);
    }

    /** The box round the arc in its plane: least first, least second, greatest first, greatest second. */
    public double[] boxMm() {
        double[] box = {firstAtMm(0), secondAtMm(0), firstAtMm(0), secondAtMm(0)};
        extend(box, firstAtMm(1), secondAtMm(1));
        // The arc touches its box where its direction is a multiple of a quarter turn.
        double low = Math.min(startRad, startRad + sweepRad);
        double high = Math.max(startRad, startRad + sweepRad);
        long from = (long) Math.ceil(low / (Math.PI / 2));
        long to = Math.min((long) Math.floor(high / (Math.PI / 2)), from + 4);
        double reach = Math.max(startRadiusMm, endRadiusMm);
        boolean circle = startRadiusMm == endRadiusMm;
        for (long quarter = from; quarter <= to; quarter++) {
            double fraction = (quarter * (Math.PI / 2) - startRad) / sweepRad;
            double radius = circle ? startRadiusMm : Math.abs(sweepRad) > 2 * Math.PI ? reach : radiusAtMm(fraction);
            int q = (int) Math.floorMod(quarter, 4L);
            extend(
                    box,
                    centreFirstMm + (q == 0 ? radius : q == 2 ? -radius : 0),
                    centreSecondMm + (q == 1 ? radius : q == 3 ? -radius : 0));
        }
        return box;
    }

    private static void extend(double[] box, double x, double y) {
        box[0] = Math.min(box[0], x);
        box[1] = Math.min(box[1], y);
        box[2] = Math.max(box[2], x);
        box[3] = Math.max(box[3], y);
    }

    /** The fraction of the way, 0 to 1, whose place in the plane is nearest to a point (for arcs up to a full turn). */
    public double nearestFraction(double firstMm, double secondMm) {
        double dx = firstMm - centreFirstMm;
        double dy = secondMm - centreSecondMm;
        double best = squared(firstMm, secondMm, 0) <= squared(firstMm, secondMm, 1) ? 0 : 1;
        if (dx == 0 && dy == 0) {
            return startRadiusMm <= endRadiusMm ? 0 : 1;
        }
        double ahead = (StrictMath.atan2(dy, dx) - startRad) * Math.signum(sweepRad);
        ahead -= 2 * Math.PI * Math.floor(ahead / (2 * Math.PI));
        double fraction = ahead / Math.abs(sweepRad);
        return fraction <= 1 && squared(firstMm, secondMm, fraction) < squared(firstMm, secondMm, best)
                ? fraction
                : best;
    }

    /** The distance in the plane from a point to the arc, its ends included (for arcs up to a full turn). */
    public double distanceMm(double firstMm, double secondMm) {
        return Math.sqrt(squared(firstMm, secondMm, nearestFraction(firstMm, secondMm)));
    }

    private double squared(double firstMm, double secondMm, double fraction) {
        double dx = firstMm - firstAtMm(fraction);
        double dy = secondMm - secondAtMm(fraction);
        return dx * dx + dy * dy;
    }

    /**
     * How many equal chords keep within a distance of the arc: the sagitta of a chord over the angle a is
     * r (1 - cos(a / 2)).
     */
    public int chordsWithinMm(double toleranceMm) {
        double radius = Math.max(startRadiusMm, endRadiusMm);
        if (toleranceMm >= radius) {
            return (int) Math.max(1, Math.ceil(Math.abs(sweepRad) / Math.PI));
        }
        double chordRad = 2 * StrictMath.acos(1 - toleranceMm / radius);
        return (int) Math.min(1_000_000, Math.max(1, Math.ceil(Math.abs(sweepRad) / chordRad - 1e-9)));
    }
}
