package foilproof.bench;

import java.util.OptionalDouble;

/**
 * A joint made by hand after milling: a wire in a via or a part's lead (both ends at one place, one on each face), or
 * a wire between two places.
 *
 * @param from one end, design coordinates
 * @param to the other end, design coordinates
 * @param wireMm wire diameter, mm, empty where not known
 */
public record Join(End from, End to, OptionalDouble wireMm) {
    /**
     * One end.
     *
     * @param atMm place, design coordinates, mm
     * @param face the copper layer it is soldered to
     */
    public record End(XyMm atMm, Face face) {}

    /** Whether it goes through the board at one place. */
    public boolean through() {
        return from.atMm().equals(to.atMm()) && from.face() != to.face();
    }
}
