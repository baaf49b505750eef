package foilproof.motion;

import java.util.List;

/**
 * Everything that moves in a job, in time order, with the tool runs that it is cut into. Immutable.
 *
 * @param segments all moves
 * @param runs the tool runs, in time order; together they cover all segments
 * @param programs the program entries of all sides in the order they run, each with what the interpreter made of it
 * @param events what happens beside the moves, in time order
 * @param totals where the time goes
 * @param accelerationMmPerS2 the acceleration that the times rest on; infinite where none was taken into account
 * @param assumed what was taken for granted because neither job nor program says it, as a person reads it
 */
public record MotionPlan(
        Segments segments,
        List<ToolRun> runs,
        List<PlannedProgram> programs,
        List<MotionEvent> events,
        MotionTotals totals,
        double accelerationMmPerS2,
        List<String> assumed) {
    /** Copies the lists. */
    public MotionPlan {
        runs = List.copyOf(runs);
        programs = List.copyOf(programs);
        events = List.copyOf(events);
        assumed = List.copyOf(assumed);
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

    /** The tool run that segment {@code i} belongs to. */
    public ToolRun runOf(int i) {
        return runs.get(segments.run(i));
    }

    /** The program that segment {@code i} belongs to. */
    public PlannedProgram programOf(int i) {
        return programs.get(segments.program(i));
    }

    /** Where the cutter is at {@code timeS} seconds since the job's start; between moves it stands where it was left. */
    public TipState tipAt(double timeS) {
        return TipState.at(this, timeS);
    }
}
