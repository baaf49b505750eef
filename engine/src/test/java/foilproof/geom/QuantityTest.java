package foilproof.geom;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Units: inch 25.4 mm exact (1959 agreement); foil weights as the job file's contract states them. */
class QuantityTest {
    private static double read(String text, Dimension dimension) throws QuantityFormatException {
        return Quantity.parse(text, dimension).value();
    }

    @Test
    void shouldReadTheQuantitiesThatAJobFileWrites() throws QuantityFormatException {
        assertThat(read("1.5 mm", Dimension.LENGTH)).isEqualTo(1.5);
        assertThat(read("1/32 in", Dimension.LENGTH)).isEqualTo(0.79375);
        assertThat(read("10 thou", Dimension.LENGTH)).isEqualTo(0.254);
        assertThat(read("17.4 um", Dimension.FOIL)).isEqualTo(0.0174);
        assertThat(read("0.5 oz", Dimension.FOIL)).isEqualTo(0.0174);
        assertThat(read("1 oz", Dimension.FOIL)).isEqualTo(0.0348);
        assertThat(read("60 in/min", Dimension.FEED)).isEqualTo(1524);
        assertThat(read("1200 mm/min", Dimension.FEED)).isEqualTo(1200);
        assertThat(read("8000 rpm", Dimension.SPINDLE)).isEqualTo(8000);
        assertThat(read("250 mm/s2", Dimension.ACCELERATION)).isEqualTo(250);
        assertThat(read("30 deg", Dimension.ANGLE)).isEqualTo(30);
        assertThat(read("120 s", Dimension.TIME)).isEqualTo(120);
        assertThat(read("1.2 A", Dimension.CURRENT)).isEqualTo(1.2);
        assertThat(read("9 V", Dimension.VOLTAGE)).isEqualTo(9);
        assertThat(read("-38 mm", Dimension.LENGTH)).isEqualTo(-38);
        assertThat(read(" +.5mm ", Dimension.LENGTH)).isEqualTo(0.5);
        assertThat(read("1 1/2 in", Dimension.LENGTH)).isCloseTo(38.1, within(1e-12));
        assertThat(read("20 %", Dimension.RATIO)).isEqualTo(0.2);
    }

    @Test
    void shouldSayWhereInTheTextTheTroubleIs() {
        QuantityFormatException comma =
                catchThrowableOfType(QuantityFormatException.class, () -> read("1,5 mm", Dimension.LENGTH));
        assertThat(comma.offset()).isEqualTo(1);
        assertThat(comma.problem()).contains("comma");
        QuantityFormatException unit =
                catchThrowableOfType(QuantityFormatException.class, () -> read("1.5 MM", Dimension.LENGTH));
        assertThat(unit.offset()).isEqualTo(4);
        assertThat(unit.nearestUnit()).isEqualTo("mm");
        QuantityFormatException wrong =
                catchThrowableOfType(QuantityFormatException.class, () -> read("8000 rpm", Dimension.LENGTH));
        assertThat(wrong.problem()).contains("spindle speed");
        QuantityFormatException mil =
                catchThrowableOfType(QuantityFormatException.class, () -> read("10 mil", Dimension.LENGTH));
        assertThat(mil.nearestUnit()).isEqualTo("thou");
    }

    @Test
    void shouldRefuseWhatIsNoQuantity() {
        String[] garbage = {
            "",
            " ",
            "mm",
            "1",
            "1.5",
            ". mm",
            "1e3 mm",
            "NaN mm",
            "Infinity mm",
            "-Infinity mm",
            "\u22121 mm",
            "1..2 mm",
            "1.2.3 mm",
            "1 mm mm",
            "--1 mm",
            "1/0 in",
            "1/32.5 in",
            "1.5/2 in",
            "1 2 mm",
            "0x10 mm",
            "1 000 mm",
            "1'000 mm",
            "9999999999 mm",
            "1".repeat(41) + " mm",
            "1".repeat(1_000_000) + " mm",
            "\u0661 mm",
            "1_0 mm"
        };
        for (String text : garbage) {
            assertThatThrownBy(() -> read(text, Dimension.LENGTH))
                    .as(text.length() > 60 ? "long" : text)
                    .isInstanceOf(QuantityFormatException.class);
        }
    }

    @Test
    void shouldNeverThrowAnythingElseOnSeededGarbage() {
        long seed = 20260101;
        Random random = new Random(seed);
        String letters = "0123456789.,+-/ mminthouozrpsdeg%\u00b5\u2212eE\0";
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int k = random.nextInt(12); k > 0; k--) {
                text.append(letters.charAt(random.nextInt(letters.length())));
            }
            Dimension dimension = Dimension.values()[random.nextInt(Dimension.values().length)];
            try {
                assertThat(Quantity.parse(text.toString(), dimension).value()).isFinite();
            } catch (QuantityFormatException e) {
                assertThat(e.offset()).as("seed " + seed + ": " + text).isBetween(0, text.length());
                assertThat(e.endOffset()).isBetween(e.offset(), text.length());
            }
        }
    }
}
