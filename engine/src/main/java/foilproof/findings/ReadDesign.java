package foilproof.findings;

import foilproof.bench.DesignFiles;
import foilproof.bench.Face;
import foilproof.bench.Job;
import foilproof.design.DesignReader;
import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Netlist;
import foilproof.design.Outline;
import foilproof.design.Reading;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The design files of a job as read, design coordinates.
 *
 * @param layers layer images by face
 * @param drill drill file, or null
 * @param netlist netlist, or null
 * @param outline outline, or null
 * @param warnings what the readers did not understand
 */
public record ReadDesign(
        Map<Face, LayerImage> layers,
        @Nullable DrillFile drill,
        @Nullable Netlist netlist,
        @Nullable Outline outline,
        List<Diagnostic> warnings) {
    /** Copies the collections. */
    public ReadDesign {
        layers = Map.copyOf(layers);
        warnings = List.copyOf(warnings);
    }

    /** No design at all. */
    static final ReadDesign NONE = new ReadDesign(Map.of(), null, null, null, List.of());

    /** Whether any file says what was meant. */
    public boolean none() {
        return layers.isEmpty() && drill == null && netlist == null && outline == null;
    }

    /**
     * Reads all design files that a job names.
     *
     * @throws InputException where a file cannot be read or leaves its meaning undefined
     */
    public static ReadDesign of(Job job) throws InputException {
        DesignFiles files = job.design();
        if (files == null) {
            return NONE;
        }
        List<Diagnostic> warnings = new ArrayList<>();
        Map<Face, LayerImage> layers = new EnumMap<>(Face.class);
        for (Face face : Face.values()) {
            SourceFile file = files.copper(face);
            if (file != null) {
                layers.put(face, kept(DesignReader.readLayer(file, InputLimits.DEFAULT), warnings));
            }
        }
        return new ReadDesign(
                layers,
                files.drill() == null
                        ? null
                        : kept(DesignReader.readDrill(files.drill(), InputLimits.DEFAULT), warnings),
                files.netlist() == null
                        ? null
                        : kept(DesignReader.readNetlist(files.netlist(), InputLimits.DEFAULT), warnings),
                files.outline() == null
                        ? null
                        : kept(DesignReader.readOutline(files.outline(), InputLimits.DEFAULT), warnings),
                warnings);
    }

    private static <T> T kept(Reading<T> reading, List<Diagnostic> warnings) {
        warnings.addAll(reading.warnings());
        return reading.value();
    }
}
