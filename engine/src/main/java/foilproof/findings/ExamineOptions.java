package foilproof.findings;

import org.jspecify.annotations.Nullable;

/**
 * How a job is examined; none of it but the cell and the restart changes a result.
 *
 * @param cellMm edge of the grid's cells, mm
 * @param threads how many threads sweep
 * @param progress told how far the run is
 * @param restart where a program is to be taken up again, or null
 */
public record ExamineOptions(
        double cellMm,
        int threads,
        Progress progress,
        @Nullable Restart restart) {
    /** Default cell, mm (performance page: 10 um). */
    public static final double DEFAULT_CELL_MM = 0.01;

    /** Without a restart. */
    public ExamineOptions(double cellMm, int threads, Progress progress) {
        this(cellMm, threads, progress, null);
    }

    /**
     * Where a program is to be taken up again.
     *
     * @param program its file, as the job names it
     * @param line physical line, from 1
     * @param freshBlank whether the lines before have not run on the blank that lies there
     */
    public record Restart(String program, int line, boolean freshBlank) {}
}
