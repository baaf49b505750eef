package foilproof.motion;

import java.util.List;

/**
 * A closed way round something, in one or several passes one below the other: an outline, an inside cut, an isolation
 * groove round a piece of copper.
 *
 * @param run index of the tool run
 * @param side from 1
 * @param strokes the passes, in time order, as indexes into {@link Toolpaths#strokes()}
 * @param deepestMm lowest tip height in the run's own zero
 * @param depthMm how far the tip goes below the nominal foil top, positive
 * @param deepestStepMm the largest step down from one pass to the next (the first from the foil top), mm
 * @param extents the box round the path
 * @param areaMm2 area that the path encloses, mm2
 * @param lengthMm length of one pass in plan view
 * @param tabs where the last pass rises, in the order of the path
 * @param closedByGaps whether it is a ring of cuts with uncut gaps between, the gaps being its tabs
 */
public record CutLoop(
        int run,
        int side,
        List<Integer> strokes,
        double deepestMm,
        double depthMm,
        double deepestStepMm,
        Extents extents,
        double areaMm2,
        double lengthMm,
        List<Tab> tabs,
        boolean closedByGaps) {
    /** Copies the lists. */
    public CutLoop {
        strokes = List.copyOf(strokes);
        tabs = List.copyOf(tabs);
    }

    /**
     * A stretch of a loop where the path of the cutter's axis stays higher than its deepest, or is interrupted.
     *
     * @param xMm its middle, blank's frame
     * @param yMm its middle, blank's frame
     * @param pathMm length of the stretch along the path; the bridge that is left is a cutter's diameter shorter where
     *     the cutter goes straight up and down
     * @param lowestMm lowest tip height on the stretch in the run's own zero; infinite where the cutter lifts clear
     * @param segment index of the segment in its middle
     */
    public record Tab(double xMm, double yMm, double pathMm, double lowestMm, int segment) {}
}
