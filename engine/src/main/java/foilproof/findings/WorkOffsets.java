package foilproof.findings;

import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * Work coordinate systems (A5): a change in mid-work, files of one side that use different ones, offsets of G92 and G10
 * that outlive the program. A program that names none is only noted: it runs in whatever system is in force, and the
 * job's work zero says where that lies.
 */
final class WorkOffsets implements Check {
    private static final String OFF = ", what is cut after it in this program lies off by the shift";

    @Override
    public List<String> kinds() {
        return List.of(Kinds.WORK_OFFSET);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A5");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<String> unnamed = new ArrayList<>();
        for (PlannedProgram program : x.plan().programs()) {
            if (!program.interpretation().notes(NoteKind.SYSTEM_UNSET).isEmpty()) {
                unnamed.add(program.file());
            }
            changes(x, program, out);
            leftOver(x, program, out);
        }
        betweenFiles(x, out);
        if (!unnamed.isEmpty()) {
            out.add(Finding.of(Kinds.WORK_OFFSET, Severity.NOTE, Certainty.GEOMETRY)
                    .program(unnamed.get(0))
                    .says("No work coordinate system (G54 to G59) is named in " + String.join(", ", unnamed)
                            + ": the one that is in force at the controller counts. It was run as G54.")
                    .doThis("Write G54 into the first lines, and set the work zero in that system.")
                    .build());
        }
    }

    /** The system in which a segment moved, 1 to 9. */
    private static int system(PlannedProgram program, Segments s, int i) {
        return program.interpretation().stateAtLine(s.line(i)).system();
    }

    static String named(int system) {
        return system <= 6 ? "G" + (53 + system) : "G59." + (system - 6);
    }

    private static boolean cuts(Examination x, int i) {
        return !x.plan().segments().isRapid(i) && x.removes(i);
    }

    private static void changes(Examination x, PlannedProgram program, FindingCollector out) {
        if (program.interpretation().notes(NoteKind.SYSTEM).size() < 2
                && (program.interpretation().notes(NoteKind.SYSTEM).isEmpty()
                        || program.interpretation().notes(NoteKind.SYSTEM_UNSET).isEmpty())) {
            return;
        }
        Segments s = x.plan().segments();
        int before = -1;
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (!cuts(x, i)) {
                continue;
            }
            if (before >= 0 && s.run(before) == s.run(i) && system(program, s, before) != system(program, s, i)) {
                int line = lineOfChange(program, s.line(before), s.line(i));
                out.add(x.at(Finding.of(Kinds.WORK_OFFSET, Severity.FIX, Certainty.GEOMETRY), i)
                        .line(program.file(), line)
                        .says("The work coordinate system changes from " + named(system(program, s, before)) + " to "
                                + named(system(program, s, i)) + " between two cuts of one cutter, with no tool change"
                                + " and no other side between them: what follows lies by the difference of both work"
                                + " zeros off what was cut before. The job gives one work zero; it was used for both.")
                        .doThis("Keep one work coordinate system for a side; take the change out.")
                        .build());
                return;
            }
            before = i;
        }
    }

    private static int lineOfChange(PlannedProgram program, int after, int upTo) {
        for (LanguageNote note : program.interpretation().notes(NoteKind.SYSTEM)) {
            if (note.span().line() > after && note.span().line() <= upTo) {
                return note.span().line();
            }
        }
        return upTo;
    }

    private static void leftOver(Examination x, PlannedProgram program, FindingCollector out) {
        List<LanguageNote> left = program.interpretation().notes(NoteKind.G92_LEFT);
        List<LanguageNote> set = program.interpretation().notes(NoteKind.G92_IN_FORCE);
        if (!left.isEmpty() && !(set.size() == 1 && probed(x, program, set.get(0)))) {
            int line = (set.isEmpty() ? left.get(0) : set.get(set.size() - 1))
                    .span()
                    .line();
            out.add(finding(x, program, line)
                    .says(
                            "G92 shifts the work zero" + (cutsAfter(x, program, line) ? OFF : "")
                                    + ", and the program ends without G92.1: the shift may still count when the next job starts.")
                    .doThis("Write G92.1 before the program ends, or set the work zero at the controller instead.")
                    .build());
        }
        for (LanguageNote moved : program.interpretation().notes(NoteKind.ORIGIN_SET)) {
            if (probed(x, program, moved)) {
                continue;
            }
            out.add(finding(x, program, moved.span().line())
                    .says((moved.text().startsWith("G10") ? moved.text() : "A parameter") + " moves the zero of "
                            + named((int) Math.max(1, moved.value())) + " in the controller's memory"
                            + (cutsAfter(x, program, moved.span().line()) ? OFF : "")
                            + ": it stays moved after the program ends.")
                    .doThis("Set the work zero at the controller and take the line out of the program.")
                    .build());
            return;
        }
    }

    private static boolean cutsAfter(Examination x, PlannedProgram program, int line) {
        for (int i = Math.max(0, x.firstSegmentFrom(program, line + 1)); i < program.endSegment(); i++) {
            if (i >= program.firstSegment() && x.plan().segments().line(i) > line && x.removes(i)) {
                return true;
            }
        }
        return false;
    }

    /** Whether a zero is set right after a probing move, before anything is cut: then it is the touch-off. */
    private static boolean probed(Examination x, PlannedProgram program, LanguageNote set) {
        int probe = 0;
        for (LanguageNote note : program.interpretation().notes(NoteKind.PROBE)) {
            probe = note.span().line() < set.span().line() ? note.span().line() : probe;
        }
        Segments s = x.plan().segments();
        for (int i = program.firstSegment(); probe > 0 && i < program.endSegment(); i++) {
            if (s.line(i) > probe && s.line(i) < set.span().line() && cuts(x, i)) {
                return false;
            }
        }
        return probe > 0;
    }

    private static Finding.Builder finding(Examination x, PlannedProgram program, int line) {
        return x.at(Finding.of(Kinds.WORK_OFFSET, Severity.FIX, Certainty.GEOMETRY), x.firstSegmentFrom(program, line))
                .side(program.side().number())
                .line(program.file(), line);
    }

    private static void betweenFiles(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (var side : x.job().sides()) {
            PlannedProgram first = null;
            int firstSystem = 0;
            for (PlannedProgram program : x.plan().programs()) {
                int cut = program.side().number() == side.number() ? firstCut(x, program) : -1;
                if (cut < 0) {
                    continue;
                }
                int system = system(program, s, cut);
                if (first == null) {
                    first = program;
                    firstSystem = system;
                } else if (system != firstSystem
                        && first.entry().workZeroMm().equals(program.entry().workZeroMm())) {
                    out.add(x.at(Finding.of(Kinds.WORK_OFFSET, Severity.FIX, Certainty.GEOMETRY), cut)
                            .line(program.file(), lineOfChange(program, 0, s.line(cut)))
                            .says(program.file() + " cuts in " + named(system) + ", " + first.file() + " in "
                                    + named(firstSystem) + " on the same side, and the job gives one work zero for"
                                    + " both: unless both systems have the same zero, they do not fit each other.")
                            .doThis("Use one work coordinate system for all programs of a side, or state the other"
                                    + " work_zero for this program.")
                            .build());
                    return;
                }
            }
        }
    }

    private static int firstCut(Examination x, PlannedProgram program) {
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (cuts(x, i)) {
                return i;
            }
        }
        return -1;
    }
}
