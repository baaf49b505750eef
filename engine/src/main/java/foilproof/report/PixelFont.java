package foilproof.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * Letters of 5 x 7 dots for pictures, drawn by hand: fonts of the machine would make other bytes on every machine, and
 * there may be none. Each line of the resource is a character and its seven rows, highest bit at the left.
 */
final class PixelFont {
    /** Advance from one letter to the next at scale 1, pixels. */
    static final int ADVANCE_PX = 6;

    /** Height of a letter at scale 1, pixels. */
    static final int HEIGHT_PX = 7;

    private static final int[] BOX = {0x1f, 0x11, 0x11, 0x11, 0x11, 0x11, 0x1f};
    private static final int[][] ROWS = load();

    private PixelFont() {}

    /** Draws {@code text} with its upper left corner at x, y; what lies outside is cut off. */
    static void draw(int[] rgb, int widthPx, int heightPx, int xPx, int yPx, int scale, int colour, String text) {
        String line = text.replace("\u00b5", "u").replace("\u00b1", "+/-").replace("\u00b0", " deg");
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            int[] rows = c == ' ' ? null : c < 128 && ROWS[c] != null ? ROWS[c] : BOX;
            for (int row = 0; rows != null && row < HEIGHT_PX; row++) {
                for (int column = 0; column < 5; column++) {
                    if ((rows[row] >> 4 - column & 1) != 0) {
                        int x = xPx + (i * ADVANCE_PX + column) * scale;
                        dot(rgb, widthPx, heightPx, x, yPx + row * scale, scale, colour);
                    }
                }
            }
        }
    }

    /** Width of a text, pixels. */
    static int widthPx(String text, int scale) {
        return text.length() * ADVANCE_PX * scale;
    }

    private static void dot(int[] rgb, int widthPx, int heightPx, int xPx, int yPx, int size, int colour) {
        for (int y = Math.max(0, yPx); y < Math.min(heightPx, yPx + size); y++) {
            for (int x = Math.max(0, xPx); x < Math.min(widthPx, xPx + size); x++) {
                rgb[y * widthPx + x] = colour;
            }
        }
    }

    private static int[][] load() {
        int[][] out = new int[128][];
        try (InputStream in = PixelFont.class.getResourceAsStream("pixel-font.txt")) {
            if (in == null) {
                throw new IllegalStateException("resource pixel-font.txt is missing");
            }
            for (String line : new String(in.readAllBytes(), StandardCharsets.US_ASCII).split("\n")) {
                String[] parts = line.substring(2).toLowerCase(Locale.ROOT).split(" ");
                int[] rows = new int[HEIGHT_PX];
                for (int row = 0; row < HEIGHT_PX; row++) {
                    rows[row] = Integer.parseInt(parts[row], 16);
                }
                out[line.charAt(0)] = rows;
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out;
    }
}
