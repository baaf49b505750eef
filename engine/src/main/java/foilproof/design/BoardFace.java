package foilproof.design;

/** A copper layer of the design, named as in the job file: which one faces up on a side. */
public enum BoardFace {
    /** The design's top copper. */
    TOP,
    /** The design's bottom copper. */
    BOTTOM;

    /** The face on the other side of the board. */
    public BoardFace other() {
        return this == TOP ? BOTTOM : TOP;
    }
}
