package foilproof.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Reads JSON (RFC 8259) as far as an earlier {@code result.json} needs it: objects as maps in their order, arrays as
 * lists, text, numbers as {@code Double}, truth, null. Lookups of what is not there, or of another type, give null or
 * nothing: an older file may lack keys.
 */
final class JsonValue {
    private static final int MOST_DEEP = 64;

    private final String text;
    private int at;
    private int deep;

    private JsonValue(String text) {
        this.text = text;
    }

    /** The text is no JSON. */
    static final class NoJsonException extends Exception {
        private static final long serialVersionUID = 1L;

        NoJsonException(String message) {
            super(message);
        }
    }

    /**
     * The value that the text holds.
     *
     * @throws NoJsonException where the text is no JSON
     */
    static @Nullable Object parse(String text) throws NoJsonException {
        JsonValue reader = new JsonValue(text);
        Object value = reader.value();
        reader.space();
        if (reader.at < text.length()) {
            throw reader.bad("the end");
        }
        return value;
    }

    /** A member of an object, or null. */
    static @Nullable Object get(@Nullable Object object, String key) {
        return object instanceof Map<?, ?> map ? map.get(key) : null;
    }

    /** A text member, or null. */
    static @Nullable String text(@Nullable Object object, String key) {
        return get(object, key) instanceof String s ? s : null;
    }

    /** A number member, or null. */
    static @Nullable Double number(@Nullable Object object, String key) {
        return get(object, key) instanceof Double d ? d : null;
    }

    /** A whole number member, or null. */
    static @Nullable Integer whole(@Nullable Object object, String key) {
        Double d = number(object, key);
        return d == null || d != Math.rint(d) || Math.abs(d) > 1e9 ? null : Integer.valueOf((int) (double) d);
    }

    /** An array member, empty where there is none. */
    static List<?> list(@Nullable Object object, String key) {
        return get(object, key) instanceof List<?> list ? list : List.of();
    }

    /** An array of numbers, or null where it is none. */
    static double @Nullable [] numbers(@Nullable Object object, String key) {
        if (!(get(object, key) instanceof List<?> list)) {
            return null;
        }
        double[] out = new double[list.size()];
        for (int i = 0; i < out.length; i++) {
            out[i] = list.get(i) instanceof Double d ? d : Double.NaN;
        }
        return out;
    }

    private @Nullable Object value() throws NoJsonException {
        space();
        if (at >= text.length()) {
            throw bad("a value");
        }
        char c = text.charAt(at);
        if (c == '{' || c == '[') {
            if (++deep > MOST_DEEP) {
                throw bad("fewer levels");
            }
            at++;
            Object out = c == '{' ? object() : array();
            deep--;
            return out;
        }
        if (c == '"') {
            return string();
        }
        for (String word : List.of("true", "false", "null")) {
            if (text.startsWith(word, at)) {
                at += word.length();
                return word.equals("null") ? null : Boolean.valueOf(word.equals("true"));
            }
        }
        int from = at;
        while (at < text.length() && "+-.eE0123456789".indexOf(text.charAt(at)) >= 0) {
            at++;
        }
        try {
            return Double.valueOf(text.substring(from, at));
        } catch (NumberFormatException e) {
            throw bad("a value");
        }
    }

    private Map<String, @Nullable Object> object() throws NoJsonException {
        Map<String, @Nullable Object> out = new LinkedHashMap<>();
        space();
        if (skip('}')) {
            return out;
        }
        while (true) {
            space();
            if (at >= text.length() || text.charAt(at) != '"') {
                throw bad("a key");
            }
            String key = string();
            space();
            if (!skip(':')) {
                throw bad(":");
            }
            out.put(key, value());
            space();
            if (skip('}')) {
                return out;
            }
            if (!skip(',')) {
                throw bad(", or }");
            }
        }
    }

    private List<@Nullable Object> array() throws NoJsonException {
        List<@Nullable Object> out = new ArrayList<>();
        space();
        if (skip(']')) {
            return out;
        }
        while (true) {
            out.add(value());
            space();
            if (skip(']')) {
                return out;
            }
            if (!skip(',')) {
                throw bad(", or ]");
            }
        }
    }

    private String string() throws NoJsonException {
        StringBuilder out = new StringBuilder();
        at++;
        while (at < text.length()) {
            char c = text.charAt(at++);
            if (c == '"') {
                return out.toString();
            }
            out.append(c == '\\' ? escaped() : c);
        }
        throw bad("the end of a text");
    }

    private char escaped() throws NoJsonException {
        char c = at < text.length() ? text.charAt(at++) : ' ';
        int plain = "\"\\/bfnrt".indexOf(c);
        if (plain >= 0) {
            return "\"\\/\b\f\n\r\t".charAt(plain);
        }
        try {
            if (c == 'u' && at + 4 <= text.length()) {
                char code = (char) Integer.parseInt(text.substring(at, at + 4), 16);
                at += 4;
                return code;
            }
        } catch (NumberFormatException e) {
            throw bad("four hexadecimal digits");
        }
        throw bad("an escape");
    }

    private void space() {
        while (at < text.length() && " \t\r\n".indexOf(text.charAt(at)) >= 0) {
            at++;
        }
    }

    private boolean skip(char c) {
        if (at < text.length() && text.charAt(at) == c) {
            at++;
            return true;
        }
        return false;
    }

    private NoJsonException bad(String expected) {
        return new NoJsonException("expected " + expected + " at character " + (at + 1));
    }
}
