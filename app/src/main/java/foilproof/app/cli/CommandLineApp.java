package foilproof.app.cli;

import foilproof.report.Version;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.Spelling;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** Finds the command, reads its options, runs it and turns whatever goes wrong into words and an exit code. */
final class CommandLineApp {
    private static final int MOST_DIAGNOSTICS = 20;

    private final Console console;

    CommandLineApp(Console console) {
        this.console = console;
    }

    /** Runs the command that the arguments name; never throws. */
    int run(String[] args) {
        if (args.length == 0 || args[0].equals("--help") || args[0].equals("-h") || args[0].equals("help")) {
            return help(args);
        }
        if (args[0].equals("--version") || args[0].equals("-V")) {
            console.out().println(Version.NAME + " " + Version.NUMBER);
            return ExitCode.FINE;
        }
        Command command = Commands.of(args[0]);
        if (command == null) {
            return wrong("There is no command \"" + shortened(args[0]) + "\"." + nearest(args[0], Commands.NAMES)
                    + " Commands: " + String.join(", ", Commands.NAMES) + ".");
        }
        return guarded(command, Arrays.copyOfRange(args, 1, args.length));
    }

    /** Runs one command with its arguments; whatever goes wrong becomes words and an exit code. */
    int guarded(Command command, String[] args) {
        try {
            return parsed(command, args);
        } catch (OutOfMemoryError e) {
            return fault(
                    "This job needs more memory than Java was given. Give it more, for example: java -Xmx4g -jar ...");
        } catch (StackOverflowError e) {
            return fault("Ran out of stack" + place(e) + ".");
        } catch (RuntimeException | Error e) {
            String said = e.getMessage() == null ? "" : ": " + shortened(e.getMessage());
            return fault(e.getClass().getSimpleName() + said + place(e) + ".");
        }
    }

    private int help(String[] args) {
        Command command = args.length > 1 ? Commands.of(args[1]) : null;
        if (command != null) {
            console.out().print(new CommandLine(command.spec()).getUsageMessage(CommandLine.Help.Ansi.OFF));
            return ExitCode.FINE;
        }
        console.out().print(Commands.HELP);
        return args.length == 0 ? ExitCode.BAD_INPUT : ExitCode.FINE;
    }

    private int parsed(Command command, String[] args) {
        CommandLine line = new CommandLine(command.spec());
        line.setExpandAtFiles(false);
        line.setTrimQuotes(false);
        try {
            CommandLine.ParseResult given = line.parseArgs(args);
            if (line.isUsageHelpRequested()) {
                console.out().print(line.getUsageMessage(CommandLine.Help.Ansi.OFF));
                return ExitCode.FINE;
            }
            return command.run(given, console);
        } catch (CommandLine.ParameterException e) {
            return wrong(sentence(e) + " " + line.getCommandName() + " --help tells the options.");
        } catch (InputException e) {
            return refused(e.diagnostics());
        } catch (IOException e) {
            return wrong("Could not write or read: " + told(e) + ".");
        }
    }

    private String sentence(CommandLine.ParameterException e) {
        CommandSpec spec = e.getCommandLine().getCommandSpec();
        if (e instanceof CommandLine.UnmatchedArgumentException unmatched
                && !unmatched.getUnmatched().isEmpty()) {
            String word = unmatched.getUnmatched().get(0);
            if (word.startsWith("-")) {
                String name = word.contains("=") ? word.substring(0, word.indexOf('=')) : word;
                return "There is no option " + shortened(name) + "."
                        + nearest(
                                name,
                                List.copyOf(new TreeSet<>(spec.optionsMap().keySet())));
            }
            return "Nothing is known to do with \"" + shortened(word) + "\".";
        }
        String said = e.getMessage() == null ? "The options cannot be read" : e.getMessage();
        return shortened(said) + (said.endsWith(".") ? "" : ".");
    }

    private static String nearest(String word, List<String> words) {
        String near = Spelling.nearest(word, words);
        return near == null ? "" : " Nearest: " + near + ".";
    }

    private int refused(List<Diagnostic> diagnostics) {
        int shown = Math.min(MOST_DIAGNOSTICS, diagnostics.size());
        for (Diagnostic diagnostic : diagnostics.subList(0, shown)) {
            console.err().println(diagnostic.render());
        }
        if (shown < diagnostics.size()) {
            console.err().println("... and " + (diagnostics.size() - shown) + " more.");
        }
        return ExitCode.BAD_INPUT;
    }

    private int wrong(String sentence) {
        console.err().println(sentence);
        return ExitCode.BAD_INPUT;
    }

    private int fault(String sentence) {
        console.err().println("A fault of ours, not of your input: " + sentence);
        return ExitCode.OUR_FAULT;
    }

    private static String told(IOException e) {
        if (e instanceof FileSystemException file) {
            String reason = file.getReason() == null ? kind(e) : file.getReason();
            return file.getFile() + " (" + reason + ")";
        }
        return e.getMessage() == null ? kind(e) : e.getMessage();
    }

    private static String kind(IOException e) {
        return e.getClass().getSimpleName().replace("Exception", "").replaceAll("(?<=[a-z])(?=[A-Z])", " ");
    }

    /** Where in our code it broke: one place, so that it can be reported; no stack trace. */
    private static String place(Throwable e) {
        @Nullable StackTraceElement ours = null;
        for (StackTraceElement frame : e.getStackTrace()) {
            if (frame.getClassName().startsWith("foilproof.")) {
                ours = frame;
                break;
            }
        }
        return ours == null ? "" : " (at " + ours.getClassName() + " line " + ours.getLineNumber() + ")";
    }

    private static String shortened(String text) {
        String line = text.replaceAll("\\p{Cntrl}+", " ");
        return line.length() <= 300 ? line : line.substring(0, 297) + "...";
    }
}
