package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.motion.Segments;
import foilproof.motion.Toolpaths;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** The holes of a job in the blank's frame, all that is made at one place joined into one. */
final class Holes {
    private static final double SAME_PLACE_MM = 0.02;

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
