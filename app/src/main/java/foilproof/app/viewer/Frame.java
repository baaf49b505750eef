package foilproof.app.viewer;

/**
 * A picture as read back.
 *
 * @param width pixels
 * @param height pixels
 * @param rgb one int a pixel, 0xRRGGBB, row by row from the top
 * @param samples how many frames were summed
 * @param drawS seconds that drawing and reading back took
 */
public record Frame(int width, int height, int[] rgb, int samples, double drawS) {}
