package foilproof.app.cli;

import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Progress;
import foilproof.report.StudyJson;
import foilproof.source.InputException;
import foilproof.study.Study;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code study JOB}: Z window per tool run, tool swaps, spreads with odds. */
final class StudyCommand implements Command {
    /** Share of the whole that the run of the job as it is takes, for the progress bar. */
    private static final double BASE_SHARE = 0.2;

    @Override
    public CommandSpec spec() {
        CommandSpec spec =
                Specs.command("study", "Z window per tool run, tool swaps, other blanks, spreads with odds.");
        JobOptions.addTo(spec, true);
        spec.addOption(Specs.flag("--json", "Prints the study as JSON to standard output."));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException {
        DryRunResult base;
        Study study;
        try (ProgressLine bar = new ProgressLine(console, true)) {
            Progress first = (what, fraction) -> {
                bar.at(what, fraction * BASE_SHARE);
                return true;
            };
            int threads = Runtime.getRuntime().availableProcessors();
            ExamineOptions options = new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, threads, first);
            base = DryRun.run(JobOptions.source(given), JobOptions.readOptions(given), options);
            study = Study.of(base.examination(), base.document().findings(), (what, fraction) -> {
                bar.at(what, BASE_SHARE + fraction * (1 - BASE_SHARE));
                return true;
            });
        }
        if (given.hasMatchedOption("--json")) {
            console.out().print(StudyJson.write(base.document(), study));
        } else {
            new StudyText(console.out()).print(base.document(), study);
        }
        return ExitCode.FINE;
    }
}
