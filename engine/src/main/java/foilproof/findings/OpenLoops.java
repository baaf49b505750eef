package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.design.LayerImage;
import foilproof.electrical.Chord;
import foilproof.electrical.NetVerdict;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Isolation loops that do not close (E1): one stroke whose end runs towards its own start and stops short of it, so that
 * a neck of copper alone joins what lies inside to what lies outside. Where the layer image has copper in the neck, the
 * gap was meant; where nets are found joined, the short itself is told.
 */
final class OpenLoops implements Check {
    /** Cosine of how far start and end may point beside one another. */
    private static final double FACING = 0.9;
    /** A neck wider than this, and than the share of a groove that bridges are told from, is a gap that was meant, mm. */
    private static final double WIDEST_MM = 1.0;
    /** How many times longer than the gap the stroke is. */
    private static final double TIMES = 4;
    /** Copper on both sides of the neck from which it joins anything, mm2. */
    private static final double LEAST_AREA_MM2 = 0.5;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SHORT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E1");
    }

    private record Open(Chord neck, int start, int end) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        NetVerdict nets = x.design().verdict();
        if (nets != null && !nets.shorts().isEmpty()) {
            return;
        }
        for (CopperFacts copper : x.copper()) {
            List<Finding> found = new ArrayList<>();
            for (Open open : open(x, copper)) {
                found.add(tell(x, copper, open));
            }
            if (!found.isEmpty()) {
                out.add(found.get(0).withConsequences(found.subList(1, found.size())));
            }
        }
    }

    /** Middles of the necks of a side. */
    static List<double[]> places(Examination x, CopperFacts copper) {
        List<double[]> places = new ArrayList<>();
        for (Open open : open(x, copper)) {
            places.add(new double[] {open.neck().xMm(), open.neck().yMm()});
        }
        return places;
    }

    private static List<Open> open(Examination x, CopperFacts copper) {
        List<Open> all = new ArrayList<>();
        for (Stroke stroke : x.copperWork().on(copper.side())) {
            Open open = stroke.closed() ? null : open(x, copper, stroke);
            if (open != null) {
                all.add(open);
            }
        }
        return all;
    }

    private static @Nullable Open open(Examination x, CopperFacts copper, Stroke stroke) {
        Segments s = x.plan().segments();
        int start = sideways(s, stroke, 1);
        int end = sideways(s, stroke, -1);
        RunFacts run = x.run(stroke.run());
        if (start < 0 || start == end || run.tool() == null || x.workOf(start) != Work.ISOLATION) {
            return null;
        }
        double dx = s.x0Mm(start) - s.x1Mm(end);
        double dy = s.y0Mm(start) - s.y1Mm(end);
        double d = StrictMath.hypot(dx, dy);
        double halfStart = halfMm(x, run, s.z0Mm(start));
        double halfEnd = halfMm(x, run, s.z1Mm(end));
        double gap = d - halfStart - halfEnd;
        double most = Math.max(WIDEST_MM, x.limit(LimitKey.BRIDGE_SHARE) * (halfStart + halfEnd));
        if (gap <= 1e-6 || gap > most || stroke.lengthMm() < TIMES * d || halfStart <= 0 || halfEnd <= 0) {
            return null;
        }
        double[] on = s.direction(end, true);
        double[] off = s.direction(start, false);
        if ((on[0] * dx + on[1] * dy) / d < FACING || (off[0] * dx + off[1] * dy) / d < FACING) {
            return null;
        }
        double at = halfEnd + gap / 2;
        double px = s.x1Mm(end) + dx / d * at;
        double py = s.y1Mm(end) + dy / d * at;
        Chord neck = Chord.narrowest(
                (u, v) -> copper.field().exactMarginMm(u, v) > 0 && copper.map().pieceAt(u, v) >= 0,
                px,
                py,
                copper.field().cellMm() / 2,
                2 * most);
        LayerImage layer = x.design().layerUp(copper.side());
        boolean meant = layer != null
                && layer.mapped(x.design().blankFromDesign(copper.side())).covers(px, py);
        if (neck == null
                || neck.lengthMm() > most
                || meant
                || !SuspectedBridges.opensOut(copper, neck, halfStart + halfEnd)
                || !SuspectedBridges.parts(x, copper, neck, LEAST_AREA_MM2)) {
            return null;
        }
        return new Open(neck, start, end);
    }

    private static double halfMm(Examination x, RunFacts run, double zMm) {
        double below = -run.blankFromRunMm(zMm) - x.foilMm();
        return below < 0 ? 0 : run.knownTool().cutRadiusAtHeightMm(below);
    }

    /** The first (or, backwards, the last) segment of a stroke that moves sideways, -1 where none does. */
    private static int sideways(Segments s, Stroke stroke, int step) {
        for (int i = step > 0 ? stroke.firstSegment() : stroke.endSegment() - 1;
                i >= stroke.firstSegment() && i < stroke.endSegment();
                i += step) {
            if (s.planLengthMm(i) > 1e-6) {
                return i;
            }
        }
        return -1;
    }

    private static Finding tell(Examination x, CopperFacts copper, Open open) {
        Segments s = x.plan().segments();
        Chord neck = open.neck();
        return x.at(Finding.of(Kinds.SHORT, Severity.STOP, Certainty.GEOMETRY), open.end())
                .side(copper.side())
                .at(neck.xMm(), neck.yMm())
                .atMost(Measured.mm("width of the neck", neck.lengthMm(), 0.002), 0)
                .says("The isolation groove that begins in line " + s.line(open.start())
                        + " stops short of its start in line "
                        + s.line(open.end()) + ": a neck of copper " + Words.mm(neck.lengthMm())
                        + " wide joins what lies inside to what lies outside, and nothing else does.")
                .doThis("Let the loop run " + Words.number(neck.lengthMm() + 0.4, 2)
                        + " mm on, past its start: a lead-over of 0.3 to 0.5 mm is usual.")
                .build();
    }
}
