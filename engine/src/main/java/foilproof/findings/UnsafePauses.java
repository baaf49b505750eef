package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Machine;
import foilproof.motion.MotionEvent;
import foilproof.motion.PlannedProgram;
import java.util.EnumSet;
import java.util.List;

/**
 * Moments at which a hand goes to the cutter (L4): program stops while the spindle turns or the tip is in the blank, tool
 * changes that nothing is lifted for.
 */
final class UnsafePauses implements Check {
    /** The faults, each told once a program. */
    private enum Fault {
        TURNING,
        BELOW,
        NO_RETRACT
    }

    @Override
    public List<String> kinds() {
        return List.of(Kinds.UNSAFE_PAUSE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("L4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        boolean stopsItself = x.job().machine().onToolChange() != Machine.OnToolChange.IGNORED;
        boolean turning = false;
        EnumSet<Fault> told = EnumSet.noneOf(Fault.class);
        for (MotionEvent event : x.plan().events()) {
            switch (event.kind()) {
                case PROGRAM_BEGIN -> {
                    turning = false;
                    told.clear();
                }
                case SPINDLE_CLOCKWISE, SPINDLE_COUNTERCLOCKWISE -> turning = true;
                case SPINDLE_STOP, PROGRAM_END -> turning = false;
                case TOOL_CHANGE -> {
                    if (event.line() > 0 && aboveFoilMm(x, event) < x.limit(LimitKey.RAPID_HEIGHT) - 1e-9) {
                        tell(x, event, Fault.NO_RETRACT, told, out);
                    }
                    turning &= !stopsItself;
                }
                case PROGRAM_STOP, OPTIONAL_STOP -> {
                    if (turning) {
                        tell(x, event, Fault.TURNING, told, out);
                    }
                    if (aboveFoilMm(x, event) < -1e-6) {
                        tell(x, event, Fault.BELOW, told, out);
                    }
                }
                default -> {}
            }
        }
    }

    /** Height of the tip above the uncut foil at an event, mm; infinite beside the blank and where nothing moved yet. */
    private static double aboveFoilMm(Examination x, MotionEvent event) {
        PlannedProgram program = x.plan().programs().get(event.program());
        if (event.run() < 0
                || event.beforeSegment() <= program.firstSegment()
                || event.xMm() < 0
                || event.yMm() < 0
                || event.xMm() > x.job().blank().widthMm()
                || event.yMm() > x.job().blank().heightMm()) {
            return Double.POSITIVE_INFINITY;
        }
        RunFacts run = x.run(event.run());
        return run.blankFromRunMm(event.zMm()) - x.side(program.side().number()).surfaceMm(event.xMm(), event.yMm());
    }

    private static void tell(Examination x, MotionEvent event, Fault fault, EnumSet<Fault> told, FindingCollector out) {
        if (!told.add(fault)) {
            return;
        }
        PlannedProgram program = x.plan().programs().get(event.program());
        Finding.Builder b = Finding.of(Kinds.UNSAFE_PAUSE, Severity.STOP, Certainty.GEOMETRY)
                .side(program.side().number())
                .at(event.xMm(), event.yMm())
                .line(program.file(), event.line())
                .time(event.timeS());
        if (event.run() >= 0) {
            b.tool(x.run(event.run()).toolName());
        }
        switch (fault) {
            case TURNING ->
                b.says("The program stops for a person while the spindle still turns.")
                        .doThis("Write M5, lift Z, then M0; start the spindle again afterwards with a dwell.");
            case BELOW ->
                b.atLeast(Measured.mm("height of the tip above the foil", aboveFoilMm(x, event), 0.001), 0)
                        .says("The program stops for a person while the tip is " + Words.mm(-aboveFoilMm(x, event))
                                + " below the foil top: the cutter stands in the blank.")
                        .doThis("Lift Z (and write M5) before M0.");
            default ->
                b.atLeast(
                                Measured.mm("height of the tip above the foil", aboveFoilMm(x, event), 0.001),
                                x.limit(LimitKey.RAPID_HEIGHT))
                        .says("The tool change comes with the tip only " + Words.mm(aboveFoilMm(x, event))
                                + " above the foil top: nothing is lifted before it.")
                        .doThis("Lift Z well clear of the blank (G0 Z25) before M6.");
        }
        out.add(b.build());
    }
}
