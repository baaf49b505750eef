package foilproof.findings;

import foilproof.bench.Duty;
import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.motion.Segments;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A cutter outside its duty (C13): a copper-only cutter too deep, or any cutter in work that it is not kept for. Depth
 * counts below the run's zero; where the program's Z follows the touched points, below the foil as it lies.
 */
final class DutyBroken implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.DUTY_BROKEN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C13");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null && run.tool().duty().kind() != Duty.Kind.ANY) {
                judge(x, run, out);
            }
        }
    }

    private static void judge(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        double watchMm = x.limit(LimitKey.DUTY_WATCH_DEPTH);
        double fixMm = x.limit(LimitKey.DUTY_FIX_DEPTH);
        int forbidden = -1;
        Work work = null;
        int firstFix = -1;
        int firstWatch = -1;
        double deepestMm = Double.NEGATIVE_INFINITY;
        boolean followed = HeightMap.followed(x, run);
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (s.isRapid(i) || !x.overBlank(i)) {
                continue;
            }
            double depth = followed ? HeightMap.belowFoilMm(x, run, i) : run.depthMm(s.lowestMm(i));
            if (depth <= ROUNDING_MM) {
                continue;
            }
            deepestMm = Math.max(deepestMm, depth);
            Work own = x.workOf(i);
            if (forbidden < 0 && own != null && !run.knownTool().duty().allows(own)) {
                forbidden = i;
                work = own;
            }
            if (run.knownTool().duty().keepsItsDepth()) {
                firstFix = firstFix < 0 && depth > fixMm + ROUNDING_MM ? i : firstFix;
                firstWatch = firstWatch < 0 && depth > watchMm + ROUNDING_MM ? i : firstWatch;
            }
        }
        if (forbidden >= 0) {
            out.add(finding(x, run, forbidden, Severity.STOP, deepestMm, watchMm, work, followed));
        } else if (firstFix >= 0) {
            out.add(finding(x, run, firstFix, Severity.FIX, deepestMm, fixMm, null, followed));
        } else if (firstWatch >= 0) {
            out.add(finding(x, run, firstWatch, Severity.WATCH, deepestMm, watchMm, null, followed));
        }
    }

    private static Finding finding(
            Examination x,
            RunFacts run,
            int at,
            Severity severity,
            double deepestMm,
            double limitMm,
            @Nullable Work work,
            boolean followed) {
        String below = followed ? "the foil as it lies" : "its zero";
        return x.at(Finding.of(Kinds.DUTY_BROKEN, severity, Certainty.GEOMETRY), at)
                .atMost(
                        Measured.mm(
                                followed ? "depth below the foil as it lies" : "depth below the run's zero",
                                deepestMm,
                                0.001),
                        limitMm)
                .says("The cutter " + run.quotedName() + " is kept for \""
                        + run.knownTool().duty().words() + "\" and "
                        + (work != null
                                ? "does " + work.word() + " here, down to " + Words.mm(deepestMm) + " below " + below
                                        + "."
                                : "goes " + Words.mm(deepestMm) + " below " + below + "; " + Words.plainMm(limitMm)
                                        + " is the limit."))
                .doThis("Put another cutter into the collet for this work, or change the cutter's duty in the job.")
                .build();
    }
}
