package foilproof.app.practice;

import foilproof.app.practice.Exercise.Planted;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Certainty;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.report.BoardPictures;
import foilproof.report.FlatPicture;
import foilproof.report.PictureSheet;
import foilproof.report.ReportExtras;
import foilproof.report.ResultDocument;
import foilproof.source.InputException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** One exercise in its folder: started, predicted, checked, repaired. */
public final class Practice {
    /** The most that is ever said of a person. */
    public static final String READY = "Ready for supervised first cut.";

    private static final String MARKER = "exercise.txt";
    /** What came off the machine, in an exercise that begins with a bad board. */
    public static final String PHOTO = "photo.png";

    private static final String RECORD = "predicted.toml";
    private static final double PHOTO_CELL_MM = 0.010;
    private static final int MOST_BYTES = 1 << 20;
    /** A mended board clears at least this share of what the sound one does: depths and cutters may differ. */
    private static final double LEAST_CLEARED = 0.7;

    private final Exercise exercise;
    private final Path folder;

    private Practice(Exercise exercise, Path folder) {
        this.exercise = exercise;
        this.folder = folder;
    }

    /** A step that is not allowed now; the message says why. */
    public static final class RefusedException extends Exception {
        private static final long serialVersionUID = 1L;

        RefusedException(String message) {
            super(message);
        }
    }

    /**
     * What a repair left.
     *
     * @param remaining planted faults that the dry run still sees
     * @param added findings above a note that the planted job did not have
     * @param missing work that the sound job does and the mended one does not
     */
    public record Repair(List<String> remaining, List<String> added, List<String> missing) {}

    /**
     * Writes an exercise into a new or empty folder.
     *
     * @throws RefusedException where there is no such exercise or the folder holds something
     */
    public static Exercise start(String id, Path folder) throws IOException, RefusedException {
        Exercise exercise = Exercises.of(id);
        if (exercise == null) {
            throw new RefusedException("There is no exercise " + id + " (practice lists what is built).");
        }
        Files.createDirectories(folder);
        try (DirectoryStream<Path> there = Files.newDirectoryStream(folder)) {
            if (there.iterator().hasNext()) {
                throw new RefusedException(folder + " is not empty: nothing is overwritten.");
            }
        }
        for (Map.Entry<String, String> file : Planter.given(exercise.id()).entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
        }
        if (exercise.afterTheFact()) {
            for (Map.Entry<String, byte[]> picture : photos(exercise).entrySet()) {
                Files.write(folder.resolve(picture.getKey()), picture.getValue());
            }
        }
        Files.writeString(folder.resolve(Answer.FILE), Answer.form(exercise));
        Files.writeString(folder.resolve(MARKER), exercise.id() + "\n" + exercise.story() + "\n");
        return exercise;
    }

    /**
     * Opens an exercise's folder.
     *
     * @throws RefusedException where the folder holds none
     */
    public static Practice open(Path folder) throws IOException, RefusedException {
        Path marker = folder.resolve(MARKER);
        Exercise exercise = Files.isRegularFile(marker)
                ? Exercises.of(text(marker).lines().findFirst().orElse(""))
                : null;
        if (exercise == null) {
            throw new RefusedException(folder + " holds no exercise: begin with practice start E1 --out DIR.");
        }
        return new Practice(exercise, folder);
    }

    /** The exercise. */
    public Exercise exercise() {
        return exercise;
    }

    /** Its folder. */
    public Path folder() {
        return folder;
    }

    /**
     * Records the answer; it cannot be changed afterwards.
     *
     * @throws RefusedException where one is recorded already
     * @throws Answer.NotFilledInException where the answer is not filled in
     */
    public Answer predict() throws IOException, RefusedException, Answer.NotFilledInException {
        Path record = folder.resolve(RECORD);
        if (Files.exists(record)) {
            throw new RefusedException("Your prediction is recorded already: practice check " + folder);
        }
        Path file = folder.resolve(Answer.FILE);
        if (!Files.isRegularFile(file)) {
            throw new RefusedException("answer.toml is missing.");
        }
        String text = text(file);
        Answer answer = Answer.read(text, exercise);
        Files.writeString(record, text);
        return answer;
    }

    /**
     * The recorded answer.
     *
     * @throws RefusedException where nothing was predicted yet
     */
    public Answer recorded() throws IOException, RefusedException, Answer.NotFilledInException {
        Path record = folder.resolve(RECORD);
        if (!Files.isRegularFile(record)) {
            throw new RefusedException("Predict first: fill in answer.toml, then practice predict " + folder);
        }
        return Answer.read(text(record), exercise);
    }

    /**
     * The score counts for the job as it was planted.
     *
     * @throws RefusedException where a file was changed
     */
    public void mustBeUntouched() throws IOException, RefusedException {
        for (Map.Entry<String, String> file : Planter.given(exercise.id()).entrySet()) {
            Path path = folder.resolve(file.getKey());
            if (!Files.isRegularFile(path) || !text(path).replace("\r\n", "\n").equals(file.getValue())) {
                throw new RefusedException(
                        file.getKey() + " is not as it was planted: a mended job is for practice repair.");
            }
        }
    }

    /** Facts of the bench that the job file no longer states, and limits that were changed. */
    public List<String> changedFacts() throws IOException, RefusedException {
        Path job = folder.resolve("job.toml");
        if (!Files.isRegularFile(job)) {
            throw new RefusedException("job.toml is missing.");
        }
        List<String> lines = text(job).lines().map(String::strip).toList();
        List<String> changed = new ArrayList<>();
        for (String fact : exercise.facts()) {
            if (!lines.contains(fact)) {
                changed.add(fact);
            }
        }
        if (lines.contains("[limits]")) {
            changed.add("[limits]");
        }
        return changed;
    }

    /** The job without its fault, as the planter has it. */
    public JobSource sound() {
        return memory(exercise, true);
    }

    /** The job that is checked: the folder's own; after the fact the one that really ran, which no file tells. */
    public JobSource checked() {
        return exercise.afterTheFact()
                ? memory(exercise, false)
                : new JobSource(new foilproof.bench.DiskFiles(folder), JobSource.JOB_FILE);
    }

    private static JobSource memory(Exercise exercise, boolean sound) {
        MemoryFiles files = new MemoryFiles();
        for (Map.Entry<String, String> file :
                Planter.files(exercise.id(), sound).entrySet()) {
            files = files.with(file.getKey(), file.getValue());
        }
        return new JobSource(files, JobSource.JOB_FILE);
    }

    /** The finished board as it came off the machine, whole and close up at the left, in the middle, at the right. */
    private static Map<String, byte[]> photos(Exercise exercise) {
        try {
            DryRunResult r = DryRun.run(
                    memory(exercise, false),
                    ReadOptions.DEFAULT,
                    new ExamineOptions(PHOTO_CELL_MM, 1, (what, fraction) -> true));
            ReportExtras seen = BoardPictures.of(r.examination(), List.of());
            Map<String, byte[]> all = new java.util.TreeMap<>();
            all.put(PHOTO, PictureSheet.png(seen.pictures().get(0)));
            String[] names = {"photo-left.png", "photo-middle.png", "photo-right.png"};
            double[] x = {6, 23, 53};
            for (int i = 0; i < names.length; i++) {
                FlatPicture near = seen.closeUps()
                        .of(Finding.of("place", Severity.NOTE, Certainty.GEOMETRY)
                                .says("a place")
                                .side(1)
                                .at(x[i], 20)
                                .build());
                if (near != null) {
                    all.put(names[i], PictureSheet.png(near));
                }
            }
            return all;
        } catch (InputException e) {
            throw new IllegalStateException("the planter's own job cannot be read", e);
        }
    }

    /**
     * Judges a mended job.
     *
     * @param mended what the dry run says of it
     * @param sound what the dry run says of {@link #sound()}: a board that lost its work is no repair
     */
    public Repair judge(ResultDocument mended, ResultDocument sound) {
        Set<String> kinds = new TreeSet<>();
        collect(mended.findings(), kinds);
        List<String> remaining = new ArrayList<>();
        Set<String> known = new TreeSet<>();
        for (Planted fault : exercise.planted()) {
            known.addAll(fault.kinds());
            if (fault.kinds().stream().anyMatch(kinds::contains)) {
                remaining.add(fault.cause());
            }
        }
        kinds.removeAll(known);
        return new Repair(remaining, List.copyOf(kinds), missing(mended, sound));
    }

    private static List<String> missing(ResultDocument mended, ResultDocument sound) {
        List<String> missing = new ArrayList<>();
        if (mended.holes().size() < sound.holes().size()) {
            missing.add(mended.holes().size() + " holes of " + sound.holes().size());
        }
        for (int i = 0; i < sound.sides().size(); i++) {
            double wanted = sound.sides().get(i).clearedMm2();
            double made = i < mended.sides().size() ? mended.sides().get(i).clearedMm2() : 0;
            if (made < LEAST_CLEARED * wanted) {
                missing.add(String.format(
                        Locale.ROOT, "side %d: %.1f mm2 of copper cleared of about %.1f", i + 1, made, wanted));
            }
        }
        return missing;
    }

    private static void collect(List<Finding> findings, Set<String> into) {
        for (Finding finding : findings) {
            if (finding.severity().atLeast(Severity.WATCH)) {
                into.add(finding.kind());
            }
            collect(finding.consequences(), into);
        }
    }

    private static String text(Path file) throws IOException {
        if (Files.size(file) > MOST_BYTES) {
            throw new IOException(file + " is larger than any should be");
        }
        return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    }
}
