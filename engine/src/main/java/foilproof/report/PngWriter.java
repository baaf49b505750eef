package foilproof.report;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.zip.CRC32;

/**
 * Writes PNG (ISO/IEC 15948): a palette where there are at most 256 colours, else true colour. The physical size of a
 * pixel is written too, so that a picture prints to scale.
 */
final class PngWriter {
    private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    private static final int MOST_COLOURS = 256;

    private PngWriter() {}

    /**
     * A picture as PNG.
     *
     * @param rgb 0xRRGGBB, row by row from the upper edge
     * @param mmPerPx size of a pixel, mm
     */
    static byte[] write(int widthPx, int heightPx, int[] rgb, double mmPerPx) {
        Map<Integer, Integer> palette = palette(rgb);
        boolean indexed = palette.size() <= MOST_COLOURS;
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(SIGNATURE);
        byte[] header = new byte[13];
        put(header, 0, widthPx);
        put(header, 4, heightPx);
        header[8] = 8;
        header[9] = (byte) (indexed ? 3 : 2);
        chunk(out, "IHDR", header);
        byte[] physical = new byte[9];
        int pixelsPerMetre = (int) Math.max(1, Math.min(Integer.MAX_VALUE, Math.rint(1000 / mmPerPx)));
        put(physical, 0, pixelsPerMetre);
        put(physical, 4, pixelsPerMetre);
        physical[8] = 1;
        chunk(out, "pHYs", physical);
        if (indexed) {
            byte[] colours = new byte[palette.size() * 3];
            palette.forEach((colour, index) -> {
                colours[index * 3] = (byte) (colour >> 16);
                colours[index * 3 + 1] = (byte) (colour >> 8);
                colours[index * 3 + 2] = colour.byteValue();
            });
            chunk(out, "PLTE", colours);
        }
        byte[] rows = indexed ? indexedRows(widthPx, heightPx, rgb, palette) : trueColourRows(widthPx, heightPx, rgb);
        chunk(out, "IDAT", Deflate.zlib(rows));
        chunk(out, "IEND", new byte[0]);
        return out.toByteArray();
    }

    /** Indexes by first appearance; stops once there are too many. */
    private static Map<Integer, Integer> palette(int[] rgb) {
        Map<Integer, Integer> out = new HashMap<>();
        int last = -1;
        for (int pixel : rgb) {
            int colour = pixel & 0xffffff;
            if (colour != last) {
                last = colour;
                out.putIfAbsent(colour, out.size());
                if (out.size() > MOST_COLOURS) {
                    break;
                }
            }
        }
        return out;
    }

    private static byte[] indexedRows(int widthPx, int heightPx, int[] rgb, Map<Integer, Integer> palette) {
        byte[] out = new byte[(widthPx + 1) * heightPx];
        int at = 0;
        int last = -1;
        byte index = 0;
        for (int y = 0; y < heightPx; y++) {
            at++;
            for (int x = 0; x < widthPx; x++) {
                int colour = rgb[y * widthPx + x] & 0xffffff;
                if (colour != last) {
                    last = colour;
                    index = palette.getOrDefault(colour, 0).byteValue();
                }
                out[at++] = index;
            }
        }
        return out;
    }

    /** Each row as differences to its left neighbour (filter type 1). */
    private static byte[] trueColourRows(int widthPx, int heightPx, int[] rgb) {
        byte[] out = new byte[(widthPx * 3 + 1) * heightPx];
        int at = 0;
        for (int y = 0; y < heightPx; y++) {
            out[at++] = 1;
            int left = 0;
            for (int x = 0; x < widthPx; x++) {
                int colour = rgb[y * widthPx + x];
                out[at++] = (byte) ((colour >> 16) - (left >> 16));
                out[at++] = (byte) ((colour >> 8) - (left >> 8));
                out[at++] = (byte) (colour - left);
                left = colour;
            }
        }
        return out;
    }

    private static void chunk(ByteArrayOutputStream out, String type, byte[] data) {
        byte[] word = new byte[4];
        put(word, 0, data.length);
        out.writeBytes(word);
        byte[] name = type.getBytes(StandardCharsets.US_ASCII);
        out.writeBytes(name);
        out.writeBytes(data);
        CRC32 crc = new CRC32();
        crc.update(name);
        crc.update(data);
        put(word, 0, (int) crc.getValue());
        out.writeBytes(word);
    }

    private static void put(byte[] to, int at, int value) {
        for (int i = 0; i < 4; i++) {
            to[at + i] = (byte) (value >>> 24 - 8 * i);
        }
    }
}
