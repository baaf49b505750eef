package foilproof.findings;

import foilproof.bench.Hold;
import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.List;
import java.util.Locale;

/**
 * Whether tape holds what is cut free against the cutter (I6; rule of thumb), and tabs against the Z spread (H4). The
 * sideways force is that of the side load; an up-spiral of 30 degrees pulls up with tan 30 of it (common practice, no
 * source).
 */
final class HoldDown implements Check {
    private static final double UP_PULL = 0.577;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.HOLD_WEAK, Kinds.TABS);
    }

    @Override
    public List<String> needsRows() {
        return List.of("H4", "I6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CutLoop loop : OutlineFit.through(x)) {
            RunFacts run = x.run(loop.run());
            if (run.blankFromRunMm(loop.deepestMm()) > -x.thicknessMm() + 1e-6) {
                continue;
            }
            if (loop.tabs().isEmpty() && !loop.closedByGaps()) {
                tape(x, run, loop, out);
            } else {
                tabs(x, run, loop, out);
            }
        }
    }

    private static void tape(Examination x, RunFacts run, CutLoop loop, FindingCollector out) {
        Tool tool = run.knownTool();
        double r = tool.cutRadiusAtHeightMm(0);
        double w = loop.extents().x1Mm() - loop.extents().x0Mm() - 2 * r;
        double h = loop.extents().y1Mm() - loop.extents().y0Mm() - 2 * r;
        double slug = x.limit(LimitKey.SLUG);
        // a slug of an inside cut is a chip unless it is larger each way (H6); a part is one unless both are small
        boolean inside = PartFree.insideAnother(x, loop);
        if (run.side().hold() != Hold.FULL_TAPE
                || (inside ? Math.min(w, h) : Math.max(w, h)) <= slug + 1e-6
                || tool.flutes().isEmpty()) {
            return;
        }
        Segments s = x.plan().segments();
        double pressure = x.limit(x.glass() ? LimitKey.CUTTING_PRESSURE_GLASS : LimitKey.CUTTING_PRESSURE_PAPER);
        double force = 0;
        int at = -1;
        for (int index : loop.strokes()) {
            Stroke stroke = x.paths().strokes().get(index);
            // only the last pass works on a part that hangs by the tape alone
            if (stroke.deepestMm() > loop.deepestMm() + 1e-6) {
                continue;
            }
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (s.planLengthMm(i) > 1e-6 && x.removes(i)) {
                    double load = ChipLoad.chipLoadMm(s, i, tool.flutes().getAsInt());
                    if (pressure * x.engagedMm(i) * load > force) {
                        double here = pressure * PassDepth.mm(x, i) * load;
                        at = here > force ? i : at;
                        force = Math.max(force, here);
                    }
                }
            }
        }
        if (at < 0) {
            return;
        }
        double pull = force * (tool.shape() == ToolShape.FLAT ? 1 + UP_PULL : 1);
        // the way's inner parallel: its corners, seen from inside, give back pi r2 at least (Steiner's formula)
        double area = Math.max(0, loop.areaMm2() - loop.lengthMm() * r + Math.PI * r * r);
        double holds = area * x.limit(LimitKey.HOLD_STRENGTH);
        double ratio = holds / pull;
        boolean watch = ratio < x.limit(LimitKey.HOLD_WATCH);
        if (ratio >= x.limit(LimitKey.HOLD_NOTE)) {
            return;
        }
        out.add(x.at(Finding.of(Kinds.HOLD_WEAK, watch ? Severity.WATCH : Severity.NOTE, Certainty.RULE_OF_THUMB), at)
                .box(
                        loop.extents().x0Mm(),
                        loop.extents().y0Mm(),
                        loop.extents().x1Mm(),
                        loop.extents().y1Mm())
                .atLeast(
                        new Measured("hold of the tape over pull of the cutter", ratio, "x", 0.3 * ratio),
                        x.limit(watch ? LimitKey.HOLD_WATCH : LimitKey.HOLD_NOTE))
                .says(String.format(
                        Locale.ROOT,
                        "The tape under the freed part (%.0f mm2) holds about %.1f N; the cutter pulls with about %.1f N"
                                + " (rule of thumb, +/- 30 %%): %.1f times.",
                        area,
                        holds,
                        pull,
                        ratio))
                .doThis("Use tabs, more or stronger tape, or take the last pass shallower and slower.")
                .build());
    }

    private static void tabs(Examination x, RunFacts run, CutLoop loop, FindingCollector out) {
        double deeper = x.spreadOf(run).toMm();
        double share = x.limit(LimitKey.TAB_SHARE);
        double worst = Double.POSITIVE_INFINITY;
        CutLoop.Tab which = null;
        for (CutLoop.Tab tab : loop.tabs()) {
            if (Double.isInfinite(tab.lowestMm())) {
                continue;
            }
            double high = x.thicknessMm() + Math.min(0, run.blankFromRunMm(tab.lowestMm()));
            double left = high <= 0 ? 0 : Math.max(0, high - Math.max(0, deeper)) / high;
            if (left < worst) {
                worst = left;
                which = tab;
            }
        }
        if (which == null || worst >= share - 1e-6) {
            return;
        }
        double high = x.thicknessMm() + Math.min(0, run.blankFromRunMm(which.lowestMm()));
        out.add(x.at(Finding.of(Kinds.TABS, Severity.WATCH, Certainty.SET_UP), which.segment())
                .at(which.xMm(), which.yMm())
                .atLeast(new Measured("section of the tab left at the deepest Z error", worst, "x", 0.02), share)
                .says("A tab is only " + Words.mm(Math.max(0, high)) + " thick; a Z error of " + Words.signedMm(deeper)
                        + ", which the set-up allows, leaves " + Words.number(worst * 100, 0) + " % of it.")
                .doThis("Make tabs 0.4 to 0.6 mm thick, or touch off more closely.")
                .build());
    }
}
