package foilproof.stock;

/**
 * Areas of one side by marching squares: along sloping walls the boundary is interpolated between cells, along upright
 * walls its place comes from the exact shape. A strip narrower than a cell may be missed or broken.
 */
public final class Areas {
    private Areas() {}

    /**
     * Area of the blank that was cut to a depth or deeper, mm2; at the foil's thickness it is the cleared area.
     *
     * @param side the side
     * @param depthMm below the foil top before any cut (the surface as it lies)
     * @param threads how many threads; the result does not depend on it
     */
    public static double deeperThanMm2(ComposedSide side, double depthMm, int threads) {
        double[] box = {0, 0, side.blank().widthMm(), side.blank().heightMm()};
        return new GridSum(new Below(side, depthMm), side.cellMm(), box).sum(threads)[0];
    }

    /** Height above the level; the quantity is 1 below it. The crossing is looked for at 0. */
    private static final class Below implements Columns {
        private final ComposedSide side;
        private final double depthMm;
        private final float step;

        Below(ComposedSide side, double depthMm) {
            this.side = side;
            step = Removed.wallStep(side.layers(), side.cellMm());
            this.depthMm = depthMm;
        }

        @Override
        public int quantities() {
            return 1;
        }

        @Override
        public void row(int j, int i0, int count, float[] height, float[][] values) {
            double[] surface = new double[count];
            side.surfaceRow(j, i0, count, surface);
            side.cutRow(j, i0, count, height);
            for (int k = 0; k < count; k++) {
                height[k] = (float) (height[k] - (surface[k] - depthMm));
                values[0][k] = height[k] <= 0 ? 1 : 0;
            }
        }

        @Override
        public double exactHeightMm(double xMm, double yMm) {
            return side.exactCutMm(xMm, yMm) - (side.surfaceMm(xMm, yMm) - depthMm);
        }

        @Override
        public boolean varies(int tileX, int tileY) {
            return true;
        }

        @Override
        public boolean hasWalls() {
            return true;
        }

        @Override
        public boolean parted(float low, float high) {
            return low <= 0 && high > 0;
        }

        @Override
        public boolean upright(float low, float high) {
            return high - low > step;
        }

        @Override
        public double levelMm(double low, double high) {
            return 0;
        }
    }
}
