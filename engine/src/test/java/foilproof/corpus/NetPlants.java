package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.leftAndRight;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Boards.twoTraces;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;

/** Faults of the electrical result (needs.md J). */
final class NetPlants {
    private NetPlants() {}

    static void add(Plants plants) {
        opensAndShorts(plants);
        gaps(plants);
    }

    private static void opensAndShorts(Plants plants) {
        plants.add("J1", "short", STOP, (m, fault) -> {
            // One loop round both nets, and a groove between them that stops short of the far wall.
            Text t = m.text().start(1).box(4.9, 4.9, 10.1, 11.1, -0.1);
            t.groove(7.5, 11.1, 7.5, fault ? 5.7 : 4.9, -0.1);
            int line = t.last() - 1;
            return at(top(m, leftAndRight()).runs(t.end().toString()), line, 7.5, 5.3);
        });
        plants.add("J2", "open", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(4.9, 4.9, 7.1, 11.1, -0.1).box(7.9, 4.9, 10.1, 7.1, -0.1);
            t.groove(4.9, 8, fault ? 7.1 : 5.5, 8, -0.1);
            int line = t.last() - 1;
            return at(top(m, leftAndRight()).runs(t.end().toString()), line, 6, 8);
        });
        plants.add("J4", "short", WATCH, (m, fault) -> {
            double half = ((fault ? 0.15 : 0.25) + GROOVE_MM) / 2;
            Text t = m.text().start(1).groove(0, 7, 10 - half, 7, -0.1);
            t.groove(10 + half, 7, 20, 7, -0.1).end();
            return at(bench(m).cellUm(10).runs(t.toString()), 0, 10, 7).byLines(11, 17);
        });
    }

    private static void gaps(Plants plants) {
        plants.add("J7", "spacing", FIX, (m, fault) -> on(
                        twoTraces(m, 0.3, "[[net]]\nname = \"N0\"\nvoltage = \"" + (fault ? 31 : 30) + " V\""), 0)
                .along(3, 5.7, 13, 5.7, 13, 6.3, 3, 6.3, 3, 5.7));
        plants.add("J9a", "flood-gap", NOTE, (m, fault) -> on(
                        twoTraces(m, 0.3, "[[net]]\nname = \"N0\"\nflooded = " + !fault), 0)
                .along(3, 6.3, 13, 6.3));
    }
}
