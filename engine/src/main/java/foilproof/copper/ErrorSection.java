package foilproof.copper;

/** How a strip's width across one line changes with the Z error of a run. */
final class ErrorSection {
    private final ToolRunField field;
    private final SectionMeter meter;
    private double error;

    ErrorSection(ToolRunField field) {
        this.field = field;
        meter = new SectionMeter(new AtError());
    }

    /**
     * The Z error at which copper on a line through a place becomes as narrow as a width.
     *
     * @param highest errors from this on are not in question
     * @return {@code highest} or more where it does not below it
     */
    double errorAtWidth(double x, double y, double ux, double uy, double reach, double width, double highest) {
        double low = -field.headroomMm();
        double high = highest;
        error = high;
        if (meter.copperMm(x, y, ux, uy, reach, 0) >= width - 1e-6) {
            return highest;
        }
        while (high - low > 2e-5) {
            error = 0.5 * (low + high);
            if (meter.copperMm(x, y, ux, uy, reach, 0) >= width - 1e-6) {
                low = error;
            } else {
                high = error;
            }
        }
        return 0.5 * (low + high);
    }

    /** The copper that is left at one error. */
    private final class AtError implements MarginField {
        @Override
        public double cellMm() {
            return field.cellMm();
        }

        @Override
        public int columns() {
            return field.columns();
        }

        @Override
        public int rows() {
            return field.rows();
        }

        @Override
        public double widthMm() {
            return field.widthMm();
        }

        @Override
        public double heightMm() {
            return field.heightMm();
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
            field.marginRow(row, into);
        }

        @Override
        public double exactMarginMm(double xMm, double yMm) {
            double own = field.exactMarginMm(xMm, yMm) - error;
            return field.hasOthers() ? Math.min(own, field.exactOthersMm(xMm, yMm)) : own;
        }

        @Override
        public double steepestSlope() {
            return field.steepestSlope();
        }
    }
}
