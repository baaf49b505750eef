package foilproof.dryrun;

import foilproof.bench.Acceptance;
import foilproof.bench.AcceptedFile;
import foilproof.bench.Job;
import foilproof.bench.JobSource;
import foilproof.bench.XyMm;
import foilproof.findings.Finding;
import foilproof.report.Approval;
import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Findings that a person accepted for a reason, stored beside the job in {@code accepted.toml}. An acceptance holds for
 * one finding and for the very bytes of all inputs and settings: a change of any of them voids it, and that is told.
 * Accepted findings stay listed; they count neither towards the verdict nor the exit code.
 */
public final class Acceptances {
    private static final double SAME_PLACE_MM = 0.01;

    private final String inputs;
    private final List<Acceptance> all;

    private Acceptances(String inputs, List<Acceptance> all) {
        this.inputs = inputs;
        this.all = List.copyOf(all);
    }

    /**
     * What is accepted beside a job.
     *
     * @param settings {@code KEY=VALUE} of the command line with which the job was read
     * @throws InputException where {@code accepted.toml} is there and wrong
     */
    public static Acceptances of(JobSource source, Job job, List<String> settings) throws InputException {
        return new Acceptances(AcceptedFile.hashOf(job.inputs(), settings), AcceptedFile.read(source.files()));
    }

    /** The hash over all inputs to which new acceptances are bound. */
    public String inputsHash() {
        return inputs;
    }

    /** Every acceptance, in the order of the file, void ones included. */
    public List<Acceptance> all() {
        return all;
    }

    /**
     * The same with one finding accepted; an earlier acceptance of the same finding is replaced. Void ones are dropped.
     *
     * @param reason why; must say something
     * @throws IllegalArgumentException where the reason is blank
     */
    public Acceptances accepting(Finding finding, String reason) {
        String why = reason.strip();
        if (why.isEmpty()) {
            throw new IllegalArgumentException("a finding is accepted for a reason");
        }
        List<Acceptance> next = new ArrayList<>();
        for (Acceptance one : all) {
            if (one.inputs().equals(inputs) && !means(one, finding)) {
                next.add(one);
            }
        }
        double[] at = place(finding);
        next.add(new Acceptance(
                finding.kind(),
                finding.severity().word(),
                finding.program(),
                finding.line(),
                finding.side(),
                at == null ? null : new XyMm(at[0], at[1]),
                why,
                inputs));
        return new Acceptances(inputs, next);
    }

    /** The same with a finding accepted no longer. */
    public Acceptances withdrawing(Finding finding) {
        List<Acceptance> next = new ArrayList<>(all);
        next.removeIf(one -> means(one, finding));
        return new Acceptances(inputs, next);
    }

    /** The text of {@code accepted.toml}. */
    public String toml() {
        return AcceptedFile.write(all);
    }

    /** What of it holds for these findings, and what is void. */
    public Approval approval(List<Finding> findings) {
        List<Approval.Accepted> accepted = new ArrayList<>();
        List<Approval.Expired> expired = new ArrayList<>();
        for (Acceptance one : all) {
            int found = -1;
            for (int i = 0; i < findings.size() && found < 0; i++) {
                found = means(one, findings.get(i)) ? i : -1;
            }
            if (!one.inputs().equals(inputs)) {
                expired.add(new Approval.Expired(one, "an input changed since it was accepted"));
            } else if (found < 0) {
                expired.add(new Approval.Expired(one, "no such finding is raised any more"));
            } else {
                accepted.add(new Approval.Accepted(found + 1, one.reason()));
            }
        }
        return new Approval(inputs, accepted, expired, List.of(), null);
    }

    private static boolean means(Acceptance one, Finding finding) {
        double[] at = place(finding);
        XyMm there = one.atMm();
        boolean placed = at == null
                ? there == null
                : there != null
                        && Math.abs(at[0] - there.xMm()) <= SAME_PLACE_MM
                        && Math.abs(at[1] - there.yMm()) <= SAME_PLACE_MM;
        return placed
                && one.kind().equals(finding.kind())
                && one.severity().equals(finding.severity().word())
                && Objects.equals(one.program(), finding.program())
                && Objects.equals(one.line(), finding.line())
                && Objects.equals(one.side(), finding.side());
    }

    private static double @Nullable [] place(Finding finding) {
        double[] at = finding.atMm();
        return at != null && Double.isFinite(at[0]) && Double.isFinite(at[1]) ? at : null;
    }
}
