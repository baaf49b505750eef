package foilproof.findings;

import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.Plane;
import foilproof.motion.PlannedProgram;
import java.util.List;

/**
 * A program that cuts another board when the job before left another state (A24). Units (A1), distance mode (A4) and the
 * work coordinate system (A5) are told by their own checks; a motion mode or cycle left behind counts nowhere, since axis
 * words before the first G0 to G3 are an error. What is left is the plane: arcs and cycles before any G17.
 */
final class StartState implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.START_STATE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A24");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            int line = planeRelied(program.interpretation().commands());
            int segment = line < 0 ? -1 : x.firstSegmentFrom(program, line);
            if (segment < 0 || !cutsFrom(x, program, segment)) {
                continue;
            }
            out.add(x.at(Finding.of(Kinds.START_STATE, Severity.WATCH, Certainty.GEOMETRY), segment)
                    .line(program.file(), line)
                    .says("The arc or cycle in this line relies on the XY plane without G17 before it: after a job that"
                            + " left G18 or G19 in force, it runs in another plane or stops with an error.")
                    .doThis("Begin the program with a safe-start line such as G21 G90 G94 G17 G40 G49 G80 G54.")
                    .build());
        }
    }

    private static boolean cutsFrom(Examination x, PlannedProgram program, int segment) {
        for (int i = segment; i < program.endSegment(); i++) {
            if (x.removes(i)) {
                return true;
            }
        }
        return false;
    }

    /** Line of the first arc or cycle in the XY plane before which no plane was selected, or -1. */
    private static int planeRelied(CanonicalProgram commands) {
        for (int i = 0; i < commands.size(); i++) {
            CommandKind kind = commands.kind(i);
            if (kind == CommandKind.SELECT_PLANE) {
                return -1;
            }
            if (kind == CommandKind.ARC_FEED && commands.plane(i) == Plane.XY
                    || kind.isMotion() && (commands.flags(i) & CanonicalProgram.IN_CYCLE) != 0) {
                return commands.line(i);
            }
        }
        return -1;
    }
}
