package foilproof.motion;

/** Why a tool run begins with a touch-off, or why it does not. */
public enum TouchOffCause {
    /** The program file began, and the job does not say {@code retouch = false}. */
    PROGRAM_START,
    /** The program called for a tool change and the machine paused for it ({@code on_tool_change = "stop"}). */
    TOOL_CHANGE_STOP,
    /** No touch-off: tool lengths are known ({@code on_tool_change = "measured"}). */
    NONE_MEASURED,
    /** No touch-off on the blank: the machine measured the new cutter itself ({@code on_tool_change = "probe"}). */
    NONE_PROBED,
    /** No touch-off: {@code retouch = false}, the cutter goes on as the program before left it. */
    NONE_CONTINUED
}
