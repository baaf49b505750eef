package foilproof.report;

import foilproof.bench.Acceptance;
import foilproof.findings.Finding;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What belongs to an approval beside the findings: what a person accepted, what of it is void, and what changed since an
 * earlier result.
 *
 * @param inputsHash hash over all inputs and settings, to which acceptances are bound; empty where it is not known
 * @param accepted findings that were accepted for these very inputs
 * @param expired acceptances that hold no longer, with the reason
 * @param remains what remains where a cause is assumed mended
 * @param against what changed since an earlier result, or null where none was named
 */
public record Approval(
        String inputsHash,
        List<Accepted> accepted,
        List<Expired> expired,
        List<Remains> remains,
        @Nullable Comparison against) {
    /** Nothing accepted, nothing compared. */
    public static final Approval NONE = new Approval("", List.of(), List.of(), List.of(), null);

    /** Copies the lists. */
    public Approval {
        accepted = List.copyOf(accepted);
        expired = List.copyOf(expired);
        remains = List.copyOf(remains);
    }

    /**
     * An accepted finding: it stays listed and counts neither towards the verdict nor the exit code.
     *
     * @param finding its number in the list of findings, from 1
     * @param reason why, in the words of who accepted it
     */
    public record Accepted(int finding, String reason) {}

    /**
     * An acceptance that is void.
     *
     * @param acceptance as it was made
     * @param why e.g. {@code the inputs changed}
     */
    public record Expired(Acceptance acceptance, String why) {}

    /**
     * What is found where a cause is assumed mended; the cause itself stands, and so does the verdict.
     *
     * @param finding number of the cause in the list of findings, from 1
     * @param assuming what was assumed, in words
     * @param verdict what the remaining findings say together
     * @param findings what remains, worst first
     */
    public record Remains(int finding, String assuming, Verdict verdict, List<Finding> findings) {
        /** Copies the list. */
        public Remains {
            findings = List.copyOf(findings);
        }
    }

    /** The reason for which a finding, by its number from 1, was accepted; null where it was not. */
    public @Nullable String reasonFor(int finding) {
        for (Accepted one : accepted) {
            if (one.finding() == finding) {
                return one.reason();
            }
        }
        return null;
    }

    /** The same with another comparison. */
    public Approval against(@Nullable Comparison comparison) {
        return new Approval(inputsHash, accepted, expired, remains, comparison);
    }

    /** What remains under the assumption that this finding, by its number from 1, is mended; null where not asked. */
    public @Nullable Remains remainsOf(int finding) {
        for (Remains one : remains) {
            if (one.finding() == finding) {
                return one;
            }
        }
        return null;
    }
}
