package foilproof.motion;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Finds closed ways, in one pass or several, whole or with gaps for tabs. */
final class LoopReader {
    /** Passes of one loop have boxes that differ by no more than this, mm. */
    private static final double SAME_BOX_MM = 0.05;
    /** A gap up to this long between two cuts, or at the end of one, may be a tab, mm (needs.md H2: tabs 1.5 to 3). */
    private static final double GAP_MM = 8;
    /** The path rises for a tab by at least this, mm. */
    private static final double TAB_RISE_MM = 0.05;
    /** A path that comes round to within this of its beginning has gone round (ways in begin beside it), turns. */
    private static final double SHORT_OF_A_TURN = 0.2;
    /** Heights are sorted into levels of this size, mm. */
    private static final double LEVEL_MM = 0.005;

    /** A point this far beside a straight move lies within what the path encloses, or outside, mm. */
    private static final double BESIDE_MM = 0.2;

    private final Segments s;
    private final MotionPlan plan;
    private final List<Stroke> strokes;
    private final boolean[] inHole;

    LoopReader(MotionPlan plan, List<Stroke> strokes, boolean[] inHole) {
        this.plan = plan;
        this.s = plan.segments();
        this.strokes = strokes;
        this.inHole = inHole;
    }

    /** One lap or several laps of the same way: the strokes of one chain. */
    private record Lap(List<Stroke> strokes, boolean gaps, Extents box) {
        Lap(List<Stroke> strokes, boolean gaps) {
            this(strokes, gaps, boxOf(strokes));
        }

        private static Extents boxOf(List<Stroke> strokes) {
            Extents box = strokes.get(0).extents();
            for (Stroke stroke : strokes) {
                Extents e = stroke.extents();
                box = new Extents(
                        Math.min(box.x0Mm(), e.x0Mm()),
                        Math.min(box.y0Mm(), e.y0Mm()),
                        Math.min(box.z0Mm(), e.z0Mm()),
                        Math.max(box.x1Mm(), e.x1Mm()),
                        Math.max(box.y1Mm(), e.y1Mm()),
                        Math.max(box.z1Mm(), e.z1Mm()),
                        false);
            }
            return box;
        }

        int run() {
            return strokes.get(0).run();
        }
    }

    List<CutLoop> read() {
        List<List<Lap>> groups = new ArrayList<>();
        Map<Long, List<Integer>> byCorner = new TreeMap<>();
        for (Lap lap : laps()) {
            Extents box = lap.box();
            long key = corner(lap.run(), box, 0, 0);
            int group = find(groups, byCorner, lap, box);
            if (group < 0) {
                byCorner.computeIfAbsent(key, k -> new ArrayList<>()).add(groups.size());
                groups.add(new ArrayList<>(List.of(lap)));
            } else {
                groups.get(group).add(lap);
            }
        }
        List<CutLoop> loops = new ArrayList<>(groups.size());
        for (List<Lap> group : groups) {
            loops.add(loop(group));
        }
        return loops;
    }

    private static long corner(int run, Extents box, int dx, int dy) {
        long x = (long) Math.floor(box.x0Mm() / SAME_BOX_MM) + dx;
        long y = (long) Math.floor(box.y0Mm() / SAME_BOX_MM) + dy;
        return ((x & 0xffffffL) << 40) ^ ((y & 0xffffffL) << 16) ^ run;
    }

    private static int find(List<List<Lap>> groups, Map<Long, List<Integer>> byCorner, Lap lap, Extents box) {
        for (int dx = -1; dx <= 1; dx++) {
            for (int dy = -1; dy <= 1; dy++) {
                for (int k : byCorner.getOrDefault(corner(lap.run(), box, dx, dy), List.of())) {
                    Lap first = groups.get(k).get(0);
                    if (first.run() == lap.run() && sameBox(first.box(), box)) {
                        return k;
                    }
                }
            }
        }
        return -1;
    }

    private static boolean sameBox(Extents a, Extents b) {
        return Math.abs(a.x0Mm() - b.x0Mm()) <= SAME_BOX_MM
                && Math.abs(a.y0Mm() - b.y0Mm()) <= SAME_BOX_MM
                && Math.abs(a.x1Mm() - b.x1Mm()) <= SAME_BOX_MM
                && Math.abs(a.y1Mm() - b.y1Mm()) <= SAME_BOX_MM;
    }

    // ---- laps -----------------------------------------------------------------------------------------------------

    private List<Lap> laps() {
        List<Lap> laps = new ArrayList<>();
        List<Stroke> chain = new ArrayList<>();
        for (Stroke stroke : strokes) {
            boolean open = !inHole[stroke.index()] && !stroke.vertical() && !stroke.closed();
            boolean through = open && stroke.depthMm() > Toolpaths.COPPER_DEPTH_MM;
            if (!chain.isEmpty() && !(through && follows(chain.get(chain.size() - 1), stroke))) {
                chain.clear();
            }
            if (!inHole[stroke.index()] && stroke.closed()) {
                laps.add(new Lap(List.of(stroke), false));
            }
            if (through) {
                chain.add(stroke);
                if (ringOfCuts(chain)) {
                    laps.add(new Lap(List.copyOf(chain), true));
                    chain.clear();
                }
            }
        }
        return laps;
    }

    private boolean follows(Stroke a, Stroke b) {
        return a.run() == b.run() && gap(a, b) <= GAP_MM;
    }

    private double gap(Stroke a, Stroke b) {
        int end = a.endSegment() - 1;
        int start = b.firstSegment();
        return Plane2.length(s.x1Mm(end) - s.x0Mm(start), s.y1Mm(end) - s.y0Mm(start));
    }

    private boolean ringOfCuts(List<Stroke> chain) {
        double cut = 0;
        double gaps = 0;
        for (int k = 0; k < chain.size(); k++) {
            cut += chain.get(k).lengthMm();
            double gap = gap(chain.get(k), chain.get((k + 1) % chain.size()));
            if (gap > GAP_MM) {
                return false;
            }
            gaps += gap;
        }
        // A real ring is mostly cut; and it encloses something.
        return cut > 3 * gaps && area(chain) > cut * cut / 200;
    }

    private double area(List<Stroke> chain) {
        return area(chain, Double.POSITIVE_INFINITY);
    }

    /** Area enclosed by the chain of paths, straight lines across the gaps, as far as this along them, mm2. */
    private double area(List<Stroke> chain, double mostMm) {
        double twice = 0;
        double left = mostMm + 1e-9;
        double px = s.x0Mm(chain.get(0).firstSegment());
        double py = s.y0Mm(chain.get(0).firstSegment());
        double ox = px;
        double oy = py;
        for (Stroke stroke : chain) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                twice += (px - ox) * (s.y0Mm(i) - oy) - (s.x0Mm(i) - ox) * (py - oy);
                double length = s.planLengthMm(i);
                if (length > left) {
                    // a lead-over goes round twice
                    double part = left / length;
                    double[] p = s.pointAt(i, part);
                    twice += (s.x0Mm(i) - ox) * (p[1] - oy) - (p[0] - ox) * (s.y0Mm(i) - oy);
                    twice += s.isArc(i) ? segmentArea(s.radiusMm(i), s.sweepRad(i) * part) : 0;
                    return Math.abs(twice) / 2;
                }
                left -= length;
                twice += twiceArea(i, ox, oy);
                px = s.x1Mm(i);
                py = s.y1Mm(i);
            }
        }
        return Math.abs(twice) / 2;
    }

    private double twiceArea(int i, double ox, double oy) {
        double chord = (s.x0Mm(i) - ox) * (s.y1Mm(i) - oy) - (s.x1Mm(i) - ox) * (s.y0Mm(i) - oy);
        if (!s.isArc(i)) {
            return chord;
        }
        return chord + segmentArea(s.radiusMm(i), s.sweepRad(i));
    }

    /** Twice the area between an arc and its chord, mm2. */
    private static double segmentArea(double r, double a) {
        return r * r * (a - StrictMath.sin(a));
    }

    // ---- the loop -------------------------------------------------------------------------------------------------

    private CutLoop loop(List<Lap> group) {
        List<Integer> indexes = new ArrayList<>();
        double deepest = Double.POSITIVE_INFINITY;
        double depth = 0;
        Lap last = group.get(0);
        for (Lap lap : group) {
            for (Stroke stroke : lap.strokes()) {
                indexes.add(stroke.index());
                depth = Math.max(depth, stroke.depthMm());
            }
            if (lap.box().z0Mm() <= deepest) {
                deepest = lap.box().z0Mm();
                last = lap;
            }
        }
        double turns = Math.max(1, windings(last));
        double laps = Math.floor(turns + SHORT_OF_A_TURN);
        double all = 0;
        for (Stroke stroke : last.strokes()) {
            all += stroke.lengthMm();
        }
        double length = all / turns;
        double top = deepest + depth;
        Extents box = group.get(0).box();
        List<CutLoop.Tab> tabs = last.gaps() ? gapTabs(last) : risenTabs(last, length, deepest);
        return new CutLoop(
                last.run(),
                plan.runs().get(last.run()).side(),
                indexes,
                deepest,
                depth,
                deepestStep(group, top, depth),
                box,
                area(last.strokes(), all * Math.min(1, laps / turns)) / laps,
                length,
                tabs,
                last.gaps());
    }

    /**
     * How often the path goes round a point that it encloses: the middle of its box, or a point beside the middle of its
     * longest straight move where the middle lies outside (an L, a U).
     */
    private double windings(Lap lap) {
        Extents box = lap.box();
        double most = windings(lap, (box.x0Mm() + box.x1Mm()) / 2, (box.y0Mm() + box.y1Mm()) / 2);
        int longest = -1;
        for (Stroke stroke : lap.strokes()) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (!s.isArc(i)
                        && s.planLengthMm(i) > 4 * BESIDE_MM
                        && (longest < 0 || s.planLengthMm(i) > s.planLengthMm(longest))) {
                    longest = i;
                }
            }
        }
        if (most > 0.5 || longest < 0) {
            return most;
        }
        double length = s.planLengthMm(longest);
        double dx = (s.x1Mm(longest) - s.x0Mm(longest)) / length * BESIDE_MM;
        double dy = (s.y1Mm(longest) - s.y0Mm(longest)) / length * BESIDE_MM;
        double x = (s.x0Mm(longest) + s.x1Mm(longest)) / 2;
        double y = (s.y0Mm(longest) + s.y1Mm(longest)) / 2;
        return Math.max(windings(lap, x - dy, y + dx), windings(lap, x + dy, y - dx));
    }

    /**
     * How often the path goes round a point: its crossings of the ray that goes right from there, upward ones counted
     * up, downward ones down, and the part of a turn from there to where it begins and ends (the angle that a path turns
     * through about a point is 2 pi times its crossings of a ray plus the angles of its ends from that ray). Arcs count
     * by quarters of their turn.
     */
    private double windings(Lap lap, double x, double y) {
        int crossings = 0;
        for (Stroke stroke : lap.strokes()) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                double ax = s.x0Mm(i) - x;
                double ay = s.y0Mm(i) - y;
                if (!s.isArc(i)) {
                    crossings += crossing(ax, ay, s.x1Mm(i) - x, s.y1Mm(i) - y);
                    continue;
                }
                for (int k = 1; k <= 4; k++) {
                    double[] p = s.pointAt(i, k / 4.0);
                    double bx = p[0] - x;
                    double by = p[1] - y;
                    crossings += crossing(ax, ay, bx, by);
                    ax = bx;
                    ay = by;
                }
            }
        }
        int first = lap.strokes().get(0).firstSegment();
        int last = lap.strokes().get(lap.strokes().size() - 1).endSegment() - 1;
        double turn = fromRay(s.x1Mm(last) - x, s.y1Mm(last) - y) - fromRay(s.x0Mm(first) - x, s.y0Mm(first) - y);
        return Math.abs(crossings + turn / (2 * Math.PI));
    }

    /** Angle from the ray that goes right, just above it and on, 0 up to a full turn, rad. */
    private static double fromRay(double dx, double dy) {
        double a = StrictMath.atan2(dy + 0.0, dx);
        return dy <= 0 && !(dy == 0 && dx < 0) ? a + 2 * Math.PI : a;
    }

    private static int crossing(double ax, double ay, double bx, double by) {
        if ((ay <= 0) == (by <= 0)) {
            return 0;
        }
        // Where the piece meets the ray's line: right of the middle or not.
        boolean right = (ax * by - bx * ay) * (by - ay) > 0;
        if (!right) {
            return 0;
        }
        return by > ay ? 1 : -1;
    }

    /** The largest step from one level that carries a good part of the path to the next, the foil top first. */
    private double deepestStep(List<Lap> group, double top, double depth) {
        TreeMap<Long, Level> levels = new TreeMap<>();
        Level at = null;
        long key = 0;
        double sloping = 0;
        double level = 0;
        double laps = 0;
        for (Lap lap : group) {
            laps += Math.floor(windings(lap) + SHORT_OF_A_TURN);
            for (Stroke stroke : lap.strokes()) {
                for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                    if (Math.abs(s.z1Mm(i) - s.z0Mm(i)) < LEVEL_MM) {
                        long here = Math.round(s.lowestMm(i) / LEVEL_MM);
                        if (at == null || here != key) {
                            key = here;
                            at = levels.computeIfAbsent(here, k -> new Level());
                        }
                        at.add(s.planLengthMm(i), s.lowestMm(i));
                        level += s.planLengthMm(i);
                    } else {
                        sloping += s.planLengthMm(i);
                    }
                }
            }
        }
        if (sloping > level) {
            return depth / Math.max(1, laps);
        }
        double most = 0;
        for (Level one : levels.values()) {
            most = Math.max(most, one.lengthMm);
        }
        double above = top;
        double step = 0;
        for (Level one : levels.descendingMap().values()) {
            if (one.lengthMm >= most * 0.4) {
                step = Math.max(step, above - one.lowestMm);
                above = one.lowestMm;
            }
        }
        return step;
    }

    /** The parts of a path that run at one height. */
    private static final class Level {
        private double lengthMm;
        private double lowestMm = Double.POSITIVE_INFINITY;

        void add(double lengthOnMm, double heightMm) {
            lengthMm += lengthOnMm;
            lowestMm = Math.min(lowestMm, heightMm);
        }
    }

    private List<CutLoop.Tab> gapTabs(Lap lap) {
        List<CutLoop.Tab> tabs = new ArrayList<>();
        List<Stroke> chain = lap.strokes();
        for (int k = 0; k < chain.size(); k++) {
            Stroke a = chain.get(k);
            Stroke b = chain.get((k + 1) % chain.size());
            double gap = gap(a, b);
            if (gap <= StrokeReader.CLOSED_MM) {
                continue;
            }
            int end = a.endSegment() - 1;
            int start = b.firstSegment();
            tabs.add(new CutLoop.Tab(
                    (s.x1Mm(end) + s.x0Mm(start)) / 2,
                    (s.y1Mm(end) + s.y0Mm(start)) / 2,
                    gap,
                    Double.POSITIVE_INFINITY,
                    end));
        }
        return tabs;
    }

    /** Where the last lap rises above its deepest. */
    private List<CutLoop.Tab> risenTabs(Lap lap, double lapLengthMm, double deepest) {
        Stroke stroke = lap.strokes().get(lap.strokes().size() - 1);
        int from = stroke.endSegment();
        double way = 0;
        while (from > stroke.firstSegment() && way < lapLengthMm - StrokeReader.CLOSED_MM) {
            from--;
            way += s.planLengthMm(from);
        }
        double limit = deepest + TAB_RISE_MM;
        List<CutLoop.Tab> tabs = new ArrayList<>();
        double length = 0;
        double lowest = Double.POSITIVE_INFINITY;
        int first = -1;
        for (int i = from; i <= stroke.endSegment(); i++) {
            boolean high = i < stroke.endSegment() && Math.max(s.z0Mm(i), s.z1Mm(i)) > limit;
            if (high) {
                if (first < 0) {
                    first = i;
                }
                double up = Math.max(s.z0Mm(i), s.z1Mm(i));
                double low = s.lowestMm(i);
                length += s.planLengthMm(i) * (low >= limit ? 1 : (up - limit) / (up - low));
                if (low >= limit) {
                    lowest = Math.min(lowest, low);
                }
            } else if (first >= 0) {
                if (length > StrokeReader.CLOSED_MM) {
                    int middle = (first + i - 1) / 2;
                    double[] p = s.pointAt(middle, 0.5);
                    tabs.add(new CutLoop.Tab(p[0], p[1], length, Double.isInfinite(lowest) ? limit : lowest, middle));
                }
                first = -1;
                length = 0;
                lowest = Double.POSITIVE_INFINITY;
            }
        }
        return tabs;
    }
}
