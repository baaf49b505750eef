package foilproof.motion;

import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.language.Interpretation;

/**
 * One program entry of the job as it runs.
 *
 * @param index position in {@link MotionPlan#programs()}
 * @param side the side it belongs to
 * @param entry the job's words about it
 * @param interpretation what the interpreter made of its text: canonical commands, errors, notes, modal states
 * @param firstSegment index of its first segment
 * @param endSegment one past its last segment
 * @param firstRun index of the tool run in force at its first segment
 * @param lastRun index of the tool run in force at its end
 * @param startS when it begins, seconds since the job's start
 * @param endS when it ends
 * @param workZeroMachineMm where its work zero lies in machine coordinates, X, Y, Z in mm, the tip's height taken for
 *     the Z axis; NaN where the job does not say where the blank lies
 */
public record PlannedProgram(
        int index,
        Side side,
        ProgramEntry entry,
        Interpretation interpretation,
        int firstSegment,
        int endSegment,
        int firstRun,
        int lastRun,
        double startS,
        double endS,
        MachinePlace workZeroMachineMm) {
    /** The program's file as the job names it. */
    public String file() {
        return entry.file();
    }

    /**
     * A place in machine coordinates.
     *
     * @param xMm mm; NaN where not known
     * @param yMm mm; NaN where not known
     * @param zMm mm; NaN where not known
     */
    public record MachinePlace(double xMm, double yMm, double zMm) {
        /** Nobody knows where. */
        public static final MachinePlace UNKNOWN = new MachinePlace(Double.NaN, Double.NaN, Double.NaN);

        /** Whether it is known. */
        public boolean known() {
            return !Double.isNaN(xMm);
        }
    }
}
