package foilproof.findings;

import foilproof.language.Interpretation;
import foilproof.language.LengthUnits;
import foilproof.motion.PlannedProgram;
import foilproof.source.Diagnostic;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Whether an arc that failed while G91 was in force is sound when its words, and those of the lines before it, are read as
 * absolute: its end then lies on the circle about its centre, or within reach of its radius.
 */
final class AbsoluteArc {
    private static final Pattern ASIDE = Pattern.compile("\\([^)]*\\)|;.*");
    private static final Pattern WORD = Pattern.compile("([XYIJR])\\s*([+-]?(?:\\d+\\.?\\d*|\\.\\d+))");

    private AbsoluteArc() {}

    /** True where the error is that of an arc in the plane of X and Y, under G91, that fits as absolute. */
    static boolean meant(Examination x, PlannedProgram program, Diagnostic error) {
        int line = error.span().line();
        Interpretation text = program.interpretation();
        if (!error.code().equals("arc-radii") && !error.code().equals("arc-radius")
                || !text.stateAtLine(Math.max(0, line - 1)).incremental()) {
            return false;
        }
        String[] lines = program.entry().source().latin1().split("\\r\\n|\\r|\\n", -1);
        double[] end = words(lines, line);
        double[] start = {Double.NaN, Double.NaN};
        for (int k = line - 1; k >= 1 && (Double.isNaN(start[0]) || Double.isNaN(start[1])); k--) {
            double[] before = words(lines, k);
            for (int axis = 0; axis < 2; axis++) {
                start[axis] = Double.isNaN(start[axis]) ? before[axis] : start[axis];
            }
        }
        double endX = Double.isNaN(end[0]) ? start[0] : end[0];
        double endY = Double.isNaN(end[1]) ? start[1] : end[1];
        double radius = end[4];
        if (!Double.isNaN(radius)) {
            double chord = StrictMath.hypot(endX - start[0], endY - start[1]);
            return chord > 0 && chord / 2 - Math.abs(radius) <= tolerance(x, text, line, Math.abs(radius));
        }
        double i = Double.isNaN(end[2]) ? 0 : end[2];
        double j = Double.isNaN(end[3]) ? 0 : end[3];
        double first = StrictMath.hypot(i, j);
        double last = StrictMath.hypot(endX - start[0] - i, endY - start[1] - j);
        return first > 0 && Math.abs(first - last) <= tolerance(x, text, line, first) + 1e-9;
    }

    /** How far radii may differ where the arc stands (A14), in the program's unit. */
    private static double tolerance(Examination x, Interpretation text, int line, double radius) {
        LengthUnits units = text.stateAtLine(Math.max(0, line - 1)).units();
        double mm = units.mmPerUnit();
        return x.job().machine().dialect().arcToleranceMm(radius * mm, units) / mm;
    }

    /** X, Y, I, J, R of a line, NaN where it has none. */
    private static double[] words(String[] lines, int line) {
        double[] out = {Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN};
        String text = line > lines.length ? "" : ASIDE.matcher(lines[line - 1]).replaceAll(" ");
        Matcher m = WORD.matcher(text.toUpperCase(Locale.ROOT));
        while (m.find()) {
            out["XYIJR".indexOf(m.group(1))] = Double.parseDouble(m.group(2));
        }
        return out;
    }
}
