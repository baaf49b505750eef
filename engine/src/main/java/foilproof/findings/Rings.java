package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.design.LayerImage;
import foilproof.design.Pad;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.List;

/**
 * Copper left round holes (E9, G8). Judged on lands: with a layer image those of the design, without one every hole
 * round which the copper is closer than a usual land's.
 */
final class Rings implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.RING_THIN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E9", "G8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<Finding> thin = new ArrayList<>();
        for (Hole hole : x.holes()) {
            Tool tool = x.run(hole.run()).tool();
            if (tool == null || -hole.tipMm() < x.thicknessMm() / 2) {
                continue;
            }
            boolean designed = x.design().layerUp(hole.side()) != null;
            if (designed && !onLand(x, hole)) {
                continue;
            }
            double radius = hole.pathRadiusMm() + tool.cutRadiusAtHeightMm(-x.foilMm() - hole.circledMm());
            double ring = x.copper(hole.side()).ringMm(hole.xMm(), hole.yMm(), radius);
            Severity severity = ring < x.limit(LimitKey.RING_FIX) - 1e-4
                    ? Severity.FIX
                    : ring < x.limit(LimitKey.SOLDER_RING) - 1e-4 ? Severity.WATCH : null;
            // a hole in bare substrate has no ring to lose
            if (severity == null || !designed && ring <= 0) {
                continue;
            }
            thin.add(x.at(
                            Finding.of(Kinds.RING_THIN, severity, Certainty.GEOMETRY),
                            hole.segment())
                    .at(hole.xMm(), hole.yMm())
                    .atLeast(
                            Measured.mm("ring", ring, 0.002),
                            x.limit(severity == Severity.FIX ? LimitKey.RING_FIX : LimitKey.SOLDER_RING))
                    .says(ring <= 0
                            ? "The hole breaks out of its land: no copper is left on one side."
                            : "Only " + Words.mm(ring) + " of copper are left beside the hole of "
                                    + Words.mm(2 * radius) + ".")
                    .doThis("Enlarge the land, use a smaller hole, or check that holes and grooves share one work zero.")
                    .build());
        }
        thin.sort(java.util.Comparator.comparing(Finding::severity)
                .thenComparing(f -> f.measured() == null ? 0 : f.measured().value()));
        if (!thin.isEmpty()) {
            out.add(thin.get(0).withConsequences(thin.subList(1, thin.size())));
        }
    }

    private static boolean onLand(Examination x, Hole hole) {
        LayerImage layer = x.design().layerUp(hole.side());
        if (layer == null) {
            return false;
        }
        PlaneMap map = x.design().designFromBlank(hole.side());
        double dx = map.xMm(hole.xMm(), hole.yMm());
        double dy = map.yMm(hole.xMm(), hole.yMm());
        for (Pad pad : layer.pads()) {
            if (StrictMath.hypot(pad.xMm() - dx, pad.yMm() - dy)
                    <= Math.max(pad.widthMm(), pad.heightMm()) / 2) {
                return true;
            }
        }
        return false;
    }
}
