package foilproof.app.cli;

import foilproof.bench.AcceptedFile;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.Acceptances;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.report.ReportFiles;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code accept JOB --finding N --reason "..."}: stores beside the job that a person accepts a finding. */
final class AcceptCommand implements Command {
    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command(
                "accept", "Stores beside the job that you accept a finding, and why. Any change of an input voids it.");
        JobOptions.addTo(spec, true);
        spec.addOption(Specs.value("N", "Number of the finding as dryrun lists it, from 1.", "--finding"));
        spec.addOption(Specs.value("TEXT", "Why it is accepted.", "--reason"));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        String reason = given.matchedOptionValue("--reason", "").strip();
        String number = given.matchedOptionValue("--finding", "");
        if (reason.isEmpty()) {
            throw bad("--reason", "No reason is given.", "Expected --reason \"why it is accepted\".");
        }
        JobSource source = JobOptions.source(given);
        ReadOptions options = JobOptions.readOptions(given);
        Job job = JobReader.read(source, options);
        DryRunResult run;
        try (ProgressLine progress = new ProgressLine(console, true)) {
            int threads = Runtime.getRuntime().availableProcessors();
            run = DryRun.run(
                    source, options, new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, threads, (what, fraction) -> {
                        progress.at(what, fraction);
                        return true;
                    }));
        }
        Finding finding = finding(run.document().findings(), number);
        Acceptances next = Acceptances.of(source, job, options.settings()).accepting(finding, reason);
        Path folder = folder(given);
        ReportFiles.put(folder.resolve(AcceptedFile.NAME), next.toml().getBytes(StandardCharsets.UTF_8));
        console.out()
                .println("Accepted: " + finding.severity().word() + " " + finding.kind() + ": " + finding.message());
        console.out().println("Reason: " + reason);
        console.out().println("Stored in " + AcceptedFile.NAME + " beside the job; void when any input changes.");
        return ExitCode.FINE;
    }

    private static Finding finding(List<Finding> findings, String number) throws InputException {
        try {
            int n = Integer.parseInt(number);
            if (n >= 1 && n <= findings.size()) {
                return findings.get(n - 1);
            }
        } catch (NumberFormatException e) {
            // told below, like every other wrong number
        }
        throw bad(
                "--finding",
                "\"" + number + "\" is no number of a finding.",
                findings.isEmpty() ? "This job has no findings." : "Expected 1 to " + findings.size() + ".");
    }

    private static Path folder(ParseResult given) throws InputException {
        Path path = JobOptions.path(given.matchedPositionalValue(0, "")).toAbsolutePath();
        Path parent = path.getParent();
        return Files.isDirectory(path) || parent == null ? path : parent;
    }

    private static InputException bad(String option, String message, String expected) {
        return new InputException(
                Diagnostic.of(SourceSpan.ofFile(option), "bad-option", message).expecting(expected));
    }
}
