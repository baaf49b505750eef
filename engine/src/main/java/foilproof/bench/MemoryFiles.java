package foilproof.bench;

import foilproof.source.SourceFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Files of a folder in memory: for tests, and for the sample jobs that are packed into the program. */
public final class MemoryFiles implements FileAccess {
    private final Map<String, byte[]> files = new TreeMap<>();

    /** Adds or replaces a file from text, UTF-8. */
    public MemoryFiles with(String path, String text) {
        return with(path, text.getBytes(StandardCharsets.UTF_8));
    }

    /** Adds or replaces a file. */
    public MemoryFiles with(String path, byte[] bytes) {
        files.put(path, bytes.clone());
        return this;
    }

    @Override
    public SourceFile read(String path, int maxBytes) throws IOException {
        byte[] bytes = files.get(normal(path));
        if (bytes == null) {
            throw new NoSuchFileException(path);
        }
        if (bytes.length > maxBytes) {
            throw new FileTooLargeException(path, bytes.length, maxBytes);
        }
        return SourceFile.of(path.replace('\\', '/'), bytes);
    }

    @Override
    public boolean inside(String path) {
        String forward = path.replace('\\', '/');
        return !forward.startsWith("/")
                && !forward.matches("[A-Za-z]:.*")
                && !normal(path).startsWith("..");
    }

    @Override
    public List<String> list() {
        return files.keySet().stream().filter(name -> name.indexOf('/') < 0).toList();
    }

    private static String normal(String path) {
        Deque<String> parts = new ArrayDeque<>();
        for (String part : path.replace('\\', '/').split("/", -1)) {
            if (part.equals("..") && !parts.isEmpty() && !parts.getLast().equals("..")) {
                parts.removeLast();
            } else if (!part.isEmpty() && !part.equals(".")) {
                parts.addLast(part);
            }
        }
        return String.join("/", parts);
    }
}
