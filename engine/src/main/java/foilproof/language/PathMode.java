package foilproof.language;

/** How the controller goes round the corners of a path, NISTIR 6556 section 4.3.5.3. */
public enum PathMode {
    /** Nothing said so far; the controller's own default. */
    UNSET,
    /** G61: keeps the programmed path exactly, speed kept only across tangent joins. */
    EXACT_PATH,
    /** G61.1: stops at the end of each move. */
    EXACT_STOP,
    /** G64: corners may be rounded to keep the speed up. */
    CONTINUOUS
}
