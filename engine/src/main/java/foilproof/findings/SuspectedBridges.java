package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.electrical.Chord;
import foilproof.motion.Segments;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Without a design (J4): two groove ends that face one another across a neck of copper no wider than a groove or so, or one
 * that stops short of another groove's flank, where the neck alone joins two sizeable parts. A designed trace runs on narrow beside its grooves; a bridge opens out at once on both
 * sides, and only such necks are told.
 */
final class SuspectedBridges implements Check {
    private static final double MOST_CELLS = 2e6;
    /** Cosine of how far a groove end may point beside the other one. */
    private static final double FACING = 0.7;

    private static final int MOST_ENDS = 4000;
    /** Each end is held against every groove of the side: with more ends than this only ends that face are told. */
    private static final int MOST_FLANKED = 400;
    /** Necks nearer than this are one, mm. */
    private static final double SAME_MM = 0.5;

    private record End(double xMm, double yMm, double dx, double dy, double halfMm, int segment) {}

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SHORT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("J4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (x.design().verdict() != null) {
            return;
        }
        for (CopperFacts copper : x.copper()) {
            List<End> ends = ends(x, copper.side());
            List<double[]> loops = OpenLoops.places(x, copper);
            List<Finding> found = new ArrayList<>();
            for (int i = 0; i < ends.size() && ends.size() <= MOST_ENDS; i++) {
                for (int j = i + 1; j < ends.size() && found.size() < 8; j++) {
                    Finding f = between(x, copper, ends.get(i), ends.get(j));
                    if (f != null && loops.stream().noneMatch(p -> near(f, p))) {
                        found.add(f);
                    }
                }
            }
            for (int i = 0; i < ends.size() && ends.size() <= MOST_FLANKED && found.size() < 8; i++) {
                Finding f = beforeFlank(x, copper, ends.get(i));
                if (f != null
                        && found.stream().noneMatch(g -> near(g, f))
                        && loops.stream().noneMatch(p -> near(f, p))) {
                    found.add(f);
                }
            }
            if (!found.isEmpty()) {
                out.add(found.get(0).withConsequences(found.subList(1, found.size())));
            }
        }
    }

    private static boolean near(Finding f, double[] place) {
        double[] at = f.atMm();
        return at != null && StrictMath.hypot(at[0] - place[0], at[1] - place[1]) < 0.5;
    }

    private static List<End> ends(Examination x, int side) {
        Segments s = x.plan().segments();
        List<End> out = new ArrayList<>();
        for (RunFacts run : x.runs()) {
            if (run.side().number() != side || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (!s.isFeed(i) || s.planLengthMm(i) == 0 || low > -x.foilMm() || x.workOf(i) != Work.ISOLATION) {
                    continue;
                }
                double half = run.knownTool().cutRadiusAtHeightMm(-low - x.foilMm());
                if (Bridges.leaves(x, i, run)) {
                    double[] d = s.direction(i, true);
                    out.add(new End(s.x1Mm(i), s.y1Mm(i), d[0], d[1], half, i));
                }
                if (Bridges.enters(x, i, run)) {
                    double[] d = s.direction(i, false);
                    out.add(new End(s.x0Mm(i), s.y0Mm(i), -d[0], -d[1], half, i));
                }
            }
        }
        return out;
    }

    private static boolean near(Finding a, Finding b) {
        double[] p = a.atMm();
        double[] q = b.atMm();
        return p != null && q != null && StrictMath.hypot(p[0] - q[0], p[1] - q[1]) < SAME_MM;
    }

    /** A groove that stops short of the flank of another one, at the neck before it. */
    private static @org.jspecify.annotations.Nullable Finding beforeFlank(Examination x, CopperFacts copper, End a) {
        Segments s = x.plan().segments();
        double share = 1 + x.limit(LimitKey.BRIDGE_SHARE);
        int flank = -1;
        double clear = Double.POSITIVE_INFINITY;
        double half = 0;
        for (RunFacts run : x.runs()) {
            if (run.side().number() != copper.side() || run.tool() == null) {
                continue;
            }
            double away = 0;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (!s.isFeed(i) || s.planLengthMm(i) == 0 || low > -x.foilMm() || own(x, run, a, i)) {
                    continue;
                }
                away = run.knownTool().cutRadiusAtHeightMm(-low - x.foilMm());
                double d = Paths.distanceMm(s, i, a.xMm(), a.yMm()) - away - a.halfMm();
                if (d < clear - 1e-9) {
                    clear = d;
                    flank = i;
                    half = away;
                }
            }
        }
        double groove = a.halfMm() + half;
        // an end that meets another groove, as loops do, stops short of nothing
        if (flank < 0 || clear <= 1e-6 || clear >= (share - 1) * groove) {
            return null;
        }
        double px = a.xMm() + a.dx() * (a.halfMm() + clear / 2);
        double py = a.yMm() + a.dy() * (a.halfMm() + clear / 2);
        double most = (share - 1) * groove;
        Chord neck =
                Chord.narrowest(copper.field()::copperAt, px, py, copper.field().cellMm() / 2, 2 * most);
        if (neck == null
                || neck.lengthMm() >= most
                || !opensBeside(copper, neck, a, groove)
                || !parts(x, copper, neck, x.limit(LimitKey.BRIDGE_AREA))) {
            return null;
        }
        return x.at(Finding.of(Kinds.SHORT, Severity.WATCH, Certainty.RULE_OF_THUMB), a.segment())
                .side(copper.side())
                .at(neck.xMm(), neck.yMm())
                .atLeast(Measured.mm("neck width", neck.lengthMm(), 0.002), most)
                .says("The groove of line " + s.line(a.segment()) + " stops short of that of line " + s.line(flank)
                        + ": a neck of copper " + Words.mm(neck.lengthMm())
                        + " wide stays between them, and nothing else joins the parts on both sides of it: perhaps a bridge"
                        + " that was not meant. Without a design the nets cannot be named.")
                .doThis("If it is not meant, close it with " + Words.number(neck.lengthMm() + 0.1, 2)
                        + " mm of groove on from " + Words.place(a.xMm(), a.yMm())
                        + "; give [design] a layer image or a netlist to be sure.")
                .build();
    }

    /** Whether a segment belongs to the end's own groove just beside it. */
    private static boolean own(Examination x, RunFacts run, End a, int i) {
        Segments s = x.plan().segments();
        if (s.run(i) != run.run().index() || s.run(a.segment()) != run.run().index()) {
            return false;
        }
        double gone = 0;
        int step = i > a.segment() ? 1 : -1;
        for (int k = a.segment(); k != i; k += step) {
            if (!s.isFeed(k) || s.planLengthMm(k) == 0 && s.z1Mm(k) > s.z0Mm(k)) {
                return false;
            }
            gone += k == a.segment() ? 0 : s.planLengthMm(k);
            if (gone > 6 * a.halfMm()) {
                return false;
            }
        }
        return true;
    }

    /** Whether the copper is wider on both sides of a neck, away from the flank. */
    private static boolean opensBeside(CopperFacts copper, Chord neck, End a, double groove) {
        double l = Math.max(1e-9, neck.lengthMm());
        double ux = -(neck.y1Mm() - neck.y0Mm()) / l;
        double uy = (neck.x1Mm() - neck.x0Mm()) / l;
        double facing = Math.abs(a.dx() * uy - a.dy() * ux);
        double reach = groove / 2 + Math.max(l, groove / 2);
        for (int sign = -1; sign <= 1; sign += 2) {
            double px = neck.xMm() + sign * ux * reach;
            double py = neck.yMm() + sign * uy * reach;
            if (copper.map().pieceAt(px, py) < 0
                    || copper.map().pieceAt(px - a.dx() * 1.2 * l, py - a.dy() * 1.2 * l) < 0) {
                return false;
            }
        }
        return facing >= FACING;
    }

    private static @org.jspecify.annotations.Nullable Finding between(Examination x, CopperFacts copper, End a, End b) {
        double dx = b.xMm() - a.xMm();
        double dy = b.yMm() - a.yMm();
        double d = StrictMath.hypot(dx, dy);
        double groove = a.halfMm() + b.halfMm();
        double most = x.limit(LimitKey.BRIDGE_SHARE) * groove;
        if (d <= groove || d - groove >= most || d < 1e-6) {
            return null;
        }
        boolean facing = (a.dx() * dx + a.dy() * dy) / d >= FACING && -(b.dx() * dx + b.dy() * dy) / d >= FACING;
        if (!facing) {
            return null;
        }
        double px = a.xMm() + dx / d * (a.halfMm() + (d - groove) / 2);
        double py = a.yMm() + dy / d * (a.halfMm() + (d - groove) / 2);
        double step = copper.field().cellMm() / 2;
        Chord neck = Chord.narrowest(copper.field()::copperAt, px, py, step, 2 * most);
        if (neck == null
                || neck.lengthMm() >= most
                || !opensOut(copper, neck, groove)
                || !parts(x, copper, neck, x.limit(LimitKey.BRIDGE_AREA))) {
            return null;
        }
        Segments s = x.plan().segments();
        return x.at(Finding.of(Kinds.SHORT, Severity.WATCH, Certainty.RULE_OF_THUMB), a.segment())
                .side(copper.side())
                .at(neck.xMm(), neck.yMm())
                .atLeast(Measured.mm("neck width", neck.lengthMm(), 0.002), most)
                .says("Two groove ends (lines " + s.line(a.segment()) + " and " + s.line(b.segment())
                        + ") face one another across a neck of copper only " + Words.mm(neck.lengthMm())
                        + " wide, and nothing else joins the parts on both sides of it: perhaps a bridge that was not"
                        + " meant. Without a design the nets cannot be named.")
                .doThis("If it is not meant, close it with " + Words.number(neck.lengthMm() + 0.1, 2)
                        + " mm of groove on from " + Words.place(a.xMm(), a.yMm())
                        + "; give [design] a layer image or a netlist to be sure.")
                .build();
    }

    /** Whether the copper is much wider a groove's width away from the neck, on both sides. */
    static boolean opensOut(CopperFacts copper, Chord neck, double groove) {
        double l = Math.max(1e-9, neck.lengthMm());
        double ux = -(neck.y1Mm() - neck.y0Mm()) / l;
        double uy = (neck.x1Mm() - neck.x0Mm()) / l;
        double reach = Math.max(neck.lengthMm(), groove / 2);
        for (int sign = -1; sign <= 1; sign += 2) {
            double px = neck.xMm() + sign * ux * (groove / 2 + reach);
            double py = neck.yMm() + sign * uy * (groove / 2 + reach);
            for (int beside = -1; beside <= 1; beside += 2) {
                double qx = px + beside * uy * 1.2 * l;
                double qy = py - beside * ux * 1.2 * l;
                if (copper.map().pieceAt(px, py) < 0 || copper.map().pieceAt(qx, qy) < 0) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Whether the neck alone joins two parts, each of them sizeable. */
    static boolean parts(Examination x, CopperFacts copper, Chord neck, double least) {
        double w = x.job().blank().widthMm();
        double h = x.job().blank().heightMm();
        double cell = Math.max(copper.field().cellMm(), Math.sqrt(w * h / MOST_CELLS));
        int columns = (int) Math.ceil(w / cell);
        int rows = (int) Math.ceil(h / cell);
        double l = Math.max(1e-9, neck.lengthMm());
        double ux = -(neck.y1Mm() - neck.y0Mm()) / l;
        double uy = (neck.x1Mm() - neck.x0Mm()) / l;
        double off = 2 * cell + l / 2;
        int from = (int) ((neck.yMm() + uy * off) / cell) * columns + (int) ((neck.xMm() + ux * off) / cell);
        int to = (int) ((neck.yMm() - uy * off) / cell) * columns + (int) ((neck.xMm() - ux * off) / cell);
        return area(copper, neck, cell, columns, rows, from, to) > least
                && area(copper, neck, cell, columns, rows, to, from) > least;
    }

    /** Area that a flood from a cell reaches, the neck closed, mm2; -1 where it comes round to the other side. */
    private static double area(
            CopperFacts copper, Chord neck, double cell, int columns, int rows, int from, int other) {
        if (from < 0 || from >= columns * rows || other < 0 || other >= columns * rows) {
            return -1;
        }
        BitSet seen = new BitSet(columns * rows);
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        seen.set(from);
        queue.add(from);
        int count = 0;
        while (!queue.isEmpty()) {
            int i = queue.poll();
            if (i == other) {
                return -1;
            }
            count++;
            int c = i % columns;
            int[] beside = {c < columns - 1 ? i + 1 : -1, c > 0 ? i - 1 : -1, i + columns, i - columns};
            for (int j : beside) {
                if (j < 0 || j >= columns * rows || seen.get(j)) {
                    continue;
                }
                double px = (j % columns + 0.5) * cell;
                double py = (j / columns + 0.5) * cell;
                if (copper.map().pieceAt(px, py) >= 0 && !onChord(neck, px, py, cell)) {
                    seen.set(j);
                    queue.add(j);
                }
            }
        }
        return count * cell * cell;
    }

    private static boolean onChord(Chord neck, double px, double py, double cell) {
        double dx = neck.x1Mm() - neck.x0Mm();
        double dy = neck.y1Mm() - neck.y0Mm();
        double l2 = Math.max(1e-12, dx * dx + dy * dy);
        double t = Math.max(-0.5, Math.min(1.5, ((px - neck.x0Mm()) * dx + (py - neck.y0Mm()) * dy) / l2));
        return StrictMath.hypot(neck.x0Mm() + t * dx - px, neck.y0Mm() + t * dy - py) < 1.1 * cell;
    }
}
