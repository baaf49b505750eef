package foilproof.report;

import java.util.List;

/**
 * A picture to scale: pixels, their size in mm, and what a person needs to read it.
 *
 * @param name file name without its ending, kebab-case, e.g. {@code side-1-copper}
 * @param title one line, e.g. {@code Side 1, copper at the foil bottom, seen with this face up}
 * @param widthPx width, pixels
 * @param heightPx height, pixels; row 0 is the upper edge
 * @param mmPerPx edge of a pixel, mm
 * @param pixels the colours
 * @param legend what each colour means
 * @param labels texts at places
 */
public record FlatPicture(
        String name,
        String title,
        int widthPx,
        int heightPx,
        double mmPerPx,
        Pixels pixels,
        List<Legend> legend,
        List<Label> labels) {
    /** Most pixels of one picture: what memory and readers bear. */
    public static final int MOST_PIXELS = 64_000_000;

    /**
     * Copies the lists.
     *
     * @throws IllegalArgumentException where a size is not positive or there are more than {@link #MOST_PIXELS}
     */
    public FlatPicture {
        if (widthPx <= 0 || heightPx <= 0 || (long) widthPx * heightPx > MOST_PIXELS || !(mmPerPx > 0)) {
            throw new IllegalArgumentException(
                    "picture of " + widthPx + " x " + heightPx + " pixels of " + mmPerPx + " mm");
        }
        legend = List.copyOf(legend);
        labels = List.copyOf(labels);
    }

    /** Gives colours row by row. */
    @FunctionalInterface
    public interface Pixels {
        /** Fills {@code rgb[0 .. width)} with 0xRRGGBB of row {@code yPx}, 0 = upper edge. Asked once a row, downwards. */
        void row(int yPx, int[] rgb);
    }

    /**
     * One colour and its meaning.
     *
     * @param rgb 0xRRGGBB
     * @param text its meaning with units
     */
    public record Legend(int rgb, String text) {}

    /**
     * A text in the picture.
     *
     * @param xPx left edge
     * @param yPx upper edge
     * @param text ASCII, other characters are drawn as a box
     */
    public record Label(int xPx, int yPx, String text) {}
}
