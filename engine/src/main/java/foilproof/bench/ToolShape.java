package foilproof.bench;

/** The shape of a cutter's end. */
public enum ToolShape {
    /** Flat end mill. */
    FLAT("flat"),
    /** V-shaped engraving bit, flat or rounded at the tip. */
    V("V"),
    /** Ball end mill. */
    BALL("ball"),
    /** Drill with a pointed end. */
    DRILL("drill");

    private final String word;

    ToolShape(String word) {
        this.word = word;
    }

    /** The word in a job file. */
    public String word() {
        return word;
    }
}
