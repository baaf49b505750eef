package foilproof.corpus;

import static foilproof.corpus.Boards.bore;
import static foilproof.corpus.Boards.loop;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;

/** Spoil board, tape, hold and fixture (needs.md I3 to I8). */
final class FixturePlants {
    private FixturePlants() {}

    static void add(Plants plants) {
        under(plants);
        hold(plants);
        clamps(plants);
    }

    private static void under(Plants plants) {
        plants.add("I3", "not-through", FIX, (m, fault) -> {
            // the zero lies on the spoil board, the underside 0.1 mm above it on the tape, and the point is 0.30 mm
            // long
            Text t = m.text().start(4);
            t.line("G0 " + t.xy(6, 6)).down(fault ? -0.185 : -0.215, 200);
            int line = t.last();
            Bench b = bench(m).side("z_zero", "spoil board");
            return at(b.runs(t.up().end().toString()), line, 6, 6);
        });
        plants.add("I4", "spoil-board-cut", NOTE, (m, fault) -> {
            // the place on the table counts: the same place of both sides
            Bench b = bench(m).blank("copper", "both sides").program("a.ngc", bore(m, 8, 7));
            b.nextSide("top", m.turned("about Y"))
                    .side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5), "deburred", "true");
            double y = fault ? 8.1 : 8.3;
            return at(b.program("b.ngc", bore(m, 8, y)), 0, 8, y);
        });
        plants.add("I5", "order", WATCH, (m, fault) -> {
            Text t = m.text().start(2);
            if (fault) {
                t.bore(17, 4, 1.2, 0.8, -1.65);
            }
            t.box(3, 3, 13, 11, -0.1);
            if (!fault) {
                t.bore(17, 4, 1.2, 0.8, -1.65);
            }
            return on(bench(m).runs(t.end().toString()), 0);
        });
    }

    private static void hold(Plants plants) {
        plants.add("I6", "hold-weak", WATCH, (m, fault) -> {
            // the last round cuts 0.5 mm at 0.00625 mm a tooth: 150 x 0.5 x 0.00625 = 0.47 N; tape holds 0.02 N/mm2
            double side = fault ? 4.6 : 7.0;
            Text t = m.text().start(2).to(5, 4);
            for (double z : new double[] {-0.4, -0.8, -1.2, -1.7}) {
                t.down(z, 90).cut(5 + side, 4, 200).cut(5 + side, 4 + side, 200);
                t.cut(5, 4 + side, 200).cut(5, 4, 200);
            }
            return on(bench(m).runs(t.up().end().toString()), 0)
                    .along(5, 4, 5 + side, 4, 5 + side, 4 + side, 5, 4 + side, 5, 4);
        });
    }

    private static void clamps(Plants plants) {
        plants.add("I7", "keep-out-contact", STOP, (m, fault) -> {
            // the nut is 8 mm in radius and begins 10 mm above the tip; the clamp is 11 mm high
            double x = fault ? -5.3 : -5.7;
            Bench b = bench(m).machine("collet_nut", "[\"16 mm\", \"18 mm\"]").runs(loop(m, -0.1));
            return on(m.keepOut(b, "clamp", -12, 2, x, 12, 11), 0)
                    .byLines(10, 16)
                    .along(3, 3, 3, 11);
        });
        plants.add("I7", "keep-out-contact", STOP, (m, fault) -> {
            // a rapid 5 mm above the foil over a screw
            Text t = m.text().start(1).groove(3, 3, 3, 11, -0.1);
            t.line("G0 " + t.xy(13, 11));
            int line = t.last();
            t.line("G0 Z" + t.z(1)).down(-0.1, 90).cut(13, 3, 300).up().end();
            return at(m.keepOut(bench(m).runs(t.toString()), "screw", 7, 10, 9, 12, fault ? 5.1 : 4.9), line, 8, 11)
                    .along(7, 11, 9, 11);
        });
        plants.add("I8", "keep-out-contact", STOP, (m, fault) -> {
            // the cutter is 0.49 mm in radius 1.6 mm above its tip
            double x = fault ? 14.25 : 14.17;
            Bench b = bench(m).blank("copper", "both sides").program("a.ngc", loop(m, -0.1));
            b.nextSide("top", m.turned("about Y"))
                    .side("work_zero", m.workZero(), "touch_off", m.point(2, 1.5), "deburred", "true");
            Text t = m.text().start(1).box(4, 3, x, 11, -0.1).end();
            return on(m.keepOut(b.program("b.ngc", t.toString()), "bracket", 15.2, 5, 18, 9, 1.5), 0)
                    .byLines(13, 14)
                    .along(x, 5, x, 9);
        });
    }
}
