package foilproof.geom;

/**
 * The four frames of the bench, as types that only mark points and transforms: a point of one frame cannot be handed
 * to what wants another. None has instances.
 */
public sealed interface Frame permits Frame.Machine, Frame.Work, Frame.Blank, Frame.Board {
    /** Positions of the machine's axes: zero where the controller says, Z up. */
    final class Machine implements Frame {
        private Machine() {}
    }

    /** What program words mean: zero at the work zero of a side, axes along the machine's. */
    final class Work implements Frame {
        private Work() {}
    }

    /**
     * The blank as it lies on a side, seen with that side's face up: zero at its lower-left corner and the nominal foil
     * top, Z up, so that depths are negative.
     */
    final class Blank implements Frame {
        private Blank() {}
    }

    /** The design, always drawn as seen from the board's top: zero at the design's own zero, Z up out of the top face. */
    final class Board implements Frame {
        private Board() {}
    }
}
