package foilproof.app.cli;

import foilproof.source.InputException;
import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** One command: what it takes and what it does. Built without annotations, so that only the asked one is set up. */
interface Command {
    /** Name, options and help. */
    CommandSpec spec();

    /**
     * Does it.
     *
     * @return an {@link ExitCode}
     * @throws InputException where the input cannot be run
     * @throws IOException where results cannot be written
     */
    int run(ParseResult given, Console console) throws InputException, IOException;
}
