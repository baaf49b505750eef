package foilproof.bench;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;

/** Reads job files: see the contract of the job file in the README. */
public final class JobReader {
    private JobReader() {}

    /**
     * Reads a job file, or puts a bare program on the default bench.
     *
     * @throws InputException where the job cannot be run, with everything that is wrong in the order of the file
     */
    public static Job read(JobSource source, ReadOptions options) throws InputException {
        throw new InputException(Diagnostic.of(SourceSpan.ofFile(source.file()), "not-built", "not built yet"));
    }
}
