package foilproof.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Drawn edges fitted to milled edges: at points of the drawn copper's edge the milled copper's end is looked for along
 * the edge's normal, and the shift that explains the distances is found by least squares, together with one width that
 * all copper may be larger or smaller by (grooves run beside the drawn edge, walls slope).
 *
 * @param dxMm shift of the milled board against the design, X, mm
 * @param dyMm the same for Y, mm
 * @param growthMm how much farther out the milled edges lie everywhere, mm
 * @param share share of the asked points at which a milled edge was found near enough and that the fit explains
 * @param rmsMm root mean square of what the fit does not explain, mm
 */
public record EdgeFit(double dxMm, double dyMm, double growthMm, double share, double rmsMm) {
    /** How far along the normal the milled edge is looked for, mm. */
    public static final double REACH_MM = 0.35;

    private static final double EDGE_MM = 0.05;
    private static final double STEP_MM = 0.025;
    private static final int POINTS = 2400;
    private static final int LEAST_POINTS = 40;

    /**
     * Fits, beginning at a shift.
     *
     * @param layer the drawn copper in the blank's frame of the side as declared
     * @param milled the milled copper in the same frame
     * @param blank the blank in the same frame: where it ends, copper ends, and no cutter made that edge
     * @param startXMm where to begin, mm
     * @param startYMm where to begin, mm
     * @return null where hardly any edge is found, or the edges found say nothing of X or Y
     */
    public static @Nullable EdgeFit fit(
            LayerImage layer, CopperProbe milled, Bounds blank, double startXMm, double startYMm) {
        List<double[]> edges = edges(layer);
        List<double[]> found = new ArrayList<>();
        CopperProbe onward = (x, y) -> !blank.holds(x, y) || milled.copperAt(x, y);
        int asked = 0;
        for (double[] e : edges) {
            double x = e[0] + startXMm;
            double y = e[1] + startYMm;
            double d = milledMm(onward, x, y, e[2], e[3]);
            if (!Double.isNaN(d)) {
                found.add(new double[] {e[2], e[3], d});
            }
            // an edge that the blank ends before needs none
            asked += !Double.isNaN(d) || blank.holds(x + REACH_MM * e[2], y + REACH_MM * e[3]) ? 1 : 0;
        }
        if (found.size() < LEAST_POINTS) {
            return null;
        }
        double[] solved = {0, 0, 0};
        List<double[]> kept = found;
        for (int round = 0; round < 6; round++) {
            double[] next = solve(kept);
            if (next == null) {
                return null;
            }
            solved = next;
            double[] off = new double[found.size()];
            for (int i = 0; i < off.length; i++) {
                off[i] = Math.abs(residual(found.get(i), solved));
            }
            double[] sorted = off.clone();
            Arrays.sort(sorted);
            double limit = Math.max(0.02, 2.5 * sorted[sorted.length / 2]);
            kept = new ArrayList<>();
            for (int i = 0; i < off.length; i++) {
                if (off[i] <= limit) {
                    kept.add(found.get(i));
                }
            }
        }
        double sum = 0;
        for (double[] f : kept) {
            double r = residual(f, solved);
            sum += r * r;
        }
        return new EdgeFit(
                startXMm + solved[0],
                startYMm + solved[1],
                solved[2],
                (double) kept.size() / Math.max(1, asked),
                Math.sqrt(sum / Math.max(1, kept.size())));
    }

    private static double residual(double[] f, double[] s) {
        return f[2] - f[0] * s[0] - f[1] * s[1] - s[2];
    }

    /** Normal equations of distance = nx dx + ny dy + growth, by Cramer's rule; null where singular. */
    private static double @Nullable [] solve(List<double[]> points) {
        double[][] a = new double[3][3];
        double[] b = new double[3];
        for (double[] f : points) {
            double[] row = {f[0], f[1], 1};
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 3; j++) {
                    a[i][j] += row[i] * row[j];
                }
                b[i] += row[i] * f[2];
            }
        }
        double n = points.size();
        double det = det(a);
        if (n < LEAST_POINTS || det < 1e-3 * n * n * n) {
            return null;
        }
        double[] x = new double[3];
        for (int k = 0; k < 3; k++) {
            double[][] m = {a[0].clone(), a[1].clone(), a[2].clone()};
            for (int i = 0; i < 3; i++) {
                m[i][k] = b[i];
            }
            x[k] = det(m) / det;
        }
        return x;
    }

    private static double det(double[][] m) {
        return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
                - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
                + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    }

    /** Distance along the outward normal at which milled copper ends, the nearest such place; NaN where none is near. */
    private static double milledMm(CopperProbe milled, double x, double y, double nx, double ny) {
        double best = Double.NaN;
        boolean before = milled.copperAt(x - REACH_MM * nx, y - REACH_MM * ny);
        int steps = (int) Math.round(2 * REACH_MM / STEP_MM);
        for (int k = 1; k <= steps; k++) {
            double t = -REACH_MM + k * STEP_MM;
            boolean here = milled.copperAt(x + t * nx, y + t * ny);
            if (before && !here && (Double.isNaN(best) || Math.abs(t) < Math.abs(best))) {
                double low = t - STEP_MM;
                double high = t;
                for (int h = 0; h < 6; h++) {
                    double mid = (low + high) / 2;
                    if (milled.copperAt(x + mid * nx, y + mid * ny)) {
                        low = mid;
                    } else {
                        high = mid;
                    }
                }
                best = (low + high) / 2;
            }
            before = here;
        }
        return best;
    }

    /** Points of the drawn edge with its outward normal: x, y, nx, ny. */
    private static List<double[]> edges(LayerImage layer) {
        Bounds box = layer.bounds().grown(6 * EDGE_MM);
        List<double[]> all = new ArrayList<>();
        if (box.isEmpty()) {
            return all;
        }
        double cell = Math.max(EDGE_MM, Math.sqrt(box.widthMm() * box.heightMm() / 1.6e7));
        RasterGrid grid = RasterGrid.over(box, cell);
        BitSet copper = layer.rasterise(grid);
        BitSet ground = DividingGround.of(grid, copper);
        List<int[]> cells = new ArrayList<>();
        for (int r = 4; r + 4 < grid.rows(); r++) {
            for (int c = 4; c + 4 < grid.columns(); c++) {
                if (copper.get(grid.index(c, r))
                        && (ground.get(grid.index(c + 1, r))
                                || ground.get(grid.index(c - 1, r))
                                || ground.get(grid.index(c, r + 1))
                                || ground.get(grid.index(c, r - 1)))) {
                    cells.add(new int[] {c, r});
                }
            }
        }
        int stride = Math.max(1, cells.size() / POINTS);
        for (int i = 0; i < cells.size(); i += stride) {
            int[] at = cells.get(i);
            double gx = 0;
            double gy = 0;
            for (int v = -3; v <= 3; v++) {
                for (int u = -3; u <= 3; u++) {
                    if (u * u + v * v <= 10 && copper.get(grid.index(at[0] + u, at[1] + v))) {
                        gx -= u;
                        gy -= v;
                    }
                }
            }
            double g = StrictMath.hypot(gx, gy);
            if (g < 6) {
                continue;
            }
            double[] p = onEdge(layer, grid.centreXMm(at[0]), grid.centreYMm(at[1]), gx / g, gy / g, 2 * cell);
            if (p.length > 0) {
                all.add(p);
            }
        }
        return all;
    }

    private static double[] onEdge(LayerImage layer, double x, double y, double nx, double ny, double reach) {
        if (!layer.covers(x - reach * nx, y - reach * ny) || layer.covers(x + reach * nx, y + reach * ny)) {
            return new double[0];
        }
        double low = -reach;
        double high = reach;
        for (int k = 0; k < 10; k++) {
            double mid = (low + high) / 2;
            if (layer.covers(x + mid * nx, y + mid * ny)) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return new double[] {x + low * nx, y + low * ny, nx, ny};
    }
}
