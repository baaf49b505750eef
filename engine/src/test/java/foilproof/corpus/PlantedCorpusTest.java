package foilproof.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.corpus.Plant.Planted;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.findings.Verdicts;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Each planted fault is found in three manners of writing: its kind, at least its severity, its line and its place
 * within 1 mm; and the near miss beside it raises nothing of that kind above a note (issue "the whole catalogue").
 */
class PlantedCorpusTest {
    @TestFactory
    Stream<DynamicTest> shouldFindThePlantedFault() {
        return each(true);
    }

    @TestFactory
    Stream<DynamicTest> shouldBeSilentOnTheNearMissOf() {
        return each(false);
    }

    private static Stream<DynamicTest> each(boolean fault) {
        List<DynamicTest> tests = new ArrayList<>();
        for (Plant plant : Plant.all()) {
            for (Manner manner : Manner.all()) {
                String name = plant.row() + " " + plant.kind() + " " + plant.severity() + ", " + manner.name();
                tests.add(DynamicTest.dynamicTest(name, () -> judge(plant, manner, fault)));
            }
        }
        return tests.stream();
    }

    private static void judge(Plant plant, Manner manner, boolean fault) {
        Planted planted = plant.planter().plant(manner, fault);
        Verdicts verdicts = planted.bench().examined();
        List<Finding> found = flat(verdicts.findings()).stream()
                .filter(f -> f.kind().equals(plant.kind())
                        && (f.severity() != Severity.NOTE || plant.severity() == Severity.NOTE))
                .toList();
        String story = plant + " " + manner.name() + "\n" + verdicts;
        if (!fault) {
            assertThat(found.stream().filter(f -> f.severity().compareTo(plant.severity()) <= 0))
                    .as(story)
                    .isEmpty();
            return;
        }
        List<Finding> hits =
                found.stream().filter(f -> f.severity() == plant.severity()).toList();
        assertThat(hits).as(story).isNotEmpty();
        if (planted.line() > 0) {
            assertThat(hits.stream().map(Finding::line)).as(story).contains(planted.line());
        }
        double[] at = planted.atMm();
        if (at != null) {
            assertThat(hits)
                    .as(story)
                    .anyMatch(
                            f -> f.atMm() != null && StrictMath.hypot(f.atMm()[0] - at[0], f.atMm()[1] - at[1]) <= 1.0);
        }
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
