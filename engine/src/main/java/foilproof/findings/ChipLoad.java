package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;
import java.util.List;

/**
 * Chip load of lateral moves, feed / (speed x flutes) (check value P1): too small rubs (C5), too big overloads (C6).
 * Grouped, one line per tool run. Both limits are common practice, no source.
 */
final class ChipLoad implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.CHIP_LOAD);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C5", "C6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() == null || run.tool().shape() == ToolShape.DRILL) {
                continue;
            }
            if (run.tool().flutes().isEmpty()) {
                if (x.cuts(run)) {
                    out.notChecked(
                            "chip load and side load of " + run.quotedName(), "the number of its flutes is not given");
                }
                continue;
            }
            judge(x, run, out);
        }
    }

    /** Chip load of a move, mm a tooth; NaN where feed or speed is not known. */
    static double chipLoadMm(Segments s, int i, int flutes) {
        double rpm = s.spindleRpm(i);
        return rpm > 0 ? s.feedMmPerMin(i) / (rpm * flutes) : Double.NaN;
    }

    private static void judge(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        Tool tool = run.knownTool();
        int flutes = tool.flutes().getAsInt();
        double least = x.limit(LimitKey.CHIP_LOAD_LEAST);
        boolean small = FeedAndSpindle.small(tool, x.limit(LimitKey.SMALL_TOOL));
        int lowAt = -1;
        double low = Double.POSITIVE_INFINITY;
        int highAt = -1;
        double highTimes = 1;
        double highLimit = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!s.isFeed(i) || s.planLengthMm(i) < 1e-6 || !x.removes(i)) {
                continue;
            }
            double load = chipLoadMm(s, i, flutes);
            if (Double.isNaN(load)) {
                continue;
            }
            if (small && load < least - 1e-9 && load < low) {
                low = load;
                lowAt = i;
            }
            double limit = most(x, run, x.engagedMm(i));
            if (load > limit * highTimes * (1 + 1e-9)) {
                limit = most(x, run, PassDepth.mm(x, i));
            }
            if (load > limit * (1 + 1e-9) && load / limit > highTimes) {
                highTimes = load / limit;
                highLimit = limit;
                highAt = i;
            }
        }
        if (lowAt >= 0) {
            out.add(x.at(Finding.of(Kinds.CHIP_LOAD, Severity.WATCH, Certainty.RULE_OF_THUMB), lowAt)
                    .atLeast(Measured.mm("chip load a tooth", low, 0.00005), least)
                    .says("Chip load falls to " + Words.number(low * 1000, 1) + " um a tooth; below "
                            + Words.number(least * 1000, 1)
                            + " um a small cutter rubs, heats and may char the substrate.")
                    .doThis("Feed faster or turn slower.")
                    .build());
        }
        if (highAt >= 0) {
            boolean fix = highTimes > x.limit(LimitKey.CHIP_LOAD_FIX);
            out.add(x.at(
                            Finding.of(Kinds.CHIP_LOAD, fix ? Severity.FIX : Severity.WATCH, Certainty.RULE_OF_THUMB),
                            highAt)
                    .atMost(Measured.mm("chip load a tooth", highTimes * highLimit, 0.00005), highLimit)
                    .says("Chip load is " + Words.number(highTimes * highLimit * 1000, 1) + " um a tooth; "
                            + Words.number(highLimit * 1000, 1) + " um is the usual limit for " + run.quotedName()
                            + " in " + x.job().blank().substrate().word() + ".")
                    .doThis("Feed slower, turn faster, or cut shallower.")
                    .build());
        }
    }

    /** Largest chip load for the move, mm a tooth; infinite where its depth (mm) does not load the cutter. */
    private static double most(Examination x, RunFacts run, double depth) {
        Tool tool = run.knownTool();
        double share = x.limit(x.glass() ? LimitKey.CHIP_LOAD_GLASS : LimitKey.CHIP_LOAD_PAPER);
        if (tool.shape() == ToolShape.V) {
            if (depth <= x.foilMm() + 0.1 + 1e-6) {
                return Double.POSITIVE_INFINITY;
            }
            return Math.max(x.limit(LimitKey.CHIP_LOAD_TIP), share * 2 * tool.cutRadiusAtHeightMm(depth));
        }
        return depth > x.limit(LimitKey.CHIP_LOAD_DEPTH) * tool.diameterMm() + 1e-6
                ? share * tool.diameterMm()
                : Double.POSITIVE_INFINITY;
    }
}
