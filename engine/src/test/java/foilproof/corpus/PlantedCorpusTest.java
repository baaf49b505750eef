package foilproof.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.corpus.Plant.Planted;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.findings.Verdicts;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Each planted fault is found in three manners of writing and of laying the board: its kind, its severity, its line, its
 * place within 1 mm, its cause named first; and the near miss beside it raises nothing of that kind at that severity or
 * worse (issue "the whole catalogue"). {@code -Dfoilproof.rows=C7,C8} asks for these rows alone.
 */
class PlantedCorpusTest {
    private static final double PLACE_MM = 1.0;

    @TestFactory
    Stream<DynamicTest> shouldFindThePlantedFault() {
        return each(true);
    }

    @TestFactory
    Stream<DynamicTest> shouldBeSilentOnTheNearMissOf() {
        return each(false);
    }

    private static final String BEGIN = "<!-- by row: written by PlantedCorpusTest, -Dfoilproof.regenerate=true -->";
    private static final String END = "<!-- end of rows -->";

    @Test
    void shouldBeTheCorpusOfTheRecord() throws IOException {
        Path page = Path.of("benchmarks", "CORPORA.md");
        String text = Files.readString(page).replace("\r\n", "\n");
        int from = text.indexOf(BEGIN);
        int to = text.indexOf(END);
        String wanted = BEGIN + "\n\n" + record() + "\n" + END;
        if (Boolean.getBoolean("foilproof.regenerate")) {
            Files.writeString(page, text.substring(0, from) + wanted + text.substring(to + END.length()));
            return;
        }
        assertThat(text.substring(from, to + END.length()))
                .as("run this test with -Dfoilproof.regenerate=true")
                .isEqualTo(wanted);
    }

    /** What the other two tests demand, counted by row, kind and severity. */
    private static String record() {
        Map<String, Integer> faults = new TreeMap<>();
        Set<String> rows = new HashSet<>();
        for (Plant plant : Plants.all()) {
            Matcher row = Pattern.compile("([A-Z])([0-9]+)(.*)").matcher(plant.row());
            assertThat(row.matches()).as(plant.row()).isTrue();
            String key =
                    String.format(Locale.ROOT, "%s%02d%s", row.group(1), Integer.parseInt(row.group(2)), row.group(3));
            String cells = "| " + plant.row() + " | `" + plant.kind() + "` | "
                    + plant.severity().word() + " | ";
            faults.merge(key + "\n" + cells, 1, Integer::sum);
            rows.add(plant.row());
        }
        int manners = Manner.all().length;
        int all = Plants.all().size();
        StringBuilder t = new StringBuilder();
        t.append(all)
                .append(" faults of ")
                .append(rows.size())
                .append(" rows in ")
                .append(manners)
                .append(" manners: ");
        t.append(all * manners).append(" boards with a fault, as many with a near miss.\n\n");
        t.append(
                "| needs row | kind | severity | planted | found as planted | near misses raised |\n|---|---|---|---|---|---|\n");
        faults.forEach((key, count) -> t.append(key, key.indexOf('\n') + 1, key.length())
                .append(count * manners)
                .append(" | ")
                .append(count * manners)
                .append(" | 0 |\n"));
        return t.toString();
    }

    private static Stream<DynamicTest> each(boolean fault) {
        List<DynamicTest> tests = new ArrayList<>();
        Set<String> rows = Set.of(System.getProperty("foilproof.rows", "").split(","));
        for (Plant plant : Plants.all()) {
            if (!rows.contains("") && !rows.contains(plant.row())) {
                continue;
            }
            for (Manner manner : Manner.all()) {
                String name = plant.row() + " " + plant.kind() + " " + plant.severity() + ", " + manner.name();
                tests.add(DynamicTest.dynamicTest(name, () -> judge(plant, manner, fault)));
            }
        }
        return tests.stream();
    }

    static void judge(Plant plant, Manner manner, boolean fault) {
        Planted planted = plant.planter().plant(manner, fault);
        Verdicts verdicts = planted.bench().examined();
        List<Finding> found = flat(verdicts.findings()).stream()
                .filter(f -> f.kind().equals(plant.kind()))
                .toList();
        String story = plant.row() + " " + plant.kind() + " " + manner.name() + "\n" + verdicts + places(found);
        if (!fault) {
            assertThat(found.stream().filter(f -> f.severity().compareTo(plant.severity()) <= 0 && says(f, planted)))
                    .as(story)
                    .isEmpty();
            return;
        }
        List<Finding> hits =
                found.stream().filter(f -> f.severity() == plant.severity()).toList();
        assertThat(hits).as(story).isNotEmpty();
        assertThat(hits).as("line and place: " + story).anyMatch(f -> isThere(f, planted, manner));
        assertThat(verdicts.findings().get(0)).as("named first: " + story).matches(f -> leads(f, plant, planted));
    }

    private static String places(List<Finding> found) {
        StringBuilder t = new StringBuilder();
        found.forEach(f -> t.append("\nat ").append(Arrays.toString(f.atMm())));
        return t.toString();
    }

    /** Whether a finding may be the first. A note leads where nothing worse is said: sound boards have notes of their own. */
    private static boolean leads(Finding first, Plant plant, Planted planted) {
        return plant.severity() == Severity.NOTE && first.severity() == Severity.NOTE
                || first.kind().equals(planted.cause() != null ? planted.cause() : plant.kind())
                || first.kind().equals(planted.beside());
    }

    private static boolean isThere(Finding f, Planted planted, Manner manner) {
        Integer line = f.line();
        if (planted.line() > 0 && (line == null || line < planted.line() || line > planted.lastLine())) {
            return false;
        }
        if (!says(f, planted)) {
            return false;
        }
        return planted.wayMm().length == 0
                || f.atMm() != null && distance(f.atMm(), planted.wayMm(), manner) <= PLACE_MM;
    }

    private static boolean says(Finding f, Planted planted) {
        return planted.says() == null || f.message().contains(planted.says());
    }

    private static double distance(double[] at, double[] way, Manner manner) {
        double[] from = manner.place(way[0], way[1]);
        double best = StrictMath.hypot(at[0] - from[0], at[1] - from[1]);
        for (int i = 2; i < way.length; i += 2) {
            double[] to = manner.place(way[i], way[i + 1]);
            double dx = to[0] - from[0];
            double dy = to[1] - from[1];
            double along = (at[0] - from[0]) * dx + (at[1] - from[1]) * dy;
            double t = Math.max(0, Math.min(1, along / (dx * dx + dy * dy)));
            best = Math.min(best, StrictMath.hypot(at[0] - from[0] - t * dx, at[1] - from[1] - t * dy));
            from = to;
        }
        return best;
    }

    private static List<Finding> flat(List<Finding> findings) {
        List<Finding> all = new ArrayList<>();
        for (Finding f : findings) {
            all.add(f);
            all.addAll(flat(f.consequences()));
        }
        return all;
    }
}
