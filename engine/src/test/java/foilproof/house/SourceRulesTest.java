package foilproof.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * What the compiler cannot hold: units in the names of public numbers, length of methods, documentation of
 * public types. Exceptions stand in {@code house/*.txt} of the test resources, each with its reason.
 */
class SourceRulesTest {
    private static final int LONGEST_METHOD_LINES = 80;
    private static final List<SourceFacts> SOURCES = SourceFacts.readAll(
            List.of(repository().resolve("engine/src/main/java"), repository().resolve("app/src/main/java")));

    @Test
    void shouldNameTheUnitOfEveryPublicLengthSpeedAngleAndTime() {
        Map<String, String> excused = exceptions("unit-names.txt");
        Set<String> met = new TreeSet<>();
        List<String> wrong = new ArrayList<>();
        for (SourceFacts file : SOURCES) {
            for (SourceFacts.Number number : file.publicDoubles()) {
                if (!UnitNames.tellsItsUnit(number.name()) && note(excused, number.id(), met)) {
                    wrong.add(
                            number.place() + " " + number.id() + ": say the unit, for example " + number.name() + "Mm");
                }
            }
        }
        assertThat(wrong)
                .as("public doubles of length, speed, angle or time without a unit")
                .isEmpty();
        assertThat(met).as("exceptions that nothing needs any more").containsAll(excused.keySet());
    }

    @Test
    void shouldKeepMethodsWithinEightyLinesUnlessListedWithAReason() {
        Map<String, String> excused = exceptions("long-methods.txt");
        Set<String> met = new TreeSet<>();
        List<String> wrong = new ArrayList<>();
        for (SourceFacts file : SOURCES) {
            for (SourceFacts.Method method : file.methods()) {
                if (method.lines() > LONGEST_METHOD_LINES && note(excused, method.id(), met)) {
                    wrong.add(method.place() + " " + method.id() + ": " + method.lines() + " lines");
                }
            }
        }
        assertThat(wrong).as("methods over " + LONGEST_METHOD_LINES + " lines").isEmpty();
        assertThat(met).as("exceptions that nothing needs any more").containsAll(excused.keySet());
    }

    @Test
    void shouldDocumentPublicTypes() {
        List<String> wrong = new ArrayList<>();
        for (SourceFacts file : SOURCES) {
            wrong.addAll(file.undocumentedTypes());
        }
        assertThat(wrong).as("public types without a documentation comment").isEmpty();
    }

    @Test
    void shouldSayWhatEveryPackageIsFor() throws Exception {
        List<String> wrong = new ArrayList<>();
        Set<Path> folders = new TreeSet<>();
        SOURCES.forEach(file -> folders.add(file.path().getParent()));
        for (Path folder : folders) {
            Path info = folder.resolve("package-info.java");
            if (!Files.exists(info)) {
                wrong.add(folder + " has no package-info.java");
            } else if (!Files.readString(info).contains("@NullMarked")) {
                wrong.add(info + " is not @NullMarked");
            }
        }
        assertThat(wrong).isEmpty();
    }

    @Test
    void shouldTellUnitsApartFromBareQuantities() {
        assertThat(List.of(
                        "depthMm",
                        "feedMmPerMin",
                        "startS",
                        "turnRad",
                        "areaMm2",
                        "startXMm",
                        "mm",
                        "thou",
                        "xMm",
                        "ratio",
                        "e2"))
                .allMatch(UnitNames::tellsItsUnit);
        assertThat(List.of("depth", "feed", "turn", "toolRadius", "x", "y0", "startTime", "angle", "tipWidth"))
                .noneMatch(UnitNames::tellsItsUnit);
    }

    private static boolean note(Map<String, String> excused, String id, Set<String> met) {
        if (excused.containsKey(id)) {
            met.add(id);
            return false;
        }
        return true;
    }

    private static Map<String, String> exceptions(String name) {
        Map<String, String> out = new TreeMap<>();
        try (var in = SourceRulesTest.class.getResourceAsStream("/house/" + name)) {
            for (String line : new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8).split("\n")) {
                if (line.isBlank() || line.startsWith("#")) {
                    continue;
                }
                int colon = line.indexOf(": ");
                assertThat(colon).as("an exception needs a reason: " + line).isPositive();
                out.put(
                        line.substring(0, colon).strip(),
                        line.substring(colon + 2).strip());
            }
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return out;
    }

    private static Path repository() {
        Path here = Path.of("").toAbsolutePath();
        return Files.exists(here.resolve("engine/pom.xml")) ? here : here.getParent();
    }
}
