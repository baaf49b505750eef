package foilproof.design;

import org.jspecify.annotations.Nullable;

/**
 * A flash of a layer image: a pad or a land.
 *
 * @param object index of the object in its image
 * @param shape shape of the aperture
 * @param xMm where it is flashed, X, mm
 * @param yMm Y, mm
 * @param widthMm extent of the copper along X, mm
 * @param heightMm extent of the copper along Y, mm
 * @param bounds the box round the copper
 * @param areaMm2 area of the flash alone, mm2
 * @param attributes what the file says about it
 * @param line line of the file
 */
public record Pad(
        int object,
        Shape shape,
        double xMm,
        double yMm,
        double widthMm,
        double heightMm,
        Bounds bounds,
        double areaMm2,
        ObjectAttributes attributes,
        int line) {
    /** Shape of an aperture. */
    public enum Shape {
        /** C. */
        CIRCLE,
        /** R. */
        RECTANGLE,
        /** O. */
        OBROUND,
        /** P. */
        POLYGON,
        /** AM. */
        MACRO
    }

    /** Name of its net, or null where the file names none or says {@code N/C}. */
    public @Nullable String net() {
        return attributes.net();
    }

    /** Reference and pin as {@code U1-4}, or null where the file does not say. */
    public @Nullable String pinName() {
        String reference = attributes.reference();
        return reference == null || attributes.pin() == null ? null : reference + "-" + attributes.pin();
    }
}
