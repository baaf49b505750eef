package foilproof.stock;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Delaunay triangulation of a few hundred points: a sweep from left to right joins each point to the hull, then edges
 * are flipped until no circle through a triangle holds another point (C. L. Lawson, "Software for C1 surface
 * interpolation", 1977; from memory). Signs of determinants are exact, so flipping ends. Of four points on one circle
 * the diagonal that rises to the right is taken: the one whose direction is nearest to 45 degrees, upright ones last.
 */
final class Triangulation {
    private final double[] x;
    private final double[] y;
    private final List<int[]> triangles = new ArrayList<>();
    /** Triangle by directed edge, counter-clockwise: key from * n + to. */
    private final Map<Long, Integer> triangleOf = new HashMap<>();

    private int[] hull = new int[0];

    private Triangulation(double[] x, double[] y) {
        this.x = x;
        this.y = y;
    }

    /**
     * Triangulates points, no two at one place.
     *
     * @throws IllegalArgumentException where all points lie on one line, or there are fewer than three
     */
    static Triangulation of(double[] xMm, double[] yMm) {
        Triangulation t = new Triangulation(xMm.clone(), yMm.clone());
        t.sweep();
        t.flipAll();
        return t;
    }

    /** Corners of the triangles, counter-clockwise. */
    List<int[]> triangles() {
        return triangles;
    }

    /** Points of the hull, counter-clockwise. */
    int[] hull() {
        return hull;
    }

    private void sweep() {
        int n = x.length;
        Integer[] order = new Integer[n];
        for (int i = 0; i < n; i++) {
            order[i] = i;
        }
        Arrays.sort(order, (a, b) -> x[a] != x[b] ? Double.compare(x[a], x[b]) : Double.compare(y[a], y[b]));
        int k = 2;
        while (k < n && orient(order[0], order[1], order[k]) == 0) {
            k++;
        }
        if (k >= n) {
            throw new IllegalArgumentException("a surface needs three touched points that are not on one line");
        }
        List<Integer> ring = new ArrayList<>();
        boolean left = orient(order[0], order[1], order[k]) > 0;
        for (int i = 0; i + 1 < k; i++) {
            add(left ? order[i] : order[i + 1], left ? order[i + 1] : order[i], order[k]);
        }
        for (int i = 0; i < k; i++) {
            ring.add(left ? order[i] : order[k - 1 - i]);
        }
        ring.add(order[k]);
        for (int i = k + 1; i < n; i++) {
            join(ring, order[i]);
        }
        hull = ring.stream().mapToInt(Integer::intValue).toArray();
    }

    /** Joins a point right of the hull to all edges that see it. */
    private void join(List<Integer> ring, int q) {
        int m = ring.size();
        int first = -1;
        for (int i = 0; i < m; i++) {
            boolean seen = orient(ring.get(i), ring.get((i + 1) % m), q) < 0;
            boolean before = orient(ring.get((i + m - 1) % m), ring.get(i), q) < 0;
            if (seen && !before) {
                first = i;
            }
        }
        if (first < 0) {
            throw new IllegalArgumentException("two touched points lie at one place");
        }
        List<Integer> next = new ArrayList<>();
        int at = first;
        while (orient(ring.get(at % m), ring.get((at + 1) % m), q) < 0) {
            add(ring.get((at + 1) % m), ring.get(at % m), q);
            at++;
        }
        next.add(ring.get(first));
        next.add(q);
        for (int i = at; i % m != first; i++) {
            next.add(ring.get(i % m));
        }
        ring.clear();
        ring.addAll(next);
    }

    private long key(int from, int to) {
        return (long) from * x.length + to;
    }

    private void add(int a, int b, int c) {
        triangles.add(new int[] {a, b, c});
        index(triangles.size() - 1);
    }

    private void index(int t) {
        int[] v = triangles.get(t);
        for (int i = 0; i < 3; i++) {
            triangleOf.put(key(v[i], v[(i + 1) % 3]), t);
        }
    }

    private void flipAll() {
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int t = 0; t < triangles.size(); t++) {
                for (int i = 0; i < 3; i++) {
                    changed |= flip(t, i);
                }
            }
        }
    }

    /** Flips edge i of triangle t where the other diagonal is better. */
    private boolean flip(int t, int i) {
        int[] v = triangles.get(t);
        int a = v[i];
        int b = v[(i + 1) % 3];
        int c = v[(i + 2) % 3];
        Integer other = triangleOf.get(key(b, a));
        if (other == null) {
            return false;
        }
        int d = -1;
        for (int w : triangles.get(other)) {
            if (w != a && w != b) {
                d = w;
            }
        }
        int inside = inCircle(a, b, c, d);
        if (inside < 0 || (inside == 0 && !better(c, d, a, b))) {
            return false;
        }
        if (orient(c, d, b) <= 0 || orient(d, c, a) <= 0) {
            return false;
        }
        triangleOf.remove(key(a, b));
        triangleOf.remove(key(b, a));
        triangles.set(t, new int[] {c, d, b});
        triangles.set(other, new int[] {d, c, a});
        index(t);
        index(other);
        return true;
    }

    /** Whether diagonal p-q rises to the right better than r-s. */
    private boolean better(int p, int q, int r, int s) {
        double px = x[q] - x[p];
        double py = y[q] - y[p];
        double rx = x[s] - x[r];
        double ry = y[s] - y[r];
        double p2 = px * px + py * py;
        double r2 = rx * rx + ry * ry;
        double rise = px * py * r2 - rx * ry * p2;
        if (Math.abs(rise) > 1e-12 * p2 * r2) {
            return rise > 0;
        }
        return px * px * r2 - rx * rx * p2 > 1e-12 * p2 * r2;
    }

    /** +1 where c lies left of a to b, -1 right, 0 on the line; exact. */
    private int orient(int a, int b, int c) {
        double left = (x[b] - x[a]) * (y[c] - y[a]);
        double right = (y[b] - y[a]) * (x[c] - x[a]);
        double det = left - right;
        // Bound of Shewchuk's first filter, rounded up (J. R. Shewchuk, 1997; from memory).
        if (Math.abs(det) > 4e-16 * (Math.abs(left) + Math.abs(right))) {
            return det > 0 ? 1 : -1;
        }
        return difference(x, b, a)
                .multiply(difference(y, c, a))
                .subtract(difference(y, b, a).multiply(difference(x, c, a)))
                .signum();
    }

    private static BigDecimal difference(double[] of, int a, int b) {
        return new BigDecimal(of[a]).subtract(new BigDecimal(of[b]));
    }

    /** +1 where d lies inside the circle through a, b, c (counter-clockwise), -1 outside, 0 on it; exact. */
    private int inCircle(int a, int b, int c, int d) {
        BigDecimal ax = difference(x, a, d);
        BigDecimal ay = difference(y, a, d);
        BigDecimal bx = difference(x, b, d);
        BigDecimal by = difference(y, b, d);
        BigDecimal cx = difference(x, c, d);
        BigDecimal cy = difference(y, c, d);
        BigDecimal a2 = ax.multiply(ax).add(ay.multiply(ay));
        BigDecimal b2 = bx.multiply(bx).add(by.multiply(by));
        BigDecimal c2 = cx.multiply(cx).add(cy.multiply(cy));
        return a2.multiply(bx.multiply(cy).subtract(by.multiply(cx)))
                .subtract(b2.multiply(ax.multiply(cy).subtract(ay.multiply(cx))))
                .add(c2.multiply(ax.multiply(by).subtract(ay.multiply(bx))))
                .signum();
    }
}
