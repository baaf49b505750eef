package foilproof.app.practice;

import foilproof.app.practice.Exercise.Planted;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** One exercise in its folder: started, predicted, checked, repaired. */
public final class Practice {
    /** The most that is ever said of a person. */
    public static final String READY = "Ready for supervised first cut.";

    private static final String MARKER = "exercise.txt";
    private static final String RECORD = "predicted.toml";
    private static final int MOST_BYTES = 1 << 20;

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
     */
    public record Repair(List<String> remaining, List<String> added) {}

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
        for (Map.Entry<String, String> file :
                Planter.files(exercise.id(), false).entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
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
        for (Map.Entry<String, String> file :
                Planter.files(exercise.id(), false).entrySet()) {
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

    /** Judges the findings of a mended job. */
    public Repair judge(List<Finding> findings) {
        Set<String> kinds = new TreeSet<>();
        collect(findings, kinds);
        List<String> remaining = new ArrayList<>();
        Set<String> known = new TreeSet<>();
        for (Planted fault : exercise.planted()) {
            known.addAll(fault.kinds());
            if (fault.kinds().stream().anyMatch(kinds::contains)) {
                remaining.add(fault.cause());
            }
        }
        kinds.removeAll(known);
        return new Repair(remaining, List.copyOf(kinds));
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
