package foilproof.findings;

import java.util.ArrayList;
import java.util.List;

/** Takes what the checks find, in the order of the checks. Not thread-safe. */
public final class FindingCollector {
    private final List<Finding> findings = new ArrayList<>();
    private final List<NotChecked> notChecked = new ArrayList<>();

    /** Adds a finding. */
    public void add(Finding finding) {
        findings.add(finding);
    }

    /** Says that something was not checked, and what would be needed; the same line twice counts once. */
    public void notChecked(String what, String why) {
        NotChecked row = new NotChecked(what, why);
        if (!notChecked.contains(row)) {
            notChecked.add(row);
        }
    }

    /** What was found so far. */
    public List<Finding> findings() {
        return List.copyOf(findings);
    }

    /** What was not checked. */
    public List<NotChecked> notChecked() {
        return List.copyOf(notChecked);
    }
}
