package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.DiskFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import foilproof.findings.Wording;
import foilproof.report.ResultDocument;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Runs the sample jobs and holds them to their {@code expected.toml}: kind, severity, line, place, value, silence. */
class SampleDryRunTest {
    /** Coarse, so that the suite stays quick: places and lines do not depend on it, interpolated values hardly. */
    private static final double CELL_MM = 0.05;

    private static final double PLACE_WITHIN_MM = 1;

    @TestFactory
    Stream<DynamicTest> shouldRaiseWhatTheTableSaysAndNothingElse() {
        return SampleJob.all().stream().map(job -> DynamicTest.dynamicTest(job.folder(), () -> hold(job.folder())));
    }

    private static void hold(String folder) throws Exception {
        Path path = SampleJobsTest.SAMPLES.resolve(folder);
        ExpectedFindings expected = ExpectedFindings.read(path.resolve("expected.toml"));
        ResultDocument result = DryRun.run(
                        DiskFiles.source(path), ReadOptions.DEFAULT, new ExamineOptions(CELL_MM, 1, Progress.NONE))
                .document();
        Wording.holds(result.findings());
        List<Finding> all = new ArrayList<>();
        result.findings().forEach(f -> flatten(f, all));
        for (ExpectedFindings.Row row : expected.rows()) {
            if (!row.coming()) {
                assertThat(all).as(folder + ": " + row.needs() + " " + row).anyMatch(f -> matches(f, row));
            }
        }
        for (Finding finding : result.findings()) {
            boolean wanted = expected.rows().stream().anyMatch(r -> r.kind().equals(finding.kind()));
            String shown = folder + ": " + finding.kind() + " " + finding.program() + ":" + finding.line() + " "
                    + finding.message();
            if (!wanted && expected.othersAtMost() != null) {
                assertThat(finding.severity().atLeast(worseThan(expected.othersAtMost())))
                        .as(shown)
                        .isFalse();
            }
            if (expected.silent().contains(finding.kind())) {
                assertThat(finding.severity()).as(shown).isEqualTo(Severity.NOTE);
            }
        }
        assertThat(result.verdict().word()).isEqualTo(expected.verdict());
        holdNumbers(folder, expected, result);
    }

    private static void holdNumbers(String folder, ExpectedFindings expected, ResultDocument result) {
        for (ExpectedFindings.Window window : expected.windows()) {
            assertThat(result.zWindows())
                    .as(folder + ": " + window)
                    .filteredOn(w -> w.tool().equals(window.tool()) && w.side() == window.side())
                    .singleElement()
                    .satisfies(w -> {
                        // Printed inward to 1 um, as the contract of the result says.
                        assertThat(Math.ceil(w.fromMm() * 1000 - 1e-6) / 1000).isCloseTo(window.fromMm(), within(1e-9));
                        assertThat(Math.floor(w.toMm() * 1000 + 1e-6) / 1000).isCloseTo(window.toMm(), within(1e-9));
                        assertThat(w.limitedFrom().kind()).isEqualTo(window.limitedFrom());
                        assertThat(w.limitedTo().kind()).isEqualTo(window.limitedTo());
                        assertThat(w.marginMm()).isCloseTo(window.marginMm(), within(0.001));
                    });
        }
        for (ExpectedFindings.Holes holes : expected.holes()) {
            assertThat(result.holes()).hasSize(holes.count()).allSatisfy(hole -> {
                assertThat(hole.entryMm()).isCloseTo(holes.entryMm(), within(holes.withinMm()));
                assertThat(hole.exitMm()).isCloseTo(holes.exitMm(), within(holes.withinMm()));
                assertThat(hole.through()).isEqualTo(holes.through());
            });
        }
    }

    private static void flatten(Finding finding, List<Finding> into) {
        into.add(finding);
        finding.consequences().forEach(f -> flatten(f, into));
    }

    private static Severity worseThan(String word) {
        Severity at = Severity.valueOf(word.toUpperCase(java.util.Locale.ROOT));
        return Severity.values()[at.ordinal() - 1];
    }

    private static boolean matches(Finding f, ExpectedFindings.Row row) {
        boolean place = row.atMm() == null
                || f.atMm() != null
                        && Math.hypot(f.atMm()[0] - row.atMm()[0], f.atMm()[1] - row.atMm()[1]) <= PLACE_WITHIN_MM;
        boolean value = row.measured().isEmpty()
                || f.measured() != null
                        && Math.abs(f.measured().value() - row.measured().getAsDouble()) <= row.within();
        return f.kind().equals(row.kind())
                && f.severity().word().equals(row.severity())
                && (row.program() == null || row.program().equals(f.program()))
                && (row.line().isEmpty()
                        || Integer.valueOf(row.line().getAsInt()).equals(f.line()))
                && (row.side().isEmpty()
                        || Integer.valueOf(row.side().getAsInt()).equals(f.side()))
                && row.says().stream().allMatch(f.message()::contains)
                && place
                && value;
    }
}
