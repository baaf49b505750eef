package foilproof.bench;

import foilproof.source.SourceFile;
import org.jspecify.annotations.Nullable;

/**
 * One program of a side, with the side's values where it says none of its own.
 *
 * @param source the program's text
 * @param tool name of the tool where the program itself names none, or null
 * @param work what the program is for, or null where not said
 * @param workZeroMm X0 Y0 of the program, from the blank's lower-left corner as it lies
 * @param zZero what Z 0 of the program is
 * @param touchOffMm where the cutter is touched off, from the blank's lower-left corner as it lies, or null
 * @param retouch false where it goes on with the cutter as the program before left it, without a touch-off
 */
public record ProgramEntry(
        SourceFile source,
        @Nullable String tool,
        @Nullable Work work,
        XyMm workZeroMm,
        ZZero zZero,
        @Nullable XyMm touchOffMm,
        boolean retouch) {
    /** The program's name as the job names it. */
    public String file() {
        return source.name();
    }

    /** The same entry with another text. */
    public ProgramEntry withSource(SourceFile newSource) {
        return new ProgramEntry(newSource, tool, work, workZeroMm, zZero, touchOffMm, retouch);
    }

    /** The same entry with another tool, or null where the program itself names it. */
    public ProgramEntry withTool(@Nullable String newTool) {
        return new ProgramEntry(source, newTool, work, workZeroMm, zZero, touchOffMm, retouch);
    }

    /** The same entry with X0 Y0 elsewhere, mm from the blank's lower-left corner as it lies. */
    public ProgramEntry withWorkZero(XyMm newWorkZeroMm) {
        return new ProgramEntry(source, tool, work, newWorkZeroMm, zZero, touchOffMm, retouch);
    }

    /** The same entry with another Z 0. */
    public ProgramEntry withZZero(ZZero newZZero) {
        return new ProgramEntry(source, tool, work, workZeroMm, newZZero, touchOffMm, retouch);
    }
}
