package foilproof.stock;

/** Area of the low part of a unit square whose corners are low or high and whose edges say where they cross. */
final class QuadArea {
    /** Corners counter-clockwise from the lower left. */
    static final int[] X = {0, 1, 1, 0};

    static final int[] Y = {0, 0, 1, 1};

    private QuadArea() {}

    /**
     * Area of the low part, 0 to 1: the polygon through low corners and crossings. Where two low corners lie across, the
     * middle decides whether they are joined.
     *
     * @param low for each corner whether it is low
     * @param crossing for each edge from corner k to k + 1 where it crosses, 0 at k; read only where its ends differ
     * @param middleLow whether the middle of the square is low
     */
    static double lowArea(boolean[] low, double[] crossing, boolean middleLow) {
        boolean saddle = low[0] == low[2] && low[1] == low[3] && low[0] != low[1];
        if (saddle && !middleLow) {
            boolean[] high = {!low[0], !low[1], !low[2], !low[3]};
            return 1 - polygon(high, crossing);
        }
        return polygon(low, crossing);
    }

    private static double polygon(boolean[] in, double[] crossing) {
        double area = 0;
        double firstX = 0;
        double firstY = 0;
        double lastX = 0;
        double lastY = 0;
        boolean any = false;
        for (int k = 0; k < 4; k++) {
            int next = (k + 1) & 3;
            for (int part = 0; part < 2; part++) {
                if (part == 0 ? !in[k] : in[k] == in[next]) {
                    continue;
                }
                double f = part == 0 ? 0 : crossing[k];
                double x = X[k] + (X[next] - X[k]) * f;
                double y = Y[k] + (Y[next] - Y[k]) * f;
                if (any) {
                    area += lastX * y - x * lastY;
                } else {
                    firstX = x;
                    firstY = y;
                    any = true;
                }
                lastX = x;
                lastY = y;
            }
        }
        area += lastX * firstY - firstX * lastY;
        return area / 2;
    }
}
