package foilproof.copper;

/**
 * A place of the design where a net must have copper on this side: a pad, a land, a test point.
 *
 * @param net number of its net: places of different nets must stay apart
 * @param group number of the places that copper alone must join: those of a net that no hand-made join joins already
 *     (two groups of one net are joined by wire or on the other side)
 * @param xMm blank's frame of this side; a place that stays copper (on the ring of a land that is bored)
 * @param yMm likewise
 */
public record Terminal(int net, int group, double xMm, double yMm) {}
