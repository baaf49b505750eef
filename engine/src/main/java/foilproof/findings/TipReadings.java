package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import java.util.ArrayList;
import java.util.List;

/**
 * Engraving bits of which neither tip width nor tip radius is known (C1): both readings are run, and what differs is
 * told. Findings of the other reading are folded under it, no graver than a watch: they hold only if that reading does.
 */
final class TipReadings {
    private TipReadings() {}

    /** The cutters that cut with an unknown tip, each once. */
    static List<RunFacts> unknown(Examination x) {
        List<RunFacts> runs = new ArrayList<>();
        for (RunFacts run : x.runs()) {
            Tool stated = x.job().toolNamed(run.toolName());
            boolean told = runs.stream().anyMatch(r -> r.toolName().equals(run.toolName()));
            if (stated != null && stated.tipUnknown() && !told && x.cuts(run)) {
                runs.add(run);
            }
        }
        return runs;
    }

    /** Adds one finding for each such cutter. */
    static void tell(
            Examination x, List<RunFacts> runs, List<Finding> flat, List<Finding> round, FindingCollector out) {
        for (RunFacts run : runs) {
            List<Finding> differ = new ArrayList<>();
            for (Finding f : round) {
                if (f.severity() != Severity.NOTE && !contains(flat, f)) {
                    differ.add(f.withSeverity(f.severity().cappedAt(Severity.WATCH)));
                }
            }
            boolean lost = flat.stream().anyMatch(f -> f.severity() != Severity.NOTE && !contains(round, f));
            boolean matters = !differ.isEmpty() || lost;
            double width = x.limit(LimitKey.UNKNOWN_TIP_WIDTH);
            double radius = x.limit(LimitKey.UNKNOWN_TIP_RADIUS);
            double depth = deepest(x, run);
            Tool bit = java.util.Objects.requireNonNull(x.job().toolNamed(run.toolName()));
            out.add(x.at(
                            Finding.of(Kinds.TIP_UNKNOWN, matters ? Severity.WATCH : Severity.NOTE, Certainty.SET_UP),
                            run.run().firstSegment())
                    .says("The tip of " + run.quotedName() + " is not known. As a flat tip of " + Words.plainMm(width)
                            + " it cuts " + Words.mm(2 * bit.withTipWidth(width).cutRadiusAtHeightMm(depth))
                            + " wide, as a round tip of radius " + Words.plainMm(radius) + " "
                            + Words.mm(2 * bit.withTipRadius(radius).cutRadiusAtHeightMm(depth)) + ". "
                            + (matters
                                    ? "The two readings do not give the same findings; the board is judged with the"
                                            + " flat tip, what only the round tip raises is folded below."
                                    : "Both readings give the same findings."))
                    .doThis(
                            "Look at the tip under a loupe, or measure a test groove, and give tip_width or tip_radius.")
                    .folding(differ)
                    .build());
            out.notChecked(
                    "the width that " + run.quotedName() + " really cuts", "its tip width or tip radius is not given");
        }
    }

    private static double deepest(Examination x, RunFacts run) {
        double depth = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            depth = Math.max(depth, x.engagedMm(i));
        }
        return depth;
    }

    private static boolean contains(List<Finding> list, Finding f) {
        for (Finding g : list) {
            if (g.kind().equals(f.kind())
                    && g.severity() == f.severity()
                    && java.util.Objects.equals(g.side(), f.side())
                    && java.util.Objects.equals(g.tool(), f.tool())) {
                return true;
            }
        }
        return false;
    }
}
