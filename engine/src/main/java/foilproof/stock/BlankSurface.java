package foilproof.stock;

import foilproof.bench.Surface;
import foilproof.bench.Touch;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The foil top as it lies: its height above the nominal place at every point of the blank's frame.
 *
 * <p>Flat, or from touched points: linear on their Delaunay triangles (of four points on one circle the diagonal that
 * rises to the right), outside their hull as on the nearest place of its edge, a plane for three points. The underside
 * of the blank stays on the spoil board. Immutable.
 */
public final class BlankSurface {
    /** The foil top lies at its nominal height everywhere. */
    public static final BlankSurface FLAT = new BlankSurface(List.of());

    private static final int BUCKETS = 24;

    private final double[] x;
    private final double[] y;
    private final double[] z;
    private final @Nullable Triangulation mesh;
    private final double @Nullable [] plane;
    private final int[][] buckets;
    private double left;
    private double lower;
    private double bucketX;
    private double bucketY;

    private BlankSurface(List<Touch> touches) {
        int n = touches.size();
        x = new double[n];
        y = new double[n];
        z = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = touches.get(i).xMm();
            y[i] = touches.get(i).yMm();
            z[i] = touches.get(i).heightMm();
        }
        mesh = n == 0 ? null : Triangulation.of(x, y);
        plane = n == 3 ? planeOf(0, 1, 2) : null;
        buckets = mesh == null ? new int[0][] : fillBuckets(mesh);
    }

    /**
     * The surface of a blank as the bench has it.
     *
     * @throws IllegalArgumentException where there are touched points, but fewer than three, or all on one line, or two
     *     at one place: what lies between is then not known
     */
    public static BlankSurface of(Surface surface) {
        return surface.flat() ? FLAT : ofTouches(surface.touches());
    }

    /**
     * The surface through touched points.
     *
     * @throws IllegalArgumentException as {@link #of}
     */
    public static BlankSurface ofTouches(List<Touch> touches) {
        if (touches.size() < 3) {
            throw new IllegalArgumentException("a surface needs at least three touched points, not " + touches.size());
        }
        Set<List<Double>> places = new HashSet<>();
        for (Touch touch : touches) {
            if (!places.add(List.of(touch.xMm() + 0.0, touch.yMm() + 0.0))) {
                throw new IllegalArgumentException("two touched points lie at one place");
            }
        }
        return new BlankSurface(touches);
    }

    /** Whether it is flat at its nominal height. */
    public boolean isFlat() {
        return mesh == null;
    }

    /** Height of the foil top above its nominal place at a point, mm, + = higher. */
    public double heightMm(double xMm, double yMm) {
        if (mesh == null) {
            return 0;
        }
        return plane != null
                ? plane[0] + plane[1] * xMm + plane[2] * yMm
                : heightIn(mesh, regionAt(mesh, xMm, yMm), xMm, yMm);
    }

    /** Highest touched height, mm; 0 where flat. Of a plane, the highest at the corners of a blank of this size. */
    public double highestMm(double widthMm, double heightMm) {
        double highest = isFlat() ? 0 : -Double.MAX_VALUE;
        for (double touched : z) {
            highest = Math.max(highest, touched);
        }
        if (plane != null) {
            for (int corner = 0; corner < 4; corner++) {
                highest = Math.max(highest, heightMm((corner & 1) * widthMm, (corner >> 1) * heightMm));
            }
        }
        return highest;
    }

    /**
     * Heights at evenly spaced points of a row, mm: the same as {@link #heightMm} to rounding, but fast.
     *
     * @param x0Mm the first point
     * @param yMm of all points
     * @param stepMm from one to the next
     * @param count how many
     * @param into where they go, from 0
     */
    public void rowMm(double x0Mm, double yMm, double stepMm, int count, double[] into) {
        if (mesh == null) {
            Arrays.fill(into, 0, count, 0);
            return;
        }
        if (plane != null) {
            for (int i = 0; i < count; i++) {
                into[i] = heightMm(x0Mm + i * stepMm, yMm);
            }
            return;
        }
        int r0 = regionAt(mesh, x0Mm, yMm);
        into[0] = heightIn(mesh, r0, x0Mm, yMm);
        if (count > 1) {
            double xEnd = x0Mm + (count - 1) * stepMm;
            int r1 = regionAt(mesh, xEnd, yMm);
            into[count - 1] = heightIn(mesh, r1, xEnd, yMm);
            between(mesh, new double[] {x0Mm, yMm, stepMm}, 0, r0, count - 1, r1, into);
        }
    }

    /** Regions are convex and the surface is linear in each: where both ends lie in one, so does all between. */
    private void between(Triangulation m, double[] row, int i, int ri, int k, int rk, double[] into) {
        if (k - i < 2) {
            return;
        }
        if (ri == rk) {
            double step = (into[k] - into[i]) / (k - i);
            for (int c = i + 1; c < k; c++) {
                into[c] = into[i] + (c - i) * step;
            }
            return;
        }
        int middle = (i + k) >>> 1;
        double xm = row[0] + middle * row[2];
        int rm = regionAt(m, xm, row[1]);
        into[middle] = heightIn(m, rm, xm, row[1]);
        between(m, row, i, ri, middle, rm, into);
        between(m, row, middle, rm, k, rk, into);
    }

    /** Triangle t: t. Nearest hull edge k: T + 2 k. Nearest hull corner k: T + 2 k + 1. */
    private int regionAt(Triangulation m, double px, double py) {
        double bx = (px - left) / bucketX;
        double by = (py - lower) / bucketY;
        if (bx >= 0 && by >= 0 && bx <= BUCKETS && by <= BUCKETS) {
            int column = Math.min((int) bx, BUCKETS - 1);
            int row = Math.min((int) by, BUCKETS - 1);
            for (int t : buckets[row * BUCKETS + column]) {
                if (inside(m.triangles().get(t), px, py)) {
                    return t;
                }
            }
        }
        int[] hull = m.hull();
        int best = 0;
        double bestD2 = Double.MAX_VALUE;
        for (int k = 0; k < hull.length; k++) {
            int a = hull[k];
            int b = hull[(k + 1) % hull.length];
            double f = along(a, b, px, py);
            double held = Math.max(0, Math.min(1, f));
            double dx = px - (x[a] + (x[b] - x[a]) * held);
            double dy = py - (y[a] + (y[b] - y[a]) * held);
            double d2 = dx * dx + dy * dy;
            if (d2 < bestD2) {
                bestD2 = d2;
                int corner = f <= 0 ? k : (k + 1) % hull.length;
                best = m.triangles().size() + (f > 0 && f < 1 ? 2 * k : 2 * corner + 1);
            }
        }
        return best;
    }

    private double along(int a, int b, double px, double py) {
        double dx = x[b] - x[a];
        double dy = y[b] - y[a];
        return ((px - x[a]) * dx + (py - y[a]) * dy) / (dx * dx + dy * dy);
    }

    private boolean inside(int[] t, double px, double py) {
        for (int i = 0; i < 3; i++) {
            int a = t[i];
            int b = t[(i + 1) % 3];
            if ((x[b] - x[a]) * (py - y[a]) - (y[b] - y[a]) * (px - x[a]) < 0) {
                return false;
            }
        }
        return true;
    }

    private double heightIn(Triangulation m, int region, double px, double py) {
        int outside = region - m.triangles().size();
        if (outside < 0) {
            int[] t = m.triangles().get(region);
            double dx1 = x[t[1]] - x[t[0]];
            double dy1 = y[t[1]] - y[t[0]];
            double dx2 = x[t[2]] - x[t[0]];
            double dy2 = y[t[2]] - y[t[0]];
            double px0 = px - x[t[0]];
            double py0 = py - y[t[0]];
            double det = dx1 * dy2 - dy1 * dx2;
            double u = (px0 * dy2 - py0 * dx2) / det;
            double v = (dx1 * py0 - dy1 * px0) / det;
            return z[t[0]] + u * (z[t[1]] - z[t[0]]) + v * (z[t[2]] - z[t[0]]);
        }
        int[] hull = m.hull();
        int a = hull[outside / 2];
        if (outside % 2 == 1) {
            return z[a];
        }
        int b = hull[(outside / 2 + 1) % hull.length];
        return z[a] + (z[b] - z[a]) * along(a, b, px, py);
    }

    private double[] planeOf(int a, int b, int c) {
        double dx1 = x[b] - x[a];
        double dy1 = y[b] - y[a];
        double dx2 = x[c] - x[a];
        double dy2 = y[c] - y[a];
        double det = dx1 * dy2 - dy1 * dx2;
        double gx = ((z[b] - z[a]) * dy2 - (z[c] - z[a]) * dy1) / det;
        double gy = ((z[c] - z[a]) * dx1 - (z[b] - z[a]) * dx2) / det;
        return new double[] {z[a] - gx * x[a] - gy * y[a], gx, gy};
    }

    private int[][] fillBuckets(Triangulation m) {
        double right = -Double.MAX_VALUE;
        double upper = -Double.MAX_VALUE;
        left = Double.MAX_VALUE;
        lower = Double.MAX_VALUE;
        for (int i = 0; i < x.length; i++) {
            left = Math.min(left, x[i]);
            lower = Math.min(lower, y[i]);
            right = Math.max(right, x[i]);
            upper = Math.max(upper, y[i]);
        }
        bucketX = (right - left) / BUCKETS;
        bucketY = (upper - lower) / BUCKETS;
        List<List<Integer>> lists = new ArrayList<>();
        for (int b = 0; b < BUCKETS * BUCKETS; b++) {
            lists.add(new ArrayList<>());
        }
        for (int t = 0; t < m.triangles().size(); t++) {
            int[] v = m.triangles().get(t);
            int c0 = bucket(Math.min(x[v[0]], Math.min(x[v[1]], x[v[2]])) - left, bucketX, -1);
            int c1 = bucket(Math.max(x[v[0]], Math.max(x[v[1]], x[v[2]])) - left, bucketX, 1);
            int r0 = bucket(Math.min(y[v[0]], Math.min(y[v[1]], y[v[2]])) - lower, bucketY, -1);
            int r1 = bucket(Math.max(y[v[0]], Math.max(y[v[1]], y[v[2]])) - lower, bucketY, 1);
            for (int r = r0; r <= r1; r++) {
                for (int c = c0; c <= c1; c++) {
                    lists.get(r * BUCKETS + c).add(t);
                }
            }
        }
        int[][] out = new int[BUCKETS * BUCKETS][];
        for (int b = 0; b < out.length; b++) {
            out[b] = lists.get(b).stream().mapToInt(Integer::intValue).toArray();
        }
        return out;
    }

    /** A bucket's index, widened by rounding so that no triangle is missed. */
    private static int bucket(double offset, double size, int widen) {
        int b = (int) Math.floor(offset / size + widen * 1e-9);
        return Math.max(0, Math.min(BUCKETS - 1, b));
    }

    /** Whether another surface goes through the same touched points, in the same order. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof BlankSurface o
                && Arrays.equals(x, o.x)
                && Arrays.equals(y, o.y)
                && Arrays.equals(z, o.z);
    }

    @Override
    public int hashCode() {
        return 31 * (31 * Arrays.hashCode(x) + Arrays.hashCode(y)) + Arrays.hashCode(z);
    }
}
