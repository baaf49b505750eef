package foilproof.corpus;

import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Severity;
import java.util.List;

/** Faults in the text of a program (needs.md A). */
final class ProgramPlants {
    private ProgramPlants() {}

    private static void add(List<Plant> plants, String row, String kind, Severity severity, Plant.Planter planter) {
        plants.add(new Plant(row, kind, severity, planter));
    }

    static void add(List<Plant> plants) {
        words(plants);
        state(plants);
        moves(plants);
    }

    private static void words(List<Plant> plants) {
        add(plants, "A1", "units-unset", STOP, (m, fault) -> {
            Text t = m.text()
                    .line("G90 G91.1 G94 G17 G40 G49 G80 G54 G61")
                    .change(1)
                    .spin();
            t.box(3, 3, 13, 11, -0.1).end();
            return on(
                    bench(m).machine("units", fault ? "unknown" : m.inch() ? "inch" : "mm")
                            .runs(t.toString()),
                    3);
        });
        add(plants, "A2", "wrong-z-reference", STOP, (m, fault) -> {
            Text t = m.text().start(5).to(3, 3).down(fault ? -1.0 : -0.49, 90);
            int line = t.last();
            t.cut(13, 3, 300).up().end();
            return at(bench(m).program("a.ngc", t.toString(), "work", "isolation"), line, 3, 3);
        });
        add(plants, "A3", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90);
            String cut = "G1 " + t.xy(13, 3) + " F" + t.z(300);
            t.line(fault ? cut.replaceFirst("\\.", ",") : cut);
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        add(plants, "A19", "program-truncated", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).cut(13, 3, 300);
            if (!fault) {
                t.up();
            }
            return on(bench(m).runs(t.toString()), t.last());
        });
        add(plants, "A20", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, -0.1).line(fault ? "M98 P100" : "M9");
            int line = t.last();
            return on(bench(m).runs(t.end().toString()), line);
        });
        add(plants, "A20", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).line(fault ? "G1 G0 " + t0(m) : "G1 " + t0(m));
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        add(plants, "A12", "tool-unknown", STOP, (m, fault) -> {
            Text t = m.text().head().line("M5").line("G0 Z" + m.text().z(25)).line((fault ? "T9" : "T1") + " M6");
            int line = t.last();
            t.line("M0").spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), line);
        });
        add(plants, "A16", "cycle-suspect", STOP, (m, fault) -> {
            Text t = m.text()
                    .start(4)
                    .line("G99 G81 " + m.text().xy(5, 5) + " Z" + m.text().z(-2.05) + " R"
                            + m.text().z(fault ? -0.1 : 0.6) + " F" + m.text().z(200));
            int line = t.last();
            return on(bench(m).runs(t.line("G80").end().toString()), line);
        });
    }

    private static String t0(Manner m) {
        return m.text().xy(13, 3) + " F" + m.text().z(300);
    }

    private static void state(List<Plant> plants) {
        add(plants, "A4", "distance-mode", STOP, (m, fault) -> {
            String head = (m.inch() ? "G20" : "G21") + (fault ? "" : " G90") + " G91.1 G94 G17 G40 G49 G80 G54 G61";
            Text t =
                    m.text().line(head).change(1).spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "A9", "feed-unset", STOP, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .to(3, 3)
                    .line("G1 Z" + m.text().z(-0.1)
                            + (fault ? "" : " F" + m.text().z(90)));
            int line = t.last();
            t.line("G1 " + m.text().xy(13, 3)).up().end();
            return at(bench(m).runs(t.toString()), line, 3, 3);
        });
        add(plants, "A9", "feed-too-high", FIX, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).cut(13, 3, fault ? 1210 : 1199);
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        add(plants, "A10", "spindle-not-turning", STOP, (m, fault) -> {
            Text t = m.text()
                    .head()
                    .change(1)
                    .line(fault ? "S16000" : "S16000 M3")
                    .line("G4 P3")
                    .up()
                    .to(3, 3)
                    .down(-0.1, 90);
            int line = t.last();
            return at(bench(m).runs(t.cut(13, 3, 300).up().end().toString()), line, 3, 3);
        });
        add(plants, "A10", "spindle-not-turning", STOP, (m, fault) -> {
            Text t = m.text()
                    .head()
                    .change(1)
                    .line(fault ? "S16000 M4" : "S16000 M3")
                    .line("G4 P3")
                    .up()
                    .to(3, 3)
                    .down(-0.1, 90);
            int line = t.last();
            return at(bench(m).runs(t.cut(13, 3, 300).up().end().toString()), line, 3, 3);
        });
        add(plants, "A10", "spindle-speed", STOP, (m, fault) -> {
            Text t = m.text().head().change(1).line(fault ? "S24100 M3" : "S23900 M3");
            t.line("G4 P3").up().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "A13", "length-offset", STOP, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("M5")
                    .line("G0 Z" + m.text().z(25))
                    .line("T2 M6");
            // The first turn that cuts: spindle, dwell, lift, two rapids, and the way down to the foil come before it.
            int line = t.last() + 7;
            if (!fault) {
                t.line("M0");
            }
            t.spin().bore(6, 6, 1.2, 0.8, -1.65).end();
            return on(bench(m).machine("on_tool_change", "ignored").runs(t.toString()), line);
        });
        add(plants, "L4", "unsafe-pause", STOP, (m, fault) -> {
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
    }

    private static void moves(List<Plant> plants) {
        add(plants, "A7", "rapid-in-material", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3);
            t.line((fault ? "G0 Z" : "G1 F" + m.text().z(90) + " Z") + m.text().z(-0.1));
            int line = t.last();
            return at(bench(m).runs(t.cut(13, 3, 300).up().end().toString()), line, 3, 3);
        });
        add(plants, "B15", "rapid-in-material", WATCH, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("G0 Z" + m.text().z(fault ? 0.17 : 0.24));
            t.line("G0 " + m.text().xy(8, 3));
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        add(plants, "A9", "plunge-too-fast", FIX, (m, fault) -> {
            Text t = m.text().start(2).to(6, 6).down(-0.35, fault ? 310 : 290);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        add(plants, "A14", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(8, 5).down(-0.1, 90);
            double off = fault ? 0.03 : 0.002;
            t.line("G3 " + m.text().xy(8, 9) + " I" + m.text().z(0) + " J"
                    + m.text().z(2 + off) + " F" + m.text().z(300));
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        add(plants, "A15", "arc-suspect", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(6, 7).down(-0.1, 90);
            for (int i = 1; i <= 5; i++) {
                t.cut(6 + 0.1 * i, 7, 300);
            }
            t.line("G2 " + (fault ? m.text().xy(6.5, 7) : m.text().xy(6.6, 7)) + " I"
                    + m.text().z(0.05) + " J" + m.text().z(fault ? -3 : 0));
            int line = t.last();
            for (int i = 2; i <= 6; i++) {
                t.cut(6.5 + 0.1 * i, 7, 300);
            }
            return on(bench(m).runs(t.up().end().toString()), line);
        });
    }
}
