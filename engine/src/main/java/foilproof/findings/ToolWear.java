package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import java.util.List;

/**
 * Length cut against the wear length of uncoated carbide (C4; common practice, no source, calibrate in the shop).
 * Engraving bits count every cut; end mills count what they cut into the substrate.
 */
final class ToolWear implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOOL_WEAR);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (Tool tool : x.job().tools()) {
            if (tool.shape() == ToolShape.DRILL) {
                continue;
            }
            double budget = budgetMm(x, tool);
            double length = 0;
            int worn = -1;
            int last = -1;
            for (RunFacts run : x.runs()) {
                if (run.tool() == null || !run.tool().name().equals(tool.name())) {
                    continue;
                }
                for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                    if (wears(x, tool, i)) {
                        length += x.cutLengthMm(i);
                        last = i;
                        if (worn < 0 && length > budget) {
                            worn = i;
                        }
                    }
                }
            }
            double share = length / budget;
            boolean watch = share >= x.limit(LimitKey.WEAR_SHARE);
            if (last < 0 || !watch && !x.glass()) {
                continue;
            }
            Severity severity = share > 1 ? Severity.FIX : watch ? Severity.WATCH : Severity.NOTE;
            out.add(x.at(Finding.of(Kinds.TOOL_WEAR, severity, Certainty.RULE_OF_THUMB), worn >= 0 ? worn : last)
                    .atMost(Measured.mm("length cut", length, 0.001), budget)
                    .says(Words.quoted(tool.name()) + " cuts " + Words.number(length / 1000, 2) + " m in this job, "
                            + Words.number(100 * share, 0) + " % of the wear length of "
                            + Words.number(budget / 1000, 1)
                            + " m of uncoated carbide in "
                            + x.job().blank().substrate().word() + ".")
                    .doThis("Put a fresh cutter in before the fine work, and count what it has cut in other jobs.")
                    .build());
        }
    }

    /** The length that a cutter lasts in this substrate, mm. */
    static double budgetMm(Examination x, Tool tool) {
        boolean v = tool.shape() == ToolShape.V;
        return x.limit(
                x.glass()
                        ? v ? LimitKey.WEAR_V_GLASS : LimitKey.WEAR_MILL_GLASS
                        : v ? LimitKey.WEAR_V_PAPER : LimitKey.WEAR_MILL_PAPER);
    }

    /** Whether a move counts against the wear length. */
    static boolean wears(Examination x, Tool tool, int segment) {
        return x.plan().segments().isFeed(segment)
                && x.removes(segment)
                && (tool.shape() == ToolShape.V || x.engagedMm(segment) > x.foilMm() + 0.1);
    }
}
