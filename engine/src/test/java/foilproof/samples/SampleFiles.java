package foilproof.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;

/** Writes the generated files of every sample below a folder; see DEVELOPERS.md for the command. */
public final class SampleFiles {
    private SampleFiles() {}

    /** Writes them below {@code args[0]}, the folder {@code sample-jobs}. */
    public static void main(String[] args) throws IOException {
        for (SampleJob job : SampleJob.all()) {
            Path folder = Path.of(args[0]).resolve(job.folder());
            Files.createDirectories(folder);
            for (Map.Entry<String, String> file : job.files().entrySet()) {
                Files.writeString(folder.resolve(file.getKey()), file.getValue(), StandardCharsets.UTF_8);
            }
        }
    }
}
