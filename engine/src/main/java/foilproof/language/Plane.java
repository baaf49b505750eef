package foilproof.language;

/**
 * Plane of arcs and cycles. The order of its two axes is the canonical one of NISTIR 6556 section 4.3.6.1: (X, Y),
 * (Y, Z) and (Z, X), so that the third axis always completes a right-handed triple and counter-clockwise is seen from
 * its positive end.
 */
public enum Plane {
    /** G17: first X, second Y, axial Z. */
    XY(0, 1, 2),
    /** G19: first Y, second Z, axial X. */
    YZ(1, 2, 0),
    /** G18: first Z, second X, axial Y. */
    ZX(2, 0, 1);

    private final int first;
    private final int second;
    private final int axial;

    Plane(int first, int second, int axial) {
        this.first = first;
        this.second = second;
        this.axial = axial;
    }

    /** Index of the first axis: 0 X, 1 Y, 2 Z. */
    public int first() {
        return first;
    }

    /** Index of the second axis. */
    public int second() {
        return second;
    }

    /** Index of the axis across the plane. */
    public int axial() {
        return axial;
    }
}
