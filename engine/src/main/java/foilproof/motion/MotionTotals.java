package foilproof.motion;

/**
 * Where the time of a job goes.
 *
 * @param totalS from the job's start to its end, seconds; waits for a person at program stops are not in it
 * @param cuttingS in feed moves and probing moves
 * @param rapidS in rapids
 * @param dwellS in dwells
 * @param toolChangeS in tool changes
 * @param toolChanges how often another cutter went into the collet after the first
 * @param feedOnlyS the feed moves at their programmed feeds without acceleration: the language's own reading, and a
 *     floor of {@code cuttingS} (NISTIR 6556 section 2.1.2.16)
 */
public record MotionTotals(
        double totalS,
        double cuttingS,
        double rapidS,
        double dwellS,
        double toolChangeS,
        int toolChanges,
        double feedOnlyS) {}
