package foilproof.corpus;

import static foilproof.corpus.Plant.bench;
import static foilproof.corpus.Plant.on;

import foilproof.corpus.Manner.Text;
import foilproof.corpus.Plant.Planted;
import foilproof.findings.Bench;
import java.util.Locale;

/** Boards and pieces of boards that several planters share; all places in the planter's frame, mm. */
final class Boards {
    /** Half of the widening of a 30 deg bit by its depth. */
    static final double TAN = StrictMath.tan(StrictMath.toRadians(15));

    /** Half-ounce foil, 30 deg, tip 0.12, at 0.1 deep: the groove is this wide at the foil bottom, mm (closed form). */
    static final double GROOVE_MM = 0.12 + 2 * (0.1 - 0.0174) * TAN;

    private Boards() {}

    /** One loop of the engraver round (3, 3) to (13, 11). */
    static String loop(Manner m, double height) {
        return m.text().start(1).box(3, 3, 13, 11, height).end().toString();
    }

    /** A fault that runs all along {@link #loop}: by any of its lines, the way down included. */
    static Planted allAlongTheLoop(Bench bench) {
        return on(bench, 0).byLines(11, 16).along(3, 3, 13, 3, 13, 11, 3, 11, 3, 3);
    }

    /** A bore of 1.2 mm through the blank. */
    static String bore(Manner m, double x, double y) {
        return m.text().start(2).bore(x, y, 1.2, 0.8, -1.65).end().toString();
    }

    /**
     * An outline cut round (2, 2) to (15, 12) in four depth passes.
     *
     * @param tabs none, one or two tabs of 3 mm of path, left below the tab height
     */
    static Text outline(Manner m, int tool, double deepest, double tabHeight, int tabs) {
        return outline(m.text().start(tool), deepest, tabHeight, tabs).end();
    }

    /** The same in a program that is being written. */
    static Text outline(Text t, double deepest, double tabHeight, int tabs) {
        t.to(2, 2);
        for (double z : new double[] {-0.45, -0.9, -1.35, deepest}) {
            t.down(z, 90);
            if (tabs > 0 && z < tabHeight) {
                t.cut(6, 2, 200).down(tabHeight, 90).cut(9, 2, 200).down(z, 90);
            }
            t.cut(15, 2, 200).cut(15, 12, 200);
            if (tabs > 1 && z < tabHeight) {
                t.cut(10, 12, 200).down(tabHeight, 90).cut(7, 12, 200).down(z, 90);
            }
            t.cut(2, 12, 200).cut(2, 2, 200);
        }
        return t.up();
    }

    /** A job whose first side shows the top copper, with a layer image in the planter's frame. */
    static Bench top(Manner m, String image) {
        return m.placed(bench(m).side("face", "top").cellUm(10).design("top_copper", "top.gbr", image));
    }

    /** A job whose first side shows the top copper, with a drill file in the planter's frame. */
    static Bench drilled(Manner m, String drill) {
        return m.placed(bench(m).side("face", "top").design("drill", "holes.drl", drill));
    }

    /** A number of a layer image: mm with six decimals. */
    static String g(double mm) {
        return String.format(Locale.ROOT, "%d", StrictMath.round(mm * 1e6));
    }

    /** Rectangular pads with nets of their own, N0, N1 ...: x, y of each. */
    static String pads(double width, double height, double... xy) {
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,ComponentPad*%\n%ADD10R,")
                .append(String.format(Locale.ROOT, "%.4fX%.4f", width, height))
                .append("*%\nD10*\n");
        for (int i = 0; i < xy.length; i += 2) {
            t.append("%TO.N,N").append(i / 2).append("*%\n%TO.P,J1,").append(i / 2 + 1);
            t.append("*%\nX").append(g(xy[i])).append('Y').append(g(xy[i + 1])).append("D03*\n");
        }
        return t.append("M02*\n").toString();
    }

    /** A drill file of one size: x, y of each hole. */
    static String holes(double diameter, double... xy) {
        StringBuilder t = new StringBuilder("M48\nMETRIC\nT1C")
                .append(String.format(Locale.ROOT, "%.3f", diameter))
                .append("\n%\nG90\nT1\n");
        for (int i = 0; i < xy.length; i += 2) {
            t.append(String.format(Locale.ROOT, "X%.4fY%.4f%n", xy[i], xy[i + 1]));
        }
        return t.append("M30\n").toString();
    }

    /** Net LEFT: two lands of 2 mm at (6, 6) and (6, 10), joined by a trace of 0.6 mm; net RIGHT: one at (9, 6). */
    static String leftAndRight() {
        return "%FSLAX46Y46*%\n%MOMM*%\n%ADD10R,2.0X2.0*%\n%ADD11C,0.6*%\nD10*\n%TO.N,LEFT*%\n%TO.P,J1,1*%\nX" + g(6)
                + "Y" + g(6) + "D03*\n%TO.P,J1,3*%\nX" + g(6) + "Y" + g(10) + "D03*\n%TD.P*%\nG01*\nD11*\nX" + g(6)
                + "Y" + g(6) + "D02*\nX" + g(6) + "Y" + g(10) + "D01*\nD10*\n%TO.N,RIGHT*%\n%TO.P,J1,2*%\nX" + g(9)
                + "Y" + g(6) + "D03*\n%TD*%\nM02*\n";
    }

    /**
     * Two traces of 0.6 mm side by side: net N0 from (3, 6) to (13, 6), net N1 from 5 to 15 above it, each with its only
     * pad where the other one is far; grooves along every edge.
     */
    static Bench twoTraces(Manner m, double gap, String more) {
        double y = 6.6 + gap;
        String image = "%FSLAX46Y46*%\n%MOMM*%\n%TA.AperFunction,ComponentPad*%\n%ADD10C,0.6*%\n%TD*%\n%ADD11C,0.6*%\n"
                + "%TO.N,N0*%\n%TO.P,J1,1*%\nD10*\nX" + g(3.3) + "Y" + g(6) + "D03*\n%TD.P*%\nG01*\nD11*\nX" + g(3.3)
                + "Y"
                + g(6) + "D02*\nX" + g(12.7) + "Y" + g(6) + "D01*\n%TO.N,N1*%\n%TO.P,J1,2*%\nD10*\nX" + g(14.7) + "Y"
                + g(y) + "D03*\n%TD.P*%\nD11*\nX" + g(14.7) + "Y" + g(y) + "D02*\nX" + g(5.3) + "Y" + g(y)
                + "D01*\n%TD*%\nM02*\n";
        double h = GROOVE_MM / 2;
        Text t = m.text().start(1).box(3 - h, 5.7 - h, 13 + h, 6.3 + h, -0.1);
        t.box(5 - h, y - 0.3 - h, 15 + h, y + 0.3 + h, -0.1).end();
        return top(m, image).also(more).runs(t.toString());
    }

    /** Any of the lines of {@link #outline}, all along it. */
    static Planted allAlongTheOutline(Bench bench) {
        return on(bench, 0).byLines(11, 42).along(2, 2, 15, 2, 15, 12, 2, 12, 2, 2);
    }

    /** A trace of this width between two sides of a narrow loop. */
    static Planted trace(Manner m, double width) {
        Text t = m.text().start(1).box(3, 5, 13, 5 + width + GROOVE_MM, -0.1).end();
        Bench b = bench(m).cellUm(10).machine("backlash", "[\"0 mm\", \"0 mm\"]");
        return on(b.runs(t.toString()), 0).byLines(11, 16).along(3, 5.1, 13, 5.1);
    }

    /** Two grooves side by side with a strip of copper between them. */
    static Planted twoGrooves(Manner m, double strip) {
        double step = GROOVE_MM + strip;
        Text t = m.text().start(1).groove(4, 5, 12, 5, -0.1).groove(4, 5 + step, 12, 5 + step, -0.1);
        return on(bench(m).cellUm(10).runs(t.end().toString()), 0)
                .byLines(11, 17)
                .along(4, 5.1, 12, 5.1);
    }

    /** A layer image of a closed rectangle, drawn with a line of 0.1 mm. */
    static String contour(double x0, double y0, double x1, double y1) {
        return "%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.1*%\nD10*\nG01*\nX" + g(x0) + "Y" + g(y0) + "D02*\nX" + g(x1) + "Y"
                + g(y0) + "D01*\nX" + g(x1) + "Y" + g(y1) + "D01*\nX" + g(x0) + "Y" + g(y1) + "D01*\nX" + g(x0) + "Y"
                + g(y0) + "D01*\nM02*\n";
    }
}
