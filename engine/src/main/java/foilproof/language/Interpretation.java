package foilproof.language;

import foilproof.source.Diagnostic;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;

/** What the interpreter made of one program. Immutable. */
public final class Interpretation {
    /** How the reading of a program came to its end. */
    public enum End {
        /** M2 or M30. */
        PROGRAM_END,
        /** The second percent sign. */
        PERCENT,
        /** The file was over. */
        FILE_END,
        /** An error: {@link Interpretation#errors()} has it. */
        ERROR
    }

    private final SourceFile source;
    private final CanonicalProgram commands;
    private final List<Diagnostic> errors;
    private final List<LanguageNote> notes;
    private final ModalTrace trace;
    private final End end;
    private final int lastLine;

    Interpretation(
            SourceFile source,
            CanonicalProgram commands,
            List<Diagnostic> errors,
            List<LanguageNote> notes,
            ModalTrace trace,
            End end,
            int lastLine) {
        this.source = source;
        this.commands = commands;
        this.errors = List.copyOf(errors);
        this.notes = List.copyOf(notes);
        this.trace = trace;
        this.end = end;
        this.lastLine = lastLine;
    }

    /** The program's file. */
    public SourceFile source() {
        return source;
    }

    /** What the program does, up to its end or its first error. */
    public CanonicalProgram commands() {
        return commands;
    }

    /** What is wrong; the first one ended the run. Empty where the program ran to its end. */
    public List<Diagnostic> errors() {
        return errors;
    }

    /** Facts about the program, in the order of its lines. */
    public List<LanguageNote> notes() {
        return notes;
    }

    /** The facts of one kind. */
    public List<LanguageNote> notes(NoteKind kind) {
        List<LanguageNote> found = new ArrayList<>();
        for (LanguageNote note : notes) {
            if (note.kind() == kind) {
                found.add(note);
            }
        }
        return List.copyOf(found);
    }

    /** How the run came to its end. */
    public End end() {
        return end;
    }

    /** The last physical line that was read, from 1; 0 for an empty file. */
    public int lastLine() {
        return lastLine;
    }

    /** What is in force after line {@code line} has run; line 0 is the start, lines past the end are the end. */
    public ModalState stateAtLine(int line) {
        return trace.at(line);
    }

    /** What was in force before the first line. */
    public ModalState initialState() {
        return trace.at(0);
    }
}
