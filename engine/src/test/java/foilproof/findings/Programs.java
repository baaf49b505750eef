package foilproof.findings;

import java.util.Locale;

/** Pieces of programs as a generator writes them: G21, absolute, retracted between cuts. Lengths in mm. */
public final class Programs {
    /** Safe-start line. */
    public static final String HEAD = "G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G61\n";

    /** Retract, stop, end. */
    public static final String END = "G0 Z10\nM5\nM2\n";

    private Programs() {}

    /** Header, tool change with a stop, spindle, dwell, retract. */
    public static String start(int tool) {
        return start(tool, 16000);
    }

    /** Header, tool change with a stop, spindle, dwell, retract. */
    public static String start(int tool, int rpm) {
        return HEAD + "M5\nG0 Z25\n" + "T" + tool + " M6\nM0 (TOUCH OFF T" + tool + ")\nS" + rpm
                + " M3\nG4 P3\nG0 Z5\n";
    }

    /** A closed rectangle with 0.4 mm of lead-over. */
    public static String rectangle(double x0, double y0, double x1, double y1, double z) {
        return text(
                "G0 X%s Y%s\nG0 Z1\nG1 Z%s F90\nG1 X%s F300\nG1 Y%s\nG1 X%s\nG1 Y%s\nG1 X%s\nG0 Z5\n",
                x0, y0, z, x1, y1, x0, y0, x0 + 0.4);
    }

    /** One straight cut. */
    public static String line(double x0, double y0, double x1, double y1, double z) {
        return text("G0 X%s Y%s\nG0 Z1\nG1 Z%s F90\nG1 X%s Y%s F300\nG0 Z5\n", x0, y0, z, x1, y1);
    }

    /** A bore by a cutter: helix of turns down to each height, then a level turn. */
    public static String bore(double x, double y, double bored, double cutter, double... heights) {
        double r = (bored - cutter) / 2;
        StringBuilder t = new StringBuilder(text("G0 X%s Y%s\nG0 Z0.5\nG1 Z0 F90\n", x + r, y));
        for (double z : heights) {
            t.append(text("G3 X%s Y%s I%s J0 Z%s F180\n", x + r, y, -r, z));
        }
        return t.append(text("G3 X%s Y%s I%s J0\nG0 Z2\n", x + r, y, -r)).toString();
    }

    /** A straight plunge at 90 mm/min. */
    public static String plunge(double x, double y, double z) {
        return text("G0 X%s Y%s\nG0 Z0.5\nG1 Z%s F90\nG0 Z2\n", x, y, z);
    }

    /** A sound isolation program of the engraver: a rectangle at Z-0.1. */
    public static String isolation() {
        return start(1) + rectangle(3, 3, 13, 11, -0.1) + END;
    }

    /** Text with numbers in plain decimals. */
    public static String text(String pattern, double... numbers) {
        Object[] words = new Object[numbers.length];
        for (int i = 0; i < numbers.length; i++) {
            String s = String.format(Locale.ROOT, "%.6f", numbers[i]).replaceAll("0+$", "");
            words[i] = s.endsWith(".") ? s + "0" : s;
        }
        return String.format(Locale.ROOT, pattern, words);
    }
}
