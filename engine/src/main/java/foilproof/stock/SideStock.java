package foilproof.stock;

import foilproof.bench.Turn;
import java.util.List;

/**
 * One side of the blank with all that was swept on it, before any conditions: immutable.
 *
 * @param number from 1, in the order milled
 * @param turned how the blank was turned over after the side before
 * @param surface the foil top as it lies now
 * @param tapeMm thickness of the tape below the blank
 * @param runs the tool runs of this side in time order
 */
public record SideStock(int number, Turn turned, BlankSurface surface, double tapeMm, List<RunCut> runs) {
    /** Copies the list. */
    public SideStock {
        runs = List.copyOf(runs);
    }
}
