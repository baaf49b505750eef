package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import foilproof.motion.Toolpaths;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** The holes of a job in the blank's frame, all that is made at one place joined into one. */
final class Holes {
    private static final double SAME_PLACE_MM = 0.02;
    /** How far the box round a round way may be from square, mm: rounding and chords. */
    private static final double ROUND_MM = 0.03;

    private Holes() {}

    static List<Hole> find(Examination x) {
        List<Hole> holes = new ArrayList<>();
        for (foilproof.motion.Hole path : x.paths().holes()) {
            RunFacts run = x.run(path.run());
            boolean deep = run.blankFromRunMm(path.deepestMm()) < -x.foilMm() - 1e-6;
            if (run.tool() != null && deep && onBlank(x, path.xMm(), path.yMm()) && !brokenOff(x, path)) {
                merge(holes, hole(x, run, path));
            }
        }
        return List.copyOf(holes);
    }

    /**
     * Round holes cut free by a ring: a bore wider than twice its cutter leaves a loose core in the middle and is a hole
     * all the same. Kept apart from {@link #find}, since the outline of a round board is such a ring too: only what the
     * drill file asks for makes it a hole.
     */
    static List<Hole> ringed(Examination x) {
        List<Hole> holes = new ArrayList<>();
        Segments s = x.plan().segments();
        for (CutLoop loop : x.paths().loops()) {
            Extents box = loop.extents();
            double radius = (box.widthMm() + box.heightMm()) / 4;
            RunFacts run = x.run(loop.run());
            Tool tool = run.tool();
            boolean round = Math.abs(box.widthMm() - box.heightMm()) <= ROUND_MM + 0.01 * box.widthMm()
                    && Math.abs(loop.areaMm2() - Math.PI * radius * radius) <= 0.02 * Math.PI * radius * radius;
            if (tool == null || !round || loop.closedByGaps() || !loop.tabs().isEmpty()) {
                continue;
            }
            Stroke last =
                    x.paths().strokes().get(loop.strokes().get(loop.strokes().size() - 1));
            int deepest = last.firstSegment();
            for (int i = last.firstSegment(); i < last.endSegment(); i++) {
                if (s.isFeed(i) && s.lowestMm(i) < s.lowestMm(deepest) - 1e-9) {
                    deepest = i;
                }
            }
            double px = (box.x0Mm() + box.x1Mm()) / 2;
            double py = (box.y0Mm() + box.y1Mm()) / 2;
            double low = run.blankFromRunMm(loop.deepestMm());
            double top = x.side(run.side().number()).surfaceMm(px, py);
            double above = -x.thicknessAtMm(run.side().number(), px, py) - low;
            holes.add(new Hole(
                    run.side().number(),
                    px,
                    py,
                    loop.run(),
                    deepest,
                    true,
                    radius,
                    low,
                    low,
                    2 * (radius + tool.cutRadiusAtHeightMm(top - low)),
                    above < -1e-9 ? 0 : 2 * (radius + tool.cutRadiusAtHeightMm(Math.max(0, above))),
                    0,
                    1,
                    loop.strokes().size()));
        }
        return holes;
    }

    /** Whether an error ended the program in the middle of this stroke: what it would have become is not known. */
    private static boolean brokenOff(Examination x, foilproof.motion.Hole path) {
        var program = x.plan().programOf(path.firstSegment());
        return program.interpretation().end() == foilproof.language.Interpretation.End.ERROR
                && path.endSegment() == program.endSegment();
    }

    private static boolean onBlank(Examination x, double xMm, double yMm) {
        return xMm > 0
                && yMm > 0
                && xMm < x.job().blank().widthMm()
                && yMm < x.job().blank().heightMm();
    }

    private static Hole hole(Examination x, RunFacts run, foilproof.motion.Hole path) {
        Segments s = x.plan().segments();
        int deepest = path.firstSegment();
        for (int i = path.firstSegment(); i < path.endSegment(); i++) {
            if (s.isFeed(i) && s.lowestMm(i) < s.lowestMm(deepest) - 1e-9) {
                deepest = i;
            }
        }
        double top = x.side(run.side().number()).surfaceMm(path.xMm(), path.yMm());
        double tip = run.blankFromRunMm(path.deepestMm());
        double low = run.blankFromRunMm(BoreFloor.allRoundMm(s, path));
        Tool tool = Objects.requireNonNull(run.tool());
        double entry = 2 * (path.pathRadiusMm() + tool.cutRadiusAtHeightMm(top - low));
        double above = -x.thicknessAtMm(run.side().number(), path.xMm(), path.yMm()) - low;
        double exit = above < -1e-9 ? 0 : 2 * (path.pathRadiusMm() + tool.cutRadiusAtHeightMm(Math.max(0, above)));
        return new Hole(
                run.side().number(),
                path.xMm(),
                path.yMm(),
                path.run(),
                deepest,
                path.pathRadiusMm() > 0,
                path.pathRadiusMm(),
                tip,
                low,
                entry,
                exit,
                path.longestPlungeMm(),
                1,
                path.strokes());
    }

    /** The wider entry and exit of all that is made at one place count; the deepest gives line and tool. */
    private static void merge(List<Hole> holes, Hole next) {
        for (int i = 0; i < holes.size(); i++) {
            Hole old = holes.get(i);
            if (old.side() == next.side()
                    && StrictMath.hypot(old.xMm() - next.xMm(), old.yMm() - next.yMm()) <= SAME_PLACE_MM) {
                Hole deep = next.tipMm() < old.tipMm() - 1e-9 ? next : old;
                Hole flat = deep == next ? old : next;
                // copper cleared round a hole, or a spot mark, does not widen it
                boolean mark = -flat.tipMm() <= Toolpaths.COPPER_DEPTH_MM && -deep.tipMm() > 2 * -flat.tipMm();
                Hole wide = mark ? deep : flat;
                holes.set(
                        i,
                        new Hole(
                                deep.side(),
                                deep.xMm(),
                                deep.yMm(),
                                deep.run(),
                                deep.segment(),
                                old.bored() || next.bored(),
                                Math.max(deep.pathRadiusMm(), wide.pathRadiusMm()),
                                Math.min(old.tipMm(), next.tipMm()),
                                Math.min(old.circledMm(), next.circledMm()),
                                Math.max(deep.entryMm(), wide.entryMm()),
                                Math.max(old.exitMm(), next.exitMm()),
                                deep.longestPlungeMm(),
                                old.runs() + (old.run() == next.run() ? 0 : next.runs()),
                                old.pecks() + next.pecks()));
                return;
            }
        }
        holes.add(next);
    }
}
