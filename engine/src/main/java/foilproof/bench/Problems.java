package foilproof.bench;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Collects everything that is wrong with a job, with the offending lines, so that a person mends it in one go. */
final class Problems {
    /** More than this helps nobody. */
    private static final int MOST = 100;

    private static final int LONGEST_SHOWN = 200;

    private final Map<String, List<String>> lines = new LinkedHashMap<>();
    private final List<Diagnostic> found = new ArrayList<>();
    private int dropped;

    /** Makes a file's lines known for quoting. */
    void know(SourceFile file, String text) {
        lines.put(file.name(), List.of(text.split("\r\n|\n|\r", -1)));
    }

    /** Makes one line known for quoting, as line 1 of a name. */
    void knowLine(String name, String line) {
        lines.put(name, List.of(line));
    }

    /** Line {@code number}, from 1, of a known file, or null. */
    @Nullable
    String line(String file, int number) {
        List<String> known = lines.get(file);
        return known == null || number < 1 || number > known.size() ? null : known.get(number - 1);
    }

    void add(SourceSpan span, String code, String message, @Nullable String expected, @Nullable String nearest) {
        if (found.size() >= MOST) {
            dropped++;
            return;
        }
        Diagnostic diagnostic = new Diagnostic(span, code, message, expected, nearest, null);
        String text = line(span.file(), span.line());
        found.add(text == null ? diagnostic : quoted(diagnostic, text));
    }

    /** A line too long to show is left out unless its beginning holds the place. */
    private static Diagnostic quoted(Diagnostic diagnostic, String text) {
        if (text.length() <= LONGEST_SHOWN) {
            return diagnostic.in(text);
        }
        return diagnostic.span().endColumn() <= LONGEST_SHOWN
                ? diagnostic.in(text.substring(0, LONGEST_SHOWN))
                : diagnostic;
    }

    boolean any() {
        return !found.isEmpty();
    }

    void throwIfAny() throws InputException {
        if (found.isEmpty()) {
            return;
        }
        List<String> files = new ArrayList<>(lines.keySet());
        List<Diagnostic> sorted = new ArrayList<>(found);
        sorted.sort(
                Comparator.<Diagnostic>comparingInt(d -> files.indexOf(d.span().file()))
                        .thenComparingInt(d -> d.span().line())
                        .thenComparingInt(d -> d.span().column()));
        if (dropped > 0) {
            SourceSpan last = sorted.get(sorted.size() - 1).span();
            sorted.add(Diagnostic.of(SourceSpan.ofFile(last.file()), "more", dropped + " more errors are not shown."));
        }
        throw new InputException(sorted);
    }
}
