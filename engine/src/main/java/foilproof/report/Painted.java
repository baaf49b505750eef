package foilproof.report;

import java.util.IdentityHashMap;

/** Pictures painted once, used bare in the page and as sheets in files. */
final class Painted {
    private final IdentityHashMap<FlatPicture, int[]> pixels = new IdentityHashMap<>();

    private int[] rgb(FlatPicture picture) {
        return pixels.computeIfAbsent(picture, p -> {
            int[] all = new int[p.widthPx() * p.heightPx()];
            int[] row = new int[p.widthPx()];
            for (int y = 0; y < p.heightPx(); y++) {
                p.pixels().row(y, row);
                System.arraycopy(row, 0, all, y * row.length, row.length);
            }
            return all;
        });
    }

    /** Whether a picture of what was found shows anything but its own ground, which is light grey. */
    boolean shows(FlatPicture picture) {
        for (int colour : rgb(picture)) {
            int red = colour >> 16;
            if (red < BoardPainter.GROUND_FROM || red != (colour >> 8 & 255) || red != (colour & 255)) {
                return true;
            }
        }
        return false;
    }

    /** The picture alone, as PNG. */
    byte[] bare(FlatPicture picture) {
        return PngWriter.write(picture.widthPx(), picture.heightPx(), rgb(picture), picture.mmPerPx());
    }

    /** The picture as a sheet with title, scale bar and legend, as PNG. */
    byte[] png(FlatPicture picture) {
        int[] all = rgb(picture);
        return PictureSheet.png(new FlatPicture(
                picture.name(),
                picture.title(),
                picture.widthPx(),
                picture.heightPx(),
                picture.mmPerPx(),
                (y, row) -> System.arraycopy(all, y * picture.widthPx(), row, 0, picture.widthPx()),
                picture.legend(),
                picture.labels()));
    }
}
