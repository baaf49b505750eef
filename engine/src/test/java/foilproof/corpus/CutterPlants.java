package foilproof.corpus;

import static foilproof.corpus.Boards.TAN;
import static foilproof.corpus.Boards.allAlongTheLoop;
import static foilproof.corpus.Boards.allAlongTheOutline;
import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Boards.outline;
import static foilproof.corpus.Boards.trace;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;

/** Cutters in the wrong job, worn, or driven wrongly (needs.md C). */
final class CutterPlants {
    private CutterPlants() {}

    static void add(Plants plants) {
        shapeAndWear(plants);
        loads(plants);
        wrongJob(plants);
    }

    private static void shapeAndWear(Plants plants) {
        plants.add("C1", "tip-unknown", WATCH, (m, fault) -> {
            // read as flat, 0.10 mm, a trace of 0.308 mm stays; read as round, 0.127 mm, one of 0.213 mm
            Text t = m.text().start(5).box(3, 5, 13, 5.46, -0.115);
            return on(
                    bench(m).cellUm(10)
                            .tool("pencil", "tip_width", fault ? "unknown" : "0.10 mm")
                            .runs(t.end().toString()),
                    0);
        });
        double each = (0.1 - 0.0174) * (StrictMath.tan(StrictMath.toRadians(30)) - TAN);
        plants.add("C2", "angle-doubt", WATCH, (m, fault) -> trace(m, (fault ? 0.146 : 0.154) + 2 * each));
        plants.add("C4", "tool-wear", WATCH, (m, fault) -> {
            Text t = m.text().start(1);
            for (int i = 0; i < (fault ? 80 : 75); i++) {
                t.groove(1, 0.6 + 0.15 * i, 19, 0.6 + 0.15 * i, -0.1);
            }
            return on(bench(m).blank("substrate", "FR-4").runs(t.end().toString()), 0);
        });
        plants.add("C9", "runout", WATCH, (m, fault) -> {
            double width = fault ? 0.196 : 0.204;
            Text t = m.text().start(3).box(3, 5, 13, 5 + width + 0.8, -0.1).end();
            return on(bench(m).cellUm(10).runs(t.toString()), 0)
                    .byLines(11, 16)
                    .along(3, 5.4 + width / 2, 13, 5.4 + width / 2);
        });
    }

    private static void loads(Plants plants) {
        plants.add("C5", "chip-load", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(-0.3, 90).cut(12, 4, fault ? 120 : 135);
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line).along(4, 4, 12, 4);
        });
        plants.add("C6", "chip-load", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(-0.3, 90).cut(12, 4, fault ? 850 : 700);
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line).along(4, 4, 12, 4);
        });
    }

    private static void wrongJob(Plants plants) {
        plants.add("C11", "deep-plunge", STOP, (m, fault) -> {
            Text t = m.text().start(2).to(6, 6).down(-0.3, 90);
            int line = t.last();
            return at(
                    bench(m).tool("cutter", "centre_cutting", fault ? "false" : "true")
                            .runs(t.up().end().toString()),
                    line,
                    6,
                    6);
        });
        plants.add(
                "C12",
                "wrong-bit-drilling",
                STOP,
                (m, fault) -> allAlongTheOutline(
                        bench(m).runs(outline(m, fault ? 5 : 2, -1.7, -1.0, 2).toString())));
        plants.add(
                "C13",
                "duty-broken",
                WATCH,
                (m, fault) -> allAlongTheLoop(bench(m).runs(loop(m, fault ? -0.155 : -0.148))));
        plants.add(
                "C13",
                "duty-broken",
                FIX,
                (m, fault) -> allAlongTheLoop(bench(m).runs(m.text()
                        .start(3)
                        .box(3, 3, 13, 11, fault ? -0.305 : -0.295)
                        .end()
                        .toString())));
        plants.add(
                "C13",
                "duty-broken",
                STOP,
                (m, fault) -> allAlongTheOutline(
                        bench(m).runs(outline(m, fault ? 3 : 2, -1.7, -1.0, 2).toString())));
    }
}
