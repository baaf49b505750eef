package foilproof.report;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The Z windows as bars on one axis of Z error (right = really deeper), readable in grey: the window is solid, the wider
 * interval without fix or stop is hatched, the spread of the set-up is a bracket above, 0 is a line.
 */
final class ZWindowBars {
    private static final double WIDTH = 760;
    private static final double LEFT = 190;
    private static final double RIGHT = 740;
    private static final double ROW = 68;

    private final List<ResultDocument.ZWindow> windows;
    private final double fromMm;
    private final double toMm;

    private ZWindowBars(List<ResultDocument.ZWindow> windows) {
        this.windows = windows;
        double low = -0.05;
        double high = 0.05;
        for (double valueMm : known(windows)) {
            low = Math.min(low, valueMm);
            high = Math.max(high, valueMm);
        }
        double pad = (high - low) * 0.08;
        this.fromMm = low - pad;
        this.toMm = high + pad;
    }

    /** The bars as inline SVG. */
    static String svg(List<ResultDocument.ZWindow> windows) {
        return new ZWindowBars(windows).draw();
    }

    private static List<Double> known(List<ResultDocument.ZWindow> windows) {
        List<Double> out = new ArrayList<>();
        for (ResultDocument.ZWindow window : windows) {
            add(out, window.fromMm());
            add(out, window.toMm());
            // The wider interval may reach far; it widens the axis to a bound only, beyond it the bar ends in an arrow.
            add(out, window.fixFromMm() == null ? null : Double.valueOf(Math.max(-0.3, window.fixFromMm())));
            add(out, window.fixToMm() == null ? null : Double.valueOf(Math.min(0.3, window.fixToMm())));
            if (window.spreadMm() != null) {
                add(out, window.spreadMm()[0]);
                add(out, window.spreadMm()[1]);
            }
        }
        return out;
    }

    private static void add(List<Double> out, @Nullable Double valueMm) {
        if (valueMm != null && Double.isFinite(valueMm)) {
            out.add(valueMm);
        }
    }

    private String draw() {
        double height = ROW * windows.size() + 34;
        Html svg = new Html();
        svg.raw("<svg class=\"bars\" viewBox=\"0 0 " + n(WIDTH) + " " + n(height)
                + "\" role=\"img\" aria-label=\"Z window of each tool run on an axis of Z error\">");
        svg.raw(
                "<defs><pattern id=\"hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
                        + "patternTransform=\"rotate(45)\"><path d=\"M0 0V6\" stroke=\"#777\" stroke-width=\"1.5\"/></pattern></defs>");
        for (int i = 0; i < windows.size(); i++) {
            bar(svg, windows.get(i), ROW * i);
        }
        axis(svg, ROW * windows.size() + 6);
        return svg.raw("</svg>\n").toString();
    }

    private void bar(Html svg, ResultDocument.ZWindow window, double top) {
        double middle = top + 36;
        svg.raw(text(0, middle, "start", "#111", "run " + window.run() + ", side " + window.side()));
        svg.raw(text(0, middle + 15, "start", "#111", window.tool()));
        interval(svg, window.fixFromMm(), window.fixToMm(), middle - 9, 18, "fill=\"url(#hatch)\" stroke=\"#777\"");
        if (window.empty()) {
            svg.raw(text(LEFT, middle + 22, "start", "#111", HumanText.window(true, null, null)));
        } else {
            interval(svg, window.fromMm(), window.toMm(), middle - 6, 12, "fill=\"#2f6f4f\" stroke=\"#111\"");
            svg.raw(text(
                    x(orEdge(window.fromMm(), fromMm)),
                    middle + 22,
                    window.fromMm() == null ? "start" : "middle",
                    "#111",
                    end(window.fromMm(), true)));
            svg.raw(text(
                    x(orEdge(window.toMm(), toMm)),
                    middle + 22,
                    window.toMm() == null ? "end" : "middle",
                    "#111",
                    end(window.toMm(), false)));
        }
        if (window.spreadMm() != null) {
            double a = x(window.spreadMm()[0]);
            double b = x(window.spreadMm()[1]);
            svg.raw("<path d=\"M" + n(a) + " " + n(middle - 11) + "V" + n(middle - 18) + "H" + n(b) + "V"
                    + n(middle - 11) + "\" fill=\"none\" stroke=\"#111\" stroke-width=\"2\"/>");
            svg.raw(text((a + b) / 2, middle - 21, "middle", "#111", "your spread"));
        }
        double zero = x(0);
        svg.raw("<path d=\"M" + n(zero) + " " + n(middle - 14) + "V" + n(middle + 12)
                + "\" stroke=\"#c40\" stroke-width=\"1.5\" stroke-dasharray=\"3 2\"/>");
    }

    private void interval(
            Html svg, @Nullable Double lowMm, @Nullable Double highMm, double top, double height, String style) {
        double a = x(orEdge(lowMm, fromMm));
        double b = x(orEdge(highMm, toMm));
        if (b > a) {
            svg.raw("<rect x=\"" + n(a) + "\" y=\"" + n(top) + "\" width=\"" + n(b - a) + "\" height=\"" + n(height)
                    + "\" " + style + "/>");
        }
    }

    private void axis(Html svg, double top) {
        svg.raw("<path d=\"M" + n(LEFT) + " " + n(top) + "H" + n(RIGHT) + "\" stroke=\"#111\"/>");
        double stepMm = step((toMm - fromMm) / 6);
        for (long k = (long) Math.ceil(fromMm / stepMm); k * stepMm <= toMm; k++) {
            double at = x(k * stepMm);
            svg.raw("<path d=\"M" + n(at) + " " + n(top) + "v5\" stroke=\"#111\"/>");
            svg.raw(text(at, top + 17, "middle", "#111", Decimals.signed(k * stepMm, 3)));
        }
        svg.raw(text(0, top + 1, "start", "#111", "Z error, mm;"));
        svg.raw(text(0, top + 16, "start", "#111", "+ = really deeper"));
    }

    private static double step(double atLeastMm) {
        double step = 0.001;
        int turn = 0;
        double[] factors = {2, 2.5, 2};
        while (step < atLeastMm) {
            step *= factors[turn++ % 3];
        }
        return step;
    }

    private static String end(@Nullable Double valueMm, boolean lower) {
        if (valueMm == null) {
            return lower ? "beyond, to the left" : "beyond, to the right";
        }
        return Decimals.signed(lower ? Decimals.upToUm(valueMm) : Decimals.downToUm(valueMm), 3);
    }

    private double orEdge(@Nullable Double valueMm, double edgeMm) {
        return valueMm == null ? edgeMm : Math.max(fromMm, Math.min(toMm, valueMm));
    }

    private double x(double errorMm) {
        return LEFT + (RIGHT - LEFT) * (errorMm - fromMm) / (toMm - fromMm);
    }

    private static String text(double x, double y, String anchor, String colour, String text) {
        return "<text x=\"" + n(x) + "\" y=\"" + n(y) + "\" text-anchor=\"" + anchor + "\" fill=\"" + colour + "\">"
                + Html.escape(text) + "</text>";
    }

    private static String n(double value) {
        return Decimals.plain(value, 2);
    }
}
