package foilproof.bench;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Files of a folder on disk. */
public final class DiskFiles implements FileAccess {
    private final Path folder;

    /** Files of {@code folder}. */
    public DiskFiles(Path folder) {
        this.folder = folder.toAbsolutePath().normalize();
    }

    /** The folder, absolute. */
    public Path folder() {
        return folder;
    }

    /**
     * The job at a path: a folder with a {@code job.toml}, a job file, or a bare program.
     *
     * @throws InputException where there is nothing to read
     */
    public static JobSource source(Path job) throws InputException {
        Path path = job.toAbsolutePath().normalize();
        String shown = job.toString().replace('\\', '/');
        if (Files.isDirectory(path)) {
            if (!Files.isRegularFile(path.resolve(JobSource.JOB_FILE))) {
                throw new InputException(Diagnostic.of(
                                SourceSpan.ofFile(shown), "no-job", "The folder holds no " + JobSource.JOB_FILE + ".")
                        .expecting("Write one with: draft " + shown));
            }
            return new JobSource(new DiskFiles(path), JobSource.JOB_FILE);
        }
        Path folder = path.getParent();
        Path name = path.getFileName();
        if (folder == null || name == null || !Files.exists(path)) {
            throw new InputException(Diagnostic.of(SourceSpan.ofFile(shown), "missing-file", "There is no such file.")
                    .expecting("Expected a job file, a folder that holds one, or a program."));
        }
        return new JobSource(new DiskFiles(folder), name.toString());
    }

    @Override
    public SourceFile read(String path, int maxBytes) throws IOException {
        Path file = resolve(path);
        if (!Files.exists(file)) {
            throw new NoSuchFileException(path);
        }
        if (!Files.isRegularFile(file)) {
            throw new IOException(path + " is not a plain file");
        }
        long size = Files.size(file);
        if (size > maxBytes) {
            throw new FileTooLargeException(path, size, maxBytes);
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(maxBytes + 1);
            if (bytes.length > maxBytes) {
                throw new FileTooLargeException(path, bytes.length, maxBytes);
            }
            return SourceFile.of(path.replace('\\', '/'), bytes);
        }
    }

    @Override
    public boolean inside(String path) {
        try {
            Path file = resolve(path);
            if (!file.normalize().startsWith(folder)) {
                return false;
            }
            return !Files.exists(file) || file.toRealPath().startsWith(folder.toRealPath());
        } catch (IOException e) {
            return false;
        }
    }

    @Override
    public List<String> list() throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            List<String> names = new ArrayList<>();
            entries.filter(Files::isRegularFile).forEach(p -> names.add(String.valueOf(p.getFileName())));
            names.sort(null);
            return names;
        }
    }

    private Path resolve(String path) throws IOException {
        try {
            return folder.resolve(path.replace('\\', '/'));
        } catch (InvalidPathException e) {
            throw new IOException("no valid file name: " + e.getReason(), e);
        }
    }
}
