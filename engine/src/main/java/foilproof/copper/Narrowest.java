package foilproof.copper;

/**
 * The narrowest place of a piece: where two opposite walls of it come nearest.
 *
 * @param piece index of the piece
 * @param xMm the middle there, blank's frame
 * @param yMm likewise
 * @param widthMm width at the foil's bottom, mm
 * @param errorMm how far that may be off
 */
public record Narrowest(int piece, double xMm, double yMm, double widthMm, double errorMm) {}
