package foilproof.bench;

/**
 * One touched point of the blank's surface.
 *
 * @param xMm from the blank's lower-left corner as it lies, mm
 * @param yMm from the blank's lower-left corner as it lies, mm
 * @param heightMm height of the foil top above its nominal place, mm, + = higher
 */
public record Touch(double xMm, double yMm, double heightMm) {}
