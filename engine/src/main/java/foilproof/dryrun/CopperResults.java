package foilproof.dryrun;

import foilproof.bench.Tool;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.electrical.NetVerdict;
import foilproof.findings.CopperFacts;
import foilproof.findings.Examination;
import foilproof.findings.Hole;
import foilproof.findings.NetCopper;
import foilproof.findings.RunFacts;
import foilproof.report.ResultDocument;
import foilproof.stock.Removed;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What the result says of the copper. */
final class CopperResults {
    private CopperResults() {}

    static List<ResultDocument.ZWindow> windows(Examination x) {
        List<ResultDocument.ZWindow> all = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            copper.windows().forEach((index, window) -> all.add(window(x.run(index), window)));
        }
        return all;
    }

    private static ResultDocument.ZWindow window(RunFacts run, ZWindow w) {
        return new ResultDocument.ZWindow(
                run.toolName(),
                run.side().number(),
                run.run().index() + 1,
                w.empty(),
                w.fromMm(),
                w.toMm(),
                Math.max(0.001, w.plusMinusMm()),
                w.fixFromMm(),
                w.fixToMm(),
                limitedBy(w.limitedFrom()),
                limitedBy(w.limitedTo()),
                new double[] {w.spreadFromMm(), w.spreadToMm()},
                w.marginMm(),
                w.narrowerThanSpread() ? noDepth(w) : null);
    }

    /** Whether a flat blank would help, and how far the programmed depth would do on it. */
    private static String noDepth(ZWindow w) {
        ZWindow flat = w.flattened();
        if (!w.empty() && (flat == null || flat.narrowerThanSpread())) {
            return "No depth works with this spread, which is wider than the window: hold the blank flatter, or touch off more closely.";
        }
        if (flat == null || flat.empty()) {
            return "No depth works, and none would on a flat blank: change the cutter, the program, or what the cutter"
                    + " is kept for.";
        }
        Double from = flat.printedFromMm();
        Double to = flat.printedToMm();
        Double best = flat.bestShiftMm();
        return "No depth works" + (w.empty() ? "" : " with this spread, which is wider than the window")
                + ": flatten the blank, or map its height. On a flat one the programmed depth would survive"
                + " Z errors from "
                + (from == null ? "beyond the headroom" : String.format(Locale.ROOT, "%+.3f", from))
                + " to "
                + (to == null ? "beyond the headroom" : String.format(Locale.ROOT, "%+.3f mm", to))
                + (best == null
                        ? "."
                        : String.format(
                                Locale.ROOT,
                                "; widest margin %.3f mm %s.",
                                Math.abs(best),
                                best < 0 ? "shallower" : "deeper"));
    }

    private static ResultDocument.@Nullable LimitedBy limitedBy(@Nullable ZLimit limit) {
        return limit == null
                ? null
                : new ResultDocument.LimitedBy(
                        limit.kind().key(), Double.isNaN(limit.xMm()) ? null : new double[] {limit.xMm(), limit.yMm()});
    }

    /** The same Z error on all runs: what all sides stand together. */
    static ResultDocument.@Nullable JointWindow joint(Examination x) {
        ZWindow low = null;
        ZWindow high = null;
        boolean empty = false;
        for (CopperFacts copper : x.copper()) {
            ZWindow w = copper.joint();
            // What one run does not stand at any error, all of them together don't either.
            empty |= (w != null && w.empty())
                    || copper.windows().values().stream().anyMatch(ZWindow::empty);
            if (w == null) {
                continue;
            }
            if (w.fromMm() != null && (low == null || low.fromMm() == null || w.fromMm() > low.fromMm())) {
                low = w;
            }
            if (w.toMm() != null && (high == null || high.toMm() == null || w.toMm() < high.toMm())) {
                high = w;
            }
        }
        empty |= low != null
                && high != null
                && low.fromMm() != null
                && high.toMm() != null
                && low.fromMm() > high.toMm();
        return low == null && high == null
                ? null
                : new ResultDocument.JointWindow(
                        empty,
                        low == null ? null : low.fromMm(),
                        high == null ? null : high.toMm(),
                        limitedBy(low == null ? null : low.limitedFrom()),
                        limitedBy(high == null ? null : high.limitedTo()));
    }

    static List<ResultDocument.SideFacts> sides(Examination x) {
        List<ResultDocument.SideFacts> all = new ArrayList<>();
        for (var side : x.job().sides()) {
            CopperFacts copper = x.copper(side.number());
            all.add(new ResultDocument.SideFacts(
                    side.face().word(),
                    copper.map().copperMm2(),
                    copper.map().pieces().size(),
                    copper.map().clearedMm2(),
                    copper.foilLeftMm2()));
        }
        return all;
    }

    static ResultDocument.Removed removed(Examination x) {
        Removed removed = Removed.of(x.board(), x.options().threads());
        return new ResultDocument.Removed(removed.foilMm3(), removed.substrateMm3(), removed.spoilBoardMm3());
    }

    static List<ResultDocument.NetFacts> nets(Examination x) {
        NetVerdict verdict = x.design().verdict();
        if (verdict == null) {
            return List.of();
        }
        List<ResultDocument.NetFacts> all = new ArrayList<>();
        for (NetVerdict.NetState state : verdict.nets()) {
            if (!state.net().named()) {
                continue;
            }
            NetCopper copper = x.netCopper(state.net().name());
            all.add(new ResultDocument.NetFacts(
                    state.net().name(),
                    state.groups(),
                    state.shortedWith(),
                    copper == null ? null : copper.narrowestMm(),
                    copper == null ? null : copper.resistanceMohm(),
                    copper == null ? null : copper.riseK()));
        }
        return all;
    }

    static @Nullable Double ringMm(Examination x, Hole hole) {
        Tool tool = x.run(hole.run()).tool();
        if (tool == null) {
            return null;
        }
        double radius = hole.pathRadiusMm() + tool.cutRadiusAtHeightMm(-x.foilMm() - hole.circledMm());
        return x.copper(hole.side()).ringMm(hole.xMm(), hole.yMm(), radius, 5);
    }
}
