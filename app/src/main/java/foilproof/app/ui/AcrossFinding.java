package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.findings.Finding;
import foilproof.findings.RunFacts;
import foilproof.motion.Segments;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The section that belongs to a finding: through its place, across the groove or strip that it is about. */
final class AcrossFinding {
    private static final double LEAST_MM = 0.6;
    private static final double MOST_MM = 2.5;
    private static final double MARGIN_MM = 0.45;

    private AcrossFinding() {}

    /** The section's ends on a side; null where the finding has no place. */
    static BenchModel.@Nullable Line line(JobScene s, Finding f, int side) {
        double[] at = f.atMm();
        if (at == null) {
            return null;
        }
        double[] n = across(s, f, side, at);
        double half = LEAST_MM;
        double[] box = f.boxMm();
        if (box != null) {
            double wide = Math.abs(n[0]) * (box[2] - box[0]) + Math.abs(n[1]) * (box[3] - box[1]);
            // A finding that many places share has a box of many grooves: then the one at its place is shown.
            half = wide / 2 + MARGIN_MM > MOST_MM ? half : Math.max(half, wide / 2 + MARGIN_MM);
        }
        return new BenchModel.Line(
                side, at[0] - n[0] * half, at[1] - n[1] * half, at[0] + n[0] * half, at[1] + n[1] * half);
    }

    /** Unit vector across the nearest cut: of the finding's own line where it names one; along X where there is none. */
    static double[] across(JobScene s, @Nullable Finding f, int side, double[] at) {
        Segments all = s.ground().plan().segments();
        int line = f == null || f.line() == null ? 0 : f.line();
        double best = Double.POSITIVE_INFINITY;
        double[] n = {1, 0};
        for (int pass = line > 0 ? 0 : 1; pass < 2; pass++) {
            for (int i = 0; i < all.size(); i++) {
                boolean meant = pass == 1
                        || f != null
                                && all.line(i) == line
                                && s.ground().plan().programOf(i).file().equals(f.program());
                if (!meant || !cuts(s, all, i, side)) {
                    continue;
                }
                double[] hit = nearest(all, i, at[0], at[1]);
                if (hit[0] < best) {
                    best = hit[0];
                    n = new double[] {hit[1], hit[2]};
                }
            }
            if (best < 2) {
                return n;
            }
        }
        return n;
    }

    private static boolean cuts(JobScene s, Segments all, int i, int side) {
        List<RunFacts> runs = s.ground().runs();
        int run = all.run(i);
        return !all.isRapid(i)
                && all.planLengthMm(i) > 1e-3
                && all.lowestMm(i) < 0.05
                && run >= 0
                && run < runs.size()
                && runs.get(run).side().number() == side;
    }

    /** Distance of a place from a segment's plan view, and the unit vector across the segment there. */
    static double[] nearest(Segments all, int i, double x, double y) {
        if (all.isArc(i)) {
            double dx = x - all.cxMm(i);
            double dy = y - all.cyMm(i);
            double r = Math.hypot(dx, dy);
            double[] box = all.planBox(i);
            double outX = Math.max(0, Math.max(box[0] - x, x - box[2]));
            double outY = Math.max(0, Math.max(box[1] - y, y - box[3]));
            double d = Math.max(Math.abs(r - all.radiusMm(i)), Math.hypot(outX, outY));
            return r < 1e-9 ? new double[] {d, 1, 0} : new double[] {d, dx / r, dy / r};
        }
        double ux = all.x1Mm(i) - all.x0Mm(i);
        double uy = all.y1Mm(i) - all.y0Mm(i);
        double length = Math.hypot(ux, uy);
        double t = ((x - all.x0Mm(i)) * ux + (y - all.y0Mm(i)) * uy) / (length * length);
        t = Math.max(0, Math.min(1, t));
        double d = Math.hypot(x - all.x0Mm(i) - t * ux, y - all.y0Mm(i) - t * uy);
        return new double[] {d, -uy / length, ux / length};
    }
}
