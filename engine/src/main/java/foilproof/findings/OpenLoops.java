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
 * Isolation loops that do not close (E1): one stroke that comes back to its own start and stops short of it or passes
 * beside it, so that a neck of copper alone joins what lies inside to what lies outside. Where the layer image has copper in the neck, the
 * gap was meant; where nets are found joined, the short itself is told.
 */
final class OpenLoops implements Check {
    /** Cosine of how far an end that runs to the other one may point beside it: up to 45 degrees. */
    private static final double FACING = 0.7;
    /** An end that runs square to the neck does not run away from it; this much is rounding. */
    private static final double AWAY = 0.1;
    /** How far from the ends of a loop its two grooves may be nearest, mm: a lead-over, twice (0.3 to 0.5). */
    private static final double LEAD_MM = 1.0;

    private static final double LEAD_STEP_MM = 0.005;
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

    /** How one end of a stroke lies to the other end's groove: from a point at the end to a point on the way there. */
    private record Near(double xMm, double yMm, double dx, double dy, double mm, boolean comesBack) {}

    private static @Nullable Open open(Examination x, CopperFacts copper, Stroke stroke) {
        Segments s = x.plan().segments();
        int start = sideways(s, stroke, 1);
        int end = sideways(s, stroke, -1);
        RunFacts run = x.run(stroke.run());
        if (start < 0 || start == end || run.tool() == null || x.workOf(start) != Work.ISOLATION) {
            return null;
        }
        double halfStart = halfMm(x, run, s.z0Mm(start));
        double halfEnd = halfMm(x, run, s.z1Mm(end));
        Near near = nearest(s, stroke, start, end);
        double d = near.mm();
        double gap = d - halfStart - halfEnd;
        double most = Math.max(WIDEST_MM, x.limit(LimitKey.BRIDGE_SHARE) * (halfStart + halfEnd));
        if (gap <= 1e-6
                || gap > most
                || stroke.lengthMm() < TIMES * d
                || halfStart <= 0
                || halfEnd <= 0
                || !near.comesBack()) {
            return null;
        }
        double at = halfEnd + gap / 2;
        double px = near.xMm() + near.dx() * at;
        double py = near.yMm() + near.dy() * at;
        Chord neck =
                Chord.narrowest(copper.field()::copperAt, px, py, copper.field().cellMm() / 2, 2 * most);
        LayerImage layer = x.design().layerUp(copper.side());
        boolean meant = layer != null
                && layer.mapped(x.design().blankFromDesign(copper.side())).covers(px, py);
        if (neck == null
                || neck.lengthMm() > most
                || meant
                || !OpenNeck.widens(copper, neck, halfStart + halfEnd)
                || !SuspectedBridges.parts(x, copper, neck, LEAST_AREA_MM2)) {
            return null;
        }
        return new Open(neck, start, end);
    }

    /**
     * The nearest approach of the last bit of a stroke and its first one, as long as a lead-over, and whether the way comes
     * back there: one end runs towards the other one's groove, or both run the same way beside one another. Grooves on
     * both sides of a trace run opposite ways, and the copper between them was meant.
     */
    private static Near nearest(Segments s, Stroke stroke, int start, int end) {
        List<double[]> first = along(s, stroke, start, 1);
        List<double[]> last = along(s, stroke, end, -1);
        double[] a = last.get(0);
        double[] b = first.get(0);
        double least = Double.POSITIVE_INFINITY;
        // one of the two is an end itself
        for (double[] p : last) {
            double mm = StrictMath.hypot(first.get(0)[0] - p[0], first.get(0)[1] - p[1]);
            if (mm < least - 1e-9) {
                least = mm;
                a = p;
                b = first.get(0);
            }
        }
        for (double[] p : first) {
            double mm = StrictMath.hypot(p[0] - last.get(0)[0], p[1] - last.get(0)[1]);
            if (mm < least - 1e-9) {
                least = mm;
                a = last.get(0);
                b = p;
            }
        }
        double ux = (b[0] - a[0]) / Math.max(least, 1e-9);
        double uy = (b[1] - a[1]) / Math.max(least, 1e-9);
        double on = a[2] * ux + a[3] * uy;
        double off = b[2] * ux + b[3] * uy;
        boolean meets = Math.max(on, off) >= FACING && Math.min(on, off) >= -AWAY;
        boolean passes = a[2] * b[2] + a[3] * b[3] >= FACING;
        return new Near(a[0], a[1], ux, uy, least, meets || passes);
    }

    /** Points of the first (or, backwards, the last) bit of a stroke, with the direction of the way there. */
    private static List<double[]> along(Segments s, Stroke stroke, int from, int step) {
        List<double[]> points = new ArrayList<>();
        double gone = 0;
        for (int i = from; i >= stroke.firstSegment() && i < stroke.endSegment() && gone < LEAD_MM; i += step) {
            double length = s.planLengthMm(i);
            if (length <= 1e-6) {
                continue;
            }
            double[] d0 = s.direction(i, false);
            double[] d1 = s.direction(i, true);
            for (double t = 0; t < length && gone + t <= LEAD_MM; t += LEAD_STEP_MM) {
                double f = step > 0 ? t / length : 1 - t / length;
                double[] p = s.pointAt(i, f);
                double dx = d0[0] + f * (d1[0] - d0[0]);
                double dy = d0[1] + f * (d1[1] - d0[1]);
                double plan = Math.max(1e-9, StrictMath.hypot(dx, dy));
                points.add(new double[] {p[0], p[1], dx / plan, dy / plan});
            }
            gone += length;
        }
        return points;
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
