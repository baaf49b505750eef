package foilproof.design;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The text of a design file, its places, and the words said about them. */
final class TextPlaces {
    /** Words said about one file before the rest is summed up. */
    private static final int MOST_WARNINGS = 200;

    final String text;
    private final String file;
    /** Whether the file began with a byte-order mark, which is left out: columns count without it. */
    private final boolean marked;

    private int[] lineStart = new int[256];
    private int lines;
    private final List<Diagnostic> warnings = new ArrayList<>();
    private final Set<String> said = new HashSet<>();
    private int unsaid;

    TextPlaces(SourceFile source) {
        String all = source.latin1();
        marked = all.startsWith("\u00ef\u00bb\u00bf");
        text = marked ? all.substring(3) : all;
        file = source.name();
        addLine(0);
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\n' || c == '\r' && !(i + 1 < text.length() && text.charAt(i + 1) == '\n')) {
                addLine(i + 1);
            }
        }
    }

    /**
     * Refuses what is no plain text: zero bytes, as UTF-16 and programs have them. Says a word of a byte-order mark.
     *
     * @param expected what kind of file was expected
     */
    void readable(String expected) throws InputException {
        boolean wide = text.startsWith("\u00ff\u00fe") || text.startsWith("\u00fe\u00ff");
        int zero = text.indexOf('\0');
        if (wide || zero >= 0) {
            // without a mark, two bytes a letter show as a zero in every other byte from the first or second on
            boolean two = wide || zero <= 1 && text.length() > zero + 2 && text.charAt(zero + 2) == '\0';
            throw fileError(
                    "not-text",
                    two
                            ? "The file is UTF-16 text, two bytes a letter."
                            : "The file is no plain text: it holds zero bytes, the first in line " + line(zero) + ".",
                    expected + " in plain text (ASCII or UTF-8) was expected: export it again.");
        }
        if (marked) {
            warn(0, 1, "byte-order-mark", "The file begins with a byte-order mark, which is left out.", null);
        }
    }

    private void addLine(int at) {
        if (lines == lineStart.length) {
            lineStart = Arrays.copyOf(lineStart, lines * 2);
        }
        lineStart[lines++] = at;
    }

    /** Line, from 1, of a position. */
    int line(int at) {
        int k = Arrays.binarySearch(lineStart, 0, lines, at);
        return k >= 0 ? k + 1 : -k - 1;
    }

    int lineCount() {
        return lines;
    }

    /** Text of a line, from 1, without its end. */
    String lineText(int line) {
        int from = lineStart[line - 1];
        int to = line < lines ? lineStart[line] : text.length();
        while (to > from && (text.charAt(to - 1) == '\n' || text.charAt(to - 1) == '\r')) {
            to--;
        }
        return text.substring(from, to);
    }

    private Diagnostic diagnostic(int from, int to, String code, String message) {
        int line = line(from);
        int column = from - lineStart[line - 1] + 1;
        String shown = lineText(line);
        int end = Math.max(column + 1, Math.min(column + to - from, shown.length() + 1));
        SourceSpan span = new SourceSpan(file, line, column, end);
        return Diagnostic.of(span, code, message).in(shown.length() > 160 ? shown.substring(0, 160) : shown);
    }

    void warn(int from, int to, String code, String message, @Nullable String expected) {
        if (warnings.size() >= MOST_WARNINGS) {
            unsaid++;
            return;
        }
        Diagnostic d = diagnostic(from, to, code, message);
        warnings.add(expected == null ? d : d.expecting(expected));
    }

    /** The same, but only the first time that {@code key} comes up. */
    void warnOnce(String key, int from, int to, String code, String message, @Nullable String expected) {
        if (said.add(key)) {
            warn(from, to, code, message, expected);
        }
    }

    /** A word about a whole line, from 1. */
    void warnLine(int line, String code, String message, @Nullable String expected) {
        int from = lineStart[line - 1];
        warn(from, from + Math.max(1, lineText(line).length()), code, message, expected);
    }

    void warnFile(String code, String message) {
        warnings.add(Diagnostic.of(SourceSpan.ofFile(file), code, message));
    }

    InputException error(int from, int to, String code, String message, @Nullable String expected) {
        Diagnostic d = diagnostic(Math.min(from, Math.max(0, text.length() - 1)), to, code, message);
        return new InputException(expected == null ? d : d.expecting(expected));
    }

    InputException fileError(String code, String message, @Nullable String expected) {
        Diagnostic d = Diagnostic.of(SourceSpan.ofFile(file), code, message);
        return new InputException(expected == null ? d : d.expecting(expected));
    }

    /** Everything said, in the order of the file. */
    List<Diagnostic> warnings() {
        if (unsaid > 0) {
            warnings.add(Diagnostic.of(
                    SourceSpan.ofFile(file), "more-warnings", unsaid + " more of the same kinds were not listed."));
            unsaid = 0;
        }
        return warnings;
    }
}
