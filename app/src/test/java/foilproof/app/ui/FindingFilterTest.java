package foilproof.app.ui;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.findings.Certainty;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import org.junit.jupiter.api.Test;

class FindingFilterTest {
    private static final Finding HAIR = Finding.of("hair", Severity.FIX, Certainty.GEOMETRY)
            .says("A hair of 0.021 mm")
            .side(2)
            .line("copper.ngc", 431)
            .build();

    private static boolean keeps(String typed) {
        return FindingFilter.of(typed).matches(HAIR, null);
    }

    @Test
    void shouldKeepEverythingWhereNothingIsTyped() {
        assertThat(keeps("")).isTrue();
    }

    @Test
    void shouldKeepByKindSeveritySideAndLine() {
        assertThat(keeps("hair")).isTrue();
        assertThat(keeps("fix, side 2")).isTrue();
        assertThat(keeps("line 431")).isTrue();
        assertThat(keeps("line 43")).isFalse();
        assertThat(keeps("side 1")).isFalse();
        assertThat(keeps("watch")).isFalse();
        assertThat(keeps("T2")).isFalse();
    }

    @Test
    void shouldReadLimitsOfHolesAndGaps() {
        assertThat(FindingFilter.of("holes < 0.6").holesBelowMm()).isEqualTo(0.6);
        assertThat(FindingFilter.of("gaps<0.15 mm").gapsBelowMm()).isEqualTo(0.15);
        assertThat(FindingFilter.of("T2").tool()).isEqualTo(2);
        assertThat(FindingFilter.of("holes < 1.2.3").holesBelowMm()).isNaN();
    }

    @Test
    void shouldFindAFindingThatIsFoldedUnderItsCause() {
        Finding cause = Finding.of("units-unset", Severity.STOP, Certainty.GEOMETRY)
                .says("units")
                .build()
                .withConsequences(java.util.List.of(HAIR));
        assertThat(FindingFilter.of("hair").matches(cause, null)).isTrue();
        assertThat(FindingFilter.of("sliver").matches(cause, null)).isFalse();
    }
}
