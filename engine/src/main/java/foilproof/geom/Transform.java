package foilproof.geom;

/**
 * A rigid change of coordinates. Variables are named by their types, {@code blankFromWork} for a
 * {@code Transform<Blank, Work>}, so that compositions read themselves:
 * {@code machineFromBoard = machineFromBlank.after(blankFromBoard)}. A thing that is only moved and turned in space has
 * determinant +1, also where its picture from above is mirrored: that is {@link #planarDeterminant()} -1.
 *
 * @param <To> frame of the result
 * @param <From> frame of the argument
 */
public final class Transform<To extends Frame, From extends Frame> {
    /** Rows of the rotation, then the translation in millimetres: m00 m01 m02 m10 m11 m12 m20 m21 m22 tx ty tz. */
    private final double[] m;

    private Transform(double[] m) {
        this.m = m;
    }

    /** Coordinates that differ by a shift only: a point at zero of {@code From} is at the given place of {@code To}. */
    public static <T extends Frame, F extends Frame> Transform<T, F> shift(double xMm, double yMm, double zMm) {
        return new Transform<>(new double[] {1, 0, 0, 0, 1, 0, 0, 0, 1, xMm, yMm, zMm});
    }

    /** The place {@code zeroAt} is where zero of {@code From} lies in {@code To}. */
    public static <T extends Frame, F extends Frame> Transform<T, F> withZeroAt(Point<T> zeroAt) {
        return shift(zeroAt.xMm(), zeroAt.yMm(), zeroAt.zMm());
    }

    /** Turned counter-clockwise about Z by quarter turns, exactly. */
    public static <T extends Frame, F extends Frame> Transform<T, F> quarterTurns(int quarters) {
        int q = Math.floorMod(quarters, 4);
        double cos = q == 0 ? 1 : q == 2 ? -1 : 0;
        double sin = q == 1 ? 1 : q == 3 ? -1 : 0;
        return new Transform<>(new double[] {cos, -sin, 0, sin, cos, 0, 0, 0, 1, 0, 0, 0});
    }

    /** Turned counter-clockwise about Z. */
    public static <T extends Frame, F extends Frame> Transform<T, F> turn(double turnRad) {
        double cos = StrictMath.cos(turnRad);
        double sin = StrictMath.sin(turnRad);
        return new Transform<>(new double[] {cos, -sin, 0, sin, cos, 0, 0, 0, 1, 0, 0, 0});
    }

    static <T extends Frame, F extends Frame> Transform<T, F> diagonal(
            double x, double y, double z, double xMm, double yMm, double zMm) {
        return new Transform<>(new double[] {x, 0, 0, 0, y, 0, 0, 0, z, xMm, yMm, zMm});
    }

    /** The coordinates in {@code To} of a place given in {@code From}. */
    public Point<To> apply(Point<From> p) {
        return new Point<>(
                xMm(p.xMm(), p.yMm(), p.zMm()), yMm(p.xMm(), p.yMm(), p.zMm()), zMm(p.xMm(), p.yMm(), p.zMm()));
    }

    /** X in {@code To} of a place given in {@code From}. */
    public double xMm(double xMm, double yMm, double zMm) {
        return m[0] * xMm + m[1] * yMm + m[2] * zMm + m[9];
    }

    /** Y in {@code To} of a place given in {@code From}. */
    public double yMm(double xMm, double yMm, double zMm) {
        return m[3] * xMm + m[4] * yMm + m[5] * zMm + m[10];
    }

    /** Z in {@code To} of a place given in {@code From}. */
    public double zMm(double xMm, double yMm, double zMm) {
        return m[6] * xMm + m[7] * yMm + m[8] * zMm + m[11];
    }

    /** First {@code other}, then this: {@code blankFromBoard = blankFromWork.after(workFromBoard)}. */
    public <First extends Frame> Transform<To, First> after(Transform<From, First> other) {
        double[] n = new double[12];
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 3; column++) {
                n[3 * row + column] = m[3 * row] * other.m[column]
                        + m[3 * row + 1] * other.m[3 + column]
                        + m[3 * row + 2] * other.m[6 + column];
            }
            n[9 + row] =
                    m[3 * row] * other.m[9] + m[3 * row + 1] * other.m[10] + m[3 * row + 2] * other.m[11] + m[9 + row];
        }
        return new Transform<>(n);
    }

    /** The way back; the rotation's inverse is its transpose. */
    public Transform<From, To> inverse() {
        double[] n = {m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8], 0, 0, 0};
        for (int row = 0; row < 3; row++) {
            double t = n[3 * row] * m[9] + n[3 * row + 1] * m[10] + n[3 * row + 2] * m[11];
            n[9 + row] = t == 0 ? 0 : -t;
        }
        return new Transform<>(n);
    }

    /** +1: things keep their handedness; a rigid thing can have no other. */
    public double determinant() {
        return m[0] * (m[4] * m[8] - m[5] * m[7])
                - m[1] * (m[3] * m[8] - m[5] * m[6])
                + m[2] * (m[3] * m[7] - m[4] * m[6]);
    }

    /** -1 where the picture from above is mirrored, +1 where it is not. */
    public double planarDeterminant() {
        return m[0] * m[4] - m[1] * m[3];
    }
}
