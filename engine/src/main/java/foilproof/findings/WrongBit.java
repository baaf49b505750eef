package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.Work;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * A V-shaped bit where width matters at depth (C12, G1): holes that are cones, outlines with slanting walls. Also told
 * where the bit may still be in the collet because nobody is asked to change it.
 */
final class WrongBit implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.WRONG_BIT_DRILLING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C12", "G1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null && run.tool().shape() == ToolShape.V) {
                holes(x, run, out);
                lateral(x, run, out);
            }
            conditional(x, run, out);
        }
    }

    private static void holes(Examination x, RunFacts run, FindingCollector out) {
        List<Hole> cones = new ArrayList<>();
        for (Hole hole : x.holes()) {
            if (hole.run() == run.run().index() && -hole.tipMm() > x.limit(LimitKey.V_DEPTH) + 1e-6) {
                cones.add(hole);
            }
        }
        if (cones.isEmpty()) {
            return;
        }
        Hole first = cones.get(0);
        out.add(x.at(Finding.of(Kinds.WRONG_BIT_DRILLING, Severity.STOP, Certainty.GEOMETRY), first.segment())
                .at(first.xMm(), first.yMm())
                .atMost(Measured.mm("depth of the V-shaped bit", -first.tipMm(), 0.001), x.limit(LimitKey.V_DEPTH))
                .says((cones.size() == 1 ? "A hole is" : cones.size() + " holes are") + " made with the V-shaped bit "
                        + run.quotedName() + ": entry " + Words.mm(first.entryMm()) + ", exit "
                        + Words.mm(first.exitMm()) + ". "
                        + wire(x, run.knownTool(), -first.tipMm(), first.pathRadiusMm()))
                .doThis("Put a drill or an end mill into the collet for the holes.")
                .build());
    }

    /** Where the wire stops in a cone, in words: its depth is where the bit is as wide as the wire. */
    private static String wire(Examination x, Tool bit, double depthMm, double pathRadiusMm) {
        double wireMm = x.limit(LimitKey.LEAST_WIRE);
        double stops = wireStopsMm(bit, depthMm, wireMm, pathRadiusMm);
        if (stops <= 0) {
            return "A " + Words.number(wireMm, 2) + " mm wire does not enter.";
        }
        return stops >= x.thicknessMm()
                ? "A " + Words.number(wireMm, 2) + " mm wire passes."
                : "A " + Words.number(wireMm, 2) + " mm wire stops " + Words.plainMm(stops) + " down.";
    }

    /** How deep a wire goes into a hole that a bit plunged to a depth leaves, mm below the foil top. */
    static double wireStopsMm(Tool bit, double depthMm, double wireMm, double pathRadiusMm) {
        double low = 0;
        double high = depthMm;
        if (bit.cutRadiusAtHeightMm(0) + pathRadiusMm >= wireMm / 2) {
            return depthMm;
        }
        for (int k = 0; k < 60; k++) {
            double mid = (low + high) / 2;
            if (bit.cutRadiusAtHeightMm(mid) + pathRadiusMm < wireMm / 2) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return depthMm - high;
    }

    private static void lateral(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        double limit = x.limit(LimitKey.V_DEPTH);
        int first = -1;
        double deepest = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            double depth = belowFoilMm(x, run, s, i);
            if (s.isFeed(i) && s.planLengthMm(i) > 1e-6 && depth > limit + 1e-6 && x.overBlank(i) && !inHole(x, i)) {
                first = first < 0 ? i : first;
                deepest = Math.max(deepest, depth);
            }
        }
        if (first < 0) {
            return;
        }
        boolean through = deepest > x.thicknessMm() / 2 || x.workOf(first) == Work.OUTLINE;
        Tool bit = java.util.Objects.requireNonNull(run.tool());
        out.add(x.at(Finding.of(Kinds.WRONG_BIT_DRILLING, Severity.STOP, Certainty.GEOMETRY), first)
                .atMost(Measured.mm("depth of the V-shaped bit", deepest, 0.001), limit)
                .says("The V-shaped bit " + run.quotedName() + " cuts " + Words.mm(deepest) + " deep"
                        + (through ? " as if it were an end mill" : "") + ": the cut is "
                        + Words.mm(2 * bit.cutRadiusAtHeightMm(deepest)) + " wide at the top and "
                        + Words.mm(2 * bit.cutRadiusAtHeightMm(0)) + " at its floor.")
                .doThis("Cut this with a flat end mill, or check the depth.")
                .build());
    }

    /**
     * How deep a move goes below the foil as it lies, where that is low: a cut that follows a dished blank is no deeper
     * than its groove. Asked at both ends and in the middle; a move's Z is even between its ends.
     */
    private static double belowFoilMm(Examination x, RunFacts run, Segments s, int segment) {
        double most = Double.NEGATIVE_INFINITY;
        for (int k = 0; k <= 2; k++) {
            double[] p = s.pointAt(segment, k / 2.0);
            double foilTop = x.side(run.side().number()).surfaceMm(p[0], p[1]);
            most = Math.max(most, Math.min(0, foilTop) - run.blankFromRunMm(p[2]));
        }
        return most;
    }

    private static boolean inHole(Examination x, int segment) {
        if (x.workOf(segment) != Work.BORING) {
            return false;
        }
        for (foilproof.motion.Hole hole : x.paths().holes()) {
            if (hole.firstSegment() <= segment && segment < hole.endSegment()) {
                return true;
            }
        }
        return false;
    }

    /** Holes of a run whose cutter nobody is asked to put in: what a bit from the run before would leave. */
    private static void conditional(Examination x, RunFacts run, FindingCollector out) {
        RunFacts before = LengthOffsets.unchangedFrom(x, run);
        if (before == null || before.tool() == null || before.tool().shape() != ToolShape.V) {
            return;
        }
        for (Hole hole : x.holes()) {
            if (hole.run() == run.run().index()) {
                Tool bit = before.tool();
                double depth = -hole.tipMm();
                double above = -x.thicknessMm() - hole.tipMm();
                double exit = above < 0 ? 0 : 2 * bit.cutRadiusAtHeightMm(above);
                out.add(x.at(Finding.of(Kinds.WRONG_BIT_DRILLING, Severity.WATCH, Certainty.SET_UP), hole.segment())
                        .at(hole.xMm(), hole.yMm())
                        .measured(Measured.mm("exit", exit, 0.001))
                        .says("If " + before.quotedName()
                                + " is still in the collet here, its tip is gone at this first"
                                + " hole: entry " + Words.mm(2 * bit.cutRadiusAtHeightMm(depth)) + ", exit "
                                + Words.mm(exit) + ". " + wire(x, bit, depth, 0))
                        .doThis("Add a program stop (M0) after the tool change, and change the cutter there.")
                        .build());
                return;
            }
        }
    }
}
