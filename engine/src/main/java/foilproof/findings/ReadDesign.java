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
import foilproof.source.SourceSpan;
import foilproof.stock.Memo;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
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

    /** The drill file where it is whole; null where none is given or it was cut short, so that holes may be missing. */
    @Nullable
    DrillFile wholeDrill() {
        return drill == null || drill.cutShort() ? null : drill;
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
                LayerImage layer = kept(DesignReader.readLayer(file, InputLimits.DEFAULT), warnings);
                rightKind(layer, face, file.name(), warnings);
                layers.put(face, layer);
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

    /**
     * Reads all design files that a job names, or takes those of the same content that were read before.
     *
     * @param memo what was read before; null for nothing
     * @throws InputException as {@link #of(Job)}
     */
    public static ReadDesign of(@Nullable Memo memo, Job job) throws InputException {
        DesignFiles files = job.design();
        if (files == null) {
            return NONE;
        }
        List<@Nullable SourceFile> all = new ArrayList<>();
        all.add(files.topCopper());
        all.add(files.bottomCopper());
        all.add(files.drill());
        all.add(files.netlist());
        all.add(files.outline());
        long bytes = 0;
        List<String> key = new ArrayList<>();
        for (SourceFile file : all) {
            key.add(file == null ? "" : file.name() + "\n" + file.sha256());
            bytes += file == null ? 0 : 10L * file.size();
        }
        long size = bytes;
        return Memo.<ReadDesign, InputException>of(memo, new Key(key), read -> size, () -> of(job));
    }

    private record Key(List<String> files) {}

    /**
     * Refuses a layer image that says of itself that it is no copper, or is drawn negative (Gerber Layer Format 5.6.3 and
     * 5.6.4: FileFunction, FilePolarity); says a word where it shows the other face.
     */
    private static void rightKind(LayerImage layer, Face face, String file, List<Diagnostic> warnings)
            throws InputException {
        String key = "design." + (face == Face.TOP ? "top" : "bottom") + "_copper";
        List<String> function = layer.fileAttributes().getOrDefault("FileFunction", List.of());
        List<String> polarity = layer.fileAttributes().getOrDefault("FilePolarity", List.of());
        SourceSpan span = SourceSpan.ofFile(file);
        if (!function.isEmpty() && !function.get(0).equals("Copper")) {
            throw new InputException(Diagnostic.of(
                            span,
                            "layer-not-copper",
                            "This layer image says of itself that it is " + String.join(",", function)
                                    + ", and the job names it as " + key + ".")
                    .expecting("Name the file of the copper layer there."));
        }
        if (!polarity.isEmpty() && polarity.get(0).equals("Negative")) {
            throw new InputException(Diagnostic.of(
                            span,
                            "layer-negative",
                            "This layer image says of itself that it is negative: it shows where no copper is.")
                    .expecting("Export the copper layer as a positive image."));
        }
        Face stated = layer.statedFace();
        if (stated != null && stated != face) {
            warnings.add(Diagnostic.of(
                    span,
                    "layer-other-face",
                    "The file says that it shows the " + stated.name().toLowerCase(Locale.ROOT)
                            + " copper, and the job names it as " + key + "; it is read as the job says."));
        }
    }

    private static <T> T kept(Reading<T> reading, List<Diagnostic> warnings) {
        warnings.addAll(reading.warnings());
        return reading.value();
    }
}
