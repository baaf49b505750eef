package foilproof.findings;

/** What a finding rests on. */
public enum Certainty {
    /** Follows from the inputs alone. */
    GEOMETRY("geometry"),
    /** Depends on set-up numbers; the margin is shown. */
    SET_UP("set-up"),
    /** A rule of thumb; editable. */
    RULE_OF_THUMB("rule of thumb");

    private final String word;

    Certainty(String word) {
        this.word = word;
    }

    /** The word in results. */
    public String word() {
        return word;
    }
}
