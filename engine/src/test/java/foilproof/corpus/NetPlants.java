package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.bore;
import static foilproof.corpus.Boards.holes;
import static foilproof.corpus.Boards.leftAndRight;
import static foilproof.corpus.Boards.pads;
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
import foilproof.findings.Bench;
import java.util.Locale;

/** Faults of the electrical result (needs.md J). */
final class NetPlants {
    private NetPlants() {}

    static void add(Plants plants) {
        opensAndShorts(plants);
        gaps(plants);
        lists(plants);
        hands(plants);
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

    private static void lists(Plants plants) {
        plants.add("J3", "netlist-differs", WATCH, (m, fault) -> {
            // LEFT and RIGHT of the layer image; the fault has the upper land in RIGHT
            String point = "327%-14s   J1    -%d          A01X%+07dY%+07dX1600Y0000R000 S0\n";
            String list = "P  UNITS CUST 1\n"
                    + String.format(Locale.ROOT, point, "LEFT", 1, 6000, 6000)
                    + String.format(Locale.ROOT, point, fault ? "RIGHT" : "LEFT", 3, 6000, 10000)
                    + String.format(Locale.ROOT, point, "RIGHT", 2, 9000, 6000)
                    + "999\n";
            Text t = m.text().start(1).box(4.9, 4.9, 7.1, 11.1, -0.1).box(7.9, 4.9, 10.1, 7.1, -0.1);
            Bench b = top(m, leftAndRight()).design("netlist", "board.ipc", list);
            return on(b.runs(t.end().toString()), 0);
        });
    }

    private static void hands(Plants plants) {
        plants.add("J8", "hand-joins", NOTE, (m, fault) -> {
            Text t = m.text().start(1).box(4.9, 4.9, 7.1, 11.1, -0.1).box(7.9, 4.9, 10.1, 7.1, -0.1);
            if (fault) {
                t.groove(4.9, 8, 7.1, 8, -0.1);
            }
            Bench b = top(m, leftAndRight()).runs(t.end().toString());
            if (fault) {
                b.also("[[join]]\nfrom = [\"6 mm\", \"6 mm\", \"top\"]\nto = [\"6 mm\", \"10 mm\", \"top\"]\n"
                        + "wire = \"0.5 mm\"");
            }
            return on(b, 0).because("severed-copper");
        });
        plants.add("J8", "open", WATCH, (m, fault) -> {
            // a via in a land of 2.2 mm on both faces, with a wire through it or without
            double h = (2.2 + GROOVE_MM) / 2;
            Text copper =
                    m.text().start(1).box(8 - h, 7 - h, 8 + h, 7 + h, -0.1).end();
            Text back =
                    m.text().start(1).box(12 - h, 7 - h, 12 + h, 7 + h, -0.1).end();
            String image = pads(2.2, 2.2, 8, 7).replace("ComponentPad", "ViaPad");
            Bench b = top(m, image).design("bottom_copper", "bottom.gbr", image).blank("copper", "both sides");
            b.design("drill", "holes.drl", holes(1.2, 8, 7)).program("a.ngc", copper.toString());
            b.program("b.ngc", bore(m, 8, 7)).nextSide("bottom", m.turned("about Y"));
            b.side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5), "deburred", "true");
            if (!fault) {
                b.also("[[join]]\nat = [\"8 mm\", \"7 mm\"]\nwire = \"0.9 mm\"");
            }
            // the place may be told on either side
            return on(b.program("c.ngc", back.toString()), 0).along(8, 7, 12, 7);
        });
    }
}
