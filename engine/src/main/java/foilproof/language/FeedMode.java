package foilproof.language;

/** What an F word counts. */
public enum FeedMode {
    /** G94: length units a minute. */
    UNITS_PER_MINUTE,
    /** G93: the move takes 1/F minutes. */
    INVERSE_TIME
}
