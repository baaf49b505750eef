package foilproof.corpus;

import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;

/** Time, order, dust, heat, safety (needs.md K, L). */
final class ShopPlants {
    private ShopPlants() {}

    static void add(Plants plants) {
        dustAndHeat(plants);
        hands(plants);
    }

    private static void dustAndHeat(Plants plants) {
        plants.add("L1", "dust", WATCH, (m, fault) -> {
            Bench b = bench(m).blank("substrate", "FR-4").machine("extraction", fault ? "false" : "true");
            return on(b.runs(loop(m, -0.1)), 0);
        });
        plants.add("L2", "burn", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 5).down(-0.1, 90).cut(8, 5, 300).line(fault ? "G4 P0.6" : "G4 P0.4");
            int line = t.last();
            return at(bench(m).runs(t.cut(12, 5, 300).up().end().toString()), line, 8, 5);
        });
    }

    private static void hands(Plants plants) {
        plants.add("L4", "unsafe-pause", STOP, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line(fault ? "G4 P1" : "M5")
                    .line("M0");
            int line = t.last();
            if (!fault) {
                t.line("M3").line("G4 P3");
            }
            return on(bench(m).runs(t.box(4, 4, 12, 10, -0.1).end().toString()), line);
        });
        plants.add(
                "L6",
                "spacing",
                FIX,
                (m, fault) -> on(
                        bench(m).also("[[net]]\nname = \"HV\"\nvoltage = \"" + (fault ? 61 : 60) + " V\"")
                                .runs(loop(m, -0.1)),
                        0));
    }
}
