package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.List;

/**
 * Holes whose full diameter does not pass the thickest blank that the spread allows (G4, I3), and outlines that leave a
 * skin there (H8).
 */
final class NotThrough implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.NOT_THROUGH);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G4", "H8", "I3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        holes(x, out);
        outlines(x, out);
    }

    /**
     * How much thicker the blank may be below a cut, mm: nothing where the zero lies on the spoil board, since the
     * blank's underside, on its tape, is then where it is however thick the blank.
     */
    private static double spreadMm(Examination x, RunFacts run) {
        return run.zeroOnSpoilBoard() ? 0 : x.job().spread().thicknessMm();
    }

    private static void holes(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            double spread = spreadMm(x, run);
            int count = 0;
            Hole worst = null;
            double worstMm = 0;
            for (Hole hole : x.holes()) {
                double depth = fullDepthMm(x, hole);
                // half way and less is a spot mark or a blind recess, not a failed hole
                if (hole.run() != run.run().index() || depth < x.thicknessMm() / 2) {
                    continue;
                }
                double missing = thickestMm(x, hole) - depth;
                if (missing > ROUNDING_MM) {
                    count++;
                    if (worst == null || missing > worstMm + ROUNDING_MM) {
                        worst = hole;
                        worstMm = missing;
                    }
                }
            }
            if (worst == null) {
                continue;
            }
            boolean nominal = worstMm > spread + ROUNDING_MM;
            out.add(x.at(
                            Finding.of(
                                    Kinds.NOT_THROUGH, Severity.FIX, nominal ? Certainty.GEOMETRY : Certainty.SET_UP),
                            worst.segment())
                    .at(worst.xMm(), worst.yMm())
                    .atLeast(Measured.mm("depth at full diameter", fullDepthMm(x, worst), 0.001), thickestMm(x, worst))
                    .says((count == 1 ? "A hole does" : count + " holes do") + " not go through at full diameter: "
                            + Words.mm(fullDepthMm(x, worst)) + " deep in a blank of "
                            + Words.plainMm(thickestMm(x, worst) - spread)
                            + (nominal ? "." : " that may be " + Words.plainMm(spread) + " thicker."))
                    .doThis("Go " + Words.plainMm(worstMm) + " deeper or more"
                            + (isDrill(x, worst) ? " (a drill's point counts extra)." : "."))
                    .build());
        }
    }

    private static double thickestMm(Examination x, Hole hole) {
        return x.thicknessAtMm(hole.side(), hole.xMm(), hole.yMm()) + spreadMm(x, x.run(hole.run()));
    }

    /** Outlines and inside cuts that stop short of the thickest blank; tabs do not count, the deepest place does. */
    private static void outlines(Examination x, FindingCollector out) {
        double skin = x.limit(LimitKey.FLOOR_LEFT);
        for (RunFacts run : x.runs()) {
            double spread = spreadMm(x, run);
            CutLoop worst = null;
            double worstMm = 0;
            int count = 0;
            for (CutLoop loop : x.paths().deepLoops()) {
                double depth = -run.blankFromRunMm(loop.deepestMm());
                // half way and less is a recess, not an outline that failed
                if (loop.run() != run.run().index() || run.tool() == null || depth < x.thicknessMm() / 2) {
                    continue;
                }
                double left = thickestMm(x, loop) - depth;
                if (left > skin + ROUNDING_MM) {
                    count++;
                    worst = worst == null || left > worstMm + ROUNDING_MM ? loop : worst;
                    worstMm = Math.max(worstMm, left);
                }
            }
            if (worst == null) {
                continue;
            }
            boolean nominal = worstMm > spread + skin + ROUNDING_MM;
            out.add(x.at(
                            Finding.of(
                                    Kinds.NOT_THROUGH, Severity.FIX, nominal ? Certainty.GEOMETRY : Certainty.SET_UP),
                            deepest(x, worst))
                    .atMost(Measured.mm("skin left below the outline cut", worstMm, 0.001), skin)
                    .says((count == 1 ? "An outline cut does" : count + " outline cuts do") + " not go through: "
                            + Words.mm(worstMm) + " of substrate stay below it in a blank of "
                            + Words.plainMm(x.thicknessMm())
                            + (nominal ? "." : " that may be " + Words.plainMm(spread) + " thicker."))
                    .doThis("Go 0.15 mm below the blank's underside.")
                    .build());
        }
    }

    /** The thickest place of the blank along the deepest pass of a loop, mm. */
    private static double thickestMm(Examination x, CutLoop loop) {
        Segments s = x.plan().segments();
        double thickest = Double.NEGATIVE_INFINITY;
        for (int k : loop.strokes()) {
            Stroke stroke = x.paths().strokes().get(k);
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (s.lowestMm(i) <= loop.deepestMm() + ROUNDING_MM) {
                    thickest = Math.max(thickest, x.thicknessAtMm(loop.side(), s.x1Mm(i), s.y1Mm(i)));
                }
            }
        }
        return (Double.isInfinite(thickest) ? x.thicknessMm() : thickest) + spreadMm(x, x.run(loop.run()));
    }

    /** The first move of a loop at its deepest place. */
    private static int deepest(Examination x, CutLoop loop) {
        Segments s = x.plan().segments();
        for (int k : loop.strokes()) {
            Stroke stroke = x.paths().strokes().get(k);
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (s.isFeed(i) && s.planLengthMm(i) > ROUNDING_MM && s.lowestMm(i) <= loop.deepestMm() + ROUNDING_MM) {
                    return i;
                }
            }
        }
        return x.paths().strokes().get(loop.strokes().get(0)).firstSegment();
    }

    /** Depth below the foil top down to which the hole has its full diameter, mm. */
    static double fullDepthMm(Examination x, Hole hole) {
        Tool tool = x.run(hole.run()).tool();
        double point = tool != null && tool.shape() == ToolShape.DRILL ? tool.pointLengthMm() : 0;
        return -(hole.circledMm() + point);
    }

    private static boolean isDrill(Examination x, Hole hole) {
        Tool tool = x.run(hole.run()).tool();
        return tool != null && tool.shape() == ToolShape.DRILL;
    }
}
