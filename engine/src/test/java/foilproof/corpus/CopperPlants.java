package foilproof.corpus;

import static foilproof.corpus.Plant.at;
import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.STOP;
import static foilproof.findings.Severity.WATCH;

import foilproof.corpus.Manner.Text;
import foilproof.findings.Bench;
import foilproof.findings.Severity;
import java.util.List;
import java.util.Locale;

/** Faults in the copper (needs.md B9, D, E, F, G3, J). */
final class CopperPlants {
    /** Half-ounce foil, 30 deg, tip 0.12, at 0.1 deep: the groove is this wide at the foil bottom, mm (closed form). */
    private static final double GROOVE_MM = 0.12 + 2 * (0.1 - 0.0174) * StrictMath.tan(StrictMath.toRadians(15));

    private CopperPlants() {}

    private static void add(List<Plant> plants, String row, String kind, Severity severity, Plant.Planter planter) {
        plants.add(new Plant(row, kind, severity, planter));
    }

    static void add(List<Plant> plants) {
        strips(plants);
        nets(plants);
    }

    private static Plant.Planted twoGrooves(Manner m, double strip) {
        double step = GROOVE_MM + strip;
        Text t = m.text().start(1).to(4, 5).down(-0.1, 90).cut(12, 5, 300).up();
        t.to(4, 5 + step).down(-0.1, 90).cut(12, 5 + step, 300).up().end();
        return on(bench(m).cellUm(10).runs(t.toString()), 0);
    }

    private static void strips(List<Plant> plants) {
        add(plants, "F1", "hair", FIX, (m, fault) -> twoGrooves(m, fault ? 0.045 : 0.055));
        add(plants, "F1", "sliver", WATCH, (m, fault) -> twoGrooves(m, fault ? 0.24 : 0.26));
        add(plants, "E6", "stray-copper", WATCH, (m, fault) -> {
            double side = fault ? 0.80 : 0.95;
            return at(
                    bench(m).cellUm(10)
                            .runs(m.text()
                                    .start(1)
                                    .box(6, 6, 6 + side, 6 + side, -0.1)
                                    .end()
                                    .toString()),
                    0,
                    6.4,
                    6.4);
        });
        add(plants, "E3", "narrow-gap", WATCH, (m, fault) -> {
            Text t = m.text().start(1).box(3, 3, 13, 11, fault ? -0.065 : -0.08).end();
            return on(bench(m).cellUm(10).runs(t.toString()), 0);
        });
        add(plants, "D4", "too-deep", WATCH, (m, fault) -> {
            Text t = m.text().start(2).box(3, 3, 13, 11, fault ? -0.33 : -0.31).end();
            return on(bench(m).blank("thickness", "0.8 mm").program("a.ngc", t.toString(), "work", "isolation"), 0);
        });
    }

    /** Net LEFT: two lands of 2 mm at (6, 6) and (6, 10), joined by a trace of 0.6 mm; net RIGHT: one at (9, 6). */
    private static String layer() {
        return "%FSLAX46Y46*%\n%MOMM*%\n%ADD10R,2.0X2.0*%\n%ADD11C,0.6*%\nD10*\n%TO.N,LEFT*%\n%TO.P,J1,1*%\nX" + g(6)
                + "Y" + g(6) + "D03*\n%TO.P,J1,3*%\nX" + g(6) + "Y" + g(10) + "D03*\n%TD.P*%\nG01*\nD11*\nX" + g(6)
                + "Y" + g(6)
                + "D02*\nX" + g(6) + "Y" + g(10) + "D01*\nD10*\n%TO.N,RIGHT*%\n%TO.P,J1,2*%\nX" + g(9) + "Y" + g(6)
                + "D03*\n%TD*%\nM02*\n";
    }

    private static String g(double mm) {
        return String.format(Locale.ROOT, "%d", StrictMath.round(mm * 1e6));
    }

    private static Bench lands(Manner m, Text t) {
        return bench(m).side("face", "top")
                .cellUm(10)
                .design("top_copper", "top.gbr", layer())
                .runs(t.toString());
    }

    private static void nets(List<Plant> plants) {
        add(plants, "J1", "short", STOP, (m, fault) -> {
            // One loop round both nets, and a groove between them that stops short of the far wall.
            Text t = m.text()
                    .start(1)
                    .box(4.9, 4.9, 10.1, 11.1, -0.1)
                    .to(7.5, 11.1)
                    .down(-0.1, 90);
            t.cut(7.5, fault ? 5.7 : 4.9, 300);
            return at(lands(m, t.up().end()), 0, 7.5, 5.3);
        });
        add(plants, "J2", "open", STOP, (m, fault) -> {
            Text t = m.text().start(1).box(4.9, 4.9, 7.1, 11.1, -0.1).box(7.9, 4.9, 10.1, 7.1, -0.1);
            t.to(4.9, 8).down(-0.1, 90).cut(fault ? 7.1 : 5.5, 8, 300);
            int line = t.last();
            return at(lands(m, t.up().end()), line, 6, 8);
        });
        add(plants, "B9", "mirrored", STOP, (m, fault) -> {
            double mirror = fault ? 20 : 0;
            double s = fault ? -1 : 1;
            Text t = m.text().start(1);
            // An L of three lands, no symmetry: the layer image has it one way, the fault mills the other.
            double[][] boxes = {{3, 3, 6, 6}, {6.5, 3, 9.5, 6}, {3, 6.5, 6, 11}};
            for (double[] b : boxes) {
                double x0 = Math.min(mirror + s * b[0], mirror + s * b[2]);
                double x1 = Math.max(mirror + s * b[0], mirror + s * b[2]);
                t.box(x0, b[1], x1, b[3], -0.1);
            }
            String image = "%FSLAX46Y46*%\n%MOMM*%\n%ADD10R,2.8X2.8*%\n%ADD11R,2.8X4.3*%\nD10*\nX" + g(4.5) + "Y"
                    + g(4.5) + "D03*\nX" + g(8) + "Y" + g(4.5) + "D03*\nD11*\nX" + g(4.5) + "Y" + g(8.75)
                    + "D03*\nM02*\n";
            return on(
                    bench(m).side("face", "top")
                            .design("top_copper", "top.gbr", image)
                            .runs(t.end().toString()),
                    0);
        });
        add(plants, "G3", "hole-missing", STOP, (m, fault) -> {
            String drill = "M48\nMETRIC\nT1C1.200\n%\nG90\nT1\nX6.0Y6.0\nX10.0Y8.0\nM30\n";
            Text t = m.text().start(2).bore(6, 6, 1.2, 0.8, -1.65);
            t.bore(fault ? 10.2 : 10.1, 8, 1.2, 0.8, -1.65).end();
            return at(
                    bench(m).side("face", "top")
                            .design("drill", "holes.drl", drill)
                            .runs(t.toString()),
                    0,
                    10,
                    8);
        });
        add(plants, "G2", "hole-size", FIX, (m, fault) -> {
            String drill = "M48\nMETRIC\nT1C1.200\n%\nG90\nT1\nX6.0Y6.0\nM30\n";
            Text t = m.text()
                    .start(2)
                    .bore(6, 6, fault ? 1.37 : 1.33, 0.8, -1.65)
                    .end();
            return at(
                    bench(m).side("face", "top")
                            .design("drill", "holes.drl", drill)
                            .runs(t.toString()),
                    0,
                    6,
                    6);
        });
    }
}
