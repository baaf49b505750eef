package foilproof.corpus;

import static foilproof.corpus.Boards.GROOVE_MM;
import static foilproof.corpus.Boards.g;
import static foilproof.corpus.Boards.top;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.corpus.Plant.Planted;
import foilproof.findings.Bench;

/** Voltage drop and heat of traces (needs.md J5, J6, J11). */
final class HeatPlants {
    private HeatPlants() {}

    static void add(Plants plants) {
        // 0.3 mm of half-ounce foil, 11.81 x 0.685 = 8.09 mil2: 0.048 x 20^0.44 x 8.09^0.725 = 0.817 A, at 40 K 1.108
        // A.
        plants.add("J6", "hot-trace", WATCH, (m, fault) -> fed(m, 9, 1.5, fault ? 0.84 : 0.79, 12));
        plants.add("J6", "hot-trace", FIX, (m, fault) -> fed(m, 9, 1.5, fault ? 1.14 : 1.08, 12));
        // 9 mm of 0.3 mm are 30 squares of 0.99 mOhm, the ways in and out of the pads about one more: 0.5 A drop 15.3
        // mV.
        plants.add("J5", "narrow-net", WATCH, (m, fault) -> fed(m, 9, 1.5, 0.5, fault ? 0.48 : 0.55));
        // 0.00099 Ohm / 0.09 mm2 a square: 0.5 W/cm2 at 0.674 A, on a trace without wider pads
        plants.add("J11", "hot-trace", WATCH, (m, fault) -> fed(m, 11.7, 0.3, fault ? 0.71 : 0.64, 12));
    }

    /** A trace of 0.3 mm between two square pads, this long from edge to edge, that carries a current from a rail. */
    private static Planted fed(Manner m, double length, double pad, double amps, double volts) {
        double x0 = 3 + pad / 2;
        double x1 = 3 + pad * 1.5 + length;
        double y = 7;
        String image = "%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,ComponentPad*%\n%ADD10R," + pad + "X" + pad
                + "*%\n%TD*%\n%ADD11C,0.3*%\n%TO.N,VIN*%\nD10*\n%TO.P,J1,1*%\nX" + g(x0) + "Y" + g(y)
                + "D03*\n%TO.P,U1,1*%\nX" + g(x1) + "Y" + g(y) + "D03*\n%TD.P*%\nG01*\nD11*\nX" + g(x0) + "Y" + g(y)
                + "D02*\nX" + g(x1) + "Y" + g(y) + "D01*\nM02*\n";
        double h = GROOVE_MM / 2;
        double p = pad / 2 + h;
        double w = 0.15 + h;
        Text t = m.text().start(1);
        if (pad > 0.3) {
            t.to(x0 - p, y - p).down(-0.1, 90).cut(x0 + p, y - p, 300).cut(x0 + p, y - w, 300);
            t.cut(x1 - p, y - w, 300)
                    .cut(x1 - p, y - p, 300)
                    .cut(x1 + p, y - p, 300)
                    .cut(x1 + p, y + p, 300);
            t.cut(x1 - p, y + p, 300)
                    .cut(x1 - p, y + w, 300)
                    .cut(x0 + p, y + w, 300)
                    .cut(x0 + p, y + p, 300);
            t.cut(x0 - p, y + p, 300)
                    .cut(x0 - p, y - p, 300)
                    .cut(x0 - p + 0.4, y - p, 300)
                    .up();
        } else {
            t.box(x0 - w, y - w, x1 + w, y + w, -0.1);
        }
        Bench b = top(m, image)
                .also("[[net]]\nname = \"VIN\"\ncurrent = \"" + amps + " A\"\nvoltage = \"" + volts + " V\"");
        return on(b.runs(t.end().toString()), 0).along(x0, y, x1, y);
    }
}
