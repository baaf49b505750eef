package foilproof.motion;

import java.util.ArrayList;
import java.util.List;

/** Cuts the feed moves of a plan into strokes. */
final class StrokeReader {
    /** A stroke whose path stays this short in plan view goes straight down, mm. */
    static final double SIDEWAYS_MM = 0.01;
    /** How near a path must come to its start to be closed, mm: four rounded decimals of an inch and some. */
    static final double CLOSED_MM = 0.02;

    private StrokeReader() {}

    static List<Stroke> read(MotionPlan plan, double[] tops) {
        Segments s = plan.segments();
        List<Stroke> strokes = new ArrayList<>();
        for (ToolRun run : plan.runs()) {
            double top = tops[run.index()];
            int first = -1;
            for (int i = run.firstSegment(); i < run.endSegment(); i++) {
                boolean cuts = s.isFeed(i) && s.lowestMm(i) < top - 1e-9;
                boolean apart = first >= 0
                        && (!cuts || s.program(i) != s.program(i - 1) || s.z0Mm(i) >= top - 1e-9 && i > first);
                if (apart) {
                    strokes.add(stroke(s, strokes.size(), run.index(), first, i, top));
                    first = -1;
                }
                if (cuts && first < 0) {
                    first = i;
                }
            }
            if (first >= 0) {
                strokes.add(stroke(s, strokes.size(), run.index(), first, run.endSegment(), top));
            }
        }
        return strokes;
    }

    private static Stroke stroke(Segments s, int index, int run, int first, int end, double top) {
        double length = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double x0 = s.x0Mm(first);
        double y0 = s.y0Mm(first);
        double x1 = x0;
        double y1 = y0;
        for (int i = first; i < end; i++) {
            length += s.planLengthMm(i);
            low = Math.min(low, s.lowestMm(i));
            high = Math.max(high, Math.max(s.z0Mm(i), s.z1Mm(i)));
            if (s.isArc(i)) {
                double[] box = s.planBox(i);
                x0 = Math.min(x0, box[0]);
                y0 = Math.min(y0, box[1]);
                x1 = Math.max(x1, box[2]);
                y1 = Math.max(y1, box[3]);
            } else {
                x0 = Math.min(x0, s.x1Mm(i));
                y0 = Math.min(y0, s.y1Mm(i));
                x1 = Math.max(x1, s.x1Mm(i));
                y1 = Math.max(y1, s.y1Mm(i));
            }
        }
        Extents box = new Extents(x0, y0, low, x1, y1, high, false);
        boolean vertical = length < SIDEWAYS_MM;
        boolean closed = !vertical && closed(s, first, end, length);
        return new Stroke(index, run, first, end, length, box.z0Mm(), top - box.z0Mm(), box, vertical, closed);
    }

    /**
     * Closed: some later point of the path, at least half of the whole way on, lies at the point where the path first
     * moved sideways below the foil top. A lead-over beyond that point does not matter.
     */
    private static boolean closed(Segments s, int first, int end, double length) {
        int start = first;
        while (start < end - 1 && s.planLengthMm(start) < SIDEWAYS_MM) {
            start++;
        }
        double x = s.x0Mm(start);
        double y = s.y0Mm(start);
        double way = 0;
        for (int i = start; i < end; i++) {
            double step = s.planLengthMm(i);
            if (way + step >= length / 2 && way + step > 4 * CLOSED_MM && near(s, i, x, y, way == 0)) {
                return true;
            }
            way += step;
        }
        return false;
    }

    private static boolean near(Segments s, int i, double x, double y, boolean firstMove) {
        double ex = s.x1Mm(i) - x;
        double ey = s.y1Mm(i) - y;
        if (ex * ex + ey * ey <= CLOSED_MM * CLOSED_MM) {
            return true;
        }
        if (firstMove || s.isArc(i)) {
            return false;
        }
        double dx = s.x1Mm(i) - s.x0Mm(i);
        double dy = s.y1Mm(i) - s.y0Mm(i);
        double squared = dx * dx + dy * dy;
        if (squared == 0) {
            return false;
        }
        double t = ((x - s.x0Mm(i)) * dx + (y - s.y0Mm(i)) * dy) / squared;
        if (t < 0 || t > 1) {
            return false;
        }
        return Plane2.length(s.x0Mm(i) + t * dx - x, s.y0Mm(i) + t * dy - y) <= CLOSED_MM;
    }
}
