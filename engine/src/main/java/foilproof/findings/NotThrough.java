package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import java.util.List;

/** Holes whose full diameter does not pass the thickest blank that the spread allows (G4, I3). */
final class NotThrough implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.NOT_THROUGH);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G4", "H8", "I3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        double spread = x.job().spread().thicknessMm();
        double thickest = x.thicknessMm() + spread;
        for (RunFacts run : x.runs()) {
            int count = 0;
            Hole worst = null;
            double worstMm = 0;
            for (Hole hole : x.holes()) {
                double depth = fullDepthMm(x, hole);
                // half way and less is a spot mark or a blind recess, not a failed hole
                if (hole.run() != run.run().index() || depth < x.thicknessMm() / 2) {
                    continue;
                }
                double missing = thickest - depth;
                if (missing > ROUNDING_MM) {
                    count++;
                    if (worst == null || missing > worstMm + ROUNDING_MM) {
                        worst = hole;
                        worstMm = missing;
                    }
                }
            }
            if (worst == null) {
                continue;
            }
            boolean nominal = worstMm > spread + ROUNDING_MM;
            out.add(x.at(
                            Finding.of(
                                    Kinds.NOT_THROUGH, Severity.FIX, nominal ? Certainty.GEOMETRY : Certainty.SET_UP),
                            worst.segment())
                    .at(worst.xMm(), worst.yMm())
                    .atLeast(Measured.mm("depth at full diameter", fullDepthMm(x, worst), 0.001), thickest)
                    .says((count == 1 ? "A hole does" : count + " holes do") + " not go through at full diameter: "
                            + Words.mm(fullDepthMm(x, worst)) + " deep in a blank of "
                            + Words.plainMm(x.thicknessMm())
                            + (nominal ? "." : " that may be " + Words.plainMm(spread) + " thicker."))
                    .doThis("Go " + Words.plainMm(worstMm) + " deeper or more"
                            + (isDrill(x, worst) ? " (a drill's point counts extra)." : "."))
                    .build());
        }
    }

    /** Depth below the foil top down to which the hole has its full diameter, mm. */
    static double fullDepthMm(Examination x, Hole hole) {
        Tool tool = x.run(hole.run()).tool();
        double point = tool != null && tool.shape() == ToolShape.DRILL ? tool.pointLengthMm() : 0;
        return -(hole.circledMm() + point);
    }

    private static boolean isDrill(Examination x, Hole hole) {
        Tool tool = x.run(hole.run()).tool();
        return tool != null && tool.shape() == ToolShape.DRILL;
    }
}
