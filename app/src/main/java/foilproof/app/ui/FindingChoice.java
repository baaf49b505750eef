package foilproof.app.ui;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import org.jspecify.annotations.Nullable;

/**
 * What is chosen from lists to narrow the findings; null and 0 mean any.
 *
 * @param kind the kind
 * @param side the side, from 1
 * @param tool the cutter's name
 * @param severity the severity
 */
record FindingChoice(
        @Nullable String kind,
        int side,
        @Nullable String tool,
        @Nullable Severity severity) {
    /** Everything. */
    static final FindingChoice ANY = new FindingChoice(null, 0, null, null);

    /** Whether nothing is narrowed. */
    boolean any() {
        return equals(ANY);
    }

    /** Whether this very finding is meant; those folded under it are not looked at. */
    boolean matches(Finding f) {
        return (kind == null || kind.equals(f.kind()))
                && (side == 0 || Integer.valueOf(side).equals(f.side()))
                && (tool == null || tool.equals(f.tool()))
                && (severity == null || severity == f.severity());
    }
}
