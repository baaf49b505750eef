package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.Work;
import foilproof.design.LayerImage;
import foilproof.design.PlaneMap;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Copper left where an area was to be cleared (E5): only where the job says that a program clears. Looks between
 * neighbouring parallel moves of that work for copper wider than a thin strip (narrower ones are hairs and slivers).
 */
final class ClearedAreas implements Check {
    private static final double LEAST_MM = 0.5;
    private static final double SAMPLE_MM = 0.1;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.STRAY_COPPER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E5");
    }

    /** One straight level move: direction bucket, offset across it, from and to along it, middle segment, run. */
    private record Move(double offMm, double fromMm, double toMm, int segment) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null) {
                Map<Long, List<Move>> byDirection = moves(x, run);
                byDirection.forEach((direction, moves) -> judge(x, run, direction * 1e-4, moves, out));
            }
        }
    }

    private static Map<Long, List<Move>> moves(Examination x, RunFacts run) {
        Segments s = x.plan().segments();
        Map<Long, List<Move>> map = new java.util.TreeMap<>();
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            boolean stated = x.plan().programOf(i).entry().work() == Work.CLEARING && x.workOf(i) == Work.CLEARING;
            if (!stated || !s.isFeed(i) || s.isArc(i) || s.planLengthMm(i) < LEAST_MM || run.depthMm(s.z1Mm(i)) <= 0) {
                continue;
            }
            double a = StrictMath.atan2(s.y1Mm(i) - s.y0Mm(i), s.x1Mm(i) - s.x0Mm(i));
            a = a < -1e-6 ? a + Math.PI : a > Math.PI - 1e-6 ? a - Math.PI : a;
            long bucket = Math.round(a * 1e4);
            double c = StrictMath.cos(bucket * 1e-4);
            double sn = StrictMath.sin(bucket * 1e-4);
            double t0 = s.x0Mm(i) * c + s.y0Mm(i) * sn;
            double t1 = s.x1Mm(i) * c + s.y1Mm(i) * sn;
            double off = -s.x0Mm(i) * sn + s.y0Mm(i) * c;
            map.computeIfAbsent(bucket, k -> new ArrayList<>())
                    .add(new Move(off, Math.min(t0, t1), Math.max(t0, t1), i));
        }
        return map;
    }

    /** Neighbouring rows: one where all stand equally far is the step-over; a gap of several is a missing row. */
    private static void judge(Examination x, RunFacts run, double direction, List<Move> moves, FindingCollector out) {
        moves.sort(Comparator.comparingDouble(Move::offMm).thenComparingDouble(Move::fromMm));
        Map<Long, Integer> steps = new HashMap<>();
        List<Move[]> pairs = new ArrayList<>();
        for (int k = 0; k < moves.size(); k++) {
            Move next = null;
            for (int j = k + 1; j < moves.size() && next == null; j++) {
                Move m = moves.get(j);
                boolean overlap =
                        Math.min(m.toMm, moves.get(k).toMm) - Math.max(m.fromMm, moves.get(k).fromMm) > LEAST_MM;
                next = overlap && m.offMm > moves.get(k).offMm + 1e-3 ? m : null;
            }
            if (next != null) {
                pairs.add(new Move[] {moves.get(k), next});
                steps.merge(Math.round((next.offMm - moves.get(k).offMm) * 1000), 1, Integer::sum);
            }
        }
        long usual = 0;
        int most = 0;
        for (Map.Entry<Long, Integer> e : new java.util.TreeMap<>(steps).entrySet()) {
            if (e.getValue() > most) {
                most = e.getValue();
                usual = e.getKey();
            }
        }
        // Three rows and more make an area; fewer say nothing of a step-over.
        if (most < 2) {
            return;
        }
        double step = usual / 1000.0;
        for (Move[] pair : pairs) {
            double gap = pair[1].offMm - pair[0].offMm;
            double multiple = gap / step;
            boolean rows = Math.abs(multiple - Math.rint(multiple)) < 0.03 && multiple < 3.5;
            if (rows && between(x, run, direction, pair, gap, out)) {
                return;
            }
        }
    }

    private static boolean between(
            Examination x, RunFacts run, double direction, Move[] pair, double gapMm, FindingCollector out) {
        double from = Math.max(pair[0].fromMm, pair[1].fromMm);
        double to = Math.min(pair[0].toMm, pair[1].toMm);
        double off = 0.5 * (pair[0].offMm + pair[1].offMm);
        double c = StrictMath.cos(direction);
        double sn = StrictMath.sin(direction);
        int side = run.side().number();
        CopperFacts copper = x.copper(side);
        double length = 0;
        double[] at = null;
        int n = 1 + (int) ((to - from) / SAMPLE_MM);
        for (int k = 0; k < n; k++) {
            double t = from + (k + 0.5) / n * (to - from);
            double px = t * c - off * sn;
            double py = t * sn + off * c;
            if (copper.field().exactMarginMm(px, py) > 0 && !wanted(x, side, px, py)) {
                length += (to - from) / n;
                at = at == null ? new double[] {px, py} : at;
            }
        }
        Tool tool = run.knownTool();
        Segments s = x.plan().segments();
        double low = run.blankFromRunMm(s.z1Mm(pair[0].segment));
        double width = gapMm - 2 * tool.cutRadiusAtHeightMm(Math.max(0, -x.foilMm() - low));
        double area = width * length;
        if (at == null || width < x.limit(LimitKey.THIN_WIDTH) || area <= x.limit(LimitKey.CLEARING_PIECE)) {
            return false;
        }
        out.add(x.at(Finding.of(Kinds.STRAY_COPPER, Severity.WATCH, Certainty.GEOMETRY), pair[1].segment)
                .at(at[0] + 0.5 * length * c, at[1] + 0.5 * length * sn)
                .atMost(
                        new Measured("copper left in a cleared area", area, "mm2", 0.05 * area + 0.01),
                        x.limit(LimitKey.CLEARING_PIECE))
                .says("The area is not cleared: between two neighbouring moves a strip of copper " + Words.mm(width)
                        + " wide and " + Words.plainMm(length) + " long is left.")
                .doThis("Add the missing move, or step over by at most 75 % of the width of cut.")
                .build());
        return true;
    }

    private static boolean wanted(Examination x, int side, double xMm, double yMm) {
        LayerImage layer = x.design().layerUp(side);
        if (layer == null) {
            return false;
        }
        PlaneMap map = x.design().designFromBlank(side);
        return layer.covers(map.xMm(xMm, yMm), map.yMm(xMm, yMm));
    }
}
