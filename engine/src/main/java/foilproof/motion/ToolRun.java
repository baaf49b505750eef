package foilproof.motion;

import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import org.jspecify.annotations.Nullable;

/**
 * One cutter in the collet from its touch-off (or its change, where lengths are known) to its removal.
 *
 * @param index position in {@link MotionPlan#runs()}
 * @param side the side it works on, from 1
 * @param tool the cutter that is really in the collet; null where nobody knows
 * @param intendedTool the cutter that the program meant: another than {@code tool} where a what-if put that one into
 *     the collet or the machine ignored a tool change; null where nobody knows
 * @param toolNumber the number by which the program called for it, or the tool's own; 0 where there is none
 * @param firstProgram index of the program in which it begins
 * @param lastProgram index of the last program that it runs through
 * @param firstSegment index of its first segment
 * @param endSegment one past its last segment
 * @param startS when it begins, seconds since the job's start
 * @param endS when it ends
 * @param zZero what its Z zero was set on
 * @param zeroRun index of the run whose touch-off set the Z zero that is in force: itself, or an earlier one where
 *     this run began without touching off
 * @param touchXMm where that touch-off was made, blank's frame of this side: the named place, else the work zero
 * @param touchYMm as {@code touchXMm}
 * @param touchPointNamed whether the job named the place
 * @param cause why it begins with a touch-off, or why not
 * @param lengthsMeasured whether tool lengths are relied on ({@code on_tool_change = "measured"} or {@code "probe"})
 * @param residualZMm how much higher (+) or lower (-) than the program says the tip runs because the length offset
 *     in force at the run's first feed move is not the cutter's true length, relative to the run that set the zero;
 *     already included in the segments' Z; NaN where a length is not known (then 0 was taken)
 * @param workZeroXMm the work zero, blank's frame
 * @param workZeroYMm the work zero, blank's frame
 * @param startLine physical line at which it begins, from 1; 0 at a program's start
 * @param stopInProgram whether the program itself stops (M0, M1, M60) between the tool change and the next move
 * @param cutLengthMm length of its feed moves, mm
 */
public record ToolRun(
        int index,
        int side,
        @Nullable Tool tool,
        @Nullable Tool intendedTool,
        int toolNumber,
        int firstProgram,
        int lastProgram,
        int firstSegment,
        int endSegment,
        double startS,
        double endS,
        ZZero zZero,
        int zeroRun,
        double touchXMm,
        double touchYMm,
        boolean touchPointNamed,
        TouchOffCause cause,
        boolean lengthsMeasured,
        double residualZMm,
        double workZeroXMm,
        double workZeroYMm,
        int startLine,
        boolean stopInProgram,
        double cutLengthMm) {
    /** Name of the cutter in the collet as the job spells it, or "unknown". */
    public String toolName() {
        return tool == null ? "unknown" : tool.name();
    }

    /** Whether the cutter was touched off on the blank or the spoil board when the run began. */
    public boolean touchedOff() {
        return zeroRun == index;
    }

    /** How many segments it has. */
    public int segmentCount() {
        return endSegment - firstSegment;
    }
}
