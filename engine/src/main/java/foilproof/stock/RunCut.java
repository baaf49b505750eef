package foilproof.stock;

import foilproof.bench.ZZero;
import foilproof.motion.ToolRun;

/**
 * One tool run as it is composed: its envelope and where its Z zero comes from.
 *
 * @param run index of the run in the job
 * @param envelope what it cuts, in its own Z
 * @param zero what its Z zero was set on
 * @param zeroRun index of the run whose touch-off set the zero in force: itself or an earlier one
 * @param touchXMm where that touch-off was made, frame of the side on which {@code zeroRun} works
 * @param touchYMm as {@code touchXMm}
 */
public record RunCut(int run, Envelope envelope, ZZero zero, int zeroRun, double touchXMm, double touchYMm) {
    /** A run with the zero that the motion plan found. */
    public static RunCut of(ToolRun toolRun, Envelope envelope) {
        return new RunCut(
                toolRun.index(), envelope, toolRun.zZero(), toolRun.zeroRun(), toolRun.touchXMm(), toolRun.touchYMm());
    }

    /** A run touched off on the foil at a place. */
    public static RunCut onFoil(int run, Envelope envelope, double touchXMm, double touchYMm) {
        return new RunCut(run, envelope, ZZero.FOIL, run, touchXMm, touchYMm);
    }

    /** A run touched off on the spoil board. */
    public static RunCut onSpoilBoard(int run, Envelope envelope) {
        return new RunCut(run, envelope, ZZero.SPOIL_BOARD, run, 0, 0);
    }

    /**
     * Where the zero of a run nominally lies above the nominal foil top, mm: what the sweep's headroom counts from.
     *
     * @param zero what it was set on
     * @param thicknessMm of the blank
     * @param tapeMm of the tape below it
     */
    public static double nominalZeroMm(ZZero zero, double thicknessMm, double tapeMm) {
        return zero == ZZero.FOIL ? 0 : -(thicknessMm + tapeMm);
    }
}
