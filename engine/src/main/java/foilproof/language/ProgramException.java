package foilproof.language;

import org.jspecify.annotations.Nullable;

/** Ends the run of a program; never leaves the package. Columns are bytes from the line's start, from 1; 0: the whole block. */
final class ProgramException extends Exception {
    private static final long serialVersionUID = 1L;
    final String code;
    final String problem;
    final int column;
    final int endColumn;

    @Nullable
    String expected;

    @Nullable
    String nearest;

    ProgramException(String code, int column, int endColumn, String problem) {
        super(problem, null, false, false);
        this.code = code;
        this.problem = problem;
        this.column = column;
        this.endColumn = Math.max(endColumn, column);
    }

    ProgramException expecting(String what) {
        expected = what;
        return this;
    }

    ProgramException near(@Nullable String word) {
        nearest = word;
        return this;
    }
}
