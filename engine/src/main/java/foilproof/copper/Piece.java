package foilproof.copper;

/**
 * One piece of copper at a level of the foil, 4-connected, what interpolation joins being joined.
 *
 * @param index its place in {@link CopperMap#pieces()}, largest area first
 * @param areaMm2 its area at the map's level, mm2, holes in it not counted
 * @param areaErrorMm2 how far that may be off, mm2
 * @param x0Mm left end of its bounding box, blank's frame
 * @param y0Mm lower end of the box
 * @param x1Mm right end of the box
 * @param y1Mm upper end of the box
 * @param insideXMm a place inside it
 * @param insideYMm a place inside it
 */
public record Piece(
        int index,
        double areaMm2,
        double areaErrorMm2,
        double x0Mm,
        double y0Mm,
        double x1Mm,
        double y1Mm,
        double insideXMm,
        double insideYMm) {}
