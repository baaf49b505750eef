package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.DiskFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The clean sample job, with its design laid down wrongly: needs B8 and B9. As it is, it stays silent. */
class PlaceOfDesignTest {
    @TempDir
    Path folder;

    private List<Finding> run(String from, String to) throws Exception {
        Path sample = SampleJobsTest.SAMPLES.resolve("thermistor-amplifier");
        try (Stream<Path> files = Files.list(sample)) {
            for (Path file : files.toList()) {
                Files.copy(file, folder.resolve(file.getFileName().toString()));
            }
        }
        Path job = folder.resolve("job.toml");
        String text = Files.readString(job, StandardCharsets.UTF_8);
        String changed = text.replaceAll(from, to);
        assertThat(changed).isNotEqualTo(text);
        Files.writeString(job, changed, StandardCharsets.UTF_8);
        List<Finding> all = new ArrayList<>();
        DryRun.run(DiskFiles.source(folder), ReadOptions.DEFAULT, new ExamineOptions(0.05, 1, Progress.NONE))
                .document()
                .findings()
                .forEach(f -> {
                    all.add(f);
                    all.addAll(f.consequences());
                });
        return all;
    }

    @Test
    void shouldTellThatTheMirrorWasForgotten() throws Exception {
        List<Finding> found = run("(?s)face = \"bottom\"(.*)bottom_copper", "face = \"top\"$1top_copper");
        assertThat(found).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.MIRRORED);
            assertThat(f.severity()).isEqualTo(Severity.STOP);
            assertThat(f.message()).contains("mirrored in X");
        });
    }

    @Test
    void shouldMeasureHowFarTheDesignIsFromWhereItIsPlaced() throws Exception {
        List<Finding> found = run("placed_at = \\[\"10 mm\", \"8 mm\"\\]", "placed_at = [\"10.3 mm\", \"7.9 mm\"]");
        assertThat(found).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.SIDES_SHIFTED);
            assertThat(f.measured()).isNotNull();
            assertThat(f.measured().value()).isBetween(0.316 - 0.03, 0.316 + 0.03);
        });
    }

    @Test
    void shouldStaySilentOfAShiftBelowWhatItCanTell() throws Exception {
        List<Finding> found = run("placed_at = \\[\"10 mm\", \"8 mm\"\\]", "placed_at = [\"10.03 mm\", \"8 mm\"]");
        assertThat(found)
                .noneMatch(f -> f.kind().equals(Kinds.SIDES_SHIFTED) || f.kind().equals(Kinds.MIRRORED));
    }
}
