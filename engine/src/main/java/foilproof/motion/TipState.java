package foilproof.motion;

import java.util.List;

/**
 * Where the cutter is at a moment.
 *
 * @param timeS the moment, seconds since the job's start
 * @param segment index of the segment under way, or of the last one that ended; -1 before the first
 * @param fraction how much of that segment's path lies behind, 0 to 1
 * @param moving whether a move is under way
 * @param run index of the tool run in force, -1 before the first
 * @param program index of the program, -1 before the first
 * @param line physical line of that segment, from 1; 0 before the first
 * @param xMm tip, blank's frame of the side in force
 * @param yMm tip, blank's frame of the side in force
 * @param zMm tip height in the tool run's own zero
 * @param speedMmPerMin speed along the path
 */
public record TipState(
        double timeS,
        int segment,
        double fraction,
        boolean moving,
        int run,
        int program,
        int line,
        double xMm,
        double yMm,
        double zMm,
        double speedMmPerMin) {

    static TipState at(MotionPlan plan, double timeS) {
        Segments s = plan.segments();
        if (s.size() == 0) {
            return new TipState(timeS, -1, 0, false, plan.runAt(timeS), -1, 0, 0, 0, 0, 0);
        }
        int i = s.at(timeS);
        if (i < 0) {
            return new TipState(timeS, -1, 0, false, plan.runAt(timeS), -1, 0, s.x0Mm(0), s.y0Mm(0), s.z0Mm(0), 0);
        }
        double after = timeS - s.startS(i);
        boolean moving = after < s.durationS(i);
        double a = plan.accelerationMmPerS2();
        double peak = s.peakMmPerMin(i) / 60;
        double fraction =
                Trapezoid.fraction(s.lengthMm(i), peak, a, s.entryMmPerS(i), s.exitMmPerS(i), s.durationS(i), after);
        double[] tip = s.pointAt(i, fraction);
        double speed = 0;
        if (moving) {
            double rising = s.entryMmPerS(i) + a * after;
            double falling = s.exitMmPerS(i) + a * (s.durationS(i) - after);
            speed = Math.min(peak, Math.min(rising, falling)) * 60;
        }
        int run = Math.max(s.run(i), plan.runAt(timeS));
        return new TipState(timeS, i, fraction, moving, run, s.program(i), s.line(i), tip[0], tip[1], tip[2], speed);
    }

    /** The moment in words: program, line and how many lines it has, and what the machine does. */
    public String words(MotionPlan plan) {
        if (segment < 0) {
            return "before the first move";
        }
        PlannedProgram in = plan.programs().get(program);
        String doing = moving ? verb(plan.segments().kind(segment)) : waiting(plan.events());
        return in.file() + " line " + line + " of " + in.interpretation().lastLine() + ", " + doing;
    }

    private static String verb(SegmentKind kind) {
        return switch (kind) {
            case RAPID -> "rapid move";
            case FEED -> "feed move";
            case PROBE -> "probing";
        };
    }

    private String waiting(List<MotionEvent> events) {
        String words = "standing";
        for (MotionEvent event : events) {
            if (event.timeS() > timeS) {
                break;
            }
            if (event.durationS() > 0 && timeS < event.timeS() + event.durationS()) {
                words = event.kind() == MotionEvent.Kind.DWELL ? "dwell" : "tool change";
            }
        }
        return words;
    }
}
