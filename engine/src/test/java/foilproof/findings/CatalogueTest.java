package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.LimitKey;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Every check is tested on both sides of its limits, and the developers' page lists which test does so. */
class CatalogueTest {
    /** The test classes of the checks. */
    private static final List<Class<?>> TESTS = List.of(
            PartAndTouchChecksTest.class,
            PlaceAndHoldChecksTest.class,
            ProgramTextChecksTest.class,
            TextRowsTest.class,
            ShopRowsTest.class,
            MachineChecksTest.class,
            DepthChecksTest.class,
            CopperChecksTest.class,
            WidthChecksTest.class,
            FloorAndLandChecksTest.class,
            DesignChecksTest.class,
            ElectricalChecksTest.class,
            LoadChecksTest.class,
            RestartCardTest.class,
            SetUpWallsTest.class,
            OutsideRowsTest.class,
            OpenLoopsTest.class);

    private static final String BEGIN = "<!-- checks: written by CatalogueTest, -Dfoilproof.regenerate=true -->";
    private static final String END = "<!-- end of checks -->";

    private static Map<String, List<Method>> tests(boolean fires) {
        Map<String, List<Method>> map = new TreeMap<>(Comparator.comparing(CatalogueTest::sortKey));
        for (Class<?> type : TESTS) {
            Stream.of(type.getDeclaredMethods())
                    .sorted(Comparator.comparing(Method::getName))
                    .forEach(m -> {
                        Fires f = m.getAnnotation(Fires.class);
                        Silent s = m.getAnnotation(Silent.class);
                        String[] values = fires ? f == null ? null : f.value() : s == null ? null : s.value();
                        for (String value : values == null ? new String[0] : values) {
                            map.computeIfAbsent(value, k -> new ArrayList<>()).add(m);
                        }
                    });
        }
        return map;
    }

    /** A7 comes before A10. */
    private static String sortKey(String rowAndKind) {
        Matcher m = Pattern.compile("([A-Z])(\\d+)(.*)").matcher(rowAndKind);
        return m.matches() ? m.group(1) + (m.group(2).length() == 1 ? "0" : "") + m.group(2) + m.group(3) : rowAndKind;
    }

    private static List<Check> checksOf(String rowAndKind) {
        String[] parts = rowAndKind.split(" ");
        return Catalogue.CHECKS.stream()
                .filter(c -> c.needsRows().contains(parts[0]) && c.kinds().contains(parts[1]))
                .toList();
    }

    @Test
    void shouldRaiseOnlyKindsOfTheContract() {
        for (Check check : Catalogue.CHECKS) {
            assertThat(Kinds.ALL).as(check.getClass().getSimpleName()).containsAll(check.kinds());
            assertThat(check.needsRows()).as(check.getClass().getSimpleName()).isNotEmpty();
        }
    }

    @Test
    void shouldTestEveryKindOfEveryCheckOnBothSidesOfItsLimit() {
        for (Check check : Catalogue.CHECKS) {
            for (String kind : check.kinds()) {
                String[] rows =
                        check.needsRows().stream().map(r -> r + " " + kind).toArray(String[]::new);
                String what = check.getClass().getSimpleName() + " " + kind;
                assertThat(tests(true).keySet()).as(what + " fires").containsAnyOf(rows);
                assertThat(tests(false).keySet()).as(what + " is silent").containsAnyOf(rows);
            }
        }
    }

    @Test
    void shouldTestEveryRowOfTheNeedsThatACheckDecides() {
        TreeSet<String> wanted = new TreeSet<>();
        Catalogue.CHECKS.forEach(c -> wanted.addAll(c.needsRows()));
        for (boolean fires : new boolean[] {true, false}) {
            assertThat(tests(fires).keySet().stream().map(k -> k.split(" ")[0]).collect(Collectors.toSet()))
                    .as(fires ? "fires" : "is silent")
                    .containsAll(wanted);
        }
    }

    @Test
    void shouldNameOnlyRowsAndKindsThatSomeCheckHas() {
        for (boolean fires : new boolean[] {true, false}) {
            for (String key : tests(fires).keySet()) {
                if (!key.endsWith(" " + Kinds.TIP_UNKNOWN) && !key.endsWith(" " + Kinds.FOIL_WEIGHT)) {
                    assertThat(checksOf(key)).as(key).isNotEmpty();
                }
            }
        }
    }

    @Test
    void shouldTestTheRowsOfEveryLimitThatACheckUses() throws IOException {
        Map<String, LimitKey> used = new LinkedHashMap<>();
        Pattern name = Pattern.compile("LimitKey\\.([A-Z_0-9]+)");
        try (Stream<Path> files = Files.list(engine().resolve("src/main/java/foilproof/findings"))) {
            for (Path file : files.sorted().toList()) {
                Matcher m = name.matcher(Files.readString(file));
                while (m.find()) {
                    used.put(m.group(1), LimitKey.valueOf(m.group(1)));
                }
            }
        }
        assertThat(used).hasSizeGreaterThan(40);
        for (boolean fires : new boolean[] {true, false}) {
            var rows = tests(fires).keySet().stream().map(k -> k.split(" ")[0]).collect(Collectors.toSet());
            used.forEach((key, limit) -> assertThat(rows)
                    .as(key + (fires ? " fires" : " is silent"))
                    .containsAnyOf(limit.needs().split(" ")));
        }
    }

    @Test
    void shouldKeepTheTableOfChecksCurrent() throws IOException {
        Path page = engine().resolve("../DEVELOPERS.md").normalize();
        String text = Files.readString(page).replace("\r\n", "\n");
        String wanted = BEGIN + "\n" + table() + END;
        int from = text.indexOf(BEGIN);
        int to = text.indexOf(END);
        if (Boolean.getBoolean("foilproof.regenerate")) {
            String next = from < 0
                    ? text.replaceFirst(
                            "(?m)^## Changelog",
                            Matcher.quoteReplacement("## Checks and their tests\n\n" + wanted + "\n\n## Changelog"))
                    : text.substring(0, from) + wanted + text.substring(to + END.length());
            Files.writeString(page, next);
            return;
        }
        assertThat(from).as("DEVELOPERS.md lists the checks").isPositive();
        assertThat(text.substring(from, to + END.length()))
                .as("run this test with -Dfoilproof.regenerate=true")
                .isEqualTo(wanted);
    }

    private static String table() {
        StringBuilder t =
                new StringBuilder("\n| needs row | kind | check | fires in | is silent in |\n|---|---|---|---|---|\n");
        Map<String, List<Method>> fires = tests(true);
        Map<String, List<Method>> silent = tests(false);
        Map<String, Boolean> keys = new TreeMap<>(Comparator.comparing(CatalogueTest::sortKey));
        fires.keySet().forEach(k -> keys.put(k, true));
        silent.keySet().forEach(k -> keys.put(k, true));
        for (String key : keys.keySet()) {
            String[] parts = key.split(" ");
            String checks = key.endsWith(" " + Kinds.FOIL_WEIGHT)
                    ? "OtherFoil"
                    : key.endsWith(" " + Kinds.TIP_UNKNOWN)
                            ? "TipReadings"
                            : checksOf(key).stream()
                                    .map(c -> c.getClass().getSimpleName())
                                    .collect(Collectors.joining(", "));
            t.append("| ")
                    .append(parts[0])
                    .append(" | `")
                    .append(parts[1])
                    .append("` | ")
                    .append(checks);
            t.append(" | ")
                    .append(names(fires.get(key)))
                    .append(" | ")
                    .append(names(silent.get(key)))
                    .append(" |\n");
        }
        return t.append('\n').toString();
    }

    private static String names(@org.jspecify.annotations.Nullable List<Method> methods) {
        return methods == null
                ? "-"
                : methods.stream()
                        .map(m -> m.getDeclaringClass().getSimpleName() + "." + m.getName())
                        .collect(Collectors.joining("<br>"));
    }

    private static Path engine() {
        Path here = Path.of("").toAbsolutePath();
        return Files.exists(here.resolve("src/main/java/foilproof")) ? here : here.resolve("engine");
    }
}
