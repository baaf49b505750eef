package foilproof.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.findings.Certainty;
import foilproof.findings.Finding;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import foilproof.report.ReportExtras;
import foilproof.report.ResultDocument;
import foilproof.report.ResultJson;
import foilproof.report.Verdict;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class CommandLineAppTest {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();

    @TempDir
    Path folder;

    private Path program;

    @BeforeEach
    void writeAProgram() throws Exception {
        program = Files.writeString(folder.resolve("a.ngc"), "G21 G90\nM2\n");
    }

    @Test
    void shouldTellTheCommandsAndEndWellWhenAskedForHelp() {
        assertThat(run("--help")).isEqualTo(0);
        assertThat(out()).contains(Commands.NAMES.toArray(String[]::new));
        for (String name : Commands.NAMES) {
            out.reset();
            assertThat(run(name, "--help")).as(name).isEqualTo(0);
            assertThat(out()).as(name).contains("Usage: " + name).contains("--help");
        }
        assertThat(err()).isEmpty();
    }

    @Test
    void shouldRefuseUnknownCommandsAndOptionsWithTheNearestWordAndNoStackTrace() {
        assertThat(run("dryrum")).isEqualTo(2);
        assertThat(err()).contains("Nearest: dryrun.");
        err.reset();
        assertThat(run("dryrun", "--jsn", program.toString())).isEqualTo(2);
        assertThat(err()).contains("Nearest: --json.").doesNotContain("\tat ");
        err.reset();
        assertThat(run("dryrun")).isEqualTo(2);
        assertThat(err()).contains("JOB").doesNotContain("\tat ");
        assertThat(out()).isEmpty();
    }

    @Test
    void shouldRefuseBadInputWithCodeTwoAndAPlace() {
        for (String[] args : List.of(
                new String[] {"dryrun", folder.resolve("none.toml").toString()},
                new String[] {"dryrun", folder.toString()},
                new String[] {"dryrun", program.toString(), "--cell", "5"},
                new String[] {"dryrun", program.toString(), "--cell", "5 m"},
                new String[] {"dryrun", program.toString(), "--fail-on", "fixx"},
                new String[] {"dryrun", program.toString(), "--threads", "0"},
                new String[] {"dryrun", program.toString(), "--shop", "none.toml"},
                new String[] {"dryrun", program.toString(), "\u0000"},
                new String[] {"picture", program.toString()},
                new String[] {"picture", program.toString(), "-o", "a.png", "--size", "0x0"},
                new String[] {"picture", program.toString(), "-o", "a.png", "--view", "topp"},
                new String[] {"picture", program.toString(), "-o", "a.png", "--at", "1:2:3:4"},
                new String[] {"explain", "hairr"})) {
            err.reset();
            assertThat(run(args)).as(Arrays.toString(args)).isEqualTo(2);
            assertThat(err())
                    .as(Arrays.toString(args))
                    .isNotBlank()
                    .doesNotContain("\tat ")
                    .doesNotContain("Exception");
        }
        assertThat(out()).isEmpty();
    }

    @Test
    void shouldExplainEveryKindAndGuessMistypedOnes() {
        assertThat(run("explain")).isEqualTo(0);
        assertThat(out()).contains("foil-left: ");
        for (String kind : foilproof.findings.Kinds.ALL) {
            out.reset();
            assertThat(run("explain", kind)).isEqualTo(0);
            assertThat(out()).contains("What it means", "Why it matters", "What to do", "Limits");
        }
        assertThat(run("explain", "foil-lef")).isEqualTo(2);
        assertThat(err()).contains("Nearest valid word: foil-left.");
    }

    @Test
    void shouldPrintNothingButTheResultWithJson() throws Exception {
        DryRunCommand command = new DryRunCommand((source, options, settings, progress) -> {
            progress.at("sweeping", 0.5);
            return new DryRunner.Outcome(result(Severity.WATCH), ReportExtras.NONE);
        });
        assertThat(run(command, program.toString(), "--json")).isEqualTo(0);
        assertThat(out()).isEqualTo(ResultJson.write(result(Severity.WATCH)));
        assertThat(err()).isEmpty();
    }

    @Test
    void shouldFailFromTheAskedSeverityOn() throws Exception {
        for (Severity worst : Severity.values()) {
            DryRunCommand command = new DryRunCommand(
                    (source, options, settings, progress) -> new DryRunner.Outcome(result(worst), ReportExtras.NONE));
            for (Severity failOn : List.of(Severity.STOP, Severity.FIX, Severity.WATCH)) {
                int expected = worst.atLeast(failOn) ? 1 : 0;
                assertThat(run(command, program.toString(), "--fail-on", failOn.word()))
                        .isEqualTo(expected);
            }
            assertThat(run(command, program.toString())).isEqualTo(worst.atLeast(Severity.FIX) ? 1 : 0);
        }
    }

    @Test
    void shouldShowTheZWindowBeforeAnyListAndAlwaysWhatWasNotChecked() throws Exception {
        DryRunCommand command = new DryRunCommand((source, options, settings, progress) ->
                new DryRunner.Outcome(result(Severity.FIX), ReportExtras.NONE));
        run(command, program.toString(), "--out", folder.resolve("report").toString());
        assertThat(out()).startsWith("Sample: FIX.");
        assertThat(out().indexOf("-0.077 to +0.050 mm")).isBetween(0, out().indexOf("Findings, worst first"));
        assertThat(out()).contains("opens and shorts: no netlist").contains("do: Flatten it.");
        assertThat(folder.resolve("report/report.html")).exists();
    }

    @Test
    void shouldPassSettingsAndReadOptionsOn() throws Exception {
        List<Object> seen = new ArrayList<>();
        DryRunCommand command = new DryRunCommand((source, options, settings, progress) -> {
            seen.add(options.settings());
            seen.add(options.allowOutside());
            seen.add(settings.cellMm());
            seen.add(settings.threads());
            seen.add(source.file());
            return new DryRunner.Outcome(result(Severity.NOTE), ReportExtras.NONE);
        });
        run(
                command,
                program.toString(),
                "--set",
                "bow=\"0.08 mm\"",
                "--set",
                "a=b=c",
                "--cell",
                "5 um",
                "--threads",
                "1",
                "--allow-outside",
                "--no-shop");
        assertThat(seen).containsExactly(List.of("bow=\"0.08 mm\"", "a=b=c"), true, 0.005, 1, "a.ngc");
    }

    @Test
    void shouldTurnAFaultOfOursIntoOneSentenceAndCodeThree() {
        DryRunCommand command = new DryRunCommand((source, options, settings, progress) -> {
            throw new IllegalStateException("tile 7 is gone");
        });
        assertThat(runGuarded(command, program.toString())).isEqualTo(3);
        assertThat(err()).contains("A fault of ours").contains("tile 7 is gone").doesNotContain("\tat ");
        assertThat(err().lines()).hasSize(1);
    }

    @Test
    void shouldShowEveryDiagnosticOfAJobThatCannotRun() {
        List<Diagnostic> many = new ArrayList<>();
        for (int i = 1; i <= 30; i++) {
            many.add(Diagnostic.of(SourceSpan.ofLine("job.toml", i), "unknown-key", "Unknown key."));
        }
        DryRunCommand command = new DryRunCommand((source, options, settings, progress) -> {
            throw new InputException(many);
        });
        assertThat(runGuarded(command, program.toString())).isEqualTo(2);
        assertThat(err()).contains("job.toml:1: Unknown key.").contains("... and 10 more.");
    }

    @Test
    void shouldReadMomentsInSecondsAndMinutes() throws Exception {
        assertThat(PictureCommand.momentS("12.5")).isEqualTo(12.5);
        assertThat(PictureCommand.momentS("2:05")).isEqualTo(125);
        assertThat(PictureCommand.momentS("1:02:03.5 s")).isEqualTo(3723.5);
        assertThat(PictureCommand.momentS(null)).isNull();
    }

    private int run(String... args) {
        Console console = console();
        int code = new CommandLineApp(console).run(args);
        console.flush();
        return code;
    }

    private int run(DryRunCommand command, String... args) throws Exception {
        out.reset();
        Console console = console();
        int code = command.run(new CommandLine(command.spec()).parseArgs(args), console);
        console.flush();
        return code;
    }

    private int runGuarded(Command command, String... args) {
        Console console = console();
        int code = new CommandLineApp(console).guarded(command, args);
        console.flush();
        return code;
    }

    private Console console() {
        return new Console(
                new PrintStream(out, false, StandardCharsets.UTF_8),
                new PrintStream(err, false, StandardCharsets.UTF_8),
                false);
    }

    private String out() {
        return out.toString(StandardCharsets.UTF_8);
    }

    private String err() {
        return err.toString(StandardCharsets.UTF_8);
    }

    private static ResultDocument result(Severity severity) {
        List<Finding> findings = List.of(Finding.of("foil-left", severity, Certainty.GEOMETRY)
                .says("Foil left along 4.0 mm of groove.")
                .doThis("Flatten it.")
                .side(1)
                .at(3, 4)
                .line("a.ngc", 12)
                .build());
        return new ResultDocument(
                "Sample",
                Verdict.of(findings),
                10,
                List.of(),
                List.of(),
                List.of(),
                List.of(new ResultDocument.ZWindow(
                        "engraver",
                        1,
                        1,
                        false,
                        -0.0776,
                        0.05,
                        0.001,
                        null,
                        null,
                        new ResultDocument.LimitedBy("foil-left", null),
                        null,
                        new double[] {-0.05, 0.03},
                        0.02,
                        null)),
                null,
                findings,
                List.of(new NotChecked("opens and shorts", "no netlist or layer image given")),
                List.of(),
                new ResultDocument.Removed(0, 0, 0),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                new ResultDocument.TimeFacts(10, 5, 1, 0));
    }
}
