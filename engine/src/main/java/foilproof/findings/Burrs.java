package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;
import java.util.List;

/** Burrs that a worn cutter leaves at copper walls (E11): a note, and never where they will be. */
final class Burrs implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.BURR);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E11");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (Tool tool : x.job().tools()) {
            if (tool.shape() == ToolShape.DRILL) {
                continue;
            }
            double budget = ToolWear.budgetMm(x, tool);
            double length = 0;
            boolean foil = false;
            for (RunFacts run : x.runs()) {
                if (run.tool() == null || !run.tool().name().equals(tool.name())) {
                    continue;
                }
                for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                    length += ToolWear.wears(x, tool, i) ? s.lengthMm(i) : 0;
                    foil |= x.cutsFoil(i);
                }
            }
            if (foil && length >= x.limit(LimitKey.WEAR_SHARE) * budget) {
                out.add(Finding.of(Kinds.BURR, Severity.NOTE, Certainty.RULE_OF_THUMB)
                        .tool(tool.name())
                        .says("Towards the end of this job " + Words.quoted(tool.name())
                                + " is worn: expect burrs and curled edges at copper walls, most where it cuts against its"
                                + " turn.")
                        .doThis("Brush the board and go over it with 400 paper before it is buzzed out.")
                        .build());
            }
        }
    }
}
