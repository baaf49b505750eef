package foilproof.findings;

import foilproof.bench.Job;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.Surface;
import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import foilproof.motion.MotionOptions;
import foilproof.motion.MotionPlan;
import foilproof.motion.MotionPlanner;
import foilproof.motion.PlannedProgram;
import foilproof.motion.ProbeModel;
import foilproof.motion.ToolRun;
import foilproof.stock.BlankBody;
import foilproof.stock.BlankSurface;
import foilproof.stock.BoardStock;
import foilproof.stock.ComposedBoard;
import foilproof.stock.Conditions;
import foilproof.stock.CutPath;
import foilproof.stock.Envelope;
import foilproof.stock.RunCut;
import foilproof.stock.SideStock;
import foilproof.stock.SweepSettings;
import foilproof.stock.ToolProfile;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/** Runs a job on the virtual bench: plans its motion, sweeps its tool runs, composes the board, replays the moves. */
public final class Examiner {
    /** What is asked beyond the nominal board: bow, Z error, another thickness; the headroom covers it, mm. */
    private static final double ASKED_MM = 0.15;

    private final Job job;
    private final ExamineOptions options;
    private final int reading;

    private final ReadDesign design;

    private Examiner(Job job, ReadDesign design, ExamineOptions options, int reading) {
        this.job = job;
        this.design = design;
        this.options = options;
        this.reading = reading;
    }

    /**
     * Examines a job; a V-shaped bit whose tip is unknown is read as having a flat tip.
     *
     * @param job the job
     * @param design its design files as read
     * @param options how
     * @throws CancellationException where the progress says so
     */
    public static Examination examine(Job job, ReadDesign design, ExamineOptions options) {
        return new Examiner(job, design, options, 0).run();
    }

    /** Examines a job with unknown tips read the other way: as round ones. */
    static Examination examineOtherReading(Job job, ReadDesign design, ExamineOptions options) {
        return new Examiner(job, design, options, 1).run();
    }

    /**
     * The board as swept and composed, before anything is replayed or judged: enough for a picture.
     *
     * @param job the job
     * @param plan all moves, tool runs and events
     * @param stock what was swept
     * @param board the finished board under the conditions asked for
     * @param runs the tool runs, in time order
     */
    public record Ground(Job job, MotionPlan plan, BoardStock stock, ComposedBoard board, List<RunFacts> runs) {
        /** Copies the list. */
        public Ground {
            runs = List.copyOf(runs);
        }
    }

    /**
     * Plans and sweeps a job, and judges nothing; unknown tips are read as flat ones.
     *
     * @throws CancellationException where the progress says so
     */
    public static Ground ground(Job job, ExamineOptions options) {
        return new Examiner(job, ReadDesign.NONE, options, 0).ground();
    }

    private Ground ground() {
        step("reading the programs", 0.02);
        MotionPlan plan = MotionPlanner.plan(
                job,
                MotionOptions.DEFAULT,
                new StockProbe(
                        this::sweptBefore,
                        this::conditions,
                        side -> job.sides().get(side - 1).probeClipMm(),
                        this::probing));
        step("sweeping", 0.10);
        List<@Nullable Tool> tools = new ArrayList<>();
        for (ToolRun run : plan.runs()) {
            tools.add(reading(run.toolName()));
        }
        BoardStock stock = sweep(plan, tools, Integer.MAX_VALUE);
        ComposedBoard board = stock.under(conditions(plan));
        return new Ground(job, plan, stock, board, facts(plan, tools, board));
    }

    private Examination run() {
        Ground ground = ground();
        MotionPlan plan = ground.plan();
        ComposedBoard board = ground.board();
        step("replaying the moves", 0.55);
        Engagements engagements = ReplayedEngagements.of(plan, board, options);
        step("checking the moves", 0.65);
        return new Examination(
                new Examination.Parts(job, plan, ground.stock(), board, ground.runs(), engagements, design, options));
    }

    private void step(String what, double fraction) {
        if (!options.progress().at(what, fraction)) {
            throw new CancellationException("cancelled while " + what);
        }
    }

    private @Nullable Tool reading(@Nullable String name) {
        Tool tool = name == null ? null : job.toolNamed(name);
        if (tool == null) {
            return null;
        }
        List<Tool> readings = tool.readings(job.limits());
        return readings.get(Math.min(reading, readings.size() - 1));
    }

    private Conditions conditions(MotionPlan plan) {
        Conditions conditions = Conditions.NOMINAL.withBow(job.whatIf().bowMm());
        for (ToolRun run : plan.runs()) {
            String name = run.toolName();
            double deeperMm = deeperMm(plan, run);
            double errorMm = deeperMm + (name == null ? 0 : job.whatIf().zErrorMm(name));
            if (errorMm != 0) {
                conditions = conditions.withZError(run.index(), errorMm);
            }
        }
        return conditions;
    }

    /** What is asked of a run itself, beside its cutter's Z error, mm. */
    private double deeperMm(MotionPlan plan, ToolRun run) {
        double programs = job.whatIf()
                .programZMm()
                .getOrDefault(plan.programs().get(run.firstProgram()).file(), 0.0);
        return programs + job.whatIf().runZMm().getOrDefault(run.index(), 0.0);
    }

    /** The cutter of a probing move: that of its T word, else that of its program; null where neither names one. */
    private @Nullable Tool probing(ProbeModel.ProbeMove move) {
        Tool numbered = move.toolNumber() > 0 ? job.toolNumbered(move.toolNumber()) : null;
        if (numbered != null) {
            return reading(numbered.name());
        }
        List<ProgramEntry> entries =
                job.sides().stream().flatMap(side -> side.programs().stream()).toList();
        return move.program() < entries.size()
                ? reading(entries.get(move.program()).tool())
                : null;
    }

    private BoardStock sweptBefore(MotionPlan plan, int segment) {
        List<@Nullable Tool> tools = new ArrayList<>();
        for (ToolRun run : plan.runs()) {
            tools.add(reading(run.toolName()));
        }
        return sweep(plan, tools, segment);
    }

    /** Sweeps the segments before {@code end}. */
    private BoardStock sweep(MotionPlan plan, List<@Nullable Tool> tools, int end) {
        BlankBody blank = BlankBody.of(job.blank());
        List<SideStock> sides = new ArrayList<>();
        int done = 0;
        for (Side side : job.sides()) {
            // A controller that corrects Z by the touched points keeps the cutter at one depth below the foil as it
            // lies: seen from the foil the blank is flat (what lies below: Examination.thicknessAtMm).
            boolean follows = job.machine().appliesHeightMap();
            BlankSurface surface = BlankSurface.of(follows ? Surface.FLAT : side.surface());
            double highest = surface.highestMm(blank.widthMm(), blank.heightMm());
            List<RunCut> cuts = new ArrayList<>();
            for (ToolRun run : plan.runs()) {
                Tool tool = tools.get(run.index());
                if (run.side() != side.number()
                        || tool == null
                        || run.segmentCount() == 0
                        || run.firstSegment() >= end) {
                    continue;
                }
                double deeperMm = deeperMm(plan, run);
                double asked = Math.max(ASKED_MM, Math.abs(job.whatIf().zErrorMm(tool.name()) + deeperMm))
                        + Math.max(0, -job.whatIf().bowMm());
                SweepSettings settings = SweepSettings.forBlank(options.cellMm(), blank.widthMm(), blank.heightMm())
                        .withHeadroom(SweepSettings.headroomMm(
                                highest, asked, job.spread().thicknessMm()))
                        .withThreads(options.threads());
                CutPath path = CutPath.of(plan.segments(), run.firstSegment(), Math.min(end, run.endSegment()));
                double nominal = RunCut.nominalZeroMm(run.zZero(), blank.thicknessMm(), side.tapeMm());
                cuts.add(RunCut.of(run, Envelope.sweep(options.memo(), path, ToolProfile.of(tool), settings, nominal)));
                step("sweeping", 0.10 + 0.45 * ++done / Math.max(1, plan.runs().size()));
            }
            sides.add(new SideStock(side.number(), side.turned(), surface, side.tapeMm(), cuts));
        }
        return new BoardStock(blank, sides);
    }

    private List<RunFacts> facts(MotionPlan plan, List<@Nullable Tool> tools, ComposedBoard board) {
        List<RunFacts> facts = new ArrayList<>();
        for (ToolRun run : plan.runs()) {
            PlannedProgram program = plan.programs().get(run.firstProgram());
            Tool tool = tools.get(run.index());
            double nominal = RunCut.nominalZeroMm(
                    run.zZero(),
                    board.conditions().thicknessMm(board.stock().blank()),
                    program.side().tapeMm());
            boolean swept = tool != null && run.segmentCount() > 0;
            double zero = swept ? board.zeroMm(run.index()) : nominal;
            facts.add(new RunFacts(
                    run,
                    tool,
                    program.side(),
                    program.entry(),
                    zero,
                    board.conditions().zErrorMm(run.index()),
                    run.zZero() == ZZero.FOIL ? 0 : nominal));
        }
        return List.copyOf(facts);
    }
}
