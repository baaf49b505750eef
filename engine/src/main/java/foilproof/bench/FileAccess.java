package foilproof.bench;

import foilproof.source.SourceFile;
import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.util.List;

/** How files of a job's folder are reached: a disk, or memory in tests. */
public interface FileAccess {
    /**
     * Reads a file. The name of what is returned is {@code path} with forward slashes.
     *
     * @param path relative to the job's folder, or absolute or leading outside where the caller allows it
     * @throws NoSuchFileException where there is none
     * @throws FileTooLargeException where it is larger than the limit
     * @throws IOException where it cannot be read, a folder included
     */
    SourceFile read(String path, int maxBytes) throws IOException;

    /** Whether a path, with links followed, stays inside the job's folder. A missing file is judged by its text. */
    boolean inside(String path);

    /** Names of the plain files directly in the job's folder, sorted by code point. */
    List<String> list() throws IOException;

    /** A file was larger than the limit. */
    final class FileTooLargeException extends IOException {
        private static final long serialVersionUID = 1L;

        public FileTooLargeException(String path, long bytes, int maxBytes) {
            super(path + " has " + bytes + " bytes, more than the limit of " + maxBytes);
        }
    }
}
