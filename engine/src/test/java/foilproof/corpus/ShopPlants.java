package foilproof.corpus;

import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
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
        time(plants);
        changes(plants);
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

    private static void time(Plants plants) {
        plants.add("K1", "time", NOTE, (m, fault) -> {
            // teeth of 0.5 mm at 600 mm/min, on which the machine stops at every corner, or as long straight grooves
            Text t = m.text().start(5).to(2, 2).down(-0.1, 90);
            for (int row = 0; row < 12; row++) {
                double y = 2 + 0.8 * row;
                for (int i = 1; fault && i <= 44; i++) {
                    double at = row % 2 == 0 ? i : 44 - i;
                    t.cut(2 + 0.3536 * at, y + 0.3536 * (i % 2), 600);
                }
                if (!fault) {
                    t.cut(row % 2 == 0 ? 17 : 2, y, 600);
                }
                t.cut(row % 2 == 0 ? 17.5 : 2, y + 0.8, 600);
            }
            Bench b = bench(m).machine("acceleration", "150 mm/s2")
                    .program("a.ngc", t.up().end().toString(), "work", "text");
            return on(b, 0);
        });
        plants.add("K3", "time", NOTE, (m, fault) -> {
            // of 54 rows of 8 mm those 0.4 mm and more from the copper round them are 49 of 7.34 mm: 360 mm
            double feed = fault ? 100 : 135;
            Text t = m.text().start(5).to(4, 3).down(-0.1, 60);
            for (int i = 0; i < 54; i++) {
                double y = 3 + 0.15 * i;
                t.cut(i % 2 == 0 ? 4 : 12, y, feed).cut(i % 2 == 0 ? 12 : 4, y, feed);
            }
            return on(bench(m).program("a.ngc", t.up().end().toString(), "work", "clearing"), 0);
        });
        plants.add("L3", "dust", NOTE, (m, fault) -> {
            Text t = m.text().start(2).to(3, 3).down(-0.1, 90);
            for (int i = 0; i < (fault ? 59 : 54); i++) {
                t.cut(i % 2 == 0 ? 17 : 3, 3 + 0.15 * i, 130);
            }
            // 59 rows of 14 mm at 130 mm/min: 6.4 min, and 54 are 5.9 min
            return on(
                    bench(m).also("[limits]\nlong_cut = \"360 s\"")
                            .runs(t.up().end().toString()),
                    0);
        });
    }

    private static void changes(Plants plants) {
        plants.add("K2", "order", NOTE, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, -0.1).change(2).spin().box(5, 5, 11, 9, -0.1);
            t.change(1).spin().groove(15, 3, 15, 11, -0.1).end();
            return on(bench(m).machine("tool_change", fault ? "125 s" : "115 s").runs(t.toString()), 0);
        });
        plants.add("K4", "tool-changes", NOTE, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("M5")
                    .line("G0 Z" + m.text().z(25));
            t.line("G0 " + (fault ? t.xy(8, 7) : t.xy(-30, -30)))
                    .line("T2 M6")
                    .line("M0")
                    .spin();
            return on(bench(m).runs(t.box(5, 5, 11, 9, -0.1).end().toString()), 0);
        });
        plants.add("K5", "order", WATCH, (m, fault) -> {
            String copper = loop(m, -0.1);
            String bores = m.text().start(2).bore(8, 7, 1.2, 0.8, -1.65).end().toString();
            Bench b = bench(m);
            return on(
                    fault
                            ? b.program("b.ngc", bores).program("a.ngc", copper)
                            : b.program("a.ngc", copper).program("b.ngc", bores),
                    0);
        });
        plants.add("K6", "look-alike", NOTE, (m, fault) -> {
            Text t = m.text().start(3).box(3, 3, 13, 11, -0.1).change(2).spin();
            Bench b = bench(m).tool("cutter", "diameter", fault ? "0.8 mm" : "1.5 mm");
            return on(b.runs(t.box(5, 5, 11, 9, -0.12).end().toString()), 0);
        });
    }
}
