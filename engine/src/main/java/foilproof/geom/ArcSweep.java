package foilproof.geom;

/** The angle that an arc sweeps, by the rule of NISTIR 6556 section 4.3.5.1 for turns. */
public final class ArcSweep {
    private ArcSweep() {}

    /**
     * Signed sweep, radians, positive counter-clockwise, from a start to an end, both given from the centre. The
     * magnitude is above 0 and at most a full turn for {@code turn} of 1 or -1; each further unit adds a full turn.
     *
     * @param startXMm start from the centre
     * @param startYMm start from the centre
     * @param endXMm end from the centre
     * @param endYMm end from the centre
     * @param turn positive counter-clockwise, negative clockwise, not 0
     * @param samePointMm start and end nearer than this are one point, and the arc is full turns
     */
    public static double sweepRad(
            double startXMm, double startYMm, double endXMm, double endYMm, int turn, double samePointMm) {
        if (turn == 0) {
            throw new IllegalArgumentException("an arc turns one way or the other");
        }
        double more = 2 * Math.PI * (Math.abs((long) turn) - 1);
        double dx = endXMm - startXMm;
        double dy = endYMm - startYMm;
        double sign = turn > 0 ? 1 : -1;
        if (dx * dx + dy * dy <= samePointMm * samePointMm) {
            return sign * (2 * Math.PI + more);
        }
        double angle =
                StrictMath.atan2(startXMm * endYMm - startYMm * endXMm, startXMm * endXMm + startYMm * endYMm) * sign;
        if (angle <= 0) {
            angle += 2 * Math.PI;
        }
        return sign * (angle + more);
    }
}
