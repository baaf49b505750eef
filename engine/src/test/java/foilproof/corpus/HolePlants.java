package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.bore;
import static foilproof.corpus.Boards.drilled;
import static foilproof.corpus.Boards.g;
import static foilproof.corpus.Boards.holes;
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
import java.util.Locale;

/** Faults of drilled and bored holes (needs.md G). */
final class HolePlants {
    private HolePlants() {}

    static void add(Plants plants) {
        sizeAndPlace(plants);
        through(plants);
        plunges(plants);
        rings(plants);
        nearAndClose(plants);
        lists(plants);
    }

    /** One plunge of a cutter at (6, 6). */
    private static Planted plunge(Manner m, int tool, double height, double feed) {
        Text t = m.text().start(tool).plunge(6, 6, height, feed);
        int line = t.last() - 1;
        return at(bench(m).runs(t.end().toString()), line, 6, 6);
    }

    /** One bore at (6, 6). */
    private static Planted bored(Manner m, double hole, double height) {
        Text t = m.text().start(2).bore(6, 6, hole, 0.8, height);
        int last = t.last() - 1;
        return at(bench(m).runs(t.end().toString()), 0, 6, 6).byLines(11, last);
    }

    private static void sizeAndPlace(Plants plants) {
        plants.add("G1", "wrong-bit-drilling", STOP, (m, fault) -> plunge(m, 5, fault ? -1.8 : -0.12, 90));
        plants.add("G2", "hole-size", FIX, (m, fault) -> {
            Text t = m.text().start(2).bore(6, 6, fault ? 1.37 : 1.33, 0.8, -1.65);
            int last = t.last() - 1;
            return at(drilled(m, holes(1.2, 6, 6)).runs(t.end().toString()), 0, 6, 6)
                    .byLines(11, last);
        });
        plants.add("G3", "hole-missing", STOP, (m, fault) -> {
            Text t = m.text().start(2).bore(6, 6, 1.2, 0.8, -1.65);
            t.bore(fault ? 10.2 : 10.1, 8, 1.2, 0.8, -1.65).end();
            return at(drilled(m, holes(1.2, 6, 6, 10, 8)).runs(t.toString()), 0, 10, 8);
        });
        plants.add("G7", "bore-tight", NOTE, (m, fault) -> bored(m, fault ? 0.88 : 0.92, -1.65));
    }

    private static void through(Plants plants) {
        plants.add("G4", "not-through", FIX, (m, fault) -> plunge(m, 4, fault ? -1.83 : -1.86, 200));
        plants.add("G4", "not-through", FIX, (m, fault) -> bored(m, 1.2, fault ? -1.54 : -1.555));
        plants.add("I2", "spoil-board-deep", WATCH, (m, fault) -> bored(m, 1.2, fault ? -2.02 : -1.98));
        plants.add("I2", "table-contact", STOP, (m, fault) -> {
            Text t = m.text().start(4).plunge(6, 6, fault ? -2.75 : -2.5, 200);
            int line = t.last() - 1;
            return at(bench(m).spoilBoard("1.1 mm").runs(t.end().toString()), line, 6, 6);
        });
    }

    private static void plunges(Plants plants) {
        plants.add("G5", "drill-wander", WATCH, (m, fault) -> {
            Text t = m.text().start(6).plunge(6, 6, -1.85, 180);
            int line = t.last() - 1;
            Bench b = bench(m).tool("small drill", "number", "6", "shape", "drill", "included_angle", "118 deg")
                    .tool("small drill", "diameter", fault ? "0.55 mm" : "0.6 mm", "flutes", "2", "duty", "any")
                    .tool("small drill", "stick_out", "15 mm", "flute_length", "9 mm", "shank", "3.175 mm")
                    .tool("small drill", "runout", "0 mm", "centre_cutting", "true");
            return at(b.runs(t.end().toString()), line, 6, 6);
        });
        plants.add("G6", "deep-plunge", WATCH, (m, fault) -> {
            Planted p = plunge(m, 2, -1.65, 90);
            p.bench().tool("cutter", "diameter", fault ? "1.09 mm" : "1.11 mm");
            return p;
        });
        plants.add("G11", "chip-load", WATCH, (m, fault) -> plunge(m, 4, -1.9, fault ? 75 : 85));
        plants.add("G11", "plunge-too-fast", WATCH, (m, fault) -> plunge(m, 4, -1.9, fault ? 820 : 780));
        plants.add("G14", "order", WATCH, (m, fault) -> {
            String outline = outline(m, 2, -1.7, -1.0, 2).toString();
            String bores = bore(m, 8, 7);
            return on(
                    fault
                            ? bench(m).program("o.ngc", outline).program("b.ngc", bores)
                            : bench(m).program("b.ngc", bores).program("o.ngc", outline),
                    0);
        });
    }

    private static void rings(Plants plants) {
        for (Severity severity : List.of(WATCH, FIX)) {
            plants.add("G8", "ring-thin", severity, (m, fault) -> {
                double ring = (severity == FIX ? 0.15 : 0.30) + (fault ? -0.006 : 0.006);
                double side = 1.2 + 2 * ring;
                double h = (side + GROOVE_MM) / 2;
                Text t = m.text().start(1).box(8 - h, 7 - h, 8 + h, 7 + h, -0.1).end();
                Bench b = top(m, pads(side, side, 8, 7)).program("a.ngc", t.toString());
                return at(b.program("b.ngc", bore(m, 8, 7)), 0, 8, 7);
            });
        }
    }

    private static void nearAndClose(Plants plants) {
        for (Severity severity : List.of(WATCH, STOP)) {
            plants.add("G9", "narrow-gap", severity, (m, fault) -> {
                // a hole of 1.2 mm in the wide groove beside a land
                double gap = severity == WATCH ? (fault ? 0.19 : 0.21) : (fault ? -0.03 : 0.05);
                Text t = m.text().start(2).box(4.6, 5.6, 7.4, 8.4, -0.1).bore(7.6 + gap, 7, 1.2, 0.8, -1.65);
                Bench b = top(m, pads(2, 2, 6, 7)).cellUm(10).design("drill", "holes.drl", holes(1.2, 7.6 + gap, 7));
                return at(b.runs(t.end().toString()), 0, 7, 7);
            });
        }
        plants.add("G10", "slot-web", FIX, (m, fault) -> {
            // holes of 1 mm side by side leave cusps of 0.5 - sqrt(0.25 - step^2 / 4): 0.05 mm at 0.436 mm
            double step = fault ? 0.46 : 0.41;
            Text t = m.text().start(4);
            for (int i = 0; i < 8; i++) {
                t.plunge(6 + i * step, 7, -1.9, 200);
            }
            double far = 6 + 7 * step;
            String slot = "M48\nMETRIC\nT1C1.000\n%\nG05\nT1\nX6.0Y7.0G85X" + String.format(Locale.ROOT, "%.4f", far)
                    + "Y7.0\nM30\n";
            return on(drilled(m, slot).cellUm(10).runs(t.end().toString()), 0).along(6, 7, far, 7);
        });
    }

    private static void lists(Plants plants) {
        plants.add("G12", "via-list", NOTE, (m, fault) -> listed(m, fault ? "ViaPad" : "ComponentPad", false)
                .because("open"));
        plants.add("G13", "solder-access", NOTE, (m, fault) -> listed(m, "ComponentPad", fault));
    }

    /** A land on both faces with a hole for a wire or a pin, and a trace of 0.6 mm that leaves it on the top or does not. */
    private static Planted listed(Manner m, String use, boolean trace) {
        double h = (2.2 + GROOVE_MM) / 2;
        double w = (0.6 + GROOVE_MM) / 2;
        Text copper = m.text().start(1).to(8 - h, 7 - h).down(-0.1, 90).cut(8 + h, 7 - h, 300);
        if (trace) {
            copper.cut(8 + h, 7 - w, 300)
                    .cut(12 + w, 7 - w, 300)
                    .cut(12 + w, 7 + w, 300)
                    .cut(8 + h, 7 + w, 300);
        }
        copper.cut(8 + h, 7 + h, 300)
                .cut(8 - h, 7 + h, 300)
                .cut(8 - h, 7 - h, 300)
                .cut(8 - h + 0.4, 7 - h, 300);
        copper.up().end();
        Text back = m.text().start(1).box(12 - h, 7 - h, 12 + h, 7 + h, -0.1).end();
        String image = pads(2.2, 2.2, 8, 7).replace("ComponentPad", use);
        String leaves = "%TD.P*%\n%TA.AperFunction,Conductor*%\n%ADD11C,0.6*%\nD11*\nG01*\nX" + g(8) + "Y" + g(7)
                + "D02*\nX" + g(12) + "Y" + g(7) + "D01*\nM02*\n";
        Bench b = top(m, trace ? image.replace("M02*\n", leaves) : image);
        b.design("bottom_copper", "bottom.gbr", image).blank("copper", "both sides");
        b.design("drill", "holes.drl", holes(1.2, 8, 7)).program("a.ngc", copper.toString());
        b.program("b.ngc", bore(m, 8, 7)).nextSide("bottom", m.turned("about Y"));
        b.side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5), "deburred", "true");
        return on(b.program("c.ngc", back.toString()), 0);
    }
}
