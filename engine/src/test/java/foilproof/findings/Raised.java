package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Map;
import java.util.Objects;

/** One finding under test. */
public final class Raised {
    private final Finding finding;
    private final Map<String, String> programs;

    Raised(Finding finding, Map<String, String> programs) {
        this.finding = finding;
        this.programs = programs;
    }

    /** The finding. */
    public Finding finding() {
        return finding;
    }

    /** Asserts the place, within 1 mm. */
    public Raised at(double xMm, double yMm) {
        double[] at = Objects.requireNonNull(finding.atMm(), "no place: " + finding.message());
        assertThat(StrictMath.hypot(at[0] - xMm, at[1] - yMm))
                .as("place %s of: %s", Arrays.toString(at), finding.message())
                .isLessThanOrEqualTo(1.0);
        return this;
    }

    /** Asserts that the line is the first one of its program that holds this text; and that the moment is known. */
    public Raised onLineOf(String text) {
        String[] lines = Objects.requireNonNull(programs.get(finding.program()), "no program: " + finding.message())
                .split("\r?\n", -1);
        for (int i = 0; i < lines.length; i++) {
            if (lines[i].contains(text)) {
                assertThat(finding.line()).as(finding.message()).isEqualTo(i + 1);
                assertThat(finding.timeS())
                        .as("moment of: %s", finding.message())
                        .isNotNull();
                return this;
            }
        }
        throw new IllegalArgumentException("no line holds " + text);
    }

    /** Asserts the program. */
    public Raised in(String file) {
        assertThat(finding.program()).isEqualTo(file);
        return this;
    }

    /** Asserts the tool. */
    public Raised with(String tool) {
        assertThat(finding.tool()).isEqualTo(tool);
        return this;
    }

    /** Asserts the measured value and its unit. */
    public Raised measuring(double value, String unit, double tolerance) {
        Measured m = Objects.requireNonNull(finding.measured(), "nothing measured: " + finding.message());
        assertThat(m.value()).as(finding.message()).isCloseTo(value, within(tolerance));
        assertThat(m.unit()).isEqualTo(unit);
        return this;
    }

    /** Asserts the limit, and that a length's margin is below 0 and the difference of value and limit. */
    public Raised against(double limit) {
        Limit l = Objects.requireNonNull(finding.limit(), "no limit: " + finding.message());
        Measured m = Objects.requireNonNull(finding.measured());
        assertThat(l.value()).as(finding.message()).isCloseTo(limit, within(1e-9));
        assertThat(l.unit()).isEqualTo(m.unit());
        if (m.unit().equals("mm")) {
            assertThat(Objects.requireNonNull(finding.marginMm())).isNegative();
            assertThat(finding.marginMm()).isCloseTo(-Math.abs(m.value() - l.value()), within(1e-9));
        }
        return this;
    }

    /** Asserts that the message holds this text. */
    public Raised saying(String text) {
        assertThat(finding.message()).contains(text);
        return this;
    }

    /** Asserts that a kind is folded under this finding. */
    public Raised folding(String kind) {
        assertThat(finding.consequences().stream().map(Finding::kind)).contains(kind);
        return this;
    }
}
