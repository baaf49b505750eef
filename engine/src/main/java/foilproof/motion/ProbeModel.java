package foilproof.motion;

import java.util.OptionalDouble;

/**
 * Answers where probing moves trip. The planner knows no stock: a caller that has composed the surface up to that
 * moment answers from it (and plans again when an answer changes); {@link #FLAT_FOIL} is the default.
 */
@FunctionalInterface
public interface ProbeModel {
    /** The flat foil top at its nominal height, joined to the clip wherever the blank lies. */
    ProbeModel FLAT_FOIL = move -> {
        double top = move.foilTopMm();
        double from = move.fromZMm();
        double to = move.toZMm();
        if (from < top) {
            return OptionalDouble.of(0);
        }
        if (to > top || from == to) {
            return OptionalDouble.empty();
        }
        double fraction = (from - top) / (from - to);
        double x = move.fromXMm() + (move.toXMm() - move.fromXMm()) * fraction;
        double y = move.fromYMm() + (move.toYMm() - move.fromYMm()) * fraction;
        boolean onBlank = x >= 0 && y >= 0 && x <= move.blankWidthMm() && y <= move.blankHeightMm();
        return onBlank ? OptionalDouble.of(fraction) : OptionalDouble.empty();
    };

    /** The fraction of the move at which the probe trips, 0 to 1, or empty where it never does. */
    OptionalDouble tripsAt(ProbeMove move);

    /**
     * A probing move.
     *
     * @param ordinal counts the probing moves of the job, from 0
     * @param side from 1
     * @param program index of the program
     * @param toolNumber number of the tool in the spindle, 0 for none or not known
     * @param fromXMm start, blank's frame of the side
     * @param fromYMm start, blank's frame of the side
     * @param fromZMm start, tip height in the run's own zero
     * @param toXMm end, blank's frame of the side
     * @param toYMm end, blank's frame of the side
     * @param toZMm end, tip height in the run's own zero
     * @param foilTopMm nominal height of the foil top in the run's own zero
     * @param blankWidthMm the blank's extent along X as it lies on this side
     * @param blankHeightMm the blank's extent along Y
     */
    record ProbeMove(
            int ordinal,
            int side,
            int program,
            int toolNumber,
            double fromXMm,
            double fromYMm,
            double fromZMm,
            double toXMm,
            double toYMm,
            double toZMm,
            double foilTopMm,
            double blankWidthMm,
            double blankHeightMm) {}
}
