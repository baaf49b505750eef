package foilproof.app.cli;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code study JOB}: Z window per tool run, tool swaps, spreads with odds. */
final class StudyCommand implements Command {
    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command("study", "Z window per tool run, tool swaps, spreads with odds.");
        JobOptions.addTo(spec, true);
        spec.addOption(Specs.flag("--json", "Prints the study as JSON to standard output."));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException {
        JobOptions.source(given);
        throw new InputException(
                Diagnostic.of(SourceSpan.ofFile("study"), "not-built", "The study is not built in this version yet."));
    }
}
