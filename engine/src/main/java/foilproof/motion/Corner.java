package foilproof.motion;

/**
 * Speeds at corners and on arcs. Elementary geometry: a circle of radius R tangent to both sides of a corner with
 * interior angle A passes the corner point at e = R (1 / sin(A/2) - 1), so R = e sin(A/2) / (1 - sin(A/2)); the
 * centripetal acceleration v^2 / R stays within the machine's acceleration.
 */
public final class Corner {
    /**
     * Joins whose direction changes by less than this (sine of half the turn, about 0.5 degrees of turn) count as
     * tangent in exact path mode: four decimals on moves of 0.02 mm turn a straight line by up to 0.3 degrees.
     */
    static final double TANGENT_HALF_SINE = 0.0044;

    private Corner() {}

    /**
     * Radius of the circle fitted into a corner within a deviation.
     *
     * @param interiorRad interior angle between the two sides, 0 (turning back) to pi (straight on)
     * @param deviationMm how far the circle may pass from the corner point
     * @return radius in mm; 0 where the path turns back, infinite where it goes straight on
     */
    public static double radiusMm(double interiorRad, double deviationMm) {
        double halfTurn = (Math.PI - interiorRad) / 2;
        return radiusFromHalfTurn(StrictMath.sin(halfTurn), StrictMath.cos(halfTurn), deviationMm);
    }

    /** Fastest speed through a corner, mm/s: sqrt(a R) with R of {@link #radiusMm}. */
    public static double speedMmPerS(double interiorRad, double deviationMm, double accelerationMmPerS2) {
        return Math.sqrt(accelerationMmPerS2 * radiusMm(interiorRad, deviationMm));
    }

    /** Fastest speed on an arc in a plane, mm/s: sqrt(a R). */
    public static double arcSpeedMmPerS(double radiusMm, double accelerationMmPerS2) {
        return Math.sqrt(accelerationMmPerS2 * radiusMm);
    }

    /**
     * The same from sine and cosine of half the change of direction: with 1 - cos = sin^2 / (1 + cos) nothing is
     * lost to cancellation where the path is nearly straight.
     */
    static double radiusFromHalfTurn(double halfSine, double halfCosine, double deviationMm) {
        double c = Math.max(0, halfCosine);
        if (halfSine <= 0) {
            return Double.POSITIVE_INFINITY;
        }
        return deviationMm * c * (1 + c) / (halfSine * halfSine);
    }
}
