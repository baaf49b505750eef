package foilproof.bench;

/** How the blank was turned over after the side milled before. */
public enum Turn {
    /** It was not turned. */
    NO("no"),
    /** About an axis along X: Y becomes height - Y. */
    ABOUT_X("about X"),
    /** About an axis along Y: X becomes width - X. */
    ABOUT_Y("about Y");

    private final String word;

    Turn(String word) {
        this.word = word;
    }

    /** The words in a job file. */
    public String word() {
        return word;
    }
}
