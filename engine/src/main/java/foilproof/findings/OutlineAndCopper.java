package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.CopperMap;
import foilproof.design.CopperProbe;
import foilproof.design.LayerImage;
import foilproof.design.PlaneMap;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Copper of a net, or of the design, beside an outline cut (H10). Leftover copper up to the edge is usual and silent.
 */
final class OutlineAndCopper implements Check {
    private static final double ALONG_MM = 0.1;
    private static final double ACROSS_MM = 0.02;
    private static final double TOUCH_MM = 2e-3;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.EDGE_COPPER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("H10");
    }

    /** The nearest copper to a wall: distance, place on the copper's side, segment of the cut. */
    private record Nearest(double gapMm, double xMm, double yMm, int segment) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<CutLoop> cuts = OutlineFit.through(x).stream()
                .filter(loop -> !OutlineFit.roundHole(loop))
                .toList();
        if (cuts.isEmpty()) {
            return;
        }
        boolean known = false;
        for (CopperFacts copper : x.copper()) {
            CopperProbe wanted = wanted(x, copper);
            if (wanted == null) {
                continue;
            }
            known = true;
            Nearest worst = null;
            for (CutLoop loop : cuts) {
                Nearest here = nearest(x, loop, copper.side(), wanted);
                worst = here != null && (worst == null || here.gapMm() < worst.gapMm() - 1e-9) ? here : worst;
            }
            if (worst != null) {
                tell(x, worst, copper.side(), out);
            }
        }
        if (!known) {
            out.notChecked("copper of nets at the board's edge", "no layer image or netlist is given");
        }
    }

    /** Copper that must not be at the edge, in the frame of its side; null where nobody says which copper is wanted. */
    private static @Nullable CopperProbe wanted(Examination x, CopperFacts copper) {
        LayerImage layer = x.design().layerUp(copper.side());
        if (layer != null) {
            PlaneMap map = x.design().designFromBlank(copper.side());
            boolean named = !layer.netNames().isEmpty();
            return (px, py) -> {
                double dx = map.xMm(px, py);
                double dy = map.yMm(px, py);
                // a file that names its nets tells frames and outlines drawn in copper from nets
                return layer.covers(dx, dy) && (!named || layer.netAt(dx, dy) != null);
            };
        }
        if (x.design().verdict() == null || copper.windows().isEmpty()) {
            return null;
        }
        CopperMap map = copper.map();
        return (px, py) -> {
            int piece = map.pieceAt(px, py);
            return piece >= 0 && x.design().carriesNet(copper.side(), piece);
        };
    }

    private static @Nullable Nearest nearest(Examination x, CutLoop loop, int side, CopperProbe wanted) {
        Segments s = x.plan().segments();
        double r = x.run(loop.run()).knownTool().cutRadiusAtHeightMm(0);
        double reach = x.limit(LimitKey.OUTLINE_COPPER);
        Nearest best = null;
        var lowest = x.paths().strokes().get(loop.strokes().get(loop.strokes().size() - 1));
        for (int i = lowest.firstSegment(); i < lowest.endSegment(); i++) {
            double length = s.planLengthMm(i);
            int n = (int) Math.ceil(length / ALONG_MM);
            for (int k = 0; k < n; k++) {
                double[] p = s.pointAt(i, (k + 0.5) / n);
                double[] q = s.pointAt(i, (k + 0.501) / n);
                double dx = q[0] - p[0];
                double dy = q[1] - p[1];
                double d = StrictMath.hypot(dx, dy);
                for (int hand = -1; hand <= 1 && d > 0; hand += 2) {
                    double nx = -dy / d * hand;
                    double ny = dx / d * hand;
                    double most = r + (best == null ? reach : best.gapMm());
                    double hit = first(x, loop.side(), side, wanted, p, nx, ny, most);
                    if (hit < most) {
                        best = new Nearest(
                                hit - r,
                                x.stock().xOnSideMm(loop.side(), side, p[0] + nx * hit),
                                x.stock().yOnSideMm(loop.side(), side, p[1] + ny * hit),
                                i);
                    }
                }
            }
        }
        return best;
    }

    /** Distance from a point of the path at which wanted copper begins in a direction; infinite beyond {@code most}. */
    private static double first(
            Examination x, int from, int side, CopperProbe wanted, double[] p, double nx, double ny, double most) {
        for (int j = 0; (j - 1) * ACROSS_MM < most; j++) {
            double t = j * ACROSS_MM;
            if (at(x, from, side, wanted, p, nx, ny, t)) {
                double a = Math.max(0, t - ACROSS_MM);
                double b = t;
                for (int k = 0; k < 8; k++) {
                    double mid = (a + b) / 2;
                    if (at(x, from, side, wanted, p, nx, ny, mid)) {
                        b = mid;
                    } else {
                        a = mid;
                    }
                }
                return b;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    private static boolean at(
            Examination x, int from, int side, CopperProbe wanted, double[] p, double nx, double ny, double t) {
        return wanted.copperAt(
                x.stock().xOnSideMm(from, side, p[0] + nx * t), x.stock().yOnSideMm(from, side, p[1] + ny * t));
    }

    private static void tell(Examination x, Nearest worst, int side, FindingCollector out) {
        double limit = x.limit(LimitKey.OUTLINE_COPPER);
        boolean cut = worst.gapMm() < -TOUCH_MM;
        if (!cut && worst.gapMm() >= limit - TOUCH_MM) {
            return;
        }
        out.add(x.at(
                        Finding.of(Kinds.EDGE_COPPER, cut ? Severity.FIX : Severity.WATCH, Certainty.GEOMETRY),
                        worst.segment())
                .side(side)
                .at(worst.xMm(), worst.yMm())
                .atLeast(Measured.mm("copper to the board's edge", worst.gapMm(), 0.003), cut ? 0 : limit)
                .says(
                        cut
                                ? "The outline cut takes " + Words.mm(-worst.gapMm())
                                        + " of copper that belongs to the design" + " on side " + side + "."
                                : "Copper of the design comes within " + Words.mm(Math.max(0, worst.gapMm()))
                                        + " of the board's edge on side " + side + ": it may peel there.")
                .doThis("Pull the copper back by 0.5 mm from the edge, or move the outline.")
                .build());
    }
}
