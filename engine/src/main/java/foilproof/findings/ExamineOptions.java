package foilproof.findings;

import foilproof.stock.Memo;
import org.jspecify.annotations.Nullable;

/**
 * How a job is examined; none of it but the cell and the restart changes a result.
 *
 * @param cellMm edge of the grid's cells, mm
 * @param threads how many threads sweep
 * @param progress told how far the run is
 * @param restart where a program is to be taken up again, or null
 * @param memo what earlier runs worked out and this one may take, and where it leaves its own; null for none
 */
public record ExamineOptions(
        double cellMm,
        int threads,
        Progress progress,
        @Nullable Restart restart,
        @Nullable Memo memo) {
    /** Default cell, mm (performance page: 10 um). */
    public static final double DEFAULT_CELL_MM = 0.01;

    /** Without a restart. */
    public ExamineOptions(double cellMm, int threads, Progress progress) {
        this(cellMm, threads, progress, null, null);
    }

    /** Without a memo. */
    public ExamineOptions(double cellMm, int threads, Progress progress, @Nullable Restart restart) {
        this(cellMm, threads, progress, restart, null);
    }

    /** The same with what earlier runs worked out. */
    public ExamineOptions with(Memo newMemo) {
        return new ExamineOptions(cellMm, threads, progress, restart, newMemo);
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
