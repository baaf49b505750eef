package foilproof.bench;

/** What the blank is made of below the foil. */
public enum Substrate {
    /** Phenolic paper. */
    FR_1("FR-1"),
    /** Epoxy and woven glass: its dust needs extraction. */
    FR_4("FR-4"),
    /** Epoxy paper. */
    CEM_1("CEM-1"),
    /** Epoxy and glass fleece: its dust needs extraction. */
    CEM_3("CEM-3");

    private final String word;

    Substrate(String word) {
        this.word = word;
    }

    /** The word in a job file. */
    public String word() {
        return word;
    }

    /** Whether the substrate holds glass fibre, which wears cutters and whose dust harms lungs. */
    public boolean glass() {
        return this == FR_4 || this == CEM_3;
    }
}
