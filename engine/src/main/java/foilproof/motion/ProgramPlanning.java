package foilproof.motion;

import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.Machine;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.XyMm;
import foilproof.bench.XyzMm;
import foilproof.bench.ZZero;
import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.Interpretation;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.language.LengthUnits;
import foilproof.language.PathMode;
import foilproof.language.ToolTable;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * Plans one program entry: runs its text with the bench's answers, and turns the canonical commands into segments and
 * events.
 *
 * <p>Frames. The interpreter works with axis positions in machine coordinates. All nine work systems are preset with
 * the place of the work zero (its true machine place where the job says where the blank lies, else 0), the Z axis so
 * that the tip of the cutter that was touched off reads true. So the blank's X is the axis position less the work zero's machine
 * place plus the work zero's place on the blank, and the tip's height above the run's zero is the axis position less
 * the work zero's plus the run's {@code zShiftMm}.
 *
 * <p>Lengths. A touch-off sets zero with the length offset that is in force when the run first feeds: zShift = -offset.
 * A cutter that comes in later without touch-off stands zShift = (length_ref - offset_ref) - length high: its residual
 * is (offset - length) less the same of the run that set the zero.
 */
final class ProgramPlanning {
    private final JobPlanning plan;
    private final Job job;
    private final Side side;
    private final ProgramEntry entry;
    private final int index;
    private final double zeroXMm;
    private final double zeroYMm;
    private final double zeroZMm;
    private final boolean machineKnown;
    private final boolean continues;
    private final SegmentWriter writer;

    private final CanonicalProgram commands;
    private final Interpretation interpretation;
    /** Axis position at which the program's Z reads 0 without length offset, machine mm. */
    private double originZMm;

    private boolean stopSinceMove;
    private boolean ended;
    /** The last answer of {@link #offsetAtFirstFeed}: it holds for all commands from one to the feed move. */
    private int offsetFrom = Integer.MAX_VALUE;

    private int offsetFeed;
    private double offsetThereMm;
    /** Whether the tool run under way has fed or probed in this program. */
    private boolean fed;
    /** Length offset in force, mm. */
    private double offsetMm;
    /** Length offset that the controller still holds from the program before, mm; until this one sets its own. */
    private double carriedMm;
    /**
     * What stands in for the length offset before a program's first tool change says one: which cutter is in the
     * collet then is not known, so its lifts are taken at the heights that they name, mm.
     */
    private double unsaidMm;

    ProgramPlanning(JobPlanning plan, Side side, ProgramEntry entry, int index, @Nullable ProgramPlanning before) {
        this.plan = plan;
        this.job = plan.job;
        this.side = side;
        this.entry = entry;
        this.index = index;
        XyzMm blankAt = job.machine().blankAtMm();
        machineKnown = blankAt != null;
        zeroXMm = blankAt == null ? 0 : blankAt.xMm() + entry.workZeroMm().xMm();
        zeroYMm = blankAt == null ? 0 : blankAt.yMm() + entry.workZeroMm().yMm();
        zeroZMm = blankAt == null
                ? 0
                : blankAt.zMm() + (entry.zZero() == ZZero.FOIL ? job.blank().thicknessMm() + side.tapeMm() : 0);
        continues = !entry.retouch() && plan.run != null && plan.run.side == side.number();
        writer = new SegmentWriter(plan.segments, index, job.machine().cornerDeviationMm(), machineKnown);
        carriedMm = continues && before != null ? before.offsetMm + before.carriedMm : 0;
        RunDraft run = plan.run;
        double foilTop = plan.foilTopMm(entry.zZero(), side.number());
        if (continues && before != null && run != null) {
            writer.standAt(before.writer.x, before.writer.y, before.writer.z, true);
        } else {
            XyMm touch = touchPoint();
            writer.standAt(touch.xMm(), touch.yMm(), foilTop + JobPlanning.START_HEIGHT_MM, false);
        }
        originZMm = continues && before != null ? before.originZMm : zeroZMm;
        int probesBefore = plan.probes;
        Interpretation first = interpret(run);
        double offset = continues ? 0 : offsetAtFirstFeed(first.commands(), 0, 0);
        if (offset != 0) {
            // Zero was set with this offset in force: the reading at the touch-off is what is known, not the axis.
            originZMm = zeroZMm - offset;
            plan.probes = probesBefore;
            offsetFrom = Integer.MAX_VALUE;
            first = interpret(run);
        }
        interpretation = first;
        commands = first.commands();
    }

    private XyMm touchPoint() {
        XyMm named = entry.touchOffMm();
        return named != null ? named : entry.workZeroMm();
    }

    PlannedProgram run() {
        int firstSegment = plan.segments.size;
        plan.rest();
        double startS = plan.nowS;
        start();
        plan.segments.reserve(commands.motionCount());
        int firstRun = plan.nextRunIndex() - 1;
        int size = commands.size();
        for (int i = 0; i < size; i++) {
            CommandKind kind = commands.kind(i);
            if (kind.isMotion()) {
                move(i, kind);
            } else {
                act(i, kind);
            }
        }
        plan.rest();
        if (!ended) {
            hold(MotionEvent.Kind.PROGRAM_END, interpretation.lastLine(), 0, Double.NaN, entry.file());
        }
        turn(firstSegment);
        RunDraft run = plan.run;
        if (run != null) {
            run.lastProgram = index;
        }
        PlannedProgram.MachinePlace place = machineKnown
                ? new PlannedProgram.MachinePlace(zeroXMm, zeroYMm, zeroZMm)
                : PlannedProgram.MachinePlace.UNKNOWN;
        int last = plan.nextRunIndex() - 1;
        return new PlannedProgram(
                index,
                side,
                entry,
                interpretation,
                firstSegment,
                plan.segments.size,
                firstRun,
                last,
                startS,
                plan.nowS,
                place);
    }

    /**
     * Turns what the program moved about its work zero, where the job is asked to lie turned on its blank. Moves in
     * machine coordinates stay; times are those of the job as it is written.
     */
    private void turn(int firstSegment) {
        SegmentsBuilder all = plan.segments;
        double turnRad = turnRad();
        if (turnRad == 0) {
            return;
        }
        for (int i = firstSegment; i < all.size; i++) {
            boolean stays = all.x0Mm[i] == all.x1Mm[i] && all.y0Mm[i] == all.y1Mm[i] && all.sweepRad[i] == 0;
            // Each move begins where the one before ended; the first where the cutter was touched off, or came from.
            boolean first = i == firstSegment && !(continues && i > 0);
            double x0 = first ? all.x0Mm[i] : all.x1Mm[i - 1];
            double y0 = first ? all.y0Mm[i] : all.y1Mm[i - 1];
            XyMm end = stays
                    ? new XyMm(x0, y0)
                    : (all.flags[i] & Segments.MACHINE_COORDINATES) != 0
                            ? new XyMm(all.x1Mm[i], all.y1Mm[i])
                            : turned(all.x1Mm[i], all.y1Mm[i]);
            XyMm centre = turned(all.cxMm[i], all.cyMm[i]);
            all.x0Mm[i] = x0;
            all.y0Mm[i] = y0;
            all.x1Mm[i] = end.xMm();
            all.y1Mm[i] = end.yMm();
            all.cxMm[i] = centre.xMm();
            all.cyMm[i] = centre.yMm();
        }
    }

    private double turnRad() {
        return job.whatIf().moved().onSide(job, side.number()).turnRad();
    }

    private XyMm turned(double xMm, double yMm) {
        XyMm zero = entry.workZeroMm();
        return new JobMove(0, 0, turnRad(), zero.xMm(), zero.yMm()).of(new XyMm(xMm, yMm));
    }

    private Interpretation interpret(@Nullable RunDraft under) {
        Machine m = job.machine();
        InterpreterSetup.Builder setup = InterpreterSetup.builder()
                .dialect(m.dialect())
                .initialUnits(
                        switch (job.whatIf().programUnits().getOrDefault(entry.file(), m.units())) {
                            case MM -> LengthUnits.MM;
                            case INCH -> LengthUnits.INCH;
                            case UNKNOWN -> LengthUnits.UNKNOWN;
                        })
                .blockDelete(
                        options().blockDelete() == null
                                ? m.blockDelete()
                                : options().blockDelete())
                .optionalStop(options().optionalStop())
                .dwellUnitS(m.dwell() == Machine.Dwell.SECONDS ? 1 : 0.001)
                .tools(new Tools())
                .initialTool(initialToolNumber())
                .machineKnown(machineKnown)
                .origin(zeroXMm, zeroYMm, originZMm)
                .limits(options().limits())
                .probeSurface(this::probe);
        if (!machineKnown) {
            setup.homesUnknown();
        }
        double x = axisXMm(writer.x);
        double y = axisYMm(writer.y);
        double z = continues && under != null ? originZMm + writer.z - under.zShiftMm - carriedMm : zeroZMm + writer.z;
        if (continues) {
            setup.start(x, y, z);
        } else {
            setup.startAssumed(x, y, z);
        }
        return Interpreter.interpret(entry.source(), setup.build());
    }

    private int initialToolNumber() {
        if (continues && plan.run != null) {
            return plan.run.toolNumber > 0 ? plan.run.toolNumber : -1;
        }
        String named = entry.tool();
        Tool tool = named == null ? null : job.toolNamed(named);
        return tool == null ? -1 : tool.number().orElse(-1);
    }

    private MotionOptions options() {
        return plan.options;
    }

    private double axisXMm(double blankXMm) {
        return blankXMm - entry.workZeroMm().xMm() + zeroXMm;
    }

    private double axisYMm(double blankYMm) {
        return blankYMm - entry.workZeroMm().yMm() + zeroYMm;
    }

    private double blankXMm(double axisMm) {
        return axisMm - zeroXMm + entry.workZeroMm().xMm();
    }

    private double blankYMm(double axisMm) {
        return axisMm - zeroYMm + entry.workZeroMm().yMm();
    }

    private double tipMm(double axisMm) {
        RunDraft run = plan.run;
        return axisMm - originZMm + (run == null ? 0 : run.zShiftMm) + carriedMm + unsaidMm;
    }

    // ---- the start of a program, tool changes -------------------------------------------------------------------

    private void start() {
        hold(MotionEvent.Kind.PROGRAM_BEGIN, 0, 0, Double.NaN, entry.file());
        if (continues) {
            return;
        }
        int firstChange = firstBeforeFeed(CommandKind.CHANGE_TOOL);
        boolean honoured = firstChange >= 0;
        plan.endRun();
        RunDraft draft = draft(0);
        draft.cause = TouchOffCause.PROGRAM_START;
        if (!honoured) {
            pickCutter(draft);
            double takesS = plan.putIn(draft.tool);
            if (takesS > 0) {
                hold(MotionEvent.Kind.TOOL_CHANGE, 0, takesS, draft.toolNumber, name(draft.tool));
            }
        }
        zeroByTouchOff(draft, 0);
        if (honoured && job.machine().onToolChange() == Machine.OnToolChange.MEASURED) {
            unsaidMm = draft.touchOffsetMm;
        }
        plan.begin(draft);
        if (!honoured) {
            hold(MotionEvent.Kind.TOUCH_OFF, 0, 0, draft.toolNumber, name(draft.tool));
        }
    }

    /** The cutter that is in the collet when a program begins that changes none before it moves. */
    private void pickCutter(RunDraft draft) {
        String named = entry.tool();
        Tool meant = named == null ? null : job.toolNamed(named);
        int number = meant == null ? 0 : meant.number().orElse(0);
        if (meant == null) {
            int select = firstBeforeFeed(CommandKind.SELECT_TOOL);
            if (select >= 0 && commands.value(select) > 0) {
                number = (int) commands.value(select);
                meant = job.toolNumbered(number);
                plan.assumed.add(entry.file() + ": tool " + number
                        + " is taken to be in the collet from the start, since the program names it and changes none");
            }
        }
        if (meant == null && number == 0) {
            if (plan.colletFilled()) {
                meant = plan.collet;
                plan.assumed.add(entry.file() + ": names no tool, so the cutter in the collet stays: " + name(meant));
            } else if (job.tools().size() == 1) {
                meant = job.tools().get(0);
                plan.assumed.add(entry.file() + ": names no tool, so the only one is taken: " + name(meant));
            }
            number = meant == null ? 0 : meant.number().orElse(0);
        }
        draft.intendedTool = meant;
        draft.toolNumber = number;
        draft.tool = inCollet(number, meant);
    }

    private @Nullable Tool inCollet(int number, @Nullable Tool meant) {
        String swapped = number > 0 ? job.whatIf().inCollet().get(number) : null;
        return swapped == null ? meant : job.toolNamed(swapped);
    }

    private static String name(@Nullable Tool tool) {
        return tool == null ? "unknown" : tool.name();
    }

    private RunDraft draft(int line) {
        XyMm touch = touchPoint();
        RunDraft draft = new RunDraft(
                plan.nextRunIndex(),
                side.number(),
                index,
                plan.segments.size,
                entry.zZero(),
                touch.xMm(),
                touch.yMm(),
                entry.touchOffMm() != null,
                entry.workZeroMm().xMm(),
                entry.workZeroMm().yMm());
        draft.startLine = line;
        draft.lengthsMeasured = job.machine().onToolChange() == Machine.OnToolChange.MEASURED
                || job.machine().onToolChange() == Machine.OnToolChange.PROBE;
        return draft;
    }

    private boolean ignored(int change) {
        // An M6 that does nothing, where the program does not stop for a person to change the cutter either. The run
        // is planned with the cutter that is meant, and the event tells that the old one may still be in.
        return job.machine().onToolChange() == Machine.OnToolChange.IGNORED && !stopsAround(change);
    }

    private void changeTool(int i) {
        int line = commands.line(i);
        int number = (int) Math.max(0, commands.value(i));
        plan.rest();
        RunDraft current = plan.run;
        Tool meant = job.toolNumbered(number);
        Tool real = inCollet(number, meant);
        // A lift to a safe height before the first tool change is no work of another cutter.
        boolean fresh = current != null
                && current.firstProgram == index
                && !fed
                && (current.cause == TouchOffCause.PROGRAM_START || current.firstSegment == plan.segments.size);
        if (!fresh) {
            plan.endRun();
            if (ignored(i)) {
                hold(MotionEvent.Kind.TOOL_CHANGE_IGNORED, line, 0, number, name(meant));
            }
        }
        double takesS = plan.putIn(real);
        hold(MotionEvent.Kind.TOOL_CHANGE, line, takesS, number, name(real));
        RunDraft next = fresh && current != null ? current : draft(line);
        next.tool = real;
        next.intendedTool = meant;
        next.toolNumber = number;
        next.startLine = line;
        next.stopInProgram = stopsAround(i);
        if (fresh && next.firstSegment == plan.segments.size) {
            next.startS = plan.nowS;
        }
        double shiftBeforeMm = current == null ? 0 : current.zShiftMm;
        zeroAfterChange(next, fresh, i);
        if (!fresh) {
            plan.begin(next);
            fed = false;
        }
        if (job.machine().onToolChange() != Machine.OnToolChange.IGNORED) {
            // NISTIR 6556 section 3.6.3: when the tool change is complete, the spindle is stopped.
            writer.spindleTurn = 0;
        }
        writer.run = next.index;
        // The axis stands still: the tip moves by what the new cutter's zero differs from the former's.
        writer.z += next.zShiftMm - shiftBeforeMm;
        if (next.zeroRun == next.index) {
            hold(MotionEvent.Kind.TOUCH_OFF, line, 0, number, name(real));
        }
    }

    private void zeroAfterChange(RunDraft next, boolean fresh, int change) {
        boolean touches =
                switch (job.machine().onToolChange()) {
                    case STOP, IGNORED -> true;
                    case MEASURED, PROBE -> false;
                };
        if (fresh && next.zeroRun == next.index) {
            zeroByTouchOff(next, change);
        } else if (touches) {
            next.cause = TouchOffCause.TOOL_CHANGE_STOP;
            zeroByTouchOff(next, change);
        } else {
            RunDraft former = plan.runAt(plan.nextRunIndex() - 1);
            RunDraft zero = plan.runAt(former.zeroRun);
            next.zeroRun = zero.index;
            double firstOffset = offsetAtFirstFeed(commands, change, offsetMm);
            if (job.machine().onToolChange() == Machine.OnToolChange.PROBE) {
                next.cause = TouchOffCause.NONE_PROBED;
                next.zShiftMm = -firstOffset;
                return;
            }
            next.cause = TouchOffCause.NONE_MEASURED;
            double own = length(next.tool);
            double reference = length(zero.tool);
            if (Double.isNaN(own) || Double.isNaN(reference)) {
                next.residualZMm = Double.NaN;
                next.zShiftMm = -firstOffset;
            } else {
                next.zShiftMm = reference - zero.touchOffsetMm - own;
                next.residualZMm = firstOffset + next.zShiftMm;
            }
        }
    }

    private void zeroByTouchOff(RunDraft draft, int from) {
        draft.touchOffsetMm = offsetAtFirstFeed(commands, from, offsetMm);
        draft.zShiftMm = -draft.touchOffsetMm;
        draft.residualZMm = 0;
    }

    private static double length(@Nullable Tool tool) {
        return tool == null ? Double.NaN : tool.lengthMm().orElse(Double.NaN);
    }

    /** The length offset that will be in force at the first feed move after command {@code from}, mm. */
    private double offsetAtFirstFeed(CanonicalProgram program, int from, double inForceMm) {
        if (from >= offsetFrom && from <= offsetFeed) {
            return offsetThereMm;
        }
        double offset = inForceMm;
        int k = from;
        for (; k < program.size(); k++) {
            CommandKind kind = program.kind(k);
            if (kind == CommandKind.LENGTH_OFFSET) {
                offset = program.value(k);
            } else if (kind.isMotion() && kind != CommandKind.STRAIGHT_TRAVERSE) {
                break;
            }
        }
        offsetFrom = from;
        offsetFeed = k;
        offsetThereMm = offset;
        return offset;
    }

    private int firstBeforeFeed(CommandKind wanted) {
        for (int k = 0; k < commands.size(); k++) {
            CommandKind kind = commands.kind(k);
            if (kind == wanted) {
                return k;
            }
            if (kind.isMotion() && kind != CommandKind.STRAIGHT_TRAVERSE) {
                return -1;
            }
        }
        return -1;
    }

    /** Whether the program stops for a person between the last move before command {@code i} and the next after. */
    private boolean stopsAround(int i) {
        if (stopSinceMove) {
            return true;
        }
        for (int k = i + 1; k < commands.size(); k++) {
            CommandKind kind = commands.kind(k);
            if (kind == CommandKind.PROGRAM_STOP || (kind == CommandKind.OPTIONAL_STOP && commands.value(k) == 1)) {
                return true;
            }
            if (kind.isMotion() || kind == CommandKind.CHANGE_TOOL) {
                return false;
            }
        }
        return false;
    }

    // ---- events -------------------------------------------------------------------------------------------------

    private void act(int i, CommandKind kind) {
        int line = commands.line(i);
        double value = commands.value(i);
        switch (kind) {
            case DWELL -> {
                plan.rest();
                hold(MotionEvent.Kind.DWELL, line, value, value, null);
            }
            case SET_SPEED -> {
                if (writer.spindleTurn != 0) {
                    plan.rest();
                }
                writer.spindleRpm = (float) value;
                pass(MotionEvent.Kind.SPINDLE_SPEED, line, value, null);
            }
            case SPINDLE_CLOCKWISE, SPINDLE_COUNTERCLOCKWISE, SPINDLE_STOP, SPINDLE_ORIENT -> spindle(line, kind);
            case SELECT_TOOL -> pass(MotionEvent.Kind.TOOL_SELECT, line, value, null);
            case CHANGE_TOOL -> changeTool(i);
            case LENGTH_OFFSET -> {
                offsetMm = value;
                carriedMm = 0;
                unsaidMm = value == 0 ? unsaidMm : 0;
                pass(MotionEvent.Kind.LENGTH_OFFSET, line, value, null);
            }
            case SET_ORIGIN -> pass(MotionEvent.Kind.ORIGIN, line, Double.NaN, null);
            case USE_UNITS -> writer.unitsSaid = true;
            case SET_PATH_MODE -> writer.path(PathMode.values()[(int) value], commands.value2(i));
            case MIST_ON -> coolant(line, "mist on");
            case FLOOD_ON -> coolant(line, "flood on");
            case COOLANT_OFF -> coolant(line, "off");
            case PROGRAM_STOP -> stop(MotionEvent.Kind.PROGRAM_STOP, line);
            case OPTIONAL_STOP -> {
                if (value == 1) {
                    stop(MotionEvent.Kind.OPTIONAL_STOP, line);
                }
            }
            case PROGRAM_END -> {
                plan.rest();
                ended = true;
                writer.spindleTurn = 0;
                hold(MotionEvent.Kind.PROGRAM_END, line, 0, Double.NaN, entry.file());
            }
            case MESSAGE -> pass(MotionEvent.Kind.MESSAGE, line, Double.NaN, commands.text(i));
            default -> {}
        }
    }

    private void stop(MotionEvent.Kind kind, int line) {
        plan.rest();
        stopSinceMove = true;
        hold(kind, line, 0, Double.NaN, null);
    }

    private void spindle(int line, CommandKind kind) {
        plan.rest();
        MotionEvent.Kind event;
        if (kind == CommandKind.SPINDLE_CLOCKWISE) {
            writer.spindleTurn = 1;
            event = MotionEvent.Kind.SPINDLE_CLOCKWISE;
        } else if (kind == CommandKind.SPINDLE_COUNTERCLOCKWISE) {
            writer.spindleTurn = -1;
            event = MotionEvent.Kind.SPINDLE_COUNTERCLOCKWISE;
        } else {
            writer.spindleTurn = 0;
            event = MotionEvent.Kind.SPINDLE_STOP;
        }
        hold(event, line, 0, writer.spindleRpm, null);
    }

    private void coolant(int line, String words) {
        plan.rest();
        hold(MotionEvent.Kind.COOLANT, line, 0, Double.NaN, words);
    }

    private void hold(MotionEvent.Kind kind, int line, double durationS, double value, @Nullable String text) {
        plan.hold(event(kind, line, plan.nowS, durationS, value, text));
    }

    private void pass(MotionEvent.Kind kind, int line, double value, @Nullable String text) {
        plan.pass(event(kind, line, Double.NaN, 0, value, text));
    }

    private MotionEvent event(
            MotionEvent.Kind kind, int line, double timeS, double durationS, double value, @Nullable String text) {
        return new MotionEvent(
                kind,
                timeS,
                durationS,
                index,
                line,
                plan.nextRunIndex() - 1,
                plan.segments.size,
                writer.x,
                writer.y,
                writer.z,
                value,
                text);
    }

    // ---- motion -------------------------------------------------------------------------------------------------

    private void move(int i, CommandKind kind) {
        if (kind != CommandKind.STRAIGHT_TRAVERSE) {
            unsaidMm = 0;
        }
        stopSinceMove = false;
        fed |= kind != CommandKind.STRAIGHT_TRAVERSE;
        int flags = commands.flags(i);
        double x = (flags & CanonicalProgram.END_X_UNKNOWN) != 0
                ? writer.x + step(i, 0, flags)
                : blankXMm(commands.endMm(i, 0));
        double y = (flags & CanonicalProgram.END_Y_UNKNOWN) != 0
                ? writer.y + step(i, 1, flags)
                : blankYMm(commands.endMm(i, 1));
        double z = tipMm(commands.endMm(i, 2));
        if ((flags & CanonicalProgram.END_Z_UNKNOWN) != 0) {
            z = writer.z + step(i, 2, flags);
            if ((flags & CanonicalProgram.MACHINE_COORDINATES) != 0) {
                RunDraft run = plan.run;
                double top = run == null ? 0 : plan.foilTopMm(run.zZero, run.side);
                z = Math.max(writer.z, top + SegmentWriter.SAFE_HEIGHT_MM);
            }
        }
        writer.run = plan.nextRunIndex() - 1;
        writer.line = commands.line(i);
        writer.commandFlags = flags;
        writer.feedMmPerMin = kind == CommandKind.STRAIGHT_TRAVERSE ? Double.NaN : commands.feedMmPerMin(i);
        writer.moveS = kind == CommandKind.STRAIGHT_TRAVERSE ? Double.NaN : commands.moveS(i);
        switch (kind) {
            case STRAIGHT_TRAVERSE -> writer.straight(SegmentKind.RAPID, x, y, z);
            case STRAIGHT_FEED -> writer.straight(SegmentKind.FEED, x, y, z);
            case ARC_FEED -> arc(i, x, y, z);
            case STRAIGHT_PROBE -> {
                plan.rest();
                writer.straight(SegmentKind.PROBE, x, y, z);
                plan.rest();
                boolean tripped = (flags & CanonicalProgram.PROBE_TRIPPED) != 0;
                hold(
                        tripped ? MotionEvent.Kind.PROBE_TRIPPED : MotionEvent.Kind.PROBE_MISSED,
                        commands.line(i),
                        0,
                        z,
                        null);
            }
            default -> throw new IllegalStateException("not a motion: " + kind);
        }
    }

    /** How far a move goes along an axis whose place nobody knows: by its own length, but nowhere on a way home. */
    private double step(int i, int axis, int flags) {
        return (flags & CanonicalProgram.MACHINE_COORDINATES) != 0
                ? 0
                : commands.endMm(i, axis) - commands.startMm(i, axis);
    }

    private void arc(int i, double x, double y, double z) {
        double first = commands.centreFirstMm(i);
        double second = commands.centreSecondMm(i);
        int turn = commands.turn(i);
        switch (commands.plane(i)) {
            case XY -> writer.arcXy(x, y, z, blankXMm(first), blankYMm(second), turn);
            case YZ -> writer.arcAcross(x, y, z, blankYMm(first), tipMm(second), turn, 1, 2);
            case ZX -> writer.arcAcross(x, y, z, tipMm(first), blankXMm(second), turn, 2, 0);
        }
    }

    private OptionalDouble probe(
            double fromXMm, double fromYMm, double fromZMm, double toXMm, double toYMm, double toZMm, int tool) {
        // While the text is being read the run's lengths are not settled: the cutter is taken to read true.
        XyMm from = turned(blankXMm(fromXMm), blankYMm(fromYMm));
        XyMm to = turned(blankXMm(toXMm), blankYMm(toYMm));
        return options()
                .probes()
                .tripsAt(new ProbeModel.ProbeMove(
                        plan.probes++,
                        side.number(),
                        index,
                        tool,
                        from.xMm(),
                        from.yMm(),
                        fromZMm - originZMm - lengthInForce(tool),
                        to.xMm(),
                        to.yMm(),
                        toZMm - originZMm - lengthInForce(tool),
                        plan.foilTopMm(entry.zZero(), side.number()),
                        job.blank().widthMm(),
                        job.blank().heightMm()));
    }

    private double lengthInForce(int tool) {
        if (job.machine().onToolChange() != Machine.OnToolChange.MEASURED) {
            return 0;
        }
        double length = length(job.toolNumbered(tool));
        return Double.isNaN(length) ? 0 : length;
    }

    /** The bench's tools as the program's T, H and D numbers name them. */
    private final class Tools implements ToolTable {
        @Override
        public boolean exists(int number) {
            return job.toolNumbered(number) != null;
        }

        @Override
        public double lengthMm(int number) {
            if (job.machine().onToolChange() != Machine.OnToolChange.MEASURED) {
                // Every cutter is touched off or measured by the machine: the table's lengths play no part.
                return 0;
            }
            return length(job.toolNumbered(number));
        }

        @Override
        public double diameterMm(int number) {
            Tool tool = job.toolNumbered(number);
            return tool == null || tool.shape() == ToolShape.V ? Double.NaN : tool.diameterMm();
        }
    }
}
