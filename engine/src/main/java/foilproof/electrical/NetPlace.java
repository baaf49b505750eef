package foilproof.electrical;

import foilproof.bench.Face;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A place where a net must have copper on one face: a pad or a land. Design coordinates.
 *
 * @param face the copper layer
 * @param xMm centre X, mm
 * @param yMm centre Y, mm
 * @param widthMm extent along X, mm; 0 where not known
 * @param heightMm extent along Y, mm; 0 where not known
 * @param holeMm diameter of the hole through it, mm; null where there is none
 * @param pin reference and pin, e.g. {@code U1-4}; null where not known
 * @param via true for a via: nothing joins its faces unless a join is declared
 * @param line line of the design file that names it
 */
public record NetPlace(
        Face face,
        double xMm,
        double yMm,
        double widthMm,
        double heightMm,
        @Nullable Double holeMm,
        @Nullable String pin,
        boolean via,
        int line) {
    /** Lands on both faces whose middles lie this near share a hole, mm. */
    private static final double SAME_HOLE_MM = 0.1;

    private static final double EIGHTH = StrictMath.PI / 4;

    /** How far towards the edge of a place without a known hole it is asked for copper, shares. */
    private static final double[] TO_THE_EDGE = {0.75, 0.92};

    /** The same place elsewhere. */
    public NetPlace movedTo(double toXMm, double toYMm) {
        return new NetPlace(face, toXMm, toYMm, widthMm, heightMm, holeMm, pin, via, line);
    }

    /** How a person finds it: the pin where it has one, else its place in mm. */
    public String label() {
        return pin != null ? pin : String.format(java.util.Locale.ROOT, "(%.2f, %.2f)", xMm, yMm);
    }

    /**
     * Points of the place that stay copper when it is bored: on the ring half-way between hole and edge, in eight
     * directions; for a place without a known hole the centre, four points round it, and eight each three quarters of
     * the way and almost all the way to the edge, since it may be bored without a drill file that says so. X and Y
     * pairs, mm.
     */
    public List<double[]> probes() {
        List<double[]> out = new ArrayList<>();
        double rx = widthMm / 2;
        double ry = heightMm / 2;
        if (holeMm == null || holeMm <= 0) {
            out.add(new double[] {xMm, yMm});
            out.add(new double[] {xMm + rx / 2, yMm});
            out.add(new double[] {xMm - rx / 2, yMm});
            out.add(new double[] {xMm, yMm + ry / 2});
            out.add(new double[] {xMm, yMm - ry / 2});
            for (double share : rx > 0 && ry > 0 ? TO_THE_EDGE : new double[0]) {
                for (int k = 0; k < 8; k++) {
                    double c = StrictMath.cos(k * EIGHTH);
                    double s = StrictMath.sin(k * EIGHTH);
                    double edge = 1 / Math.sqrt(c * c / (rx * rx) + s * s / (ry * ry));
                    out.add(new double[] {xMm + share * edge * c, yMm + share * edge * s});
                }
            }
            return out;
        }
        for (int k = 0; k < 8; k++) {
            double c = StrictMath.cos(k * EIGHTH);
            double s = StrictMath.sin(k * EIGHTH);
            double edge = rx > 0 && ry > 0 ? 1 / Math.sqrt(c * c / (rx * rx) + s * s / (ry * ry)) : 0;
            double hole = holeMm / 2;
            double r = edge > hole ? 0.5 * (edge + hole) : hole + 0.1;
            out.add(new double[] {xMm + r * c, yMm + r * s});
        }
        return out;
    }

    /**
     * Whether this place and another, on the other face, are the two lands of one hole: both are known to be bored or both
     * are called vias, or they carry the same pin, which no two pads of one part but the lands of a through pin do.
     */
    public boolean sharesHoleWith(NetPlace other) {
        return face != other.face
                && StrictMath.hypot(xMm - other.xMm, yMm - other.yMm) <= SAME_HOLE_MM
                && (holeMm != null && other.holeMm != null || via && other.via || pin != null && pin.equals(other.pin));
    }

    /** True where the point lies within the place's box. */
    public boolean near(double pxMm, double pyMm) {
        return Math.abs(pxMm - xMm) <= Math.max(0.1, widthMm / 2)
                && Math.abs(pyMm - yMm) <= Math.max(0.1, heightMm / 2);
    }
}
