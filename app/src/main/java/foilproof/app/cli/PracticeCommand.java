package foilproof.app.cli;

import foilproof.source.InputException;
import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code practice}: the exercises. */
final class PracticeCommand implements Command {
    @Override
    public CommandSpec spec() {
        return Specs.command("practice", "Opens the exercises: find planted faults before the blank pays for them.");
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        return GraphicsDoor.open(console, Screens::practice);
    }
}
