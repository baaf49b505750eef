package foilproof.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class SpellingTest {
    @Test
    void shouldFindTheKeyThatASwapOfTwoLettersMeant() {
        assertThat(Spelling.nearest("thikcness", List.of("width", "thickness", "height")))
                .isEqualTo("thickness");
    }

    @Test
    void shouldSayNothingWhereNoWordIsNear() {
        assertThat(Spelling.nearest("zzz", List.of("width", "thickness"))).isNull();
    }
}
