package foilproof.app.cli;

import foilproof.report.Explanation;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code explain KIND}: what a finding means, why it matters, what to do; without KIND the list of kinds. */
final class ExplainCommand implements Command {
    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command("explain", "Tells what a kind of finding means, why it matters, what to do.");
        spec.addPositional(Specs.word("KIND", "A kind of finding, e.g. hair; all kinds are listed without it.", false));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException {
        String kind = given.matchedPositionalValue(0, null);
        PrintStream out = console.out();
        if (kind == null) {
            for (Explanation explanation : Explanation.all().values()) {
                out.println(explanation.kind() + ": " + explanation.title());
            }
            return ExitCode.FINE;
        }
        Explanation explanation = Explanation.of(kind);
        if (explanation == null) {
            throw new InputException(Diagnostic.of(
                            SourceSpan.ofFile("explain"),
                            "unknown-kind",
                            "There is no kind of finding \"" + kind + "\".")
                    .expecting("\"explain\" alone lists them.")
                    .near(nearest(kind)));
        }
        out.println(explanation.title() + " (" + explanation.kind() + ")");
        paragraph(out, "What it means", explanation.means());
        paragraph(out, "Why it matters", explanation.why());
        paragraph(out, "What to do", explanation.doThis());
        if (!explanation.limits().isEmpty()) {
            out.println();
            out.println("Limits (defaults; a shop or job file may change those that have a key):");
            explanation.limits().forEach(limit -> bullet(out, limit));
        }
        return ExitCode.FINE;
    }

    /** The nearest kind by spelling, else the first that shares a word with it. */
    private static @Nullable String nearest(String word) {
        String near = Spelling.nearest(word, Explanation.all().keySet());
        if (near != null) {
            return near;
        }
        String wanted = word.toLowerCase(Locale.ROOT);
        for (String kind : Explanation.all().keySet()) {
            if (wanted.length() > 2
                    && (kind.contains(wanted)
                            || List.of(wanted.split("[ _-]")).stream().anyMatch(kind::equals))) {
                return kind;
            }
        }
        return null;
    }

    private static void paragraph(PrintStream out, String head, String text) {
        out.println();
        out.println(head);
        out.println(wrapped(text, "  ", "  "));
    }

    private static void bullet(PrintStream out, String text) {
        out.println(wrapped(text, "  - ", "    "));
    }

    /** Text broken at spaces into lines of at most 96 characters. */
    static String wrapped(String text, String first, String next) {
        StringBuilder out = new StringBuilder(first);
        int length = first.length();
        for (String word : text.split(" ")) {
            boolean fresh = out.length() == first.length() || length == next.length();
            if (!fresh && length + 1 + word.length() > 96) {
                out.append('\n').append(next);
                length = next.length();
                fresh = true;
            }
            out.append(fresh ? "" : " ").append(word);
            length += word.length() + (fresh ? 0 : 1);
        }
        return out.toString();
    }
}
