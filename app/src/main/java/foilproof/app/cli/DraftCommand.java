package foilproof.app.cli;

import foilproof.bench.Draft;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import java.io.IOException;
import java.nio.file.Files;
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
    public int run(ParseResult given, Console console) throws InputException, IOException {
        Path written = Draft.writeInto(JobOptions.path(given.matchedPositionalValue(0, "")), InputLimits.DEFAULT);
        long guesses = 0;
        for (String line : Files.readAllLines(written)) {
            guesses += line.contains("guess") ? 1 : 0;
        }
        console.out().println("Written: " + written);
        console.out()
                .println(guesses
                        + " lines hold a guess, each marked with the word \"guess\": check them, put in your own"
                        + " cutters and blank, then run: dryrun " + written);
        return ExitCode.FINE;
    }
}
