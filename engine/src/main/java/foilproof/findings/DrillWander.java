package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import java.util.List;

/** Small drills without a spot mark, and deep drilling without pecks (G5; common practice, no source). */
final class DrillWander implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.DRILL_WANDER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G5");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool == null || tool.shape() != ToolShape.DRILL) {
                continue;
            }
            Hole wander = null;
            Hole deep = null;
            for (Hole hole : x.holes()) {
                if (hole.run() != run.run().index()) {
                    continue;
                }
                boolean small = tool.diameterMm() < x.limit(LimitKey.WANDER_DIAMETER) - 1e-9;
                if (wander == null && small && hole.runs() < 2) {
                    wander = hole;
                }
                if (deep == null
                        && hole.longestPlungeMm() > x.limit(LimitKey.WANDER_DEPTH) * tool.diameterMm() + 1e-9) {
                    deep = hole;
                }
            }
            if (wander != null) {
                out.add(x.at(Finding.of(Kinds.DRILL_WANDER, Severity.WATCH, Certainty.RULE_OF_THUMB), wander.segment())
                        .at(wander.xMm(), wander.yMm())
                        .atLeast(
                                Measured.mm("drill diameter", tool.diameterMm(), 0.001),
                                x.limit(LimitKey.WANDER_DIAMETER))
                        .says("A drill of " + Words.mm(tool.diameterMm())
                                + " starts on bare foil without a spot mark: it walks, and snaps easily.")
                        .doThis("Mark the hole with another cutter first, or bore it with an end mill.")
                        .build());
            }
            if (deep != null) {
                out.add(x.at(Finding.of(Kinds.DRILL_WANDER, Severity.WATCH, Certainty.RULE_OF_THUMB), deep.segment())
                        .at(deep.xMm(), deep.yMm())
                        .atMost(
                                Measured.mm("drilled without a peck", deep.longestPlungeMm(), 0.001),
                                x.limit(LimitKey.WANDER_DEPTH) * tool.diameterMm())
                        .says("The drill goes " + Words.mm(deep.longestPlungeMm()) + " deep without a peck, "
                                + Words.number(deep.longestPlungeMm() / tool.diameterMm(), 1)
                                + " times its diameter: chips jam.")
                        .doThis("Use a pecking cycle (G83).")
                        .build());
            }
        }
    }
}
