package foilproof.motion;

import foilproof.bench.Job;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.Work;
import foilproof.bench.ZZero;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the moves of a plan are: strokes, holes, closed loops with their tabs, and what work they do. Geometry of the
 * path alone; what it does to the blank is the stock's business. Immutable.
 *
 * <p>Work, where the job does not state it, is judged stroke by stroke (common practice, no source):
 * <ul>
 *   <li>a hole that goes deeper than {@link #BORING_DEPTH_MM} below the foil top: boring;
 *   <li>any other stroke deeper than {@link #COPPER_DEPTH_MM}: outline;
 *   <li>shallower strokes: clearing where the paths of the tool run lie so close that the length of path times the
 *       width of cut fills more than half of the box round them and that box is at least three cuts wide, else
 *       isolation. Text cannot be told from isolation.
 * </ul>
 */
public final class Toolpaths {
    /** A hole that goes less deep below the foil top is a mark, not a bore, mm. */
    public static final double BORING_DEPTH_MM = 0.3;
    /** Sideways work down to this depth below the foil top is copper work, mm (needs.md A2: copper work above 0.5 is a slip). */
    public static final double COPPER_DEPTH_MM = 0.5;

    private final MotionPlan plan;
    private final List<Stroke> strokes;
    private final List<Hole> holes;
    private final List<CutLoop> loops;
    private final boolean[] strokeInHole;
    private final boolean[] clearingRun;

    private Toolpaths(MotionPlan plan, Job job) {
        this.plan = plan;
        double[] tops = new double[plan.runs().size()];
        for (ToolRun run : plan.runs()) {
            tops[run.index()] = foilTopMm(job, run);
        }
        strokes = List.copyOf(StrokeReader.read(plan, tops));
        strokeInHole = new boolean[strokes.size()];
        holes = List.copyOf(new HoleReader(plan, strokes, tops, strokeInHole).read());
        loops = List.copyOf(new LoopReader(plan, strokes, strokeInHole).read());
        clearingRun = clearing();
    }

    /** Reads the moves of {@code plan}. */
    public static Toolpaths of(MotionPlan plan, Job job) {
        return new Toolpaths(plan, job);
    }

    /** Nominal height of the foil top in the zero of {@code run}, mm: 0, or thickness and tape above the spoil board. */
    public static double foilTopMm(Job job, ToolRun run) {
        if (run.zZero() == ZZero.FOIL) {
            return 0;
        }
        double tape = job.blank().tapeMm();
        for (Side side : job.sides()) {
            if (side.number() == run.side()) {
                tape = side.tapeMm();
            }
        }
        return job.blank().thicknessMm() + tape;
    }

    /** All strokes in time order. */
    public List<Stroke> strokes() {
        return strokes;
    }

    /** All holes in time order, however shallow. */
    public List<Hole> holes() {
        return holes;
    }

    /** The holes that pass through a foil of this thickness into the substrate, in time order. */
    public List<Hole> holesThrough(double foilMm) {
        return holes.stream().filter(hole -> hole.depthMm() > foilMm).toList();
    }

    /** All closed loops in the order of their first pass; holes are not among them. */
    public List<CutLoop> loops() {
        return loops;
    }

    /** The loops deeper than copper work: outlines, inside cuts, and slots that are run there and back. */
    public List<CutLoop> deepLoops() {
        return loops.stream().filter(loop -> loop.depthMm() > COPPER_DEPTH_MM).toList();
    }

    /** The deep loops that leave something inside: outlines and inside cuts. */
    public List<CutLoop> outlines() {
        return loops.stream()
                .filter(loop -> loop.depthMm() > COPPER_DEPTH_MM && leavesSomething(loop))
                .toList();
    }

    /** Whether the cutter's own width leaves anything of what the way goes round. */
    private boolean leavesSomething(CutLoop loop) {
        Tool tool = plan.runs().get(loop.run()).tool();
        return tool == null || loop.areaMm2() > loop.lengthMm() * tool.cutRadiusAtHeightMm(0) + 1e-6;
    }

    /** Whether a stroke makes a hole. */
    public boolean makesHole(Stroke stroke) {
        return strokeInHole[stroke.index()];
    }

    /** What a stroke does: the job's own word for its program, else judged by the rules of this class. */
    public Work workOf(Stroke stroke) {
        int program = plan.segments().program(stroke.firstSegment());
        if (program < plan.programs().size()) {
            Work said = plan.programs().get(program).entry().work();
            if (said != null) {
                return said;
            }
        }
        return judgedWork(stroke);
    }

    /** What a stroke does by its depth and shape alone, whatever the job says. */
    public Work judgedWork(Stroke stroke) {
        if (strokeInHole[stroke.index()] && stroke.depthMm() > BORING_DEPTH_MM) {
            return Work.BORING;
        }
        if (stroke.depthMm() > COPPER_DEPTH_MM) {
            return Work.OUTLINE;
        }
        return clearingRun[stroke.run()] ? Work.CLEARING : Work.ISOLATION;
    }

    /**
     * What a program mostly does by depth and shape alone, or null where it cuts nothing. Each stroke counts by its
     * length and its depth, so that a deep hole weighs as much as the groove it could have been.
     */
    public @Nullable Work judgedWorkOfProgram(int program) {
        double[] weight = new double[Work.values().length];
        boolean any = false;
        for (Stroke stroke : strokes) {
            if (plan.segments().program(stroke.firstSegment()) == program) {
                weight[judgedWork(stroke).ordinal()] += stroke.lengthMm() + stroke.depthMm();
                any = true;
            }
        }
        if (!any) {
            return null;
        }
        int best = 0;
        for (int k = 1; k < weight.length; k++) {
            if (weight[k] > weight[best]) {
                best = k;
            }
        }
        return Work.values()[best];
    }

    private boolean[] clearing() {
        boolean[] result = new boolean[plan.runs().size()];
        for (ToolRun run : plan.runs()) {
            double length = 0;
            double deepest = 0;
            List<Stroke> shallow = new ArrayList<>();
            for (Stroke stroke : strokes) {
                if (stroke.run() == run.index() && stroke.depthMm() <= COPPER_DEPTH_MM && !stroke.vertical()) {
                    shallow.add(stroke);
                    length += stroke.lengthMm();
                    deepest = Math.max(deepest, stroke.depthMm());
                }
            }
            double width = 2 * radiusAt(run.tool(), deepest);
            if (shallow.isEmpty() || width <= 0) {
                continue;
            }
            double x0 = Double.POSITIVE_INFINITY;
            double y0 = Double.POSITIVE_INFINITY;
            double x1 = Double.NEGATIVE_INFINITY;
            double y1 = Double.NEGATIVE_INFINITY;
            for (Stroke stroke : shallow) {
                x0 = Math.min(x0, stroke.extents().x0Mm());
                y0 = Math.min(y0, stroke.extents().y0Mm());
                x1 = Math.max(x1, stroke.extents().x1Mm());
                y1 = Math.max(y1, stroke.extents().y1Mm());
            }
            double short1 = Math.min(x1 - x0, y1 - y0) + width;
            double area = (x1 - x0 + width) * (y1 - y0 + width);
            result[run.index()] = short1 >= 3 * width && length * width > area / 2;
        }
        return result;
    }

    /** Radius of a cutter at a height above its tip, mm; an unknown tip counts as sharp, an unknown cutter as 0. */
    static double radiusAt(@Nullable Tool tool, double heightMm) {
        if (tool == null) {
            return 0;
        }
        if (tool.tipUnknown()) {
            return Math.min(tool.diameterMm() / 2, heightMm * StrictMath.tan(tool.halfAngleRad()));
        }
        return tool.radiusAtHeightMm(heightMm);
    }
}
