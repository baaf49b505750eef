package foilproof.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * How the format of others is named (check value F17): by its specification's own name, "Gerber layer files", never as the
 * name of a format of ours.
 */
class NamingTest {
    private static List<Path> texts() throws IOException {
        List<Path> all = new ArrayList<>();
        for (String root : List.of("src/main", "../app/src/main", "../README.md", "../DEVELOPERS.md")) {
            try (Stream<Path> walk = Files.walk(Path.of(root))) {
                walk.filter(Files::isRegularFile)
                        .filter(p -> p.toString().matches(".*\\.(java|md|txt|json|properties)"))
                        .sorted()
                        .forEach(all::add);
            }
        }
        return all;
    }

    @Test
    void shouldNameTheLayerFormatOnlyByItsOwnName() throws IOException {
        Pattern named = Pattern.compile("(?s)\\bGerber\\b(?!\\s+(\\*\\s+)?(layer|Layer)\\b)");
        List<String> wrong = new ArrayList<>();
        for (Path file : texts()) {
            String text = Files.readString(file);
            Matcher m = named.matcher(text);
            while (m.find()) {
                wrong.add(file + ": ..." + text.substring(m.start(), Math.min(text.length(), m.start() + 40)));
            }
        }
        assertThat(wrong).isEmpty();
    }
}
