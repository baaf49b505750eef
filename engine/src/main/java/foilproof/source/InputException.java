package foilproof.source;

import java.util.List;

/** Thrown where an input cannot be used at all (exit code 2). Carries at least one diagnostic. */
public final class InputException extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient List<Diagnostic> diagnostics;

    public InputException(List<Diagnostic> diagnostics) {
        super(
                diagnostics.isEmpty()
                        ? "input cannot be used"
                        : diagnostics.get(0).render());
        this.diagnostics = List.copyOf(diagnostics);
    }

    public InputException(Diagnostic diagnostic) {
        this(List.of(diagnostic));
    }

    /** What is wrong, in the order of the file. */
    public List<Diagnostic> diagnostics() {
        return diagnostics;
    }
}
