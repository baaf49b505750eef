package foilproof.motion;

/**
 * What a cutter does between going below the foil top and coming up again: a maximal stretch of feed moves, each with
 * the tip below the nominal foil top somewhere.
 *
 * @param index position in {@link Toolpaths#strokes()}
 * @param run index of the tool run
 * @param firstSegment index of its first segment
 * @param endSegment one past its last segment
 * @param lengthMm length of its path in plan view
 * @param deepestMm lowest tip height in the run's own zero
 * @param depthMm how far the tip goes below the nominal foil top, positive
 * @param extents the box round its path
 * @param vertical whether it goes straight down and up at one place
 * @param closed whether its path comes back to where it first moved sideways, a lead-over included
 */
public record Stroke(
        int index,
        int run,
        int firstSegment,
        int endSegment,
        double lengthMm,
        double deepestMm,
        double depthMm,
        Extents extents,
        boolean vertical,
        boolean closed) {}
