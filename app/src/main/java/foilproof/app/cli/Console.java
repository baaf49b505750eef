package foilproof.app.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;

/** Where a command speaks: results on {@code out}, all else on {@code err}, both UTF-8 whatever the locale. */
final class Console {
    private final PrintStream out;
    private final PrintStream err;
    private final boolean terminal;

    Console(PrintStream out, PrintStream err, boolean terminal) {
        this.out = out;
        this.err = err;
        this.terminal = terminal;
    }

    /** The process's own streams. */
    static Console ofProcess() {
        return new Console(stream(FileDescriptor.out), stream(FileDescriptor.err), errIsTerminal());
    }

    /** For results. */
    PrintStream out() {
        return out;
    }

    /** For messages and progress. */
    PrintStream err() {
        return err;
    }

    /** Whether a person watches {@code err}. */
    boolean isTerminal() {
        return terminal;
    }

    void flush() {
        out.flush();
        err.flush();
    }

    private static PrintStream stream(FileDescriptor descriptor) {
        return new PrintStream(
                new java.io.BufferedOutputStream(new FileOutputStream(descriptor), 1 << 14),
                false,
                StandardCharsets.UTF_8);
    }

    private static boolean errIsTerminal() {
        // Java asks only for input and output together; Linux tells of each stream.
        try {
            String target = Files.readSymbolicLink(Path.of("/proc/self/fd/2")).toString();
            return target.startsWith("/dev/pts/") || target.startsWith("/dev/tty");
        } catch (IOException | UnsupportedOperationException | InvalidPathException e) {
            return consoleIsTerminal();
        }
    }

    /** From Java 22 on there may be a console where no terminal is; it then tells so itself. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean consoleIsTerminal() {
        java.io.Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (boolean) java.io.Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (ReflectiveOperationException e) {
            return false;
        }
    }
}
