package foilproof.findings;

import foilproof.design.Outline;
import foilproof.design.PathEdge;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.Arrays;

/** A closed way as a polygon: that of a cutter's axis round a loop, or of a drawn ring. Lengths in mm. */
final class LoopShape {
    /** Arcs are taken as chords of this turn, rad: no farther than R / 20000 from them. */
    private static final double CHORD_RAD = 0.02;

    private double[] xy = new double[256];
    private int count;

    private LoopShape() {}

    /** The deepest pass of a loop, in the frame of a side; straight lines across gaps. */
    static LoopShape of(Examination x, CutLoop loop, int side) {
        LoopShape shape = new LoopShape();
        Segments s = x.plan().segments();
        int deepest = loop.strokes().get(0);
        for (int k : loop.strokes()) {
            deepest = x.paths().strokes().get(k).deepestMm()
                            <= x.paths().strokes().get(deepest).deepestMm()
                    ? k
                    : deepest;
        }
        for (int k : loop.strokes()) {
            if (k != deepest && !loop.closedByGaps()) {
                continue;
            }
            Stroke stroke = x.paths().strokes().get(k);
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                int steps = s.isArc(i) ? 1 + (int) (Math.abs(s.sweepRad(i)) / CHORD_RAD) : 1;
                for (int j = shape.count == 0 ? 0 : 1; j <= steps && s.planLengthMm(i) > 0; j++) {
                    double[] p = s.pointAt(i, (double) j / steps);
                    shape.add(
                            x.stock().xOnSideMm(loop.side(), side, p[0]),
                            x.stock().yOnSideMm(loop.side(), side, p[1]));
                }
            }
        }
        return shape;
    }

    /** A drawn ring, moved by so much. */
    static LoopShape of(Outline.Ring ring, double dxMm, double dyMm) {
        LoopShape shape = new LoopShape();
        for (PathEdge e : ring.edges()) {
            if (!e.isArc()) {
                shape.add(e.x0Mm() + dxMm, e.y0Mm() + dyMm);
                continue;
            }
            double from = StrictMath.atan2(e.y0Mm() - e.cyMm(), e.x0Mm() - e.cxMm());
            int steps = 1 + (int) (Math.abs(e.turnRad()) / CHORD_RAD);
            for (int k = 0; k < steps; k++) {
                double a = from + e.turnRad() * k / steps;
                shape.add(
                        e.cxMm() + e.radiusMm() * StrictMath.cos(a) + dxMm,
                        e.cyMm() + e.radiusMm() * StrictMath.sin(a) + dyMm);
            }
        }
        return shape;
    }

    private void add(double px, double py) {
        if (2 * count == xy.length) {
            xy = Arrays.copyOf(xy, 2 * xy.length);
        }
        xy[2 * count] = px;
        xy[2 * count + 1] = py;
        count++;
    }

    int size() {
        return count;
    }

    double xMm(int i) {
        return xy[2 * Math.floorMod(i, count)];
    }

    double yMm(int i) {
        return xy[2 * Math.floorMod(i, count) + 1];
    }

    /** Whether the way goes round a place, however often: several passes may follow each other without a lift. */
    boolean holds(double px, double py) {
        int round = 0;
        for (int a = 0, b = count - 1; a < count; b = a++) {
            double ay = xy[2 * b + 1];
            double by = xy[2 * a + 1];
            if (ay > py != by > py && px < (xy[2 * a] - xy[2 * b]) * (py - ay) / (by - ay) + xy[2 * b]) {
                round += by > ay ? 1 : -1;
            }
        }
        return round != 0;
    }

    /** Distance to the nearest place of the way, and that place: distance, x, y. */
    double[] nearest(double px, double py) {
        double best = Double.POSITIVE_INFINITY;
        double bx = Double.NaN;
        double by = Double.NaN;
        for (int a = 0, b = count - 1; a < count; b = a++) {
            double ax = xy[2 * b];
            double ay = xy[2 * b + 1];
            double dx = xy[2 * a] - ax;
            double dy = xy[2 * a + 1] - ay;
            double l2 = dx * dx + dy * dy;
            double t = l2 == 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / l2));
            double ex = ax + t * dx;
            double ey = ay + t * dy;
            double d = (ex - px) * (ex - px) + (ey - py) * (ey - py);
            if (d < best) {
                best = d;
                bx = ex;
                by = ey;
            }
        }
        return new double[] {Math.sqrt(best), bx, by};
    }
}
