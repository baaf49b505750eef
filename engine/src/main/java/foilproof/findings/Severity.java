package foilproof.findings;

import java.util.Locale;

/** How bad a finding is, worst first: the order of the constants is the order of findings in a report. */
public enum Severity {
    /** Do not run. */
    STOP,
    /** The board is likely bad. */
    FIX,
    /** True only if a stated set-up number holds, or a rule of thumb. */
    WATCH,
    /** Worth knowing; nothing to do. */
    NOTE;

    /** The word in results and on the command line. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** True where this is as bad as {@code other} or worse. */
    public boolean atLeast(Severity other) {
        return ordinal() <= other.ordinal();
    }

    /** The milder of the two. */
    public Severity cappedAt(Severity other) {
        return ordinal() < other.ordinal() ? other : this;
    }
}
