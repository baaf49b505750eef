package foilproof.bench;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Writes a job file from the programs and design files of a folder, to be checked by a person: faces, extents, tools
 * and the work of each program are worked out, and every guess is marked with the word "guess".
 */
public final class Draft {
    private static final String GUESS = "# guess: ";
    private static final double MARGIN_MM = 5;
    private static final List<String> ENDINGS =
            List.of(".ngc", ".nc", ".gcode", ".gc", ".g", ".tap", ".cnc", ".iso", ".txt");

    private final Map<String, ProgramSketch> programs = new LinkedHashMap<>();
    private final Map<DesignSketch.Kind, SourceFile> design = new EnumMap<>(DesignSketch.Kind.class);
    private final Map<DesignSketch.Kind, DesignSketch> sketches = new EnumMap<>(DesignSketch.Kind.class);
    private final List<String> leftOut = new ArrayList<>();
    private final StringBuilder out = new StringBuilder();

    private Draft() {}

    /**
     * The text of a job file for a folder.
     *
     * @param files the folder
     * @param name what the job is to be called
     * @throws InputException where the folder holds no program
     */
    public static String text(FileAccess files, String name, InputLimits limits) throws InputException {
        Draft draft = new Draft();
        draft.look(files, name, limits);
        draft.write(name);
        return draft.out.toString();
    }

    /**
     * Writes {@code job.toml} into a folder that has none.
     *
     * @return the file written
     * @throws InputException where there is one already, where there is no program, or where it cannot be written
     */
    public static Path writeInto(Path folder, InputLimits limits) throws InputException {
        Path job = folder.resolve(JobSource.JOB_FILE);
        String shown = job.toString().replace('\\', '/');
        if (!Files.isDirectory(folder)) {
            throw new InputException(Diagnostic.of(
                    SourceSpan.ofFile(folder.toString().replace('\\', '/')),
                    "missing-file",
                    "There is no such folder."));
        }
        if (Files.exists(job)) {
            throw exists(shown);
        }
        Path name = folder.toAbsolutePath().normalize().getFileName();
        String text = text(new DiskFiles(folder), name == null ? "job" : name.toString(), limits);
        try {
            Path written = Files.createTempFile(folder, "draft", ".toml");
            try {
                Files.writeString(written, text, StandardCharsets.UTF_8);
                // A link to the finished file appears whole or not at all, and fails where somebody wrote one
                // meanwhile.
                place(written, job);
            } finally {
                Files.deleteIfExists(written);
            }
            return job;
        } catch (FileAlreadyExistsException e) {
            throw exists(shown);
        } catch (IOException e) {
            throw new InputException(
                    Diagnostic.of(SourceSpan.ofFile(shown), "not-written", "The file cannot be written."));
        }
    }

    private static void place(Path written, Path job) throws IOException {
        try {
            Files.createLink(job, written);
        } catch (UnsupportedOperationException e) {
            Files.write(job, Files.readAllBytes(written), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        }
    }

    private static InputException exists(String shown) {
        return new InputException(Diagnostic.of(SourceSpan.ofFile(shown), "exists", "There is a job file already.")
                .expecting("A draft never overwrites one: move it away first."));
    }

    private void look(FileAccess files, String folder, InputLimits limits) throws InputException {
        List<String> names;
        try {
            names = files.list();
        } catch (IOException e) {
            throw new InputException(
                    Diagnostic.of(SourceSpan.ofFile(folder), "unreadable-file", "The folder cannot be read."));
        }
        List<ProgramSketch> found = new ArrayList<>();
        for (String name : names) {
            try {
                SourceFile file = files.read(name, limits.fileBytes());
                DesignSketch sketch = DesignSketch.of(file);
                if (sketch != null) {
                    take(sketch, file);
                } else if (isProgram(file)) {
                    found.add(ProgramSketch.of(file, limits));
                }
            } catch (IOException e) {
                leftOut.add(name + " (cannot be read or is too large)");
            }
        }
        if (found.isEmpty()) {
            throw new InputException(
                    Diagnostic.of(SourceSpan.ofFile(folder), "no-program", "The folder holds no program.")
                            .expecting("Expected files that end in " + String.join(", ", ENDINGS) + "."));
        }
        found.sort(Comparator.<ProgramSketch>comparingInt(p -> order(p)).thenComparing(p -> p.file.name()));
        found.forEach(p -> programs.put(p.file.name(), p));
    }

    private void take(DesignSketch sketch, SourceFile file) {
        if (design.containsKey(sketch.kind())) {
            leftOut.add(file.name() + " (a second " + sketch.kind().key.replace('_', ' ') + ")");
        } else {
            design.put(sketch.kind(), file);
            sketches.put(sketch.kind(), sketch);
        }
    }

    /** Copper before holes before outline: the usual order, which keeps the part held. */
    private static int order(ProgramSketch program) {
        int latest = 0;
        for (ProgramSketch.Use use : program.uses.values()) {
            Work work = use.work();
            latest = Math.max(latest, work == null ? 0 : work == Work.OUTLINE ? 2 : work == Work.BORING ? 1 : 0);
        }
        return latest;
    }

    /** A file with a program's ending whose first lines look like blocks. */
    private static boolean isProgram(SourceFile file) {
        String name = file.name().toLowerCase(Locale.ROOT);
        if (ENDINGS.stream().noneMatch(name::endsWith)) {
            return false;
        }
        String text = file.latin1();
        return text.substring(0, Math.min(20_000, text.length())).matches("(?s).*(^|[\\s\\d])[GgMm]\\s*\\d.*");
    }

    private void write(String name) {
        line(
                "# Draft of a job file. Every line marked \"guess\" must be checked by a person before the job is trusted.");
        leftOut.forEach(file -> line("# left out: " + comment(file)));
        line("job = " + DefaultBench.quoted(name));
        double[] box = extents();
        writeBlank(box);
        writeTools();
        writeSides(box);
        writeDesign(box);
    }

    /** What all programs cut together, in program coordinates: x0, y0, x1, y1. */
    private double[] extents() {
        double[] box = {
            Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY
        };
        for (ProgramSketch p : programs.values()) {
            if (p.cuts()) {
                box[0] = Math.min(box[0], p.x0Mm);
                box[1] = Math.min(box[1], p.y0Mm);
                box[2] = Math.max(box[2], p.x1Mm);
                box[3] = Math.max(box[3], p.y1Mm);
            }
        }
        return box[0] <= box[2] ? box : new double[] {0, 0, 100 - 2 * MARGIN_MM, 80 - 2 * MARGIN_MM};
    }

    private boolean twoSides() {
        boolean top = design.containsKey(DesignSketch.Kind.TOP_COPPER);
        boolean bottom = design.containsKey(DesignSketch.Kind.BOTTOM_COPPER);
        boolean programsOfBoth = programs.keySet().stream().anyMatch(n -> faceOf(n) == Face.TOP)
                && programs.keySet().stream().anyMatch(n -> faceOf(n) == Face.BOTTOM);
        return programsOfBoth || top && bottom && programs.keySet().stream().anyMatch(n -> faceOf(n) != null);
    }

    private Face onlyFace() {
        boolean top = design.containsKey(DesignSketch.Kind.TOP_COPPER)
                || programs.keySet().stream().anyMatch(n -> faceOf(n) == Face.TOP);
        boolean bottom = design.containsKey(DesignSketch.Kind.BOTTOM_COPPER)
                || programs.keySet().stream().anyMatch(n -> faceOf(n) == Face.BOTTOM);
        return top && !bottom ? Face.TOP : Face.BOTTOM;
    }

    private static @Nullable Face faceOf(String file) {
        String name = file.toLowerCase(Locale.ROOT);
        if (name.contains("bot") || name.contains("solder") || name.contains("back")) {
            return Face.BOTTOM;
        }
        return name.contains("top") || name.contains("component") || name.contains("front") ? Face.TOP : null;
    }

    private void writeBlank(double[] box) {
        line("");
        line("[blank]");
        guess("substrate = \"FR-1\"", "measure and look: FR-1, FR-4, CEM-1 or CEM-3");
        guess("thickness = \"unknown\"", "measure it with a caliper, over all");
        guess("foil = \"unknown\"", "0.5 oz (17.4 um) or 1 oz (34.8 um); unknown means that both are judged");
        guess("copper = \"" + (twoSides() ? "both sides" : "one side") + "\"", "from the names of the files");
        guess(
                "width = \"" + mm(Math.ceil(box[2] - box[0] + 2 * MARGIN_MM)) + "\"",
                "5 mm round all that the programs cut");
        guess("height = \"" + mm(Math.ceil(box[3] - box[1] + 2 * MARGIN_MM)) + "\"", "the same");
        guess("hold = \"full tape\"", "full tape, edge clamps or vacuum");
        guess("tape = \"0 mm\"", "thickness of the tape below the blank");
        guess("surface = \"flat\"", "touch it at three places or more where it is not");
        if (programs.values().stream().anyMatch(p -> !p.unitsStated)) {
            line("");
            line("[machine]");
            guess("units = \"unknown\"", "a program moves before it says its units: what does the controller assume?");
        }
    }

    private void writeTools() {
        for (ProgramSketch.Use use : ProgramSketch.allUses(List.copyOf(programs.values()))) {
            if (use.number == 0) {
                continue;
            }
            ProgramSketch.ToolGuess guessed = ProgramSketch.guess(use);
            line("");
            line("[[tool]]");
            guess("name = \"" + toolName(use.number) + "\"", "give it the name you use");
            if (use.number > 0) {
                line("number = " + use.number);
            }
            guess("shape = \"" + guessed.shape().word() + "\"", guessed.why());
            for (String key : guessed.lines()) {
                guess(key, guessed.why());
            }
        }
    }

    private static String toolName(int number) {
        return number < 0 ? "cutter" : "T" + number;
    }

    private void writeSides(double[] box) {
        boolean two = twoSides();
        Face first = two ? Face.BOTTOM : onlyFace();
        writeSide(box, first, first, Turn.NO, two);
        if (two) {
            writeSide(box, first.other(), first, Turn.ABOUT_Y, true);
        }
    }

    private void writeSide(double[] box, Face face, Face first, Turn turned, boolean two) {
        line("");
        line("[[side]]");
        guess("face = \"" + face.word() + "\"", two ? "from the names of the files" : "which copper faces up");
        if (turned != Turn.NO) {
            guess("turned = \"" + turned.word() + "\"", "how the blank is turned over");
        }
        guess(
                "work_zero = [\"" + mm(MARGIN_MM - box[0]) + "\", \"" + mm(MARGIN_MM - box[1]) + "\"]",
                "puts what is cut in the middle of the blank");
        guess("z_zero = \"foil\"", "foil or spoil board");
        line("# touch_off = [\"2 mm\", \"2 mm\"]   # where each cutter is touched off");
        for (ProgramSketch p : programs.values()) {
            Face own = faceOf(p.file.name());
            if (two && (own == null ? first : own) != face) {
                continue;
            }
            line("");
            line("  [[side.program]]");
            line("  file = " + DefaultBench.quoted(p.file.name())
                    + (two && own == null ? "   " + GUESS + "the file does not say its side" : ""));
            if (p.broken) {
                line("  # the program holds an error: run the job to see its place");
            }
            if (p.uses.containsKey(-1)) {
                guess("  tool = \"" + toolName(-1) + "\"", "the program calls none before it cuts");
            }
            Work work = onlyWork(p);
            if (work != null) {
                guess("  work = \"" + work.word() + "\"", "from its depth and shape");
            }
        }
    }

    /** The work of a program whose tools all do the same, or null. */
    private static @Nullable Work onlyWork(ProgramSketch program) {
        Work only = null;
        for (ProgramSketch.Use use : program.uses.values()) {
            Work work = use.work();
            if (work != null && only != null && only != work) {
                return null;
            }
            only = work == null ? only : work;
        }
        return only;
    }

    private void writeDesign(double[] box) {
        if (design.isEmpty()) {
            return;
        }
        line("");
        line("[design]");
        design.forEach((kind, file) -> guess(kind.key + " = " + DefaultBench.quoted(file.name()), "from its contents"));
        DesignSketch reach = null;
        for (DesignSketch sketch : sketches.values()) {
            boolean outline = sketch.kind() == DesignSketch.Kind.OUTLINE;
            if (sketch.reaches() && (reach == null || outline)) {
                reach = sketch;
            }
        }
        if (reach != null) {
            // The middle of the design is put on the middle of what is cut.
            double widthMm = Math.ceil(box[2] - box[0] + 2 * MARGIN_MM);
            double cutXMm = MARGIN_MM + (box[2] - box[0]) / 2;
            double cutYMm = MARGIN_MM + (box[3] - box[1]) / 2;
            boolean bottomFirst = (twoSides() ? Face.BOTTOM : onlyFace()) == Face.BOTTOM;
            double xMm = (bottomFirst ? widthMm - cutXMm : cutXMm) - (reach.x0Mm() + reach.x1Mm()) / 2;
            double yMm = cutYMm - (reach.y0Mm() + reach.y1Mm()) / 2;
            guess(
                    "placed_at = [\"" + mm(xMm) + "\", \"" + mm(yMm) + "\"]",
                    "puts the middle of the design on the middle of what is cut");
        }
        guess("rotated = \"0 deg\"", "0, 90, 180 or 270 deg");
    }

    private void line(String text) {
        out.append(text).append('\n');
    }

    private void guess(String text, String why) {
        out.append(text).append("   ").append(GUESS).append(comment(why)).append('\n');
    }

    private static String comment(String text) {
        return text.replaceAll("\\p{Cntrl}", " ");
    }

    private static String mm(double value) {
        return ProgramSketch.number(value) + " mm";
    }
}
