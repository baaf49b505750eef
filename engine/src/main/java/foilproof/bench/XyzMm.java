package foilproof.bench;

/**
 * A place or an extent in space, in the frame that the owner of the value states.
 *
 * @param xMm along X, mm
 * @param yMm along Y, mm
 * @param zMm along Z, mm, up positive
 */
public record XyzMm(double xMm, double yMm, double zMm) {}
