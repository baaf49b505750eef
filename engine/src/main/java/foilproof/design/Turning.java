package foilproof.design;

/** How the blank was turned over after the side before. */
public enum Turning {
    /** Not turned: the first side, or the same face again. */
    NO,
    /** Turned about the X axis: Y goes to H - Y. */
    ABOUT_X,
    /** Turned about the Y axis: X goes to W - X. */
    ABOUT_Y
}
