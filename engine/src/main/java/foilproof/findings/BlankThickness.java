package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.motion.CutLoop;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What would be found were the blank another thickness (B16): copper cut from a zero on the spoil board goes as much
 * deeper below the foil as the blank is thicker, so its Z window answers; cuts through a blank that is thicker by a tenth
 * stop short. Within the stated spread of the thickness the former is a watch; the latter has a finding of its own there.
 */
final class BlankThickness implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.BLANK_THICKNESS);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B16");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        double spread = x.job().spread().thicknessMm();
        double tenth = Math.max(spread, x.limit(LimitKey.THICKNESS_SWEEP) * x.thicknessMm());
        for (CopperFacts copper : x.copper()) {
            copper.windows().forEach((index, window) -> {
                RunFacts run = x.run(index);
                if (run.zeroOnSpoilBoard() && x.conditions().zErrorMm(index) == 0) {
                    Finding f = copperCut(run, window, spread, Severity.WATCH);
                    f = f == null ? copperCut(run, window, tenth, Severity.NOTE) : f;
                    if (f != null) {
                        out.add(f);
                    }
                }
            });
        }
        through(x, spread, tenth, out);
    }

    /** Copper cut from a zero on the spoil board, in a blank thicker or thinner by so much. */
    private static @Nullable Finding copperCut(RunFacts run, ZWindow window, double byMm, Severity severity) {
        ZLimit from = window.limitedFrom();
        ZLimit to = window.limitedTo();
        // duty counts below the run's zero, which does not move with the foil
        boolean thin = from != null && from.eMm() <= 0 && from.eMm() > -byMm + ROUNDING_MM;
        boolean thick = to != null && to.kind() != ZLimit.Kind.DUTY && to.eMm() >= 0 && to.eMm() < byMm - ROUNDING_MM;
        double thinMm = thin && from != null ? -from.eMm() : Double.POSITIVE_INFINITY;
        double thickMm = thick && to != null ? to.eMm() : Double.POSITIVE_INFINITY;
        ZLimit broken = thin && thinMm <= thickMm ? from : thick ? to : null;
        if (broken == null) {
            return null;
        }
        Finding.Builder b = Finding.of(Kinds.BLANK_THICKNESS, severity, Certainty.SET_UP)
                .side(run.side().number())
                .tool(run.toolName())
                .atLeast(
                        Measured.mm(
                                "difference of thickness that the copper survives",
                                Math.abs(broken.eMm()),
                                Math.max(5e-4, broken.errorMm())),
                        byMm)
                .says("The zero of " + run.quotedName() + " lies on the spoil board, so a blank "
                        + (broken == from ? "thinner" : "thicker") + " by more than "
                        + Words.mm(Math.abs(broken.eMm())) + " raises "
                        + broken.kind().words() + " here; "
                        + (severity == Severity.WATCH
                                ? "the set-up allows " + Words.plainMm(byMm) + "."
                                : "blanks differ by a tenth of their thickness."))
                .doThis("Measure the blank with a caliper in several places, or touch off on the foil.");
        if (!Double.isNaN(broken.xMm())) {
            b.at(broken.xMm(), broken.yMm());
        }
        return b.build();
    }

    /** Holes and outlines that go through as stated, and would not in a blank that is thicker by a tenth. */
    private static void through(Examination x, double spread, double tenth, FindingCollector out) {
        double thick = x.thicknessMm() + tenth;
        int count = 0;
        double least = Double.POSITIVE_INFINITY;
        int at = -1;
        for (Hole hole : x.holes()) {
            double depth = NotThrough.fullDepthMm(x, hole);
            boolean moves = !x.run(hole.run()).zeroOnSpoilBoard();
            if (moves && depth >= x.thicknessMm() + spread - ROUNDING_MM && depth < thick - ROUNDING_MM) {
                count++;
                at = depth < least - ROUNDING_MM ? hole.segment() : at;
                least = Math.min(least, depth);
            }
        }
        double skin = x.limit(LimitKey.FLOOR_LEFT);
        for (CutLoop loop : OutlineFit.through(x)) {
            double depth = -x.run(loop.run()).blankFromRunMm(loop.deepestMm());
            boolean moves = !x.run(loop.run()).zeroOnSpoilBoard();
            if (moves && depth >= x.thicknessMm() + spread - skin - ROUNDING_MM && depth < thick - skin - ROUNDING_MM) {
                count++;
                at = depth < least - ROUNDING_MM
                        ? x.paths().strokes().get(loop.strokes().get(0)).firstSegment()
                        : at;
                least = Math.min(least, depth);
            }
        }
        if (at >= 0) {
            out.add(x.at(Finding.of(Kinds.BLANK_THICKNESS, Severity.NOTE, Certainty.SET_UP), at)
                    .atLeast(Measured.mm("depth of the shallowest cut through", least, 0.001), thick)
                    .says("Were the blank " + Words.mm(thick) + " thick instead of "
                            + Words.plainMm(x.thicknessMm()) + ", " + count
                            + (count == 1 ? " cut" : " cuts") + " would not go through.")
                    .doThis("Measure the blank with a caliper.")
                    .build());
        }
    }
}
