package foilproof.report;

/** The version that results and reports name. */
public final class Version {
    /** Name of the program. */
    public static final String NAME = "Foilproof";

    /** Its version, the same as the build's (held by a test). */
    public static final String NUMBER = "0.1.0";

    private Version() {}
}
