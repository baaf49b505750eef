package foilproof.design;

import foilproof.bench.DesignFiles;
import foilproof.bench.Face;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Everything that a job's design files say, in design coordinates.
 *
 * @param layers layer images by face, those that were given
 * @param drill holes and slots, or null where no drill file was given
 * @param netlist the netlist, or null
 * @param outline the outline, or null
 * @param warnings what deserves a word, file by file
 */
public record Design(
        Map<Face, LayerImage> layers,
        @Nullable DrillFile drill,
        @Nullable Netlist netlist,
        @Nullable Outline outline,
        List<Diagnostic> warnings) {
    /** Nothing given. */
    public static final Design NONE = new Design(Map.of(), null, null, null, List.of());

    /** Copies the collections. */
    public Design {
        layers = Map.copyOf(layers);
        warnings = List.copyOf(warnings);
    }

    /** The layer image of a face, or null. */
    public @Nullable LayerImage layer(Face face) {
        return layers.get(face);
    }

    /**
     * Reads every design file of a job.
     *
     * @param files the files; null for none
     * @param limits declared limits
     * @throws InputException with every file's errors, where any file cannot be used
     */
    public static Design read(@Nullable DesignFiles files, InputLimits limits) throws InputException {
        if (files == null) {
            return NONE;
        }
        List<Diagnostic> warnings = new ArrayList<>();
        List<Diagnostic> errors = new ArrayList<>();
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        for (Face face : Face.values()) {
            SourceFile file = files.copper(face);
            LayerImage layer = read(file, f -> DesignReader.readLayer(f, limits), warnings, errors);
            if (layer != null && file != null) {
                layers.put(face, layer);
                if (layer.statedFace() != null && layer.statedFace() != face) {
                    warnings.add(Diagnostic.of(
                            SourceSpan.ofFile(file.name()),
                            "layer-face",
                            "The job names this file as its " + face.word() + " copper; the file says that it is the "
                                    + face.other().word() + " copper."));
                }
            }
        }
        DrillFile drill = read(files.drill(), f -> DesignReader.readDrill(f, limits), warnings, errors);
        Netlist netlist = read(files.netlist(), f -> DesignReader.readNetlist(f, limits), warnings, errors);
        Outline outline = read(files.outline(), f -> DesignReader.readOutline(f, limits), warnings, errors);
        if (!errors.isEmpty()) {
            throw new InputException(errors);
        }
        return new Design(layers, drill, netlist, outline, warnings);
    }

    private interface Reader<T> {
        Reading<T> read(SourceFile file) throws InputException;
    }

    private static <T> @Nullable T read(
            @Nullable SourceFile file, Reader<T> reader, List<Diagnostic> warnings, List<Diagnostic> errors) {
        if (file == null) {
            return null;
        }
        try {
            Reading<T> reading = reader.read(file);
            warnings.addAll(reading.warnings());
            return reading.value();
        } catch (InputException e) {
            errors.addAll(e.diagnostics());
            return null;
        }
    }
}
