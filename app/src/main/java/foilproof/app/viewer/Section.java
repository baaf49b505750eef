package foilproof.app.viewer;

import org.jspecify.annotations.Nullable;

/**
 * The board cut through along a line: heights sampled from the composed surface.
 *
 * @param x0Mm start, mm in the blank's frame
 * @param y0Mm start, mm
 * @param x1Mm end, mm
 * @param y1Mm end, mm
 * @param zMm composed surface at even distances along the line, mm
 * @param surfaceMm surface before any cut there, mm
 * @param undersideMm underside of the blank there, mm; at or above zMm where a hole goes through
 * @param runs run that made the floor there, -1 where none
 * @param onBlank whether the place lies on the blank
 */
public record Section(
        double x0Mm,
        double y0Mm,
        double x1Mm,
        double y1Mm,
        double[] zMm,
        double[] surfaceMm,
        double[] undersideMm,
        int[] runs,
        boolean[] onBlank) {

    /** Length of the line, mm. */
    public double lengthMm() {
        return Math.hypot(x1Mm - x0Mm, y1Mm - y0Mm);
    }

    /** Samples the board along a line. */
    public static Section of(
            BoardSnapshot board,
            BoardSnapshot.Conditions c,
            double fromXMm,
            double fromYMm,
            double toXMm,
            double toYMm,
            int samples) {
        double[] z = new double[samples];
        double[] s = new double[samples];
        double[] u = new double[samples];
        int[] runs = new int[samples];
        boolean[] on = new boolean[samples];
        for (int i = 0; i < samples; i++) {
            double f = i / (samples - 1.0);
            double x = fromXMm + (toXMm - fromXMm) * f;
            double y = fromYMm + (toYMm - fromYMm) * f;
            BoardSnapshot.Spot spot = board.spot(c, x, y);
            z[i] = spot.zMm();
            s[i] = spot.surfaceMm();
            u[i] = board.undersideMm(x, y);
            runs[i] = spot.run();
            on[i] = board.onBlank(x, y);
        }
        return new Section(fromXMm, fromYMm, toXMm, toYMm, z, s, u, runs, on);
    }

    /**
     * A groove as measured where the section crosses it.
     *
     * @param fromMm left wall at the foil top, distance along the line, mm
     * @param toMm right wall at the foil top, mm
     * @param bottomFromMm left wall at the foil's underside, NaN where the foil is not cut through
     * @param bottomToMm right wall at the foil's underside, NaN where it is not
     * @param depthMm deepest point below the foil top, mm
     */
    public record Groove(double fromMm, double toMm, double bottomFromMm, double bottomToMm, double depthMm) {
        /** Width at the foil top, mm. */
        public double topWidthMm() {
            return toMm - fromMm;
        }

        /** Width at the foil's underside, mm, NaN where the foil is not cut through. */
        public double bottomWidthMm() {
            return bottomToMm - bottomFromMm;
        }
    }

    /** The groove that lies nearest to a distance along the line, or null where none is crossed within the section. */
    public @Nullable Groove grooveNear(double alongMm, double foilMm) {
        int n = zMm.length;
        double step = lengthMm() / (n - 1);
        int middle = Math.max(0, Math.min(n - 1, (int) Math.round(alongMm / step)));
        int best = -1;
        for (int i = 0; i < n; i++) {
            if (cut(i) && onBlank[i] && (best < 0 || Math.abs(i - middle) < Math.abs(best - middle))) {
                best = i;
            }
        }
        if (best < 0) {
            return null;
        }
        int a = best;
        int b = best;
        while (a > 0 && cut(a - 1)) {
            a--;
        }
        while (b < n - 1 && cut(b + 1)) {
            b++;
        }
        double depth = 0;
        for (int i = a; i <= b; i++) {
            depth = Math.max(depth, surfaceMm[i] - zMm[i]);
        }
        double left = Double.NaN;
        double right = Double.NaN;
        for (int i = Math.max(1, a); i <= Math.min(n - 1, b + 1); i++) {
            double d0 = surfaceMm[i - 1] - zMm[i - 1] - foilMm;
            double d1 = surfaceMm[i] - zMm[i] - foilMm;
            if (d0 < 0 && d1 >= 0 && Double.isNaN(left)) {
                left = (i - 1 + d0 / (d0 - d1)) * step;
            }
            if (d0 >= 0 && d1 < 0) {
                right = (i - 1 + d0 / (d0 - d1)) * step;
            }
        }
        return new Groove(Math.max(0, a - 0.5) * step, (b + 0.5) * step, left, right, depth);
    }

    private boolean cut(int i) {
        return surfaceMm[i] - zMm[i] > 0.0005;
    }
}
