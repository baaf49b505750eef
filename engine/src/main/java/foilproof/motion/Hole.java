package foilproof.motion;

import foilproof.bench.Tool;
import org.jspecify.annotations.Nullable;

/**
 * A place where a cutter makes a round hole: a straight plunge, or a bore by circles or a helix that leave nothing
 * standing in the middle. Strokes at the same place in one tool run are one hole.
 *
 * @param kind how it is made
 * @param run index of the tool run
 * @param side from 1
 * @param xMm centre, blank's frame
 * @param yMm centre, blank's frame
 * @param pathRadiusMm radius of the path of the cutter's axis, 0 for a straight plunge
 * @param deepestMm lowest tip height in the run's own zero
 * @param depthMm how far the tip goes below the nominal foil top, positive
 * @param depthPerTurnMm how far a helix goes down in a turn, mm; the whole depth where it goes down at one place
 * @param strokes how many times the cutter goes in: pecks, or passes
 * @param longestPlungeMm the deepest single straight way down below the foil top without coming up
 * @param cycle whether a canned cycle makes it
 * @param firstSegment index of its first segment
 * @param endSegment one past its last segment; segments of other strokes may lie between
 * @param line physical line of the program where it first goes in
 */
public record Hole(
        Kind kind,
        int run,
        int side,
        double xMm,
        double yMm,
        double pathRadiusMm,
        double deepestMm,
        double depthMm,
        double depthPerTurnMm,
        int strokes,
        double longestPlungeMm,
        boolean cycle,
        int firstSegment,
        int endSegment,
        int line) {
    /** How a hole is made. */
    public enum Kind {
        /** Straight down. */
        PLUNGE,
        /** Down a helix. */
        HELIX,
        /** By circles, each after a step down. */
        CIRCLES
    }

    /**
     * Nominal diameter of the hole at a height, runout left out.
     *
     * @param tool the cutter; its tip must be known
     * @param zMm height in the run's own zero
     * @return mm; 0 where the cutter does not reach that low
     */
    public double diameterAtMm(@Nullable Tool tool, double zMm) {
        if (tool == null || zMm < deepestMm) {
            return 0;
        }
        return 2 * (pathRadiusMm + tool.radiusAtHeightMm(zMm - deepestMm));
    }
}
