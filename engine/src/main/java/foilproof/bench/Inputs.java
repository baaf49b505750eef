package foilproof.bench;

import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Reads the files that a job names, each once, and keeps them for the list of inputs. */
final class Inputs {
    private final FileAccess files;
    private final ReadOptions options;
    private final Problems problems;
    private final Map<String, SourceFile> read = new LinkedHashMap<>();
    private long bytes;

    Inputs(FileAccess files, ReadOptions options, Problems problems) {
        this.files = files;
        this.options = options;
        this.problems = problems;
    }

    void add(SourceFile file) {
        read.put(file.name(), file);
    }

    List<SourceFile> all() {
        return List.copyOf(read.values());
    }

    /** The file that a key names, or null where the key is absent or the file cannot be read (told). */
    @Nullable
    SourceFile file(Keys keys, String key, String example, int maxBytes) {
        String path = keys.string(key, example);
        return path == null ? null : file(path, keys.at(key), keys.full(key), maxBytes);
    }

    /** A file, or null where it cannot be read (told at {@code span}). */
    @Nullable
    SourceFile file(String path, SourceSpan span, String what, int maxBytes) {
        SourceFile known = read.get(path.replace('\\', '/'));
        if (known != null) {
            return known;
        }
        String shown = Keys.shortened(path);
        if (path.indexOf('\0') >= 0) {
            problems.add(span, "bad-path", what + " holds a zero character.", "Expected the name of a file.", null);
            return null;
        }
        if (!options.allowOutside() && !files.inside(path)) {
            problems.add(
                    span,
                    "outside",
                    what + " = \"" + shown + "\" lies outside the job's folder.",
                    "Copy the file into the folder, or allow it with --allow-outside.",
                    null);
            return null;
        }
        try {
            SourceFile file = files.read(path, maxBytes);
            bytes += file.size();
            if (bytes > 4L * options.limits().fileBytes()) {
                problems.add(
                        span,
                        "file-too-large",
                        "The files of the job are too large together.",
                        "At most " + 4L * options.limits().fileBytes() + " bytes are read.",
                        null);
                return null;
            }
            read.put(file.name(), file);
            return file;
        } catch (FileAccess.FileTooLargeException e) {
            problems.add(span, "file-too-large", e.getMessage() + ".", null, null);
        } catch (NoSuchFileException e) {
            problems.add(
                    span,
                    "missing-file",
                    what + " = \"" + shown + "\": there is no such file.",
                    "Expected a file in the job's folder.",
                    nearestFile(path));
        } catch (IOException e) {
            problems.add(
                    span,
                    "unreadable-file",
                    what + " = \"" + shown + "\" cannot be read: it is no plain file or " + "access is refused.",
                    "Expected a file in the job's folder.",
                    null);
        }
        return null;
    }

    /** Another file of the folder with nearly this name. */
    private @Nullable String nearestFile(String path) {
        List<String> names = new ArrayList<>();
        try {
            names.addAll(files.list());
        } catch (IOException e) {
            return null;
        }
        return Spelling.nearest(path, names);
    }

    InputLimits limits() {
        return options.limits();
    }
}
