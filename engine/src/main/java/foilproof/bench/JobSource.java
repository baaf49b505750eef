package foilproof.bench;

import java.util.Locale;

/**
 * Where a job is read from.
 *
 * @param files the job's folder
 * @param file name of the job file or of a bare program in that folder
 */
public record JobSource(FileAccess files, String file) {
    /** Name of the job file in a job's folder. */
    public static final String JOB_FILE = "job.toml";

    /** Whether the file is a job file: it ends in {@code .toml}; everything else is a bare program. */
    public boolean isJobFile() {
        return file.toLowerCase(Locale.ROOT).endsWith(".toml");
    }
}
