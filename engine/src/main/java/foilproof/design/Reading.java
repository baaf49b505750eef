package foilproof.design;

import foilproof.source.Diagnostic;
import java.util.List;

/**
 * What was read from a design file, with everything about it that deserves a word but did not stop the reading.
 *
 * @param value what was read
 * @param warnings in the order of the file; empty for a file that follows its format
 * @param <T> kind of thing read
 */
public record Reading<T>(T value, List<Diagnostic> warnings) {
    /** Copies the list of warnings. */
    public Reading {
        warnings = List.copyOf(warnings);
    }
}
