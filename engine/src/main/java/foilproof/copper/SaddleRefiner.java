package foilproof.copper;

import foilproof.geom.DisjointSets;

/**
 * Finds a saddle or a peak again on a grid eight times finer round it, asked from the cutters' shapes: the few places
 * that end a Z window are worth it, the many that do not are left as the cells have them.
 */
final class SaddleRefiner {
    private static final int FINER = 8;
    private static final int CELLS = 5;
    /** Room for a neck between two round groove ends, and a little copper on both sides of it. */
    private static final int NECK_CELLS = 10;

    private SaddleRefiner() {}

    /** How much higher than the cells have it a saddle may be: half a cell of the steepest wall, mm. */
    static double roomMm(MarginField field) {
        return 0.55 * field.cellMm() * field.steepestSlope();
    }

    /**
     * A limit at a saddle, more exactly; the same where no saddle of about that height is found near it. A ridge that is
     * narrower than a cell all the way up from the floors beside it is seen too low: where no saddle that parts more
     * than ripples has the height that the cells have, the nearest higher one counts.
     */
    static ZLimit saddle(MarginField field, ZLimit limit) {
        if (Double.isInfinite(limit.eMm()) || limit.eMm() >= field.capMm() - 1e-6) {
            return limit;
        }
        Window window = new Window(field, limit.xMm(), limit.yMm(), CELLS);
        MergeTree tree = MergeTree.of(window, limit.eMm() - 8 * limit.errorMm());
        Saddles s = tree.saddles();
        double ripple = 2 * finerError(window);
        DisjointSets sets = new DisjointSets(tree.peaks());
        float[] top = new float[tree.peaks()];
        for (int k = 0; k < top.length; k++) {
            top[k] = tree.peakMm(k);
        }
        int best = -1;
        // at the blank's edge the cells end half a cell before it, and so do the pieces that they make
        double edge = Math.min(
                Math.min(limit.xMm(), field.widthMm() - limit.xMm()),
                Math.min(limit.yMm(), field.heightMm() - limit.yMm()));
        double nearest = edge < 1.5 * field.cellMm() ? 0 : Double.POSITIVE_INFINITY;
        int same = -1;
        int level = -1;
        for (int k = 0; k < s.size; k++) {
            int a = sets.find(s.a[k]);
            int b = sets.find(s.b[k]);
            double over = Math.min(top[a], top[b]) - s.height[k];
            float high = Math.max(top[a], top[b]);
            sets.union(a, b);
            top[sets.find(a)] = high;
            double up = s.height[k] - limit.eMm();
            double away = StrictMath.hypot(
                    window.x0 + tree.xOf(s.cell[k]) - limit.xMm(), window.y0 + tree.yOf(s.cell[k]) - limit.yMm());
            if (over > ripple && up >= 2 * limit.errorMm() && up < roomMm(field) && away < nearest) {
                nearest = away;
                best = k;
            }
            if (Math.abs(up) < 2 * limit.errorMm()) {
                same = over > ripple ? nearer(s, limit, same, k) : same;
                level = nearer(s, limit, level, k);
            }
        }
        best = same >= 0 ? same : best >= 0 ? best : level;
        return best < 0
                ? limit
                : new ZLimit(
                        limit.kind(),
                        s.height[best],
                        finerError(window),
                        window.x0 + tree.xOf(s.cell[best]),
                        window.y0 + tree.yOf(s.cell[best]),
                        limit.program(),
                        limit.line());
    }

    private static int nearer(Saddles s, ZLimit limit, int have, int k) {
        return have < 0 || Math.abs(s.height[k] - limit.eMm()) < Math.abs(s.height[have] - limit.eMm()) ? k : have;
    }

    /** A limit at a peak, more exactly. */
    static ZLimit peak(MarginField field, ZLimit limit) {
        if (limit.eMm() >= field.capMm() - 1e-6) {
            return limit;
        }
        Window window = new Window(field, limit.xMm(), limit.yMm(), CELLS);
        MergeTree tree = MergeTree.of(window, limit.eMm() - 8 * limit.errorMm());
        int best = -1;
        for (int k = 0; k < tree.peaks(); k++) {
            boolean near = Math.abs(tree.peakMm(k) - limit.eMm()) <= 2 * limit.errorMm();
            if (near && (best < 0 || tree.peakMm(k) > tree.peakMm(best))) {
                best = k;
            }
        }
        return best < 0
                ? limit
                : new ZLimit(
                        limit.kind(),
                        tree.peakMm(best),
                        finerError(window),
                        window.x0 + (tree.peakColumn(best) + 0.5) * window.cellMm(),
                        window.y0 + (tree.peakRow(best) + 0.5) * window.cellMm(),
                        limit.program(),
                        limit.line());
    }

    /**
     * Whether copper above a level joins two places near a third, on the finer grid.
     *
     * @param pointsMm the two places: x, y, x, y
     */
    static boolean joins(MarginField field, double levelMm, double xMm, double yMm, double[] pointsMm) {
        Window window = new Window(field, xMm, yMm, NECK_CELLS);
        double[] inside = new double[4];
        for (int k = 0; k < 4; k++) {
            inside[k] = pointsMm[k] - (k % 2 == 0 ? window.x0 : window.y0);
        }
        return Bottleneck.between(MergeTree.of(window, levelMm, inside), 0, 1) > levelMm;
    }

    private static double finerError(MarginField window) {
        return Math.max(0.0005, 0.1 * window.cellMm() * window.steepestSlope());
    }

    /** A small part of a field, asked exactly on a finer grid. */
    private static final class Window implements ToolRunField {
        private final MarginField field;
        private final double cellMm;
        private final double x0;
        private final double y0;
        private final int columns;
        private final int rows;

        Window(MarginField field, double xMm, double yMm, int cells) {
            this.field = field;
            cellMm = field.cellMm() / FINER;
            double reach = cells * field.cellMm();
            x0 = Math.max(0, xMm - reach);
            y0 = Math.max(0, yMm - reach);
            columns = Math.max(1, (int) ((Math.min(field.widthMm(), xMm + reach) - x0) / cellMm));
            rows = Math.max(1, (int) ((Math.min(field.heightMm(), yMm + reach) - y0) / cellMm));
        }

        @Override
        public double cellMm() {
            return cellMm;
        }

        @Override
        public int columns() {
            return columns;
        }

        @Override
        public int rows() {
            return rows;
        }

        @Override
        public double widthMm() {
            return columns * cellMm;
        }

        @Override
        public double heightMm() {
            return rows * cellMm;
        }

        @Override
        public double foilMm() {
            return field.foilMm();
        }

        @Override
        public double capMm() {
            return field.capMm();
        }

        @Override
        public void marginRow(int row, float[] into) {
            for (int i = 0; i < columns; i++) {
                into[i] = (float) field.exactMarginMm(x0 + (i + 0.5) * cellMm, y0 + (row + 0.5) * cellMm);
            }
        }

        @Override
        public double exactMarginMm(double xMm, double yMm) {
            return field.exactMarginMm(x0 + xMm, y0 + yMm);
        }

        @Override
        public double steepestSlope() {
            return field.steepestSlope();
        }

        @Override
        public boolean hasOthers() {
            return field instanceof ToolRunField && ((ToolRunField) field).hasOthers();
        }

        @Override
        public void othersRow(int row, float[] into) {
            for (int i = 0; i < columns; i++) {
                into[i] = (float) exactOthersMm((i + 0.5) * cellMm, (row + 0.5) * cellMm);
            }
        }

        @Override
        public double exactOthersMm(double xMm, double yMm) {
            return field instanceof ToolRunField
                    ? ((ToolRunField) field).exactOthersMm(x0 + xMm, y0 + yMm)
                    : field.capMm();
        }

        @Override
        public double headroomMm() {
            return field.capMm() - field.foilMm();
        }

        @Override
        public ToolRunField flattened() {
            return this;
        }
    }
}
