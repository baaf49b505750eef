package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.TAN;
import static foilproof.corpus.Boards.allAlongTheLoop;
import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Boards.pads;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Boards.trace;
import static foilproof.corpus.Boards.twoGrooves;
import static foilproof.corpus.Boards.twoTraces;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.corpus.Plant.Planted;
import foilproof.findings.Bench;

/** Faults of depth, grooves and strips of copper (needs.md D, E, F). */
final class GroovePlants {
    private GroovePlants() {}

    static void add(Plants plants) {
        depths(plants);
        entriesAndFloors(plants);
        gaps(plants);
        copperLeft(plants);
        copperLost(plants);
        strips(plants);
    }

    private static void depths(Plants plants) {
        plants.add(
                "D1",
                "foil-left",
                STOP,
                (m, fault) -> allAlongTheLoop(bench(m).runs(loop(m, fault ? -0.021 : -0.0235))));
        plants.add("D2", "thin-margin", WATCH, (m, fault) -> margin(m, fault ? -0.050 : -0.046));
        plants.add("D2", "thin-margin", FIX, (m, fault) -> margin(m, fault ? -0.069 : -0.066));
        plants.add("D3", "too-deep", WATCH, (m, fault) -> {
            // a slim pad: a fifth of its width is less than E7 tells; the top counts, 0.03 mm deeper than programmed
            double top = 0.45 * (fault ? 0.79 : 0.81);
            double h = (top + 0.12 + 2 * 0.13 * TAN) / 2;
            double v = 1.5 + (GROOVE_MM - 0.02) / 2;
            Text t = m.text().start(1).box(8 - h, 7 - v, 8 + h, 7 + v, -0.1).end();
            return on(top(m, pads(0.45, 3, 8, 7)).runs(t.toString()), 0)
                    .byLines(11, 16)
                    .along(8, 5.5, 8, 8.5);
        });
        plants.add("D4", "too-deep", WATCH, (m, fault) -> {
            Text t = m.text().start(2).box(3, 3, 13, 11, fault ? -0.33 : -0.31).end();
            return allAlongTheLoop(
                    bench(m).blank("thickness", "0.8 mm").program("a.ngc", t.toString(), "work", "isolation"));
        });
        plants.add("D5", "too-deep", WATCH, (m, fault) -> {
            Text t = m.text().start(5).to(4, 6).down(-0.1, 90).cut(8, 6, 300);
            int line = t.last();
            t.down(fault ? -0.135 : -0.125, 90).cut(12, 6, 300).up().end();
            return at(bench(m).runs(t.toString()), 0, 8, 6).byLines(line, line + 2);
        });
    }

    private static void entriesAndFloors(Plants plants) {
        // Foil and 5 um are cleared from 0.0224 mm, "copper only" ends at 0.15: 0.1276 mm, of which the depth is the
        // middle.
        plants.add("D6", "thin-margin", FIX, (m, fault) -> {
            double e = fault ? 0.0645 : 0.063;
            Bench b = bench(m).spread("z", "[\"-" + e + " mm\", \"" + e + " mm\"]");
            return allAlongTheLoop(b.runs(loop(m, -0.0862))).saying("No depth setting works");
        });
        plants.add("D7", "severed-copper", FIX, (m, fault) -> {
            // the way down lies this far inside the path, so its mark reaches this far into the pad
            double in = fault ? 0.08 : 0.035;
            double h = 1.5 + GROOVE_MM / 2;
            Text t = m.text().start(1).to(8 - h + in, 7).down(-0.1, 90);
            int line = t.last();
            t.cut(8 - h, 7, 300).cut(8 - h, 7 - h, 300).cut(8 + h, 7 - h, 300).cut(8 + h, 7 + h, 300);
            t.cut(8 - h, 7 + h, 300).cut(8 - h, 6.6, 300).up().end();
            return at(top(m, pads(3, 3, 8, 7)).runs(t.toString()), line, 6.5, 7).byLines(line, line + 1);
        });
        plants.add("D8", "floor-left", FIX, (m, fault) -> {
            // the second round stops before the last side
            Text t = m.text().start(5).to(3, 3).down(fault ? -0.07 : -0.085, 90);
            t.cut(13, 3, 300).cut(13, 11, 300).cut(3, 11, 300).cut(3, 3, 300);
            int line = t.last();
            t.down(-0.1, 90)
                    .cut(13, 3, 300)
                    .cut(13, 11, 300)
                    .cut(3, 11, 300)
                    .up()
                    .end();
            Bench b = bench(m).program("a.ngc", t.toString(), "work", "isolation");
            return on(b, line).along(3, 11, 3, 3);
        });
    }

    /** The loop 0.09 mm deep, whose foil is cleared down to 0.0676 mm of error, and Z errors down to this. */
    private static Planted margin(Manner m, double lowest) {
        Bench b = bench(m).spread("z", "[\"" + lowest + " mm\", \"0.030 mm\"]").runs(loop(m, -0.09));
        return allAlongTheLoop(b);
    }

    private static void gaps(Plants plants) {
        plants.add("E3", "narrow-gap", WATCH, (m, fault) -> {
            String t = loop(m, fault ? -0.065 : -0.08);
            return allAlongTheLoop(bench(m).cellUm(10).runs(t));
        });
        plants.add("E4", "narrow-gap", WATCH, (m, fault) -> {
            double gap = fault ? 0.196 : 0.204;
            double z = -(0.0174 + (gap - 0.10) / (2 * TAN));
            double h = gap / 2;
            Text t = m.text().start(5).box(5 - h, 6 - h, 7 + h, 8 + h, z);
            t.box(7 + gap - h, 6 - h, 9 + gap + h, 8 + h, z).end();
            return on(top(m, pads(2, 2, 6, 7, 8 + gap, 7)).runs(t.toString()), 0)
                    .along(7 + h, 6, 7 + h, 8);
        });
        plants.add("E12a", "leakage", NOTE, (m, fault) -> on(
                        twoTraces(m, GROOVE_MM, "[[net]]\nname = \"N0\"\nhigh_impedance = " + fault), 0)
                .along(3, 5.7, 13, 5.7, 13, 6.3, 3, 6.3, 3, 5.7));
    }

    private static void copperLeft(Plants plants) {
        plants.add("E5", "stray-copper", WATCH, (m, fault) -> {
            Text t = m.text().start(2);
            for (int i = 0; i < 8; i++) {
                if (!fault || i != 4) {
                    t.groove(4, 4 + 0.6 * i, 12, 4 + 0.6 * i, -0.1);
                }
            }
            return on(bench(m).cellUm(10).program("a.ngc", t.end().toString(), "work", "clearing"), 0)
                    .along(4, 6.4, 12, 6.4);
        });
        plants.add("E6", "stray-copper", WATCH, (m, fault) -> {
            double side = fault ? 0.80 : 0.95;
            Text t = m.text().start(1).box(6, 6, 6 + side, 6 + side, -0.1).end();
            return at(bench(m).cellUm(10).runs(t.toString()), 0, 6.4, 6.4);
        });
        plants.add("E12", "lettering", NOTE, (m, fault) -> {
            double size = fault ? 0.33 : 0.36;
            Text t = m.text().start(1).groove(5, 5, 5 + size, 5, -0.1).end();
            return at(bench(m).program("a.ngc", t.toString(), "work", "text"), 0, 5, 5);
        });
    }

    private static void copperLost(Plants plants) {
        plants.add("E7", "severed-copper", WATCH, (m, fault) -> {
            double x = fault ? 8.9 : 9 + GROOVE_MM / 2 - 0.03;
            Text t = m.text().start(1).groove(x, 5, x, 9, -0.1);
            int line = t.last() - 1;
            return on(top(m, pads(2, 2, 8, 7)).runs(t.end().toString()), line).along(x, 6, x, 8);
        });
        plants.add("E8", "thin-trace", WATCH, (m, fault) -> trace(m, fault ? 0.246 : 0.254));
        plants.add("E9", "land-small", WATCH, (m, fault) -> {
            // what is lost on each side is copper cut away in its own right
            double h = ((fault ? 0.85 : 0.88) + GROOVE_MM) / 2;
            Text t = m.text().start(1).box(8 - h, 7 - h, 8 + h, 7 + h, -0.1).end();
            return at(top(m, pads(1, 1, 8, 7)).runs(t.toString()), 0, 8, 7)
                    .byLines(11, 16)
                    .orAs("severed-copper");
        });
        plants.add("F5", "thin-trace", FIX, (m, fault) -> trace(m, fault ? 0.146 : 0.154));
    }

    private static void strips(Plants plants) {
        plants.add("F1", "hair", FIX, (m, fault) -> twoGrooves(m, fault ? 0.045 : 0.055));
        plants.add("F1", "sliver", WATCH, (m, fault) -> twoGrooves(m, fault ? 0.24 : 0.26));
        plants.add("F7", "sliver", WATCH, (m, fault) -> {
            double y = (fault ? 0.24 : 0.26) + GROOVE_MM / 2;
            Text t = m.text().start(1).groove(3, y, 13, y, -0.1);
            int line = t.last() - 1;
            return on(bench(m).cellUm(10).runs(t.end().toString()), line).along(3, 0.1, 13, 0.1);
        });
    }
}
