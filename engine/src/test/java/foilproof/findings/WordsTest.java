package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Numbers in messages: no digit finer than the first digit of the error (JCGM 100:2008, section 7.2.6). */
class WordsTest {
    @Test
    void shouldSayNoDigitFinerThanTheError() {
        assertThat(Words.mm(0.4137, 0.02)).isEqualTo("0.41 mm (16.3 thou)");
        assertThat(Words.mm(0.4137, 0.1)).isEqualTo("0.4 mm (16 thou)");
        assertThat(Words.mm(0.0253, 0.3 * 0.0253)).isEqualTo("0.025 mm (1.0 thou)");
        assertThat(Words.mm(0.0687, 0.3 * 0.0687)).isEqualTo("0.07 mm (2.7 thou)");
        assertThat(Words.mm(52.18, 0.01)).isEqualTo("52.18 mm (2054.3 thou)");
        assertThat(Words.rounded(12.4, 3.7, 1)).isEqualTo("12");
        assertThat(Words.rounded(12.4, 0, 1)).isEqualTo("12.4");
    }
}
