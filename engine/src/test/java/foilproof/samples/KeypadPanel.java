package foilproof.samples;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * Job 6: rings in millimetres, holes in inches without saying so, a hole that was meant as a rapid, a decimal comma, an
 * arc that became a full circle.
 */
final class KeypadPanel implements SampleJob {
    private static final int COLUMNS = 8;
    private static final int ROWS = 6;
    private static final double INCH_MM = 25.4;
    private static final double PITCH_IN = 0.1;
    private static final double FIRST_X_IN = 0.4;
    private static final double FIRST_Y_IN = 0.2;

    /** Half a land of 1.90 and half a groove at the foil bottom: 0.95 + (0.10 + 2 x (0.115 - 0.0174) x tan 15 deg) / 2. */
    private static final double RING_MM = 1.026;

    @Override
    public String folder() {
        return "keypad-panel";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("rings.ngc", rings());
        files.put("holes.ngc", holes());
        files.put("legend.ngc", legend());
        return files;
    }

    private static String rings() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Keypad panel, rings, millimetres, T1 engraving bit V 30 deg tip 0.10 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                double x = (FIRST_X_IN + column * PITCH_IN) * INCH_MM;
                double y = (FIRST_Y_IN + row * PITCH_IN) * INCH_MM;
                p.rapid(x + RING_MM, y);
                p.plunge(-0.115, 90);
                p.arc(false, x + RING_MM, y, x, y, " F300");
                p.arc(false, x, y + RING_MM, x, y, "");
                p.up();
            }
        }
        p.end();
        return p.text();
    }

    private static String holes() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Keypad panel, 48 holes, T2 drill 1.36 mm");
        p.line("G90 G94 G17 G40 G49 G80 G54 G61");
        p.line("M5");
        p.line("G0 Z1");
        p.line("T2 M6");
        p.line("M0 (TOUCH OFF T2)");
        p.line("S16000 M3");
        p.line("G4 P3");
        p.line("G0 Z0.1");
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                String x = "X" + in(FIRST_X_IN + column * PITCH_IN);
                String y = " Y" + in(FIRST_Y_IN + row * PITCH_IN);
                if (row == 0 && column == 0) {
                    p.line("G81 " + x + y + " Z-0.085 R0.04 F4");
                } else {
                    p.line(column == 0 ? x + y : x);
                }
            }
        }
        p.line("F24");
        p.line("X1.5748 Y0.0000 (meant as rapid)");
        p.line("G80");
        p.line("G0 Z1");
        p.line("M5");
        p.line("M2");
        return p.text();
    }

    private static String legend() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Keypad panel, legend, inches, T1 engraving bit V 30 deg tip 0.10 mm");
        p.line("G20 G90 G91.1 G94 G17 G40 G49 G80 G54 G61");
        p.line("M5");
        p.line("G0 Z1");
        p.line("T1 M6");
        p.line("M0 (TOUCH OFF T1)");
        p.line("S16000 M3");
        p.line("G4 P3");
        p.line("G0 Z0.1");
        p.line("G0 X1.1600 Y0.7800");
        p.line("G1 Z-0.0045 F4");
        p.line("G1 X1.1700 Y0.7860 F12");
        p.line("G1 X1.1800 Y0.7915");
        p.line("G1 X1.1900 Y0.7960");
        p.line("G1 X1.2001 Y0.8000");
        p.line("G2 X1.2001 Y0.8000 I0 J-0.5");
        p.line("G1 X1.2100 Y0.8030");
        p.line("G1 X1.2200 Y0.8050");
        p.line("G1 X1.2300 Y0.8060");
        p.line("X1,250");
        p.line("G0 Z0.1");
        p.line("M5");
        p.line("M2");
        return p.text();
    }

    private static String in(double inch) {
        return String.format(Locale.ROOT, "%.4f", inch);
    }
}
