package foilproof.bench;

/**
 * A box that no cutter may touch: a clamp, bracket, pin or screw.
 *
 * @param name what it is
 * @param x0Mm left, in the blank's frame of the first side, mm
 * @param y0Mm lower, mm
 * @param x1Mm right, mm, above x0
 * @param y1Mm upper, mm, above y0
 * @param topMm height above the nominal foil top, mm; it reaches down to the table
 */
public record KeepOut(String name, double x0Mm, double y0Mm, double x1Mm, double y1Mm, double topMm) {}
