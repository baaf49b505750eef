package foilproof.stock;

import foilproof.bench.Blank;

/**
 * What of a blank the composition needs. Frame: the blank as it lies, lower-left corner (0, 0), Z 0 the nominal foil
 * top, down negative; the underside lies at -thickness on every side.
 *
 * @param widthMm along X
 * @param heightMm along Y
 * @param thicknessMm over all, foil included
 * @param foilMm thickness of the foil
 * @param bothSides whether there is foil on both faces
 */
public record BlankBody(double widthMm, double heightMm, double thicknessMm, double foilMm, boolean bothSides) {
    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException where a size is not above 0 or the foils are thicker than the blank
     */
    public BlankBody {
        if (!(widthMm > 0) || !(heightMm > 0) || !(foilMm > 0) || !(thicknessMm > foilMm * (bothSides ? 2 : 1))) {
            throw new IllegalArgumentException("a blank needs sizes above 0 and foil thinner than the blank");
        }
    }

    /** The blank as the bench has it. */
    public static BlankBody of(Blank blank) {
        return new BlankBody(blank.widthMm(), blank.heightMm(), blank.thicknessMm(), blank.foilMm(), blank.bothSides());
    }
}
