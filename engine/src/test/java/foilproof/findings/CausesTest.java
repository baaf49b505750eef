package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The order in which findings are told: worst first, and what did the harm before the harm (design, idea 6). */
class CausesTest {
    private static Finding of(String kind, Severity severity, int side, double timeS) {
        return Finding.of(kind, severity, Certainty.GEOMETRY)
                .side(side)
                .time(timeS)
                .says(kind)
                .doThis("Look.")
                .build();
    }

    @Test
    void shouldTellShiftedSidesBeforeTheThinRingsThatTheyMade() {
        Finding ring = of(Kinds.RING_THIN, Severity.FIX, 2, 10);
        Finding shift = of(Kinds.SIDES_SHIFTED, Severity.FIX, 2, 500);

        assertThat(Causes.sorted(List.of(ring, shift)))
                .extracting(Finding::kind)
                .containsExactly(Kinds.SIDES_SHIFTED, Kinds.RING_THIN);
    }

    @Test
    void shouldStillTellTheWorseFirst() {
        Finding hole = of(Kinds.HOLE_MISSING, Severity.STOP, 2, 500);
        Finding shift = of(Kinds.SIDES_SHIFTED, Severity.FIX, 1, 10);

        assertThat(Causes.sorted(List.of(shift, hole)))
                .extracting(Finding::kind)
                .containsExactly(Kinds.HOLE_MISSING, Kinds.SIDES_SHIFTED);
    }
}
