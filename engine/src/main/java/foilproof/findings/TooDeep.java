package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.motion.Segments;
import java.util.List;

/** Copper work deeper than it needs to be (D4). */
final class TooDeep implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOO_DEEP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("D4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            int deepest = -1;
            double depthMm = 0;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                Work work = x.workOf(i);
                double depth = -run.blankFromRunMm(s.lowestMm(i));
                if (s.isFeed(i) && work != null && work.copper() && x.removes(i) && depth > depthMm + 1e-9) {
                    depthMm = depth;
                    deepest = i;
                }
            }
            if (deepest < 0) {
                continue;
            }
            double over = depthMm - x.foilMm();
            double share = x.limit(LimitKey.COPPER_DEPTH_SHARE) * x.thicknessMm();
            boolean weak = depthMm > share + 1e-6;
            if (!weak && over <= x.limit(LimitKey.COPPER_DEPTH_NOTE) + 1e-6) {
                continue;
            }
            out.add(x.at(
                            Finding.of(Kinds.TOO_DEEP, weak ? Severity.WATCH : Severity.NOTE, Certainty.RULE_OF_THUMB),
                            deepest)
                    .atMost(
                            Measured.mm("depth below the foil top", depthMm, 0.001),
                            weak ? share : x.foilMm() + x.limit(LimitKey.COPPER_DEPTH_NOTE))
                    .says("Copper work goes " + Words.mm(depthMm) + " deep, " + Words.plainMm(over)
                            + " below the foil: more dust and wear than needed"
                            + (weak ? ", and the blank is weakened." : "."))
                    .doThis("For foil of " + Words.um(x.foilMm()) + " on a flat blank 0.08 to 0.12 mm are enough.")
                    .build());
        }
    }
}
