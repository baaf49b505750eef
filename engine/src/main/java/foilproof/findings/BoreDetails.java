package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.CopperMap;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Bores hardly wider than their cutter (G7), and bores whose wall comes near to copper of another piece (G9). */
final class BoreDetails implements Check {
    private static final int RAYS = 360;
    /** Copper within this of the wall is the hole's own land, mm. */
    private static final double AT_WALL_MM = 0.03;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.BORE_TIGHT, Kinds.NARROW_GAP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G7", "G9");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        tight(x, out);
        List<Finding> near = new ArrayList<>();
        for (Hole hole : x.holes()) {
            if (x.run(hole.run()).tool() == null || !hole.meantThrough(x.thicknessMm())) {
                continue;
            }
            for (CopperFacts copper : x.copper()) {
                boolean own = copper.side() == hole.side();
                if (!copper.windows().isEmpty()
                        && (own || hole.through() && x.job().blank().bothSides())) {
                    foreign(x, hole, copper, own, near);
                }
            }
        }
        near.sort(Comparator.comparing(Finding::severity)
                .thenComparing(f -> f.measured() == null ? 0 : f.measured().value()));
        if (!near.isEmpty()) {
            out.add(near.get(0).withConsequences(near.subList(1, near.size())));
        }
    }

    private static void tight(Examination x, FindingCollector out) {
        double least = x.limit(LimitKey.HELIX_RADIUS);
        int count = 0;
        foilproof.motion.Hole worst = null;
        for (foilproof.motion.Hole hole : x.paths().holes()) {
            if (hole.pathRadiusMm() > 1e-6
                    && hole.pathRadiusMm() < least - 1e-6
                    && hole.depthMm() > foilproof.motion.Toolpaths.BORING_DEPTH_MM) {
                count++;
                worst = worst == null || hole.pathRadiusMm() < worst.pathRadiusMm() ? hole : worst;
            }
        }
        if (worst != null) {
            out.add(x.at(Finding.of(Kinds.BORE_TIGHT, Severity.NOTE, Certainty.RULE_OF_THUMB), worst.firstSegment())
                    .at(worst.xMm(), worst.yMm())
                    .atLeast(Measured.mm("radius of the path", worst.pathRadiusMm(), 0.001), least)
                    .says((count == 1 ? "A bore is" : count + " bores are")
                            + " hardly wider than the cutter: its path has" + " a radius of only "
                            + Words.mm(worst.pathRadiusMm()) + ", so chips have no room.")
                    .doThis("Bore with a smaller cutter, or lift for chips on the way down.")
                    .build());
        }
    }

    private static void foreign(Examination x, Hole hole, CopperFacts copper, boolean own, List<Finding> near) {
        double px = x.stock().xOnSideMm(hole.side(), copper.side(), hole.xMm());
        double py = x.stock().yOnSideMm(hole.side(), copper.side(), hole.yMm());
        double radius = Rings.radiusMm(x, hole, own);
        double limit = x.limit(LimitKey.BORE_CLEAR);
        CopperMap map = copper.map();
        Map<Integer, Integer> atWall = new TreeMap<>();
        // direction and distance of every place where a ray comes upon copper, by piece
        Map<Integer, List<double[]>> met = new TreeMap<>();
        double step = copper.field().cellMm() / 2;
        for (int k = 0; k < RAYS; k++) {
            double dx = StrictMath.cos(2 * Math.PI * k / RAYS);
            double dy = StrictMath.sin(2 * Math.PI * k / RAYS);
            int last = -1;
            for (double d = step; d < limit + step; d += step) {
                int piece = map.pieceAt(px + dx * (radius + d), py + dy * (radius + d));
                if (piece >= 0 && piece != last) {
                    if (d <= AT_WALL_MM + step) {
                        atWall.merge(piece, 1, Integer::sum);
                    }
                    met.computeIfAbsent(piece, m -> new ArrayList<>()).add(new double[] {dx, dy, d});
                }
                last = piece;
            }
        }
        int land = -1;
        for (Map.Entry<Integer, Integer> e : atWall.entrySet()) {
            land = land < 0 || e.getValue() > atWall.getOrDefault(land, 0) ? e.getKey() : land;
        }
        // nearly every ray meets the land: where exactly is not asked
        met.remove(land);
        Map<Integer, double[]> nearest = new TreeMap<>();
        for (Map.Entry<Integer, List<double[]>> e : met.entrySet()) {
            nearest.put(e.getKey(), nearest(copper, px, py, radius, step, e.getValue()));
        }
        for (Map.Entry<Integer, double[]> e : nearest.entrySet()) {
            double gap = e.getValue()[0];
            if (gap > limit - 1e-3 || areaMm2(copper, e.getKey()) < CopperMap.CRUMB_MM2) {
                continue;
            }
            boolean touches = gap <= step;
            near.add(x.at(
                            Finding.of(Kinds.NARROW_GAP, touches ? Severity.STOP : Severity.WATCH, Certainty.GEOMETRY),
                            hole.segment())
                    .side(copper.side())
                    .at(e.getValue()[1], e.getValue()[2])
                    .atLeast(
                            Measured.mm("wall of the bore to other copper", touches ? 0 : gap, 0.003),
                            touches ? 0 : limit)
                    .says(
                            touches
                                    ? "The bore at " + Words.place(px, py)
                                            + " cuts into copper that is not its own land on" + " side " + copper.side()
                                            + ": a lead or wire in it joins both."
                                    : "The wall of the bore at " + Words.place(px, py) + " comes within "
                                            + Words.mm(gap) + " of copper that is not its own land on side "
                                            + copper.side() + ".")
                    .doThis("Move the hole or the copper, use a smaller hole, or check that both share one work zero.")
                    .build());
        }
    }

    /** The least distance from the wall at which copper begins, and where: distance, x, y, mm. */
    private static double[] nearest(
            CopperFacts copper, double px, double py, double radius, double step, List<double[]> met) {
        double[] best = {Double.POSITIVE_INFINITY, px, py};
        for (double[] ray : met) {
            double there = wallMm(copper, px, py, ray[0], ray[1], radius, Math.max(0, ray[2] - step), ray[2]);
            if (there < best[0]) {
                best = new double[] {there, px + ray[0] * (radius + there), py + ray[1] * (radius + there)};
            }
        }
        return best;
    }

    private static double areaMm2(CopperFacts copper, int piece) {
        for (var p : copper.map().pieces()) {
            if (p.index() == piece) {
                return p.areaMm2();
            }
        }
        return 0;
    }

    /** Where between two distances from the wall copper begins on a ray, by halving. */
    private static double wallMm(
            CopperFacts copper, double px, double py, double dx, double dy, double radius, double low, double high) {
        double a = low;
        double b = high;
        for (int k = 0; k < 16; k++) {
            double mid = (a + b) / 2;
            if (copper.field().copperAt(px + dx * (radius + mid), py + dy * (radius + mid))) {
                b = mid;
            } else {
                a = mid;
            }
        }
        return b;
    }
}
