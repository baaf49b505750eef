package foilproof.bench;

/** A copper layer of the design. */
public enum Face {
    /** The component side's layer. */
    TOP("top"),
    /** The solder side's layer. */
    BOTTOM("bottom");

    private final String word;

    Face(String word) {
        this.word = word;
    }

    /** The word in a job file. */
    public String word() {
        return word;
    }

    /** The layer on the other face. */
    public Face other() {
        return this == TOP ? BOTTOM : TOP;
    }
}
