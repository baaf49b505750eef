package foilproof.findings;

import foilproof.bench.Tool;
import java.util.ArrayList;
import java.util.List;

/** Finds the holes of a job among the dips of its tool runs. */
final class Holes {
    private static final double SAME_PLACE_MM = 0.02;

    private Holes() {}

    static List<Hole> find(Examination x) {
        List<Hole> holes = new ArrayList<>();
        for (RunFacts run : x.runs()) {
            if (run.tool() == null) {
                continue;
            }
            for (Dips.Dip dip : Dips.of(x, run)) {
                if (dip.hole() && dip.depthMm() > x.foilMm() + 1e-6 && onBlank(x, dip.xMm(), dip.yMm())) {
                    merge(holes, hole(x, run, dip));
                }
            }
        }
        return List.copyOf(holes);
    }

    private static boolean onBlank(Examination x, double xMm, double yMm) {
        return xMm > 0
                && yMm > 0
                && xMm < x.job().blank().widthMm()
                && yMm < x.job().blank().heightMm();
    }

    private static Hole hole(Examination x, RunFacts run, Dips.Dip dip) {
        double top = x.side(run.side().number()).surfaceMm(dip.xMm(), dip.yMm());
        double tip = -dip.depthMm();
        double low = dip.bored() ? dip.circledLowMm() : tip;
        Tool tool = java.util.Objects.requireNonNull(run.tool());
        double atTop = 2 * (dip.pathRadiusMm() + tool.cutRadiusAtHeightMm(top - low));
        double above = -x.thicknessMm() - low;
        double exit = above < -1e-9 ? 0 : 2 * (dip.pathRadiusMm() + tool.cutRadiusAtHeightMm(Math.max(0, above)));
        return new Hole(
                run.side().number(),
                dip.xMm(),
                dip.yMm(),
                run.run().index(),
                dip.deepest(),
                dip.bored(),
                dip.pathRadiusMm(),
                tip,
                low,
                atTop,
                exit,
                1);
    }

    /** The wider entry and exit of all dips at one place count; the deepest gives line and tool. */
    private static void merge(List<Hole> holes, Hole next) {
        for (int i = 0; i < holes.size(); i++) {
            Hole old = holes.get(i);
            if (old.side() == next.side()
                    && StrictMath.hypot(old.xMm() - next.xMm(), old.yMm() - next.yMm()) <= SAME_PLACE_MM) {
                Hole deep = next.tipMm() < old.tipMm() - 1e-9 ? next : old;
                holes.set(
                        i,
                        new Hole(
                                deep.side(),
                                deep.xMm(),
                                deep.yMm(),
                                deep.run(),
                                deep.segment(),
                                old.bored() || next.bored(),
                                Math.max(old.pathRadiusMm(), next.pathRadiusMm()),
                                Math.min(old.tipMm(), next.tipMm()),
                                Math.min(old.circledMm(), next.circledMm()),
                                Math.max(old.entryMm(), next.entryMm()),
                                Math.max(old.exitMm(), next.exitMm()),
                                old.pecks() + 1));
                return;
            }
        }
        holes.add(next);
    }
}
