package foilproof.motion;

/** The path modes of RS274/NGC (NISTIR 6556 section 3.5.14; canonical meaning in section 4.3.5.3). */
public enum PathMode {
    /** G61.1: every move ends at rest. */
    EXACT_STOP,
    /** G61: the path is kept; speed is kept only across tangent joins. */
    EXACT_PATH,
    /** G64: corners are rounded within a deviation, so that speed is kept. */
    CONTINUOUS;

    private static final PathMode[] VALUES = values();

    static PathMode of(int ordinal) {
        return VALUES[ordinal];
    }
}
