package foilproof.design;

/**
 * A similarity of the plane (turn, mirror, scale, shift): x' = xx x + xy y + x0, y' = yx x + yy y + y0. Named at
 * each use by what it does, e.g. {@code blankFromDesign}.
 *
 * @param xx cosine-like part, scale included
 * @param xy see above
 * @param yx see above
 * @param yy see above
 * @param x0Mm shift along X, mm
 * @param y0Mm shift along Y, mm
 */
public record PlaneMap(double xx, double xy, double yx, double yy, double x0Mm, double y0Mm) {
    /** Leaves every point where it is. */
    public static final PlaneMap IDENTITY = new PlaneMap(1, 0, 0, 1, 0, 0);

    private static final double[] QUARTER_COS = {1, 0, -1, 0};
    private static final double[] QUARTER_SIN = {0, 1, 0, -1};

    /** A shift. */
    public static PlaneMap shift(double dxMm, double dyMm) {
        return new PlaneMap(1, 0, 0, 1, dxMm, dyMm);
    }

    /** A counter-clockwise turn about the zero by whole quarters, exact. */
    public static PlaneMap quarterTurns(int quarters) {
        int k = Math.floorMod(quarters, 4);
        return new PlaneMap(QUARTER_COS[k], -QUARTER_SIN[k], QUARTER_SIN[k], QUARTER_COS[k], 0, 0);
    }

    /** A counter-clockwise turn about the zero, degrees; whole quarters are exact. */
    public static PlaneMap turnDeg(double deg) {
        double quarters = deg / 90;
        if (quarters == Math.rint(quarters) && Math.abs(quarters) < 1e6) {
            return quarterTurns((int) quarters);
        }
        double c = StrictMath.cos(StrictMath.toRadians(deg));
        double s = StrictMath.sin(StrictMath.toRadians(deg));
        return new PlaneMap(c, -s, s, c, 0, 0);
    }

    /** X goes to {@code about2Mm} - X (mirror in the line X = about2 / 2). */
    public static PlaneMap mirrorX(double about2Mm) {
        return new PlaneMap(-1, 0, 0, 1, about2Mm, 0);
    }

    /** Y goes to {@code about2Mm} - Y. */
    public static PlaneMap mirrorY(double about2Mm) {
        return new PlaneMap(1, 0, 0, -1, 0, about2Mm);
    }

    /** Scales about the zero. */
    public static PlaneMap scale(double factor) {
        return new PlaneMap(factor, 0, 0, factor, 0, 0);
    }

    /** First this, then {@code next}. */
    public PlaneMap then(PlaneMap next) {
        return new PlaneMap(
                next.xx * xx + next.xy * yx,
                next.xx * xy + next.xy * yy,
                next.yx * xx + next.yy * yx,
                next.yx * xy + next.yy * yy,
                next.xx * x0Mm + next.xy * y0Mm + next.x0Mm,
                next.yx * x0Mm + next.yy * y0Mm + next.y0Mm);
    }

    /** The map that undoes this one. */
    public PlaneMap inverse() {
        double d = determinant();
        double ixx = yy / d;
        double ixy = -xy / d;
        double iyx = -yx / d;
        double iyy = xx / d;
        return new PlaneMap(ixx, ixy, iyx, iyy, -(ixx * x0Mm + ixy * y0Mm), -(iyx * x0Mm + iyy * y0Mm));
    }

    /** Below 0 where the map mirrors; its size is the scale squared. */
    public double determinant() {
        return xx * yy - xy * yx;
    }

    /** True where the map mirrors. */
    public boolean mirrors() {
        return determinant() < 0;
    }

    /** Length factor. */
    public double scaleFactor() {
        return Math.sqrt(Math.abs(determinant()));
    }

    /** X of the image of a point, mm. */
    public double xMm(double x, double y) {
        return xx * x + xy * y + x0Mm;
    }

    /** Y of the image of a point, mm. */
    public double yMm(double x, double y) {
        return yx * x + yy * y + y0Mm;
    }
}
