package foilproof.geom;

/**
 * A place in a frame. For single places only: loops over many use plain arrays.
 *
 * @param <F> the frame whose coordinates these are
 * @param xMm X
 * @param yMm Y
 * @param zMm Z
 */
public record Point<F extends Frame>(double xMm, double yMm, double zMm) {
    /** The distance to another place of the same frame. */
    public double distanceMm(Point<F> other) {
        double dx = xMm - other.xMm;
        double dy = yMm - other.yMm;
        double dz = zMm - other.zMm;
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }
}
