package foilproof.bench;

/** How the blank is held to the spoil board. */
public enum Hold {
    /** Double-sided tape under the whole face. */
    FULL_TAPE("full tape"),
    /** Clamps at the edges, the middle free to rise. */
    EDGE_CLAMPS("edge clamps"),
    /** A vacuum under the blank. */
    VACUUM("vacuum");

    private final String word;

    Hold(String word) {
        this.word = word;
    }

    /** The words in a job file. */
    public String word() {
        return word;
    }
}
