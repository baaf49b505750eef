package foilproof.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.findings.Bench;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Good boards raise nothing at fix or stop and next to nothing at watch (needs.md section 6: "cry wolf"). */
class CleanCorpusTest {
    private static final long SEED = 20261125L;

    @Test
    void shouldHoldFortyMannersOfWritingAtLeast() {
        assertThat(CleanJobs.of(SEED)).hasSizeGreaterThanOrEqualTo(40);
    }

    @TestFactory
    Stream<DynamicTest> shouldRaiseNothingAboveANoteOn() {
        return CleanJobs.of(SEED).entrySet().stream()
                .map(e -> DynamicTest.dynamicTest(e.getKey() + ", seed " + SEED, () -> raisesNothing(e)));
    }

    private static void raisesNothing(Map.Entry<String, Bench> job) {
        job.getValue().examined().raisesNothingAboveANote();
    }
}
