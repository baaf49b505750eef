package foilproof.bench;

/**
 * A place in the plane, in the frame that the owner of the value states.
 *
 * @param xMm along X, mm
 * @param yMm along Y, mm
 */
public record XyMm(double xMm, double yMm) {
    /** The frame's lower-left corner. */
    public static final XyMm ZERO = new XyMm(0, 0);
}
