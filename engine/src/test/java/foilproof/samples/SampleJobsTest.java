package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.ProgramEntry;
import foilproof.bench.ReadOptions;
import foilproof.bench.Side;
import foilproof.findings.Kinds;
import foilproof.language.Interpretation;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.language.ToolTable;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SampleJobsTest {
    /** The repository's folder of samples, found from the module's folder. */
    static final Path SAMPLES = Path.of("..", "sample-jobs");

    static List<String> folders() {
        return SampleJob.all().stream().map(SampleJob::folder).toList();
    }

    private static SampleJob job(String folder) {
        return SampleJob.all().stream()
                .filter(j -> j.folder().equals(folder))
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("folders")
    void shouldHoldTheVeryFilesThatTheGeneratorWrites(String folder) throws Exception {
        for (Map.Entry<String, String> file : job(folder).files().entrySet()) {
            String committed = Files.readString(SAMPLES.resolve(folder).resolve(file.getKey()), StandardCharsets.UTF_8);
            assertThat(committed).as(folder + "/" + file.getKey()).isEqualTo(file.getValue());
        }
    }

    @ParameterizedTest
    @MethodSource("folders")
    void shouldReadWithoutAnyDefaultThatHidesANumber(String folder) throws Exception {
        Job job = JobReader.read(DiskFiles.source(SAMPLES.resolve(folder)), ReadOptions.DEFAULT);
        assertThat(job.sides()).isNotEmpty();
        assertThat(job.assumed()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("folders")
    void shouldRunEveryProgramToItsEndUnlessAnErrorIsExpectedThere(String folder) throws Exception {
        Job job = JobReader.read(DiskFiles.source(SAMPLES.resolve(folder)), ReadOptions.DEFAULT);
        ExpectedFindings expected =
                ExpectedFindings.read(SAMPLES.resolve(folder).resolve("expected.toml"));
        for (Side side : job.sides()) {
            for (ProgramEntry entry : side.programs()) {
                Interpretation read = Interpreter.interpret(
                        entry.source(),
                        InterpreterSetup.builder().tools(new AllTools(job)).build());
                List<Integer> lines =
                        read.errors().stream().map(e -> e.span().line()).toList();
                List<Integer> wanted = expected.rows().stream()
                        .filter(r -> r.kind().equals(Kinds.PROGRAM_ERROR)
                                && entry.file().equals(r.program()))
                        .map(r -> r.line().orElse(-1))
                        .toList();
                assertThat(lines).as(entry.file() + " " + read.errors()).isEqualTo(wanted);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("folders")
    void shouldNameOnlyKindsAndFilesThatThereAre(String folder) throws Exception {
        ExpectedFindings expected =
                ExpectedFindings.read(SAMPLES.resolve(folder).resolve("expected.toml"));
        Job job = JobReader.read(DiskFiles.source(SAMPLES.resolve(folder)), ReadOptions.DEFAULT);
        List<String> files = job.inputs().stream().map(f -> f.name()).toList();
        for (ExpectedFindings.Row row : expected.rows()) {
            assertThat(row.severity()).isIn("stop", "fix", "watch", "note");
            if (row.program() != null) {
                assertThat(files).contains(row.program());
            }
        }
        assertThat(Files.readString(SAMPLES.resolve(folder).resolve("README.md")))
                .contains("With care");
    }

    private record AllTools(Job job) implements ToolTable {
        @Override
        public boolean exists(int number) {
            return job.toolNumbered(number) != null;
        }

        @Override
        public double lengthMm(int number) {
            return Double.NaN;
        }

        @Override
        public double diameterMm(int number) {
            return Double.NaN;
        }
    }
}
