package foilproof.stock;

import java.util.Arrays;
import java.util.List;

/**
 * Volumes that a job removed, mm3. Foil and substrate are what the finished blank lacks; spoil board is what the cutters
 * took below its top, side by side, where they went no farther beyond the blank than the swept domain.
 *
 * @param foilMm3 copper, both faces
 * @param substrateMm3 what lies between the foils, or below the one
 * @param spoilBoardMm3 spoil board; what two sides cut at one place counts for each
 */
public record Removed(double foilMm3, double substrateMm3, double spoilBoardMm3) {
    /**
     * Measures a finished board.
     *
     * @param threads how many threads; the result does not depend on it
     */
    public static Removed of(ComposedBoard board, int threads) {
        BlankBody blank = board.stock().blank();
        double[] box = {0, 0, blank.widthMm(), blank.heightMm()};
        double[] solid = new GridSum(new BlankColumns(board), board.side(1).cellMm(), box).sum(threads);
        double spoil = 0;
        for (SideStock side : board.stock().sides()) {
            spoil += spoilBoard(board, side, threads);
        }
        return new Removed(solid[0], solid[1], spoil);
    }

    private static double spoilBoard(ComposedBoard board, SideStock side, int threads) {
        ComposedSide alone = board.alone(side.number());
        double lowest = Double.POSITIVE_INFINITY;
        double[] box = null;
        for (int run : alone.runs()) {
            Envelope envelope = alone.envelope(run);
            lowest = Math.min(lowest, envelope.path().lowestMm() + alone.shiftMm(run));
            box = envelope.settings().domainMm();
        }
        if (box == null || lowest >= alone.spoilBoardMm()) {
            return 0;
        }
        return new GridSum(new SpoilColumns(alone, box), alone.cellMm(), box).sum(threads)[0];
    }

    /** Jumps that no sloping wall explains, and no less than a slope of 1: the rest is summed as it is. */
    static float wallStep(List<Layer> layers, double cellMm) {
        double slope = 1;
        for (Layer layer : layers) {
            slope = Math.max(slope, 1.5 * layer.envelope().steepestConeSlope());
        }
        return (float) (slope * cellMm);
    }

    /** Foil and substrate that a column of the blank lacks. */
    private static final class BlankColumns implements Columns {
        private final ComposedBoard board;
        private final ComposedSide side;
        private final boolean far;
        private final float step;
        private final boolean walls;
        private final TileMarks steps;
        private final TileMarks marks;

        BlankColumns(ComposedBoard board) {
            this.board = board;
            side = board.side(1);
            far = board.cutFromFarSide(1);
            step = wallStep(board.allLayers(), side.cellMm());
            walls = board.allLayers().stream().anyMatch(Layer::hasUprightWall);
            double[] box = {
                0, 0, board.stock().blank().widthMm(), board.stock().blank().heightMm()
            };
            steps = new TileMarks(
                    side.cellMm(),
                    box,
                    (x, y) -> !side.isFlat() || side.steppedIn(x, y) || far && board.farTouches(1, x, y));
            marks = new TileMarks(
                    side.cellMm(),
                    box,
                    (x, y) -> !side.isFlat() || side.touches(x, y) || far && board.farTouches(1, x, y));
        }

        @Override
        public int quantities() {
            return 2;
        }

        @Override
        public void row(int j, int i0, int count, float[] height, float[][] values) {
            if (far && side.isFlat()) {
                marks.row(j, i0, count, (from, n, at, touched) -> {
                    if (touched || n < 2) {
                        farStretch(j, from, n, at, height, values);
                    } else {
                        // all alike: one column stands for them
                        farStretch(j, from, 1, at, height, values);
                        Arrays.fill(height, at + 1, at + n, height[at]);
                        Arrays.fill(values[0], at + 1, at + n, values[0][at]);
                        Arrays.fill(values[1], at + 1, at + n, values[1][at]);
                    }
                });
            } else if (far) {
                farStretch(j, i0, count, 0, height, values);
            } else if (side.isFlat()) {
                marks.row(j, i0, count, (from, n, at, touched) -> {
                    if (touched) {
                        flat(j, from, n, at, height, values);
                    } else {
                        Arrays.fill(height, at, at + n, 0f);
                        Arrays.fill(values[0], at, at + n, 0f);
                        Arrays.fill(values[1], at, at + n, 0f);
                    }
                });
            } else {
                side.heightRow(j, i0, count, height);
                double[] surface = new double[count];
                side.surfaceRow(j, i0, count, surface);
                for (int k = 0; k < count; k++) {
                    take(height[k], side.undersideMm(), surface[k], k, values);
                }
            }
        }

        private void flat(int j, int i0, int count, int at, float[] height, float[][] values) {
            side.cutRow(j, i0, count, height, at);
            for (int k = at; k < at + count; k++) {
                height[k] = Math.min(height[k], 0f);
            }
            float foil = (float) side.foilMm();
            float core = (float) (-side.undersideMm() - side.foilMm());
            between(height, values[0], at, count, 0f, foil);
            between(height, values[1], at, count, foil, core);
        }

        @Override
        public boolean varies(int tileX, int tileY) {
            return marks.at(tileX, tileY);
        }

        @Override
        public boolean stepped(int tileX, int tileY) {
            return steps.at(tileX, tileY);
        }

        /** How much of a band from {@code from} below the foil top, {@code most} thick, is gone. */
        private static void between(float[] height, float[] into, int at, int count, float from, float most) {
            for (int k = at; k < at + count; k++) {
                into[k] = Math.min(Math.max(-height[k] - from, 0f), most);
            }
        }

        /** Walls are looked for in the solid that is left: the top less what the far side took. */
        private void farStretch(int j, int i0, int count, int at, float[] height, float[][] values) {
            float[] own = new float[count];
            float[] farCut = new float[count];
            double[] surface = new double[count];
            side.heightRow(j, i0, count, own);
            side.surfaceRow(j, i0, count, surface);
            board.farCutRow(1, j, i0, count, farCut);
            for (int k = 0; k < count; k++) {
                take(own[k], farCut[k], surface[k], at + k, values);
                height[at + k] = Math.max(0, own[k] - farCut[k]);
            }
        }

        private void take(double top, double under, double surface, int k, float[][] values) {
            double foil = side.foilMm();
            double underside = side.undersideMm();
            double farFoil = board.stock().blank().bothSides() ? foil : 0;
            double foilLeft =
                    common(under, top, surface - foil, surface) + common(under, top, underside, underside + farFoil);
            double coreLeft = common(under, top, underside + farFoil, surface - foil);
            values[0][k] = (float) (foil + farFoil - foilLeft);
            values[1][k] = (float) (surface - foil - underside - farFoil - coreLeft);
        }

        private static double common(double a0, double a1, double b0, double b1) {
            return Math.max(0, Math.min(a1, b1) - Math.max(a0, b0));
        }

        @Override
        public double exactHeightMm(double xMm, double yMm) {
            double farMm = far ? board.exactFarCutMm(1, xMm, yMm) : side.undersideMm();
            double top = side.exactHeightMm(xMm, yMm);
            return far ? Math.max(0, top - farMm) : top;
        }

        @Override
        public boolean reaches(double xMm, double yMm, double levelMm) {
            return far
                    ? exactHeightMm(xMm, yMm) <= levelMm
                    : side.surfaceMm(xMm, yMm) <= levelMm || side.cutReaches(xMm, yMm, levelMm);
        }

        @Override
        public boolean hasWalls() {
            return walls;
        }

        @Override
        public boolean parted(float low, float high) {
            return high - low > step;
        }

        @Override
        public boolean upright(float low, float high) {
            return parted(low, high);
        }

        @Override
        public double levelMm(double low, double high) {
            return (low + high) / 2;
        }
    }

    /** Spoil board below its top that a column lacks. */
    private static final class SpoilColumns implements Columns {
        private final ComposedSide side;
        private final float step;
        private final boolean walls;

        private final TileMarks marks;

        SpoilColumns(ComposedSide side, double[] boxMm) {
            this.side = side;
            marks = new TileMarks(side.cellMm(), boxMm, (x, y) -> side.touchesBelow(x, y, side.spoilBoardMm()));
            step = wallStep(side.layers(), side.cellMm());
            walls = side.hasUprightWalls();
        }

        @Override
        public int quantities() {
            return 1;
        }

        @Override
        public void row(int j, int i0, int count, float[] height, float[][] values) {
            float spoil = (float) side.spoilBoardMm();
            marks.row(j, i0, count, (from, n, at, touched) -> {
                if (touched) {
                    side.cutRow(j, from, n, height, at);
                    for (int k = at; k < at + n; k++) {
                        height[k] = Math.min(height[k], spoil);
                        values[0][k] = spoil - height[k];
                    }
                } else {
                    Arrays.fill(height, at, at + n, spoil);
                    Arrays.fill(values[0], at, at + n, 0f);
                }
            });
        }

        @Override
        public boolean varies(int tileX, int tileY) {
            return marks.at(tileX, tileY);
        }

        @Override
        public double exactHeightMm(double xMm, double yMm) {
            return Math.min(side.exactCutMm(xMm, yMm), side.spoilBoardMm());
        }

        @Override
        public boolean reaches(double xMm, double yMm, double levelMm) {
            return side.spoilBoardMm() <= levelMm || side.cutReaches(xMm, yMm, levelMm);
        }

        @Override
        public boolean hasWalls() {
            return walls;
        }

        @Override
        public boolean parted(float low, float high) {
            return high - low > step;
        }

        @Override
        public boolean upright(float low, float high) {
            return parted(low, high);
        }

        @Override
        public double levelMm(double low, double high) {
            return (low + high) / 2;
        }
    }
}
