package foilproof.app.cli;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.source.InputException;
import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code bench [JOB]}: opens the 3D bench. */
final class BenchCommand implements Command {
    @Override
    public CommandSpec spec() {
        return JobOptions.addTo(
                Specs.command("bench", "Opens the 3D bench; without JOB it offers the samples and recent jobs."),
                false);
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        JobSource source = given.hasMatchedPositional(0) ? JobOptions.source(given) : null;
        ReadOptions options = JobOptions.readOptions(given);
        return GraphicsDoor.open(console, screens -> screens.bench(source, options));
    }
}
