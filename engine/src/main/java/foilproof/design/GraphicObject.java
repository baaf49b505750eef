package foilproof.design;

/**
 * One object of a layer image.
 *
 * @param index its place in polarity order, from 0
 * @param kind how it was made
 * @param dark true where it adds, false where it clears everything before it
 * @param bounds the box round it
 * @param areaMm2 its own area, mm2, whatever lies over it
 * @param attributes what the file says about it
 * @param line line of the file
 */
public record GraphicObject(
        int index, Kind kind, boolean dark, Bounds bounds, double areaMm2, ObjectAttributes attributes, int line) {
    /** How an object was made. */
    public enum Kind {
        /** D03. */
        FLASH,
        /** D01, straight. */
        DRAW,
        /** D01, circular. */
        ARC,
        /** G36 to G37. */
        REGION
    }
}
