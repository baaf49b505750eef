package foilproof.language;

/** Facts about a program that findings rest on; each says what its value counts. */
public enum NoteKind {
    /** The first axis move came while no units were known. */
    UNITS_UNSET,
    /** The first axis move came with units that only the controller's default gave. */
    UNITS_BY_DEFAULT,
    /** Units changed after axes had moved. */
    UNITS_CHANGED,
    /** The first axis move came before G90 or G91. */
    DISTANCE_UNSET,
    /** A move with G91 in force; told once for each stretch of such moves. */
    INCREMENTAL_STRETCH,
    /** A feed move with no F so far, or F 0; told at the first such move of each stretch. Value: 0. */
    FEED_UNSET,
    /** An F word that changed the feed. Value: millimetres a minute (G94) or 1/minutes (G93). */
    FEED_CHANGED,
    /** Inverse time mode came into force. */
    INVERSE_TIME,
    /** Neither M2, M30 nor a closing percent sign ended the program. Value: physical line count. */
    PROGRAM_END_MISSING,
    /** The file's last line has no line end and no program end: it may have been cut. */
    LAST_LINE_CUT,
    /** Where the program ended. Value: Z in work coordinates, millimetres. */
    ENDED_AT_Z,
    /** Start and end radius of an arc differ. Value: difference, millimetres. */
    ARC_RADIUS_ERROR,
    /** A radius-form arc within 15 degrees of half a turn or of a full turn. Value: sweep, degrees. */
    ARC_BY_RADIUS_FRAGILE,
    /** Start and end of an arc are one point, so it is a full circle. Value: radius, millimetres. */
    FULL_CIRCLE,
    /** A canned cycle began or changed. Value: height of R in work coordinates, millimetres. */
    CYCLE,
    /** A pecking cycle. Value: Q, millimetres. */
    CYCLE_PECK,
    /** A hole of a cycle placed by axis words alone, without its G word. Value: X, work millimetres. */
    CYCLE_REPEATED,
    /** The program ended with a cycle in force. */
    CYCLE_LEFT_MODAL,
    /** G41 or G42 without a D word. Value: tool number used. */
    COMP_WITHOUT_D,
    /** G41 or G42 came into force. Value: radius, millimetres. */
    COMP_ON,
    /** G41 or G42 names a tool whose diameter is not known; run with radius 0. */
    COMP_DIAMETER_UNKNOWN,
    /** The first feed move came before any path mode. */
    PATH_MODE_UNSET,
    /** P of G64. Value: millimetres. */
    PATH_TOLERANCE,
    /** A line that the block delete switch governs. Value: 1 where it was skipped, else 0. */
    BLOCK_DELETE,
    /** G53, G28 or G30 while machine positions are not known. */
    MACHINE_POSITION_UNKNOWN,
    /** G28 or G30 while that home is not known. */
    HOME_UNKNOWN,
    /** A work system was named or used by the first move. Value: 1 to 9. */
    SYSTEM,
    /** The first move relied on the work system in force without naming one. Value: 1 to 9. */
    SYSTEM_UNSET,
    /** G10 or a parameter moved an origin. Value: system, 1 to 9. */
    ORIGIN_SET,
    /** An offset of the G92 family came into force. Value: its Z, millimetres. */
    G92_IN_FORCE,
    /** A G92 offset is in force at the program's end. */
    G92_LEFT,
    /** T names a tool that the bench does not have. Value: number. */
    TOOL_UNKNOWN,
    /** M6 with no T before it. */
    TOOL_CHANGE_WITHOUT_TOOL,
    /** A tool change. Value: number. */
    TOOL_CHANGE,
    /** M6 while the spindle turned. Value: number of the new tool. */
    TOOL_CHANGE_SPINDLE_ON,
    /** A program stop while the spindle turned. */
    STOP_SPINDLE_ON,
    /** G43 came into force. Value: length, millimetres. */
    LENGTH_OFFSET_ON,
    /** G49 after cutting. */
    LENGTH_OFFSET_OFF,
    /** H names a tool whose length is not known; run with 0. Value: H number. */
    LENGTH_OFFSET_UNKNOWN,
    /** H differs from the tool in the spindle. Value: H number. */
    LENGTH_OFFSET_OTHER_TOOL,
    /** A probing move. Value: Z where it ended, machine millimetres. */
    PROBE,
    /** A probing move ran to its end without tripping. */
    PROBE_NOT_TRIPPED,
    /** M1. Value: 1 where the switch is on. */
    OPTIONAL_STOP,
    /** The program relies on a state that it never set (plane, feed mode, compensation, cycle, length offset). */
    STATE_CARRIED_OVER,
    /** A parameter that was never set was read; it counts 0. Value: its number. */
    PARAMETER_UNSET,
    /** A dwell. Value: seconds. */
    DWELL,
    /** More notes of a kind came than are kept. Value: how many were left out. */
    NOTES_LEFT_OUT
}
