package foilproof.bench;

import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One value of a job file with its place. A tree of its own, because job file, shop file and command line are merged
 * into one before anything is read, and each value must still know where it was written.
 */
sealed interface Node {
    /** Where the value stands. */
    SourceSpan span();

    /**
     * A string, number, boolean or date.
     *
     * @param value as the TOML library gives it
     * @param raw the text of a command line setting, which may be meant as a string whatever it looks like, or null
     */
    record Scalar(Object value, @Nullable String raw, SourceSpan span) implements Node {
        /** The text of the value where it may be read as a string, else null. */
        @Nullable
        String text() {
            return value instanceof String s ? s : raw;
        }
    }

    /** An array. */
    record Arr(List<Node> items, SourceSpan span) implements Node {}

    /** A table: keys with their places. Mutable until the reading begins. */
    final class Tab implements Node {
        private final Map<String, Node> values = new LinkedHashMap<>();
        private final Map<String, SourceSpan> keySpans = new LinkedHashMap<>();
        private final SourceSpan span;

        Tab(SourceSpan span) {
            this.span = span;
        }

        @Override
        public SourceSpan span() {
            return span;
        }

        @Nullable
        Node get(String key) {
            return values.get(key);
        }

        List<String> keys() {
            return new ArrayList<>(values.keySet());
        }

        SourceSpan keySpan(String key) {
            SourceSpan known = keySpans.get(key);
            return known != null ? known : span;
        }

        void put(String key, Node node, SourceSpan keySpan) {
            values.put(key, node);
            keySpans.put(key, keySpan);
        }

        void remove(String key) {
            values.remove(key);
            keySpans.remove(key);
        }
    }

    /** What the value is, with its article, as a message says it. */
    static String kind(Node node) {
        if (node instanceof Tab) {
            return "a table";
        }
        if (node instanceof Arr) {
            return "an array";
        }
        Object value = ((Scalar) node).value();
        if (value instanceof String) {
            return "a string";
        }
        if (value instanceof Boolean) {
            return "a boolean";
        }
        return value instanceof Long || value instanceof Double ? "a bare number" : "a date or time";
    }
}
