package foilproof.stock;

import java.util.function.IntConsumer;

/**
 * Integrals over a rectangle from the values at cell centres: cells count by the part of them inside the rectangle, and
 * squares between four centres that an upright wall crosses are put right by where the wall really stands, found by
 * halving with the exact shape. Rows are summed in bands of a fixed size, bands in order: the same for any number of
 * threads.
 */
final class GridSum {
    private static final int BAND = 64;
    private static final int HALVINGS = 13;

    private final Columns columns;
    private final double cellMm;
    private final double[] boxMm;
    private final int i0;
    private final int j0;
    private final int countX;
    private final int countY;

    GridSum(Columns columns, double cellMm, double[] boxMm) {
        this.columns = columns;
        this.cellMm = cellMm;
        this.boxMm = boxMm;
        i0 = (int) Math.floor(boxMm[0] / cellMm + 1e-9);
        j0 = (int) Math.floor(boxMm[1] / cellMm + 1e-9);
        countX = (int) Math.ceil(boxMm[2] / cellMm - 1e-9) - i0;
        countY = (int) Math.ceil(boxMm[3] / cellMm - 1e-9) - j0;
    }

    /** The integral of each quantity over the rectangle. */
    double[] sum(int threads) {
        int bands = (countY + BAND - 1) / BAND;
        double[][] parts = new double[bands][];
        Parallel.run(bands, threads, () -> new Worker(parts));
        double[] total = new double[columns.quantities()];
        for (double[] part : parts) {
            for (int q = 0; q < total.length; q++) {
                total[q] += part[q];
            }
        }
        return total;
    }

    private static double covered(int cell, double cellMm, double from, double to) {
        return Math.max(0, Math.min((cell + 1) * cellMm, to) - Math.max(cell * cellMm, from));
    }

    private final class Worker implements IntConsumer {
        private final double[][] parts;
        private float[] height = new float[countX];
        private float[] heightAbove = new float[countX];
        private float[][] values = new float[columns.quantities()][countX];
        private float[][] valuesAbove = new float[columns.quantities()][countX];
        private final float[] steps = new float[countX];
        private final boolean[] low = new boolean[4];
        private final double[] crossing = new double[4];
        private double level;

        Worker(double[][] parts) {
            this.parts = parts;
        }

        @Override
        public void accept(int band) {
            double[] sum = new double[columns.quantities()];
            int end = Math.min(countY, (band + 1) * BAND);
            columns.row(j0 + band * BAND, i0, countX, height, values);
            for (int j = band * BAND; j < end; j++) {
                double tall = covered(j0 + j, cellMm, boxMm[1], boxMm[3]);
                for (int q = 0; q < sum.length; q++) {
                    sum[q] += line(values[q]) * tall;
                }
                if (j + 1 < countY) {
                    columns.row(j0 + j + 1, i0, countX, heightAbove, valuesAbove);
                    if (columns.hasWalls()) {
                        walls(j, sum);
                    }
                    float[] h = height;
                    height = heightAbove;
                    heightAbove = h;
                    float[][] v = values;
                    values = valuesAbove;
                    valuesAbove = v;
                }
            }
            parts[band] = sum;
        }

        /** Four running sums, so that additions need not wait for one another; the outermost cells may be cut off. */
        private double line(float[] v) {
            double a = 0;
            double b = 0;
            double c = 0;
            double d = 0;
            int i = 0;
            for (; i + 3 < countX; i += 4) {
                a += v[i];
                b += v[i + 1];
                c += v[i + 2];
                d += v[i + 3];
            }
            for (; i < countX; i++) {
                a += v[i];
            }
            double cutOff = v[0] * (cellMm - covered(i0, cellMm, boxMm[0], boxMm[2]));
            if (countX > 1) {
                int last = countX - 1;
                cutOff += v[last] * (cellMm - covered(i0 + last, cellMm, boxMm[0], boxMm[2]));
            }
            return ((a + b) + (c + d)) * cellMm - cutOff;
        }

        private void walls(int j, double[] sum) {
            int row = Math.floorDiv(j0 + j, HeightTiles.TILE);
            int rowAbove = Math.floorDiv(j0 + j + 1, HeightTiles.TILE);
            int end = i0 + countX - 1;
            int from = i0;
            while (from < end) {
                int tile = Math.floorDiv(from, HeightTiles.TILE);
                int to = Math.min(end, (tile + 1) * HeightTiles.TILE);
                // The last square of a tile reaches into the next.
                if (columns.stepped(tile, row)
                        || columns.stepped(tile + 1, row)
                        || rowAbove != row
                                && (columns.stepped(tile, rowAbove) || columns.stepped(tile + 1, rowAbove))) {
                    walls(from - i0, to - i0, j, sum);
                }
                from = to;
            }
        }

        private void walls(int from, int to, int j, double[] sum) {
            spread(height, heightAbove, steps, from, to);
            for (int i = from; i < to; i++) {
                if (steps[i] > 0) {
                    float a = height[i];
                    float b = height[i + 1];
                    float c = heightAbove[i + 1];
                    float d = heightAbove[i];
                    float least = Math.min(Math.min(a, b), Math.min(c, d));
                    float most = Math.max(Math.max(a, b), Math.max(c, d));
                    if (columns.parted(least, most)) {
                        wall(i, j, new float[] {a, b, c, d}, sum);
                    }
                }
            }
        }

        /** Above 0 where the four corners of a square differ. */
        private static void spread(float[] h, float[] above, float[] into, int from, int to) {
            for (int i = from; i < to; i++) {
                into[i] = Math.abs(h[i] - h[i + 1]) + Math.abs(above[i] - above[i + 1]) + Math.abs(h[i] - above[i]);
            }
        }

        private void wall(int i, int j, float[] h, double[] sum) {
            double least = Math.min(Math.min(h[0], h[1]), Math.min(h[2], h[3]));
            double most = Math.max(Math.max(h[0], h[1]), Math.max(h[2], h[3]));
            level = columns.levelMm(least, most);
            int lows = 0;
            for (int k = 0; k < 4; k++) {
                low[k] = h[k] <= level;
                lows += low[k] ? 1 : 0;
            }
            if (lows == 0 || lows == 4) {
                return;
            }
            double x = (i0 + i + 0.5) * cellMm;
            double y = (j0 + j + 0.5) * cellMm;
            for (int k = 0; k < 4; k++) {
                if (low[k] != low[(k + 1) & 3]) {
                    float own = h[k];
                    float next = h[(k + 1) & 3];
                    crossing[k] = columns.upright(Math.min(own, next), Math.max(own, next))
                            ? crossing(x, y, k)
                            : (level - own) / (next - own);
                }
            }
            boolean saddle = lows == 2 && low[0] == low[2];
            boolean middleLow = saddle && columns.exactHeightMm(x + cellMm / 2, y + cellMm / 2) <= level;
            double part = QuadArea.lowArea(low, crossing, middleLow);
            for (int q = 0; q < sum.length; q++) {
                double[] v = {values[q][i], values[q][i + 1], valuesAbove[q][i + 1], valuesAbove[q][i]};
                double lowSum = 0;
                double highSum = 0;
                for (int k = 0; k < 4; k++) {
                    lowSum += low[k] ? v[k] : 0;
                    highSum += low[k] ? 0 : v[k];
                }
                double right = part * lowSum / lows + (1 - part) * highSum / (4 - lows);
                sum[q] += (right - (lowSum + highSum) / 4) * cellMm * cellMm;
            }
        }

        private double crossing(double x, double y, int k) {
            int next = (k + 1) & 3;
            double from = 0;
            double to = 1;
            for (int n = 0; n < HALVINGS; n++) {
                double middle = (from + to) / 2;
                double px = x + (QuadArea.X[k] + (QuadArea.X[next] - QuadArea.X[k]) * middle) * cellMm;
                double py = y + (QuadArea.Y[k] + (QuadArea.Y[next] - QuadArea.Y[k]) * middle) * cellMm;
                if (columns.reaches(px, py, level) == low[k]) {
                    from = middle;
                } else {
                    to = middle;
                }
            }
            return (from + to) / 2;
        }
    }
}
