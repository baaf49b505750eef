package foilproof.bench;

import foilproof.source.SourceFile;
import org.jspecify.annotations.Nullable;

/**
 * What was intended: files in open formats and where the design lies on the blank.
 *
 * @param topCopper layer image of the component side, or null
 * @param bottomCopper layer image of the solder side, or null
 * @param drill drill file, or null
 * @param netlist netlist, or null
 * @param outline layer image of the outline, or null
 * @param placedAtMm the design's zero, from the blank's lower-left corner, seen from the design's top side
 * @param rotatedDeg 0, 90, 180 or 270, counter-clockwise about the design's zero, before it is placed
 * @param finishedSizeMm size of the board that was meant, or null
 */
public record DesignFiles(
        @Nullable SourceFile topCopper,
        @Nullable SourceFile bottomCopper,
        @Nullable SourceFile drill,
        @Nullable SourceFile netlist,
        @Nullable SourceFile outline,
        XyMm placedAtMm,
        int rotatedDeg,
        @Nullable XyMm finishedSizeMm) {
    /** The layer image of a face, or null. */
    public @Nullable SourceFile copper(Face face) {
        return face == Face.TOP ? topCopper : bottomCopper;
    }
}
