package foilproof.findings;

import foilproof.language.Interpretation;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.source.Diagnostic;
import java.util.List;

/**
 * Program text that is in neither language (A3, A14, A20), and programs that were cut short (A19). An error in a cut
 * last line is the cut's consequence, an arc that fits only as absolute that of a G91 left in force (A4).
 */
final class ProgramErrors implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.PROGRAM_ERROR, Kinds.PROGRAM_TRUNCATED, Kinds.CYCLE_SUSPECT, Kinds.DISTANCE_MODE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A3", "A4", "A14", "A16", "A19", "A20");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            Interpretation text = program.interpretation();
            List<Finding> errors = text.errors().stream()
                    .map(d -> ofDistance(x, program, d, ofCycle(d, error(x, program, d))))
                    .toList();
            if (!truncated(x, program, text, errors, out)) {
                errors.forEach(out::add);
            }
        }
    }

    private static Finding error(Examination x, PlannedProgram program, Diagnostic d) {
        String where =
                d.lineText() == null ? "" : " The line reads: " + d.lineText().strip();
        Finding.Builder b = Finding.of(Kinds.PROGRAM_ERROR, Severity.STOP, Certainty.GEOMETRY)
                .says("Line " + d.span().line()
                        + (d.span().column() > 0 ? ", column " + d.span().column() : "")
                        + ": " + d.message()
                        + where
                        + " The dry run of this program ends here: nothing after this line was checked.")
                .doThis(remedy(d))
                .side(program.side().number())
                .line(program.file(), d.span().line())
                .time(program.endS());
        int last = program.endSegment() - 1;
        if (last >= program.firstSegment()) {
            Segments s = x.plan().segments();
            b.at(s.x1Mm(last), s.y1Mm(last)).tool(x.run(s.run(last)).toolName());
        }
        return b.build();
    }

    /** A peck that is missing or 0, and R below the hole, are faults of the cycle: the error follows from them. */
    private static Finding ofCycle(Diagnostic d, Finding error) {
        boolean peck = d.code().equals("cycle-peck")
                || d.code().equals("cycle-word-missing") && d.message().contains("no Q");
        if (!peck && !d.code().equals("cycle-r-below-z")) {
            return error;
        }
        Finding.Builder b = Finding.of(Kinds.CYCLE_SUSPECT, Severity.STOP, Certainty.GEOMETRY)
                .says(
                        peck
                                ? "The pecking cycle in line " + d.span().line()
                                        + " has no depth of peck (Q missing or 0): controllers stop with an error, or drill"
                                        + " in one go."
                                : "R of the cycle in line " + d.span().line() + " lies below the hole's bottom.")
                .doThis(peck ? "Write Q with the depth of one peck, such as Q0.5." : "Raise R above the foil top.")
                .folding(List.of(error));
        return placed(b, error);
    }

    /** An arc whose numbers fit as absolute, while G91 is in force: the distance mode is the fault, the arc follows from it. */
    private static Finding ofDistance(Examination x, PlannedProgram program, Diagnostic d, Finding error) {
        if (!AbsoluteArc.meant(x, program, d)) {
            return error;
        }
        return placed(
                Finding.of(Kinds.DISTANCE_MODE, Severity.STOP, Certainty.GEOMETRY)
                        .says("G91 (incremental) is in force at the arc in line "
                                + d.span().line()
                                + ", which cannot be drawn so; as absolute its numbers fit. All moves since G91 came into"
                                + " force count from where the cutter stood. The dry run of this program ends here.")
                        .doThis("Write G90 after the incremental moves, or into the header.")
                        .folding(List.of(error)),
                error);
    }

    private static Finding placed(Finding.Builder b, Finding error) {
        if (error.side() != null) {
            b.side(error.side());
        }
        if (error.program() != null && error.line() != null) {
            b.line(error.program(), error.line());
        }
        if (error.timeS() != null) {
            b.time(error.timeS());
        }
        if (error.atMm() != null) {
            b.at(error.atMm()[0], error.atMm()[1]);
        }
        if (error.tool() != null) {
            b.tool(error.tool());
        }
        return b.build();
    }

    private static String remedy(Diagnostic d) {
        String text =
                d.expected() == null ? "Mend the line, or export the program again in plain RS274/NGC." : d.expected();
        return d.nearest() == null ? text : text + " Nearest valid word: " + d.nearest() + ".";
    }

    private static boolean truncated(
            Examination x, PlannedProgram program, Interpretation text, List<Finding> errors, FindingCollector out) {
        boolean cut = !text.notes(NoteKind.LAST_LINE_CUT).isEmpty();
        boolean noEnd = !text.notes(NoteKind.PROGRAM_END_MISSING).isEmpty();
        boolean errorInLastLine =
                cut && !errors.isEmpty() && text.errors().get(0).span().line() == text.lastLine();
        if (text.end() == Interpretation.End.ERROR && !errorInLastLine) {
            return false;
        }
        double endZMm = endHeight(x, program, text);
        boolean below = endZMm < 0;
        Finding.Builder b;
        if (errorInLastLine) {
            b = Finding.of(Kinds.PROGRAM_TRUNCATED, Severity.STOP, Certainty.GEOMETRY)
                    .says("The program breaks off in the middle of line " + text.lastLine()
                            + ": the transfer was cut short.")
                    .folding(errors);
        } else if (below) {
            b = Finding.of(Kinds.PROGRAM_TRUNCATED, Severity.STOP, Certainty.GEOMETRY)
                    .says("The program ends with the cutter " + Words.mm(-endZMm) + " below the foil top"
                            + (noEnd ? " and without M2, M30 or a closing %." : "."));
        } else if (noEnd) {
            b = Finding.of(Kinds.PROGRAM_TRUNCATED, Severity.NOTE, Certainty.GEOMETRY)
                    .says("The program has no M2, M30 or closing %; the cutter is up when it ends.");
        } else {
            return false;
        }
        b.doThis("Compare the file's size with the exported one and send it again.")
                .side(program.side().number())
                .line(program.file(), Math.max(1, text.lastLine()))
                .time(program.endS());
        int last = program.endSegment() - 1;
        if (last >= program.firstSegment()) {
            Segments s = x.plan().segments();
            b.at(s.x1Mm(last), s.y1Mm(last)).tool(x.run(s.run(last)).toolName());
        }
        out.add(b.build());
        return true;
    }

    /** Height of the tip above the nominal foil top when the program ends, mm; infinite where it never moved. */
    private static double endHeight(Examination x, PlannedProgram program, Interpretation text) {
        int last = program.endSegment() - 1;
        if (last < program.firstSegment()) {
            return Double.POSITIVE_INFINITY;
        }
        List<LanguageNote> ended = text.notes(NoteKind.ENDED_AT_Z);
        Segments s = x.plan().segments();
        return ended.isEmpty() && text.end() != Interpretation.End.ERROR
                ? Double.POSITIVE_INFINITY
                : -x.run(s.run(last)).depthMm(s.z1Mm(last));
    }
}
