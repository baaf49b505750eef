package foilproof.design;

/** A straight stroke of a round pen: the disc of radius r swept from (0, 0) to (ex, ey). */
final class CapsuleFigure extends Figure {
    final double ex;
    final double ey;
    final double r;

    CapsuleFigure(double ex, double ey, double r) {
        super(new Bounds(Math.min(0, ex) - r, Math.min(0, ey) - r, Math.max(0, ex) + r, Math.max(0, ey) + r));
        this.ex = ex;
        this.ey = ey;
        this.r = r;
    }

    @Override
    boolean contains(double x, double y) {
        double length2 = ex * ex + ey * ey;
        double t = length2 == 0 ? 0 : Math.max(0, Math.min(1, (x * ex + y * ey) / length2));
        double dx = x - t * ex;
        double dy = y - t * ey;
        return dx * dx + dy * dy <= r * r;
    }

    @Override
    void spans(double y, double dx, Spans out) {
        double lo = Double.POSITIVE_INFINITY;
        double hi = Double.NEGATIVE_INFINITY;
        double h2 = r * r - y * y;
        if (h2 > 0) {
            double h = Math.sqrt(h2);
            lo = -h;
            hi = h;
        }
        double y2 = y - ey;
        h2 = r * r - y2 * y2;
        if (h2 > 0) {
            double h = Math.sqrt(h2);
            lo = Math.min(lo, ex - h);
            hi = Math.max(hi, ex + h);
        }
        double length = Math.sqrt(ex * ex + ey * ey);
        if (ey != 0 && length > 0) {
            // the two straight walls; the rectangle's ends lie inside the discs
            for (int s = -1; s <= 1; s += 2) {
                double nx = -s * ey / length * r;
                double ny = s * ex / length * r;
                double t = (y - ny) / ey;
                if (t >= 0 && t <= 1) {
                    double x = nx + t * ex;
                    lo = Math.min(lo, x);
                    hi = Math.max(hi, x);
                }
            }
        }
        out.add(lo + dx, hi + dx);
    }

    @Override
    void criticalYs(double dy, Ys out) {
        out.add(dy - r);
        out.add(dy + r);
        out.add(dy + ey - r);
        out.add(dy + ey + r);
        double length = Math.sqrt(ex * ex + ey * ey);
        if (length > 0 && ey != 0) {
            double ny = ex / length * r;
            out.add(dy + ny);
            out.add(dy - ny);
            out.add(dy + ey + ny);
            out.add(dy + ey - ny);
        }
    }

    @Override
    boolean connected() {
        return true;
    }

    @Override
    double closedFormAreaMm2() {
        return 2 * r * StrictMath.hypot(ex, ey) + StrictMath.PI * r * r;
    }

    @Override
    Figure mapped(PlaneMap map) {
        if (map.x0Mm() != 0 || map.y0Mm() != 0) {
            throw new IllegalArgumentException("a stroke begins at its zero: map its place, not the figure");
        }
        return new CapsuleFigure(map.xMm(ex, ey), map.yMm(ex, ey), r * map.scaleFactor());
    }
}
