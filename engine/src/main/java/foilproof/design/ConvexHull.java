package foilproof.design;

import java.util.Arrays;

/** Convex hull of a few points (monotone chain; A. M. Andrew, Information Processing Letters 9, 1979). */
final class ConvexHull {
    private ConvexHull() {}

    /** Corners of the hull, counter-clockwise, as x, y pairs. */
    static double[] of(double[] points) {
        int n = points.length / 2;
        double[][] p = new double[n][];
        for (int i = 0; i < n; i++) {
            p[i] = new double[] {points[2 * i], points[2 * i + 1]};
        }
        Arrays.sort(p, (a, b) -> a[0] != b[0] ? Double.compare(a[0], b[0]) : Double.compare(a[1], b[1]));
        double[][] hull = new double[2 * n + 1][];
        int k = 0;
        for (int i = 0; i < n; i++) {
            k = drop(hull, k, 2, p[i]);
            hull[k++] = p[i];
        }
        int lower = k + 1;
        for (int i = n - 2; i >= 0; i--) {
            k = drop(hull, k, lower, p[i]);
            hull[k++] = p[i];
        }
        int size = Math.max(1, k - 1);
        double[] out = new double[2 * size];
        for (int i = 0; i < size; i++) {
            out[2 * i] = hull[i][0];
            out[2 * i + 1] = hull[i][1];
        }
        return out;
    }

    private static int drop(double[][] hull, int size, int least, double[] next) {
        int k = size;
        while (k >= least
                && (hull[k - 1][0] - hull[k - 2][0]) * (next[1] - hull[k - 2][1])
                                - (hull[k - 1][1] - hull[k - 2][1]) * (next[0] - hull[k - 2][0])
                        <= 0) {
            k--;
        }
        return k;
    }
}
