package foilproof.copper;

/**
 * Finds a saddle or a peak again on a grid eight times finer round it, asked from the cutters' shapes: the few places
 * that end a Z window are worth it, the many that do not are left as the cells have them.
 */
final class SaddleRefiner {
    private static final int FINER = 8;
    private static final int CELLS = 5;

    private SaddleRefiner() {}

    /** A limit at a saddle, more exactly; the same where no saddle of that height is found near it. */
    static ZLimit saddle(MarginField field, ZLimit limit) {
        if (Double.isInfinite(limit.eMm()) || limit.eMm() >= field.capMm() - 1e-6) {
            return limit;
        }
        Window window = new Window(field, limit.xMm(), limit.yMm());
        MergeTree tree = MergeTree.of(window, limit.eMm() - 8 * limit.errorMm());
        Saddles s = tree.saddles();
        int best = -1;
        double nearest = 2 * limit.errorMm();
        for (int k = 0; k < s.size; k++) {
            double off = Math.abs(s.height[k] - limit.eMm());
            if (off < nearest) {
                nearest = off;
                best = k;
            }
        }
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

    /** A limit at a peak, more exactly. */
    static ZLimit peak(MarginField field, ZLimit limit) {
        if (limit.eMm() >= field.capMm() - 1e-6) {
            return limit;
        }
        Window window = new Window(field, limit.xMm(), limit.yMm());
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

        Window(MarginField field, double xMm, double yMm) {
            this.field = field;
            cellMm = field.cellMm() / FINER;
            double reach = CELLS * field.cellMm();
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
