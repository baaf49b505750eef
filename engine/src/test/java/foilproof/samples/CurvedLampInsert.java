package foilproof.samples;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Job 5: an outline written for a 1.5 mm blank runs on one of 1.0 mm, with the cutter that is reserved for copper, in
 * one pass, without tabs or tape; a third file holds an arc whose radii disagree.
 */
final class CurvedLampInsert implements SampleJob {
    private static final double CUTTER_MM = 0.79375;
    private static final double OUTLINE_Z_MM = -1.75;

    /** Corners of the organic outline, the cutter's middle, clockwise; the first arc is given, the others by radius. */
    private static final double[][] CORNERS = {{2.0, 16.5}, {19.0, 32.6}, {40.794, 17.0}, {22.0, -0.9}};

    private static final double[] RADII_MM = {Double.NaN, 18.5, 18.5, 19.0};

    /** The opening, 14 x 9 mm, its lower-left corner. */
    private static final double OPENING_X_MM = 14.5;

    private static final double OPENING_Y_MM = 11.5;

    @Override
    public String folder() {
        return "curved-lamp-insert";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("outline.ngc", outline());
        files.put("bores.ngc", bores());
        files.put("second-try.ngc", secondTry());
        return files;
    }

    private static String outline() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Curved lamp insert, opening and outline for 1.5 mm, T1 end mill 1/32 in, 0.794 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        p.comment("opening 14 x 9 mm");
        double x0 = OPENING_X_MM + CUTTER_MM / 2;
        double y0 = OPENING_Y_MM + CUTTER_MM / 2;
        double x1 = OPENING_X_MM + 14 - CUTTER_MM / 2;
        double y1 = OPENING_Y_MM + 9 - CUTTER_MM / 2;
        p.rapid(x0, y0);
        p.plunge(OUTLINE_Z_MM, 200);
        p.cut(x1, y0, 600);
        p.cut(x1, y1, 0);
        p.cut(x0, y1, 0);
        p.cut(x0, y0, 0);
        p.up();
        p.comment("outline 38 x 33 mm");
        p.rapid(CORNERS[0][0], CORNERS[0][1]);
        p.plunge(OUTLINE_Z_MM, 200);
        p.arc(true, 19.0, 32.6, 19.166, 15.4, " F600");
        for (int i = 1; i < CORNERS.length; i++) {
            double[] from = CORNERS[i];
            double[] to = CORNERS[(i + 1) % CORNERS.length];
            double[] centre = centre(from, to, RADII_MM[i]);
            p.arc(true, to[0], to[1], centre[0], centre[1], "");
        }
        p.up();
        p.end();
        return p.text();
    }

    /** Centre of the shorter clockwise arc of a radius between two places. */
    private static double[] centre(double[] from, double[] to, double radiusMm) {
        double dx = to[0] - from[0];
        double dy = to[1] - from[1];
        double d = Math.hypot(dx, dy);
        double h = Math.sqrt(radiusMm * radiusMm - d * d / 4);
        return new double[] {(from[0] + to[0]) / 2 + dy / d * h, (from[1] + to[1]) / 2 - dx / d * h};
    }

    private static String bores() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Curved lamp insert, bores 1.20 mm, T2 end mill 1/32 in, 0.794 mm");
        p.line(ProgramWriter.HEADER);
        p.change(2, true);
        for (double[] at : new double[][] {{8.0, 16.0}, {35.0, 16.0}, {21.5, 26.0}, {21.5, 5.0}}) {
            p.bore(at[0], at[1], 0.203, 0.35, -1.15, 180);
        }
        p.end();
        return p.text();
    }

    private static String secondTry() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Curved lamp insert, outline once more, typed by hand, T2");
        p.line(ProgramWriter.HEADER);
        p.change(2, true);
        p.line("G0 X2.000 Y16.500");
        p.line("G1 Z-1.150 F90");
        p.line("G2 X19.000 Y32.600 I17.9 J-1.1 F600");
        p.end();
        return p.text();
    }
}
