package foilproof.language;

/** The canonical commands that a program comes down to, after NISTIR 6556 section 4. */
public enum CommandKind {
    /** Straight move at rapid speed. */
    STRAIGHT_TRAVERSE(true),
    /** Straight move at feed. */
    STRAIGHT_FEED(true),
    /** Arc or helix at feed. */
    ARC_FEED(true),
    /** Straight move at feed that ends where the probe trips. */
    STRAIGHT_PROBE(true),
    /** Value: seconds. */
    DWELL(false),
    /** Value: millimetres a minute (G94), or 1/minutes (G93). */
    SET_FEED(false),
    /** Value: 0 length units a minute, 1 inverse time. */
    SET_FEED_MODE(false),
    /** Value: turns a minute. */
    SET_SPEED(false),
    /** M3. */
    SPINDLE_CLOCKWISE(false),
    /** M4. */
    SPINDLE_COUNTERCLOCKWISE(false),
    /** M5, or a cycle. */
    SPINDLE_STOP(false),
    /** Spindle stopped in a known orientation (G87). */
    SPINDLE_ORIENT(false),
    /** Value: tool number, 0 for none. */
    SELECT_TOOL(false),
    /** Value: number of the tool now in the spindle, 0 for none. */
    CHANGE_TOOL(false),
    /** Value: length offset in force, millimetres; text: the H number or empty. */
    LENGTH_OFFSET(false),
    /** The origin changed: see {@code originXMm} and so on. */
    SET_ORIGIN(false),
    /** Value: ordinal of {@link Plane}. */
    SELECT_PLANE(false),
    /** Value: ordinal of {@link LengthUnits}. */
    USE_UNITS(false),
    /** Value: ordinal of {@link PathMode}; the tolerance in millimetres is {@code value2}, NaN where none is stated. */
    SET_PATH_MODE(false),
    /** M7. */
    MIST_ON(false),
    /** M8. */
    FLOOD_ON(false),
    /** M9. */
    COOLANT_OFF(false),
    /** M48 (value 1) and M49 (value 0). */
    OVERRIDES(false),
    /** Speed and feed run in step (G84): value 1 on, 0 off. */
    SYNCHRONIZE(false),
    /** M0, M60 or G88: the machine waits for a person. */
    PROGRAM_STOP(false),
    /** M1: waits where the switch is on; value 1 where it is on. */
    OPTIONAL_STOP(false),
    /** M2, M30 or the closing percent sign. */
    PROGRAM_END(false),
    /** Text: the comment. */
    COMMENT(false),
    /** Text: what the operator is shown. */
    MESSAGE(false);

    private final boolean motion;

    CommandKind(boolean motion) {
        this.motion = motion;
    }

    /** Whether axes move. */
    public boolean isMotion() {
        return motion;
    }
}
