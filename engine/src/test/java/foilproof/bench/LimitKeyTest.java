package foilproof.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class LimitKeyTest {
    @Test
    void shouldTellEveryLimitWithItsDefaultInTheReadme() throws Exception {
        String readme = Files.readString(Path.of("..", "README.md"));
        for (LimitKey key : LimitKey.values()) {
            assertThat(readme).contains("| `" + key.key() + "` | " + key.defaultText() + " | " + key.meaning() + " |");
        }
    }
}
