package foilproof.motion;

import foilproof.bench.Job;
import foilproof.bench.Machine;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Plans one job: the programs in order, the state of the bench between them (what is in the collet, which tool run is
 * under way, what time it is).
 */
final class JobPlanning {
    /** How far above the foil a cutter is taken to stand when a program begins, mm; nobody says where. */
    static final double START_HEIGHT_MM = 5;
    /** What stands in for a feed that was never set, mm/min: slow enough to show in the time. */
    private static final double FEED_STAND_IN_MM_PER_MIN = 100;

    final Job job;
    final MotionOptions options;
    final SegmentsBuilder segments = new SegmentsBuilder(256);
    final Set<String> assumed = new LinkedHashSet<>();
    private final Timing timing;
    private final List<RunDraft> runs = new ArrayList<>();
    private final List<MotionEvent> events = new ArrayList<>();
    private final List<PlannedProgram> programs = new ArrayList<>();

    @Nullable
    RunDraft run;

    @Nullable
    Tool collet;

    /** Whether a cutter was ever put in: the first one takes no time, it is there when the job begins. */
    private boolean colletFilled;

    double nowS;
    int probes;
    private int chainStart;
    private int toolChanges;
    private double dwellS;
    private double toolChangeS;

    JobPlanning(Job job, MotionOptions options) {
        this.job = job;
        this.options = options;
        Machine m = job.machine();
        this.timing = new Timing(
                segments,
                new MachineLimits(
                        m.rapidMmPerMin().xMmPerMin(),
                        m.rapidMmPerMin().yMmPerMin(),
                        m.rapidMmPerMin().zMmPerMin(),
                        m.maxFeedMmPerMin().orElse(Double.POSITIVE_INFINITY),
                        m.accelerationMmPerS2(),
                        FEED_STAND_IN_MM_PER_MIN));
    }

    MotionPlan run() {
        ProgramPlanning before = null;
        for (Side side : job.sides()) {
            for (ProgramEntry entry : side.programs()) {
                ProgramPlanning program = new ProgramPlanning(this, side, entry, programs.size(), before);
                programs.add(program.run());
                before = program;
            }
        }
        endRun();
        Segments done = segments.build();
        List<ToolRun> builtRuns = new ArrayList<>();
        for (RunDraft draft : runs) {
            builtRuns.add(draft.build(cutLength(done, draft)));
        }
        return new MotionPlan(
                done,
                builtRuns,
                programs,
                timed(done),
                totals(done),
                job.machine().accelerationMmPerS2(),
                new ArrayList<>(assumed));
    }

    /** Ends the chain of moves under way: the machine comes to rest. */
    void rest() {
        nowS = timing.run(chainStart, segments.size, nowS);
        chainStart = segments.size;
    }

    /** Begins a tool run at the moment; the run before has ended. */
    void begin(RunDraft draft) {
        draft.startS = nowS;
        runs.add(draft);
        run = draft;
    }

    int nextRunIndex() {
        return runs.size();
    }

    RunDraft runAt(int index) {
        return runs.get(index);
    }

    /** Ends the tool run under way, if any. */
    void endRun() {
        rest();
        if (run != null) {
            run.endS = nowS;
            run.endSegment = segments.size;
        }
    }

    /** Puts a cutter into the collet; returns the seconds it takes: none where it is there already or is the first. */
    double putIn(@Nullable Tool tool) {
        boolean other = colletFilled && !same(collet, tool);
        collet = tool;
        colletFilled = true;
        if (!other) {
            return 0;
        }
        toolChanges++;
        return job.machine().toolChangeS();
    }

    private static boolean same(@Nullable Tool a, @Nullable Tool b) {
        return a == b || (a != null && b != null && a.name().equals(b.name()));
    }

    boolean colletFilled() {
        return colletFilled;
    }

    /** Adds an event that holds the machine for {@code durationS}; the chain of moves must have ended. */
    void hold(MotionEvent event) {
        events.add(event);
        nowS += event.durationS();
        switch (event.kind()) {
            case DWELL -> dwellS += event.durationS();
            case TOOL_CHANGE -> toolChangeS += event.durationS();
            default -> {}
        }
    }

    /** Adds an event that does not interrupt the motion: its time is that of the next move. */
    void pass(MotionEvent event) {
        events.add(event);
    }

    private List<MotionEvent> timed(Segments done) {
        List<MotionEvent> timed = new ArrayList<>(events.size());
        for (MotionEvent e : events) {
            double at = e.timeS();
            if (Double.isNaN(at)) {
                at = e.beforeSegment() < done.size() ? done.startS(e.beforeSegment()) : nowS;
            }
            timed.add(e.at(at));
        }
        // An event that waits for its next move may not overtake a dwell that was commanded after it.
        for (int i = timed.size() - 2; i >= 0; i--) {
            if (timed.get(i).timeS() > timed.get(i + 1).timeS()) {
                timed.set(i, timed.get(i).at(timed.get(i + 1).timeS()));
            }
        }
        return timed;
    }

    private MotionTotals totals(Segments done) {
        double cutting = 0;
        double rapid = 0;
        for (int i = 0; i < done.size(); i++) {
            if (done.isRapid(i)) {
                rapid += done.durationS(i);
            } else {
                cutting += done.durationS(i);
            }
        }
        return new MotionTotals(nowS, cutting, rapid, dwellS, toolChangeS, toolChanges, timing.feedOnlyS());
    }

    private double cutLength(Segments done, RunDraft draft) {
        double top = foilTopMm(draft.zZero, draft.side);
        double length = 0;
        for (int i = draft.firstSegment; i < draft.endSegment; i++) {
            if (!done.isFeed(i)) {
                continue;
            }
            double high = Math.max(done.z0Mm(i), done.z1Mm(i));
            double low = done.lowestMm(i);
            if (low < top) {
                double share = high <= top ? 1 : (top - low) / (high - low);
                length += done.lengthMm(i) * share;
            }
        }
        return length;
    }

    /** Nominal height of the foil top in a run's own zero, mm. */
    double foilTopMm(ZZero zero, int sideNumber) {
        if (zero == ZZero.FOIL) {
            return 0;
        }
        for (Side side : job.sides()) {
            if (side.number() == sideNumber) {
                return job.blank().thicknessMm() + side.tapeMm();
            }
        }
        return job.blank().thicknessMm() + job.blank().tapeMm();
    }
}
