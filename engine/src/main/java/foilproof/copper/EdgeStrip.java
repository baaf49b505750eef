package foilproof.copper;

/**
 * A strip of copper between a groove and the blank's edge (needs.md F7).
 *
 * @param xMm where it is narrowest, in its middle, blank's frame
 * @param yMm likewise
 * @param x0Mm box round it
 * @param y0Mm likewise
 * @param x1Mm likewise
 * @param y1Mm likewise
 * @param lengthMm length along the edge
 * @param widthMm least width at the foil's bottom
 * @param errorMm how far that may be off
 */
public record EdgeStrip(
        double xMm,
        double yMm,
        double x0Mm,
        double y0Mm,
        double x1Mm,
        double y1Mm,
        double lengthMm,
        double widthMm,
        double errorMm) {}
