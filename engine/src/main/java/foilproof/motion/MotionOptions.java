package foilproof.motion;

import foilproof.source.InputLimits;
import org.jspecify.annotations.Nullable;

/**
 * How a job is planned, beside what it says itself.
 *
 * @param probes answers probing moves
 * @param optionalStop whether M1 stops
 * @param blockDelete overrides the job's block delete switch; null keeps it
 * @param limits limits of the program texts
 */
public record MotionOptions(
        ProbeModel probes, boolean optionalStop, @Nullable Boolean blockDelete, InputLimits limits) {
    /** Flat foil for probes, M1 stops, the job's own block delete switch, default limits. */
    public static final MotionOptions DEFAULT =
            new MotionOptions(ProbeModel.FLAT_FOIL, true, null, InputLimits.DEFAULT);

    /** The same with other answers to probing moves. */
    public MotionOptions withProbes(ProbeModel model) {
        return new MotionOptions(model, optionalStop, blockDelete, limits);
    }

    /** The same with the block delete switch on or off, whatever the job says. */
    public MotionOptions withBlockDelete(boolean on) {
        return new MotionOptions(probes, optionalStop, on, limits);
    }
}
