package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;
import java.util.List;

/** Too much depth in one pass (H7); common practice, no source. One line per tool run. */
final class DeepPass implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.DEEP_PASS);
    }

    @Override
    public List<String> needsRows() {
        return List.of("H7");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool == null || tool.shape() != ToolShape.FLAT && tool.shape() != ToolShape.BALL) {
                continue;
            }
            double most =
                    tool.diameterMm() * x.limit(x.glass() ? LimitKey.PASS_DEPTH_GLASS : LimitKey.PASS_DEPTH_PAPER);
            int first = -1;
            double deepest = most;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                // a pass takes its depth over some length; the foot of a plunge belongs to the plunge
                if (s.isFeed(i) && s.planLengthMm(i) > 1e-6 && x.engagedMm(i) > deepest + 1e-6) {
                    double depth = PassDepth.mm(x, i);
                    if (depth > most + 1e-6) {
                        first = first < 0 ? i : first;
                        deepest = Math.max(deepest, depth);
                    }
                }
            }
            if (first < 0) {
                continue;
            }
            boolean fix = deepest > most * x.limit(LimitKey.PASS_DEPTH_FIX);
            out.add(x.at(
                            Finding.of(Kinds.DEEP_PASS, fix ? Severity.FIX : Severity.WATCH, Certainty.RULE_OF_THUMB),
                            first)
                    .atMost(Measured.mm("depth per pass", deepest, 0.005), most)
                    .says("One pass takes " + Words.mm(deepest) + " of depth, "
                            + Words.number(deepest / tool.diameterMm(), 1) + " times the cutter's diameter; "
                            + Words.plainMm(most) + " is usual in "
                            + x.job().blank().substrate().word() + ".")
                    .doThis("Split the cut into passes of at most " + Words.plainMm(most) + ".")
                    .build());
        }
    }
}
