package foilproof.app.cli;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
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
        throw new InputException(
                Diagnostic.of(SourceSpan.ofFile("draft"), "not-built", "The draft is not built in this version yet."));
    }
}
