package foilproof.report;

import java.util.Base64;

/**
 * A flat picture in the page: the pixels as an image, everything that is read (numbers, frame, scale bar, legend) as
 * vectors and text, drawn to a round scale that stands beside it.
 */
final class Figure {
    private static final double[] SCALES = {20, 10, 5, 4, 3, 2.5, 2, 1.75, 1.5, 1.4, 1.25, 1.2, 1, 0.75, 0.5, 0.25, 0.1
    };

    private Figure() {}

    /** The largest round scale at which a picture is no larger than this on paper. */
    static double scale(FlatPicture picture, double mostWideMm, double mostHighMm) {
        double wide = picture.widthPx() * picture.mmPerPx();
        double high = picture.heightPx() * picture.mmPerPx();
        for (double s : SCALES) {
            if (wide * s <= mostWideMm + 1e-9 && high * s <= mostHighMm + 1e-9) {
                return s;
            }
        }
        return SCALES[SCALES.length - 1];
    }

    /**
     * The figure.
     *
     * @param png the bare picture
     * @param scale millimetres on paper for one of the board
     * @param withLegend whether it says what its colours mean
     */
    static String html(FlatPicture picture, byte[] png, double scale, boolean withLegend) {
        double wide = picture.widthPx() * picture.mmPerPx();
        double high = picture.heightPx() * picture.mmPerPx();
        double letter = 2.9 / scale;
        double foot = 6 / scale;
        Html h = new Html();
        h.raw("<figure class=\"board\" style=\"width:" + n(Math.max(58, wide * scale)) + "mm\"><svg width=\""
                + n(wide * scale)
                + "mm\" height=\"" + n((high + foot) * scale) + "mm\" viewBox=\"0 0 " + n(wide) + " " + n(high + foot)
                + "\" role=\"img\" aria-label=\"" + Html.escape(picture.title()) + "\"><image width=\"" + n(wide)
                + "\" height=\"" + n(high) + "\" preserveAspectRatio=\"none\" href=\"data:image/png;base64,"
                + Base64.getEncoder().encodeToString(png) + "\"/><rect width=\"" + n(wide) + "\" height=\"" + n(high)
                + "\" fill=\"none\" stroke=\"#111\" stroke-width=\"" + n(0.25 / scale) + "\"/>");
        for (FlatPicture.Label label : picture.labels()) {
            double x = label.xPx() * picture.mmPerPx();
            double y = label.yPx() * picture.mmPerPx() + letter * 0.85;
            h.raw("<text x=\"" + n(x) + "\" y=\"" + n(y) + "\" font-size=\"" + n(letter)
                    + "\" font-weight=\"bold\" fill=\"#111\" stroke=\"#fff\" stroke-width=\"" + n(0.9 / scale)
                    + "\" paint-order=\"stroke\" stroke-linejoin=\"round\">" + Html.escape(label.text()) + "</text>");
        }
        double bar = PictureSheet.barMm(wide);
        double y = high + 2.2 / scale;
        h.raw("<path d=\"M0 " + n(y) + "h" + n(bar) + "M" + n(0.1 / scale) + " " + n(y - 1 / scale) + "v" + n(2 / scale)
                + "M" + n(bar - 0.1 / scale) + " " + n(y - 1 / scale) + "v" + n(2 / scale)
                + "\" fill=\"none\" stroke=\"#111\" stroke-width=\"" + n(0.5 / scale) + "\"/><text x=\""
                + n(bar + 2 / scale) + "\" y=\"" + n(y + 1 / scale) + "\" font-size=\"" + n(letter)
                + "\" fill=\"#111\">"
                + Decimals.plain(bar, 3) + " mm (" + Decimals.plain(bar / 0.0254, 0) + " thou)</text></svg>");
        String drawn = scale >= 1 ? Decimals.plain(scale, 2) + " : 1" : "1 : " + Decimals.plain(1 / scale, 2);
        h.raw("<figcaption>").text(picture.title() + ". Drawn " + drawn + ".");
        if (withLegend) {
            h.raw(legend(picture));
        }
        return h.raw("</figcaption></figure>\n").toString();
    }

    /** What the colours mean. */
    static String legend(FlatPicture picture) {
        Html h = new Html();
        for (FlatPicture.Legend entry : picture.legend()) {
            h.raw(" <span class=\"key\">" + swatch(entry))
                    .text(" " + entry.text())
                    .raw("</span>");
        }
        return h.toString();
    }

    private static String swatch(FlatPicture.Legend entry) {
        String colour = String.format(java.util.Locale.ROOT, "#%06x", entry.rgb());
        String stripes = entry.rgb() == BoardPainter.LEFT
                ? "<path d=\"M0 3L3 0M3 3L6 0M6 3L9 0\" stroke=\"#fff\" stroke-width=\".9\"/>"
                : "";
        return "<svg width=\"5mm\" height=\"2.6mm\" viewBox=\"0 0 6 3\" aria-hidden=\"true\"><rect width=\"6\" height=\"3\""
                + " fill=\"" + colour + "\" stroke=\"#111\" stroke-width=\".3\"/>" + stripes + "</svg>";
    }

    private static String n(double value) {
        return Decimals.plain(value, 3);
    }
}
