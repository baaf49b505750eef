package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.DrillFile;
import foilproof.design.PathEdge;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.List;

/**
 * Slots of the drill file against what is cut through the blank: webs and cusps between overlapping holes (G10), and
 * slots that nothing makes (G3).
 */
final class Slots implements Check {
    private static final double STEP_MM = 0.01;
    /** A cusp is known no better than this: half a step beside its tip its wall is lower by so much, mm. */
    private static final double ERROR_MM = 0.004;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SLOT_WEB, Kinds.HOLE_MISSING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G3", "G10");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        DrillFile drill = x.design().read().drill();
        boolean boring = x.holes().stream().anyMatch(h -> h.meantThrough(x.thicknessMm()))
                || !OutlineFit.through(x).isEmpty();
        if (drill == null || !boring) {
            return;
        }
        List<Finding> missing = new ArrayList<>();
        List<Finding> webs = new ArrayList<>();
        for (DrillFile.Slot slot : drill.slots()) {
            judge(x, slot, missing, webs);
        }
        for (List<Finding> all : List.of(missing, webs)) {
            if (!all.isEmpty()) {
                out.add(all.get(0).withConsequences(all.subList(1, all.size())));
            }
        }
    }

    /** Points along the path of a slot with the direction there: x, y, ux, uy; frame of side 1. */
    private static List<double[]> along(Examination x, DrillFile.Slot slot) {
        PlaneMap map = x.design().blankFromDesign(1);
        List<double[]> points = new ArrayList<>();
        for (PathEdge raw : slot.path()) {
            PathEdge e = raw.mapped(map);
            int n = Math.max(1, (int) Math.ceil(e.lengthMm() / STEP_MM));
            for (int k = 0; k <= n; k++) {
                double f = (double) k / n;
                if (e.isArc()) {
                    double a = StrictMath.atan2(e.y0Mm() - e.cyMm(), e.x0Mm() - e.cxMm()) + f * e.turnRad();
                    double hand = Math.signum(e.turnRad());
                    points.add(new double[] {
                        e.cxMm() + e.radiusMm() * StrictMath.cos(a),
                        e.cyMm() + e.radiusMm() * StrictMath.sin(a),
                        -StrictMath.sin(a) * hand,
                        StrictMath.cos(a) * hand
                    });
                } else {
                    double dx = e.x1Mm() - e.x0Mm();
                    double dy = e.y1Mm() - e.y0Mm();
                    double d = Math.max(1e-9, StrictMath.hypot(dx, dy));
                    points.add(new double[] {e.x0Mm() + f * dx, e.y0Mm() + f * dy, dx / d, dy / d});
                }
            }
        }
        return points;
    }

    private static boolean open(Examination x, double px, double py) {
        for (var side : x.job().sides()) {
            double sx = x.stock().xOnSideMm(1, side.number(), px);
            double sy = x.stock().yOnSideMm(1, side.number(), py);
            if (x.side(side.number()).exactCutMm(sx, sy) <= -x.thicknessMm() + 0.02) {
                return true;
            }
        }
        return false;
    }

    /** How far the slot is open on one side of a place on its path, at most its half width, mm. */
    private static double reachMm(Examination x, double[] p, int hand, double half) {
        double open = 0;
        double shut = half;
        while (shut - open > ERROR_MM / 4) {
            double mid = (open + shut) / 2;
            if (open(x, p[0] - p[3] * hand * mid, p[1] + p[2] * hand * mid)) {
                open = mid;
            } else {
                shut = mid;
            }
        }
        return shut;
    }

    private static void judge(Examination x, DrillFile.Slot slot, List<Finding> missing, List<Finding> webs) {
        List<double[]> points = along(x, slot);
        double half = slot.tool().diameterMm() / 2;
        int opened = 0;
        double web = 0;
        double longest = 0;
        double cusp = 0;
        double[] at = points.get(0);
        for (int i = 0; i < points.size(); i++) {
            double[] p = points.get(i);
            if (open(x, p[0], p[1])) {
                opened++;
                web = 0;
                for (int hand = -1; hand <= 1; hand += 2) {
                    double reach = reachMm(x, p, hand, half);
                    if (half - reach > Math.max(cusp, longest)) {
                        at = p;
                    }
                    cusp = Math.max(cusp, half - reach);
                }
            } else {
                double[] q = points.get(Math.max(0, i - 1));
                web += StrictMath.hypot(p[0] - q[0], p[1] - q[1]);
                if (web > Math.max(longest, cusp)) {
                    at = p;
                }
                longest = Math.max(longest, web);
            }
        }
        double limit = x.limit(LimitKey.SLOT_WEB);
        String size = Words.mm(2 * half) + " wide slot of line " + slot.line() + " of the drill file";
        if (opened == 0) {
            missing.add(Finding.of(Kinds.HOLE_MISSING, Severity.STOP, Certainty.GEOMETRY)
                    .side(1)
                    .at(at[0], at[1])
                    .says("The " + size + " begins here, and no program makes it.")
                    .doThis("Check that drill file and programs come from one export, and that no program is missing.")
                    .build());
        } else if (Math.max(longest, cusp) > limit + 1e-6) {
            boolean bar = longest >= cusp;
            double errorMm = bar ? 2 * STEP_MM : ERROR_MM;
            webs.add(Finding.of(Kinds.SLOT_WEB, Severity.FIX, Certainty.GEOMETRY)
                    .side(1)
                    .at(at[0], at[1])
                    .atMost(Measured.mm(bar ? "web left" : "cusp left", Math.max(longest, cusp), errorMm), limit)
                    .says("In the " + size + " a " + (bar ? "web" : "cusp") + " of "
                            + Words.mm(Math.max(longest, cusp), errorMm) + " is left standing.")
                    .doThis("Mill the slot along its path, or set the holes closer together.")
                    .build());
        }
    }

    /** Whether a hole lies in a slot of the drill file: it is part of it and no hole of its own. */
    static boolean inSlot(Examination x, DrillFile drill, Hole hole) {
        double px = x.stock().xOnSideMm(hole.side(), 1, hole.xMm());
        double py = x.stock().yOnSideMm(hole.side(), 1, hole.yMm());
        for (DrillFile.Slot slot : drill.slots()) {
            for (double[] p : along(x, slot)) {
                if (StrictMath.hypot(p[0] - px, p[1] - py) < slot.tool().diameterMm() / 2) {
                    return true;
                }
            }
        }
        return false;
    }
}
