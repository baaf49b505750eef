package foilproof.geom;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A number with its dimension, in the engine's unit of that dimension; the border type of every typed value. Text is
 * read strictly and without locale: optional sign, decimal digits with at most one point (or a fraction, {@code 1/32},
 * or a mixed number, {@code 1 1/2}), white space, one unit. No exponent, no decimal comma, no thousands mark, nothing
 * after the unit.
 *
 * @param dimension what is measured
 * @param value in {@link Dimension#engineUnit()}, finite
 */
public record Quantity(Dimension dimension, double value) {
    /** Longest number that is read, characters: more digits than a double holds say nothing. */
    public static final int MAX_NUMBER_CHARS = 40;

    /** Largest magnitude that is read, in the unit written. */
    public static final double MAX_MAGNITUDE = 1e9;

    public Quantity {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a quantity is finite, not " + value);
        }
    }

    /**
     * Reads a quantity of the given dimension.
     *
     * @throws QuantityFormatException where the text is anything else, with the place in the text
     */
    public static Quantity parse(String text, Dimension dimension) throws QuantityFormatException {
        return new Reader(text, dimension).read();
    }

    /** Reads a length, millimetres. */
    public static double parseLengthMm(String text) throws QuantityFormatException {
        return parse(text, Dimension.LENGTH).value();
    }

    /** The value as text with the engine's unit, for messages: shortest decimal that reads back the same. */
    @Override
    public String toString() {
        String number = value == Math.rint(value) && Math.abs(value) < 1e15
                ? String.format(Locale.ROOT, "%.0f", value)
                : Double.toString(value);
        return dimension == Dimension.RATIO ? number : number + " " + dimension.engineUnit();
    }

    private static final class Reader {
        private final String text;
        private final Dimension dimension;
        private int at;

        Reader(String text, Dimension dimension) {
            this.text = text;
            this.dimension = dimension;
        }

        Quantity read() throws QuantityFormatException {
            skipSpace();
            if (at == text.length()) {
                throw error(0, text.length(), "the value is empty", null);
            }
            int start = at;
            boolean negative = false;
            char sign = text.charAt(at);
            if (sign == '-' || sign == '+') {
                negative = sign == '-';
                at++;
            } else if (sign == '\u2212' || sign == '\u2013' || sign == '\u2014') {
                throw error(at, at + 1, "a dash that is not the minus sign of the keyboard", null);
            }
            double magnitude = magnitude();
            if (magnitude > MAX_MAGNITUDE) {
                throw error(start, at, "the number is larger than any bench", null);
            }
            Dimension.Unit unit = unit();
            double value = unit.toEngineUnit(negative ? -magnitude : magnitude);
            return new Quantity(dimension, value == 0 ? 0.0 : value);
        }

        private double magnitude() throws QuantityFormatException {
            int start = at;
            double first = decimal();
            int afterFirst = at;
            if (peek() == '/') {
                return fraction(start, first);
            }
            skipSpace();
            if (isWhole(start, afterFirst) && isDigit(peek())) {
                int second = at;
                double numerator = decimal();
                if (peek() != '/') {
                    throw error(second, at, "two numbers without a unit between them", null);
                }
                return first + fraction(second, numerator);
            }
            at = afterFirst;
            return first;
        }

        private boolean isWhole(int from, int to) {
            for (int i = from; i < to; i++) {
                if (!isDigit(text.charAt(i))) {
                    return false;
                }
            }
            return true;
        }

        private double fraction(int start, double numerator) throws QuantityFormatException {
            boolean wholeNumerator = isWhole(start, at);
            at++;
            int denominatorStart = at;
            double denominator = decimal();
            if (!wholeNumerator || !isWhole(denominatorStart, at)) {
                throw error(start, at, "a fraction is one whole number over another", null);
            }
            if (denominator == 0) {
                throw error(start, at, "the fraction divides by zero", null);
            }
            return numerator / denominator;
        }

        private double decimal() throws QuantityFormatException {
            int start = at;
            int digits = 0;
            boolean point = false;
            while (at < text.length()) {
                char c = text.charAt(at);
                if (isDigit(c)) {
                    digits++;
                } else if (c == '.' && !point) {
                    point = true;
                } else {
                    break;
                }
                at++;
            }
            char next = peek();
            if (next == ',') {
                throw error(at, at + 1, "a comma in a number", null);
            }
            if (digits == 0) {
                throw error(start, Math.min(text.length(), Math.max(at, start + 1)), "no number here", null);
            }
            if (next == '.') {
                throw error(at, at + 1, "a second decimal point", null);
            }
            if (at - start > MAX_NUMBER_CHARS) {
                throw error(
                        start,
                        at,
                        "the number has " + (at - start) + " characters, more than " + MAX_NUMBER_CHARS,
                        null);
            }
            if ((next == 'e' || next == 'E')
                    && at + 1 < text.length()
                    && "+-0123456789".indexOf(text.charAt(at + 1)) >= 0) {
                throw error(at, at + 1, "an exponent in a number", null);
            }
            return Double.parseDouble(text.substring(start, at));
        }

        private Dimension.Unit unit() throws QuantityFormatException {
            skipSpace();
            int start = at;
            int end = text.length();
            while (end > start && isSpace(text.charAt(end - 1))) {
                end--;
            }
            String name = text.substring(start, end);
            if (name.isEmpty()) {
                throw error(
                        0,
                        text.length(),
                        "the unit is missing",
                        dimension.unitNames().get(0));
            }
            for (Dimension.Unit unit : dimension.units()) {
                if (unit.name().equals(name)) {
                    return unit;
                }
            }
            throw unknownUnit(start, end, name);
        }

        private QuantityFormatException unknownUnit(int start, int end, String name) {
            if (name.equals("mil") || name.equals("mils")) {
                return error(
                        start,
                        end,
                        "\"" + name + "\" is read as thousandths of an inch by some and as millimetres by others",
                        "thou");
            }
            for (Dimension other : Dimension.values()) {
                if (other.unitNames().contains(name)) {
                    return error(
                            start,
                            end,
                            "\"" + name + "\" is a unit of " + other.called().replaceFirst("^an? ", ""),
                            null);
                }
            }
            String shown = name.length() > 20 ? name.substring(0, 20) + "..." : name;
            return error(start, end, "unknown unit \"" + shown + "\"", nearestUnit(name));
        }

        private @Nullable String nearestUnit(String name) {
            String lower = name.toLowerCase(Locale.ROOT);
            if (lower.equals("\"") || lower.equals("''")) {
                return "in";
            }
            for (String unit : dimension.unitNames()) {
                String unitLower = unit.toLowerCase(Locale.ROOT);
                if (unitLower.equals(lower)
                        || lower.startsWith(unitLower)
                                && lower.length() - unitLower.length() <= 5
                                && unitLower.length() > 1) {
                    return unit;
                }
            }
            return null;
        }

        private QuantityFormatException error(int from, int to, String message, @Nullable String nearest) {
            String unit = dimension.unitNames().get(0);
            String expected = "Expected " + dimension.called() + " with its unit, such as \"1.5 " + unit + "\" (units: "
                    + String.join(", ", dimension.unitNames()) + ").";
            return new QuantityFormatException(from, to, message, expected, nearest);
        }

        private void skipSpace() {
            while (at < text.length() && isSpace(text.charAt(at))) {
                at++;
            }
        }

        private char peek() {
            return at < text.length() ? text.charAt(at) : '\0';
        }

        private static boolean isSpace(char c) {
            return c == ' ' || c == '\t' || c == '\u00a0';
        }

        private static boolean isDigit(char c) {
            return c >= '0' && c <= '9';
        }
    }
}
