package foilproof.findings;

import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import foilproof.motion.ToolRun;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * One tool run joined with what stands on the table for it.
 *
 * @param run the run
 * @param tool the cutter in the collet, its tip read one way; null where it is not known
 * @param side the side it works on
 * @param entry the program entry in which it begins
 * @param zeroMm height of its Z zero in the blank's frame, Z errors not in it, mm
 * @param zErrorMm Z error asked by a what-if, mm, + = really deeper
 * @param nominalZeroMm where its Z zero lies when nothing is cut or bowed: 0, or minus thickness and tape, mm
 */
public record RunFacts(
        ToolRun run,
        @Nullable Tool tool,
        Side side,
        ProgramEntry entry,
        double zeroMm,
        double zErrorMm,
        double nominalZeroMm) {
    /** The cutter's name for people and results. */
    public String toolName() {
        return tool != null ? tool.name() : run.toolNumber() > 0 ? "T" + run.toolNumber() : "unknown tool";
    }

    /** The cutter's name in a sentence: as the job writes it, in quotation marks. */
    public String quotedName() {
        return tool != null ? Words.quoted(tool.name()) : toolName();
    }

    /** The cutter, for checks that only look at runs whose cutter is known. */
    public Tool knownTool() {
        return Objects.requireNonNull(tool, "a check asked an unknown cutter for its shape");
    }

    /** Height in the blank's frame of a tip height in the run's own zero, mm. */
    public double blankFromRunMm(double zMm) {
        return zMm + zeroMm - zErrorMm;
    }

    /** Depth below the run's own zero (below the nominal foil top), mm, positive down, Z error in it. */
    public double depthMm(double zMm) {
        return -(zMm + nominalZeroMm) + zErrorMm;
    }

    /** Whether the run's zero lies on the spoil board. */
    public boolean zeroOnSpoilBoard() {
        return entry.zZero() == ZZero.SPOIL_BOARD;
    }
}
