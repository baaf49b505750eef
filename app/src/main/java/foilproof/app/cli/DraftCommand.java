package foilproof.app.cli;

import foilproof.bench.Draft;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceSpan;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code draft FOLDER}: writes a job file to be checked by a person. */
final class DraftCommand implements Command {
    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command(
                "draft", "Writes a job.toml from the programs and design files in a folder, every guess marked.");
        spec.addPositional(Specs.word("FOLDER", "The folder; a job.toml in it is never overwritten.", true));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException {
        String folder = given.matchedPositionalValue(0, ".");
        try {
            Path job = Draft.writeInto(Path.of(folder), InputLimits.DEFAULT);
            console.out().println("Wrote " + job + ". Check every line marked \"guess\" before you trust it.");
            return ExitCode.FINE;
        } catch (InvalidPathException e) {
            throw new InputException(
                    Diagnostic.of(SourceSpan.ofFile(folder), "missing-file", "This is no name of a folder."));
        }
    }
}
