package foilproof.electrical;

import foilproof.design.CopperProbe;
import org.jspecify.annotations.Nullable;

/**
 * The shortest straight way from wall to wall across a narrow place of copper.
 *
 * @param x0Mm one end, frame of the copper
 * @param y0Mm likewise
 * @param x1Mm the other end
 * @param y1Mm likewise
 */
public record Chord(double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
    private static final int COARSE = 120;
    private static final int FINE = 360;

    /** Its length, mm. */
    public double lengthMm() {
        return StrictMath.hypot(x1Mm - x0Mm, y1Mm - y0Mm);
    }

    /** X of its middle, mm. */
    public double xMm() {
        return 0.5 * (x0Mm + x1Mm);
    }

    /** Y of its middle, mm. */
    public double yMm() {
        return 0.5 * (y0Mm + y1Mm);
    }

    /**
     * Finds the narrowest place near a point: walls are looked for all round, the nearest pair on opposite sides is taken,
     * and the search goes on from the middle between them while they come nearer.
     *
     * @param copper the copper
     * @param xMm near the narrow place
     * @param yMm likewise
     * @param stepMm walls thinner than this may be stepped over, mm
     * @param mostMm wider places are none
     * @return null where the point has no copper within two steps or no place is that narrow
     */
    public static @Nullable Chord narrowest(CopperProbe copper, double xMm, double yMm, double stepMm, double mostMm) {
        double px = Double.NaN;
        double py = Double.NaN;
        for (int k = 0; k < 25 && Double.isNaN(px); k++) {
            // the middle first
            int c = (k + 12) % 5 - 2;
            int r = (k + 12) / 5 % 5 - 2;
            if (copper.copperAt(xMm + c * stepMm, yMm + r * stepMm)) {
                px = xMm + c * stepMm;
                py = yMm + r * stepMm;
            }
        }
        if (Double.isNaN(px)) {
            return null;
        }
        Chord best = null;
        for (double most = Math.min(0.5, mostMm); best == null; most *= 3) {
            best = opposite(copper, px, py, stepMm, Math.min(most, mostMm), COARSE);
            if (most >= mostMm) {
                break;
            }
        }
        for (int round = 0; best != null && round < 12; round++) {
            Chord next = opposite(copper, best.xMm(), best.yMm(), stepMm, 1.2 * best.lengthMm() + stepMm, FINE);
            if (next == null || next.lengthMm() >= best.lengthMm() - 1e-6) {
                break;
            }
            best = next;
        }
        return best;
    }

    /** The nearest pair of walls on opposite sides of a point, no more than so far apart. */
    private static @Nullable Chord opposite(
            CopperProbe copper, double x, double y, double step, double most, int directions) {
        if (!copper.copperAt(x, y)) {
            return null;
        }
        double[] wx = new double[directions];
        double[] wy = new double[directions];
        for (int k = 0; k < directions; k++) {
            double c = StrictMath.cos(2 * StrictMath.PI * k / directions);
            double s = StrictMath.sin(2 * StrictMath.PI * k / directions);
            double t = wall(copper, x, y, c, s, step, most);
            wx[k] = x + t * c;
            wy[k] = y + t * s;
        }
        Chord best = null;
        double least = most * most;
        for (int i = 0; i < directions; i++) {
            for (int turn = 3 * directions / 8; turn <= directions / 2; turn++) {
                int j = (i + turn) % directions;
                double dx = wx[j] - wx[i];
                double dy = wy[j] - wy[i];
                double d = dx * dx + dy * dy;
                // NaN compares false
                if (d < least - 1e-12 && across(copper, wx[i], wy[i], dx, dy)) {
                    least = d;
                    best = new Chord(wx[i], wy[i], wx[j], wy[j]);
                }
            }
        }
        return best;
    }

    /** Whether copper lies between two walls, so that they are not one wall met twice. */
    private static boolean across(CopperProbe copper, double x, double y, double dx, double dy) {
        return copper.copperAt(x + 0.25 * dx, y + 0.25 * dy)
                && copper.copperAt(x + 0.5 * dx, y + 0.5 * dy)
                && copper.copperAt(x + 0.75 * dx, y + 0.75 * dy);
    }

    private static double wall(CopperProbe copper, double x, double y, double c, double s, double step, double most) {
        double t = 0;
        while (copper.copperAt(x + (t + step) * c, y + (t + step) * s)) {
            t += step;
            if (t > most) {
                return Double.NaN;
            }
        }
        double low = t;
        double high = t + step;
        for (int k = 0; k < 14; k++) {
            double m = 0.5 * (low + high);
            if (copper.copperAt(x + m * c, y + m * s)) {
                low = m;
            } else {
                high = m;
            }
        }
        // the side beyond the wall: a line between two places of one straight wall then never counts as copper
        return high;
    }
}
