package foilproof.design;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;

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
        Reading<LayerImage> reading = new LayerReader(file, limits).read();
        TextPlaces places = new TextPlaces(file);
        TouchingObjects.tell(reading.value(), places);
        if (places.warnings().isEmpty()) {
            return reading;
        }
        List<Diagnostic> warnings = new ArrayList<>(reading.warnings());
        warnings.addAll(places.warnings());
        return new Reading<>(reading.value(), warnings);
    }

    /**
     * Reads an NC drill file (XNC, IPC-NC-349).
     *
     * @param file the file
     * @param limits declared limits; {@code flashes} limits holes and slots together
     * @return holes and slots in design coordinates, mm, and what deserves a word
     * @throws InputException where a hole's place or size is not defined, or the file is over the limits
     */
    public static Reading<DrillFile> readDrill(SourceFile file, InputLimits limits) throws InputException {
        return new DrillReader(file, limits).read();
    }

    /**
     * Reads a bare-board netlist (IPC-D-356A).
     *
     * @param file the file
     * @param limits declared limits; {@code flashes} limits the records
     * @return places and nets in design coordinates, mm, and what deserves a word
     * @throws InputException where a record cannot be read: a net that lacks a place unseen would be worse
     */
    public static Reading<Netlist> readNetlist(SourceFile file, InputLimits limits) throws InputException {
        return new NetlistReader(file, limits).read();
    }

    /**
     * Reads the board's outline from the strokes and regions of a layer image.
     *
     * @param file the file
     * @param limits declared limits
     * @return closed rings in design coordinates, mm, and what deserves a word
     * @throws InputException where the file cannot be read or holds no closed contour
     */
    public static Reading<Outline> readOutline(SourceFile file, InputLimits limits) throws InputException {
        Reading<LayerImage> image = new LayerReader(file, limits).read();
        TextPlaces places = new TextPlaces(file);
        Outline outline = new OutlineMaker(places).make(image.value());
        List<Diagnostic> warnings = new ArrayList<>(image.warnings());
        warnings.addAll(places.warnings());
        return new Reading<>(outline, warnings);
    }
}
