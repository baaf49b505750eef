package foilproof.language;

import java.util.OptionalDouble;

/** The surface that a straight probing move can touch; the bench or the stock answers. */
@FunctionalInterface
public interface ProbeSurface {
    /** A surface that nothing ever touches. */
    // An anonymous class and no lambda: the first lambda of a process costs more than reading a program does.
    @SuppressWarnings("UnnecessaryAnonymousClass")
    ProbeSurface NONE = new ProbeSurface() {
        @Override
        public OptionalDouble tripsAt(
                double fromXMm, double fromYMm, double fromZMm, double toXMm, double toYMm, double toZMm, int tool) {
            return OptionalDouble.empty();
        }
    };

    /**
     * Where a probing move trips. All coordinates are machine positions of the axes, millimetres, the same frame as
     * the end points of {@link CanonicalProgram}.
     *
     * @param tool number of the tool in the spindle, 0 for none
     * @return the fraction of the move at which the probe trips, 0 to 1, or empty where it never does
     */
    OptionalDouble tripsAt(
            double fromXMm, double fromYMm, double fromZMm, double toXMm, double toYMm, double toZMm, int tool);
}
