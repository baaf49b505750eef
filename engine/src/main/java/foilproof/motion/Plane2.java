package foilproof.motion;

/** Lengths in the plane. */
final class Plane2 {
    private Plane2() {}

    /**
     * Length of (x, y). Square root of the sum of squares: exact rounding makes it the same everywhere, and it is many
     * times faster than a hypot that guards against overflow, which millimetres cannot reach.
     */
    static double length(double x, double y) {
        return Math.sqrt(x * x + y * y);
    }
}
