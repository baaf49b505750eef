package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What the checks said of a job, with assertions that read as sentences. */
public final class Verdicts {
    private final Catalogue.Outcome outcome;
    private final Map<String, String> programs;

    Verdicts(Catalogue.Outcome outcome, Map<String, String> programs) {
        this.outcome = outcome;
        this.programs = programs;
    }

    /** All findings, consequences folded. */
    public List<Finding> findings() {
        return outcome.findings();
    }

    /** What was not checked. */
    public List<NotChecked> notChecked() {
        return outcome.notChecked();
    }

    /** Asserts that exactly one finding of this kind and severity stands, and returns it. */
    public Raised raises(String kind, Severity severity, Certainty certainty) {
        List<Finding> found = findings().stream()
                .filter(f -> f.kind().equals(kind) && f.severity() == severity)
                .collect(Collectors.toList());
        assertThat(found).as("%s at %s among\n%s", kind, severity, this).hasSize(1);
        assertThat(found.get(0).certainty()).as("certainty of\n%s", this).isEqualTo(certainty);
        return new Raised(found.get(0), programs);
    }

    /** Asserts that exactly one finding of a kind is folded under the one of its cause and none stands alone; returns it. */
    public Raised folds(String cause, String kind) {
        List<Finding> under = findings().stream()
                .filter(f -> f.kind().equals(cause))
                .flatMap(f -> f.consequences().stream())
                .filter(f -> f.kind().equals(kind))
                .collect(Collectors.toList());
        assertThat(under).as("%s under %s among\n%s", kind, cause, this).hasSize(1);
        isSilentOn(cause.equals(kind) ? "" : kind);
        return new Raised(under.get(0), programs);
    }

    /** Asserts that no finding of this kind stands. */
    public Verdicts isSilentOn(String kind) {
        assertThat(findings().stream().map(Finding::kind))
                .as("findings\n%s", this)
                .doesNotContain(kind);
        return this;
    }

    /** Asserts that no finding of this kind stands above a severity. */
    public Verdicts raisesNothingAbove(Severity severity, String kind) {
        assertThat(findings().stream()
                        .filter(f -> f.kind().equals(kind) && f.severity().compareTo(severity) < 0))
                .as("findings\n%s", this)
                .isEmpty();
        return this;
    }

    /** Asserts that nothing above a note stands. */
    public Verdicts raisesNothingAboveANote() {
        assertThat(findings().stream().filter(f -> f.severity() != Severity.NOTE))
                .as("findings\n%s", this)
                .isEmpty();
        return this;
    }

    @Override
    public String toString() {
        return findings().stream()
                .map(f ->
                        f.severity() + " " + f.certainty() + " " + f.kind() + " line " + f.line() + ": " + f.message())
                .collect(Collectors.joining("\n"));
    }
}
