package foilproof.report;

import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;

/**
 * Writes JSON text (RFC 8259) in one fixed layout: the members of the outer objects one a line, short leaf objects and
 * arrays of numbers on one line. Hand-written because the layout and the numbers must be the same bytes everywhere, and
 * because a fresh process should not load a mapping library to print a page.
 */
public final class JsonText {
    /** Structures deeper than this are written on one line. */
    private static final int OPEN_DEPTH = 2;

    private final StringBuilder out = new StringBuilder(8192);
    private final Deque<Character> open = new ArrayDeque<>();
    private boolean first = true;
    private boolean afterName;

    /** Begins an object. */
    public JsonText object() {
        return begin('{');
    }

    /** Begins the object that is the value of {@code name}. */
    public JsonText object(String name) {
        return name(name).begin('{');
    }

    /** Begins an array. */
    public JsonText array() {
        return begin('[');
    }

    /** Begins the array that is the value of {@code name}. */
    public JsonText array(String name) {
        return name(name).begin('[');
    }

    /** Ends the innermost object or array. */
    public JsonText end() {
        char kind = open.pop();
        if (!first && open.size() < OPEN_DEPTH) {
            newLine();
        }
        out.append(kind == '{' ? '}' : ']');
        first = false;
        return this;
    }

    /** A member whose value is text, or null. */
    public JsonText text(String name, @Nullable String value) {
        name(name);
        return value == null ? raw("null") : string(value);
    }

    /** A text in an array. */
    public JsonText text(String value) {
        separate();
        return string(value);
    }

    /** A member whose value is a whole number, or null. */
    public JsonText whole(String name, @Nullable Integer value) {
        return name(name).raw(value == null ? "null" : Integer.toString(value));
    }

    /** A member whose value is a number rounded to {@code decimals}; null where absent or not finite. */
    public JsonText number(String name, @Nullable Double value, int decimals) {
        return name(name).raw(print(value, decimals));
    }

    /** A number in an array. */
    public JsonText number(double value, int decimals) {
        separate();
        return raw(print(value, decimals));
    }

    /** A member whose value is true or false. */
    public JsonText truth(String name, boolean value) {
        return name(name).raw(value ? "true" : "false");
    }

    /** A member whose value is null. */
    public JsonText nothing(String name) {
        return name(name).raw("null");
    }

    /** A member whose value is an array of numbers; null where it is absent or one of them is not finite. */
    public JsonText numbers(String name, double @Nullable [] values, int decimals) {
        if (values == null || !finite(values)) {
            return nothing(name);
        }
        name(name);
        out.append('[');
        for (int i = 0; i < values.length; i++) {
            out.append(i == 0 ? "" : ",").append(print(values[i], decimals));
        }
        return raw("]");
    }

    /** The text so far, ended by a line feed. */
    @Override
    public String toString() {
        return out + "\n";
    }

    private static boolean finite(double[] values) {
        for (double value : values) {
            if (!Double.isFinite(value)) {
                return false;
            }
        }
        return true;
    }

    private static String print(@Nullable Double value, int decimals) {
        return value == null || !Double.isFinite(value) ? "null" : Decimals.shortest(value, decimals);
    }

    private JsonText begin(char kind) {
        if (!afterName) {
            separate();
        }
        out.append(kind);
        open.push(kind);
        first = true;
        afterName = false;
        return this;
    }

    private JsonText name(String name) {
        separate();
        string(name);
        out.append(':');
        afterName = true;
        return this;
    }

    private JsonText raw(String text) {
        out.append(text);
        first = false;
        afterName = false;
        return this;
    }

    private void separate() {
        if (!first) {
            out.append(',');
        }
        if (!open.isEmpty() && open.size() <= OPEN_DEPTH) {
            newLine();
        }
        first = false;
    }

    private void newLine() {
        out.append('\n').append(" ".repeat(open.size()));
    }

    private JsonText string(String value) {
        out.append('"');
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            switch (c) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\n' -> out.append("\\n");
                case '\r' -> out.append("\\r");
                case '\t' -> out.append("\\t");
                default -> {
                    if (c < 0x20 || c == 0x7f || c >= 0x2028 && c <= 0x2029 || loneSurrogate(value, i)) {
                        String hex = Integer.toHexString(c);
                        out.append("\\u").append("0000", 0, 4 - hex.length()).append(hex);
                    } else {
                        out.append(c);
                    }
                }
            }
        }
        out.append('"');
        first = false;
        afterName = false;
        return this;
    }

    private static boolean loneSurrogate(String text, int at) {
        char c = text.charAt(at);
        if (Character.isHighSurrogate(c)) {
            return at + 1 >= text.length() || !Character.isLowSurrogate(text.charAt(at + 1));
        }
        return Character.isLowSurrogate(c) && (at == 0 || !Character.isHighSurrogate(text.charAt(at - 1)));
    }
}
