package foilproof.app.cli;

/** The program's door: runs one command and ends the process with its exit code. */
public final class Main {
    private Main() {}

    /** Runs the command that the arguments name. */
    public static void main(String[] args) {
        Integer ran = ShortRun.of(args);
        if (ran != null) {
            System.exit(ran);
        }
        ShortRun.watchParent();
        Console console = Console.ofProcess();
        int code = new CommandLineApp(console).run(args);
        console.flush();
        // Graphics libraries may leave threads behind; the command has ended all the same.
        System.exit(code);
    }
}
