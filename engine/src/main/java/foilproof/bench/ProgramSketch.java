package foilproof.bench;

import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.Interpretation;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.language.LengthUnits;
import foilproof.language.ToolTable;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A rough look at one program, for guesses that a person checks: where it cuts, how deep, with which tool numbers, and
 * what its comments say of the cutters. Judges nothing.
 */
final class ProgramSketch {
    /** Work that stays above this depth is copper work; common practice, no source. */
    static final double COPPER_DEPTH_MM = 0.35;

    /** A comment this many lines from a tool change speaks of that tool. */
    private static final int NEAR_LINES = 3;

    /** A comment among these first lines speaks of the tool of a program that calls none. */
    private static final int HEAD_LINES = 12;

    private static final double LARGEST_BORE_MM = 6;
    private static final int ARC_STEPS = 32;
    private static final Pattern FRACTION = Pattern.compile("(\\d{1,2})\\s*/\\s*(\\d{1,3})\\s*(?:in\\b|inch|\")?");
    private static final Pattern MILLIMETRES =
            Pattern.compile("(?<![\\d.-])(\\d{0,2}\\.?\\d{1,4})\\s*mm", Pattern.CASE_INSENSITIVE);
    private static final Pattern DEGREES =
            Pattern.compile("(\\d{1,3}(?:\\.\\d+)?)\\s*(?:deg|\u00b0)", Pattern.CASE_INSENSITIVE);
    private static final Pattern TIP =
            Pattern.compile("tip\\s*(?:width|dia\\w*)?\\s*[:=]?\\s*(\\d*\\.\\d{1,4})", Pattern.CASE_INSENSITIVE);

    /** What one tool number does; the number is -1 where the program calls none. */
    static final class Use {
        final int number;
        final StringBuilder comments = new StringBuilder();
        double lowestMm = Double.POSITIVE_INFINITY;
        double lateralMm;
        int plunges;
        int rounds;
        boolean wide;

        Use(int number) {
            this.number = number;
        }

        /** What it is for, or null where it cuts nothing. */
        @Nullable
        Work work() {
            if (lowestMm >= 0) {
                return null;
            }
            if (lowestMm >= -COPPER_DEPTH_MM) {
                return Work.ISOLATION;
            }
            return wide ? Work.OUTLINE : Work.BORING;
        }
    }

    final SourceFile file;
    final boolean unitsStated;
    final boolean broken;
    final Map<Integer, Use> uses = new TreeMap<>();
    double x0Mm = Double.POSITIVE_INFINITY;
    double y0Mm = Double.POSITIVE_INFINITY;
    double x1Mm = Double.NEGATIVE_INFINITY;
    double y1Mm = Double.NEGATIVE_INFINITY;
    private double runX0Mm;
    private double runY0Mm;
    private double runX1Mm;
    private double runY1Mm;

    private ProgramSketch(SourceFile file, InputLimits limits) {
        this.file = file;
        InterpreterSetup setup = InterpreterSetup.builder()
                .initialUnits(LengthUnits.MM)
                .tools(new AnyTool())
                .startAssumed(0, 0, 10)
                .limits(limits)
                .build();
        Interpretation read = Interpreter.interpret(file, setup);
        broken = !read.errors().isEmpty();
        unitsStated = scan(read.commands());
        nameComments(read.commands());
    }

    static ProgramSketch of(SourceFile file, InputLimits limits) {
        return new ProgramSketch(file, limits);
    }

    /** Whether anything is cut below Z 0. */
    boolean cuts() {
        return x0Mm <= x1Mm;
    }

    private boolean scan(CanonicalProgram commands) {
        Use use = new Use(-1);
        boolean units = false;
        boolean unitsBeforeMotion = false;
        boolean moved = false;
        for (int i = 0; i < commands.size(); i++) {
            CommandKind kind = commands.kind(i);
            if (kind == CommandKind.USE_UNITS) {
                units = true;
            } else if (kind == CommandKind.CHANGE_TOOL) {
                int number = (int) commands.value(i);
                use = uses.computeIfAbsent(number, Use::new);
                resetRun();
            } else if (kind.isMotion()) {
                unitsBeforeMotion |= !moved && units;
                moved = true;
                if (kind != CommandKind.STRAIGHT_PROBE && commands.endMm(i, 2) < 0) {
                    cut(commands, i, use);
                    uses.putIfAbsent(use.number, use);
                } else {
                    resetRun();
                }
            }
        }
        return unitsBeforeMotion || !moved;
    }

    private void resetRun() {
        runX0Mm = Double.POSITIVE_INFINITY;
        runY0Mm = Double.POSITIVE_INFINITY;
        runX1Mm = Double.NEGATIVE_INFINITY;
        runY1Mm = Double.NEGATIVE_INFINITY;
    }

    private void cut(CanonicalProgram c, int i, Use use) {
        use.lowestMm = Math.min(use.lowestMm, c.endMm(i, 2));
        double dx = c.endMm(i, 0) - c.startMm(i, 0);
        double dy = c.endMm(i, 1) - c.startMm(i, 1);
        boolean arc = c.kind(i) == CommandKind.ARC_FEED;
        if (!arc && dx == 0 && dy == 0) {
            use.plunges++;
            include(c.endMm(i, 0), c.endMm(i, 1));
        } else if (c.isRapid(i)) {
            include(c.endMm(i, 0), c.endMm(i, 1));
        } else {
            use.lateralMm += StrictMath.hypot(dx, dy);
            include(c.startMm(i, 0), c.startMm(i, 1));
            include(c.endMm(i, 0), c.endMm(i, 1));
            if (arc && c.plane(i).first() == 0 && c.plane(i).second() == 1) {
                use.rounds++;
                includeArc(c, i);
            }
        }
        use.wide |= runX1Mm - runX0Mm > LARGEST_BORE_MM || runY1Mm - runY0Mm > LARGEST_BORE_MM;
    }

    private void includeArc(CanonicalProgram c, int i) {
        double cx = c.centreFirstMm(i);
        double cy = c.centreSecondMm(i);
        double sx = c.startMm(i, 0) - cx;
        double sy = c.startMm(i, 1) - cy;
        double ex = c.endMm(i, 0) - cx;
        double ey = c.endMm(i, 1) - cy;
        double sweep = StrictMath.atan2(sx * ey - sy * ex, sx * ex + sy * ey);
        boolean left = c.turn(i) > 0;
        if (left && sweep <= 1e-9) {
            sweep += 2 * Math.PI;
        } else if (!left && sweep >= -1e-9) {
            sweep -= 2 * Math.PI;
        }
        for (int k = 1; k < ARC_STEPS; k++) {
            double a = sweep * k / ARC_STEPS;
            double cos = StrictMath.cos(a);
            double sin = StrictMath.sin(a);
            include(cx + sx * cos - sy * sin, cy + sx * sin + sy * cos);
        }
    }

    private void include(double xMm, double yMm) {
        x0Mm = Math.min(x0Mm, xMm);
        y0Mm = Math.min(y0Mm, yMm);
        x1Mm = Math.max(x1Mm, xMm);
        y1Mm = Math.max(y1Mm, yMm);
        runX0Mm = Math.min(runX0Mm, xMm);
        runY0Mm = Math.min(runY0Mm, yMm);
        runX1Mm = Math.max(runX1Mm, xMm);
        runY1Mm = Math.max(runY1Mm, yMm);
    }

    private void nameComments(CanonicalProgram c) {
        for (int i = 0; i < c.size(); i++) {
            if (c.kind(i) != CommandKind.CHANGE_TOOL) {
                continue;
            }
            Use use = uses.get((int) c.value(i));
            for (int j = 0; use != null && j < c.size(); j++) {
                if (isText(c, j) && Math.abs(c.line(j) - c.line(i)) <= NEAR_LINES) {
                    use.comments.append(c.text(j)).append('\n');
                }
            }
        }
        Use unnamed = uses.get(-1);
        for (int j = 0; unnamed != null && j < c.size(); j++) {
            if (isText(c, j) && c.line(j) <= HEAD_LINES) {
                unnamed.comments.append(c.text(j)).append('\n');
            }
        }
    }

    private static boolean isText(CanonicalProgram c, int i) {
        return c.kind(i) == CommandKind.COMMENT || c.kind(i) == CommandKind.MESSAGE;
    }

    /**
     * A tool as lines of a job file, guessed for one use.
     *
     * @param shape the shape
     * @param lines {@code key = value} lines without name and number
     * @param why what the guess rests on
     */
    record ToolGuess(ToolShape shape, List<String> lines, String why) {}

    /** Guesses the cutter of a use: from its comments, else from what it does. */
    static ToolGuess guess(Use use) {
        String text = use.comments.toString();
        String lower = text.toLowerCase(java.util.Locale.ROOT);
        Double angle = first(DEGREES.matcher(text), 1);
        Double diameter = diameterMm(text);
        boolean vee =
                lower.matches("(?s).*\\b(v[- ]?(bit|shaped?|tool)|engrav\\w*)\\b.*") || angle != null && angle <= 90;
        if (vee) {
            Double tip = first(TIP.matcher(text), 1);
            return new ToolGuess(
                    ToolShape.V,
                    List.of(
                            "included_angle = \"" + number(angle == null ? 30 : angle) + " deg\"",
                            tip == null ? "tip_width = \"unknown\"" : "tip_width = \"" + number(tip) + " mm\"",
                            "duty = \"copper only\""),
                    "from a comment" + (angle == null ? ", angle guessed" : ""));
        }
        if (diameter != null) {
            boolean drill = lower.contains("drill") && use.rounds == 0 && use.lateralMm == 0;
            ToolShape shape = drill ? ToolShape.DRILL : lower.contains("ball") ? ToolShape.BALL : ToolShape.FLAT;
            return new ToolGuess(shape, List.of("diameter = \"" + number(diameter) + " mm\""), "from a comment");
        }
        if (use.work() == Work.ISOLATION) {
            return new ToolGuess(
                    ToolShape.V,
                    List.of("included_angle = \"30 deg\"", "tip_width = \"unknown\"", "duty = \"copper only\""),
                    "it stays in the foil, nothing names it");
        }
        if (use.plunges > 0 && use.lateralMm == 0) {
            return new ToolGuess(
                    ToolShape.DRILL, List.of("diameter = \"0.8 mm\""), "it only plunges, nothing names it");
        }
        return new ToolGuess(
                ToolShape.FLAT, List.of("diameter = \"1/32 in\""), "the most used cutter, nothing names it");
    }

    private static @Nullable Double diameterMm(String text) {
        Matcher fraction = FRACTION.matcher(text);
        if (fraction.find() && Integer.parseInt(fraction.group(2)) > 0) {
            double inch = Integer.parseInt(fraction.group(1)) / (double) Integer.parseInt(fraction.group(2));
            if (inch > 0 && inch <= 0.5) {
                return inch * 25.4;
            }
        }
        Matcher mm = MILLIMETRES.matcher(text);
        while (mm.find()) {
            double value = Double.parseDouble(mm.group(1));
            if (value >= 0.1 && value <= 12) {
                return value;
            }
        }
        return null;
    }

    private static @Nullable Double first(Matcher matcher, int group) {
        return matcher.find() ? Double.valueOf(matcher.group(group)) : null;
    }

    /** A number as a job file has it: at most five decimals. */
    static String number(double value) {
        return new java.math.BigDecimal(value)
                .setScale(5, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .add(java.math.BigDecimal.ZERO)
                .toPlainString();
    }

    private static final class AnyTool implements ToolTable {
        @Override
        public boolean exists(int number) {
            return true;
        }

        @Override
        public double lengthMm(int number) {
            return 0;
        }

        @Override
        public double diameterMm(int number) {
            return 1;
        }
    }

    /** All tool uses of several programs, by number, the same number told once. */
    static List<Use> allUses(List<ProgramSketch> sketches) {
        Map<Integer, Use> all = new TreeMap<>();
        for (ProgramSketch sketch : sketches) {
            for (Use use : sketch.uses.values()) {
                Use known = all.computeIfAbsent(use.number, Use::new);
                known.comments.append(use.comments);
                known.lowestMm = Math.min(known.lowestMm, use.lowestMm);
                known.lateralMm += use.lateralMm;
                known.plunges += use.plunges;
                known.rounds += use.rounds;
                known.wide |= use.wide;
            }
        }
        return new ArrayList<>(all.values());
    }
}
