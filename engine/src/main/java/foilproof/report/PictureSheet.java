package foilproof.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A flat picture as a sheet that stands on its own: title above, the picture in a frame with its labels, below it a scale
 * bar in mm and the legend, in dark on white so that it prints in grey.
 */
public final class PictureSheet {
    private static final int WHITE = 0xffffff;
    private static final int INK = 0x101418;
    private static final int MARGIN_PX = 16;
    private static final int SWATCH_PX = 14;
    private static final int LEAST_TEXT_PX = 260;

    private final FlatPicture picture;
    private final int scale;
    private final int line;
    private final List<String> title;
    private final int width;
    private final int height;
    private final int[] rgb;

    private PictureSheet(FlatPicture picture) {
        this.picture = picture;
        this.scale = picture.widthPx() >= 700 ? 2 : 1;
        this.line = (PixelFont.HEIGHT_PX + 5) * scale;
        this.title = wrapped(
                picture.title(), Math.max(picture.widthPx(), LEAST_TEXT_PX * scale) / PixelFont.widthPx("m", scale));
        int text = 0;
        for (String each : title) {
            text = Math.max(text, PixelFont.widthPx(each, scale));
        }
        for (FlatPicture.Legend entry : picture.legend()) {
            text = Math.max(text, SWATCH_PX * 2 * scale + PixelFont.widthPx(entry.text(), scale));
        }
        this.width = Math.max(picture.widthPx() + 2, text) + 2 * MARGIN_PX;
        this.height = picture.heightPx()
                + 2
                + 3 * MARGIN_PX
                + line * (2 + title.size() + picture.legend().size());
        this.rgb = new int[width * height];
        Arrays.fill(rgb, WHITE);
    }

    /** The sheet as PNG. */
    public static byte[] png(FlatPicture picture) {
        PictureSheet sheet = new PictureSheet(picture);
        sheet.draw();
        return PngWriter.write(sheet.width, sheet.height, sheet.rgb, picture.mmPerPx());
    }

    private void draw() {
        int top = MARGIN_PX;
        for (String each : title) {
            text(MARGIN_PX, top, each);
            top += line;
        }
        fill(MARGIN_PX, top, picture.widthPx() + 2, picture.heightPx() + 2, INK);
        int[] row = new int[picture.widthPx()];
        for (int y = 0; y < picture.heightPx(); y++) {
            picture.pixels().row(y, row);
            System.arraycopy(row, 0, rgb, (top + 1 + y) * width + MARGIN_PX + 1, row.length);
        }
        for (FlatPicture.Label label : picture.labels()) {
            int x = MARGIN_PX + 1 + label.xPx();
            int y = top + 1 + label.yPx();
            fill(
                    x - scale,
                    y - scale,
                    PixelFont.widthPx(label.text(), scale) + scale,
                    (PixelFont.HEIGHT_PX + 2) * scale,
                    WHITE);
            text(x, y, label.text());
        }
        int below = top + picture.heightPx() + 2 + MARGIN_PX;
        scaleBar(MARGIN_PX, below);
        below += 2 * line;
        for (FlatPicture.Legend entry : picture.legend()) {
            int size = SWATCH_PX * scale / 2;
            fill(MARGIN_PX, below, size * 2, size, INK);
            fill(MARGIN_PX + 1, below + 1, size * 2 - 2, size - 2, entry.rgb());
            text(MARGIN_PX + size * 2 + 6 * scale, below, entry.text());
            below += line;
        }
    }

    /** Text broken at spaces into lines of at most {@code most} letters, longer words apart. */
    private static List<String> wrapped(String text, int most) {
        List<String> lines = new ArrayList<>();
        StringBuilder now = new StringBuilder();
        for (String word : text.split(" ")) {
            if (now.length() > 0 && now.length() + 1 + word.length() > most) {
                lines.add(now.toString());
                now.setLength(0);
            }
            now.append(now.length() == 0 ? "" : " ").append(word);
        }
        lines.add(now.toString());
        return lines;
    }

    private void scaleBar(int xPx, int yPx) {
        double barMm = barMm(picture.widthPx() * picture.mmPerPx());
        int barPx = (int) Math.rint(barMm / picture.mmPerPx());
        fill(xPx, yPx, barPx, 3 * scale, INK);
        for (int tick = 0; tick <= 2; tick++) {
            fill(xPx + tick * (barPx - 1) / 2, yPx - 2 * scale, scale, 7 * scale, INK);
        }
        String mm = Decimals.plain(barMm, 3) + " mm (" + Decimals.plain(barMm / 0.0254, 1) + " thou)";
        text(xPx, yPx + 7 * scale, mm + ", one pixel " + Decimals.plain(picture.mmPerPx() * 1000, 1) + " um");
    }

    /** The largest of 1, 2, 5 x 10^n mm that is at most a third of the picture's width. */
    static double barMm(double widthMm) {
        double best = 0.001;
        double decade = 0.001;
        while (decade <= widthMm) {
            for (double step : new double[] {1, 2, 5}) {
                if (decade * step <= widthMm / 3) {
                    best = decade * step;
                }
            }
            decade *= 10;
        }
        return best;
    }

    private void text(int xPx, int yPx, String text) {
        PixelFont.draw(rgb, width, height, xPx, yPx, scale, INK, text);
    }

    private void fill(int xPx, int yPx, int widthPx, int heightPx, int colour) {
        for (int y = Math.max(0, yPx); y < Math.min(height, yPx + heightPx); y++) {
            int from = y * width + Math.max(0, xPx);
            int to = y * width + Math.min(width, xPx + widthPx);
            if (to > from) {
                Arrays.fill(rgb, from, to, colour);
            }
        }
    }
}
