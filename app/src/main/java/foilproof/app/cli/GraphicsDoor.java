package foilproof.app.cli;

import foilproof.source.InputException;
import java.io.IOException;
import java.util.Iterator;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;

/** The one door from the command line to everything that draws; nothing behind it is loaded before it is opened. */
final class GraphicsDoor {
    private static final String STILL_WORK = " These commands work without graphics: dryrun, draft, study, explain.";

    private GraphicsDoor() {}

    /** Something to do with the screens. */
    @FunctionalInterface
    interface Task {
        void run(Screens screens) throws InputException, Screens.NoScreenException, IOException;
    }

    /**
     * Opens the door and runs the task.
     *
     * @return an {@link ExitCode}
     */
    static int open(Console console, Task task) throws InputException, IOException {
        try {
            Iterator<Screens> found = ServiceLoader.load(Screens.class).iterator();
            if (!found.hasNext()) {
                return refuse(console, "This build holds nothing that draws.");
            }
            task.run(found.next());
            return ExitCode.FINE;
        } catch (Screens.NoScreenException e) {
            return refuse(console, e.getMessage() == null ? "Nothing can be drawn here." : e.getMessage());
        } catch (ServiceConfigurationError | LinkageError e) {
            return refuse(console, "The graphics libraries cannot be loaded here: " + rootOf(e) + ".");
        }
    }

    /** What could not be loaded, in the words of the deepest cause: a missing system library names itself there. */
    private static String rootOf(Throwable failure) {
        Throwable deepest = failure;
        while (deepest.getCause() != null) {
            deepest = deepest.getCause();
        }
        String words = deepest.getMessage();
        return words == null ? deepest.getClass().getSimpleName() : words.strip();
    }

    private static int refuse(Console console, String reason) {
        console.err().println(reason + STILL_WORK);
        return ExitCode.BAD_INPUT;
    }
}
