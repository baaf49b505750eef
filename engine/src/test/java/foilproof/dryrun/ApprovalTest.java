package foilproof.dryrun;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import foilproof.bench.DiskFiles;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import foilproof.report.Approval;
import foilproof.report.Comparison;
import foilproof.report.ResultDocument;
import foilproof.report.ResultJson;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Needs section 1, P3: approval is void when any byte changes; what changed is told; accepted findings stay listed. */
class ApprovalTest {
    private static final Path SAMPLES = Path.of("..", "sample-jobs");

    @TempDir
    Path folder;

    private ResultDocument run() throws Exception {
        return DryRun.run(DiskFiles.source(folder), ReadOptions.DEFAULT, new ExamineOptions(0.05, 1, Progress.NONE))
                .document();
    }

    private void copy(String sample) throws IOException {
        try (Stream<Path> files = Files.list(SAMPLES.resolve(sample))) {
            for (Path file : (Iterable<Path>) files::iterator) {
                Files.copy(file, folder.resolve(file.getFileName()));
            }
        }
    }

    private Acceptances acceptances() throws Exception {
        JobSource source = DiskFiles.source(folder);
        return Acceptances.of(source, JobReader.read(source, ReadOptions.DEFAULT), List.of());
    }

    @Test
    void shouldCountAcceptedFindingsNoMoreAndKeepThemListedUntilAByteChanges() throws Exception {
        copy("irrigation-pump-driver");
        ResultDocument before = run();
        assertThat(before.verdict().word()).isNotEqualTo("clean");
        Acceptances all = acceptances();
        for (Finding finding : before.findings()) {
            if (finding.severity() != Severity.NOTE) {
                all = all.accepting(finding, "bench \"supply\" is limited \\ to 1 A");
            }
        }
        Files.writeString(folder.resolve("accepted.toml"), all.toml());

        ResultDocument after = run();
        assertThat(after.verdict().word()).isEqualTo("clean");
        assertThat(after.findings()).hasSameSizeAs(before.findings());
        assertThat(after.approval().accepted())
                .extracting(Approval.Accepted::reason)
                .contains("bench \"supply\" is limited \\ to 1 A");
        assertThat(after.approval().expired()).isEmpty();
        assertThat(ResultJson.write(after)).isEqualTo(ResultJson.write(run())).contains("\"accepted\"");

        Files.writeString(folder.resolve("bores.ngc"), Files.readString(folder.resolve("bores.ngc")) + " ");
        ResultDocument changed = run();
        assertThat(changed.verdict()).isEqualTo(before.verdict());
        assertThat(changed.approval().accepted()).isEmpty();
        assertThat(changed.approval().expired()).isNotEmpty();
    }

    @Test
    void shouldNotAcceptWithoutAReason() throws Exception {
        copy("irrigation-pump-driver");
        Acceptances none = acceptances();
        Finding finding = run().findings().get(0);
        assertThatThrownBy(() -> none.accepting(finding, "  ")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void shouldTellWhatChangedSinceAnEarlierResult() throws Exception {
        copy("thermistor-amplifier");
        ResultDocument before = run();
        String old = ResultJson.write(before);
        assertThat(Comparison.of(old, before).nothing()).isTrue();

        Path copper = folder.resolve("copper.ngc");
        Files.writeString(copper, Files.readString(copper).replace("Z-0.1", "Z-0.2"));
        Comparison changed = Comparison.of(old, run());
        assertThat(changed.nothing()).isFalse();
        assertThat(changed.inputs()).extracting(Comparison.InputChange::file).containsExactly("copper.ngc");
        assertThat(changed.appeared()).extracting(Comparison.Told::kind).contains("duty-broken");
        assertThat(changed.windows()).isNotEmpty();
        assertThat(changed.lines()).isNotEmpty();
    }

    @Test
    void shouldRefuseWhatIsNoEarlierResult() throws Exception {
        copy("thermistor-amplifier");
        ResultDocument now = run();
        for (String text : List.of("", "{", "[1,2", "{\"schema\":1}", "nonsense", "{\"a\":\"\\u12", "[".repeat(500))) {
            assertThatThrownBy(() -> Comparison.of(text, now)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void shouldJudgeTheRestAgainWithUnitsAssumed() throws Exception {
        copy("keypad-panel");
        ResultDocument result = run();
        assertThat(result.verdict().word()).isEqualTo("stop");
        assertThat(result.approval().remains()).anySatisfy(rest -> {
            assertThat(result.findings().get(rest.finding() - 1).kind()).isEqualTo("units-unset");
            assertThat(rest.assuming()).contains("inches");
        });
    }
}
