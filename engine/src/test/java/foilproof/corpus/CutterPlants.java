package foilproof.corpus;

import static foilproof.corpus.Boards.TAN;
import static foilproof.corpus.Boards.allAlongTheLoop;
import static foilproof.corpus.Boards.allAlongTheOutline;
import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Boards.outline;
import static foilproof.corpus.Boards.pads;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Boards.trace;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.corpus.Plant.Planted;
import foilproof.findings.Bench;

/** Cutters in the wrong job, worn, or driven wrongly (needs.md C). */
final class CutterPlants {
    private CutterPlants() {}

    static void add(Plants plants) {
        shapeAndWear(plants);
        loads(plants);
        wrongJob(plants);
        tooWide(plants);
        sideLoads(plants);
        shanks(plants);
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

    private static void tooWide(Plants plants) {
        plants.add("C3", "short", STOP, (m, fault) -> {
            // a cutter of 0.8 mm goes round both lands and does not fit between them
            double gap = fault ? 0.78 : 0.82;
            Text t = m.text().start(2).box(4.6, 5.6, 7.4 + gap + 2, 8.4, -0.1);
            if (!fault) {
                t.groove(7 + gap / 2, 5.6, 7 + gap / 2, 8.4, -0.1);
            }
            Bench b = top(m, pads(2, 2, 6, 7, 8 + gap, 7)).runs(t.end().toString());
            return on(b, 0).along(7 + gap / 2, 6, 7 + gap / 2, 8);
        });
    }

    /** A straight groove of the cutter from (4, 7) to (12, 7) at a feed, its flutes and its stick-out as long as said. */
    private static Planted driven(Manner m, Text t, double height, double feed, double flutesMm, double outMm) {
        t.to(4, 7).down(height, 90).cut(12, 7, feed);
        int line = t.last();
        Bench b = bench(m).tool("cutter", "flute_length", flutesMm + " mm", "stick_out", outMm + " mm");
        return on(b.runs(t.up().end().toString()), line).along(4, 7, 12, 7);
    }

    /**
     * Closed forms: the core is 0.56 mm thick, so its section modulus is pi 0.56^3 / 32 = 0.01724 mm3 and its second
     * moment pi 0.56^4 / 64 = 0.004828 mm4; F = k x depth x feed / (16 000 / min x 2 flutes).
     */
    private static void sideLoads(Plants plants) {
        // 2500 MPa on 9 mm of flutes is 4.79 N: at 400 N/mm2 and 0.55 mm a feed of 697 mm/min
        plants.add("C7", "side-load", STOP, (m, fault) -> {
            Planted p = driven(m, m.text().start(2), -0.55, fault ? 715 : 680, 9, 12);
            p.bench().blank("substrate", "FR-4");
            return p;
        });
        // 1000 MPa on 9.6 mm is 1.796 N: at 150 N/mm2 and 0.55 mm a feed of 697 mm/min; no copper wall is near
        plants.add("C7", "side-load", WATCH, (m, fault) -> {
            Text t = m.text().start(3);
            for (double y : new double[] {6.4, 7, 7.6}) {
                t.groove(3.4, y, 12.6, y, -0.1);
            }
            return driven(m, t.change(2).spin(), -0.65, fault ? 715 : 680, 9.6, 12);
        });
        // 8 mm of flutes and 2 mm of shank (second moment 4.988 mm4) yield 0.05898 mm/N: 0.02 mm is 0.339 N, at 150
        // N/mm2
        // and 0.1 mm a feed of 723 mm/min
        plants.add(
                "C8", "side-load", WATCH, (m, fault) -> driven(m, m.text().start(2), -0.1, fault ? 740 : 705, 8, 10));
    }

    private static void shanks(Plants plants) {
        plants.add("C10", "shank-contact", STOP, (m, fault) -> {
            // a shank of 3.175 mm on flutes of 0.8 mm
            Text t = m.text().start(2).bore(6, 6, 1.2, 0.8, -1.65);
            int last = t.last() - 1;
            Bench b = bench(m).tool("cutter", "flute_length", fault ? "1.6 mm" : "1.7 mm");
            // it rubs on a ring from the hole's wall to 1.79 mm
            return on(b.runs(t.end().toString()), 0)
                    .byLines(11, last)
                    .along(7.2, 6, 6.85, 6.85, 6, 7.2, 5.15, 6.85, 4.8, 6, 5.15, 5.15, 6, 4.8, 6.85, 5.15, 7.2, 6);
        });
        plants.add("C10", "shank-contact", FIX, (m, fault) -> {
            // a drill as thick above its flutes as below
            Text t = m.text().start(4).plunge(6, 6, -1.9, 200);
            int line = t.last() - 1;
            Bench b = bench(m).tool("drill", "shank", "1.0 mm", "flute_length", fault ? "1.85 mm" : "1.95 mm");
            return at(b.runs(t.end().toString()), line, 6, 6);
        });
    }
}
