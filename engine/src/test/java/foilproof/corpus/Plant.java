package foilproof.corpus;

import foilproof.findings.Bench;
import foilproof.findings.Severity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One row of the catalogue of needs, planted: a board with the fault, and the same board with a near miss just inside
 * the limit. The truth (kind, severity, line, place) comes from the planter, which knows nothing of the checks.
 */
record Plant(String row, String kind, Severity severity, Planter planter) {
    /** Plants the fault, or the near miss. */
    interface Planter {
        Planted plant(Manner manner, boolean fault);
    }

    /**
     * A planted job and where the fault is; line 0 and no place where the row has none.
     */
    record Planted(Bench bench, int line, double @Nullable [] atMm) {}

    /** All plants. */
    static List<Plant> all() {
        List<Plant> plants = new ArrayList<>();
        ProgramPlants.add(plants);
        BenchPlants.add(plants);
        CopperPlants.add(plants);
        MorePlants.add(plants);
        return plants;
    }

    /** A sound bench whose work zero is the manner's. */
    static Bench bench(Manner m) {
        return Bench.job().side("work_zero", "[\"" + m.zeroXMm() + " mm\", \"" + m.zeroYMm() + " mm\"]");
    }

    static Planted on(Bench bench, int line) {
        return new Planted(bench, line, null);
    }

    static Planted at(Bench bench, int line, double x, double y) {
        return new Planted(bench, line, new double[] {x, y});
    }
}
