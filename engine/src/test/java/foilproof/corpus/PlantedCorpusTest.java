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
 * Each planted fault is found in three manners of writing and of laying the board: its kind, its severity, its line, its
 * place within 1 mm, its cause named first; and the near miss beside it raises nothing of that kind at that severity or
 * worse (issue "the whole catalogue").
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

    private static Stream<DynamicTest> each(boolean fault) {
        List<DynamicTest> tests = new ArrayList<>();
        for (Plant plant : Plants.all()) {
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
        String story = plant.row() + " " + plant.kind() + " " + manner.name() + "\n" + verdicts;
        if (!fault) {
            assertThat(found.stream().filter(f -> f.severity().compareTo(plant.severity()) <= 0))
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
        return planted.wayMm().length == 0
                || f.atMm() != null && distance(f.atMm(), planted.wayMm(), manner) <= PLACE_MM;
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
