package foilproof.study;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What differs between the findings of the job as it is and of the job with something changed, notes left out.
 *
 * @param what what was changed, in words
 * @param appeared findings that are new, counted by kind and severity
 * @param gone findings that went, counted by kind and severity
 * @param first the new finding that happens first, or null where none has a moment
 */
public record Change(
        String what,
        List<Count> appeared,
        List<Count> gone,
        @Nullable Finding first) {
    /** Copies the lists. */
    public Change {
        appeared = List.copyOf(appeared);
        gone = List.copyOf(gone);
    }

    /**
     * Findings of one kind and severity.
     *
     * @param kind the kind
     * @param severity the severity
     * @param count how many more there are than in the other job
     */
    public record Count(String kind, Severity severity, int count) {}

    /** The worst severity of what appeared; null where nothing did. */
    public @Nullable Severity worst() {
        Severity worst = null;
        for (Count count : appeared) {
            if (worst == null || count.severity().atLeast(worst)) {
                worst = count.severity();
            }
        }
        return worst;
    }

    /** Whether nothing at fix or stop appeared: only eyes would catch the change. */
    public boolean onlyEyes() {
        Severity worst = worst();
        return worst == null || !worst.atLeast(Severity.FIX);
    }

    /** The difference of two lists of findings, folded ones counted too. */
    static Change between(String what, List<Finding> base, List<Finding> changed) {
        Map<String, Integer> before = count(base, new LinkedHashMap<>());
        Map<String, Integer> after = count(changed, new LinkedHashMap<>());
        List<Count> appeared = surplus(after, before);
        Finding first = null;
        for (Finding finding : changed) {
            boolean isNew = appeared.stream()
                    .anyMatch(c -> c.kind().equals(finding.kind()) && c.severity() == finding.severity());
            if (isNew && finding.timeS() != null && (first == null || earlier(finding, first))) {
                first = finding;
            }
        }
        return new Change(what, appeared, surplus(before, after), first);
    }

    private static boolean earlier(Finding a, Finding b) {
        return a.timeS() != null && b.timeS() != null && a.timeS() < b.timeS();
    }

    private static Map<String, Integer> count(List<Finding> findings, Map<String, Integer> into) {
        for (Finding finding : findings) {
            if (finding.severity() != Severity.NOTE) {
                into.merge(finding.severity().name() + " " + finding.kind(), 1, Integer::sum);
            }
            count(finding.consequences(), into);
        }
        return into;
    }

    private static List<Count> surplus(Map<String, Integer> more, Map<String, Integer> fewer) {
        List<Count> out = new ArrayList<>();
        more.forEach((key, count) -> {
            int surplus = count - fewer.getOrDefault(key, 0);
            if (surplus > 0) {
                int space = key.indexOf(' ');
                out.add(new Count(key.substring(space + 1), Severity.valueOf(key.substring(0, space)), surplus));
            }
        });
        out.sort((a, b) -> a.severity() != b.severity()
                ? a.severity().compareTo(b.severity())
                : a.kind().compareTo(b.kind()));
        return out;
    }
}
