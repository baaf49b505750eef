package foilproof.dryrun;

import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.findings.Catalogue;
import foilproof.findings.Examination;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.ReadDesign;
import foilproof.findings.RestartCard;
import foilproof.report.Approval;
import foilproof.report.ResultDocument;
import foilproof.source.InputException;
import foilproof.stock.Memo;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The face of the engine: one call runs a job and returns an immutable result. The result depends on the inputs and
 * the cell alone, not on threads, time, locale or machine.
 */
public final class DryRun {
    /** Memory for what the parts of one run share (another foil, another tip, a cause assumed mended), bytes. */
    private static final long OWN_MEMO_BYTES = 256L << 20;

    private DryRun() {}

    /**
     * Reads and runs a job.
     *
     * @throws InputException where the job cannot be run at all, with every problem at its place
     * @throws java.util.concurrent.CancellationException where the progress cancels
     */
    public static DryRunResult run(JobSource source, ReadOptions reading, ExamineOptions options)
            throws InputException {
        return run(source, reading, options, Catalogue.Told.NOBODY);
    }

    /**
     * Reads and runs a job.
     *
     * @param told told of findings before all checks are through
     * @throws InputException where the job cannot be run at all, with every problem at its place
     * @throws java.util.concurrent.CancellationException where the progress cancels
     */
    public static DryRunResult run(JobSource source, ReadOptions reading, ExamineOptions options, Catalogue.Told told)
            throws InputException {
        Job job = JobReader.read(source, reading);
        Acceptances acceptances = Acceptances.of(source, job, reading.settings());
        DryRunResult result = run(job, options, told);
        ResultDocument document = result.document();
        Approval approval = acceptances.approval(document.findings());
        return result.with(document.with(
                document.findings(),
                new Approval(
                        approval.inputsHash(),
                        approval.accepted(),
                        approval.expired(),
                        document.approval().remains(),
                        null)));
    }

    /**
     * Runs a job.
     *
     * @throws InputException where a design file cannot be read
     * @throws java.util.concurrent.CancellationException where the progress cancels
     */
    public static DryRunResult run(Job job, ExamineOptions options) throws InputException {
        return run(job, options, Catalogue.Told.NOBODY);
    }

    /**
     * Runs a job. A memo in the options is used and added to: a job that differs from an earlier one in some condition
     * takes from it what that condition leaves as it is, and gets the same bytes as without.
     *
     * @param told told of findings before all checks are through
     * @throws InputException where a design file cannot be read
     * @throws java.util.concurrent.CancellationException where the progress cancels
     */
    public static DryRunResult run(Job job, ExamineOptions options, Catalogue.Told told) throws InputException {
        ExamineOptions how = options.memo() == null ? options.with(new Memo(OWN_MEMO_BYTES)) : options;
        Examination examination = Examiner.examine(job, ReadDesign.of(how.memo(), job), how);
        Catalogue.Outcome outcome = Catalogue.judge(examination, told);
        Mended.Outcome mended = Mended.judge(examination, outcome.findings());
        Catalogue.Outcome layered = new Catalogue.Outcome(mended.findings(), outcome.notChecked());
        told.found(new Catalogue.Partial(layered.findings(), Set.of(), 0));
        ResultDocument document = Results.document(examination, layered);
        Approval approval = new Approval("", List.of(), List.of(), mended.remains(), null);
        return new DryRunResult(
                examination,
                layered,
                document.with(layered.findings(), approval).with(restart(examination)));
    }

    private static ResultDocument.@Nullable Restart restart(Examination examination) {
        RestartCard card = RestartCard.asked(examination);
        ExamineOptions.Restart asked = examination.options().restart();
        return card == null || asked == null
                ? null
                : new ResultDocument.Restart(
                        card.program(),
                        card.line(),
                        asked.freshBlank(),
                        card.tool(),
                        card.side(),
                        card.atMm(),
                        card.clearMm(),
                        card.steps(),
                        card.problems().stream().map(Finding::message).toList());
    }
}
