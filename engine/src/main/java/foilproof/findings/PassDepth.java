package foilproof.findings;

import foilproof.motion.Segments;
import foilproof.stock.Cut;
import foilproof.stock.PointHistory;

/**
 * Depth that a sideways move takes off over a width that loads its cutter. The replay's largest depth also counts the
 * thin crescent that is left where a path is run again with other chords, a few micrometres beside the earlier one,
 * and the wall of a finishing cut; here the depth is asked at points ahead of the cutter, well within its edge. Short
 * moves count together with those just before them: the point ahead was already met by these.
 */
final class PassDepth {
    private static final double[] ALONG = {0, 0.25, 0.5, 0.75, 1};
    /** Where across the path it is asked, in radii. */
    private static final double[] ACROSS = {-0.6, 0, 0.6};
    /** How far behind the foremost point of the cutter it is asked, in radii. */
    private static final double BEHIND = 0.3;

    private PassDepth() {}

    /**
     * Depth of a pass, mm, at most the largest depth that the replay found.
     *
     * @param segment a feed that moves sideways
     */
    static double mm(Examination x, int segment) {
        Segments s = x.plan().segments();
        RunFacts run = x.run(s.run(segment));
        double engaged = x.engagedMm(segment);
        double length = s.planLengthMm(segment);
        if (run.tool() == null || engaged <= 0 || length < 1e-6) {
            return engaged;
        }
        double r = run.tool().cutRadiusAtHeightMm(0);
        double reach = r - BEHIND * r;
        int first = segment;
        double way = length;
        while (way < BEHIND * r && first > run.run().firstSegment() && s.isFeed(first - 1)) {
            first--;
            way += s.planLengthMm(first);
        }
        double most = 0;
        for (double t : ALONG) {
            double[] p = s.pointAt(segment, t);
            double[] before = s.pointAt(segment, Math.max(0, t - 1e-3));
            double[] after = s.pointAt(segment, Math.min(1, t + 1e-3));
            double dx = after[0] - before[0];
            double dy = after[1] - before[1];
            double d = Math.sqrt(dx * dx + dy * dy);
            if (d == 0) {
                continue;
            }
            for (double across : ACROSS) {
                double aside = across * r;
                double ahead = Math.sqrt(Math.max(0, reach * reach - aside * aside));
                most = Math.max(
                        most,
                        taken(
                                x,
                                run,
                                first,
                                segment,
                                p[0] + (ahead * dx - aside * dy) / d,
                                p[1] + (ahead * dy + aside * dx) / d));
            }
        }
        return Math.min(engaged, most);
    }

    /** What the moves from the first to the last took off at a point, mm. */
    private static double taken(Examination x, RunFacts run, int first, int last, double px, double py) {
        var side = x.board().side(run.side().number());
        double floor = side.surfaceMm(px, py);
        double lowest = Double.POSITIVE_INFINITY;
        for (Cut cut : PointHistory.at(side, px, py).cuts()) {
            if (cut.segment() > last) {
                continue;
            }
            if (cut.segment() < first) {
                floor = Math.min(floor, cut.heightMm());
            } else {
                lowest = Math.min(lowest, cut.heightMm());
            }
        }
        return lowest < floor ? floor - lowest : 0;
    }
}
