package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Machine;
import foilproof.motion.MotionEvent;
import foilproof.motion.Segments;
import java.util.List;

/** Too little time between the start of the spindle and the first contact (A11); rapids and dwells both count. */
final class SpinUp implements Check {
    private static final int SAMPLES = 256;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SPIN_UP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A11");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        MotionEvent start = null;
        boolean turning = false;
        int told = -1;
        int done = 0;
        double least = x.limit(LimitKey.SPIN_UP);
        Segments s = x.plan().segments();
        for (MotionEvent event : x.plan().events()) {
            if (start != null && contact(x, done, event.beforeSegment()) >= 0) {
                told = judge(x, start, contact(x, done, event.beforeSegment()), least, told, out);
                start = null;
            }
            done = Math.max(done, event.beforeSegment());
            switch (event.kind()) {
                case SPINDLE_CLOCKWISE, SPINDLE_COUNTERCLOCKWISE -> {
                    start = turning ? start : event;
                    turning = true;
                }
                case SPINDLE_STOP, PROGRAM_BEGIN, PROGRAM_END -> {
                    start = null;
                    turning = false;
                }
                case TOOL_CHANGE -> {
                    // where M6 does nothing, the spindle goes on turning
                    boolean ignored = x.job().machine().onToolChange() == Machine.OnToolChange.IGNORED;
                    start = ignored ? start : null;
                    turning &= ignored;
                }
                // a person starts the program again: nobody knows after how long, but never at once
                case PROGRAM_STOP, OPTIONAL_STOP -> start = null;
                default -> {}
            }
        }
        if (start != null && contact(x, done, s.size()) >= 0) {
            judge(x, start, contact(x, done, s.size()), least, told, out);
        }
    }

    /** The first segment of a range that removes anything, or -1. */
    private static int contact(Examination x, int from, int to) {
        for (int i = from; i < to; i++) {
            if (x.removes(i)) {
                return i;
            }
        }
        return -1;
    }

    /** Tells one start of each program; returns the program told last. */
    private static int judge(
            Examination x, MotionEvent start, int segment, double least, int told, FindingCollector out) {
        double seconds = contactS(x, segment) - start.timeS();
        if (seconds >= least - 1e-6 || told == start.program()) {
            return told;
        }
        out.add(x.at(Finding.of(Kinds.SPIN_UP, Severity.WATCH, Certainty.RULE_OF_THUMB), segment)
                .line(x.plan().programs().get(start.program()).file(), start.line())
                .atLeast(Measured.exact("time from spindle start to first contact", seconds, "s"), least)
                .says("The cutter touches the blank " + Words.number(seconds, 1)
                        + " s after the spindle starts (line "
                        + x.plan().segments().line(segment) + "); "
                        + Words.number(least, 1) + " s are usual until it runs at full speed.")
                .doThis(
                        x.job().machine().dwell() == Machine.Dwell.MILLISECONDS
                                ? "Add a dwell after M3, such as G4 P3000 (this machine counts P in milliseconds)."
                                : "Add a dwell after M3, such as G4 P3 (this machine counts P in seconds).")
                .build());
        return start.program();
    }

    /** When the tip first comes down to the uncut surface within a segment, seconds since the job's start. */
    private static double contactS(Examination x, int segment) {
        Segments s = x.plan().segments();
        RunFacts run = x.run(s.run(segment));
        for (int k = 0; k <= SAMPLES; k++) {
            double f = (double) k / SAMPLES;
            double[] p = s.pointAt(segment, f);
            if (run.blankFromRunMm(p[2]) <= x.side(run.side().number()).surfaceMm(p[0], p[1])) {
                return s.startS(segment) + f * s.durationS(segment);
            }
        }
        return s.startS(segment);
    }
}
