package foilproof.motion;

import foilproof.bench.Tool;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Finds the strokes that make round holes, and joins those at one place. */
final class HoleReader {
    /** Strokes of one tool run whose centres lie this near make one hole, mm. */
    private static final double SAME_PLACE_MM = 0.02;
    /** How far the box round a bore's path may be from square, mm: rounding and chords. */
    private static final double ROUND_MM = 0.03;

    private final MotionPlan plan;
    private final Segments s;
    private final List<Stroke> strokes;
    private final double[] tops;
    private final boolean[] inHole;

    HoleReader(MotionPlan plan, List<Stroke> strokes, double[] tops, boolean[] inHole) {
        this.plan = plan;
        this.s = plan.segments();
        this.strokes = strokes;
        this.tops = tops;
        this.inHole = inHole;
    }

    List<Hole> read() {
        List<Hole> holes = new ArrayList<>();
        // Holes by place: cells of a coarse grid, each with the holes whose centre lies in it.
        Map<Long, List<Integer>> places = new HashMap<>();
        for (Stroke stroke : strokes) {
            Hole hole = hole(stroke);
            if (hole == null) {
                continue;
            }
            inHole[stroke.index()] = true;
            int same = find(places, holes, hole);
            if (same >= 0) {
                holes.set(same, join(holes.get(same), hole));
            } else {
                places.computeIfAbsent(cell(hole.run(), hole.xMm(), hole.yMm(), 0, 0), k -> new ArrayList<>())
                        .add(holes.size());
                holes.add(hole);
            }
        }
        return holes;
    }

    private static long cell(int run, double xMm, double yMm, int dx, int dy) {
        long x = (long) Math.floor(xMm / SAME_PLACE_MM) + dx;
        long y = (long) Math.floor(yMm / SAME_PLACE_MM) + dy;
        return ((x & 0xffffffL) << 40) ^ ((y & 0xffffffL) << 16) ^ run;
    }

    private static int find(Map<Long, List<Integer>> places, List<Hole> holes, Hole hole) {
        for (int dx = -1; dx <= 1; dx++) {
            for (int dy = -1; dy <= 1; dy++) {
                List<Integer> near = places.get(cell(hole.run(), hole.xMm(), hole.yMm(), dx, dy));
                if (near == null) {
                    continue;
                }
                for (int k : near) {
                    Hole other = holes.get(k);
                    if (other.run() == hole.run()
                            && Plane2.length(other.xMm() - hole.xMm(), other.yMm() - hole.yMm()) <= SAME_PLACE_MM) {
                        return k;
                    }
                }
            }
        }
        return -1;
    }

    private static Hole join(Hole a, Hole b) {
        Hole wider = b.pathRadiusMm() > a.pathRadiusMm() ? b : a;
        return new Hole(
                wider.kind(),
                a.run(),
                a.side(),
                wider.xMm(),
                wider.yMm(),
                wider.pathRadiusMm(),
                Math.min(a.deepestMm(), b.deepestMm()),
                Math.max(a.depthMm(), b.depthMm()),
                Math.max(a.depthPerTurnMm(), b.depthPerTurnMm()),
                a.strokes() + b.strokes(),
                Math.max(a.longestPlungeMm(), b.longestPlungeMm()),
                a.cycle() || b.cycle(),
                a.firstSegment(),
                b.endSegment(),
                a.line());
    }

    private @Nullable Hole hole(Stroke stroke) {
        ToolRun run = plan.runs().get(stroke.run());
        if (stroke.vertical()) {
            double way = straightWayDown(stroke);
            int last = stroke.firstSegment();
            return make(stroke, run, Hole.Kind.PLUNGE, s.x1Mm(last), s.y1Mm(last), 0, stroke.depthMm(), way);
        }
        Extents box = stroke.extents();
        if (Math.abs(box.widthMm() - box.heightMm()) > ROUND_MM + 0.01 * box.widthMm()) {
            return null;
        }
        double x = (box.x0Mm() + box.x1Mm()) / 2;
        double y = (box.y0Mm() + box.y1Mm()) / 2;
        double radius = (box.widthMm() + box.heightMm()) / 4;
        if (!standsNothing(stroke, run.tool(), x, y, radius) || !roundAbout(stroke, x, y, radius)) {
            return null;
        }
        return bore(stroke, run, x, y, radius);
    }

    /** Whether the cutter takes away the middle too: the path's circle is no wider than the cutter, or it winds inwards. */
    private boolean standsNothing(Stroke stroke, @Nullable Tool tool, double x, double y, double radius) {
        double cutter = Toolpaths.radiusAt(tool, stroke.depthMm());
        if (radius <= cutter + 1e-6) {
            return true;
        }
        double nearest = Double.POSITIVE_INFINITY;
        double length = 0;
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            nearest = Math.min(nearest, Plane2.length(s.x1Mm(i) - x, s.y1Mm(i) - y));
            length += s.planLengthMm(i);
        }
        // A spiral from the middle outwards: it comes as near as a cutter's radius and its path covers the disc.
        double discArea = Math.PI * (radius + cutter) * (radius + cutter);
        return nearest <= cutter && cutter > 0 && length * 2 * cutter >= discArea;
    }

    /** Whether the path goes round its centre at least once, and stays on its circle once it has got there. */
    private boolean roundAbout(Stroke stroke, double x, double y, double radius) {
        double turned = 0;
        double onCircle = 0;
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            double r0 = Plane2.length(s.x0Mm(i) - x, s.y0Mm(i) - y);
            double r1 = Plane2.length(s.x1Mm(i) - x, s.y1Mm(i) - y);
            double step = turnAbout(i, x, y);
            turned += step;
            if (Math.abs(r0 - radius) <= ROUND_MM && Math.abs(r1 - radius) <= ROUND_MM) {
                onCircle += Math.abs(step);
            }
        }
        double most = 2 * Math.PI * 0.97;
        return Math.abs(turned) >= most && onCircle >= most;
    }

    private double turnAbout(int i, double x, double y) {
        if (s.isArc(i)) {
            double off = Plane2.length(s.cxMm(i) - x, s.cyMm(i) - y);
            return off <= ROUND_MM ? s.sweepRad(i) : 0;
        }
        double ax = s.x0Mm(i) - x;
        double ay = s.y0Mm(i) - y;
        double bx = s.x1Mm(i) - x;
        double by = s.y1Mm(i) - y;
        double dot = ax * bx + ay * by;
        double cross = ax * by - ay * bx;
        return dot == 0 && cross == 0 ? 0 : StrictMath.atan2(cross, dot);
    }

    private Hole bore(Stroke stroke, ToolRun run, double x, double y, double radius) {
        double turns = 0;
        double sunk = 0;
        double straight = 0;
        double straightNow = 0;
        double top = tops[run.index()];
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            double down = Math.min(top, s.z0Mm(i)) - s.z1Mm(i);
            boolean sideways = s.planLengthMm(i) >= StrokeReader.SIDEWAYS_MM;
            if (sideways) {
                straightNow = 0;
                if (down > 0) {
                    turns += Math.abs(turnAbout(i, x, y)) / (2 * Math.PI);
                    sunk += down;
                }
            } else if (down > 0) {
                straightNow += down;
                straight = Math.max(straight, straightNow);
            }
        }
        boolean helix = sunk > stroke.depthMm() / 4;
        double perTurn = helix ? (turns > 0 ? sunk / turns : stroke.depthMm()) : straight;
        return make(stroke, run, helix ? Hole.Kind.HELIX : Hole.Kind.CIRCLES, x, y, radius, perTurn, straight);
    }

    private double straightWayDown(Stroke stroke) {
        double top = tops[stroke.run()];
        double most = 0;
        // A peck begins where the rapid brought the cutter back to, inside the hole.
        double from = Math.min(top, s.z0Mm(stroke.firstSegment()));
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            if (s.z1Mm(i) > s.z0Mm(i)) {
                from = Math.min(top, s.z1Mm(i));
            } else {
                most = Math.max(most, from - s.z1Mm(i));
            }
        }
        return most;
    }

    private Hole make(
            Stroke stroke,
            ToolRun run,
            Hole.Kind kind,
            double x,
            double y,
            double radius,
            double perTurn,
            double straight) {
        return new Hole(
                kind,
                run.index(),
                run.side(),
                x,
                y,
                radius,
                stroke.deepestMm(),
                stroke.depthMm(),
                perTurn,
                1,
                straight,
                s.has(stroke.firstSegment(), Segments.CANNED_CYCLE),
                stroke.firstSegment(),
                stroke.endSegment(),
                s.line(stroke.firstSegment()));
    }
}
