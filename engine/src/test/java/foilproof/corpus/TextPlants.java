package foilproof.corpus;

import static foilproof.corpus.Boards.contour;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;

/** Faults in the text of a program (needs.md A). */
final class TextPlants {
    private TextPlants() {}

    static void add(Plants plants) {
        unitsAndNumbers(plants);
        modes(plants);
        feedsAndSpindle(plants);
        toolsAndLengths(plants);
        arcsAndCycles(plants);
        wholeText(plants);
        machineMoves(plants);
        wasteAndRevision(plants);
    }

    private static void unitsAndNumbers(Plants plants) {
        plants.add("A1", "units-unset", STOP, (m, fault) -> {
            Text t = m.text().line("G90 G91.1 G94 G17 G40 G49 G80 G54 G61").change(1);
            int line = t.last() - 2;
            t.spin().box(3, 3, 13, 11, -0.1).end();
            String units = m.inch() ? "inch" : "mm";
            return on(bench(m).machine("units", fault ? "unknown" : units).runs(t.toString()), line);
        });
        plants.add("A2", "wrong-z-reference", STOP, (m, fault) -> {
            Text t = m.text().start(5).to(3, 3).down(fault ? -1.0 : -0.49, 90);
            int line = t.last();
            t.cut(13, 3, 300).up().end();
            return at(bench(m).program("a.ngc", t.toString(), "work", "isolation"), line, 3, 3);
        });
        plants.add("A3", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90);
            String cut = "G1 " + t.xy(13, 3) + " F" + t.z(300);
            t.line(fault ? cut.replaceFirst("\\.", ",") : cut);
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
    }

    private static void modes(Plants plants) {
        plants.add("A4", "distance-mode", STOP, (m, fault) -> {
            String head = (m.inch() ? "G20" : "G21") + (fault ? "" : " G90") + " G91.1 G94 G17 G40 G49 G80 G54 G61";
            Text t = m.text().line(head).change(1);
            int line = t.last() - 2;
            t.spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), line);
        });
        plants.add("A5", "work-offset", FIX, (m, fault) -> {
            Text t = m.text().start(1).groove(4, 5, 12, 5, -0.1).line(fault ? "G55" : "G54");
            int line = t.last();
            return on(bench(m).runs(t.groove(4, 8, 12, 8, -0.1).end().toString()), line);
        });
        plants.add("A7", "rapid-in-material", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3);
            t.line((fault ? "G0 Z" : "G1 F" + t.z(90) + " Z") + t.z(-0.1));
            int line = t.last();
            return at(bench(m).runs(t.cut(13, 3, 300).up().end().toString()), line, 3, 3);
        });
        plants.add("A18", "path-blending", WATCH, (m, fault) -> {
            Text t = m.text().head().line("G64 P" + m.text().z(fault ? 0.021 : 0.019));
            int line = t.last();
            t.change(1).spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), line);
        });
        plants.add("A24", "start-state", WATCH, (m, fault) -> {
            String units = m.inch() ? "G20" : "G21";
            Text t = m.text().line(units + " G90 G91.1 G94" + (fault ? "" : " G17") + " G40 G49 G80 G54 G61");
            t.change(2).spin();
            int line = t.last();
            t.bore(8, 7, 1.2, 0.8, -1.65).end();
            return at(bench(m).runs(t.toString()), 0, 8, 7).byLines(line + 1, t.last());
        });
    }

    private static void feedsAndSpindle(Plants plants) {
        plants.add("A9", "feed-unset", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3);
            t.line("G1 Z" + t.z(-0.1) + (fault ? "" : " F" + t.z(90)));
            int line = t.last();
            t.line("G1 " + t.xy(13, 3)).up().end();
            return at(bench(m).runs(t.toString()), line, 3, 3);
        });
        plants.add("A9", "feed-too-high", FIX, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).cut(13, 3, fault ? 1210 : 1199);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 0, 0).along(3, 3, 13, 3);
        });
        plants.add("A9", "plunge-too-fast", FIX, (m, fault) -> {
            Text t = m.text().start(2).to(6, 6).down(-0.35, fault ? 310 : 290);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 6, 6);
        });
        for (String spindle : new String[] {"S16000", "S16000 M4"}) {
            plants.add("A10", "spindle-not-turning", STOP, (m, fault) -> {
                Text t = m.text().head().change(1).line(fault ? spindle : "S16000 M3");
                t.line("G4 P3").up().to(3, 3).down(-0.1, 90);
                int line = t.last();
                return at(bench(m).runs(t.cut(13, 3, 300).up().end().toString()), line, 3, 3);
            });
        }
        plants.add("A10", "spindle-speed", STOP, (m, fault) -> {
            Text t = m.text().head().change(1).line(fault ? "S24100 M3" : "S23900 M3");
            int line = t.last();
            t.line("G4 P3").up().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), 0).byLines(line, t.last());
        });
        plants.add("A11", "spin-up", WATCH, (m, fault) -> {
            Text t = m.text().head().change(1).line("S16000 M3");
            int line = t.last();
            t.line(fault ? "G4 P0.1" : "G4 P2").up().to(3, 3).down(-0.1, 250);
            return at(bench(m).runs(t.cut(12, 3, 300).up().end().toString()), line, 3, 3);
        });
    }

    private static void toolsAndLengths(Plants plants) {
        plants.add("A12", "tool-unknown", STOP, (m, fault) -> {
            Text t = m.text().head().line("M5").line("G0 Z" + m.text().z(25)).line((fault ? "T9" : "T1") + " M6");
            int line = t.last();
            t.line("M0").spin().box(3, 3, 13, 11, -0.1).end();
            return on(bench(m).runs(t.toString()), line);
        });
        plants.add("A13", "length-offset", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, -0.1).line("M5");
            t.line("G0 Z" + t.z(25)).line("T2 M6");
            // The first turn that cuts: spindle, dwell, lift, two rapids, and the way down to the foil come before it.
            int line = t.last() + 7;
            if (!fault) {
                t.line("M0");
            }
            t.spin().bore(6, 6, 1.2, 0.8, -1.65).end();
            return at(bench(m).machine("on_tool_change", "ignored").runs(t.toString()), line, 6, 6);
        });
        plants.add("A17", "cutter-compensation", STOP, (m, fault) -> {
            Text t = m.text().start(2).to(3, 3).down(-0.1, 90).line(fault ? "G41" : "G41 D2");
            int line = t.last();
            t.cut(5, 3, 300).cut(13, 3, 300).line("G40").cut(14, 3, 300);
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        plants.add("A17", "cutter-compensation", STOP, (m, fault) -> {
            // The path lies beside the drawn board by the cutter's radius already, or on its line.
            double off = fault ? 0.4 : 0;
            Text t = m.text().start(2);
            int line = t.last() + 4;
            for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
                t.to(0.5, 2 - off)
                        .down(z, 90)
                        .line("G42 D2")
                        .cut(2 - off, 2 - off, 200)
                        .cut(15 + off, 2 - off, 200);
                t.cut(15 + off, 12 + off, 200).cut(2 - off, 12 + off, 200).cut(2 - off, 0.8, 200);
                t.line("G40").up();
            }
            Bench b = bench(m).side("face", "top").design("outline", "edge.gbr", contour(2, 2, 15, 12));
            return on(m.placed(b).runs(t.end().toString()), line).byLines(line, t.last());
        });
    }

    private static void arcsAndCycles(Plants plants) {
        plants.add("A14", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(8, 5).down(-0.1, 90);
            double off = fault ? 0.03 : 0.002;
            t.line("G3 " + t.xy(8, 9) + " " + t.ij(0, 2 + off) + " F" + t.z(300));
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        plants.add("A15", "arc-suspect", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(6, 7).down(-0.1, 90);
            for (int i = 1; i <= 5; i++) {
                t.cut(6 + 0.1 * i, 7, 300);
            }
            t.line("G2 " + t.xy(fault ? 6.5 : 6.6, 7) + " " + t.ij(0.05, fault ? -3 : 0));
            int line = t.last();
            for (int i = 2; i <= 6; i++) {
                t.cut(6.5 + 0.1 * i, 7, 300);
            }
            return at(bench(m).runs(t.up().end().toString()), line, 6.5, 7);
        });
        plants.add("A16", "cycle-suspect", STOP, (m, fault) -> {
            Text t = m.text().start(4);
            t.line("G99 G81 " + t.xy(5, 5) + " Z" + t.z(-2.05) + " R" + t.z(fault ? -0.1 : 0.6) + " F" + t.z(200));
            int line = t.last();
            return on(bench(m).runs(t.line("G80").end().toString()), line);
        });
    }

    private static void wholeText(Plants plants) {
        plants.add("A19", "program-truncated", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90).cut(13, 3, 300);
            if (!fault) {
                t.up();
            }
            return on(bench(m).runs(t.toString()), t.last());
        });
        plants.add("A20", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, -0.1).line(fault ? "M98 P100" : "M9");
            int line = t.last();
            return on(bench(m).runs(t.end().toString()), line);
        });
        plants.add("A20", "program-error", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 3).down(-0.1, 90);
            t.line((fault ? "G1 G0 " : "G1 ") + t.xy(13, 3) + " F" + t.z(300));
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        plants.add("A21", "block-delete", WATCH, (m, fault) -> {
            Text t = m.plain().text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300);
            t.line(fault ? "/G1 " + t.xy(12, 9) : "/M8");
            int line = t.last();
            return on(bench(m).runs(t.up().end().toString()), line);
        });
        plants.add("L5", "rapid-in-material", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300).cut(12, 9, 300);
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()).restartsAt(line, fault), line, 12, 5);
        });
    }

    /** A bench that says where the blank lies in machine coordinates. */
    private static Bench known(Manner m) {
        return bench(m).machine(
                        "travel",
                        "[\"160 mm\", \"100 mm\", \"60 mm\"]",
                        "blank_at",
                        "[\"30 mm\", \"30 mm\", \"-45 mm\"]");
    }

    private static void machineMoves(Plants plants) {
        plants.add("A6", "rapid-in-material", STOP, (m, fault) -> {
            // To a place of the machine across the blank, 0.1 or 0.3 mm above the foil.
            double[] to = m.place(17, 13);
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("G0 Z" + m.text().z(fault ? 0.1 : 0.3));
            t.line("G53 G0 X" + t.z(30 + to[0]) + " Y" + t.z(30 + to[1]));
            int line = t.last();
            return at(known(m).runs(t.end().toString()), line, 0, 0).along(3.4, 3, 17, 13);
        });
        plants.add("A6", "rapid-in-material", WATCH, (m, fault) -> {
            // Home, and nobody knows where that is: the way leads over the blank.
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("G0 Z" + m.text().z(fault ? 0.1 : 5));
            t.line("G91 G28 X" + t.z(0) + " Y" + t.z(0));
            int line = t.last();
            return at(bench(m).runs(t.line("G90").end().toString()), line, 3.4, 3);
        });
        plants.add("A8", "keep-out-contact", WATCH, (m, fault) -> {
            // From (2, 2) to (13, 7): axes at full speed go to (7, 7) first, then along X. The way at 1 mm, the screw
            // higher.
            double low = 7 + 0.06 + 0.5 * Boards.TAN + (fault ? -0.03 : 0.03);
            Text t = m.text()
                    .start(1)
                    .to(2, 2)
                    .down(-0.1, 90)
                    .cut(3, 2, 300)
                    .line("G0 Z" + m.text().z(1));
            t.line("G0 " + t.xy(13, 7));
            int line = t.last();
            t.down(-0.1, 90).cut(14, 7, 300).up().end();
            Bench b = m.keepOut(bench(m).runs(t.toString()), "screw", 9, low, 10, low + 1, 1.5);
            return at(b, line, 0, 0).along(9, 7, 10, 7);
        });
    }

    private static void wasteAndRevision(Plants plants) {
        plants.add("A22", "wasted-moves", NOTE, (m, fault) -> {
            // 51 or 47 mm of a loop twice; other grooves enough that this is no great share of the time
            double top = fault ? 12.5 : 11;
            Text t = m.text().start(1);
            for (int i = 0; i < 14; i++) {
                t.groove(2.5, 2.5 + 0.6 * i, 16.5, 2.5 + 0.6 * i, -0.1);
            }
            t.box(2, 2, 17, top, -0.1);
            int line = t.last();
            t.box(2, 2, 17, top, -0.1);
            return on(bench(m).runs(t.end().toString()), 0)
                    .byLines(line + 1, line + 8)
                    .along(2, 2, 17, 2, 17, top, 2, top, 2, 2);
        });
        plants.add("A22", "wasted-moves", NOTE, (m, fault) -> {
            // Feeds of 300 mm/min: 60 mm in copper, and 28 or 10 mm through the air.
            Text t = m.text().start(1).groove(2, 2, 17, 2, -0.1).groove(2, 4, 17, 4, -0.1);
            t.groove(2, 6, 17, 6, -0.1).groove(2, 8, 17, 8, -0.1).to(2, 10);
            int line = t.last() + 1;
            double far = fault ? 16 : 7;
            t.cut(far, 10, 300).cut(2, 10, 300);
            return on(bench(m).runs(t.up().end().toString()), 0)
                    .byLines(line, line + 1)
                    .along(2, 10, far, 10);
        });
        plants.add("A23", "other-revision", STOP, (m, fault) -> {
            // Four rings, and bores 0.16 or 0.14 mm off them in a pattern that no shift, turn or scale makes good.
            double d = fault ? 0.16 : 0.14;
            double[][] rings = {{5, 4}, {14, 4}, {14, 11}, {5, 11}};
            Text copper = m.text().start(1);
            Text bores = m.text().start(2);
            for (int i = 0; i < 4; i++) {
                double x = rings[i][0];
                double y = rings[i][1];
                copper.box(x - 1.5, y - 1.5, x + 1.5, y + 1.5, -0.1);
                bores.bore(x + (i % 2 == 0 ? d : -d), y, 1.2, 0.8, -1.65);
            }
            return on(
                    bench(m).program("a.ngc", copper.end().toString())
                            .program("b.ngc", bores.end().toString()),
                    0);
        });
        plants.add("A23", "other-revision", STOP, (m, fault) -> {
            // The copper of another board sticks out of the outline, or ends just inside it.
            double right = fault ? 16.5 : 14.4;
            Text copper = m.text().start(1).box(3, 3, right, 11, -0.1);
            return at(
                            bench(m).program("a.ngc", copper.end().toString())
                                    .program(
                                            "o.ngc",
                                            Boards.outline(m, 2, -1.7, -1.0, 2).toString()),
                            0,
                            0,
                            0)
                    .along(14.6, 3, right, 3, right, 11, 14.6, 11);
        });
    }
}
