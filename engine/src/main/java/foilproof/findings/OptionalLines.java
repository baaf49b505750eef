package foilproof.findings;

import foilproof.language.NoteKind;
import foilproof.motion.MotionEvent;
import foilproof.motion.MotionOptions;
import foilproof.motion.MotionPlan;
import foilproof.motion.MotionPlanner;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.motion.ToolRun;
import foilproof.motion.Toolpaths;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Two boards in one file (A21): lines behind the block delete switch, and M1, whose switch decides whether anybody changes
 * a cutter. The job is planned with the switch the other way, and the paths below the foil top are compared.
 */
final class OptionalLines implements Check {
    private static final double STEP_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.BLOCK_DELETE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A21");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        boolean slashes = false;
        boolean stops = false;
        for (PlannedProgram program : x.plan().programs()) {
            slashes |= !program.interpretation().notes(NoteKind.BLOCK_DELETE).isEmpty();
            stops |= !program.interpretation().notes(NoteKind.OPTIONAL_STOP).isEmpty();
        }
        if (!slashes && !stops) {
            return;
        }
        MotionPlan plain = MotionPlanner.plan(x.job(), MotionOptions.DEFAULT);
        if (slashes) {
            boolean on = x.job().machine().blockDelete();
            MotionPlan other = MotionPlanner.plan(x.job(), MotionOptions.DEFAULT.withBlockDelete(!on));
            tell(x, plain, other, out, on);
        }
        if (stops) {
            MotionOptions off =
                    new MotionOptions(MotionOptions.DEFAULT.probes(), false, null, MotionOptions.DEFAULT.limits());
            MotionPlan other = MotionPlanner.plan(x.job(), off);
            MotionEvent unchanged = ignoredOnlyIn(other, plain);
            if (unchanged != null) {
                PlannedProgram program = other.programs().get(unchanged.program());
                out.add(Finding.of(Kinds.BLOCK_DELETE, Severity.WATCH, Certainty.GEOMETRY)
                        .side(program.side().number())
                        .at(unchanged.xMm(), unchanged.yMm())
                        .line(program.file(), unchanged.line())
                        .time(unchanged.timeS())
                        .says("Only an optional stop (M1) lets a person change the cutter here: with its switch off the"
                                + " program goes on with the cutter before.")
                        .doThis("Write M0 instead of M1, or state how the switch stands.")
                        .build());
            }
        }
    }

    private static @Nullable MotionEvent ignoredOnlyIn(MotionPlan plan, MotionPlan other) {
        Set<Integer> lines = new HashSet<>();
        for (MotionEvent event : other.events()) {
            if (event.kind() == MotionEvent.Kind.TOOL_CHANGE_IGNORED) {
                lines.add(event.line());
            }
        }
        for (MotionEvent event : plan.events()) {
            if (event.kind() == MotionEvent.Kind.TOOL_CHANGE_IGNORED && !lines.contains(event.line())) {
                return event;
            }
        }
        return null;
    }

    private static void tell(Examination x, MotionPlan plain, MotionPlan other, FindingCollector out, boolean on) {
        int here = firstOnlyIn(x, plain, other);
        int there = firstOnlyIn(x, other, plain);
        if (here < 0 && there < 0) {
            return;
        }
        MotionPlan seen = here >= 0 ? plain : other;
        int i = here >= 0 ? here : there;
        Segments s = seen.segments();
        PlannedProgram program = seen.programOf(i);
        out.add(Finding.of(Kinds.BLOCK_DELETE, Severity.WATCH, Certainty.GEOMETRY)
                .side(program.side().number())
                .at(s.x1Mm(i), s.y1Mm(i))
                .line(program.file(), lineOfSlash(program, s.line(i)))
                .time(s.startS(i))
                .tool(seen.runs().get(s.run(i)).toolName())
                .says("Lines that begin with a slash make two boards of this file: what is cut differs with the block"
                        + " delete switch. The job says that it is " + (on ? "on (they are skipped)" : "off (they run)")
                        + ".")
                .doThis("Check that the switch stands as the job says, or take the lines out.")
                .build());
    }

    /** The last line with a slash up to a line, else the first one. */
    private static int lineOfSlash(PlannedProgram program, int line) {
        int found = -1;
        for (var note : program.interpretation().notes(NoteKind.BLOCK_DELETE)) {
            if (found < 0 || note.span().line() <= line) {
                found = note.span().line();
            }
        }
        return found < 0 ? line : found;
    }

    /** The first segment below the foil top that the other plan does not have, or -1. */
    private static int firstOnlyIn(Examination x, MotionPlan plan, MotionPlan other) {
        Map<String, Integer> theirs = new HashMap<>();
        Segments o = other.segments();
        for (int i = 0; i < o.size(); i++) {
            if (below(x, other, i)) {
                theirs.merge(key(other, i), 1, Integer::sum);
            }
        }
        for (int i = 0; i < plan.segments().size(); i++) {
            if (below(x, plan, i)) {
                Integer left = theirs.merge(key(plan, i), -1, Integer::sum);
                if (left < 0) {
                    return i;
                }
            }
        }
        return -1;
    }

    private static boolean below(Examination x, MotionPlan plan, int i) {
        Segments s = plan.segments();
        ToolRun run = plan.runs().get(s.run(i));
        return s.lowestMm(i) - Toolpaths.foilTopMm(x.job(), run)
                < x.side(run.side()).highestMm();
    }

    private static String key(MotionPlan plan, int i) {
        Segments s = plan.segments();
        StringBuilder key = new StringBuilder(plan.runs().get(s.run(i)).toolName());
        double[] numbers = {
            s.x0Mm(i), s.y0Mm(i), s.z0Mm(i), s.x1Mm(i), s.y1Mm(i), s.z1Mm(i), s.cxMm(i), s.cyMm(i), s.sweepRad(i)
        };
        for (double number : numbers) {
            key.append(' ').append(Math.round(number / STEP_MM));
        }
        return key.toString();
    }
}
