package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.TAN;
import static foilproof.corpus.Boards.g;
import static foilproof.corpus.Boards.holes;
import static foilproof.corpus.Boards.pads;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Boards.twoGrooves;
import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.corpus.Plant.Planted;
import foilproof.findings.Bench;

/** Hairs, slivers, spikes and what is soldered on too little copper (needs.md E10, F). */
final class StripPlants {
    private StripPlants() {}

    static void add(Plants plants) {
        ridges(plants);
        ends(plants);
        spikes(plants);
        heat(plants);
    }

    private static void ridges(Plants plants) {
        // One-ounce foil, 0.1 deep: 0.174 mm wide on top and 0.155 at the foil bottom, so a step between leaves a
        // ridge.
        double bottom = 0.12 + 2 * (0.1 - 0.0348) * TAN;
        plants.add("F2", "hair", FIX, (m, fault) -> {
            Planted p = twoGrooves(m, bottom + (fault ? 0.014 : -0.003) - GROOVE_MM);
            p.bench().blank("foil", "1 oz");
            return p;
        });
        plants.add("F8", "sliver", WATCH, (m, fault) -> {
            double step = GROOVE_MM + 0.1;
            Text t = m.text().start(1).groove(4, 5, 12, 5, -0.1).groove(4, 5 + step, 12, 5 + step, -0.1);
            if (!fault) {
                t.groove(4, 5 + step / 2, 12, 5 + step / 2, -0.1);
            }
            return on(bench(m).cellUm(10).runs(t.end().toString()), 0)
                    .byLines(11, 17)
                    .along(4, 5.1, 12, 5.1);
        });
    }

    private static void ends(Plants plants) {
        plants.add("F3", "sliver", WATCH, (m, fault) -> {
            // the groove turns back round the strip's end, or leaves it held at both ends
            double step = GROOVE_MM + 0.1;
            Text t = m.text().start(1).groove(4, 5, 12, 5, -0.1).groove(4, 5 + step, 12, 5 + step, -0.1);
            if (fault) {
                t.groove(12, 5, 12, 5 + step, -0.1);
            }
            return on(bench(m).cellUm(10).runs(t.end().toString()), 0)
                    .byLines(11, 23)
                    .along(4, 5.1, 12, 5.1)
                    .saying("free end");
        });
        plants.add("F4", "hair", FIX, (m, fault) -> {
            // a hair of 0.04 mm beside a groove of 0.8 mm that parts the blank: it can lie across or not
            double half = fault ? 0.475 : 0.06;
            Text t = m.text().start(3).groove(0, 7, 20, 7, -0.1);
            t.groove(10 - half, 7.84, 10 + half, 7.84, -0.1).end();
            return at(bench(m).cellUm(10).runs(t.toString()), 0, 10, 7.42).byLines(11, 17);
        });
        plants.add("J9", "hair", FIX, (m, fault) -> {
            // the loops round two lands pass each other 0.04 mm apart over this length, 0.8 mm from either land
            double both = fault ? 0.95 : 0.12;
            double x = 9 - both;
            Text t = m.text()
                    .start(3)
                    .box(5, 3.6, 9, 6.4, -0.1)
                    .box(x, 7.24, x + 4, 10.04, -0.1)
                    .end();
            Bench b = top(m, pads(3.2, 2, 7, 5, x + 2, 8.64)).cellUm(10).runs(t.toString());
            return on(b, 0).along(9 - both, 6.82, 9, 6.82).byLines(11, 24);
        });
    }

    private static void spikes(Plants plants) {
        plants.add("F6", "sliver", WATCH, (m, fault) -> {
            double slope = StrictMath.tan(StrictMath.toRadians(fault ? 24 : 33));
            Text t = m.text().start(1).groove(4, 5, 12, 5, -0.1).groove(4, 5, 12, 5 + 8 * slope, -0.1);
            double tip = 4 + GROOVE_MM / 2 / StrictMath.sin(StrictMath.toRadians(12));
            return on(bench(m).cellUm(10).runs(t.end().toString()), 0)
                    .byLines(11, 17)
                    .along(tip, 5.1, tip + 0.6, 5.2);
        });
    }

    private static void heat(Plants plants) {
        plants.add("F9", "land-heat", NOTE, (m, fault) -> {
            // a round land round a hole of 0.65 mm: pi / 4 (d^2 - 0.65^2) = 1 mm2 at 1.302 mm
            double d = fault ? 1.29 : 1.315;
            double r = (d + GROOVE_MM) / 2;
            Text t = m.text().start(1).to(8 + r, 7).down(-0.1, 90);
            t.line("G3 " + t.xy(8 + r, 7) + " " + t.ij(-r, 0) + " F" + t.z(300)).up();
            t.change(4).spin().plunge(8, 7, -1.9, 200).end();
            String land = "%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,ComponentPad*%\n%ADD10C," + d
                    + "*%\nD10*\n%TO.N,N0*%\n%TO.P,J1,1*%\nX" + g(8) + "Y" + g(7) + "D03*\nM02*\n";
            Bench b = top(m, land).design("drill", "holes.drl", holes(0.65, 8, 7));
            return at(b.tool("drill", "diameter", "0.65 mm").runs(t.toString()), 0, 8, 7);
        });
        plants.add("E10", "land-heat", NOTE, (m, fault) -> joined(m, fault ? 1.5 : 1.3, 14));
        plants.add("E10", "land-heat", NOTE, (m, fault) -> joined(m, 1.5, fault ? 14 : 12.9));
    }

    /** A land of 2 x 2 mm that lies this deep in a plane 15 mm high: (2 + 2 x depth) / 8 of its edge is joined. */
    private static Planted joined(Manner manner, double in, double planeWidth) {
        Manner m = manner.sized(26, 20);
        double x = 4 + planeWidth;
        double far = x + 2 - in;
        String image = "%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,Conductor*%\n%TO.N,GND*%\nG36*\nX" + g(4) + "Y"
                + g(2.5) + "D02*\nG01*\nX" + g(x) + "Y" + g(2.5) + "D01*\nX" + g(x) + "Y" + g(17.5) + "D01*\nX"
                + g(4) + "Y" + g(17.5) + "D01*\nX" + g(4) + "Y" + g(2.5)
                + "D01*\nG37*\n%TA.AperFunction,ComponentPad*%\n%ADD10R,2.0X2.0*%\nD10*\n%TO.P,J1,1*%\nX"
                + g(far - 1) + "Y" + g(10) + "D03*\nM02*\n";
        double h = GROOVE_MM / 2;
        Text t = m.text().start(1).to(4 - h, 2.5 - h).down(-0.1, 90).cut(x + h, 2.5 - h, 300);
        t.cut(x + h, 9 - h, 300)
                .cut(far + h, 9 - h, 300)
                .cut(far + h, 11 + h, 300)
                .cut(x + h, 11 + h, 300);
        t.cut(x + h, 17.5 + h, 300).cut(4 - h, 17.5 + h, 300).cut(4 - h, 2.5 - h, 300);
        t.cut(4.4, 2.5 - h, 300).up().end();
        return on(top(m, image).cellUm(20).runs(t.toString()), 0).touched(m.point(25, 19));
    }
}
