package foilproof.copper;

import java.util.stream.IntStream;

/** The vertices of a map's contours in square bins, with the direction into the copper at each. */
final class VertexIndex {
    private static final double BIN_MM = 0.05;
    private static final int BLOCK = 1 << 14;

    final Contours contours;
    final float[] normalX;
    final float[] normalY;
    final int[] loopOf;
    private final int binsX;
    private final int binsY;
    private final int[] binStart;
    private final int[] items;
    private final float[] binnedX;
    private final float[] binnedY;

    VertexIndex(CopperMap map) {
        contours = map.contours;
        int n = contours.x.length;
        binsX = (int) (map.field().widthMm() / BIN_MM) + 1;
        binsY = (int) (map.field().heightMm() / BIN_MM) + 1;
        binStart = new int[binsX * binsY + 1];
        items = new int[n];
        binnedX = new float[n];
        binnedY = new float[n];
        for (int k = 0; k < n; k++) {
            binStart[binOf(contours.x[k], contours.y[k]) + 1]++;
        }
        for (int b = 0; b < binsX * binsY; b++) {
            binStart[b + 1] += binStart[b];
        }
        int[] fill = java.util.Arrays.copyOf(binStart, binsX * binsY);
        for (int k = 0; k < n; k++) {
            int slot = fill[binOf(contours.x[k], contours.y[k])]++;
            items[slot] = k;
            // Floats hold 100 mm to 8 nm: enough to search with, and the search walks memory in order.
            binnedX[slot] = (float) contours.x[k];
            binnedY[slot] = (float) contours.y[k];
        }
        normalX = new float[n];
        normalY = new float[n];
        loopOf = new int[n];
        for (int l = 0; l < contours.loops(); l++) {
            java.util.Arrays.fill(loopOf, contours.loopStart[l], contours.loopStart[l + 1], l);
        }
        IntStream.range(0, (n + BLOCK - 1) / BLOCK).parallel().forEach(b -> {
            for (int k = b * BLOCK; k < Math.min(n, (b + 1) * BLOCK); k++) {
                setNormal(k);
            }
        });
    }

    private int binOf(double x, double y) {
        int bx = Math.max(0, Math.min(binsX - 1, (int) (x / BIN_MM)));
        int by = Math.max(0, Math.min(binsY - 1, (int) (y / BIN_MM)));
        return by * binsX + bx;
    }

    /** The vertex some steps on along the same loop, round its end. */
    int along(int vertex, int steps) {
        int from = contours.loopStart[loopOf[vertex]];
        int length = contours.loopStart[loopOf[vertex] + 1] - from;
        return from + Math.floorMod(vertex - from + steps, length);
    }

    /** Left of the chord between neighbours some cells away: copper lies left of the contour. */
    private void setNormal(int k) {
        int length = contours.loopStart[loopOf[k] + 1] - contours.loopStart[loopOf[k]];
        int reach = Math.max(1, Math.min(3, (length - 1) / 6));
        int a = along(k, -reach);
        int b = along(k, reach);
        double dx = contours.x[b] - contours.x[a];
        double dy = contours.y[b] - contours.y[a];
        double d = Math.sqrt(dx * dx + dy * dy);
        if (d > 0) {
            normalX[k] = (float) (-dy / d);
            normalY[k] = (float) (dx / d);
        }
    }

    /** Looks at vertices near a place. */
    interface Visitor {
        void vertex(int k, float x, float y);
    }

    /** Shows every vertex whose bin touches a box. */
    void visit(double x0, double y0, double x1, double y1, Visitor visitor) {
        int bx0 = Math.max(0, (int) StrictMath.floor(x0 / BIN_MM));
        int by0 = Math.max(0, (int) StrictMath.floor(y0 / BIN_MM));
        int bx1 = Math.min(binsX - 1, (int) StrictMath.floor(x1 / BIN_MM));
        int by1 = Math.min(binsY - 1, (int) StrictMath.floor(y1 / BIN_MM));
        for (int by = by0; by <= by1; by++) {
            for (int at = binStart[by * binsX + bx0]; bx0 <= bx1 && at < binStart[by * binsX + bx1 + 1]; at++) {
                visitor.vertex(items[at], binnedX[at], binnedY[at]);
            }
        }
    }

    /** Distance from a place to the contour next to a vertex (its two edges), mm. */
    double distanceToEdges(double x, double y, int vertex) {
        int before = along(vertex, -1);
        int after = along(vertex, 1);
        return Math.sqrt(Math.min(squared(x, y, before, vertex), squared(x, y, vertex, after)));
    }

    private double squared(double x, double y, int a, int b) {
        double dx = contours.x[b] - contours.x[a];
        double dy = contours.y[b] - contours.y[a];
        double l = dx * dx + dy * dy;
        double px = x - contours.x[a];
        double py = y - contours.y[a];
        double t = l == 0 ? 0 : Math.max(0, Math.min(1, (px * dx + py * dy) / l));
        double ex = px - t * dx;
        double ey = py - t * dy;
        return ex * ex + ey * ey;
    }
}
