package foilproof.copper;

/**
 * The narrowest gap between two pieces, where it is below what is told.
 *
 * @param xMm the middle of the gap there, blank's frame
 * @param yMm likewise
 * @param bottomMm width at the foil's bottom, which is the electrical gap, mm
 * @param topMm width at the foil's top, mm; NaN where it could not be measured there
 * @param errorMm how far either may be off
 * @param lengthMm over what length it is below what is told
 * @param pieceA smaller index of the two pieces
 * @param pieceB the other
 */
public record NarrowGap(
        double xMm,
        double yMm,
        double bottomMm,
        double topMm,
        double errorMm,
        double lengthMm,
        int pieceA,
        int pieceB) {}
