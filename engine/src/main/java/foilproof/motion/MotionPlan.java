package foilproof.motion;

import java.util.List;

/**
 * Everything that moves in a job, in time order, with the tool runs that it is cut into. Immutable.
 *
 * @param segments all moves
 * @param runs the tool runs, in time order; together they cover all segments
 * @param events what happens beside the moves, in time order
 * @param totals where the time goes
 */
public record MotionPlan(Segments segments, List<ToolRun> runs, List<MotionEvent> events, MotionTotals totals) {
    /** Copies the lists. */
    public MotionPlan {
        runs = List.copyOf(runs);
        events = List.copyOf(events);
    }

    /** The tool run in force at {@code timeS}, or -1 before the first. */
    public int runAt(double timeS) {
        int found = -1;
        for (ToolRun run : runs) {
            if (run.startS() <= timeS) {
                found = run.index();
            }
        }
        return found;
    }
}
