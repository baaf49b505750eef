package foilproof.copper;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleBinaryOperator;

/**
 * A field made of closed forms: straight grooves of V-shaped and flat cutters with round ends, over a surface given by a
 * formula. The judge's own geometry, nothing of the product's sweeps.
 */
final class GrooveField implements MarginField {
    /** One groove: a segment, the tip's height, half the flat tip's width, the wall's rise per mm (infinite: flat). */
    record Groove(double x0, double y0, double x1, double y1, double z, double halfTip, double rise) {
        double height(double x, double y) {
            double dx = x1 - x0;
            double dy = y1 - y0;
            double length2 = dx * dx + dy * dy;
            double s = length2 == 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / length2));
            double ex = x - x0 - s * dx;
            double ey = y - y0 - s * dy;
            double off = Math.sqrt(ex * ex + ey * ey) - halfTip;
            if (off <= 0) {
                return z;
            }
            return Double.isInfinite(rise) ? Double.POSITIVE_INFINITY : z + off * rise;
        }

        double reach(double up) {
            return halfTip + (Double.isInfinite(rise) ? 0 : up / rise);
        }
    }

    static final double RISE_30 = 1 / StrictMath.tan(StrictMath.toRadians(15));
    static final double RISE_60 = 1 / StrictMath.tan(StrictMath.toRadians(30));

    final double width;
    final double height;
    final double cell;
    final double foil;
    final double cap;
    final List<Groove> grooves = new ArrayList<>();
    /** Height of the blank's surface, + = higher. */
    DoubleBinaryOperator surface = (x, y) -> 0;
    /** Added to every place: moves the grid against the grooves. */
    double shift;

    double deeper;

    GrooveField(double width, double height, double cell, double foil, double headroom) {
        this.width = width;
        this.height = height;
        this.cell = cell;
        this.foil = foil;
        this.cap = foil + headroom;
    }

    GrooveField v30(double x0, double y0, double x1, double y1, double depth) {
        grooves.add(new Groove(x0, y0, x1, y1, -depth, 0.05, RISE_30));
        return this;
    }

    GrooveField flat(double x0, double y0, double x1, double y1, double depth, double radius) {
        grooves.add(new Groove(x0, y0, x1, y1, -depth, radius, Double.POSITIVE_INFINITY));
        return this;
    }

    GrooveField loop(double depth, double halfTip, double rise, double... xy) {
        for (int i = 0; i + 3 < xy.length; i += 2) {
            grooves.add(new Groove(xy[i], xy[i + 1], xy[i + 2], xy[i + 3], -depth, halfTip, rise));
        }
        return this;
    }

    /** The same grooves, every one of them really deeper by this. */
    GrooveField deeper(double byMm) {
        GrooveField g = new GrooveField(width, height, cell, foil, cap - foil);
        g.grooves.addAll(grooves);
        g.surface = surface;
        g.shift = shift;
        g.deeper = deeper + byMm;
        return g;
    }

    @Override
    public double cellMm() {
        return cell;
    }

    @Override
    public int columns() {
        return cells(width);
    }

    @Override
    public int rows() {
        return cells(height);
    }

    private int cells(double length) {
        return (int) Math.floor(length / cell - 0.5 - 1e-9) + 1;
    }

    @Override
    public double widthMm() {
        return width;
    }

    @Override
    public double heightMm() {
        return height;
    }

    @Override
    public double foilMm() {
        return foil;
    }

    @Override
    public double capMm() {
        return cap;
    }

    @Override
    public double steepestSlope() {
        double steepest = 1;
        for (Groove g : grooves) {
            if (!Double.isInfinite(g.rise)) {
                steepest = Math.max(steepest, g.rise);
            }
        }
        return steepest;
    }

    @Override
    public void marginRow(int row, float[] into) {
        double y = (row + 0.5) * cell;
        double[] best = new double[columns()];
        java.util.Arrays.fill(best, Double.POSITIVE_INFINITY);
        for (Groove g : grooves) {
            double reach = g.reach(cap + 1);
            if (y < Math.min(g.y0, g.y1) - reach || y > Math.max(g.y0, g.y1) + reach) {
                continue;
            }
            int from = Math.max(0, (int) ((Math.min(g.x0, g.x1) - reach) / cell) - 1);
            int to = Math.min(columns(), (int) ((Math.max(g.x0, g.x1) + reach) / cell) + 2);
            for (int i = from; i < to; i++) {
                best[i] = Math.min(best[i], g.height((i + 0.5) * cell, y));
            }
        }
        for (int i = 0; i < best.length; i++) {
            into[i] = (float) margin((i + 0.5) * cell, y, best[i]);
        }
    }

    private double margin(double x, double y, double lowest) {
        return Math.min(cap, lowest - deeper - (surface.applyAsDouble(x, y) - foil));
    }

    @Override
    public double exactMarginMm(double x, double y) {
        double lowest = Double.POSITIVE_INFINITY;
        for (Groove g : grooves) {
            lowest = Math.min(lowest, g.height(x, y));
        }
        return margin(x, y, lowest);
    }
}
