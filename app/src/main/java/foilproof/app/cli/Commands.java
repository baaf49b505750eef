package foilproof.app.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** The commands by name. */
final class Commands {
    /** Every name, in the order of the help. */
    static final List<String> NAMES =
            List.of("dryrun", "draft", "bench", "picture", "study", "accept", "practice", "explain");

    /** The help of the program as a whole. */
    static final String HELP = """
            Usage: java -jar foilproof.jar COMMAND [OPTIONS]

            Dry-runs isolation-milling jobs on a virtual bench before a blank is wasted. Drives no machine.

            Commands:
              dryrun JOB                runs the job: verdict, Z window, findings
              draft FOLDER              writes a job.toml from the programs and design files in a folder, every guess marked
              bench [JOB]               opens the 3D bench
              picture JOB -o FILE.png   draws one picture of the board, off screen
              study JOB                 Z window per tool run, tool swaps, spreads with odds
              accept JOB                accepts a finding for a reason, stored beside the job
              practice                  the exercises
              explain KIND              what a kind of finding means, why it matters, what to do

            JOB is a job.toml, a folder that holds one, or a program file.
            COMMAND --help tells a command's options; --version the version.
            Exit codes: 0 nothing at or above --fail-on; 1 such a finding; 2 the input cannot be run; 3 a fault of ours.
            """;

    private Commands() {}

    /** The command of that name, or null where there is none. */
    static @Nullable Command of(String name) {
        return switch (name) {
            case "dryrun" -> new DryRunCommand();
            case "draft" -> new DraftCommand();
            case "bench" -> new BenchCommand();
            case "picture" -> new PictureCommand();
            case "study" -> new StudyCommand();
            case "accept" -> new AcceptCommand();
            case "practice" -> new PracticeCommand();
            case "explain" -> new ExplainCommand();
            default -> null;
        };
    }
}
