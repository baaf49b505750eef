package foilproof.findings;

import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import java.util.List;

/** Cutters that the job does not know (A12). */
final class Tools implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOOL_UNKNOWN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A12");
    }

    /** Whether a run does more than move about above the blank. */
    private static boolean works(Examination x, RunFacts run) {
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!x.plan().segments().isRapid(i)
                    || run.blankFromRunMm(x.plan().segments().lowestMm(i)) < 0) {
                return true;
            }
        }
        return false;
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null || !works(x, run)) {
                continue;
            }
            int number = run.run().toolNumber();
            String file = run.entry().file();
            out.add(x.at(
                            Finding.of(Kinds.TOOL_UNKNOWN, Severity.STOP, Certainty.GEOMETRY),
                            run.run().firstSegment())
                    .line(file, Math.max(1, run.run().startLine()))
                    .says(
                            number > 0
                                    ? "The program calls for T" + number
                                            + ", and the job has no tool of that number. What it"
                                            + " cuts is not in the picture and was not judged."
                                    : "Neither the program nor the job says which cutter is in the collet. What it cuts is not"
                                            + " in the picture and was not judged.")
                    .doThis(
                            number > 0
                                    ? "Add a [[tool]] with number = " + number + ", or mend the T word."
                                    : "Add tool = \"...\" to the [[side.program]] of " + file
                                            + ", or a T word to the program.")
                    .build());
        }
        for (PlannedProgram program : x.plan().programs()) {
            neverPutIn(x, program, out);
            for (var note : program.interpretation().notes(NoteKind.TOOL_CHANGE_WITHOUT_TOOL)) {
                out.add(x.at(
                                Finding.of(Kinds.TOOL_UNKNOWN, Severity.FIX, Certainty.GEOMETRY),
                                x.firstSegmentFrom(program, note.span().line()))
                        .line(program.file(), note.span().line())
                        .says("M6 changes the tool, but no T word says which.")
                        .doThis("Write Tn before M6.")
                        .build());
            }
        }
    }

    /** A second T that no M6 follows, with cuts after it: the cutter before does them. */
    private static void neverPutIn(Examination x, PlannedProgram program, FindingCollector out) {
        CanonicalProgram commands = program.interpretation().commands();
        int inSpindle = -1;
        int waiting = -1;
        boolean fed = false;
        boolean fedSince = false;
        for (int i = 0; i < commands.size(); i++) {
            CommandKind kind = commands.kind(i);
            if (kind == CommandKind.SELECT_TOOL) {
                int number = (int) commands.value(i);
                // right behind M6 it only makes the next cutter ready
                boolean other = number > 0 && number != inSpindle && fed;
                waiting = other ? i : -1;
                fedSince = false;
                inSpindle = !fed && inSpindle < 0 ? number : inSpindle;
            } else if (kind == CommandKind.CHANGE_TOOL) {
                inSpindle = (int) commands.value(i);
                waiting = -1;
                fed = false;
            } else if (kind.isMotion() && kind != CommandKind.STRAIGHT_TRAVERSE) {
                fed = true;
                fedSince = true;
            }
        }
        if (waiting < 0 || !fedSince) {
            return;
        }
        int line = commands.line(waiting);
        int number = (int) commands.value(waiting);
        out.add(x.at(
                        Finding.of(Kinds.TOOL_UNKNOWN, Severity.FIX, Certainty.GEOMETRY),
                        x.firstSegmentFrom(program, line))
                .line(program.file(), line)
                .says("T" + number
                        + " is called, and no M6 puts it in before the cuts that follow: the cutter before does"
                        + " them.")
                .doThis("Write M6 after T" + number + ", with a stop for the touch-off, or take the T word out.")
                .build());
    }
}
