package foilproof.bench;

import foilproof.geom.Dimension;
import foilproof.geom.Quantity;
import foilproof.geom.QuantityFormatException;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Reads the keys of one table, each with its type, and remembers which keys there are, so that {@link #close} can
 * name every key that is none. What is wrong is collected, and a stand-in returned, so that one run finds all of it.
 */
final class Keys {
    /** What a quantity may be. */
    enum Sign {
        /** Above 0. */
        POSITIVE,
        /** 0 or above. */
        NOT_NEGATIVE,
        /** Anything. */
        ANY
    }

    /** How a key was found. */
    enum State {
        ABSENT,
        UNKNOWN,
        GIVEN,
        BAD
    }

    /** A number as read; {@code value} is meant only where it was given. */
    record Num(State state, double value) {
        boolean given() {
            return state == State.GIVEN;
        }

        double or(double other) {
            return state == State.GIVEN ? value : other;
        }

        OptionalDouble optional() {
            return state == State.GIVEN ? OptionalDouble.of(value) : OptionalDouble.empty();
        }
    }

    private static final String UNKNOWN = "unknown";

    private final Node.Tab table;
    private final String path;
    private final Problems problems;
    private final Set<String> known = new LinkedHashSet<>();

    Keys(Node.Tab table, String path, Problems problems) {
        this.table = table;
        this.path = path;
        this.problems = problems;
    }

    SourceSpan span() {
        return table.span();
    }

    /** The key with its table, as a message says it. */
    String full(String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    boolean has(String key) {
        known.add(key);
        return table.get(key) != null;
    }

    @Nullable
    Node node(String key) {
        known.add(key);
        return table.get(key);
    }

    /** Where the value stands, or the table where there is none. */
    SourceSpan at(String key) {
        Node node = table.get(key);
        return node == null ? table.span() : node.span();
    }

    /** Where the key stands. */
    SourceSpan keyAt(String key) {
        return table.keySpan(key);
    }

    void problem(String key, String code, String message, @Nullable String expected, @Nullable String nearest) {
        problems.add(at(key), code, message, expected, nearest);
    }

    void missing(String key, String example) {
        problems.add(
                table.span(),
                "missing-key",
                "The key " + full(key) + " is missing.",
                "Expected " + key + " = " + example + ".",
                null);
    }

    private void wrongType(SourceSpan span, String what, Node node, String expected) {
        problems.add(span, "wrong-type", what + " is " + Node.kind(node) + ".", expected, null);
    }

    /** A string, or null where absent or wrong. */
    @Nullable
    String string(String key, String example) {
        Node node = node(key);
        if (node == null) {
            return null;
        }
        String text = node instanceof Node.Scalar scalar ? scalar.text() : null;
        if (text == null) {
            wrongType(node.span(), full(key), node, "Expected a string such as \"" + example + "\".");
        } else if (text.isBlank()) {
            problem(key, "empty", full(key) + " is empty.", "Expected a string such as \"" + example + "\".", null);
            return null;
        }
        return text;
    }

    /** A boolean, or the stand-in where absent, "unknown" or wrong. */
    @Nullable
    Boolean bool(String key) {
        Node node = node(key);
        if (node == null) {
            return null;
        }
        if (node instanceof Node.Scalar scalar) {
            if (scalar.value() instanceof Boolean b) {
                return b;
            }
            if (UNKNOWN.equals(scalar.text())) {
                return null;
            }
        }
        wrongType(node.span(), full(key), node, "Expected true or false.");
        return null;
    }

    /** A whole number within bounds, empty where absent, "unknown" or wrong. */
    OptionalInt whole(String key, int least, int most) {
        Node node = node(key);
        if (node == null) {
            return OptionalInt.empty();
        }
        String expected = "Expected a whole number from " + least + " to " + most + ".";
        if (node instanceof Node.Scalar scalar && scalar.value() instanceof Long n) {
            if (n < least || n > most) {
                problem(key, "out-of-range", full(key) + " is " + n + ".", expected, null);
                return OptionalInt.empty();
            }
            return OptionalInt.of((int) (long) n);
        }
        if (node instanceof Node.Scalar scalar && UNKNOWN.equals(scalar.text())) {
            return OptionalInt.empty();
        }
        wrongType(node.span(), full(key), node, expected);
        return OptionalInt.empty();
    }

    /** One of the words of an enum, or null where absent or wrong. */
    <E extends Enum<E>> @Nullable E word(String key, E[] values, Function<E, String> wordOf) {
        Node node = node(key);
        if (node == null) {
            return null;
        }
        return wordIn(node, full(key), values, wordOf);
    }

    private <E extends Enum<E>> @Nullable E wordIn(Node node, String what, E[] values, Function<E, String> wordOf) {
        List<String> words = new ArrayList<>();
        for (E value : values) {
            words.add(wordOf.apply(value));
        }
        String expected = "Expected one of: \"" + String.join("\", \"", words) + "\".";
        String text = node instanceof Node.Scalar scalar ? scalar.text() : null;
        if (text == null) {
            wrongType(node.span(), what, node, expected);
            return null;
        }
        for (E value : values) {
            if (wordOf.apply(value).equals(text)) {
                return value;
            }
        }
        problems.add(
                node.span(),
                "unknown-word",
                what + " is \"" + shortened(text) + "\".",
                expected,
                Spelling.nearest(text, words));
        return null;
    }

    /** A list of words of an enum; wrong ones are left out and told. */
    <E extends Enum<E>> List<E> words(String key, E[] values, Function<E, String> wordOf) {
        List<E> found = new ArrayList<>();
        if (node(key) instanceof Node.Arr arr) {
            for (int i = 0; i < arr.items().size(); i++) {
                E value = wordIn(arr.items().get(i), full(key) + "[" + i + "]", values, wordOf);
                if (value != null) {
                    found.add(value);
                }
            }
        }
        return found;
    }

    /** A quantity. "unknown" is accepted only where the caller can live with it. */
    Num quantity(String key, Dimension dimension, Sign sign, boolean mayBeUnknown) {
        Node node = node(key);
        if (node == null) {
            return new Num(State.ABSENT, Double.NaN);
        }
        return quantityIn(node, full(key), dimension, sign, mayBeUnknown);
    }

    /** A length, mm. */
    Num length(String key, Sign sign, boolean mayBeUnknown) {
        return quantity(key, Dimension.LENGTH, sign, mayBeUnknown);
    }

    private Num quantityIn(Node node, String what, Dimension dimension, Sign sign, boolean mayBeUnknown) {
        Num bad = new Num(State.BAD, Double.NaN);
        String example = "\"" + example(dimension) + "\"";
        String text = node instanceof Node.Scalar scalar ? scalar.text() : null;
        if (text == null) {
            String name = dimension.called();
            wrongType(
                    node.span(),
                    what,
                    node,
                    "Expected " + name + " as a string with its unit, such as " + example + ".");
            return bad;
        }
        if (text.equals(UNKNOWN)) {
            if (mayBeUnknown) {
                return new Num(State.UNKNOWN, Double.NaN);
            }
            problems.add(
                    node.span(),
                    "unknown-value",
                    what + " is \"unknown\", and nothing can be run without it.",
                    "Expected " + dimension.called() + " such as " + example + ".",
                    null);
            return bad;
        }
        try {
            double value = Quantity.parse(text, dimension).value();
            if (value < 0 && sign != Sign.ANY || value == 0 && sign == Sign.POSITIVE) {
                String rule = sign == Sign.POSITIVE ? "above 0" : "0 or above";
                problems.add(
                        node.span(),
                        "out-of-range",
                        what + " is " + shortened(text) + ".",
                        "Expected " + dimension.called() + " " + rule + ", such as " + example + ".",
                        null);
                return bad;
            }
            return new Num(State.GIVEN, value);
        } catch (QuantityFormatException e) {
            problems.add(
                    within(node.span(), e.offset(), e.endOffset()),
                    "bad-quantity",
                    what + " is \"" + shortened(text) + "\": " + e.problem() + ".",
                    e.expected(),
                    e.nearestUnit());
            return bad;
        }
    }

    /** The place inside a plain one-line string literal; the whole literal where escapes shift the columns. */
    private SourceSpan within(SourceSpan literal, int from, int to) {
        String line = problems.line(literal.file(), literal.line());
        int start = literal.column();
        if (line == null || start < 1 || literal.endColumn() - 1 > line.length()) {
            return literal;
        }
        String text = line.substring(start - 1, literal.endColumn() - 1);
        boolean quoted = text.length() >= 2 && (text.charAt(0) == '"' || text.charAt(0) == '\'');
        if (!quoted || text.indexOf('\\') >= 0) {
            return literal;
        }
        int first = start + 1 + from;
        return new SourceSpan(literal.file(), literal.line(), first, Math.max(first + 1, start + 1 + to));
    }

    /** An array of exactly {@code n} items, or null where absent, "unknown" (if allowed) or wrong. */
    Node.@Nullable Arr array(String key, int n, String example, boolean mayBeUnknown) {
        Node node = node(key);
        if (node == null) {
            return null;
        }
        if (node instanceof Node.Arr arr && arr.items().size() == n) {
            return arr;
        }
        if (mayBeUnknown && node instanceof Node.Scalar scalar && UNKNOWN.equals(scalar.text())) {
            return null;
        }
        String expected = "Expected " + n + " values, such as " + example + ".";
        if (node instanceof Node.Arr arr) {
            problem(key, "wrong-count", full(key) + " has " + arr.items().size() + " values.", expected, null);
        } else {
            wrongType(node.span(), full(key), node, expected);
        }
        return null;
    }

    /** {@code n} quantities, or null where absent, unknown or any is wrong. */
    double @Nullable [] quantities(String key, int n, Dimension dimension, Sign sign, boolean mayBeUnknown) {
        String one = "\"" + example(dimension) + "\"";
        String example = "[" + String.join(", ", java.util.Collections.nCopies(n, one)) + "]";
        Node.Arr arr = array(key, n, example, mayBeUnknown);
        return arr == null ? null : quantitiesIn(arr, full(key), dimension, sign);
    }

    /** Quantities of an array, or null where any is wrong. */
    double @Nullable [] quantitiesIn(Node.Arr arr, String what, Dimension dimension, Sign sign) {
        double[] values = new double[arr.items().size()];
        boolean good = true;
        for (int i = 0; i < values.length; i++) {
            Num num = quantityIn(arr.items().get(i), what + "[" + i + "]", dimension, sign, false);
            good &= num.given();
            values[i] = num.or(0);
        }
        return good ? values : null;
    }

    /** A pair of lengths as a place, mm, or null. */
    @Nullable
    XyMm place(String key, Sign sign) {
        double[] xy = quantities(key, 2, Dimension.LENGTH, sign, true);
        return xy == null ? null : new XyMm(xy[0], xy[1]);
    }

    /** A table below this one, or null where absent or wrong. */
    @Nullable
    Keys table(String key) {
        Node node = node(key);
        if (node == null) {
            return null;
        }
        if (node instanceof Node.Tab tab) {
            return new Keys(tab, full(key), problems);
        }
        problems.add(
                table.keySpan(key),
                "wrong-type",
                full(key) + " is " + Node.kind(node) + ".",
                "Expected a table: [" + full(key) + "].",
                null);
        return null;
    }

    /** Tables of an array of tables, empty where absent or wrong. */
    List<Keys> tables(String key) {
        Node node = node(key);
        List<Keys> found = new ArrayList<>();
        if (node == null) {
            return found;
        }
        if (node instanceof Node.Arr arr) {
            for (int i = 0; i < arr.items().size(); i++) {
                Node item = arr.items().get(i);
                if (item instanceof Node.Tab tab) {
                    found.add(new Keys(tab, full(key) + "[" + (i + 1) + "]", problems));
                } else {
                    wrongType(item.span(), full(key), item, "Expected a table: [[" + full(key) + "]].");
                }
            }
            return found;
        }
        problems.add(
                table.keySpan(key),
                "wrong-type",
                full(key) + " is " + Node.kind(node) + ".",
                "Expected an array of tables: [[" + full(key).replaceAll("\\[\\d+\\]", "") + "]].",
                null);
        return found;
    }

    /** Every key of the table, for tables whose keys are names. */
    List<String> names() {
        return table.keys();
    }

    /** Tells every key that nobody asked for. */
    void close() {
        for (String key : table.keys()) {
            if (!known.contains(key)) {
                String where = path.isEmpty() ? "the job file" : path;
                problems.add(
                        table.keySpan(key),
                        "unknown-key",
                        "Unknown key \"" + shortened(key) + "\" in " + where + ".",
                        known.isEmpty() ? null : "Known keys: " + String.join(", ", known) + ".",
                        Spelling.nearest(key, known));
            }
        }
    }

    static String shortened(String text) {
        return text.length() > 40 ? text.substring(0, 40) + "..." : text;
    }

    private static String example(Dimension dimension) {
        return switch (dimension) {
            case LENGTH -> "1.5 mm";
            case FOIL -> "0.5 oz";
            case FEED -> "600 mm/min";
            case SPINDLE -> "16000 rpm";
            case ACCELERATION -> "250 mm/s2";
            case ANGLE -> "30 deg";
            case TIME -> "2 s";
            case CURRENT -> "1.2 A";
            case VOLTAGE -> "9 V";
            case RATIO -> "20 %";
            default -> "1 " + dimension.unitNames().get(0);
        };
    }
}
