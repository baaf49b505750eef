package foilproof.app.cli;

/** The command line's door. Commands land here. */
public final class Main {
    private Main() {}

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        System.err.println("Foilproof: commands are on their way.");
        System.exit(3);
    }
}
