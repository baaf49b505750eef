package foilproof.report;

import foilproof.bench.KeepOut;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.Work;
import foilproof.bench.XyMm;
import foilproof.bench.XyzMm;
import foilproof.findings.Examination;
import foilproof.findings.Hole;
import foilproof.motion.Segments;
import foilproof.stock.ComposedSide;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Line drawings of what lies on the bench, as inline SVG: cutters, set-up, sections, the 1:1 template. */
final class BenchDrawings {
    private static final double HALF_SECTION_MM = 1;
    private static final int SECTION_STEPS = 400;
    private static final double SECTION_TALL = 5;

    /** What lies deeper is cut off: holes would leave no room for the foil. */
    private static final double DEEPEST_SECTION_MM = 0.25;

    private static final double DIAGONAL = Math.sqrt(0.5);
    private static final double SET_UP_WIDE_MM = 150;
    private static final double SET_UP_HIGH_MM = 95;
    private static final double MOST_SET_UP_SCALE = 2.5;

    private BenchDrawings() {}

    /** A cutter's lower 5 mm as it is, shank to tip, with a 1 mm bar beside it. */
    static String tool(Tool tool) {
        double tallMm = 5;
        StringBuilder left = new StringBuilder();
        StringBuilder right = new StringBuilder();
        double widestMm = 0.5;
        for (int k = 0; k <= 50; k++) {
            double h = tallMm * k / 50;
            double r = Math.max(0, tool.radiusAtHeightMm(h));
            r = Double.isFinite(r) ? Math.min(r, 3) : 3;
            widestMm = Math.max(widestMm, r);
            left.append(k == 0 ? "M" : "L").append(n(-r)).append(' ').append(n(tallMm - h));
            right.insert(0, "L" + n(r) + " " + n(tallMm - h));
        }
        double half = widestMm + 0.4;
        return "<svg class=\"tool\" width=\"" + n(half * 9 + 18) + "\" height=\"46\" viewBox=\"" + n(-half) + " -0.1 "
                + n(2 * half + 1.6) + " 5.3\" role=\"img\" aria-label=\"Shape of " + Html.escape(tool.name())
                + ", lower 5 mm\"><path d=\"" + left + right
                + "Z\" fill=\"#d9dde1\" stroke=\"#111\" stroke-width=\"0.08\"/><path d=\"M" + n(half + 0.3) + " 4V5M"
                + n(half + 0.1) + " 4h.4M" + n(half + 0.1) + " 5h.4\" stroke=\"#111\" stroke-width=\"0.1\"/></svg>";
    }

    /** What a cutter is, for its tag. */
    static String shapeWord(Tool tool) {
        return tool.shape() == ToolShape.V ? "V" : tool.shape().name().toLowerCase(java.util.Locale.ROOT);
    }

    /** The set-up of a side: blank on its tape, clamps, touch points, clip, pins, work zeros, the way cut out, travel. */
    static String setUp(Examination x, Side side) {
        double w = x.job().blank().widthMm();
        double h = x.job().blank().heightMm();
        double x0 = -6;
        double y0 = -6;
        double x1 = w + 6;
        double y1 = h + 6;
        for (KeepOut box : x.job().keepOuts()) {
            x0 = Math.min(x0, box.x0Mm() - 2);
            y0 = Math.min(y0, box.y0Mm() - 2);
            x1 = Math.max(x1, box.x1Mm() + 2);
            y1 = Math.max(y1, box.y1Mm() + 2);
        }
        double scale =
                Math.min(MOST_SET_UP_SCALE, Math.min(SET_UP_WIDE_MM / (x1 - x0), SET_UP_HIGH_MM / (y1 - y0 + 7)));
        Sheet sheet = new Sheet(x0, y0 - 7, x1, y1, scale, "mm", 2.6 / scale);
        sheet.rect(0, 0, w, h, "fill=\"#efe3d0\" stroke=\"#111\" stroke-width=\".4\"");
        sheet.text(w / 2, h + 1.5, "middle", "blank " + Decimals.plain(w, 1) + " x " + Decimals.plain(h, 1) + " mm");
        sheet.raw("<path d=\"" + outline(x, side.number()) + "\" fill=\"none\" stroke=\"#555\" stroke-width=\".3\"/>");
        for (KeepOut box : x.job().keepOuts()) {
            sheet.rect(
                    box.x0Mm(),
                    box.y0Mm(),
                    box.x1Mm(),
                    box.y1Mm(),
                    "fill=\"#999\" fill-opacity=\".55\" stroke=\"#111\" stroke-width=\".4\"");
            sheet.text(
                    (box.x0Mm() + box.x1Mm()) / 2,
                    (box.y0Mm() + box.y1Mm()) / 2,
                    "middle",
                    box.name() + ", " + Decimals.plain(box.topMm(), 1) + " mm high");
        }
        marks(side).forEach(sheet::mark);
        double[] blank = {0, 0, w, h};
        marks(side).forEach(mark -> sheet.named(mark, blank));
        XyzMm travel = x.job().machine().travelMm();
        XyzMm at = x.job().machine().blankAtMm();
        if (travel != null && at != null) {
            sheet.rect(
                    -at.xMm(),
                    -at.yMm(),
                    travel.xMm() - at.xMm(),
                    travel.yMm() - at.yMm(),
                    "fill=\"none\" stroke=\"#555\" stroke-width=\".4\" stroke-dasharray=\"2 1\"");
        }
        sheet.bar(x0 + 2, y0 - 4);
        return sheet.svg("setup", "Set-up of side " + side.number() + ", seen from above");
    }

    /** A point of the set-up with its name; a cross for zeros, a ring for what is touched. */
    private record Mark(XyMm at, String name, boolean cross) {}

    private static List<Mark> marks(Side side) {
        List<Mark> out = new ArrayList<>();
        out.add(new Mark(side.workZeroMm(), "work zero", true));
        for (var program : side.programs()) {
            XyMm zero = program.workZeroMm();
            if (!zero.equals(side.workZeroMm())) {
                out.add(new Mark(zero, "zero of " + program.file(), true));
            }
            XyMm touch = program.touchOffMm();
            if (touch != null && !touch.equals(side.touchOffMm())) {
                out.add(new Mark(touch, "touch-off of " + program.file(), false));
            }
        }
        XyMm touch = side.touchOffMm();
        if (touch != null) {
            out.add(new Mark(touch, "touch-off", false));
        }
        XyMm clip = side.probeClipMm();
        if (clip != null) {
            out.add(new Mark(clip, "clip", false));
        }
        side.pinsMm().forEach(pin -> out.add(new Mark(pin, "pin", false)));
        return out;
    }

    /** The way of the cutters' middle along the outline cuts of a side, as path data. */
    private static String outline(Examination x, int side) {
        Segments s = x.plan().segments();
        StringBuilder path = new StringBuilder();
        for (int i = 0; i < s.size(); i++) {
            if (x.workOf(i) != Work.OUTLINE
                    || s.planLengthMm(i) == 0
                    || !s.isFeed(i)
                    || !x.removes(i)
                    || x.run(s.run(i)).side().number() != side) {
                continue;
            }
            int steps = s.isArc(i) ? 24 : 1;
            for (int k = 0; k <= steps; k++) {
                double[] p = s.pointAt(i, (double) k / steps);
                path.append(k == 0 ? "M" : "L").append(n(p[0])).append(' ').append(n(-p[1]));
            }
        }
        return path.toString();
    }

    /** The outline cuts and all bores at their true size on paper, with a bar to hold a ruler to. */
    static String template(Examination x, int side) {
        double w = x.job().blank().widthMm();
        double h = x.job().blank().heightMm();
        Sheet sheet = new Sheet(-2, -9, Math.max(w, 54) + 2, h + 2, 1, "mm", 2.4);
        sheet.rect(0, 0, w, h, "fill=\"none\" stroke=\"#555\" stroke-width=\".15\" stroke-dasharray=\"2 1\"");
        sheet.path(outline(x, side));
        for (Hole hole : x.holes()) {
            if (hole.side() == side) {
                sheet.circle(
                        hole.xMm(),
                        hole.yMm(),
                        hole.entryMm() / 2,
                        "fill=\"none\" stroke=\"#111\" stroke-width=\".15\"");
                sheet.path("M" + n(hole.xMm() - 0.3) + " " + n(-hole.yMm()) + "h.6M" + n(hole.xMm()) + " "
                        + n(-hole.yMm() - 0.3) + "v.6");
            }
        }
        sheet.path("M0 5h50M0 4v2M50 4v2");
        sheet.text(0, -8.2, "start", "50 mm: hold a ruler to it; print at 100 %");
        return sheet.svg("template", "1:1 template of side " + side);
    }

    /** A way to lay the section through a place. */
    private enum Along {
        X("along X", 1, 0),
        Y("along Y", 0, 1),
        UP("along the diagonal that rises to the right", DIAGONAL, DIAGONAL),
        DOWN("along the diagonal that falls to the right", DIAGONAL, -DIAGONAL);

        private final String words;
        private final double dx;
        private final double dy;

        Along(String words, double dx, double dy) {
            this.words = words;
            this.dx = dx;
            this.dy = dy;
        }
    }

    /**
     * The section through a place, along X, Y or a diagonal, whichever shows most: heights five times as tall; null where
     * nothing is cut.
     */
    static @Nullable String section(Examination x, int side, double xMm, double yMm) {
        ComposedSide composed = x.side(side);
        Along way = Along.X;
        double[][] shown = profile(composed, xMm, yMm, way);
        for (Along other : Along.values()) {
            double[][] profile = profile(composed, xMm, yMm, other);
            if (range(profile[0]) > range(shown[0]) + 1e-6) {
                way = other;
                shown = profile;
            }
        }
        double[] heights = shown[0];
        double[] surface = shown[1];
        double foil = x.foilMm();
        boolean cut = false;
        for (int k = 0; k <= SECTION_STEPS; k++) {
            cut |= heights[k] < surface[k] - 1e-6;
        }
        if (!cut) {
            return null;
        }
        double lowMm = Math.max(least(heights) - 0.03, -DEEPEST_SECTION_MM);
        Sheet sheet = new Sheet(
                -HALF_SECTION_MM - 0.34, lowMm * SECTION_TALL - 0.3, HALF_SECTION_MM + 0.02, 0.3, 140, "", 0.078);
        StringBuilder body = new StringBuilder("M" + n(-HALF_SECTION_MM) + " " + n(-lowMm * SECTION_TALL));
        StringBuilder copper = new StringBuilder();
        for (int k = 0; k <= SECTION_STEPS; k++) {
            double at = -HALF_SECTION_MM + 2 * HALF_SECTION_MM * k / SECTION_STEPS;
            double top = Math.max(lowMm, heights[k]);
            double glue = surface[k] - foil;
            body.append('L').append(n(at)).append(' ').append(n(-Math.min(top, glue) * SECTION_TALL));
            if (top > glue + 1e-9) {
                copper.append("M" + n(at) + " " + n(-glue * SECTION_TALL) + "V" + n(-top * SECTION_TALL));
            }
        }
        body.append("L" + n(HALF_SECTION_MM) + " " + n(-lowMm * SECTION_TALL) + "Z");
        sheet.raw("<path d=\"" + body + "\" fill=\"#e9dfc0\" stroke=\"#777\" stroke-width=\".006\"/>");
        sheet.raw("<path d=\"" + copper + "\" stroke=\"#8a4a1a\" stroke-width=\".0055\"/>");
        sheet.raw("<path d=\"M-.5 " + n(-lowMm * SECTION_TALL + 0.05) + "h1m-1 -.03v.06m1 -.06v.06\" stroke=\"#111\""
                + " stroke-width=\".012\" fill=\"none\"/>");
        for (double z = 0; z > lowMm - 1e-9; z -= 0.05) {
            sheet.raw("<path d=\"M" + n(-HALF_SECTION_MM - 0.03) + " " + n(-z * SECTION_TALL) + "h.03\" stroke=\"#111\""
                    + " stroke-width=\".008\"/>");
            sheet.text(-HALF_SECTION_MM - 0.045, z * SECTION_TALL - 0.027, "end", Decimals.fixed(z == 0 ? 0 : z, 2));
        }
        sheet.text(-HALF_SECTION_MM - 0.33, 0.2, "start", "Z, mm");
        sheet.raw("<path d=\"M-.03 -.16h.06l-.03 .07z\" fill=\"#111\"/>");
        sheet.text(0.05, 0.1, "start", "the place");
        sheet.text(-HALF_SECTION_MM, lowMm * SECTION_TALL - 0.17, "start", "1 mm " + way.words + ";");
        sheet.text(
                -HALF_SECTION_MM,
                lowMm * SECTION_TALL - 0.27,
                "start",
                "Z 5 x as high; foil " + Decimals.plain(foil * 1000, 1) + " um");
        return sheet.svg("section", "Section through the place " + way.words + ", Z five times as tall");
    }

    /** Heights of what is left and of the foil top before any cut, mm. */
    private static double[][] profile(ComposedSide side, double xMm, double yMm, Along way) {
        double[] left = new double[SECTION_STEPS + 1];
        double[] surface = new double[SECTION_STEPS + 1];
        for (int k = 0; k <= SECTION_STEPS; k++) {
            double d = -HALF_SECTION_MM + 2 * HALF_SECTION_MM * k / SECTION_STEPS;
            double px = xMm + d * way.dx;
            double py = yMm + d * way.dy;
            boolean on = px >= 0 && py >= 0 && px < side.columns() * side.cellMm() && py < side.rows() * side.cellMm();
            surface[k] = on ? side.surfaceMm(px, py) : 0;
            left[k] = on ? Math.min(side.exactHeightMm(px, py), surface[k]) : 0;
        }
        return new double[][] {left, surface};
    }

    private static double range(double[] values) {
        double high = Double.NEGATIVE_INFINITY;
        for (double v : values) {
            high = Math.max(high, v);
        }
        return high - least(values);
    }

    private static double least(double[] values) {
        double low = Double.POSITIVE_INFINITY;
        for (double v : values) {
            low = Math.min(low, v);
        }
        return low;
    }

    private static String n(double value) {
        return Decimals.plain(value, 3);
    }

    /** A drawing in mm with Y up; on paper {@code scale} of {@code unit} for each. */
    private static final class Sheet {
        private final StringBuilder out = new StringBuilder();
        private final double x0;
        private final double y0;
        private final double x1;
        private final double y1;
        private final double scale;
        private final String unit;
        private final double letterMm;
        private final List<double[]> words = new ArrayList<>();

        Sheet(double x0, double y0, double x1, double y1, double scale, String unit, double letterMm) {
            this.x0 = x0;
            this.y0 = y0;
            this.x1 = x1;
            this.y1 = y1;
            this.scale = scale;
            this.unit = unit;
            this.letterMm = letterMm;
        }

        void raw(String svg) {
            out.append(svg);
        }

        void rect(double ax, double ay, double bx, double by, String style) {
            out.append("<rect x=\"" + n(ax) + "\" y=\"" + n(-by) + "\" width=\"" + n(bx - ax) + "\" height=\""
                    + n(by - ay) + "\" " + style + "/>");
        }

        void circle(double cx, double cy, double r, String style) {
            out.append("<circle cx=\"" + n(cx) + "\" cy=\"" + n(-cy) + "\" r=\"" + n(r) + "\" " + style + "/>");
        }

        void path(String d) {
            out.append("<path d=\"" + d + "\" fill=\"none\" stroke=\"#111\" stroke-width=\".25\"/>");
        }

        void text(double x, double y, String anchor, String text) {
            out.append("<text x=\"" + n(x) + "\" y=\"" + n(-y) + "\" text-anchor=\"" + anchor + "\" font-size=\""
                    + n(letterMm) + "\">" + Html.escape(text) + "</text>");
        }

        /** A point's sign, before any word. */
        void mark(Mark mark) {
            double x = mark.at().xMm();
            double y = mark.at().yMm();
            if (mark.cross()) {
                path("M" + n(x - 1.5) + " " + n(-y) + "h3M" + n(x) + " " + n(-y - 1.5) + "v3");
            } else {
                circle(x, y, 0.9, "fill=\"#fff\" stroke=\"#111\" stroke-width=\".5\"");
            }
            words.add(new double[] {x - 1.2, y - 1.2, x + 1.2, y + 1.2});
        }

        /** A point's name, where no other word or sign stands, best within a box: right, left, below, above. */
        void named(Mark mark, double[] within) {
            double x = mark.at().xMm();
            double y = mark.at().yMm();
            double reachMm = mark.cross() ? 1.8 : 1.4;
            String text = mark.name();
            double wide = 0.62 * letterMm * text.length();
            double[][] ways = {
                {x + reachMm, y - 0.35 * letterMm},
                {x - reachMm - wide, y - 0.35 * letterMm},
                {x + reachMm, y - 1.6 * letterMm},
                {x + reachMm, y + letterMm},
                {x - wide / 2, y - reachMm - letterMm},
                {x - wide / 2, y + reachMm + 0.2 * letterMm}
            };
            double[] best = ways[0];
            boolean found = false;
            for (double[] bounds : new double[][] {within, {x0, y0, x1, y1}}) {
                for (double[] way : ways) {
                    boolean inside = way[0] >= bounds[0]
                            && way[0] + wide <= bounds[2]
                            && way[1] >= bounds[1]
                            && way[1] + letterMm <= bounds[3];
                    if (!found && inside && free(way[0], way[1], wide)) {
                        best = way;
                        found = true;
                    }
                }
            }
            words.add(new double[] {best[0], best[1], best[0] + wide, best[1] + letterMm});
            text(best[0], best[1], "start", text);
        }

        private boolean free(double x, double y, double wide) {
            for (double[] w : words) {
                if (x < w[2] && x + wide > w[0] && y < w[3] && y + letterMm > w[1]) {
                    return false;
                }
            }
            return true;
        }

        void bar(double x, double y) {
            out.append("<path d=\"M" + n(x) + " " + n(-y) + "h10m-10 -1v2m10 -2v2\" fill=\"none\" stroke=\"#111\""
                    + " stroke-width=\".4\"/>");
            text(x + 11.5, y - 0.8, "start", "10 mm");
        }

        String svg(String kind, String label) {
            String size =
                    " width=\"" + n((x1 - x0) * scale) + unit + "\" height=\"" + n((y1 - y0) * scale) + unit + "\"";
            return "<svg class=\"" + kind + "\"" + size + " viewBox=\"" + n(x0) + " " + n(-y1) + " " + n(x1 - x0) + " "
                    + n(y1 - y0) + "\" role=\"img\" aria-label=\"" + Html.escape(label)
                    + "\" font-family=\"DejaVu Sans,Verdana,sans-serif\">" + out + "</svg>\n";
        }
    }
}
