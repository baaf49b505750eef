package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** A small cutter that comes back to copper after it was down in the tape (I5; common practice, no source). */
final class TapeThenCopper implements Check {
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
        tapeThenCopper(x, out);
    }

    /** A small cutter that was in the tape and cuts copper again. */
    private static void tapeThenCopper(Examination x, FindingCollector out) {
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
            int cut = gummed.contains(name)
                            && !told.contains(name)
                            && x.copperWork().is(stroke)
                    ? CopperWork.firstCut(x, stroke)
                    : -1;
            if (cut >= 0) {
                told.add(name);
                out.add(x.at(Finding.of(Kinds.ORDER, Severity.WATCH, Certainty.RULE_OF_THUMB), cut)
                        .says(run.quotedName()
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
