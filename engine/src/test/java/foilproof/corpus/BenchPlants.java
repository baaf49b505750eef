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

/** Faults of set-up, cutters, holes, outline and spoil board (needs.md B, C, G, H, I, L). */
final class BenchPlants {
    private BenchPlants() {}

    private static void add(List<Plant> plants, String row, String kind, Severity severity, Plant.Planter planter) {
        plants.add(new Plant(row, kind, severity, planter));
    }

    static void add(List<Plant> plants) {
        setUp(plants);
        cutters(plants);
        holes(plants);
        outline(plants);
    }

    private static String iso(Manner m, double height) {
        return m.text().start(1).box(3, 3, 13, 11, height).end().toString();
    }

    private static void setUp(List<Plant> plants) {
        add(plants, "B1", "wrong-z-reference", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, fault ? -0.012 : -0.1).end();
            return on(bench(m).program("a.ngc", t.toString(), "work", "isolation"), 0);
        });
        add(
                plants,
                "B2",
                "touch-off-spoilt",
                STOP,
                (m, fault) -> on(
                        bench(m).program("a.ngc", iso(m, -0.1))
                                .program(
                                        "b.ngc",
                                        m.text()
                                                .start(2)
                                                .bore(8, 7, 1.2, 0.8, -1.65)
                                                .end()
                                                .toString(),
                                        "touch_off",
                                        fault ? "[\"13 mm\", \"7 mm\"]" : "[\"14.2 mm\", \"7 mm\"]"),
                        0));
        add(
                plants,
                "B3",
                "touch-off-spoilt",
                STOP,
                (m, fault) -> on(
                        bench(m).program("a.ngc", iso(m, -0.1))
                                .side("probe_clip", "[\"18 mm\", \"1 mm\"]")
                                .program(
                                        "b.ngc",
                                        m.text()
                                                .start(2)
                                                .bore(5, 5, 1.2, 0.8, -1.65)
                                                .end()
                                                .toString(),
                                        "touch_off",
                                        fault ? "[\"10 mm\", \"8 mm\"]" : "[\"15 mm\", \"8 mm\"]"),
                        0));
        add(
                plants,
                "B13",
                "keep-out-contact",
                STOP,
                (m, fault) -> on(bench(m).runs(iso(m, -0.1)).keepOut("bracket", -5, 5, fault ? 2.6 : 0.5, 9, 1.5), 0));
        add(
                plants,
                "B14",
                "beyond-travel",
                STOP,
                (m, fault) -> on(
                        bench(m).machine(
                                        "travel",
                                        "[\"160 mm\", \"100 mm\", \"80 mm\"]",
                                        "blank_at",
                                        "[\"" + (fault ? 148 : 146) + " mm\", \"10 mm\", \"-60 mm\"]")
                                .runs(iso(m, -0.1)),
                        0));
        add(plants, "D2", "thin-margin", WATCH, (m, fault) -> on(bench(m).runs(iso(m, fault ? -0.07 : -0.075)), 0));
        add(plants, "D2", "thin-margin", FIX, (m, fault) -> on(bench(m).runs(iso(m, fault ? -0.045 : -0.075)), 0));
        add(
                plants,
                "L1",
                "dust",
                WATCH,
                (m, fault) -> on(
                        bench(m).blank("substrate", "FR-4")
                                .machine("extraction", fault ? "false" : "true")
                                .runs(iso(m, -0.1)),
                        0));
    }

    private static void cutters(List<Plant> plants) {
        add(plants, "C11", "deep-plunge", STOP, (m, fault) -> {
            Text t = m.text().start(2).to(6, 6).down(-0.3, 90);
            int line = t.last();
            return at(
                    bench(m).tool("cutter", "centre_cutting", fault ? "false" : "true")
                            .runs(t.up().end().toString()),
                    line,
                    6,
                    6);
        });
        add(plants, "C13", "duty-broken", WATCH, (m, fault) -> on(bench(m).runs(iso(m, fault ? -0.155 : -0.148)), 0));
        add(plants, "C13", "duty-broken", FIX, (m, fault) -> on(bench(m).runs(iso(m, fault ? -0.31 : -0.149)), 0));
        add(plants, "C1", "tip-unknown", WATCH, (m, fault) -> {
            String tip = fault ? "unknown" : "0.12 mm";
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .box(3.2, 3.2, 12.8, 10.8, -0.1)
                    .end();
            return on(bench(m).tool("engraver", "tip_width", tip).runs(t.toString()), 0);
        });
        add(plants, "D1", "foil-left", STOP, (m, fault) -> on(bench(m).runs(iso(m, fault ? -0.021 : -0.0235)), 0));
        add(plants, "C6", "chip-load", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(-0.3, 90).cut(12, 4, fault ? 850 : 700);
            return on(bench(m).runs(t.up().end().toString()), 0);
        });
        add(plants, "C5", "chip-load", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(-0.3, 90).cut(12, 4, fault ? 120 : 135);
            return on(bench(m).runs(t.up().end().toString()), 0);
        });
        add(plants, "H7", "deep-pass", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 4).down(fault ? -0.62 : -0.58, 90);
            return on(bench(m).runs(t.cut(12, 4, 200).cut(4, 4, 200).up().end().toString()), 0);
        });
    }

    private static void holes(List<Plant> plants) {
        add(plants, "G1", "wrong-bit-drilling", STOP, (m, fault) -> {
            Text t = m.text().start(5).to(6, 6).down(fault ? -1.8 : -0.12, 90);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        add(plants, "G4", "not-through", FIX, (m, fault) -> {
            Text t = m.text().start(4).to(6, 6).down(fault ? -1.83 : -1.86, 200);
            return at(bench(m).runs(t.up().end().toString()), 0, 6, 6);
        });
        add(plants, "G4", "not-through", FIX, (m, fault) -> {
            Text t = m.text()
                    .start(2)
                    .bore(6, 6, 1.2, 0.8, fault ? -1.54 : -1.555)
                    .end();
            return at(bench(m).runs(t.toString()), 0, 6, 6);
        });
        add(plants, "G6", "deep-plunge", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(6, 6).down(fault ? -1.25 : -1.15, 90);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        add(plants, "G5", "drill-wander", WATCH, (m, fault) -> {
            Text t = m.text().start(6).to(6, 6).down(-1.85, 180);
            Text spot = m.text().start(5).to(6, 6).down(-0.15, 90).up().end();
            var b = bench(m).tool(
                            "small drill",
                            "number",
                            "6",
                            "shape",
                            "drill",
                            "diameter",
                            fault ? "0.55 mm" : "0.6 mm",
                            "included_angle",
                            "118 deg",
                            "flutes",
                            "2",
                            "stick_out",
                            "15 mm",
                            "flute_length",
                            "9 mm",
                            "shank",
                            "3.175 mm",
                            "duty",
                            "any",
                            "runout",
                            "0 mm",
                            "centre_cutting",
                            "true");
            return at(spot.last() > 0 ? b.runs(t.up().end().toString()) : b, 0, 6, 6);
        });
        add(plants, "I2", "spoil-board-deep", WATCH, (m, fault) -> {
            Text t = m.text()
                    .start(2)
                    .bore(6, 6, 1.2, 0.8, fault ? -2.02 : -1.98)
                    .end();
            return at(bench(m).runs(t.toString()), 0, 6, 6);
        });
        add(plants, "I2", "table-contact", STOP, (m, fault) -> {
            Text t = m.text()
                    .start(4)
                    .to(6, 6)
                    .down(fault ? -2.75 : -2.5, 200)
                    .up()
                    .end();
            return at(bench(m).spoilBoard("1.1 mm").runs(t.toString()), 0, 6, 6);
        });
    }

    private static Text around(Manner m, int tool, double height, boolean tabs) {
        Text t = m.text().start(tool).to(2, 2);
        for (double z : new double[] {-0.45, -0.9, -1.35, height}) {
            t.down(z, 90);
            if (tabs && z < -1) {
                tab(t, 6, 2, z, true).cut(15, 2, 200);
                t.cut(15, 12, 200);
                tab(t, 10, 12, z, false).cut(2, 12, 200).cut(2, 2, 200);
            } else {
                t.cut(15, 2, 200).cut(15, 12, 200).cut(2, 12, 200).cut(2, 2, 200);
            }
        }
        return t.up().end();
    }

    private static Text tab(Text t, double x, double y, double z, boolean right) {
        double wide = right ? 3 : -3;
        return t.cut(x, y, 200).down(-1.0, 90).cut(x + wide, y, 200).down(z, 90);
    }

    private static void outline(List<Plant> plants) {
        add(
                plants,
                "H2",
                "part-free",
                STOP,
                (m, fault) -> on(
                        bench(m).blank("hold", "edge clamps", "tape", "0 mm")
                                .runs(around(m, 2, -1.7, !fault).toString()),
                        0));
        add(plants, "H5", "part-free", WATCH, (m, fault) -> {
            String outline = around(m, 2, -1.7, false).toString();
            String bores = m.text().start(2).bore(8, 7, 1.2, 0.8, -1.65).end().toString();
            return on(
                    fault
                            ? bench(m).program("o.ngc", outline).program("b.ngc", bores)
                            : bench(m).program("b.ngc", bores).program("o.ngc", outline),
                    0);
        });
        add(
                plants,
                "H8",
                "not-through",
                FIX,
                (m, fault) -> on(
                        bench(m).runs(around(m, 2, fault ? -1.52 : -1.54, false).toString()), 0));
        add(
                plants,
                "I1",
                "spoil-board-contact",
                STOP,
                (m, fault) ->
                        on(bench(m).runs(around(m, fault ? 3 : 2, -1.7, true).toString()), 0));
        add(
                plants,
                "C13",
                "duty-broken",
                STOP,
                (m, fault) ->
                        on(bench(m).runs(around(m, fault ? 3 : 2, -1.7, true).toString()), 0));
        add(
                plants,
                "C12",
                "wrong-bit-drilling",
                STOP,
                (m, fault) ->
                        on(bench(m).runs(around(m, fault ? 5 : 2, -1.7, true).toString()), 0));
    }
}
