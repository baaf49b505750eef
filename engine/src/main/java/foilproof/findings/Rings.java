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
    /** Rings up to this are none: the error of the edge's place, mm. */
    private static final double BROKEN_MM = 0.001;

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
            if (x.run(hole.run()).tool() == null || -hole.tipMm() < x.thicknessMm() / 2) {
                continue;
            }
            for (CopperFacts copper : x.copper()) {
                boolean own = copper.side() == hole.side();
                if (own || hole.through()) {
                    judge(x, hole, copper, own, thin);
                }
            }
        }
        thin.sort(java.util.Comparator.comparing(Finding::severity)
                .thenComparing(f -> f.measured() == null ? 0 : f.measured().value()));
        if (!thin.isEmpty()) {
            out.add(thin.get(0).withConsequences(thin.subList(1, thin.size())));
        }
    }

    private static void judge(Examination x, Hole hole, CopperFacts copper, boolean own, List<Finding> thin) {
        double px = x.stock().xOnSideMm(hole.side(), copper.side(), hole.xMm());
        double py = x.stock().yOnSideMm(hole.side(), copper.side(), hole.yMm());
        boolean designed = x.design().layerUp(copper.side()) != null;
        double radius = radiusMm(x, hole, own);
        if (designed && !onLand(x, copper.side(), px, py, radius)) {
            return;
        }
        double ring = copper.ringMm(px, py, radius, x.limit(LimitKey.SOLDER_RING));
        boolean broken = ring <= BROKEN_MM;
        Severity severity = broken
                ? Severity.STOP
                : ring < x.limit(LimitKey.RING_FIX) - 1e-4
                        ? Severity.FIX
                        : ring < x.limit(LimitKey.SOLDER_RING) - 1e-4 ? Severity.WATCH : null;
        // a hole in bare substrate has no ring to lose
        if (severity == null || !designed && broken) {
            return;
        }
        thin.add(x.at(Finding.of(Kinds.RING_THIN, severity, Certainty.GEOMETRY), hole.segment())
                .side(copper.side())
                .at(px, py)
                .atLeast(
                        Measured.mm("ring", ring, 0.002),
                        x.limit(severity == Severity.WATCH ? LimitKey.SOLDER_RING : LimitKey.RING_FIX))
                .says(
                        broken
                                ? "The hole breaks out of its land: no copper is left on one side."
                                : "Only " + Words.mm(ring) + " of copper is left beside the hole of "
                                        + Words.mm(2 * radius) + " on side " + copper.side() + ".")
                .doThis("Enlarge the land, use a smaller hole, or check that holes and grooves share one work zero.")
                .build());
    }

    /** Radius of a hole where it passes the foil of its own side, or that of the far side, mm. */
    static double radiusMm(Examination x, Hole hole, boolean own) {
        Tool tool = java.util.Objects.requireNonNull(x.run(hole.run()).tool());
        double level = own ? -x.foilMm() : -x.thicknessMm() + x.foilMm();
        return hole.pathRadiusMm() + tool.cutRadiusAtHeightMm(Math.max(0, level - hole.circledMm()));
    }

    private static boolean onLand(Examination x, int side, double xMm, double yMm, double radiusMm) {
        LayerImage layer = x.design().layerUp(side);
        if (layer == null) {
            return false;
        }
        PlaneMap map = x.design().designFromBlank(side);
        double dx = map.xMm(xMm, yMm);
        double dy = map.yMm(xMm, yMm);
        for (Pad pad : layer.padsNear(dx, dy, radiusMm)) {
            if (StrictMath.hypot(pad.xMm() - dx, pad.yMm() - dy) <= Math.max(pad.widthMm(), pad.heightMm()) / 2) {
                return true;
            }
        }
        return false;
    }
}
