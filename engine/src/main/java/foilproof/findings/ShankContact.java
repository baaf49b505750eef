package foilproof.findings;

import foilproof.bench.Machine;
import foilproof.bench.Tool;
import foilproof.motion.Segments;
import foilproof.stock.ComposedSide;
import java.util.List;

/**
 * Cutters that go deeper than their flutes, and shanks or collet nuts that rub on the blank (C10). The stack is taken as
 * cylinders, and it is held against what is left at the job's end: what stands then stood there before, too.
 */
final class ShankContact implements Check {
    private static final double STEP_MM = 0.5;
    private static final int MOST_SAMPLES = 256;
    private static final int ROUND = 24;
    private static final double TOUCH_MM = 1e-3;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SHANK_CONTACT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C10");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool == null) {
                continue;
            }
            if (tool.fluteLengthMm().isEmpty()) {
                if (x.cuts(run)) {
                    out.notChecked("contact of the shank of " + run.quotedName(), "its flute length is not given");
                }
            } else {
                judge(x, run, tool, out);
            }
        }
    }

    private static void judge(Examination x, RunFacts run, Tool tool, FindingCollector out) {
        Segments s = x.plan().segments();
        double flutes = tool.fluteLengthMm().getAsDouble();
        Machine.ColletNut nut = x.job().machine().colletNut();
        double nutAt =
                nut != null && tool.stickOutMm().isPresent() ? tool.stickOutMm().getAsDouble() : Double.NaN;
        int deep = -1;
        double deepest = flutes;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            double below = -run.blankFromRunMm(s.lowestMm(i));
            if (below
                            <= Math.min(flutes, Double.isNaN(nutAt) ? flutes : nutAt)
                                    - x.side(run.side().number()).highestMm()
                    || !x.overBlank(i)
                    || s.has(i, Segments.POSITION_UNKNOWN)) {
                continue;
            }
            double shankRadius = tool.shankMm().isPresent() ? tool.shankMm().getAsDouble() / 2 : 0;
            double[] rub = rubs(x, run, i, flutes, shankRadius, tool.cutRadiusAtHeightMm(flutes));
            boolean nutRubs = false;
            if (rub == null && nut != null && !Double.isNaN(nutAt)) {
                rub = rubs(x, run, i, nutAt, nut.diameterMm() / 2, tool.cutRadiusAtHeightMm(nutAt));
                nutRubs = rub != null;
            }
            if (rub != null) {
                double under = -x.lowestAboveFoilMm(i);
                boolean tooDeep = x.removes(i) && under > flutes + 1e-9;
                out.add(x.at(Finding.of(Kinds.SHANK_CONTACT, Severity.STOP, Certainty.GEOMETRY), i)
                        .at(rub[0], rub[1])
                        .atMost(
                                Measured.mm("depth of the tip below the surface beside it", rub[2], 0.005),
                                nutRubs ? nutAt : flutes)
                        .says((nutRubs ? "The collet nut" : "The shank") + " of " + run.quotedName()
                                + " rubs on the blank: the tip is " + Words.mm(rub[2])
                                + " below the surface beside it, and "
                                + (nutRubs ? "the cutter sticks out " : "its flutes are ")
                                + Words.mm(nutRubs ? nutAt : flutes) + (nutRubs ? "." : " long."))
                        .doThis("Take a cutter with longer flutes, or widen the cut.")
                        .folding(tooDeep ? List.of(deeper(x, run, i, under, flutes)) : List.of())
                        .build());
                return;
            }
            if (x.removes(i) && -x.lowestAboveFoilMm(i) > deepest + 1e-9) {
                deepest = -x.lowestAboveFoilMm(i);
                deep = deep < 0 ? i : deep;
            }
        }
        if (deep >= 0) {
            out.add(deeper(x, run, deep, deepest, flutes));
        }
    }

    private static Finding deeper(Examination x, RunFacts run, int i, double depthMm, double flutesMm) {
        return x.at(Finding.of(Kinds.SHANK_CONTACT, Severity.FIX, Certainty.GEOMETRY), i)
                .atMost(Measured.mm("depth below the foil top", depthMm, 0.001), flutesMm)
                .says(run.quotedName() + " cuts " + Words.mm(depthMm) + " deep, and its flutes are only "
                        + Words.mm(flutesMm) + " long: above them nothing cuts and no chips come out.")
                .doThis("Take a cutter with longer flutes.")
                .build();
    }

    /** Where something as wide stands above a height over the tip, {x, y, depth of the tip below it}; null where not. */
    private static double @org.jspecify.annotations.Nullable [] rubs(
            Examination x, RunFacts run, int i, double heightMm, double radiusMm, double cutRadiusMm) {
        if (radiusMm <= cutRadiusMm + TOUCH_MM) {
            return null;
        }
        Segments s = x.plan().segments();
        ComposedSide side = x.side(run.side().number());
        int n = (int) Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(s.lengthMm(i) / STEP_MM)));
        for (int k = 0; k <= n; k++) {
            double[] p = s.pointAt(i, (double) k / n);
            double z = run.blankFromRunMm(p[2]) + heightMm;
            if (z >= side.highestMm()) {
                continue;
            }
            for (int a = 0; a < ROUND; a++) {
                double turn = 2 * Math.PI * a / ROUND;
                for (double share : new double[] {1, 0.5}) {
                    double r = cutRadiusMm + TOUCH_MM + (radiusMm - cutRadiusMm - 2 * TOUCH_MM) * share;
                    double px = p[0] + r * StrictMath.cos(turn);
                    double py = p[1] + r * StrictMath.sin(turn);
                    boolean on = px > 0
                            && py > 0
                            && px < x.job().blank().widthMm()
                            && py < x.job().blank().heightMm();
                    if (on && side.exactHeightMm(px, py) > z + TOUCH_MM) {
                        return new double[] {px, py, side.exactHeightMm(px, py) - z + heightMm};
                    }
                }
            }
        }
        return null;
    }
}
