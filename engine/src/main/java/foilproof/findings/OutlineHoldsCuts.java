package foilproof.findings;

import foilproof.design.Outline;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.List;

/** Copper work that lies outside the outline of the board (A23): outline and copper are of two boards. */
final class OutlineHoldsCuts implements Check {
    /** Grooves run round copper at the board's edge a little outside of it, mm. */
    private static final double BESIDE_MM = 1.0;
    /** A touch land or a word in the waste is no other board: share of the copper work's length. */
    private static final double SHARE = 0.1;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.OTHER_REVISION);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A23");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (var side : x.job().sides()) {
            side(x, side.number(), out);
        }
    }

    private static void side(Examination x, int side, FindingCollector out) {
        Outline drawn = x.design().read().outline();
        Outline laid = drawn == null ? null : drawn.mapped(x.design().blankFromDesign(side));
        List<Extents> cut = new ArrayList<>();
        for (CutLoop loop : OutlineFit.through(x)) {
            if (!OutlineFit.roundHole(loop)) {
                Extents e = loop.extents();
                double ax = x.stock().xOnSideMm(loop.side(), side, e.x0Mm());
                double bx = x.stock().xOnSideMm(loop.side(), side, e.x1Mm());
                double ay = x.stock().yOnSideMm(loop.side(), side, e.y0Mm());
                double by = x.stock().yOnSideMm(loop.side(), side, e.y1Mm());
                cut.add(new Extents(
                        Math.min(ax, bx), Math.min(ay, by), 0, Math.max(ax, bx), Math.max(ay, by), 0, false));
            }
        }
        double[] box = x.copperWork().boxOn(side);
        if (box == null) {
            return;
        }
        // slots and openings are no outlines of the board
        cut.removeIf(e -> (e.x1Mm() - e.x0Mm()) * (e.y1Mm() - e.y0Mm()) < 0.25 * (box[2] - box[0]) * (box[3] - box[1]));
        if (laid == null && cut.isEmpty()) {
            return;
        }
        Segments s = x.plan().segments();
        double all = 0;
        double beside = 0;
        int first = -1;
        for (Stroke stroke : x.copperWork().on(side)) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                int n = (int) Math.ceil(s.planLengthMm(i) / 0.5);
                for (int k = 0; k < n; k++) {
                    double[] p = s.pointAt(i, (k + 0.5) / n);
                    all += s.planLengthMm(i) / n;
                    if (outside(laid, cut, p[0], p[1])) {
                        beside += s.planLengthMm(i) / n;
                        first = first < 0 ? i : first;
                    }
                }
            }
        }
        if (first < 0 || beside < SHARE * all) {
            return;
        }
        out.add(x.at(Finding.of(Kinds.OTHER_REVISION, Severity.STOP, Certainty.GEOMETRY), first)
                .measured(Measured.mm("copper work outside the outline", beside, 0.5))
                .says("Of " + Words.number(all, 0) + " mm of copper work on side " + side + " "
                        + Words.number(beside, 0)
                        + " mm lie outside the outline of the board: outline and copper are of two boards, or one of them is"
                        + " misplaced.")
                .doThis(
                        "Export copper, holes and outline again from one revision, and check the work zero of each program.")
                .build());
    }

    private static boolean outside(
            @org.jspecify.annotations.Nullable Outline laid, List<Extents> cut, double x, double y) {
        if (laid != null) {
            for (double[] d :
                    new double[][] {{0, 0}, {BESIDE_MM, 0}, {-BESIDE_MM, 0}, {0, BESIDE_MM}, {0, -BESIDE_MM}}) {
                if (laid.holds(x + d[0], y + d[1])) {
                    return false;
                }
            }
            return true;
        }
        for (Extents e : cut) {
            if (x > e.x0Mm() - BESIDE_MM
                    && x < e.x1Mm() + BESIDE_MM
                    && y > e.y0Mm() - BESIDE_MM
                    && y < e.y1Mm() + BESIDE_MM) {
                return false;
            }
        }
        return true;
    }
}
