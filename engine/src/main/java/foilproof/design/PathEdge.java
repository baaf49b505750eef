package foilproof.design;

/**
 * A straight line or an arc of a path, from (x0, y0) to (x1, y1).
 *
 * @param x0Mm start X, mm
 * @param y0Mm start Y, mm
 * @param x1Mm end X, mm
 * @param y1Mm end Y, mm
 * @param cxMm centre X of an arc, mm; 0 for a line
 * @param cyMm centre Y of an arc, mm; 0 for a line
 * @param turnRad swept angle of an arc, + = counter-clockwise, at most a full circle; 0 for a line
 */
public record PathEdge(double x0Mm, double y0Mm, double x1Mm, double y1Mm, double cxMm, double cyMm, double turnRad) {
    /** A straight line. */
    public static PathEdge line(double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
        return new PathEdge(x0Mm, y0Mm, x1Mm, y1Mm, 0, 0, 0);
    }

    /** A full circle, counter-clockwise from its rightmost point. */
    public static PathEdge circle(double cxMm, double cyMm, double radiusMm) {
        return new PathEdge(cxMm + radiusMm, cyMm, cxMm + radiusMm, cyMm, cxMm, cyMm, 2 * StrictMath.PI);
    }

    /** True for an arc. */
    public boolean isArc() {
        return turnRad != 0;
    }

    /** Radius of an arc: the mean of the distances of both ends from the centre, mm; 0 for a line. */
    public double radiusMm() {
        if (!isArc()) {
            return 0;
        }
        return 0.5 * (StrictMath.hypot(x0Mm - cxMm, y0Mm - cyMm) + StrictMath.hypot(x1Mm - cxMm, y1Mm - cyMm));
    }

    /** Length along the path, mm. */
    public double lengthMm() {
        return isArc() ? radiusMm() * Math.abs(turnRad) : StrictMath.hypot(x1Mm - x0Mm, y1Mm - y0Mm);
    }

    /** The same path, run the other way. */
    public PathEdge reversed() {
        return new PathEdge(x1Mm, y1Mm, x0Mm, y0Mm, cxMm, cyMm, -turnRad);
    }

    /** The path's image under a similarity. */
    public PathEdge mapped(PlaneMap map) {
        double mx = isArc() ? map.xMm(cxMm, cyMm) : 0;
        double my = isArc() ? map.yMm(cxMm, cyMm) : 0;
        return new PathEdge(
                map.xMm(x0Mm, y0Mm),
                map.yMm(x0Mm, y0Mm),
                map.xMm(x1Mm, y1Mm),
                map.yMm(x1Mm, y1Mm),
                mx,
                my,
                map.mirrors() ? -turnRad : turnRad);
    }

    /** The box round the path. */
    public Bounds bounds() {
        Bounds box = Bounds.NONE.with(x0Mm, y0Mm).with(x1Mm, y1Mm);
        if (!isArc()) {
            return box;
        }
        double r = radiusMm();
        double start = StrictMath.atan2(y0Mm - cyMm, x0Mm - cxMm);
        for (int k = 0; k < 4; k++) {
            double angle = k * StrictMath.PI / 2;
            double along = turnRad > 0 ? angle - start : start - angle;
            along -= 2 * StrictMath.PI * Math.floor(along / (2 * StrictMath.PI));
            if (along <= Math.abs(turnRad)) {
                box = box.with(cxMm + (k == 0 ? r : k == 2 ? -r : 0), cyMm + (k == 1 ? r : k == 3 ? -r : 0));
            }
        }
        return box;
    }

    /** Twice the signed area between the path and the zero: summed round a closed path, twice its area (Green). */
    double twiceAreaMm2() {
        double chord = x0Mm * y1Mm - x1Mm * y0Mm;
        if (!isArc()) {
            return chord;
        }
        double r = radiusMm();
        return chord + r * r * (turnRad - StrictMath.sin(turnRad));
    }
}
