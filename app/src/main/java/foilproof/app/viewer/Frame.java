package foilproof.app.viewer;

/**
 * A picture as read back.
 *
 * @param width pixels
 * @param height pixels
 * @param rgb one int a pixel, row by row from the top: 0xRRGGBB, and in the highest byte what the pixel shows of the
 *     blank's foil: 0 none of the blank, 128 the blank without foil, 255 foil, between where they share a pixel
 * @param samples how many frames were summed
 * @param drawS seconds that drawing and reading back took
 */
public record Frame(int width, int height, int[] rgb, int samples, double drawS) {}
