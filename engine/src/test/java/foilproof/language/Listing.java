package foilproof.language;

import foilproof.source.Diagnostic;
import foilproof.source.SourceFile;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/** Runs program text and lists what came out, in the short notation of the check values: T, F, A, four decimals. */
final class Listing {
    private final Interpretation interpretation;

    private Listing(Interpretation interpretation) {
        this.interpretation = interpretation;
    }

    /** Strict, millimetres, a session as at a console, from (0, 0, 0). */
    static InterpreterSetup.Builder strict() {
        return InterpreterSetup.builder()
                .dialect(Dialect.STRICT)
                .initialUnits(LengthUnits.MM)
                .continueAfterEnd(true)
                .initialTool(0)
                .tools(REPORT_TOOLS);
    }

    static InterpreterSetup.Builder common() {
        return strict().dialect(Dialect.COMMON);
    }

    /** The sample rows of the report's tool table (NISTIR 6556 table 1): length, diameter. */
    static final ToolTable REPORT_TOOLS = new ToolTable() {
        @Override
        public boolean exists(int number) {
            return number == 1 || number == 2 || number == 5 || number == 10;
        }

        @Override
        public double lengthMm(int number) {
            return switch (number) {
                case 1 -> 2.0;
                case 2 -> 1.0;
                case 5 -> 1.5;
                case 10 -> 2.4;
                default -> Double.NaN;
            };
        }

        @Override
        public double diameterMm(int number) {
            return switch (number) {
                case 1 -> 1.0;
                case 2 -> 0.2;
                case 5 -> 0.25;
                case 10 -> -0.3;
                default -> Double.NaN;
            };
        }
    };

    static Listing run(InterpreterSetup.Builder setup, String... lines) {
        return new Listing(
                Interpreter.interpret(SourceFile.ofText("test.ngc", String.join("\n", lines) + "\n"), setup.build()));
    }

    Interpretation interpretation() {
        return interpretation;
    }

    CanonicalProgram commands() {
        return interpretation.commands();
    }

    List<String> errorCodes() {
        return interpretation.errors().stream().map(Diagnostic::code).toList();
    }

    /** All motions after the last {@code skip} ones. */
    List<String> motions() {
        return list(true, 0);
    }

    /** Motions of the lines from {@code line} on. */
    List<String> motionsFromLine(int line) {
        return list(true, line);
    }

    /** All commands of the lines from {@code line} on. */
    List<String> commandsFromLine(int line) {
        return list(false, line);
    }

    /** The position that the last motion reached, or (0, 0, 0). */
    private List<String> list(boolean motionsOnly, int line) {
        CanonicalProgram c = commands();
        List<String> out = new ArrayList<>();
        for (int i = 0; i < c.size(); i++) {
            if (c.line(i) >= line && (!motionsOnly || c.isMotion(i))) {
                out.add(one(c, i));
            }
        }
        return out;
    }

    private static String one(CanonicalProgram c, int i) {
        return switch (c.kind(i)) {
            case STRAIGHT_TRAVERSE -> "T" + end(c, i);
            case STRAIGHT_FEED -> "F" + end(c, i);
            case STRAIGHT_PROBE -> "P" + end(c, i);
            case ARC_FEED ->
                "A(" + number(c.programEnd(i, c.plane(i).first())) + ","
                        + number(c.programEnd(i, c.plane(i).second())) + ", "
                        + number(c.programCentreFirst(i)) + "," + number(c.programCentreSecond(i)) + ", " + c.turn(i)
                        + ", "
                        + number(c.programEnd(i, c.plane(i).axial())) + ")";
            case SET_ORIGIN ->
                "SET_ORIGIN(" + number(c.originMm(i, 0)) + "," + number(c.originMm(i, 1)) + ","
                        + number(c.originMm(i, 2)) + ")";
            case COMMENT, MESSAGE -> c.kind(i) + "(" + c.text(i) + ")";
            default -> Double.isNaN(c.value(i)) ? c.kind(i).toString() : c.kind(i) + "(" + number(c.value(i)) + ")";
        };
    }

    private static String end(CanonicalProgram c, int i) {
        return "(" + number(c.programEnd(i, 0)) + "," + number(c.programEnd(i, 1)) + "," + number(c.programEnd(i, 2))
                + ")";
    }

    static String number(double value) {
        BigDecimal rounded = new BigDecimal(value).setScale(4, RoundingMode.HALF_UP);
        return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    }
}
