package foilproof.app.cli;

/** Exit codes: a contract with other people's scripts. */
final class ExitCode {
    /** Nothing at or above {@code --fail-on}. */
    static final int FINE = 0;

    /** A finding at or above {@code --fail-on}. */
    static final int FINDINGS = 1;

    /** The input cannot be run at all. */
    static final int BAD_INPUT = 2;

    /** A fault of ours. */
    static final int OUR_FAULT = 3;

    private ExitCode() {}
}
