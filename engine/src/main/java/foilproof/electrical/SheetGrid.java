package foilproof.electrical;

import foilproof.design.Bounds;
import foilproof.design.CopperProbe;

/**
 * Copper cut into square cells for a resistance or a width: which part of every cell face is copper. Faces are found by
 * asking the copper at the cell corners and halving where two corners differ, so that a wall lies where it is and not
 * at the next cell. A uniform current through any straight strip, at any angle to the grid, is then exact.
 */
final class SheetGrid {
    /** A face thinner than this share is closed: its neighbours would be joined by rounding. */
    static final double CLOSED = 1e-3;

    final double x0;
    final double y0;
    final double cell;
    final int columns;
    final int rows;
    /** Open part of the face on the left of cell (c, r), at r * (columns + 1) + c. */
    final float[] left;
    /** Open part of the face below cell (c, r), at r * columns + c. */
    final float[] below;

    private final CopperProbe probe;

    SheetGrid(CopperProbe probe, Bounds box, double cellMm) {
        this.probe = probe;
        cell = cellMm;
        columns = (int) Math.ceil(box.widthMm() / cellMm) + 2;
        rows = (int) Math.ceil(box.heightMm() / cellMm) + 2;
        x0 = box.minXMm() - cellMm;
        y0 = box.minYMm() - cellMm;
        left = new float[(columns + 1) * rows];
        below = new float[columns * (rows + 1)];
        boolean[] lower = corners(0);
        for (int r = 0; r <= rows; r++) {
            double y = y0 + r * cell;
            for (int c = 0; c < columns; c++) {
                double x = x0 + c * cell;
                boolean border = r == 0 || r == rows;
                below[r * columns + c] = border ? 0 : face(x, y, x + cell, y, lower[c], lower[c + 1]);
            }
            if (r == rows) {
                break;
            }
            boolean[] upper = corners(r + 1);
            for (int c = 0; c <= columns; c++) {
                double x = x0 + c * cell;
                boolean border = c == 0 || c == columns;
                left[r * (columns + 1) + c] = border ? 0 : face(x, y, x, y + cell, lower[c], upper[c]);
            }
            lower = upper;
        }
    }

    private boolean[] corners(int row) {
        boolean[] out = new boolean[columns + 1];
        for (int c = 0; c <= columns; c++) {
            out[c] = probe.copperAt(x0 + c * cell, y0 + row * cell);
        }
        return out;
    }

    private float face(double ax, double ay, double bx, double by, boolean a, boolean b) {
        if (a != b) {
            double t = wall(ax, ay, bx, by, a);
            return (float) (a ? t : 1 - t);
        }
        double mx = 0.5 * (ax + bx);
        double my = 0.5 * (ay + by);
        boolean m = probe.copperAt(mx, my);
        if (m == a) {
            return a ? 1 : 0;
        }
        // a strip or a slit across the face
        double t1 = wall(ax, ay, mx, my, a);
        double t2 = wall(mx, my, bx, by, m);
        double inside = 0.5 * (1 - t1) + 0.5 * t2;
        return (float) (m ? inside : 1 - inside);
    }

    /** Where between two points the copper changes, 0 to 1. */
    private double wall(double ax, double ay, double bx, double by, boolean atA) {
        double lo = 0;
        double hi = 1;
        for (int k = 0; k < 12; k++) {
            double m = 0.5 * (lo + hi);
            if (probe.copperAt(ax + (bx - ax) * m, ay + (by - ay) * m) == atA) {
                lo = m;
            } else {
                hi = m;
            }
        }
        return 0.5 * (lo + hi);
    }

    int cells() {
        return columns * rows;
    }

    double centreX(int index) {
        return x0 + (index % columns + 0.5) * cell;
    }

    double centreY(int index) {
        return y0 + (index / columns + 0.5) * cell;
    }

    /** Where between the cells' centres an X lies, counted in columns. */
    double columnAt(double x) {
        return (x - x0) / cell - 0.5;
    }

    /** Where between the cells' centres a Y lies, counted in rows. */
    double rowAt(double y) {
        return (y - y0) / cell - 0.5;
    }

    /** Open part of the face to the right of a cell. */
    float right(int index) {
        return left[index / columns * (columns + 1) + index % columns + 1];
    }

    /** Open part of the face above a cell. */
    float above(int index) {
        return below[index + columns];
    }

    /** Cell at a point. */
    int cellAt(double x, double y) {
        int c = (int) Math.floor((x - x0) / cell);
        int r = (int) Math.floor((y - y0) / cell);
        return Math.max(0, Math.min(columns - 1, c)) + columns * Math.max(0, Math.min(rows - 1, r));
    }

    private boolean inside(int i) {
        return probe.copperAt(centreX(i), centreY(i));
    }

    /** Distance of every cell from the copper's edge, in cells, by two chamfer passes: only guides the way. */
    float[] depths() {
        int n = cells();
        int w = columns;
        float[] d = new float[n];
        for (int i = 0; i < n; i++) {
            boolean border = i < w || i >= n - w || i % w == 0 || i % w == w - 1;
            d[i] = !border && inside(i) ? 1e6f : 0;
        }
        float diagonal = (float) Math.sqrt(2);
        for (int i = w + 1; i < n; i++) {
            if (d[i] > 0) {
                d[i] = Math.min(Math.min(d[i], d[i - 1] + 1), Math.min(d[i - w] + 1, d[i - w - 1] + diagonal));
                d[i] = Math.min(d[i], d[i - w + 1] + diagonal);
            }
        }
        for (int i = n - w - 2; i >= 0; i--) {
            if (d[i] > 0) {
                d[i] = Math.min(Math.min(d[i], d[i + 1] + 1), Math.min(d[i + w] + 1, d[i + w + 1] + diagonal));
                d[i] = Math.min(d[i], d[i + w - 1] + diagonal);
            }
        }
        return d;
    }
}
