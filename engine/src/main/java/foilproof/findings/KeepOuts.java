package foilproof.findings;

import foilproof.bench.KeepOut;
import foilproof.bench.LimitKey;
import foilproof.bench.Machine;
import foilproof.bench.Tool;
import foilproof.motion.Segments;
import java.util.List;

/** Cutter, shank or collet nut in a clamp, bracket or pin (B13, B15, I7, I8). */
final class KeepOuts implements Check {
    private static final double PLUS_MINUS_MM = 0.01;

    /** Places along a move at which the distance is taken lie this near to each other, mm. */
    private static final double STEP_MM = 0.05;

    private static final int MOST_SAMPLES = 4096;

    /** How near the rotating stack comes to a box, mm, and where its axis is then. */
    private record Approach(double gapMm, double xMm, double yMm) {
        private static final Approach NONE = new Approach(Double.POSITIVE_INFINITY, Double.NaN, Double.NaN);
    }

    @Override
    public List<String> kinds() {
        return List.of(Kinds.KEEP_OUT_CONTACT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B13", "B15", "I7", "I8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (x.job().keepOuts().isEmpty()) {
            out.notChecked("contact with clamps, brackets and pins", "no [[keep_out]] is given");
            return;
        }
        for (RunFacts run : x.runs()) {
            for (KeepOut box : x.job().keepOuts()) {
                judge(x, run, box, out);
            }
        }
    }

    private static void judge(Examination x, RunFacts run, KeepOut box, FindingCollector out) {
        Segments s = x.plan().segments();
        if (run.tool() == null) {
            return;
        }
        double clearMm = x.limit(LimitKey.KEEP_OUT_CLEAR);
        int first = -1;
        Approach there = Approach.NONE;
        double nearestMm = Double.POSITIVE_INFINITY;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (s.has(i, Segments.POSITION_UNKNOWN) || s.has(i, Segments.START_UNKNOWN)) {
                continue;
            }
            Approach gap = approach(x, s, i, run, box, clearMm);
            if (gap.gapMm() < clearMm - 1e-9) {
                there = first < 0 ? gap : there;
                first = first < 0 ? i : first;
                nearestMm = Math.min(nearestMm, gap.gapMm());
            }
        }
        if (first < 0) {
            return;
        }
        boolean hit = nearestMm <= 0;
        out.add(x.at(Finding.of(Kinds.KEEP_OUT_CONTACT, Severity.STOP, Certainty.SET_UP), first)
                .at(there.xMm(), there.yMm())
                .box(box.x0Mm(), box.y0Mm(), box.x1Mm(), box.y1Mm())
                .atLeast(Measured.mm("distance from " + box.name(), nearestMm, PLUS_MINUS_MM), clearMm)
                .says(
                        hit
                                ? "The cutter, its shank or the collet nut runs into \"" + box.name()
                                        + "\", whose top lies " + Words.plainMm(box.topMm()) + " above the foil."
                                : "The cutter, its shank or the collet nut passes \"" + box.name() + "\" at "
                                        + Words.mm(nearestMm, PLUS_MINUS_MM) + "; at least " + Words.plainMm(clearMm)
                                        + " is wanted.")
                .doThis("Move \"" + box.name() + "\", or lift higher before passing it.")
                .build());
    }

    /** Least distance in plan between the rotating stack below the box's top and the box; infinite when above. */
    private static Approach approach(Examination x, Segments s, int i, RunFacts run, KeepOut box, double clearMm) {
        double topMm = box.topMm();
        double lowest = run.blankFromRunMm(s.lowestMm(i));
        if (lowest >= topMm) {
            return Approach.NONE;
        }
        double widestMm = stackRadiusMm(x, run.knownTool(), topMm - lowest);
        double[] plan = s.planBox(i);
        double apartX = Math.max(box.x0Mm() - plan[2], plan[0] - box.x1Mm());
        double apartY = Math.max(box.y0Mm() - plan[3], plan[1] - box.y1Mm());
        if (apartX > widestMm + clearMm || apartY > widestMm + clearMm) {
            return Approach.NONE;
        }
        Approach best = Approach.NONE;
        int samples = (int) Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(s.lengthMm(i) / STEP_MM)));
        for (int k = 0; k <= samples; k++) {
            double[] p = s.pointAt(i, (double) k / samples);
            double z = run.blankFromRunMm(p[2]);
            if (z < topMm) {
                double dx = Math.max(0, Math.max(box.x0Mm() - p[0], p[0] - box.x1Mm()));
                double dy = Math.max(0, Math.max(box.y0Mm() - p[1], p[1] - box.y1Mm()));
                double gap = Math.sqrt(dx * dx + dy * dy) - stackRadiusMm(x, run.knownTool(), topMm - z);
                best = gap < best.gapMm() ? new Approach(gap, p[0], p[1]) : best;
            }
        }
        return best;
    }

    /** Largest radius of cutter, shank and collet nut within {@code heightMm} above the tip, mm. */
    static double stackRadiusMm(Examination x, Tool tool, double heightMm) {
        double radius = tool.cutRadiusAtHeightMm(heightMm);
        if (tool.fluteLengthMm().isPresent()
                && tool.shankMm().isPresent()
                && heightMm > tool.fluteLengthMm().getAsDouble()) {
            radius = Math.max(radius, tool.shankMm().getAsDouble() / 2);
        }
        Machine.ColletNut nut = x.job().machine().colletNut();
        if (nut != null
                && tool.stickOutMm().isPresent()
                && heightMm > tool.stickOutMm().getAsDouble()) {
            radius = Math.max(radius, nut.diameterMm() / 2);
        }
        return radius;
    }
}
