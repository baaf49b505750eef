package foilproof.findings;

/**
 * How a job is examined; none of it but the cell changes a result.
 *
 * @param cellMm edge of the grid's cells, mm
 * @param threads how many threads sweep
 * @param progress told how far the run is
 */
public record ExamineOptions(double cellMm, int threads, Progress progress) {
    /** Default cell, mm (performance page: 10 um). */
    public static final double DEFAULT_CELL_MM = 0.01;
}
