package foilproof.findings;

import foilproof.bench.Work;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Work of one side out of its usual order (K5): copper first, then bores, then the outline (common practice, no source).
 * The
 * first rounds of bores and outlines are shallow too and are no copper work. Of
 * outlines only those count that go through the blank round the place of the later work.
 */
final class WorkOrder implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.ORDER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G14", "K5");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (var side : x.job().sides()) {
            one(x, side.number(), out);
        }
    }

    private static void one(Examination x, int side, FindingCollector out) {
        Stroke bore = null;
        Set<Integer> inside = new HashSet<>();
        for (CutLoop loop : x.paths().outlines()) {
            inside.addAll(loop.strokes());
        }
        for (Stroke stroke : x.paths().strokes()) {
            RunFacts run = x.run(stroke.run());
            if (run.side().number() != side || run.tool() == null || !removes(x, stroke)) {
                continue;
            }
            Work work = x.paths().workOf(stroke);
            boolean copper = x.copperWork().is(stroke);
            boolean opening = inside.contains(stroke.index());
            boolean boring = work == Work.BORING && x.paths().makesHole(stroke);
            Stroke outline = copper || boring || opening ? outlineRound(x, stroke) : null;
            if (outline != null) {
                tell(
                        x,
                        stroke,
                        outline,
                        (copper ? "copper work" : boring ? "boring" : "an inside cut") + " comes after the outline cut",
                        "the board may already move when it is cut out.",
                        out);
                return;
            }
            if (copper && bore != null) {
                tell(
                        x,
                        stroke,
                        bore,
                        "copper work comes after boring",
                        "burrs of the holes lift the cutter and spoil the next touch-off.",
                        out);
                return;
            }
            bore = boring && bore == null && amongCopper(x, stroke) && !forPin(x, stroke) ? stroke : bore;
        }
    }

    /** Whether a hole takes an indication pin of any side: those come first. */
    private static boolean forPin(Examination x, Stroke hole) {
        int own = x.run(hole.run()).side().number();
        double px = (hole.extents().x0Mm() + hole.extents().x1Mm()) / 2;
        double py = (hole.extents().y0Mm() + hole.extents().y1Mm()) / 2;
        for (var side : x.job().sides()) {
            for (var pin : side.pinsMm()) {
                double dx = x.stock().xOnSideMm(own, side.number(), px) - pin.xMm();
                double dy = x.stock().yOnSideMm(own, side.number(), py) - pin.yMm();
                if (Math.abs(dx) < 1 && Math.abs(dy) < 1) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether a hole lies within the copper work of its side; holes for pins beside it may come first. */
    private static boolean amongCopper(Examination x, Stroke hole) {
        double[] box = x.copperWork().boxOn(x.run(hole.run()).side().number());
        return box != null
                && hole.extents().x0Mm() > box[0]
                && hole.extents().y0Mm() > box[1]
                && hole.extents().x1Mm() < box[2]
                && hole.extents().y1Mm() < box[3];
    }

    private static boolean removes(Examination x, Stroke stroke) {
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            if (x.removes(i)) {
                return true;
            }
        }
        return false;
    }

    /** The last pass of a through cut that was closed before a stroke and goes round it, or null. */
    private static @Nullable Stroke outlineRound(Examination x, Stroke stroke) {
        for (CutLoop loop : x.paths().outlines()) {
            RunFacts run = x.run(loop.run());
            Stroke last =
                    x.paths().strokes().get(loop.strokes().get(loop.strokes().size() - 1));
            boolean round = loop.side() == x.run(stroke.run()).side().number()
                    && last.endSegment() <= stroke.firstSegment()
                    && run.blankFromRunMm(loop.deepestMm()) <= -x.thicknessMm() + 1e-6
                    && loop.extents().x0Mm() < stroke.extents().x0Mm()
                    && loop.extents().y0Mm() < stroke.extents().y0Mm()
                    && loop.extents().x1Mm() > stroke.extents().x1Mm()
                    && loop.extents().y1Mm() > stroke.extents().y1Mm();
            if (round) {
                return last;
            }
        }
        return null;
    }

    private static void tell(
            Examination x, Stroke stroke, Stroke before, String what, String why, FindingCollector out) {
        Segments s = x.plan().segments();
        int i = stroke.firstSegment();
        while (i + 1 < stroke.endSegment() && !x.removes(i)) {
            i++;
        }
        int of = before.firstSegment();
        out.add(x.at(Finding.of(Kinds.ORDER, Severity.WATCH, Certainty.RULE_OF_THUMB), i)
                .says("Here " + what + " (line " + s.line(of) + " of "
                        + x.plan().programOf(of).file() + "): " + why)
                .doThis("Do copper first, brush, then bores, then inside cuts, then the outline.")
                .build());
    }
}
