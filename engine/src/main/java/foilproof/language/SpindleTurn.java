package foilproof.language;

/** Which way the spindle turns, seen from above the tool looking down. */
public enum SpindleTurn {
    /** M5. */
    STOPPED,
    /** M3, the cutting direction of ordinary tools. */
    CLOCKWISE,
    /** M4. */
    COUNTERCLOCKWISE
}
