package foilproof.app.cli;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.geom.Quantity;
import foilproof.geom.QuantityFormatException;
import foilproof.report.ReportFiles;
import foilproof.report.ResultJson;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code dryrun JOB}: runs the job; prints the verdict, Z window, findings. */
final class DryRunCommand implements Command {
    private static final double DEFAULT_CELL_MM = 0.010;
    private static final double LEAST_CELL_MM = 0.001;
    private static final double MOST_CELL_MM = 0.1;
    private static final List<String> FAIL_ON = List.of("stop", "fix", "watch");

    private final DryRunner runner;

    DryRunCommand() {
        this(DryRunner.engine());
    }

    DryRunCommand(DryRunner runner) {
        this.runner = runner;
    }

    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command("dryrun", "Runs the job; prints the verdict, Z window and findings.");
        JobOptions.addTo(spec, true);
        spec.addOption(Specs.value(
                "DIR",
                "Writes result.json, findings.sarif, report.html and pictures into this folder.",
                "--out",
                "-o"));
        spec.addOption(Specs.value(
                "FILE",
                "Tells what changed since an earlier result.json: inputs, findings, Z windows, tools, times.",
                "--against"));
        spec.addOption(Specs.value(
                "FILE:LINE",
                "Adds a restart card: state, place and way to take this program up again at that line.",
                "--restart"));
        spec.addOption(Specs.flag(
                "--fresh-blank", "With --restart: the lines before have not run on the blank that lies there."));
        spec.addOption(Specs.flag("--json", "Prints result.json alone to standard output."));
        spec.addOption(Specs.value(
                "SEVERITY", "Exit code 1 from this severity on: stop, fix (the default) or watch.", "--fail-on"));
        spec.addOption(Specs.value("LENGTH", "Edge of the grid's cells, 1 to 100 um; 10 um unless said.", "--cell"));
        spec.addOption(Specs.value(
                "N", "Worker threads; all processors unless said. The result does not depend on it.", "--threads"));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        Severity failOn = failOn(given.matchedOptionValue("--fail-on", "fix"));
        String out = given.matchedOptionValue("--out", null);
        Path folder = out == null ? null : JobOptions.path(out);
        boolean json = given.hasMatchedOption("--json");
        DryRunner.Settings settings =
                new DryRunner.Settings(cellMm(given), threads(given), folder != null, RestartOption.of(given));
        DryRunner.Outcome outcome;
        try (ProgressLine progress = new ProgressLine(console, true)) {
            outcome = runner.run(JobOptions.source(given), JobOptions.readOptions(given), settings, progress)
                    .against(AgainstOption.text(given));
            if (folder != null) {
                progress.at("writing the report", 0.98);
                ReportFiles.write(folder, outcome.result(), outcome.extras());
            }
        }
        if (json) {
            console.out().print(ResultJson.write(outcome.result()));
        } else {
            new ResultText(console.out()).print(outcome.result());
            if (folder != null) {
                console.out().println();
                console.out()
                        .println("Written to " + folder + ": result.json, findings.sarif, report.html and pictures.");
            }
        }
        return reaches(outcome.result().standing(), failOn) ? ExitCode.FINDINGS : ExitCode.FINE;
    }

    /** Whether any finding, folded ones included, is as bad as {@code severity}. */
    static boolean reaches(List<Finding> findings, Severity severity) {
        for (Finding finding : findings) {
            if (finding.severity().atLeast(severity) || reaches(finding.consequences(), severity)) {
                return true;
            }
        }
        return false;
    }

    private static Severity failOn(String word) throws InputException {
        return switch (word) {
            case "stop" -> Severity.STOP;
            case "fix" -> Severity.FIX;
            case "watch" -> Severity.WATCH;
            default ->
                throw option("--fail-on", "\"" + word + "\" is no severity to fail on.", "Expected stop, fix or watch.")
                        .apply(Spelling.nearest(word, FAIL_ON));
        };
    }

    private static double cellMm(ParseResult given) throws InputException {
        String text = given.matchedOptionValue("--cell", null);
        if (text == null) {
            return DEFAULT_CELL_MM;
        }
        String expected = "Expected a length from 1 um to 100 um with its unit, e.g. \"5 um\".";
        try {
            double cellMm = Quantity.parseLengthMm(text);
            if (cellMm >= LEAST_CELL_MM && cellMm <= MOST_CELL_MM) {
                return cellMm;
            }
        } catch (QuantityFormatException e) {
            throw option("--cell", "\"" + text + "\": " + e.getMessage() + ".", expected)
                    .apply(null);
        }
        throw option("--cell", "\"" + text + "\" is out of range.", expected).apply(null);
    }

    private static int threads(ParseResult given) throws InputException {
        String text = given.matchedOptionValue("--threads", null);
        if (text == null) {
            return Runtime.getRuntime().availableProcessors();
        }
        try {
            int threads = Integer.parseInt(text);
            if (threads >= 1 && threads <= 256) {
                return threads;
            }
        } catch (NumberFormatException e) {
            // told below, like every other wrong number
        }
        throw option("--threads", "\"" + text + "\" is no number of threads.", "Expected 1 to 256.")
                .apply(null);
    }

    private interface Near {
        InputException apply(@org.jspecify.annotations.Nullable String nearest);
    }

    private static Near option(String option, String message, String expected) {
        return nearest -> new InputException(Diagnostic.of(SourceSpan.ofFile(option), "bad-option", message)
                .expecting(expected)
                .near(nearest));
    }
}
