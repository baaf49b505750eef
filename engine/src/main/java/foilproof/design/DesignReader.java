package foilproof.design;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;

/** Reads design files. Every reader says what it did not understand, with line and column. */
public final class DesignReader {
    private DesignReader() {}

    /**
     * Reads a layer image (Gerber Layer Format specification 2021.02, deprecated forms included).
     *
     * @param file the file
     * @param limits declared limits; {@code flashes} limits the graphic objects after repeats
     * @return the image in design coordinates, mm, and what deserves a word
     * @throws InputException where the file leaves its image undefined, or is over the limits
     */
    public static Reading<LayerImage> readLayer(SourceFile file, InputLimits limits) throws InputException {
        return new LayerReader(file, limits).read();
    }
}
