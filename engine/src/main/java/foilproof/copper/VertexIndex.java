package foilproof.copper;

import foilproof.stock.Parallel;

/** The vertices of a map's contours in square bins, with the direction into the copper at each. */
final class VertexIndex {
    private static final double BIN_MM = 0.05;
    private static final int BLOCK = 1 << 14;

    final Contours contours;
    final float[] normalX;
    final float[] normalY;
    final int[] loopOf;
    private final byte[] roundHole;
    private final CopperMap map;
    private final int binsX;
    private final int binsY;
    private final int[] binStart;
    private final int[] items;
    private final float[] binnedX;
    private final float[] binnedY;

    VertexIndex(CopperMap map) {
        this.map = map;
        contours = map.contours;
        roundHole = new byte[contours.loops()];
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
        Parallel.run((n + BLOCK - 1) / BLOCK, map.field().threads(), () -> b -> {
            for (int k = b * BLOCK; k < Math.min(n, (b + 1) * BLOCK); k++) {
                setNormal(k);
            }
        });
    }

    int threads() {
        return map.field().threads();
    }

    private int binOf(double x, double y) {
        int bx = Math.max(0, Math.min(binsX - 1, (int) (x / BIN_MM)));
        int by = Math.max(0, Math.min(binsY - 1, (int) (y / BIN_MM)));
        return by * binsX + bx;
    }

    /**
     * Whether a vertex lies on the edge of a round hole in copper, with nothing in it: a bore or a drilled hole. The ring
     * beside it is judged as a ring, not as a strip.
     */
    synchronized boolean onRoundHole(int vertex) {
        int loop = loopOf[vertex];
        if (roundHole[loop] == 0) {
            roundHole[loop] = (byte) (isRoundHole(loop) ? 1 : 2);
        }
        return roundHole[loop] == 1;
    }

    private boolean isRoundHole(int loop) {
        int from = contours.loopStart[loop];
        int to = contours.loopStart[loop + 1];
        double x0 = Double.MAX_VALUE;
        double y0 = Double.MAX_VALUE;
        double x1 = -Double.MAX_VALUE;
        double y1 = -Double.MAX_VALUE;
        double twice = 0;
        for (int k = from; k < to; k++) {
            int n = k + 1 == to ? from : k + 1;
            x0 = Math.min(x0, contours.x[k]);
            x1 = Math.max(x1, contours.x[k]);
            y0 = Math.min(y0, contours.y[k]);
            y1 = Math.max(y1, contours.y[k]);
            twice += (contours.x[k] - contours.x[from]) * (contours.y[n] - contours.y[from])
                    - (contours.x[n] - contours.x[from]) * (contours.y[k] - contours.y[from]);
        }
        double w = x1 - x0;
        double h = y1 - y0;
        boolean round = twice < 0
                && Math.abs(w - h) < 0.05 * Math.max(w, h)
                && Math.abs(-0.5 * twice / (w * h) - 0.25 * StrictMath.PI) < 0.03;
        for (int k = 0; round && k < 8; k++) {
            // From the middle outward nothing may stand: an isolation groove round a land is round too.
            double r = 0.5 * w * k / 8;
            round = map.componentAt(0.5 * (x0 + x1) + r, 0.5 * (y0 + y1)) < 0
                    && map.componentAt(0.5 * (x0 + x1), 0.5 * (y0 + y1) - r) < 0;
        }
        return round;
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
