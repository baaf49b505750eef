package foilproof.source;

import org.jspecify.annotations.Nullable;

/**
 * Something wrong (or worth saying) about an input, at its place.
 *
 * @param span where
 * @param code kebab-case identity of the rule, stable across releases, e.g. {@code unknown-key}
 * @param message what is wrong, one sentence
 * @param expected what was expected and what to do, one sentence, or null where the message says all
 * @param nearest the nearest valid word, or null where none is near
 * @param lineText the offending line as read, cut to a readable length, or null where no line is meant
 */
public record Diagnostic(
        SourceSpan span,
        String code,
        String message,
        @Nullable String expected,
        @Nullable String nearest,
        @Nullable String lineText) {
    /** A diagnostic with only a place and a message. */
    public static Diagnostic of(SourceSpan span, String code, String message) {
        return new Diagnostic(span, code, message, null, null, null);
    }

    /** The same with what was expected. */
    public Diagnostic expecting(String what) {
        return new Diagnostic(span, code, message, what, nearest, lineText);
    }

    /** The same with the nearest valid word. */
    public Diagnostic near(@Nullable String word) {
        return new Diagnostic(span, code, message, expected, word, lineText);
    }

    /** The same with the offending line's text. */
    public Diagnostic in(String text) {
        return new Diagnostic(span, code, message, expected, nearest, text);
    }

    /** The message as a person reads it: place, message, expectation, the line with a caret below. */
    public String render() {
        StringBuilder out = new StringBuilder();
        out.append(span).append(": ").append(message);
        if (expected != null) {
            out.append(" ").append(expected);
        }
        if (nearest != null) {
            out.append(" Nearest valid word: ").append(nearest).append('.');
        }
        if (lineText != null) {
            out.append("\n    ").append(lineText);
            if (span.column() > 0 && span.column() <= lineText.length() + 1) {
                out.append("\n    ").append(" ".repeat(span.column() - 1));
                out.append("^".repeat(Math.max(1, Math.min(span.endColumn(), lineText.length() + 1) - span.column())));
            }
        }
        return out.toString();
    }
}
