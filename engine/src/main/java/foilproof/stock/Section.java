package foilproof.stock;

import java.util.ArrayList;
import java.util.List;

/**
 * The surface of one side along a straight line, from the exact shapes: for section drawings and for widths. Crossings
 * of a level are found by halving to {@link #PLUS_MINUS_MM}; what is narrower than the step may be missed.
 *
 * @param side the side
 * @param x0Mm start of the line, blank's frame
 * @param y0Mm start
 * @param x1Mm end
 * @param y1Mm end
 * @param stepMm distance between the points looked at
 */
public record Section(ComposedSide side, double x0Mm, double y0Mm, double x1Mm, double y1Mm, double stepMm) {
    /** How near a crossing is found, mm. */
    public static final double PLUS_MINUS_MM = 1e-6;

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException where the line has no length or the step is not positive
     */
    public Section {
        if (!(stepMm > 0) || (x0Mm == x1Mm && y0Mm == y1Mm)) {
            throw new IllegalArgumentException("a section needs a length and a step above 0");
        }
    }

    /** A stretch of the line, mm from its start. */
    public record Span(double fromMm, double toMm) {
        /** Its length, mm. */
        public double widthMm() {
            return toMm - fromMm;
        }
    }

    /** Length of the line, mm. */
    public double lengthMm() {
        return Math.sqrt((x1Mm - x0Mm) * (x1Mm - x0Mm) + (y1Mm - y0Mm) * (y1Mm - y0Mm));
    }

    /** Height of what is left at a distance from the start, exactly, mm. */
    public double heightMm(double distanceMm) {
        double f = distanceMm / lengthMm();
        return side.exactHeightMm(x0Mm + (x1Mm - x0Mm) * f, y0Mm + (y1Mm - y0Mm) * f);
    }

    /** Height of the foil top before any cut at a distance from the start, mm. */
    public double surfaceMm(double distanceMm) {
        double f = distanceMm / lengthMm();
        return side.surfaceMm(x0Mm + (x1Mm - x0Mm) * f, y0Mm + (y1Mm - y0Mm) * f);
    }

    /** Heights at even steps from the start to the end, mm. */
    public double[] heightsMm() {
        int n = (int) Math.ceil(lengthMm() / stepMm - 1e-9) + 1;
        double[] heights = new double[n];
        for (int k = 0; k < n; k++) {
            heights[k] = heightMm(Math.min(k * stepMm, lengthMm()));
        }
        return heights;
    }

    /**
     * The stretches that were cut to a depth or deeper, in order; at the foil's thickness they are the gaps.
     *
     * @param depthMm below the foil top before any cut
     */
    public List<Span> cutDeeperThan(double depthMm) {
        List<Span> spans = new ArrayList<>();
        int n = (int) Math.ceil(lengthMm() / stepMm - 1e-9);
        boolean in = below(0, depthMm);
        double from = 0;
        for (int k = 1; k <= n; k++) {
            double at = Math.min(k * stepMm, lengthMm());
            boolean now = below(at, depthMm);
            if (now != in) {
                double edge = edge((k - 1) * stepMm, at, in, depthMm);
                if (in) {
                    spans.add(new Span(from, edge));
                }
                from = edge;
                in = now;
            }
        }
        if (in) {
            spans.add(new Span(from, lengthMm()));
        }
        return spans;
    }

    private boolean below(double at, double depthMm) {
        double f = at / lengthMm();
        double x = x0Mm + (x1Mm - x0Mm) * f;
        double y = y0Mm + (y1Mm - y0Mm) * f;
        return side.exactCutMm(x, y) <= side.surfaceMm(x, y) - depthMm;
    }

    private double edge(double low, double high, boolean atLow, double depthMm) {
        double from = low;
        double to = high;
        while (to - from > PLUS_MINUS_MM / 4) {
            double middle = (from + to) / 2;
            if (below(middle, depthMm) == atLow) {
                from = middle;
            } else {
                to = middle;
            }
        }
        return (from + to) / 2;
    }
}
