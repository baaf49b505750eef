package foilproof.dryrun;

import foilproof.findings.Catalogue;
import foilproof.findings.Examination;
import foilproof.report.ResultDocument;

/**
 * What one dry run gave. Immutable.
 *
 * @param examination the board, the motion and everything computed on the way, for pictures and questions
 * @param outcome findings and what was not checked
 * @param document the result as values, key by key as {@code result.json} has them
 */
public record DryRunResult(Examination examination, Catalogue.Outcome outcome, ResultDocument document) {
    /** The same with another document, e.g. one that was held against an earlier result. */
    public DryRunResult with(ResultDocument newDocument) {
        return new DryRunResult(examination, outcome, newDocument);
    }
}
