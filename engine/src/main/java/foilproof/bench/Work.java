package foilproof.bench;

/** What a program is for. */
public enum Work {
    /** Grooves round copper. */
    ISOLATION("isolation"),
    /** Copper taken off over an area. */
    CLEARING("clearing"),
    /** Holes, by circular milling or straight plunge. */
    BORING("boring"),
    /** Cutting the board or openings out. */
    OUTLINE("outline"),
    /** Lettering in the foil. */
    TEXT("text");

    private final String word;

    Work(String word) {
        this.word = word;
    }

    /** The word in a job file. */
    public String word() {
        return word;
    }

    /** Whether the work stays in the foil: isolation, clearing and text. */
    public boolean copper() {
        return this == ISOLATION || this == CLEARING || this == TEXT;
    }
}
