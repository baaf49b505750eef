package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;

/**
 * How fast a cutter takes material off, and how thin its chips get where it takes only part of its width. Figures for the
 * reader, no limits: both follow from the volumes that the replay of the moves removes, over stretches of {@value
 * #STRETCH_MM} mm and more, so that the grid's steps average out (about 2 % of the figure).
 *
 * @param mostMm3PerMin the greatest volume a minute in lateral moves, mm3/min; 0 where there are none
 * @param leastShareInCut the least share of its width that an end mill takes in lateral moves, 0 to 1; 1 for other
 *     shapes, whose width changes with the depth
 */
public record RemovalRate(double mostMm3PerMin, double leastShareInCut) {
    private static final double STRETCH_MM = 1;

    /**
     * Volume a minute, mm3/min: section of the cut times feed (check value P5).
     *
     * @param sectionMm2 section of what is removed, square to the path, mm2
     * @param feedMmPerMin feed, mm/min
     */
    public static double mm3PerMin(double sectionMm2, double feedMmPerMin) {
        return sectionMm2 * feedMmPerMin;
    }

    /**
     * How much thinner than the feed a tooth the thickest chip is (radial chip thinning): 1 / (2 sqrt(k - k^2)) for a
     * share of the width k below one half, else 1 (check value P6).
     *
     * @param shareInCut share of the cutter's width in the material, above 0
     */
    public static double chipThinning(double shareInCut) {
        return shareInCut >= 0.5 ? 1 : 1 / (2 * Math.sqrt(shareInCut - shareInCut * shareInCut));
    }

    /** What a tool does in all its runs. */
    public static RemovalRate of(Examination x, Tool tool) {
        Segments s = x.plan().segments();
        double most = 0;
        double least = 1;
        for (RunFacts run : x.runs()) {
            if (run.tool() == null || !run.tool().name().equals(tool.name())) {
                continue;
            }
            double length = 0;
            double minutes = 0;
            double removed = 0;
            double full = 0;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                double plan = s.planLengthMm(i);
                boolean cuts = s.isFeed(i) && plan > 0 && x.removes(i) && s.feedMmPerMin(i) > 0;
                if (cuts) {
                    length += plan;
                    minutes += plan / s.feedMmPerMin(i);
                    removed += x.removedMm3(i);
                    full += plan * x.engagedMm(i) * tool.diameterMm();
                }
                if (!cuts || length >= STRETCH_MM) {
                    if (length >= STRETCH_MM) {
                        most = Math.max(most, removed / minutes);
                        least = full > 0 ? Math.min(least, removed / full) : least;
                    }
                    length = 0;
                    minutes = 0;
                    removed = 0;
                    full = 0;
                }
            }
        }
        return new RemovalRate(most, tool.shape() == ToolShape.FLAT ? least : 1);
    }
}
