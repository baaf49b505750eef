package foilproof.app.cli;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.report.Approval;
import foilproof.report.BoardPictures;
import foilproof.report.Comparison;
import foilproof.report.ReportExtras;
import foilproof.report.ResultDocument;
import foilproof.source.InputException;
import org.jspecify.annotations.Nullable;

/** What the command line needs of the engine: one call that runs a job. */
@FunctionalInterface
interface DryRunner {
    /**
     * Runs a job.
     *
     * @throws InputException where the input cannot be run
     */
    Outcome run(JobSource source, ReadOptions options, Settings settings, ProgressLine progress) throws InputException;

    /**
     * How to run.
     *
     * @param cellMm edge of the grid's cells, mm
     * @param threads worker threads; the result does not depend on it
     * @param pictures whether pictures will be asked for
     * @param restart where a program is to be taken up again, or null
     */
    record Settings(double cellMm, int threads, boolean pictures, ExamineOptions.@Nullable Restart restart) {
        /** Without a restart. */
        Settings(double cellMm, int threads, boolean pictures) {
            this(cellMm, threads, pictures, null);
        }
    }

    /**
     * What came out.
     *
     * @param result the result
     * @param extras what a report shows beside it
     */
    record Outcome(ResultDocument result, ReportExtras extras) {
        /**
         * The same, held against the text of an earlier result; the same where there is none.
         *
         * @throws InputException where the text is no result
         */
        Outcome against(@Nullable String oldJson) throws InputException {
            if (oldJson == null) {
                return this;
            }
            try {
                Approval approval = result.approval().against(Comparison.of(oldJson, result));
                return new Outcome(result.with(result.findings(), approval), extras);
            } catch (IllegalArgumentException e) {
                throw AgainstOption.refused("The earlier result cannot be used: " + e.getMessage() + ".");
            }
        }
    }

    /** The engine. */
    static DryRunner engine() {
        return (source, options, settings, progress) -> {
            ExamineOptions how = new ExamineOptions(
                    settings.cellMm(),
                    settings.threads(),
                    (what, fraction) -> {
                        progress.at(what, fraction);
                        return true;
                    },
                    settings.restart());
            DryRunResult run = DryRun.run(source, options, how);
            ReportExtras extras = settings.pictures()
                    ? BoardPictures.of(run.examination(), run.document().findings())
                    : ReportExtras.NONE;
            return new Outcome(run.document(), extras);
        };
    }
}
