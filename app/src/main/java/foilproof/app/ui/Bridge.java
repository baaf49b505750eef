package foilproof.app.ui;

import foilproof.copper.Piece;
import java.util.Arrays;
import java.util.PriorityQueue;

/** The widest way through one piece of copper between two places: distances to its edge on a grid, widest path. */
final class Bridge {
    private final double x0;
    private final double y0;
    private final double cell;
    private final int columns;
    private final int rows;
    private final float[] reach;

    Bridge(CopperAnswer copper, int piece, Piece p, double cell) {
        this.cell = cell;
        x0 = p.x0Mm() - cell;
        y0 = p.y0Mm() - cell;
        columns = (int) Math.ceil((p.x1Mm() - p.x0Mm()) / cell) + 3;
        rows = (int) Math.ceil((p.y1Mm() - p.y0Mm()) / cell) + 3;
        reach = new float[columns * rows];
        for (int j = 0; j < rows; j++) {
            for (int i = 0; i < columns; i++) {
                boolean in = copper.pieceAt(x0 + (i + 0.5) * cell, y0 + (j + 0.5) * cell) == piece;
                reach[j * columns + i] = in ? Float.MAX_VALUE : 0;
            }
        }
        sweep(1);
        sweep(-1);
    }

    /** One pass of the chamfer distance with exact steps of 1 and root 2. */
    private void sweep(int d) {
        for (int n = 0; n < rows * columns; n++) {
            int k = d > 0 ? n : rows * columns - 1 - n;
            int i = k % columns;
            int j = k / columns;
            if (i == 0 || j == 0 || i == columns - 1 || j == rows - 1) {
                reach[k] = 0;
                continue;
            }
            float best = reach[k];
            best = Math.min(best, reach[k - d] + 1);
            best = Math.min(best, reach[k - d * columns] + 1);
            best = Math.min(best, reach[k - d * columns - 1] + 1.41421f);
            best = Math.min(best, reach[k - d * columns + 1] + 1.41421f);
            reach[k] = best;
        }
    }

    private int at(double[] p) {
        int i = (int) ((p[0] - x0) / cell);
        int j = (int) ((p[1] - y0) / cell);
        return i < 0 || j < 0 || i >= columns || j >= rows ? 0 : j * columns + i;
    }

    /** Width of the narrowest place on the widest way, mm; NaN where there is no way on the grid. */
    double widest(double[] a, double[] b) {
        int start = at(a);
        int end = at(b);
        float[] best = new float[reach.length];
        Arrays.fill(best, -1);
        PriorityQueue<int[]> open =
                new PriorityQueue<>((p, q) -> Float.compare(Float.intBitsToFloat(q[1]), Float.intBitsToFloat(p[1])));
        // The places themselves may lie near an edge: only what lies between them counts.
        best[start] = Float.MAX_VALUE;
        open.add(new int[] {start, Float.floatToIntBits(Float.MAX_VALUE)});
        int[] steps = {1, -1, columns, -columns};
        while (!open.isEmpty()) {
            int[] top = open.remove();
            float w = Float.intBitsToFloat(top[1]);
            if (top[0] == end) {
                return w == Float.MAX_VALUE ? Double.NaN : (2 * w - 1) * cell;
            }
            if (w < best[top[0]]) {
                continue;
            }
            for (int s : steps) {
                int k = top[0] + s;
                if (k < 0 || k >= reach.length || reach[k] <= 0) {
                    continue;
                }
                boolean nearEnd = near(k, start) || near(k, end);
                float now = nearEnd ? w : Math.min(w, reach[k]);
                if (now > best[k]) {
                    best[k] = now;
                    open.add(new int[] {k, Float.floatToIntBits(now)});
                }
            }
        }
        return Double.NaN;
    }

    private boolean near(int k, int place) {
        int dx = k % columns - place % columns;
        int dy = k / columns - place / columns;
        float r = reach[place] + 1;
        return dx * dx + dy * dy <= r * r;
    }
}
