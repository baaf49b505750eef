package foilproof.app.cli;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ParseResult;

/** {@code --against OLD}: the earlier {@code result.json}, or the folder that holds it. */
final class AgainstOption {
    private static final long MOST_BYTES = 256L * 1024 * 1024;

    private AgainstOption() {}

    /**
     * The text of the earlier result, or null where none is named.
     *
     * @throws InputException where it is named and cannot be read
     */
    static @Nullable String text(ParseResult given) throws InputException {
        String named = given.matchedOptionValue("--against", null);
        if (named == null) {
            return null;
        }
        Path file = JobOptions.path(named);
        if (Files.isDirectory(file)) {
            file = file.resolve("result.json");
        }
        try {
            if (Files.isRegularFile(file) && Files.size(file) <= MOST_BYTES) {
                return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
            }
        } catch (IOException e) {
            throw refused("\"" + named + "\" cannot be read.");
        }
        throw refused("There is no earlier result at \"" + named + "\".");
    }

    /** Why an earlier result is not taken. */
    static InputException refused(String message) {
        return new InputException(Diagnostic.of(SourceSpan.ofFile("--against"), "bad-result", message)
                .expecting("Expected a result.json that dryrun --out or --json wrote."));
    }
}
