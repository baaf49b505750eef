package foilproof.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a kind of finding means, in trade words, for people: shown by {@code explain}, in the report and as the rules of
 * {@code findings.sarif}. The texts stand in the resource {@code explanations.txt}.
 *
 * @param kind the kind, kebab-case
 * @param title a short name, e.g. {@code Hair of copper}
 * @param means what it means
 * @param why why it matters
 * @param doThis what to do
 * @param limits limits with units, and whether each rests on geometry, set-up or a rule of thumb
 */
public record Explanation(String kind, String title, String means, String why, String doThis, List<String> limits) {
    private static final String RESOURCE = "explanations.txt";

    /** Copies the limits. */
    public Explanation {
        limits = List.copyOf(limits);
    }

    /** Every explanation by kind, in the order of the resource. */
    public static Map<String, Explanation> all() {
        return Loaded.ALL;
    }

    /** The explanation of a kind, or null where there is none. */
    public static @Nullable Explanation of(String kind) {
        return Loaded.ALL.get(kind);
    }

    /** Loaded when first asked for. */
    private static final class Loaded {
        private static final Map<String, Explanation> ALL = Collections.unmodifiableMap(load());

        private Loaded() {}
    }

    private static Map<String, Explanation> load() {
        String text;
        try (InputStream in = Explanation.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException("resource " + RESOURCE + " is missing");
            }
            text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Map<String, Explanation> out = new LinkedHashMap<>();
        Parts parts = new Parts();
        for (String line : text.split("\n")) {
            if (line.startsWith("# ")) {
                parts.finish(out);
                parts.kind = line.substring(2).strip();
            } else if (!line.isBlank()) {
                int colon = line.indexOf(": ");
                if (colon < 0 || parts.kind == null) {
                    throw new IllegalStateException(RESOURCE + ": unreadable line: " + line);
                }
                parts.add(line.substring(0, colon), line.substring(colon + 2).strip());
            }
        }
        parts.finish(out);
        return out;
    }

    private static final class Parts {
        private @Nullable String kind;
        private final Map<String, String> texts = new LinkedHashMap<>();
        private final List<String> limits = new ArrayList<>();

        void add(String name, String text) {
            if (name.equals("limit")) {
                limits.add(text);
            } else {
                texts.put(name, text);
            }
        }

        void finish(Map<String, Explanation> out) {
            if (kind != null) {
                out.put(kind, new Explanation(kind, need("title"), need("means"), need("why"), need("do"), limits));
            }
            texts.clear();
            limits.clear();
        }

        private String need(String name) {
            String text = texts.get(name);
            if (text == null) {
                throw new IllegalStateException(RESOURCE + ": " + kind + " lacks " + name);
            }
            return text;
        }
    }
}
