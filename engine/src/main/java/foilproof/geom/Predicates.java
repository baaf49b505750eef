package foilproof.geom;

import java.math.BigDecimal;

/**
 * Signs that are always right: orientation of three points and whether a point lies in the circle of three others. The
 * common case is a rounded determinant with a bound on its error (J. R. Shewchuk, "Adaptive Precision Floating-Point
 * Arithmetic and Fast Robust Geometric Predicates", Discrete and Computational Geometry 18, 1997); where the bound does
 * not decide, the determinant is computed exactly in decimals, which hold every double.
 */
public final class Predicates {
    /** Half a unit in the last place of 1. */
    private static final double EPSILON = 0x1p-53;

    /** First-stage bounds of the paper for the two determinants. */
    private static final double ORIENT_BOUND = (3 + 16 * EPSILON) * EPSILON;

    private static final double CIRCLE_BOUND = (10 + 96 * EPSILON) * EPSILON;

    /** Below this a product may have lost bits to underflow, and the bounds do not hold. */
    private static final double SMALLEST_SAFE = 0x1p-900;

    private Predicates() {}

    /** +1 where a, b, c turn counter-clockwise, -1 clockwise, 0 on one line. All coordinates finite. */
    public static int orientation(double axMm, double ayMm, double bxMm, double byMm, double cxMm, double cyMm) {
        double left = (axMm - cxMm) * (byMm - cyMm);
        double right = (ayMm - cyMm) * (bxMm - cxMm);
        double determinant = left - right;
        double size = Math.abs(left) + Math.abs(right);
        if (size > SMALLEST_SAFE && Math.abs(determinant) > ORIENT_BOUND * size) {
            return determinant > 0 ? 1 : -1;
        }
        BigDecimal ax = minus(axMm, cxMm);
        BigDecimal ay = minus(ayMm, cyMm);
        BigDecimal bx = minus(bxMm, cxMm);
        BigDecimal by = minus(byMm, cyMm);
        return ax.multiply(by).subtract(ay.multiply(bx)).signum();
    }

    /**
     * +1 where d lies inside the circle through a, b, c (which turn counter-clockwise; else the sign changes), -1
     * outside, 0 on it.
     */
    public static int inCircle(
            double axMm, double ayMm, double bxMm, double byMm, double cxMm, double cyMm, double dxMm, double dyMm) {
        double adx = axMm - dxMm;
        double ady = ayMm - dyMm;
        double bdx = bxMm - dxMm;
        double bdy = byMm - dyMm;
        double cdx = cxMm - dxMm;
        double cdy = cyMm - dyMm;
        double bc = bdx * cdy;
        double cb = cdx * bdy;
        double ca = cdx * ady;
        double ac = adx * cdy;
        double ab = adx * bdy;
        double ba = bdx * ady;
        double aLift = adx * adx + ady * ady;
        double bLift = bdx * bdx + bdy * bdy;
        double cLift = cdx * cdx + cdy * cdy;
        double determinant = aLift * (bc - cb) + bLift * (ca - ac) + cLift * (ab - ba);
        double size = aLift * (Math.abs(bc) + Math.abs(cb))
                + bLift * (Math.abs(ca) + Math.abs(ac))
                + cLift * (Math.abs(ab) + Math.abs(ba));
        if (size > SMALLEST_SAFE && Math.abs(determinant) > CIRCLE_BOUND * size) {
            return determinant > 0 ? 1 : -1;
        }
        return inCircleExactly(
                minus(axMm, dxMm),
                minus(ayMm, dyMm),
                minus(bxMm, dxMm),
                minus(byMm, dyMm),
                minus(cxMm, dxMm),
                minus(cyMm, dyMm));
    }

    private static int inCircleExactly(
            BigDecimal ax, BigDecimal ay, BigDecimal bx, BigDecimal by, BigDecimal cx, BigDecimal cy) {
        BigDecimal a = ax.multiply(ax).add(ay.multiply(ay));
        BigDecimal b = bx.multiply(bx).add(by.multiply(by));
        BigDecimal c = cx.multiply(cx).add(cy.multiply(cy));
        return a.multiply(bx.multiply(cy).subtract(cx.multiply(by)))
                .add(b.multiply(cx.multiply(ay).subtract(ax.multiply(cy))))
                .add(c.multiply(ax.multiply(by).subtract(bx.multiply(ay))))
                .signum();
    }

    private static BigDecimal minus(double a, double b) {
        return new BigDecimal(a).subtract(new BigDecimal(b));
    }
}
