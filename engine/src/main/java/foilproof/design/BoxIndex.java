package foilproof.design;

import java.util.Arrays;

/**
 * A grid over boxes: which boxes may hold a point. Boxes that cover many cells are kept in a list of their own,
 * so that memory stays in proportion to the number of boxes whatever their extents.
 */
final class BoxIndex {
    private static final int MOST_CELLS_A_BOX = 256;

    private final double x0;
    private final double y0;
    private final double cellX;
    private final double cellY;
    private final int columns;
    private final int rows;
    private final int[] start;
    private final int[] item;
    private final int[] large;

    /** Boxes as four arrays; a box with min above max is left out. */
    BoxIndex(double[] minX, double[] minY, double[] maxX, double[] maxY) {
        int n = minX.length;
        double loX = Double.POSITIVE_INFINITY;
        double loY = Double.POSITIVE_INFINITY;
        double hiX = Double.NEGATIVE_INFINITY;
        double hiY = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            if (minX[i] <= maxX[i]) {
                loX = Math.min(loX, minX[i]);
                loY = Math.min(loY, minY[i]);
                hiX = Math.max(hiX, maxX[i]);
                hiY = Math.max(hiY, maxY[i]);
            }
        }
        int side = (int) Math.max(1, Math.min(2048, Math.ceil(Math.sqrt(n))));
        columns = side;
        rows = side;
        x0 = loX;
        y0 = loY;
        cellX = Math.max(1e-9, (hiX - loX) / side);
        cellY = Math.max(1e-9, (hiY - loY) / side);
        start = new int[columns * rows + 1];
        boolean[] isLarge = new boolean[n];
        int largeCount = 0;
        for (int i = 0; i < n; i++) {
            if (!(minX[i] <= maxX[i])) {
                continue;
            }
            int c0 = column(minX[i]);
            int c1 = column(maxX[i]);
            int r0 = row(minY[i]);
            int r1 = row(maxY[i]);
            if ((long) (c1 - c0 + 1) * (r1 - r0 + 1) > MOST_CELLS_A_BOX) {
                isLarge[i] = true;
                largeCount++;
                continue;
            }
            for (int r = r0; r <= r1; r++) {
                for (int c = c0; c <= c1; c++) {
                    start[r * columns + c + 1]++;
                }
            }
        }
        for (int k = 0; k < columns * rows; k++) {
            start[k + 1] += start[k];
        }
        item = new int[start[columns * rows]];
        large = new int[largeCount];
        int[] fill = Arrays.copyOf(start, columns * rows);
        int l = 0;
        for (int i = 0; i < n; i++) {
            if (isLarge[i]) {
                large[l++] = i;
            } else if (minX[i] <= maxX[i]) {
                for (int r = row(minY[i]); r <= row(maxY[i]); r++) {
                    for (int c = column(minX[i]); c <= column(maxX[i]); c++) {
                        item[fill[r * columns + c]++] = i;
                    }
                }
            }
        }
    }

    private int column(double x) {
        return (int) Math.max(0, Math.min(columns - 1, (x - x0) / cellX));
    }

    private int row(double y) {
        return (int) Math.max(0, Math.min(rows - 1, (y - y0) / cellY));
    }

    /** Cell that holds a point, for {@link #from} and {@link #to}. */
    int cell(double x, double y) {
        return row(y) * columns + column(x);
    }

    /** First position of a cell's items, which ascend. */
    int from(int cell) {
        return start[cell];
    }

    /** One past the last position of a cell's items. */
    int to(int cell) {
        return start[cell + 1];
    }

    /** Box at a position. */
    int item(int position) {
        return item[position];
    }

    /** Boxes kept apart because they cover many cells, ascending. */
    int[] large() {
        return large;
    }

    int columnOf(double x) {
        return column(x);
    }

    int rowOf(double y) {
        return row(y);
    }

    int columns() {
        return columns;
    }
}
