package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.allAlongTheLoop;
import static foilproof.corpus.Boards.bore;
import static foilproof.corpus.Boards.g;
import static foilproof.corpus.Boards.holes;
import static foilproof.corpus.Boards.loop;
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

/** Faults of zero, bow, mirroring, and what lies on the table (needs.md B). */
final class SetUpPlants {
    private SetUpPlants() {}

    static void add(Plants plants) {
        touchOff(plants);
        surface(plants);
        place(plants);
        heights(plants);
        walls(plants);
        spreads(plants);
        shifts(plants);
        twoSides(plants);
    }

    private static void touchOff(Plants plants) {
        plants.add("B1", "wrong-z-reference", STOP, (m, fault) -> {
            Bench b = bench(m).program("a.ngc", loop(m, fault ? -0.012 : -0.1), "work", "isolation");
            return allAlongTheLoop(b);
        });
        plants.add("B2", "touch-off-spoilt", STOP, (m, fault) -> {
            double x = fault ? 13 : 14.2;
            Bench b = bench(m).program("a.ngc", loop(m, -0.1));
            return at(b.program("b.ngc", bore(m, 8, 7), "touch_off", m.point(x, 7)), 0, x, 7);
        });
        plants.add("B3", "touch-off-spoilt", STOP, (m, fault) -> {
            double x = fault ? 10 : 15;
            Bench b = bench(m).program("a.ngc", loop(m, -0.1)).side("probe_clip", m.point(18, 1));
            return at(b.program("b.ngc", bore(m, 5, 5), "touch_off", m.point(x, 8)), 0, x, 8);
        });
    }

    /** A foil that rises by so much over 10 mm along X. */
    private static Bench tilted(Manner m, double rise) {
        return bench(m).side("touch_off", m.point(8, 13.5))
                .blank("surface", m.surface(0, 0, 0, 20, 0, 2 * rise, 0, 15, 0, 20, 15, 2 * rise));
    }

    private static void surface(Plants plants) {
        plants.add(
                "B6",
                "tilt",
                FIX,
                (m, fault) -> on(tilted(m, fault ? 0.052 : 0.048).runs(loop(m, -0.1)), 0));
        plants.add("B7", "height-map-twice", STOP, (m, fault) -> {
            Text t = m.text().start(1).to(3, 5).down(-0.082, 90);
            for (int i = 1; i <= 10; i++) {
                double z = fault ? -0.1 + 0.006 * (3 + i) : -0.082;
                t.line("G1 " + t.xy(3 + i, 5) + " Z" + t.z(z) + " F" + t.z(300));
            }
            Bench b = tilted(m, 0.06).machine("applies_height_map", "true");
            return on(b.runs(t.up().end().toString()), 0);
        });
    }

    private static void place(Plants plants) {
        plants.add("B9", "mirrored", STOP, (m, fault) -> {
            Text t = m.text().start(1);
            // An L of three lands, no symmetry: the layer image has it one way, the fault mills the other.
            double[][] boxes = {{3, 3, 6, 6}, {6.5, 3, 9.5, 6}, {3, 6.5, 6, 11}};
            for (double[] b : boxes) {
                t.box(fault ? 20 - b[2] : b[0], b[1], fault ? 20 - b[0] : b[2], b[3], -0.1);
            }
            String image = "%FSLAX46Y46*%\n%MOMM*%\n%ADD10R,2.8X2.8*%\n%ADD11R,2.8X4.3*%\nD10*\nX" + g(4.5) + "Y"
                    + g(4.5) + "D03*\nX" + g(8) + "Y" + g(4.5) + "D03*\nD11*\nX" + g(4.5) + "Y" + g(8.75)
                    + "D03*\nM02*\n";
            return on(top(m, image).runs(t.end().toString()), 0);
        });
        plants.add("B13", "keep-out-contact", STOP, (m, fault) -> {
            Bench b = bench(m).runs(loop(m, -0.1));
            return at(m.keepOut(b, "bracket", -5, 5, fault ? 2.6 : 0.5, 9, 1.5), 0, 0, 0)
                    .along(3, 5, 3, 9)
                    .byLines(14, 15);
        });
        plants.add("B13", "off-blank", WATCH, (m, fault) -> {
            double x = fault ? -0.2 : 0.1;
            Text t = m.text().start(1).box(x, 3, 13, 11, -0.1).end();
            return at(bench(m).runs(t.toString()), 0, 0, 0).along(x, 3, x, 11).byLines(9, 16);
        });
        plants.add("B14", "beyond-travel", STOP, (m, fault) -> {
            double farthest = Math.max(m.place(3, 3)[0], m.place(13, 11)[0]);
            double at = 160 - farthest + (fault ? 1 : -1);
            Bench b = bench(m).machine("travel", "[\"160 mm\", \"100 mm\", \"80 mm\"]");
            b.machine("blank_at", "[\"" + at + " mm\", \"10 mm\", \"-60 mm\"]");
            return on(b.runs(loop(m, -0.1)), 0).byLines(9, 16);
        });
        plants.add("B17", "burr", NOTE, (m, fault) -> {
            Bench b = bench(m).blank("copper", "both sides").program("a.ngc", loop(m, -0.1));
            b.nextSide("top", m.turned("about Y"))
                    .side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5))
                    .side("deburred", fault ? "false" : "true");
            return on(b.program("b.ngc", loop(m, -0.1)), 0);
        });
    }

    private static void heights(Plants plants) {
        plants.add("B15", "rapid-in-material", WATCH, (m, fault) -> {
            Text t = m.text()
                    .start(1)
                    .box(3, 3, 13, 11, -0.1)
                    .line("G0 Z" + m.text().z(fault ? 0.17 : 0.24));
            t.line("G0 " + t.xy(8, 3));
            int line = t.last();
            return at(bench(m).runs(t.up().end().toString()), line, 0, 0).along(3.4, 3, 8, 3);
        });
        plants.add("B16", "blank-thickness", WATCH, (m, fault) -> {
            Text t = m.text().start(1);
            t.line("G0 " + t.xy(4, 5)).line("G0 Z" + t.z(3));
            t.down(1.502, 90).cut(12, 5, 300).cut(12, 9, 300).up().end();
            Bench b = bench(m).side("z_zero", "spoil board").spread("thickness", fault ? "0.078 mm" : "0.073 mm");
            return on(b.runs(t.toString()), 0);
        });
    }

    private static void walls(Plants plants) {
        plants.add("B18", "backlash", WATCH, (m, fault) -> {
            double gap = GROOVE_MM - (fault ? 0.105 : 0.125);
            Text t = m.text().start(1);
            t.line("G0 " + t.xy(3, 1)).to(3, 3).down(-0.1, 90);
            t.cut(13, 3, 300).cut(13, 11, 300).cut(3, 11, 300).cut(3, 3 + gap, 300);
            int line = t.last();
            Bench b = bench(m).cellUm(10).machine("backlash", "[\"0.115 mm\", \"0.115 mm\"]");
            return at(b.runs(t.up().end().toString()), line, 3, 3);
        });
    }

    private static void spreads(Plants plants) {
        // The pencil at 0.1 mm clears half-ounce foil and 5 um up to a Z error of 0.0776 mm.
        plants.add("B4", "thin-margin", FIX, (m, fault) -> {
            Bench b = bench(m).without("spread", "z");
            b.spread("z_touch", fault ? "0.079 mm" : "0.076 mm", "bow", "0 mm");
            Text t = m.text().start(5).box(3, 3, 13, 11, -0.1);
            return allAlongTheLoop(b.runs(t.end().toString()));
        });
        plants.add("B5", "thin-margin", FIX, (m, fault) -> {
            // 10 mm of job: a tenth of the bow of 100 mm.
            Bench b = bench(m).without("spread", "z");
            b.spread("z_touch", "0 mm", "bow", fault ? "0.79 mm" : "0.755 mm");
            Text t = m.text().start(5).box(3, 3, 13, 11, -0.1);
            return allAlongTheLoop(b.runs(t.end().toString()));
        });
        plants.add(
                "B10",
                "mirrored",
                NOTE,
                (m, fault) -> fault
                        ? on(bench(m).runs(loop(m, -0.1)), 0)
                        : on(top(m, pads(9, 7, 8, 7)).runs(loop(m, -0.1)), 0));
    }

    /** Four lands isolated, and bores at places that a map moves off their middles. */
    private static Planted ringsAndBores(Manner m, double shift, double scale, double turnDeg) {
        double c = StrictMath.cos(StrictMath.toRadians(turnDeg)) * scale;
        double s = StrictMath.sin(StrictMath.toRadians(turnDeg)) * scale;
        Text copper = m.text().start(1);
        Text bores = m.text().start(2);
        for (double[] at : new double[][] {{5, 4}, {35, 4}, {33, 26}, {6, 25}}) {
            copper.box(at[0] - 1.5, at[1] - 1.5, at[0] + 1.5, at[1] + 1.5, -0.1);
            double x = at[0] - 20;
            double y = at[1] - 15;
            bores.bore(20 + c * x - s * y + 0.6 * shift, 15 + s * x + c * y + 0.8 * shift, 1.2, 0.8, -1.65);
        }
        Bench b = bench(m).side("touch_off", m.point(38.5, 28.5))
                .program("a.ngc", copper.end().toString());
        return on(b.program("b.ngc", bores.end().toString()), 0);
    }

    private static void shifts(Plants plants) {
        plants.add(
                "B8",
                "sides-shifted",
                WATCH,
                (m, fault) -> ringsAndBores(m.sized(40, 30), fault ? 0.052 : 0.048, 1, 0));
        plants.add(
                "B8", "sides-shifted", FIX, (m, fault) -> ringsAndBores(m.sized(40, 30), fault ? 0.152 : 0.148, 1, 0));
        plants.add(
                "B8", "sides-shifted", FIX, (m, fault) -> ringsAndBores(m.sized(40, 30), 0, 1, fault ? 0.055 : 0.045));
        plants.add(
                "B19",
                "sides-shifted",
                FIX,
                (m, fault) -> ringsAndBores(m.sized(40, 30), 0, fault ? 1.0011 : 1.0009, 0));
    }

    /** Bores and rings on the first side, rings for them on the second, where a map of the planter's puts them. */
    private static Planted bothSides(Manner m, boolean aboutX, double shift) {
        double[][] at = {{4, 4}, {10, 4}, {5, 11}, {16, 10}};
        Text copper = m.text().start(1);
        Text bores = m.text().start(2);
        Text back = m.text().start(1);
        for (double[] p : at) {
            copper.box(p[0] - 1.4, p[1] - 1.4, p[0] + 1.4, p[1] + 1.4, -0.1);
            bores.bore(p[0], p[1], 1.2, 0.8, -1.65);
            double x = aboutX ? p[0] : 20 - p[0] + shift;
            double y = aboutX ? 15 - p[1] : p[1];
            back.box(x - 1.4, y - 1.4, x + 1.4, y + 1.4, -0.1);
        }
        Bench b = bench(m).blank("copper", "both sides").side("face", "top");
        b.program("a.ngc", copper.end().toString()).program("b.ngc", bores.end().toString());
        b.nextSide("bottom", m.turned("about Y"))
                .side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5), "deburred", "true");
        return on(b.program("c.ngc", back.end().toString()), 0);
    }

    private static void twoSides(Plants plants) {
        plants.add("B11", "mirrored", STOP, (m, fault) -> bothSides(m, fault, 0));
        plants.add("B11", "sides-shifted", FIX, (m, fault) -> bothSides(m, false, fault ? 0.102 : 0.098));
        for (Severity severity : new Severity[] {WATCH, FIX}) {
            plants.add("B12", "ring-thin", severity, (m, fault) -> {
                // Play of the pins 0.03, backlash 0.12, repeatability 0.03: the budget takes 0.18 mm off the ring.
                double ring = 0.18 + (severity == WATCH ? 0.15 : 0) + (fault ? -0.008 : 0.008);
                return budget(m, "ComponentPad", 1.2 + 2 * ring);
            });
        }
        plants.add("B12", "ring-thin", WATCH, (m, fault) -> budget(m, "ViaPad", 1.2 + 2 * (fault ? 0.422 : 0.438)));
    }

    /** One land on both faces of a blank, bored on the first side. */
    private static Planted budget(Manner m, String use, double size) {
        double h = (size + GROOVE_MM) / 2;
        Text copper = m.text().start(1).box(8 - h, 7 - h, 8 + h, 7 + h, -0.1).end();
        Text back = m.text().start(1).box(12 - h, 7 - h, 12 + h, 7 + h, -0.1).end();
        String image = pads(size, size, 8, 7).replace("ComponentPad", use);
        Bench b = top(m, image).design("bottom_copper", "bottom.gbr", image).blank("copper", "both sides");
        b.machine("backlash", "[\"0.12 mm\", \"0.12 mm\"]", "repeatability", "0.03 mm");
        b.design("drill", "holes.drl", holes(1.2, 8, 7)).program("a.ngc", copper.toString());
        b.program("b.ngc", bore(m, 8, 7)).nextSide("bottom", m.turned("about Y"));
        b.side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5), "deburred", "true");
        b.also("[[join]]\nat = [\"8 mm\", \"7 mm\"]\nwire = \"0.9 mm\"");
        return at(b.program("c.ngc", back.toString()), 0, 12, 7);
    }
}
