package foilproof.findings;

import foilproof.bench.IntervalMm;
import foilproof.bench.Job;
import foilproof.bench.LimitKey;
import foilproof.bench.Substrate;
import foilproof.bench.Surface;
import foilproof.bench.Work;
import foilproof.motion.MotionPlan;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import foilproof.motion.Toolpaths;
import foilproof.stock.BlankSurface;
import foilproof.stock.BoardStock;
import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.Conditions;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Everything that is known of one job after its programs ran on the virtual bench, as the checks read it. Immutable;
 * what several checks need is computed once, when first asked for.
 */
public final class Examination {
    private final Job job;
    private final MotionPlan plan;
    private final BoardStock stock;
    private final ComposedBoard board;
    private final List<RunFacts> runs;
    private final Engagements engagements;
    private final Toolpaths paths;
    private final @Nullable Work[] work;
    private final CopperWork copperWork;
    private final List<Hole> holes;
    private final DesignFacts design;
    private @Nullable List<CopperFacts> copper;
    private @Nullable Map<String, NetCopper> netCopper;
    private final ExamineOptions options;
    /** Heights that the controller follows, by side; null where it follows none. */
    private final @Nullable BlankSurface[] touched;

    Examination(Parts parts) {
        this.touched = new BlankSurface[parts.job().sides().size()];
        for (int k = 0; k < touched.length; k++) {
            Surface surface = parts.job().sides().get(k).surface();
            touched[k] = parts.job().machine().appliesHeightMap() && !surface.flat() ? BlankSurface.of(surface) : null;
        }
        this.job = parts.job();
        this.plan = parts.plan();
        this.stock = parts.stock();
        this.board = parts.board();
        this.runs = parts.runs();
        this.options = parts.options();
        this.engagements = parts.engagements();
        this.paths = Toolpaths.of(plan, job);
        this.work = works(paths, plan.segments().size());
        this.copperWork = CopperWork.of(this);
        this.holes = Holes.find(this);
        this.design = new DesignFacts(this, parts.design());
    }

    private static @Nullable Work[] works(Toolpaths paths, int segments) {
        @Nullable Work[] work = new Work[segments];
        for (Stroke stroke : paths.strokes()) {
            Arrays.fill(work, stroke.firstSegment(), stroke.endSegment(), paths.workOf(stroke));
        }
        return work;
    }

    /** What an examination is built of. */
    record Parts(
            Job job,
            MotionPlan plan,
            BoardStock stock,
            ComposedBoard board,
            List<RunFacts> runs,
            Engagements engagements,
            ReadDesign design,
            ExamineOptions options) {}

    /** The job. */
    public Job job() {
        return job;
    }

    /** How it was examined. */
    public ExamineOptions options() {
        return options;
    }

    /** All moves, tool runs and events. */
    public MotionPlan plan() {
        return plan;
    }

    /** What was swept. */
    public BoardStock stock() {
        return stock;
    }

    /** Strokes, holes and loops of the paths. */
    public Toolpaths paths() {
        return paths;
    }

    /** The finished board under the conditions asked for. */
    public ComposedBoard board() {
        return board;
    }

    /** The conditions asked for. */
    public Conditions conditions() {
        return board.conditions();
    }

    /** The tool runs, in time order. */
    public List<RunFacts> runs() {
        return runs;
    }

    /** The tool run of this index. */
    public RunFacts run(int index) {
        return runs.get(index);
    }

    /** Plunges and bores through the foil. */
    public List<Hole> holes() {
        return holes;
    }

    /** The copper of each side, in milling order. */
    public synchronized List<CopperFacts> copper() {
        List<CopperFacts> have = copper;
        if (have == null) {
            have = CopperFacts.of(this, design.read());
            copper = have;
        }
        return have;
    }

    /** What was intended, and which nets came out. */
    public DesignFacts design() {
        return design;
    }

    /** What a net's copper carries as milled; null where it was not worked out. */
    public synchronized @Nullable NetCopper netCopper(String net) {
        Map<String, NetCopper> have = netCopper;
        if (have == null) {
            have = NetCopper.of(this);
            netCopper = have;
        }
        return have.get(net);
    }

    /** A limit of the job, in the engine's unit. */
    public double limit(LimitKey key) {
        return job.limits().value(key);
    }

    /** Foil thickness in question, mm. */
    public double foilMm() {
        return conditions().foilMm(stock.blank());
    }

    /** Thickness of the blank in question, mm. */
    public double thicknessMm() {
        return conditions().thicknessMm(stock.blank());
    }

    /**
     * Thickness of the blank at a place, as a cutter meets it, mm. Where the controller corrects Z by the touched points
     * the cutter keeps its depth below the foil, and the underside stays on the spoil board: where the foil lies lower,
     * there is that much less below it.
     */
    public double thicknessAtMm(int side, double xMm, double yMm) {
        return thicknessMm() + (touched[side - 1] == null ? 0 : touched[side - 1].heightMm(xMm, yMm));
    }

    /** Whether the substrate holds glass fibre. */
    public boolean glass() {
        return job.blank().substrate() == Substrate.FR_4 || job.blank().substrate() == Substrate.CEM_3;
    }

    /** Volume that a segment removed when it ran, mm3. */
    public double removedMm3(int segment) {
        return engagements.removedMm3(segment);
    }

    /** Which strokes are copper work. */
    public CopperWork copperWork() {
        return copperWork;
    }

    /** Whether a segment removed material when it ran. */
    public boolean removes(int segment) {
        return engagements.removedMm3(segment) > Engagements.NOTHING_MM3;
    }

    /** Largest depth of the tip below the surface as it was when the segment ran, mm; 0 where it touched nothing. */
    public double engagedMm(int segment) {
        return engagements.depthMm(segment);
    }

    /** Whether a segment took foil when it ran. */
    public boolean cutsFoil(int segment) {
        return engagements.cutsFoil(segment);
    }

    /** Whether any segment of a run removed material. */
    public boolean cuts(RunFacts run) {
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (removes(i)) {
                return true;
            }
        }
        return false;
    }

    /** Whether any segment of a run took foil. */
    public boolean cutsAnyFoil(RunFacts run) {
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (cutsFoil(i)) {
                return true;
            }
        }
        return false;
    }

    /** The copper of a side, from 1. */
    public CopperFacts copper(int side) {
        return copper().get(side - 1);
    }

    /** What work a segment does, as the job says or as depth and shape tell; null where it cuts nothing. */
    public @Nullable Work workOf(int segment) {
        return work[segment];
    }

    /** The Z error that the set-up allows a run, mm, + = really deeper. */
    public IntervalMm spreadOf(RunFacts run) {
        return job.spread().zErrorMm(run.toolName(), longerCopperSideMm(run));
    }

    /** Longer side of the box round a run's paths in copper, mm; 0 where it has none. */
    public double longerCopperSideMm(RunFacts run) {
        Segments s = plan.segments();
        double x0 = Double.POSITIVE_INFINITY;
        double y0 = Double.POSITIVE_INFINITY;
        double x1 = Double.NEGATIVE_INFINITY;
        double y1 = Double.NEGATIVE_INFINITY;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (s.isFeed(i) && run.depthMm(s.lowestMm(i)) - run.zErrorMm() > 0 && overBlank(i)) {
                double[] box = s.planBox(i);
                x0 = Math.min(x0, box[0]);
                y0 = Math.min(y0, box[1]);
                x1 = Math.max(x1, box[2]);
                y1 = Math.max(y1, box[3]);
            }
        }
        return x1 < x0 ? 0 : Math.max(x1 - x0, y1 - y0);
    }

    /** Whether a segment's path, the cutter's largest radius included, comes over the blank. */
    public boolean overBlank(int segment) {
        double[] box = plan.segments().planBox(segment);
        RunFacts run = run(plan.segments().run(segment));
        double r = run.tool() == null
                ? 0
                : run.tool()
                        .cutRadiusAtHeightMm(
                                Math.max(0, -run.blankFromRunMm(plan.segments().lowestMm(segment))));
        return box[2] + r > 0
                && box[3] + r > 0
                && box[0] - r < job.blank().widthMm()
                && box[1] - r < job.blank().heightMm();
    }

    /** The composed surface of a side. */
    public ComposedSide side(int number) {
        return board.side(number);
    }

    /** Least height of the tip above the uncut foil along a segment, over the blank, mm; infinite where it is off it. */
    public double lowestAboveFoilMm(int segment) {
        if (!overBlank(segment)) {
            return Double.POSITIVE_INFINITY;
        }
        Segments s = plan.segments();
        RunFacts run = run(s.run(segment));
        ComposedSide side = side(run.side().number());
        boolean endsOn = onBlank(s.x0Mm(segment), s.y0Mm(segment)) && onBlank(s.x1Mm(segment), s.y1Mm(segment));
        int samples = side.isFlat() && endsOn ? 1 : 64;
        double lowest = Double.POSITIVE_INFINITY;
        double r = run.tool() == null ? 0 : run.tool().cutRadiusAtHeightMm(0);
        for (int k = 0; k <= samples; k++) {
            double[] p = s.pointAt(segment, (double) k / samples);
            if (!endsOn && !nearBlank(p[0], p[1], r)) {
                continue;
            }
            lowest = Math.min(lowest, run.blankFromRunMm(p[2]) - side.surfaceMm(p[0], p[1]));
        }
        return lowest;
    }

    /** Length of a move below the nominal foil top, mm: of a plunge from above only what lies in the blank. */
    public double cutLengthMm(int segment) {
        Segments s = plan.segments();
        RunFacts run = run(s.run(segment));
        double high = run.blankFromRunMm(Math.max(s.z0Mm(segment), s.z1Mm(segment)));
        double low = run.blankFromRunMm(s.lowestMm(segment));
        return high <= 0 || low >= 0 ? s.lengthMm(segment) : s.lengthMm(segment) * -low / (high - low);
    }

    /** Whether a place lies on the blank. */
    public boolean onBlank(double xMm, double yMm) {
        return nearBlank(xMm, yMm, 0);
    }

    private boolean nearBlank(double xMm, double yMm, double byMm) {
        return xMm > -byMm
                && yMm > -byMm
                && xMm < job.blank().widthMm() + byMm
                && yMm < job.blank().heightMm() + byMm;
    }

    /** The first segment of a program at or after a line, or -1 where there is none. */
    public int firstSegmentFrom(PlannedProgram program, int line) {
        Segments s = plan.segments();
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (s.line(i) >= line) {
                return i;
            }
        }
        return -1;
    }

    /** When a run first reaches a line of a program, seconds since the job's start; NaN where it never does. */
    public double timeAtLine(RunFacts run, int program, int line) {
        Segments s = plan.segments();
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (s.program(i) == program && s.line(i) >= line) {
                return s.startS(i);
            }
        }
        return Double.NaN;
    }

    /** Puts side, place, line, moment and tool of a segment into a finding; nothing where the segment is -1. */
    public Finding.Builder at(Finding.Builder finding, int segment) {
        Segments s = plan.segments();
        if (segment < 0 || segment >= s.size()) {
            return finding;
        }
        RunFacts run = run(s.run(segment));
        return finding.side(run.side().number())
                .at(s.x1Mm(segment), s.y1Mm(segment))
                .line(plan.programOf(segment).file(), s.line(segment))
                .time(s.startS(segment))
                .tool(run.toolName());
    }

    /** Name and number of a tool for messages. */
    public static String called(String name, int number) {
        return number > 0 ? String.format(Locale.ROOT, "%s (T%d)", name, number) : name;
    }
}
