package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.electrical.NetVerdict;
import java.util.List;

/** Z windows that the stated spread leaves or nearly leaves (D2), and jobs for which no depth works (D6). */
final class ThinMargins implements Check {
    /** Said where flattening the blank is all that is wanting. */
    static final String ON_FLAT = "; on a flat blank a depth of ";

    @Override
    public List<String> kinds() {
        return List.of(Kinds.THIN_MARGIN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B4", "B5", "D2", "D6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        NetVerdict nets = x.design().verdict();
        if (nets != null && !nets.shorts().isEmpty() && !x.copperWork().any()) {
            // Nothing in this job parts nets, so windows that ask for parted nets say nothing of it.
            return;
        }
        for (CopperFacts copper : x.copper()) {
            copper.windows().forEach((index, window) -> judge(x, x.run(index), window, out));
        }
    }

    private static void judge(Examination x, RunFacts run, ZWindow window, FindingCollector out) {
        Double margin = window.marginMm();
        ZLimit limit = window.nearerLimit();
        double wanted = x.limit(LimitKey.Z_MARGIN);
        if (margin == null || limit == null || margin >= wanted - 1e-6) {
            return;
        }
        boolean fix = margin < -1e-9;
        boolean told = brokenNow(window.limitedTo()) || limit.kind() == ZLimit.Kind.FOIL_LEFT && limit.eMm() > 0;
        boolean none = window.narrowerThanSpread();
        boolean duty = brokenNow(window.limitedTo());
        // a limit that the set-up itself breaks has its own finding; "no depth works" is told beside it
        if (told && (!none || duty) || window.empty() && netsBrokenAtAnyDepth(window)) {
            return;
        }
        Finding.Builder b = Finding.of(Kinds.THIN_MARGIN, fix ? Severity.FIX : Severity.WATCH, Certainty.SET_UP)
                .side(run.side().number())
                .tool(run.toolName())
                .atLeast(Measured.mm("margin of the Z window", margin, Math.max(0.0005, window.plusMinusMm())), wanted)
                .says(words(run, window, margin, none))
                .doThis(remedy(x, run, window, none));
        if (!Double.isNaN(limit.xMm())) {
            b.at(limit.xMm(), limit.yMm());
        }
        if (limit.program() >= 0 && limit.line() > 0) {
            b.line(x.plan().programs().get(limit.program()).file(), limit.line())
                    .time(x.timeAtLine(run, limit.program(), limit.line()));
        } else {
            b.program(run.entry().file());
        }
        out.add(b.build());
    }

    /** Whether duty or copper widths are broken without any Z error: that has a finding of its own. */
    private static boolean brokenNow(@org.jspecify.annotations.Nullable ZLimit limit) {
        return limit != null
                && limit.eMm() < 0
                && (limit.kind() == ZLimit.Kind.DUTY || limit.kind() == ZLimit.Kind.WIDTH);
    }

    /**
     * Whether nets are wrong although the foil is cleared: joined deeper than what clears it, or parted as it is. The
     * short or the open has a finding of its own, and a depth is not what is wanting.
     */
    private static boolean netsBrokenAtAnyDepth(ZWindow window) {
        ZLimit from = window.limitedFrom();
        ZLimit to = window.limitedTo();
        boolean joined = from != null && from.kind() == ZLimit.Kind.NETS_JOINED && from.eMm() > 0;
        boolean parted =
                to != null && to.kind() == ZLimit.Kind.NET_OPEN && to.eMm() < 0 && !(from != null && from.eMm() > 0);
        return joined || parted;
    }

    private static String words(RunFacts run, ZWindow window, double margin, boolean none) {
        String spread = Words.signedMm(window.spreadFromMm()) + " to " + Words.signedMm(window.spreadToMm());
        if (none) {
            return "No depth setting works for " + run.quotedName() + ": "
                    + (window.empty()
                            ? "what clears the foil everywhere is deeper than what the copper stands."
                            : "its Z window, " + end(window.printedFromMm()) + " to " + end(window.printedToMm())
                                    + ", is narrower than the spread of touch-off and bow, " + spread + ".");
        }
        return run.quotedName() + " works from " + end(window.printedFromMm()) + " to " + end(window.printedToMm())
                + " of Z error (+ = really deeper); touch-off and bow are taken to spread " + spread + ": "
                + (margin < 0
                        ? Words.plainMm(Math.ceil(-margin * 1000 - 1e-6) / 1000) + " of that lies outside."
                        : "only " + Words.plainMm(Math.floor(margin * 1000 + 1e-6) / 1000) + " is left.");
    }

    private static String remedy(Examination x, RunFacts run, ZWindow window, boolean none) {
        if (none) {
            ZWindow flat = window.flattened();
            double flatSpread = window.spreadToMm() - window.spreadFromMm();
            Double shift = flat == null || flat.empty() ? null : flat.bestShiftMm();
            Double from = flat == null ? null : flat.fromMm();
            Double to = flat == null ? null : flat.toMm();
            boolean helps = shift != null && from != null && to != null && to - from >= flatSpread - 1e-9;
            double now = helps ? deepestMm(x, run) : 0;
            return "Flatten the blank (roller, full-face tape), map its height, or use a narrower spread"
                    + (helps && now > 0 && shift != null
                            ? ON_FLAT + Words.mm(now + shift) + " below the foil top would do."
                            : ".");
        }
        Double shift = window.bestShiftMm();
        return shift == null
                ? "Cut a little " + (window.fromMm() != null ? "deeper" : "shallower") + ", or touch off more closely."
                : "Cut " + Words.plainMm(Math.abs(shift)) + (shift > 0 ? " deeper" : " shallower")
                        + " for the widest margin, or touch off more closely.";
    }

    /** Deepest level copper work of a run below its zero, without what-ifs, mm. */
    private static double deepestMm(Examination x, RunFacts run) {
        double depth = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            var work = x.workOf(i);
            if (work != null && work.copper() && x.plan().segments().isFeed(i)) {
                depth = Math.max(depth, run.depthMm(x.plan().segments().lowestMm(i)) - run.zErrorMm());
            }
        }
        return depth;
    }

    private static String end(@org.jspecify.annotations.Nullable Double valueMm) {
        return valueMm == null ? "beyond the headroom" : Words.signedMm(valueMm);
    }
}
