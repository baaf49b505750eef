package foilproof.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;

/** Writes results into a folder; each file appears whole or not at all. */
public final class ReportFiles {
    private static final int MOST_ATTEMPTS = 100;

    private ReportFiles() {}

    /**
     * Writes {@code result.json}, {@code findings.sarif}, {@code report.html} and each picture as {@code NAME.png}; makes
     * the folder where it is missing; files of the same names are replaced.
     *
     * @return what was written, in that order
     * @throws IOException where the folder cannot be made or written
     */
    public static List<Path> write(Path folder, ResultDocument result, ReportExtras extras) throws IOException {
        Files.createDirectories(folder);
        Painted painted = new Painted();
        List<Path> written = new ArrayList<>();
        written.add(put(folder.resolve("result.json"), bytes(ResultJson.write(result))));
        written.add(put(folder.resolve("findings.sarif"), bytes(SarifJson.write(result))));
        written.add(put(folder.resolve("report.html"), bytes(HtmlReport.write(result, extras, painted))));
        for (FlatPicture picture : extras.pictures()) {
            written.add(put(folder.resolve(picture.name() + ".png"), painted.png(picture)));
        }
        return List.copyOf(written);
    }

    /**
     * Writes a file under a temporary name beside its place and moves it there.
     *
     * @return the file
     * @throws IOException where it cannot be written; nothing half-written is left
     */
    public static Path put(Path file, byte[] content) throws IOException {
        Path temporary = reserve(file);
        try {
            Files.write(temporary, content);
            try {
                Files.move(temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(temporary, file, StandardCopyOption.REPLACE_EXISTING);
            }
        } finally {
            Files.deleteIfExists(temporary);
        }
        return file;
    }

    /** Makes an empty file beside {@code file}; not {@code createTempFile}, which only its owner could read. */
    private static Path reserve(Path file) throws IOException {
        for (int attempt = 0; ; attempt++) {
            Path candidate = file.resolveSibling("." + file.getFileName() + "." + attempt + ".part");
            try {
                return Files.createFile(candidate);
            } catch (FileAlreadyExistsException e) {
                if (attempt == MOST_ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
