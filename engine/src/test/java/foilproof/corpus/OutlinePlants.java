package foilproof.corpus;

import static foilproof.corpus.Boards.allAlongTheOutline;
import static foilproof.corpus.Boards.bore;
import static foilproof.corpus.Boards.contour;
import static foilproof.corpus.Boards.g;
import static foilproof.corpus.Boards.outline;
import static foilproof.corpus.Boards.pads;
import static foilproof.corpus.Boards.top;
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
import foilproof.findings.Severity;
import java.util.List;

/** Faults of outline, tabs, loose parts, spoil board and fixture (needs.md H, I). */
final class OutlinePlants {
    private OutlinePlants() {}

    static void add(Plants plants) {
        size(plants);
        parts(plants);
        depth(plants);
        corners(plants);
    }

    private static void size(Plants plants) {
        for (Severity severity : List.of(WATCH, STOP)) {
            plants.add("H1", "outline-off", severity, (m, fault) -> {
                // the path round 13 x 10 leaves 12.2 x 9.2 mm; off by 0.4 mm it is off by the radius
                double off = severity == WATCH ? (fault ? 0.11 : 0.09) : (fault ? 0.4 : 0.3);
                Bench b = bench(m).designKeys("finished_size", m.size(12.2 + off, 9.2 + off));
                return on(b.runs(outline(m, 2, -1.7, -1, 0).toString()), 0);
            });
        }
        plants.add("H10", "edge-copper", WATCH, (m, fault) -> {
            double gap = fault ? 0.24 : 0.26;
            Bench b = top(m, pads(2, 2, 3.4 + gap, 7)).cellUm(20);
            double x = 2.4 + gap;
            return on(b.runs(outline(m, 2, -1.7, -1, 0).toString()), 0).along(x, 6, x, 8);
        });
        plants.add("H11", "outline-off", WATCH, (m, fault) -> {
            Bench b = bench(m).designKeys("finished_size", m.size(fault ? 12.26 : 12.24, 9.2))
                    .also("[limits]\nfit_allowance_most = \"0.05 mm\"");
            return on(b.runs(outline(m, 2, -1.7, -1.0, 2).toString()), 0);
        });
    }

    private static void parts(Plants plants) {
        plants.add("H2", "part-free", STOP, (m, fault) -> {
            Text t = outline(m, 2, -1.7, -1.0, fault ? 0 : 2);
            int line = t.last() - 4;
            return at(bench(m).blank("hold", "edge clamps", "tape", "0 mm").runs(t.toString()), line, 2, 2);
        });
        plants.add("H3", "tabs", WATCH, (m, fault) -> on(
                        bench(m).runs(outline(m, 2, -1.7, -1.0, fault ? 1 : 2).toString()), 0)
                .along(6, 2, 9, 2));
        plants.add("H4", "tabs", WATCH, (m, fault) -> on(
                        bench(m).runs(outline(m, 2, -1.7, fault ? -1.45 : -1.42, 2)
                                .toString()),
                        0)
                .along(6, 2, 9, 2));
        plants.add("H5", "part-free", WATCH, (m, fault) -> {
            String outline = outline(m, 2, -1.7, -1.0, 0).toString();
            Bench b = fault
                    ? bench(m).program("o.ngc", outline).program("b.ngc", bore(m, 8, 7))
                    : bench(m).program("b.ngc", bore(m, 8, 7)).program("o.ngc", outline);
            return at(b, 12, 8, 7);
        });
        plants.add("H6", "part-free", FIX, (m, fault) -> {
            double side = fault ? 4.2 : 3.7;
            Text t = m.text().start(2).to(5, 5);
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.down(z, 90).cut(5 + side, 5, 200).cut(5 + side, 5 + side, 200);
                t.cut(5, 5 + side, 200).cut(5, 5, 200);
            }
            int line = t.last();
            outline(t.up(), -1.7, -1.0, 2).end();
            Bench b = bench(m).blank("hold", "edge clamps", "tape", "0 mm");
            return on(b.runs(t.toString()), line).along(5, 5, 5 + side / 2, 5 + side / 2);
        });
    }

    private static void depth(Plants plants) {
        plants.add("H7", "deep-pass", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(fault ? -0.62 : -0.58, 90).cut(12, 4, 200);
            int line = t.last();
            return on(bench(m).runs(t.cut(4, 4, 200).up().end().toString()), line)
                    .along(4, 4, 12, 4);
        });
        plants.add(
                "H8",
                "not-through",
                FIX,
                (m, fault) -> lastPass(bench(m).runs(
                                outline(m, 2, fault ? -1.52 : -1.54, -1, 0).toString())));
        plants.add("I1", "spoil-board-contact", STOP, (m, fault) -> allAlongTheOutline(
                        bench(m).runs(outline(m, fault ? 3 : 2, -1.7, -1.0, 2).toString()))
                .because("duty-broken"));
    }

    /** A fault of the last pass of an outline without tabs. */
    private static Planted lastPass(Bench bench) {
        return allAlongTheOutline(bench).byLines(26, 30);
    }

    private static void corners(Plants plants) {
        plants.add("H9", "corner-left", NOTE, (m, fault) -> {
            // an L whose inside corner is rounded by the path: 1.5 mm is more than the cutter's 0.4 mm and 0.1 mm
            double r = (fault ? 1.5 : 0.45) - 0.4;
            Text t = m.text().start(2).to(1.6, 1.6);
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.down(z, 90).cut(15.4, 1.6, 200).cut(15.4, 7.4, 200).cut(9.4 + r, 7.4, 200);
                t.line("G2 " + t.xy(9.4, 7.4 + r) + " " + t.ij(0, r));
                t.cut(9.4, 12.4, 200).cut(1.6, 12.4, 200).cut(1.6, 1.6, 200);
            }
            String outline = contour(2, 2, 15, 12)
                    .replace(
                            "X" + g(15) + "Y" + g(12) + "D01*",
                            "X" + g(15) + "Y" + g(7) + "D01*\nX" + g(9) + "Y" + g(7) + "D01*\nX" + g(9) + "Y" + g(12)
                                    + "D01*");
            Bench b = m.placed(bench(m).side("face", "top").cellUm(20).design("outline", "outline.gbr", outline));
            return at(b.runs(t.up().end().toString()), 0, 9.2, 7.2);
        });
    }
}
