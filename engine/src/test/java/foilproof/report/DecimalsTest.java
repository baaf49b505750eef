package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;

class DecimalsTest {
    @Test
    void shouldPrintTheShortestDecimalOfTheQuantum() {
        assertThat(Decimals.shortest(0.1 + 0.2, 6)).isEqualTo("0.3");
        assertThat(Decimals.shortest(5, 3)).isEqualTo("5.0");
        assertThat(Decimals.shortest(-0.0000004, 6)).isEqualTo("0.0");
        assertThat(Decimals.shortest(123456789.5, 6)).isEqualTo("123456789.5");
        assertThat(Decimals.shortest(1e15, 6)).isEqualTo("1000000000000000.0");
        assertThat(Decimals.fixed(-0.0004, 3)).isEqualTo("0.000");
        assertThat(Decimals.signed(0.05, 3)).isEqualTo("+0.050");
        assertThat(Decimals.plain(100, 2)).isEqualTo("100");
        assertThat(Decimals.fixed(Double.NaN, 3)).isEqualTo("unknown");
        assertThatThrownBy(() -> Decimals.shortest(Double.NaN, 3)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void shouldRoundWindowsInwardAfterSnappingToANanometre() {
        assertThat(Decimals.upToUm(-0.0776)).isEqualTo(-0.077);
        assertThat(Decimals.downToUm(0.0509)).isEqualTo(0.050);
        // 0.05 as a sum of binary fractions must not fall to 0.049.
        assertThat(Decimals.downToUm(0.15 - 0.1)).isEqualTo(0.05);
        assertThat(Decimals.upToUm(-(0.15 - 0.1))).isEqualTo(-0.05);
    }

    @Test
    void shouldReadBackWithinHalfAQuantum() {
        long seed = 20260101;
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(8) - 2);
            double read = Double.parseDouble(Decimals.shortest(value, 6));
            assertThat(Math.abs(read - value))
                    .as("seed %d, value %s", seed, value)
                    .isLessThanOrEqualTo(0.5000001e-6);
        }
    }
}
