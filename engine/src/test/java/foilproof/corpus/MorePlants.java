package foilproof.corpus;

import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;
import foilproof.findings.Severity;
import java.util.List;
import java.util.Locale;

/** Further rows of the catalogue: text, set-up, grooves, lands, outline, nets (needs.md A to J). */
final class MorePlants {
    private static final double TAN = StrictMath.tan(StrictMath.toRadians(15));
    /** Half-ounce foil, 30 deg, tip 0.12, at 0.1 deep: the groove is this wide at the foil bottom, mm (closed form). */
    private static final double GROOVE_MM = 0.12 + 2 * (0.1 - 0.0174) * TAN;

    private MorePlants() {}

    private static void add(List<Plant> plants, String row, String kind, Severity severity, Plant.Planter planter) {
        plants.add(new Plant(row, kind, severity, planter));
    }

    static void add(List<Plant> plants) {
        text(plants);
        setUp(plants);
        walls(plants);
        lands(plants);
        holes(plants);
        outline(plants);
        nets(plants);
        shop(plants);
        parts(plants);
    }

    private static void text(List<Plant> plants) {
        add(plants, "A5", "work-offset", FIX, (m, fault) -> {
            Text t = m.text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300).up();
            t.line(fault ? "G55" : "G54");
            int line = t.last();
            t.to(4, 8).down(-0.1, 90).cut(12, 8, 300).up().end();
            return on(bench(m).runs(t.toString()), line);
        });
        add(plants, "A18", "path-blending", WATCH, (m, fault) -> {
            Text t = m.text().head().line("G64 P" + m.text().z(fault ? 0.021 : 0.019));
            t.change(1).spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "A21", "block-delete", WATCH, (m, fault) -> {
            Manner plain = new Manner(m.name(), m.inch(), m.small(), false, m.zeroXMm(), m.zeroYMm());
            Text t = plain.text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300);
            t.line(fault ? "/G1 " + t.xy(12, 9) : "/M8").up().end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "A24", "start-state", WATCH, (m, fault) -> {
            String units = m.inch() ? "G20" : "G21";
            Text t = m.text().line(units + " G90 G91.1 G94" + (fault ? "" : " G17") + " G40 G49 G80 G54 G61");
            t.change(2).spin().bore(8, 7, 1.2, 0.8, -1.65).end();
            return at(bench(m).runs(t.toString()), 0, 8, 7);
        });
        add(plants, "L5", "rapid-in-material", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300).cut(12, 9, 300);
            int line = t.last();
            t.up().end();
            return at(bench(m).runs(t.toString()).restartsAt(line, fault), line, 12, 5);
        });
    }

    /** A foil that rises by so much over 10 mm along X. */
    private static Bench tilted(Bench b, double rise) {
        String h = String.format(Locale.ROOT, "%.4f mm", 2 * rise);
        return b.blank(
                "surface",
                "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"20 mm\",\"0 mm\",\"" + h
                        + "\"],[\"0 mm\",\"15 mm\",\"0 mm\"],[\"20 mm\",\"15 mm\",\"" + h + "\"]]");
    }

    private static Text box(Manner m) {
        return m.text().start(1).box(3, 3, 13, 11, -0.1).end();
    }

    private static void setUp(List<Plant> plants) {
        add(
                plants,
                "B6",
                "tilt",
                FIX,
                (m, fault) -> on(tilted(bench(m), fault ? 0.052 : 0.048).runs(box(m).toString()), 0));
        add(plants, "B7", "height-map-twice", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 5).down(-0.082, 90);
            for (int i = 1; i <= 10; i++) {
                double z = fault ? -0.1 + 0.006 * (3 + i) : -0.082;
                t.line("G1 " + t.xy(3 + i, 5) + " Z" + t.z(z) + " F" + t.z(300));
            }
            return on(
                    tilted(bench(m), 0.06)
                            .machine("applies_height_map", "true")
                            .runs(t.up().end().toString()),
                    0);
        });
        add(plants, "B16", "blank-thickness", WATCH, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .line("G0 " + m.text().xy(4, 5))
                    .line("G0 Z" + m.text().z(3));
            t.down(1.5, 90).cut(12, 5, 300).cut(12, 9, 300).up().end();
            return on(
                    bench(m).side("z_zero", "spoil board")
                            .spread("thickness", fault ? "0.080 mm" : "0.075 mm")
                            .runs(t.toString()),
                    0);
        });
        add(plants, "B18", "backlash", WATCH, (m, fault) -> {
            double gap = GROOVE_MM - (fault ? 0.03 : 0.06);
            Text t = m.text().start(1).line("G0 " + m.text().xy(3, 1)).to(3, 3).down(-0.1, 90);
            t.cut(13, 3, 300).cut(13, 11, 300).cut(3, 11, 300).cut(3, 3 + gap, 300);
            int line = t.last();
            Bench b = bench(m).cellUm(10).machine("backlash", "[\"0.05 mm\", \"0.05 mm\"]");
            return at(b.runs(t.up().end().toString()), line, 3, 3);
        });
        add(plants, "C4", "tool-wear", WATCH, (m, fault) -> {
            Text t = m.text().start(1);
            for (int i = 0; i < (fault ? 80 : 75); i++) {
                t.to(1, 0.6 + 0.17 * i)
                        .down(-0.1, 90)
                        .cut(19, 0.6 + 0.17 * i, 300)
                        .up();
            }
            return on(bench(m).blank("substrate", "FR-4").runs(t.end().toString()), 0);
        });
    }

    private static Bench trace(Manner m, double width) {
        Text t = m.text().start(1).box(3, 5, 13, 5 + width + GROOVE_MM, -0.1).end();
        return bench(m).cellUm(10).machine("backlash", "[\"0 mm\", \"0 mm\"]").runs(t.toString());
    }

    private static void walls(List<Plant> plants) {
        add(plants, "E8", "thin-trace", WATCH, (m, fault) -> on(trace(m, fault ? 0.246 : 0.254), 0));
        add(plants, "F5", "thin-trace", FIX, (m, fault) -> on(trace(m, fault ? 0.146 : 0.154), 0));
        double each = (0.1 - 0.0174) * (StrictMath.tan(StrictMath.toRadians(30)) - TAN);
        add(plants, "C2", "angle-doubt", WATCH, (m, fault) -> on(trace(m, (fault ? 0.146 : 0.154) + 2 * each), 0));
        add(plants, "C9", "runout", WATCH, (m, fault) -> on(trace(m, fault ? 0.196 : 0.204), 0));
        add(plants, "D5", "too-deep", WATCH, (m, fault) -> {
            Text t = m.text().start(1).to(4, 6).down(-0.1, 90).cut(8, 6, 300);
            t.down(fault ? -0.135 : -0.125, 90).cut(12, 6, 300).up().end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "F7", "sliver", WATCH, (m, fault) -> {
            double y = (fault ? 0.24 : 0.26) + GROOVE_MM / 2;
            Text t = m.text()
                    .start(1)
                    .to(3, y)
                    .down(-0.1, 90)
                    .cut(13, y, 300)
                    .up()
                    .end();
            return on(bench(m).cellUm(10).runs(t.toString()), 0);
        });
        add(plants, "E5", "stray-copper", WATCH, (m, fault) -> {
            Text t = m.text().start(2);
            for (int i = 0; i < 8; i++) {
                if (!fault || i != 4) {
                    t.to(4, 4 + 0.6 * i)
                            .down(-0.1, 90)
                            .cut(12, 4 + 0.6 * i, 300)
                            .up();
                }
            }
            return on(bench(m).cellUm(10).program("a.ngc", t.end().toString(), "work", "clearing"), 0);
        });
        add(plants, "J4", "short", WATCH, (m, fault) -> {
            double neck = fault ? 0.15 : 0.25;
            double half = (neck + GROOVE_MM) / 2;
            Text t = m.text()
                    .start(1)
                    .to(0, 7)
                    .down(-0.1, 90)
                    .cut(10 - half, 7, 300)
                    .up();
            t.to(10 + half, 7).down(-0.1, 90).cut(20, 7, 300).up().end();
            return at(bench(m).cellUm(10).runs(t.toString()), 0, 10, 7);
        });
    }

    private static String g(double mm) {
        return String.format(Locale.ROOT, "%d", StrictMath.round(mm * 1e6));
    }

    /** Square pads of 2 mm with nets of their own: x, y of each. */
    private static String pads(double size, double... xy) {
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,ComponentPad*%\n%ADD10R,")
                .append(String.format(Locale.ROOT, "%.4fX%.4f", size, size))
                .append("*%\nD10*\n");
        for (int i = 0; i < xy.length; i += 2) {
            t.append("%TO.N,N")
                    .append(i / 2)
                    .append("*%\n%TO.P,J1,")
                    .append(i / 2 + 1)
                    .append("*%\n");
            t.append('X').append(g(xy[i])).append('Y').append(g(xy[i + 1])).append("D03*\n");
        }
        return t.append("M02*\n").toString();
    }

    private static void lands(List<Plant> plants) {
        add(plants, "E4", "narrow-gap", WATCH, (m, fault) -> {
            double gap = fault ? 0.196 : 0.204;
            double z = -(0.0174 + (gap - 0.12) / (2 * TAN));
            double h = gap / 2;
            Text t = m.text().start(1).box(5 - h, 6 - h, 7 + h, 8 + h, z);
            t.box(7 + gap - h, 6 - h, 9 + gap + h, 8 + h, z).end();
            return at(
                    bench(m).side("face", "top")
                            .cellUm(10)
                            .design("top_copper", "top.gbr", pads(2, 6, 7, 8 + gap, 7))
                            .runs(t.toString()),
                    0,
                    7,
                    7);
        });
        for (Severity severity : List.of(WATCH, FIX)) {
            add(plants, "G8", "ring-thin", severity, (m, fault) -> {
                double ring = (severity == FIX ? 0.15 : 0.30) + (fault ? -0.006 : 0.006);
                double side = 1.2 + 2 * ring;
                double h = (side + GROOVE_MM) / 2;
                String copper = m.text()
                        .start(1)
                        .box(8 - h, 7 - h, 8 + h, 7 + h, -0.1)
                        .end()
                        .toString();
                String bore =
                        m.text().start(2).bore(8, 7, 1.2, 0.8, -1.65).end().toString();
                return at(
                        bench(m).side("face", "top")
                                .cellUm(10)
                                .design("top_copper", "top.gbr", pads(side, 8, 7))
                                .program("a.ngc", copper)
                                .program("b.ngc", bore),
                        0,
                        8,
                        7);
            });
        }
        add(plants, "H10", "edge-copper", WATCH, (m, fault) -> {
            double gap = fault ? 0.24 : 0.26;
            Text t = m.text().start(2).to(2, 2);
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.down(z, 90).cut(15, 2, 200).cut(15, 12, 200).cut(2, 12, 200).cut(2, 2, 200);
            }
            return on(
                    bench(m).side("face", "top")
                            .design("top_copper", "top.gbr", pads(2, 3.4 + gap, 7))
                            .runs(t.up().end().toString()),
                    0);
        });
    }

    private static void holes(List<Plant> plants) {
        add(plants, "G11", "chip-load", WATCH, (m, fault) -> {
            Text t = m.text().start(4).to(6, 6).down(-1.9, fault ? 75 : 85);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        add(plants, "G11", "plunge-too-fast", WATCH, (m, fault) -> {
            Text t = m.text().start(4).to(6, 6).down(-1.9, fault ? 820 : 780);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        add(plants, "G7", "bore-tight", NOTE, (m, fault) -> {
            Text t = m.text()
                    .start(2)
                    .bore(6, 6, fault ? 0.88 : 0.92, 0.8, -1.65)
                    .end();
            return at(bench(m).runs(t.toString()), 0, 6, 6);
        });
    }

    private static void outline(List<Plant> plants) {
        for (Severity severity : List.of(WATCH, STOP)) {
            add(plants, "H1", "outline-off", severity, (m, fault) -> {
                // the path round 13 x 10 leaves 12.2 x 9.2 mm; off by 0.4 mm it is off by the radius
                double off = severity == WATCH ? (fault ? 0.11 : 0.09) : (fault ? 0.4 : 0.3);
                Text t = m.text().start(2).to(2, 2);
                for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                    t.down(z, 90)
                            .cut(15, 2, 200)
                            .cut(15, 12, 200)
                            .cut(2, 12, 200)
                            .cut(2, 2, 200);
                }
                String size = String.format(Locale.ROOT, "[\"%.2f mm\", \"%.2f mm\"]", 12.2 + off, 9.2 + off);
                return on(
                        bench(m).also("[design]\nfinished_size = " + size)
                                .runs(t.up().end().toString()),
                        0);
            });
        }
        add(plants, "H6", "part-free", FIX, (m, fault) -> {
            double side = fault ? 4.2 : 3.7;
            Text t = m.text().start(2).to(5, 5);
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.down(z, 90).cut(5 + side, 5, 200).cut(5 + side, 5 + side, 200);
                t.cut(5, 5 + side, 200).cut(5, 5, 200);
            }
            t.up().to(2, 2);
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.down(z, 90);
                tab(t, 6, 2, z, 3).cut(15, 2, 200).cut(15, 12, 200);
                tab(t, 10, 12, z, -3).cut(2, 12, 200).cut(2, 2, 200);
            }
            return on(
                    bench(m).blank("hold", "edge clamps", "tape", "0 mm")
                            .runs(t.up().end().toString()),
                    0);
        });
    }

    private static Text tab(Text t, double x, double y, double z, double wide) {
        return z > -1
                ? t
                : t.cut(x, y, 200).down(-1.0, 90).cut(x + wide, y, 200).down(z, 90);
    }

    /** Two pads of two nets, one groove round each. */
    private static Bench twoNets(Manner m, String more) {
        double h = GROOVE_MM / 2;
        Text t = m.text().start(1).box(5 - h, 6 - h, 7 + h, 8 + h, -0.1);
        t.box(7 + GROOVE_MM - h, 6 - h, 9 + GROOVE_MM + h, 8 + h, -0.1).end();
        return bench(m).side("face", "top")
                .cellUm(10)
                .design("top_copper", "top.gbr", pads(2, 6, 7, 8 + GROOVE_MM, 7))
                .also(more)
                .runs(t.toString());
    }

    private static void nets(List<Plant> plants) {
        add(
                plants,
                "J7",
                "spacing",
                FIX,
                (m, fault) -> on(twoNets(m, "[[net]]\nname = \"N0\"\nvoltage = \"" + (fault ? 31 : 30) + " V\""), 0));
        add(
                plants,
                "E12a",
                "leakage",
                NOTE,
                (m, fault) -> on(twoNets(m, "[[net]]\nname = \"N0\"\nhigh_impedance = " + fault), 0));
        add(
                plants,
                "J9a",
                "flood-gap",
                NOTE,
                (m, fault) -> at(twoNets(m, "[[net]]\nname = \"N0\"\nflooded = " + !fault), 0, 7, 7));
    }

    private static void shop(List<Plant> plants) {
        add(plants, "A11", "spin-up", WATCH, (m, fault) -> {
            Text t = m.text().head().change(1).line("S16000 M3").line(fault ? "G4 P0.1" : "G4 P2");
            t.line("G0 Z" + t.z(5))
                    .to(3, 3)
                    .down(-0.1, 250)
                    .cut(12, 3, 300)
                    .up()
                    .end();
            return on(bench(m).runs(t.toString()), 0);
        });
        add(plants, "B13", "off-blank", WATCH, (m, fault) -> {
            Text t = m.text().start(1).box(fault ? -0.2 : 0.1, 3, 13, 11, -0.1).end();
            return at(bench(m).runs(t.toString()), 0, fault ? -0.2 : 0.1, 3);
        });
        add(plants, "B17", "burr", NOTE, (m, fault) -> {
            String zero = "[\"" + m.zeroXMm() + " mm\", \"" + m.zeroYMm() + " mm\"]";
            return on(
                    bench(m).blank("copper", "both sides")
                            .program("a.ngc", box(m).toString())
                            .nextSide("top", "about Y")
                            .side("work_zero", zero, "deburred", fault ? "false" : "true")
                            .program("b.ngc", box(m).toString()),
                    0);
        });
        add(plants, "D3", "too-deep", WATCH, (m, fault) -> {
            double h = ((fault ? 0.79 : 0.81) + 0.12 + 2 * 0.13 * TAN) / 2;
            return at(land(m, h), 0, 8, 7);
        });
        add(plants, "E9", "land-small", WATCH, (m, fault) -> {
            double h = ((fault ? 0.85 : 0.88) + GROOVE_MM) / 2;
            return at(land(m, h), 0, 8, 7);
        });
        add(plants, "E7", "severed-copper", WATCH, (m, fault) -> {
            double at = fault ? 8.9 : 9 + GROOVE_MM / 2 - 0.03;
            Text t = m.text()
                    .start(1)
                    .to(at, 5)
                    .down(-0.1, 90)
                    .cut(at, 9, 300)
                    .up()
                    .end();
            return at(
                    bench(m).side("face", "top")
                            .cellUm(10)
                            .design("top_copper", "top.gbr", pads(2, 8, 7))
                            .runs(t.toString()),
                    0,
                    at,
                    7);
        });
        add(plants, "E12", "lettering", NOTE, (m, fault) -> {
            double size = fault ? 0.33 : 0.36;
            Text t = m.text()
                    .start(1)
                    .to(5, 5)
                    .down(-0.1, 90)
                    .cut(5 + size, 5, 300)
                    .up()
                    .end();
            return on(bench(m).program("a.ngc", t.toString(), "work", "text"), 0);
        });
        add(plants, "L2", "burn", WATCH, (m, fault) -> {
            Text t = m.text().start(2).to(4, 5).down(-0.1, 90).cut(8, 5, 300).line(fault ? "G4 P0.6" : "G4 P0.4");
            int line = t.last();
            return at(bench(m).runs(t.cut(12, 5, 300).up().end().toString()), line, 8, 5);
        });
        add(
                plants,
                "L6",
                "spacing",
                FIX,
                (m, fault) -> on(
                        bench(m).also("[[net]]\nname = \"HV\"\nvoltage = \"" + (fault ? 61 : 60) + " V\"")
                                .runs(box(m).toString()),
                        0));
    }

    /** A square pad of 1 mm with a groove round it, its path this far from the middle. */
    private static Bench land(Manner m, double half) {
        Text t = m.text()
                .start(1)
                .box(8 - half, 7 - half, 8 + half, 7 + half, -0.1)
                .end();
        return bench(m).side("face", "top")
                .cellUm(10)
                .design("top_copper", "top.gbr", pads(1, 8, 7))
                .runs(t.toString());
    }

    private static Text cutOut(Manner m, double tabHeight, boolean second) {
        Text t = m.text().start(2).to(2, 2);
        for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
            t.down(z, 90);
            if (z < tabHeight) {
                t.cut(6, 2, 200).down(tabHeight, 90).cut(9, 2, 200).down(z, 90);
            }
            t.cut(15, 2, 200).cut(15, 12, 200);
            if (second && z < tabHeight) {
                t.cut(10, 12, 200).down(tabHeight, 90).cut(7, 12, 200).down(z, 90);
            }
            t.cut(2, 12, 200).cut(2, 2, 200);
        }
        return t.up().end();
    }

    private static void parts(List<Plant> plants) {
        add(
                plants,
                "H3",
                "tabs",
                WATCH,
                (m, fault) -> on(bench(m).runs(cutOut(m, -1.0, !fault).toString()), 0));
        add(
                plants,
                "H4",
                "tabs",
                WATCH,
                (m, fault) ->
                        on(bench(m).runs(cutOut(m, fault ? -1.45 : -1.42, true).toString()), 0));
        add(plants, "H11", "outline-off", WATCH, (m, fault) -> {
            String size = fault ? "[\"12.26 mm\", \"9.2 mm\"]" : "[\"12.24 mm\", \"9.2 mm\"]";
            return on(
                    bench(m).also("[design]\nfinished_size = " + size + "\n[limits]\nfit_allowance_most = \"0.05 mm\"")
                            .runs(cutOut(m, -1.0, true).toString()),
                    0);
        });
        add(plants, "G14", "order", WATCH, (m, fault) -> {
            String outline = cutOut(m, -1.0, true).toString();
            String bores = m.text().start(2).bore(8, 7, 1.2, 0.8, -1.65).end().toString();
            return on(
                    fault
                            ? bench(m).program("o.ngc", outline).program("b.ngc", bores)
                            : bench(m).program("b.ngc", bores).program("o.ngc", outline),
                    0);
        });
    }
}
