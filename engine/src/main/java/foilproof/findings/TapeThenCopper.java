package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** A small cutter that comes back to copper after it was down in the tape (I5; common practice, no source). */
final class TapeThenCopper implements Check {
    /** A shallow stroke over the box of a deep one, within this, is its first pass, mm. */
    private static final double SAME_WAY_MM = 0.5;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.ORDER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("I5");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        tapeThenCopper(x, deepStrokes(x), out);
    }

    /** Strokes that belong to an outline or an inside cut, its shallow first passes included. */
    static Set<Integer> deepStrokes(Examination x) {
        Set<Integer> deep = new HashSet<>();
        for (CutLoop loop : x.paths().outlines()) {
            deep.addAll(loop.strokes());
        }
        Map<Integer, List<Extents>> boxes = new TreeMap<>();
        for (Stroke stroke : x.paths().strokes()) {
            if (!x.paths().makesHole(stroke) && stroke.depthMm() > foilproof.motion.Toolpaths.COPPER_DEPTH_MM) {
                boxes.computeIfAbsent(stroke.run(), r -> new ArrayList<>()).add(stroke.extents());
            }
        }
        for (Stroke stroke : x.paths().strokes()) {
            for (Extents box : boxes.getOrDefault(stroke.run(), List.of())) {
                Extents e = stroke.extents();
                if (Math.abs(e.x0Mm() - box.x0Mm()) < SAME_WAY_MM
                        && Math.abs(e.y0Mm() - box.y0Mm()) < SAME_WAY_MM
                        && Math.abs(e.x1Mm() - box.x1Mm()) < SAME_WAY_MM
                        && Math.abs(e.y1Mm() - box.y1Mm()) < SAME_WAY_MM) {
                    deep.add(stroke.index());
                    break;
                }
            }
        }
        return deep;
    }

    /** Whether a stroke is isolation or clearing: no first pass of an outline, no part of a hole, no mark. */
    static boolean copperWork(Examination x, Stroke stroke, Set<Integer> deep) {
        if (deep.contains(stroke.index()) || x.paths().makesHole(stroke) || stroke.vertical()) {
            return false;
        }
        Work work = x.paths().workOf(stroke);
        return (work == Work.ISOLATION || work == Work.CLEARING) && firstCut(x, stroke) >= 0;
    }

    /** Whether any program of the job isolates or clears copper. */
    static boolean anyCopperWork(Examination x) {
        Set<Integer> deep = deepStrokes(x);
        return x.paths().strokes().stream().anyMatch(stroke -> copperWork(x, stroke, deep));
    }

    private static int firstCut(Examination x, Stroke stroke) {
        Segments s = x.plan().segments();
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            if (s.planLengthMm(i) > 1e-6 && x.removes(i)) {
                return i;
            }
        }
        return -1;
    }

    /** A small cutter that was in the tape and cuts copper again. */
    private static void tapeThenCopper(Examination x, Set<Integer> deep, FindingCollector out) {
        Segments s = x.plan().segments();
        Set<String> gummed = new HashSet<>();
        Set<String> told = new HashSet<>();
        double small = x.limit(LimitKey.SMALL_TOOL);
        for (Stroke stroke : x.paths().strokes()) {
            RunFacts run = x.run(stroke.run());
            if (run.tool() == null || !FeedAndSpindle.small(run.knownTool(), small)) {
                continue;
            }
            String name = run.toolName();
            int cut = gummed.contains(name) && !told.contains(name) && copperWork(x, stroke, deep)
                    ? firstCut(x, stroke)
                    : -1;
            if (cut >= 0) {
                told.add(name);
                out.add(x.at(Finding.of(Kinds.ORDER, Severity.WATCH, Certainty.RULE_OF_THUMB), cut)
                        .says(name
                                + " cuts copper here after it was down in the tape: glue in its flutes smears the foil"
                                + " and holds chips. It was there before line " + s.line(cut) + ".")
                        .doThis(
                                "Do the copper first, use another cutter for through-cuts, or wipe the cutter before this"
                                        + " line.")
                        .build());
            }
            if (run.side().tapeMm() > 0 && run.blankFromRunMm(stroke.deepestMm()) < -x.thicknessMm() - 1e-6) {
                gummed.add(name);
            }
        }
    }
}
