package foilproof.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A figure bounded by closed contours of lines and arcs. Every edge is cut where it turns back in Y, so that a
 * scan line meets each piece at most once; a piece gives its crossing by one division or one root.
 */
class PathFigure extends Figure {
    /** Above this many pieces a table of bands by height is built. */
    private static final int BANDED_ABOVE = 24;

    private static final double ROUNDING_MM = 1e-5;

    final List<List<PathEdge>> contours;
    final boolean evenOdd;
    private final double knownArea;
    private final int n;
    private final double[] yLo;
    private final double[] yHi;
    private final double[] xLo;
    private final double[] slope;
    private final double[] cx;
    private final double[] cy;
    private final double[] rr;
    private final byte[] side;
    private final byte[] dir;
    private final int @Nullable [] bandStart;
    private final int @Nullable [] bandItem;
    private final double bandHeight;

    /** A figure of contours; {@code evenOdd}: holes by parity, else every contour's inside is united. */
    PathFigure(List<List<PathEdge>> contours, boolean evenOdd) {
        this(contours, evenOdd, Double.NaN);
    }

    /** The same with its area known. */
    PathFigure(List<List<PathEdge>> contours, boolean evenOdd, double knownAreaMm2) {
        super(boundsOf(contours));
        this.evenOdd = evenOdd;
        this.knownArea = knownAreaMm2;
        this.contours = evenOdd ? contours : counterClockwise(contours);
        Pieces pieces = new Pieces();
        for (List<PathEdge> contour : this.contours) {
            pieces.addContour(contour);
        }
        n = pieces.n;
        yLo = Arrays.copyOf(pieces.yLo, n);
        yHi = Arrays.copyOf(pieces.yHi, n);
        xLo = Arrays.copyOf(pieces.xLo, n);
        slope = Arrays.copyOf(pieces.slope, n);
        boolean arcs = pieces.arcs;
        cx = arcs ? Arrays.copyOf(pieces.cx, n) : new double[0];
        cy = arcs ? Arrays.copyOf(pieces.cy, n) : new double[0];
        rr = arcs ? Arrays.copyOf(pieces.rr, n) : new double[0];
        side = Arrays.copyOf(pieces.side, n);
        dir = Arrays.copyOf(pieces.dir, n);
        if (n > BANDED_ABOVE && box.heightMm() > 0) {
            int bands = Math.min(n, 1 << 16);
            bandHeight = box.heightMm() / bands;
            bandStart = new int[bands + 1];
            bandItem = fillBands(bands, bandStart);
        } else {
            bandHeight = 0;
            bandStart = null;
            bandItem = null;
        }
    }

    private int[] fillBands(int bands, int[] start) {
        for (int i = 0; i < n; i++) {
            for (int b = band(yLo[i], bands); b <= band(yHi[i], bands); b++) {
                start[b + 1]++;
            }
        }
        for (int b = 0; b < bands; b++) {
            start[b + 1] += start[b];
        }
        int[] item = new int[start[bands]];
        int[] fill = Arrays.copyOf(start, bands);
        for (int i = 0; i < n; i++) {
            for (int b = band(yLo[i], bands); b <= band(yHi[i], bands); b++) {
                item[fill[b]++] = i;
            }
        }
        return item;
    }

    private int band(double y, int bands) {
        return Math.max(0, Math.min(bands - 1, (int) ((y - box.minYMm()) / bandHeight)));
    }

    private static Bounds boundsOf(List<List<PathEdge>> contours) {
        Bounds box = Bounds.NONE;
        for (List<PathEdge> contour : contours) {
            for (PathEdge edge : contour) {
                box = box.with(edge.bounds());
            }
        }
        return box;
    }

    /** Twice the signed area of a closed contour, + = counter-clockwise. */
    static double twiceAreaMm2(List<PathEdge> contour) {
        double sum = 0;
        for (PathEdge edge : contour) {
            sum += edge.twiceAreaMm2();
        }
        return sum;
    }

    private static List<List<PathEdge>> counterClockwise(List<List<PathEdge>> contours) {
        List<List<PathEdge>> out = new ArrayList<>(contours.size());
        for (List<PathEdge> contour : contours) {
            if (twiceAreaMm2(contour) >= 0) {
                out.add(contour);
            } else {
                List<PathEdge> turned = new ArrayList<>(contour.size());
                for (int i = contour.size() - 1; i >= 0; i--) {
                    turned.add(contour.get(i).reversed());
                }
                out.add(turned);
            }
        }
        return out;
    }

    private double crossing(int i, double y) {
        if (side[i] == 0) {
            return xLo[i] + (y - yLo[i]) * slope[i];
        }
        double d = y - cy[i];
        return cx[i] + side[i] * Math.sqrt(Math.max(0, rr[i] - d * d));
    }

    @Override
    boolean contains(double x, double y) {
        if (!box.holds(x, y)) {
            return false;
        }
        int wind = 0;
        if (bandStart != null && bandItem != null) {
            int b = band(y, bandStart.length - 1);
            for (int k = bandStart[b]; k < bandStart[b + 1]; k++) {
                wind += windOf(bandItem[k], x, y);
            }
        } else {
            for (int i = 0; i < n; i++) {
                wind += windOf(i, x, y);
            }
        }
        return evenOdd ? (wind & 1) != 0 : wind != 0;
    }

    private int windOf(int i, double x, double y) {
        return y >= yLo[i] && y < yHi[i] && crossing(i, y) <= x ? evenOdd ? 1 : dir[i] : 0;
    }

    @Override
    void spans(double y, double dx, Spans out) {
        if (y < box.minYMm() || y >= box.maxYMm()) {
            return;
        }
        int hits = crossings(y, out);
        int wind = 0;
        double from = 0;
        for (int i = 0; i < hits; i++) {
            boolean was = evenOdd ? (wind & 1) != 0 : wind != 0;
            wind += evenOdd ? 1 : out.crossDir[i];
            boolean is = evenOdd ? (wind & 1) != 0 : wind != 0;
            if (!was && is) {
                from = out.crossX[i];
            } else if (was && !is) {
                out.add(from + dx, out.crossX[i] + dx);
            }
        }
    }

    private int crossings(double y, Spans out) {
        int hits = 0;
        if (bandStart != null && bandItem != null) {
            int b = band(y, bandStart.length - 1);
            out.ensureCrossings(bandStart[b + 1] - bandStart[b]);
            for (int k = bandStart[b]; k < bandStart[b + 1]; k++) {
                hits = hit(bandItem[k], y, out, hits);
            }
        } else {
            out.ensureCrossings(n);
            for (int i = 0; i < n; i++) {
                hits = hit(i, y, out, hits);
            }
        }
        return hits;
    }

    private int hit(int i, double y, Spans out, int hits) {
        if (!(y >= yLo[i] && y < yHi[i])) {
            return hits;
        }
        double x = crossing(i, y);
        int j = hits - 1;
        while (j >= 0 && out.crossX[j] > x) {
            out.crossX[j + 1] = out.crossX[j];
            out.crossDir[j + 1] = out.crossDir[j];
            j--;
        }
        out.crossX[j + 1] = x;
        out.crossDir[j + 1] = dir[i];
        return hits + 1;
    }

    /**
     * True where the contours go round every point at most once: none crosses itself or runs round twice. Cut-ins
     * (edges that are run both ways) are allowed. Looked at near both ends of every
     * stretch between corners, where two edges that cross in between have changed places. Windings over less than
     * 10 nm are rounding of the file's coordinates.
     */
    final boolean windsOnce() {
        Ys ys = new Ys();
        criticalYs(0, ys);
        ys.sortApart(1e-9);
        Spans scratch = new Spans();
        for (int k = 0; k + 1 < ys.count; k++) {
            double a = ys.at[k];
            double b = ys.at[k + 1];
            for (double part = 0.001; part < 0.5; part *= 20) {
                double in = part * (b - a);
                if (!windsOnceAt(a + in, scratch) || !windsOnceAt(b - in, scratch)) {
                    return false;
                }
            }
        }
        return true;
    }

    private boolean windsOnceAt(double y, Spans scratch) {
        int hits = crossings(y, scratch);
        int wind = 0;
        for (int i = 0; i + 1 < hits; i++) {
            wind += scratch.crossDir[i];
            // counter-clockwise: the left wall runs down, so the inside winds -1 in crossing order
            if ((wind > 0 || wind < -1) && scratch.crossX[i + 1] - scratch.crossX[i] > ROUNDING_MM) {
                return false;
            }
        }
        return true;
    }

    @Override
    void criticalYs(double dy, Ys out) {
        for (int i = 0; i < n; i++) {
            out.add(yLo[i] + dy);
            out.add(yHi[i] + dy);
        }
    }

    @Override
    boolean connected() {
        return contours.size() == 1;
    }

    @Override
    double closedFormAreaMm2() {
        return knownArea;
    }

    @Override
    PathFigure mapped(PlaneMap map) {
        List<List<PathEdge>> out = new ArrayList<>(contours.size());
        for (List<PathEdge> contour : contours) {
            List<PathEdge> edges = new ArrayList<>(contour.size());
            for (PathEdge edge : contour) {
                edges.add(edge.mapped(map));
            }
            out.add(edges);
        }
        return new PathFigure(out, evenOdd, knownArea * Math.abs(map.determinant()));
    }

    /** Collects the monotone pieces. */
    private static final class Pieces {
        int n;
        boolean arcs;
        double[] yLo = new double[16];
        double[] yHi = new double[16];
        double[] xLo = new double[16];
        double[] slope = new double[16];
        double[] cx = new double[16];
        double[] cy = new double[16];
        double[] rr = new double[16];
        byte[] side = new byte[16];
        byte[] dir = new byte[16];

        void addContour(List<PathEdge> contour) {
            for (PathEdge e : contour) {
                if (e.isArc()) {
                    addArc(e);
                } else {
                    add(e.x0Mm(), e.y0Mm(), e.x1Mm(), e.y1Mm(), null, 0);
                }
            }
        }

        private void addArc(PathEdge e) {
            double r = e.radiusMm();
            double start = StrictMath.atan2(e.y0Mm() - e.cyMm(), e.x0Mm() - e.cxMm());
            double turn = e.turnRad();
            double sign = Math.signum(turn);
            double sweep = Math.abs(turn);
            // first angle of the form pi/2 + k pi strictly after the start, along the turn
            double quarter = StrictMath.PI / 2;
            double along = sign > 0 ? quarter - start : start - quarter;
            along -= StrictMath.PI * Math.floor(along / StrictMath.PI);
            double y = e.y0Mm();
            double x = e.x0Mm();
            double done = 0;
            while (along < sweep - 1e-12) {
                if (along > done + 1e-12) {
                    double angle = start + sign * along;
                    double yNext = e.cyMm() + (StrictMath.sin(angle) > 0 ? r : -r);
                    double middle = StrictMath.cos(start + sign * (done + along) / 2);
                    add(x, y, e.cxMm(), yNext, e, middle > 0 ? 1 : -1);
                    y = yNext;
                    x = e.cxMm();
                    done = along;
                }
                along += StrictMath.PI;
            }
            double middle = StrictMath.cos(start + sign * (done + sweep) / 2);
            add(x, y, e.x1Mm(), e.y1Mm(), e, middle > 0 ? 1 : -1);
        }

        private void add(double x0, double y0, double x1, double y1, @Nullable PathEdge arc, int half) {
            if (y0 == y1) {
                return;
            }
            if (n == yLo.length) {
                grow();
            }
            boolean up = y1 > y0;
            yLo[n] = up ? y0 : y1;
            yHi[n] = up ? y1 : y0;
            xLo[n] = up ? x0 : x1;
            slope[n] = (x1 - x0) / (y1 - y0);
            dir[n] = (byte) (up ? 1 : -1);
            if (arc != null) {
                arcs = true;
                cx[n] = arc.cxMm();
                cy[n] = arc.cyMm();
                rr[n] = arc.radiusMm() * arc.radiusMm();
                side[n] = (byte) half;
            }
            n++;
        }

        private void grow() {
            int to = n * 2;
            yLo = Arrays.copyOf(yLo, to);
            yHi = Arrays.copyOf(yHi, to);
            xLo = Arrays.copyOf(xLo, to);
            slope = Arrays.copyOf(slope, to);
            cx = Arrays.copyOf(cx, to);
            cy = Arrays.copyOf(cy, to);
            rr = Arrays.copyOf(rr, to);
            side = Arrays.copyOf(side, to);
            dir = Arrays.copyOf(dir, to);
        }
    }
}
