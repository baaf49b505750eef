package foilproof.findings;

import foilproof.bench.XyMm;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The grooves of one side as swept circles at the foil bottom, and what becomes of the copper between them where lost
 * motion moves their walls: every chord of a path has its radius and its shift, and each wall is looked at with and
 * without. Exact for round cutters on level paths; nothing is swept again.
 *
 * <p>Lost motion: an axis with backlash b stands b/2 behind where it was sent, seen in the direction of its last move;
 * only differences of these shifts between two walls matter. A chord that turns an axis round begins where the axis
 * stood: it moves only when the slack is taken up.
 */
final class GrooveWalls {
    /** What a change does to the copper. */
    enum Kind {
        /** A groove no longer meets another one: copper goes through between them. */
        NECK,
        /** A strip of copper appears where two grooves overlapped. */
        STRIP,
        /** Copper between two grooves gets narrower than a limit. */
        NARROWER
    }

    /**
     * The worst place of a kind.
     *
     * @param beforeMm width as the job stands, mm; 0 or less where there was no copper
     * @param afterMm width with the change, mm
     * @param limitMm the limit that it passes, mm
     * @param segment the move whose wall it is
     * @param otherSegment the move of the other wall
     * @param lengthMm over what length, mm
     */
    record Flip(
            Kind kind,
            double xMm,
            double yMm,
            double beforeMm,
            double afterMm,
            double limitMm,
            int segment,
            int otherSegment,
            double lengthMm) {}

    private static final double BIN_MM = 0.5;
    private static final double SAMPLE_MM = 0.2;
    /** Arcs are taken as chords no farther from them than this, mm. */
    private static final double SAGITTA_MM = 0.002;
    /** Walls are parallel where their directions differ by no more than this (cosine). */
    private static final double PARALLEL = 0.95;
    /** Copper beside a groove is looked for so far from its wall, mm. */
    private static final double BESIDE_MM = 0.05;
    /** A change of width below this is none, mm. */
    private static final double TRIFLE_MM = 1e-4;

    private final Examination x;
    private final CopperFacts copper;
    private final double reachMm;
    private int count;
    private double[] ends = new double[4 * 256];
    private double[] radius = new double[256];
    private double[] shift = new double[2 * 256];
    /** How far ahead of its shifted beginning a chord really begins, mm. */
    private double[] ahead = new double[2 * 256];

    private double[] along = new double[256];
    private int[] path = new int[256];
    private int[] segment = new int[256];
    private boolean[] first = new boolean[256];
    private boolean[] last = new boolean[256];
    private int columns;
    private int rows;
    private int[] binStart = new int[0];
    private int[] binned = new int[0];
    private boolean changes;

    private double leastLengthMm;
    private @Nullable Flip[] worst = {};

    /** How far along its chord the foot of the last distance lies, mm. */
    private double footMm;

    // what the last search found
    private double nearBeforeMm;
    private double nearAfterMm;
    private int nearBefore;
    private int nearAfter;

    /**
     * The grooves of a side.
     *
     * @param widestMm copper wider than this between two grooves is of no interest, mm
     */
    GrooveWalls(Examination x, CopperFacts copper, double widestMm, XyMm backlashMm) {
        this.x = x;
        this.copper = copper;
        this.reachMm = widestMm;
        collect(backlashMm);
        bin();
    }

    // ---- reading the grooves

    private void collect(XyMm backlashMm) {
        Segments s = x.plan().segments();
        double bx = backlashMm.xMm() / 2;
        double by = backlashMm.yMm() / 2;
        int signX = 0;
        int signY = 0;
        int paths = 0;
        for (RunFacts run : x.runs()) {
            boolean own = run.side().number() == copper.side() && run.tool() != null;
            boolean down = false;
            double gone = 0;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                boolean in = own && s.isFeed(i) && low(run, s.lowestMm(i), s.x1Mm(i), s.y1Mm(i)) > 0;
                if (!in && down) {
                    last[count - 1] = true;
                }
                if (in && !down && s.planLengthMm(i) == 0) {
                    continue;
                }
                if (in && !down) {
                    paths++;
                    gone = 0;
                }
                double length = s.planLengthMm(i);
                int n = in ? chords(s, i, length) : s.isArc(i) ? 8 : 1;
                for (int k = 0; k < n && length > 0; k++) {
                    double[] p = s.pointAt(i, (double) k / n);
                    double[] q = s.pointAt(i, (k + 1.0) / n);
                    int oldX = signX;
                    int oldY = signY;
                    signX = Math.abs(q[0] - p[0]) > 1e-6 ? (int) Math.signum(q[0] - p[0]) : signX;
                    signY = Math.abs(q[1] - p[1]) > 1e-6 ? (int) Math.signum(q[1] - p[1]) : signY;
                    if (in) {
                        double under = Math.min(low(run, p[2], p[0], p[1]), low(run, q[2], q[0], q[1]));
                        if (under > 0) {
                            add(p, q, run.knownTool().cutRadiusAtHeightMm(under), i);
                            shift[2 * count - 2] = -signX * bx;
                            shift[2 * count - 1] = -signY * by;
                            ahead[2 * count - 2] = aheadMm(oldX, signX, bx, q[0] - p[0]);
                            ahead[2 * count - 1] = aheadMm(oldY, signY, by, q[1] - p[1]);
                            path[count - 1] = paths;
                            along[count - 1] = gone;
                            first[count - 1] = !down;
                            down = true;
                        }
                        gone += length / n;
                    }
                }
                down &= in;
            }
            if (down) {
                last[count - 1] = true;
            }
        }
        for (int k = 0; k < count && !changes; k++) {
            changes =
                    Math.abs(shift[2 * k] - shift[0]) > TRIFLE_MM || Math.abs(shift[2 * k + 1] - shift[1]) > TRIFLE_MM;
        }
    }

    /** What a turned axis is ahead of its new shift; none where it was not known before or moves less than the slack. */
    private static double aheadMm(int before, int now, double halfMm, double wayMm) {
        return before == 0 || Math.abs(wayMm) < 2 * halfMm ? 0 : (now - before) * halfMm;
    }

    /** How far a tip lies below the foil bottom at a place, mm. */
    private double low(RunFacts run, double zMm, double px, double py) {
        return x.side(copper.side()).surfaceMm(px, py) - x.foilMm() - run.blankFromRunMm(zMm);
    }

    private int chords(Segments s, int i, double length) {
        int n = x.side(copper.side()).isFlat() ? 1 : (int) Math.min(200, 1 + length);
        if (s.isArc(i)) {
            double chord = Math.sqrt(8 * Math.max(s.radiusMm(i), 1e-6) * SAGITTA_MM);
            n = (int) Math.min(2000, Math.max(Math.max(n, 8), 1 + length / chord));
        }
        return n;
    }

    private void add(double[] p, double[] q, double radius, int i) {
        if (count == this.radius.length) {
            int size = 2 * count;
            ends = Arrays.copyOf(ends, 4 * size);
            this.radius = Arrays.copyOf(this.radius, size);
            shift = Arrays.copyOf(shift, 2 * size);
            ahead = Arrays.copyOf(ahead, 2 * size);
            along = Arrays.copyOf(along, size);
            path = Arrays.copyOf(path, size);
            segment = Arrays.copyOf(segment, size);
            first = Arrays.copyOf(first, size);
            last = Arrays.copyOf(last, size);
        }
        ends[4 * count] = p[0];
        ends[4 * count + 1] = p[1];
        ends[4 * count + 2] = q[0];
        ends[4 * count + 3] = q[1];
        this.radius[count] = radius;
        segment[count] = i;
        count++;
    }

    private void bin() {
        columns = (int) (x.job().blank().widthMm() / BIN_MM) + 1;
        rows = (int) (x.job().blank().heightMm() / BIN_MM) + 1;
        binStart = new int[columns * rows + 1];
        for (int pass = 0; pass < 2; pass++) {
            if (pass == 1) {
                for (int b = 1; b < binStart.length; b++) {
                    binStart[b] += binStart[b - 1];
                }
                binned = new int[binStart[binStart.length - 1]];
            }
            for (int k = count - 1; k >= 0; k--) {
                double grow = radius[k] + reachMm;
                int c0 = column(Math.min(ends[4 * k], ends[4 * k + 2]) - grow, columns);
                int c1 = column(Math.max(ends[4 * k], ends[4 * k + 2]) + grow, columns);
                int r0 = column(Math.min(ends[4 * k + 1], ends[4 * k + 3]) - grow, rows);
                int r1 = column(Math.max(ends[4 * k + 1], ends[4 * k + 3]) + grow, rows);
                for (int r = r0; r <= r1; r++) {
                    for (int c = c0; c <= c1; c++) {
                        if (crosses(k, c, r, grow)) {
                            if (pass == 0) {
                                binStart[r * columns + c]++;
                            } else {
                                binned[--binStart[r * columns + c]] = k;
                            }
                        }
                    }
                }
            }
        }
    }

    private boolean crosses(int k, int c, int r, double grow) {
        double d = distanceMm(k, (c + 0.5) * BIN_MM, (r + 0.5) * BIN_MM);
        return d <= grow + BIN_MM * 0.7072;
    }

    private static int column(double at, int most) {
        return (int) Math.max(0, Math.min(most - 1, Math.floor(at / BIN_MM)));
    }

    private double distanceMm(int k, double px, double py) {
        return distanceMm(k, px, py, 0, 0);
    }

    /** Distance to a chord as lost motion leaves it, from a place that is given without the chord's shift, mm. */
    private double shiftedDistanceMm(int k, double px, double py) {
        return distanceMm(k, px, py, ahead[2 * k], ahead[2 * k + 1]);
    }

    private double distanceMm(int k, double px, double py, double aheadX, double aheadY) {
        double ax = ends[4 * k] + aheadX;
        double ay = ends[4 * k + 1] + aheadY;
        double dx = ends[4 * k + 2] - ax;
        double dy = ends[4 * k + 3] - ay;
        double l2 = dx * dx + dy * dy;
        double t = l2 == 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / l2));
        double ex = px - ax - t * dx;
        double ey = py - ay - t * dy;
        footMm = t * Math.sqrt(l2);
        return Math.sqrt(ex * ex + ey * ey);
    }

    // ---- looking at walls and ends

    /** The worst place of each kind, each limit; empty where the change moves no wall against another. */
    List<Flip> flips(double[] limitsMm, double leastLength) {
        List<Flip> found = new ArrayList<>();
        leastLengthMm = leastLength;
        worst = new Flip[limitsMm.length + 1];
        if (!changes) {
            return found;
        }
        necks(found);
        for (int hand = -1; hand <= 1; hand += 2) {
            walls(hand, limitsMm);
        }
        for (Flip flip : worst) {
            if (flip != null) {
                found.add(flip);
            }
        }
        return found;
    }

    /** One stretch of a wall that passes a limit. */
    private static final class Stretch {
        private double lengthMm;
        private @Nullable Flip worst;

        void add(Flip here, double lengthMore) {
            lengthMm += lengthMore;
            Flip so = worst;
            if (so == null || here.afterMm() < so.afterMm() - 1e-9) {
                worst = here;
            }
        }
    }

    private void walls(int hand, double[] limits) {
        @Nullable Stretch[] open = new Stretch[limits.length + 1];
        for (int k = 0; k < count; k++) {
            double dx = ends[4 * k + 2] - ends[4 * k];
            double dy = ends[4 * k + 3] - ends[4 * k + 1];
            double length = Math.sqrt(dx * dx + dy * dy);
            int n = (int) Math.max(1, Math.ceil(length / SAMPLE_MM));
            for (int j = 0; j < n && length > 0; j++) {
                double px = ends[4 * k] + (j + 0.5) / n * dx;
                double py = ends[4 * k + 1] + (j + 0.5) / n * dy;
                sample(
                        k,
                        along[k] + (j + 0.5) / n * length,
                        px,
                        py,
                        -dy / length * hand,
                        dx / length * hand,
                        length / n,
                        limits,
                        open);
            }
            boolean over = k + 1 == count || path[k + 1] != path[k];
            for (int m = 0; over && m < open.length; m++) {
                close(open, m);
            }
        }
    }

    private void sample(
            int k,
            double alongMm,
            double cx,
            double cy,
            double nx,
            double ny,
            double length,
            double[] limits,
            @Nullable Stretch[] open) {
        double wx = cx + nx * radius[k];
        double wy = cy + ny * radius[k];
        boolean on = x.onBlank(wx, wy) && search(k, alongMm, cx, cy, nx, ny);
        boolean strip = on && nearBeforeMm <= -TRIFLE_MM && nearAfterMm > TRIFLE_MM && parallel(k, nearAfter);
        double[] at = {wx, wy, length};
        mark(open, limits.length, strip, Kind.STRIP, k, at, 0);
        for (int m = 0; m < limits.length; m++) {
            boolean narrower = on
                    && nearBeforeMm >= limits[m] - 1e-6
                    && nearAfterMm < limits[m] - 1e-6
                    && nearAfterMm > -reachMm
                    && parallel(k, nearAfter)
                    && copper.map().pieceAt(wx + nx * nearBeforeMm / 2, wy + ny * nearBeforeMm / 2) >= 0;
            mark(open, m, narrower, Kind.NARROWER, k, at, limits[m]);
        }
    }

    private void mark(@Nullable Stretch[] open, int m, boolean passes, Kind kind, int k, double[] at, double limit) {
        if (!passes) {
            close(open, m);
            return;
        }
        if (open[m] == null) {
            open[m] = new Stretch();
        }
        open[m].add(
                new Flip(kind, at[0], at[1], nearBeforeMm, nearAfterMm, limit, segment[k], segment[nearAfter], 0),
                at[2]);
    }

    private void close(@Nullable Stretch[] open, int m) {
        Stretch stretch = open[m];
        if (stretch == null) {
            return;
        }
        open[m] = null;
        double length = stretch.lengthMm;
        Flip here = stretch.worst;
        Flip so = worst[m];
        if (here != null && length > leastLengthMm && (so == null || here.afterMm() < so.afterMm() - 1e-9)) {
            worst[m] = new Flip(
                    here.kind(),
                    here.xMm(),
                    here.yMm(),
                    here.beforeMm(),
                    here.afterMm(),
                    here.limitMm(),
                    here.segment(),
                    here.otherSegment(),
                    length);
        }
    }

    private boolean parallel(int k, int other) {
        double ax = ends[4 * k + 2] - ends[4 * k];
        double ay = ends[4 * k + 3] - ends[4 * k + 1];
        double bx = ends[4 * other + 2] - ends[4 * other];
        double by = ends[4 * other + 3] - ends[4 * other + 1];
        double lengths = Math.sqrt((ax * ax + ay * ay) * (bx * bx + by * by));
        return lengths > 0 && Math.abs(ax * bx + ay * by) >= PARALLEL * lengths;
    }

    /** Distance from a wall to the nearest other groove, before and after; false where none is within reach. */
    private boolean search(int k, double alongMm, double cx, double cy, double nx, double ny) {
        double px = cx + nx * radius[k];
        double py = cy + ny * radius[k];
        double qx = cx + nx * radius[k] + shift[2 * k];
        double qy = cy + ny * radius[k] + shift[2 * k + 1];
        nearest(k, alongMm, new double[] {px, py}, qx, qy, 2 * radius[k] + reachMm);
        return nearBefore >= 0 && nearAfter >= 0;
    }

    private void nearest(int k, double alongMm, double[] p, double qx, double qy, double ownMm) {
        double px = p[0];
        double py = p[1];
        nearBeforeMm = Double.POSITIVE_INFINITY;
        nearAfterMm = Double.POSITIVE_INFINITY;
        nearBefore = -1;
        nearAfter = -1;
        int c = column(px, columns);
        int r = column(py, rows);
        for (int b = binStart[r * columns + c]; b < binStart[r * columns + c + 1]; b++) {
            int j = binned[b];
            double d = distanceMm(j, px, py) - radius[j];
            // what the same groove does just before and after is its own wall
            if (path[j] == path[k] && Math.abs(along[j] + footMm - alongMm) < ownMm) {
                continue;
            }
            double e = shiftedDistanceMm(j, qx - shift[2 * j], qy - shift[2 * j + 1]) - radius[j];
            if (d < nearBeforeMm) {
                nearBeforeMm = d;
                nearBefore = j;
            }
            if (e < nearAfterMm) {
                nearAfterMm = e;
                nearAfter = j;
            }
        }
    }

    private double chordMm(int k) {
        double dx = ends[4 * k + 2] - ends[4 * k];
        double dy = ends[4 * k + 3] - ends[4 * k + 1];
        return Math.sqrt(dx * dx + dy * dy);
    }

    /** Groove ends that meet another groove and no longer would; ends before beginnings. */
    private void necks(List<Flip> found) {
        Flip worst = null;
        for (int end = 1; end >= 0; end--) {
            for (int k = 0; k < count; k++) {
                if (end == 0 ? !first[k] : !last[k]) {
                    continue;
                }
                double ex = ends[4 * k + 2 * end];
                double ey = ends[4 * k + 2 * end + 1];
                nearest(
                        k,
                        along[k] + (end == 0 ? 0 : chordMm(k)),
                        new double[] {ex, ey},
                        ex + shift[2 * k] + (end == 0 ? ahead[2 * k] : 0),
                        ey + shift[2 * k + 1] + (end == 0 ? ahead[2 * k + 1] : 0),
                        4 * radius[k]);
                if (nearBefore < 0 || nearAfter < 0) {
                    continue;
                }
                double was = Math.min(nearBeforeMm - radius[k], otherEndMm(nearBefore, k, false));
                double is = Math.min(nearAfterMm - radius[k], otherEndMm(nearAfter, k, true));
                if (was >= -1e-9 || is <= TRIFLE_MM || !parts(k, end == 0)) {
                    continue;
                }
                if (worst == null || is > worst.afterMm() + 1e-9) {
                    worst = new Flip(Kind.NECK, ex, ey, was, is, 0, segment[k], segment[nearAfter], is);
                }
            }
        }
        if (worst != null) {
            found.add(worst);
        }
    }

    /** Gap between the groove of a chord and the free end of another one, mm; infinite where it has none. */
    private double otherEndMm(int j, int k, boolean shifted) {
        double least = Double.POSITIVE_INFINITY;
        for (int end = 0; end < 2; end++) {
            if (end == 0 ? first[j] : last[j]) {
                double px = ends[4 * j + 2 * end];
                double py = ends[4 * j + 2 * end + 1];
                if (shifted) {
                    px += shift[2 * j] - shift[2 * k] + (end == 0 ? ahead[2 * j] : 0);
                    py += shift[2 * j + 1] - shift[2 * k + 1] + (end == 0 ? ahead[2 * j + 1] : 0);
                }
                double d = shifted ? shiftedDistanceMm(k, px, py) : distanceMm(k, px, py);
                least = Math.min(least, d - radius[j] - radius[k]);
            }
        }
        return least;
    }

    /** Whether a groove parts two pieces of copper up to where its end meets the nearest other groove. */
    private boolean parts(int k, boolean atStart) {
        double dx = ends[4 * k + 2] - ends[4 * k];
        double dy = ends[4 * k + 3] - ends[4 * k + 1];
        double d = Math.sqrt(dx * dx + dy * dy);
        if (d < 1e-9) {
            return false;
        }
        double back = radius[k] + radius[nearBefore] + BESIDE_MM;
        double ux = (atStart ? dx : -dx) / d;
        double uy = (atStart ? dy : -dy) / d;
        double px = ends[4 * k + (atStart ? 0 : 2)] + back * ux;
        double py = ends[4 * k + (atStart ? 1 : 3)] + back * uy;
        double off = radius[k] + BESIDE_MM;
        int a = copper.map().pieceAt(px - uy * off, py + ux * off);
        int b = copper.map().pieceAt(px + uy * off, py - ux * off);
        return a >= 0 && b >= 0 && a != b;
    }
}
