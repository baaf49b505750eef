package foilproof.report;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.util.List;
import java.util.Locale;

/** What all findings together say: the worst severity above a note, or clean. */
public enum Verdict {
    /** Do not run. */
    STOP,
    /** The board is likely bad. */
    FIX,
    /** Something holds only if a stated set-up number holds, or a rule of thumb speaks. */
    WATCH,
    /** Nothing above a note. What was not checked is still not checked. */
    CLEAN;

    /** The word in results. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The verdict over findings and all that is folded under them. */
    public static Verdict of(List<Finding> findings) {
        Verdict worst = CLEAN;
        for (Finding finding : findings) {
            worst = worse(worst, of(finding.severity()));
            worst = worse(worst, of(finding.consequences()));
        }
        return worst;
    }

    private static Verdict of(Severity severity) {
        return switch (severity) {
            case STOP -> STOP;
            case FIX -> FIX;
            case WATCH -> WATCH;
            case NOTE -> CLEAN;
        };
    }

    private static Verdict worse(Verdict a, Verdict b) {
        return a.ordinal() <= b.ordinal() ? a : b;
    }
}
