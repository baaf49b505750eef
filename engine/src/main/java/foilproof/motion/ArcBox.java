package foilproof.motion;

/** Bounding boxes of arcs, exactly: an arc reaches beyond its ends only where it passes a quadrant point. */
final class ArcBox {
    private static final double QUARTER_RAD = Math.PI / 2;

    private ArcBox() {}

    /**
     * Widens {@code box} (x0, y0, x1, y1) by the quadrant points that the arc passes.
     *
     * @param box holds both ends already
     * @param fromX start less centre, mm
     * @param fromY start less centre, mm
     * @param cxMm centre
     * @param cyMm centre
     * @param sweepRad signed turn
     */
    static void widen(double[] box, double fromX, double fromY, double cxMm, double cyMm, double sweepRad) {
        double radius = Plane2.length(fromX, fromY);
        double from = StrictMath.atan2(fromY, fromX);
        double low = Math.min(from, from + sweepRad);
        double high = Math.max(from, from + sweepRad);
        int first = (int) Math.ceil(low / QUARTER_RAD);
        int last = (int) Math.floor(high / QUARTER_RAD);
        if (last - first > 4) {
            last = first + 4;
        }
        for (int q = first; q <= last; q++) {
            switch (Math.floorMod(q, 4)) {
                case 0 -> box[2] = Math.max(box[2], cxMm + radius);
                case 1 -> box[3] = Math.max(box[3], cyMm + radius);
                case 2 -> box[0] = Math.min(box[0], cxMm - radius);
                default -> box[1] = Math.min(box[1], cyMm - radius);
            }
        }
    }
}
