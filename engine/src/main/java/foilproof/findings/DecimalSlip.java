package foilproof.findings;

import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A whole number without its decimal point that is larger than the blank, in a cutting move (A2): X1000 that was meant as
 * 1.000. Parking beyond the blank is usual and cuts nothing.
 */
final class DecimalSlip implements Check {
    private static final Pattern WHOLE = Pattern.compile("([XYZxyz])\\s*([-+]?\\d+)(?![\\d.]|\\s*\\.)");

    @Override
    public List<String> kinds() {
        return List.of(Kinds.DECIMAL_SLIP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A2");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            one(x, program, out);
        }
    }

    private static void one(Examination x, PlannedProgram program, FindingCollector out) {
        Segments s = x.plan().segments();
        String[] lines = null;
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (!s.isFeed(i) || !cutting(x, i) || !farAway(x, i)) {
                continue;
            }
            if (lines == null) {
                lines = program.interpretation().source().latin1().split("\r\n|\r|\n", -1);
            }
            int line = s.line(i);
            if (line < 1 || line > lines.length) {
                continue;
            }
            String text = lines[line - 1].replaceAll("\\([^)]*\\)", "").replaceAll(";.*", "");
            double scale = program.interpretation().stateAtLine(line).units().mmPerUnit();
            Matcher m = WHOLE.matcher(text);
            while (m.find()) {
                char axis = Character.toUpperCase(m.group(1).charAt(0));
                double mm = m.group(2).length() > 9
                        ? Double.POSITIVE_INFINITY
                        : Math.abs(Integer.parseInt(m.group(2))) * scale;
                double size = size(x, axis);
                boolean counts = axis != 'Z' || m.group(2).startsWith("-");
                if (counts && mm > size + (axis == 'Z' ? 0 : radius(x, i)) + 1e-9) {
                    out.add(x.at(Finding.of(Kinds.DECIMAL_SLIP, Severity.STOP, Certainty.GEOMETRY), i)
                            .atMost(Measured.exact("axis word " + axis, mm, "mm"), size)
                            .says(axis + m.group(2)
                                    + " has no decimal point, and it lies beyond the blank, which measures "
                                    + Words.mm(size) + " along " + axis
                                    + ", in a cutting move: most likely the point was"
                                    + " lost, and the number is ten or a thousand times too large.")
                            .doThis("Check one value by hand; export with decimal points, such as " + axis + "1.000.")
                            .build());
                    return;
                }
            }
        }
    }

    /** Whether the tip is at or below the foil top, over the blank or beside it. */
    private static boolean cutting(Examination x, int i) {
        Segments s = x.plan().segments();
        return x.run(s.run(i)).blankFromRunMm(s.lowestMm(i)) <= 1e-9;
    }

    private static boolean farAway(Examination x, int i) {
        Segments s = x.plan().segments();
        double width = x.job().blank().widthMm();
        double height = x.job().blank().heightMm();
        double deep = size(x, 'Z');
        return Math.abs(s.x1Mm(i) - s.x0Mm(i)) > 0 && (s.x1Mm(i) > width || s.x1Mm(i) < 0)
                || Math.abs(s.y1Mm(i) - s.y0Mm(i)) > 0 && (s.y1Mm(i) > height || s.y1Mm(i) < 0)
                || -x.run(s.run(i)).blankFromRunMm(s.z1Mm(i)) > deep;
    }

    /** The cutter's radius, mm: along the blank's edge its axis runs so far outside. */
    private static double radius(Examination x, int i) {
        RunFacts run = x.run(x.plan().segments().run(i));
        double below = -run.blankFromRunMm(x.plan().segments().lowestMm(i));
        return run.tool() == null ? 0 : run.tool().cutRadiusAtHeightMm(Math.max(0, below));
    }

    /** Size of the blank along an axis, mm; down, the spoil board counts with it, and an unknown one is without end. */
    private static double size(Examination x, char axis) {
        OptionalDouble spoil = x.job().spoilBoard().thicknessMm();
        return switch (axis) {
            case 'X' -> x.job().blank().widthMm();
            case 'Y' -> x.job().blank().heightMm();
            default ->
                spoil.isPresent() ? x.job().blank().thicknessMm() + spoil.getAsDouble() : Double.POSITIVE_INFINITY;
        };
    }
}
