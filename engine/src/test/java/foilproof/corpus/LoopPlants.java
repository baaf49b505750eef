package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.leftAndRight;
import static foilproof.corpus.Boards.pads;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;

/** Grooves that do not close, at their ends, corners and junctions, and burred walls (needs.md E1, E2, E11). */
final class LoopPlants {
    private LoopPlants() {}

    static void add(Plants plants) {
        ends(plants);
        junctions(plants);
        burrs(plants);
    }

    private static void ends(Plants plants) {
        // A round mark begins the groove and one ends it: the foil between is the way between them less a groove's
        // width.
        plants.add("E1", "short", STOP, (m, fault) -> {
            double way = GROOVE_MM + (fault ? 0.05 : -0.02);
            Text t = m.text().start(1).to(8, 3).down(-0.1, 90).cut(13, 3, 300).cut(13, 11, 300);
            t.cut(3, 11, 300).cut(3, 3, 300).cut(8 - way, 3, 300);
            int line = t.last();
            Bench b = bench(m).cellUm(10).runs(t.up().end().toString());
            return at(b, line, 8 - way / 2, 3).byLines(11, line);
        });
        plants.add("E1", "short", STOP, (m, fault) -> {
            double way = GROOVE_MM + (fault ? 0.03 : -0.02);
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).cut(13, 3, 300).cut(13, 11, 300);
            t.cut(3, 11, 300).cut(3, 3 + way, 300);
            int line = t.last();
            Bench b = bench(m).cellUm(10).runs(t.up().end().toString());
            return at(b, line, 3, 3 + way / 2).byLines(11, line);
        });
        plants.add("E1", "backlash", WATCH, (m, fault) -> {
            // come to from the right, left to the right: the start stands half the backlash ahead, the end as much
            // behind
            double way = GROOVE_MM - (fault ? 0.105 : 0.125);
            Text t = m.text().start(1);
            t.line("G0 " + t.xy(12, 3)).to(8, 3).down(-0.1, 90).cut(13, 3, 300).cut(13, 11, 300);
            t.cut(3, 11, 300).cut(3, 3, 300).cut(8 - way, 3, 300);
            int line = t.last();
            Bench b = bench(m).cellUm(10).machine("backlash", "[\"0.115 mm\", \"0.115 mm\"]");
            return at(b.runs(t.up().end().toString()), line, 8, 3).byLines(12, line);
        });
    }

    private static void junctions(Plants plants) {
        plants.add("E2", "short", STOP, (m, fault) -> {
            // the groove between two nets ends this far before the loop's far wall
            double y = 4.9 + GROOVE_MM + (fault ? 0.03 : -0.02);
            Text t = m.text().start(1).box(4.9, 4.9, 10.1, 11.1, -0.1).groove(7.5, 11.1, 7.5, y, -0.1);
            int line = t.last() - 1;
            Bench b = top(m, leftAndRight()).runs(t.end().toString());
            return at(b, line, 7.5, 4.9 + GROOVE_MM / 2);
        });
        plants.add("E2", "short", STOP, (m, fault) -> {
            // two grooves part the nets inside a loop round both, and do not meet in their corner
            double way = GROOVE_MM + (fault ? 0.04 : -0.02);
            Text t = m.text().start(1).box(5, 5, 9, 9, -0.1).groove(7, 5, 7, 7, -0.1);
            int one = t.last() - 1;
            t.groove(5, 7, 7 - way, 7, -0.1);
            int other = t.last() - 1;
            Bench b = top(m, pads(1.6, 1.6, 6, 6, 6, 8)).runs(t.end().toString());
            return at(b, 0, 7 - way / 2, 7).byLines(one, other);
        });
    }

    private static void burrs(Plants plants) {
        plants.add("E11", "burr", NOTE, (m, fault) -> {
            // The cutter turns to the right: with the land on its left it cuts against the feed; 1.4 m of 2 m dull it.
            Text t = m.text().start(1);
            for (int i = 0; i < (fault ? 80 : 4); i++) {
                t.groove(1, 1.6 + 0.15 * i, 19, 1.6 + 0.15 * i, -0.1);
            }
            Bench b = bench(m).blank("substrate", "FR-4");
            return on(b.runs(t.end().toString()), 0).because("tool-wear");
        });
    }
}
