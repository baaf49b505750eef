package foilproof.app.cli;

import foilproof.findings.ExamineOptions;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ParseResult;

/** {@code --restart FILE:LINE}: how to take a program up again at a line; {@code --fresh-blank}: on a new blank. */
final class RestartOption {
    private RestartOption() {}

    /**
     * What is asked for, or null where nothing is.
     *
     * @throws InputException where it does not read FILE:LINE
     */
    static ExamineOptions.@Nullable Restart of(ParseResult given) throws InputException {
        String text = given.matchedOptionValue("--restart", null);
        if (text == null) {
            return null;
        }
        int colon = text.lastIndexOf(':');
        try {
            int line = Integer.parseInt(text.substring(colon + 1).strip());
            if (colon > 0 && line >= 1) {
                return new ExamineOptions.Restart(
                        text.substring(0, colon).strip(), line, given.hasMatchedOption("--fresh-blank"));
            }
        } catch (NumberFormatException e) {
            // told below
        }
        throw new InputException(Diagnostic.of(
                        SourceSpan.ofFile("--restart"), "bad-option", "\"" + text + "\" names no line of a program.")
                .expecting("Expected FILE:LINE, the program as the job names it, e.g. \"isolation.ngc:120\"."));
    }
}
