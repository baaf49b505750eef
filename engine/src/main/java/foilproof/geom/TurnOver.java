package foilproof.geom;

/**
 * Turning the blank over between two sides, and laying a design on it: the one place where pictures are mirrored. All
 * transforms are turns in space (determinant +1); seen from above they mirror (planar determinant -1).
 *
 * @param widthMm the blank's X
 * @param heightMm the blank's Y
 * @param thicknessMm over all, so that the other face comes to lie at Z 0
 */
public record TurnOver(double widthMm, double heightMm, double thicknessMm) {
    /** Turned about Y, like a page: X becomes width - X; Z 0 is the new upper face. */
    public Transform<Frame.Blank, Frame.Blank> aboutY() {
        return Transform.diagonal(-1, 1, -1, widthMm, 0, -thicknessMm);
    }

    /** Turned about X, like a calendar leaf: Y becomes height - Y; Z 0 is the new upper face. */
    public Transform<Frame.Blank, Frame.Blank> aboutX() {
        return Transform.diagonal(1, -1, -1, 0, heightMm, -thicknessMm);
    }

    /**
     * Where a design lies on the first side, with the board's top face up: the design's zero at the given place from
     * the blank's lower-left corner, seen from the design's top; turned first by quarter turns.
     */
    public Transform<Frame.Blank, Frame.Board> blankFromBoardTopUp(
            double placedXMm, double placedYMm, int quarterTurns) {
        return Transform.<Frame.Blank, Frame.Blank>shift(placedXMm, placedYMm, 0)
                .after(Transform.quarterTurns(quarterTurns));
    }

    /** The same with the board's bottom face up on the first side: x lies at width - placed - x. */
    public Transform<Frame.Blank, Frame.Board> blankFromBoardBottomUp(
            double placedXMm, double placedYMm, int quarterTurns) {
        return aboutY().after(blankFromBoardTopUp(placedXMm, placedYMm, quarterTurns));
    }
}
