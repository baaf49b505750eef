package foilproof.bench;

/** What the cutter is touched off on: where Z 0 of a program lies. */
public enum ZZero {
    /** The foil top at the touch point. */
    FOIL("foil"),
    /** The spoil board's top, below blank and tape. */
    SPOIL_BOARD("spoil board");

    private final String word;

    ZZero(String word) {
        this.word = word;
    }

    /** The words in a job file. */
    public String word() {
        return word;
    }
}
