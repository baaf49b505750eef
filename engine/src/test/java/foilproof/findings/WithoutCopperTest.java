package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.ReadOptions;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The checks that run first wait for no map of the copper. */
class WithoutCopperTest {
    @ParameterizedTest
    @ValueSource(strings = {"thermistor-amplifier", "two-side-motor-bridge", "keypad-panel", "irrigation-pump-driver"})
    void shouldMapNoCopperInTheChecksThatRunFirst(String folder) throws Exception {
        Job job = JobReader.read(DiskFiles.source(Path.of("..", "sample-jobs", folder)), ReadOptions.DEFAULT);
        Examination x = Examiner.examine(job, ReadDesign.of(job), new ExamineOptions(0.05, 2, Progress.NONE));
        List<Check> early = Catalogue.CHECKS.stream()
                .filter(check -> Catalogue.WITHOUT_COPPER.contains(check.getClass()))
                .toList();
        assertThat(early).hasSize(Catalogue.WITHOUT_COPPER.size());
        for (Check check : early) {
            check.examine(x, new FindingCollector());
            assertThat(x.copper()).as(check.getClass().getSimpleName()).noneMatch(CopperFacts::mapped);
        }
    }
}
