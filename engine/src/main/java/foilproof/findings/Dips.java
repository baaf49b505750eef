package foilproof.findings;

import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * Cuts a tool run into dips: from the move that goes below the foil top to the one that comes back up. A dip without
 * lateral moves is a plunge; one whose lateral moves all circle one centre, and leave no core, is a bore; the rest are
 * grooves, outlines and the like.
 */
final class Dips {
    private static final double LATERAL_MM = 1e-6;
    private static final double ROUND_MM = 0.02;

    private Dips() {}

    /**
     * One dip.
     *
     * @param first its first segment below the foil top
     * @param end one past its last
     * @param deepest the segment that goes deepest
     * @param depthMm depth of the lowest tip below the foil top, mm
     * @param hole whether it is a plunge or a bore
     * @param bored whether it circles
     * @param xMm centre of a hole
     * @param yMm centre of a hole
     * @param pathRadiusMm radius of the circling path, 0 for a plunge, mm
     * @param circledLowMm height to which the circling path comes down all round, blank's frame, mm
     */
    record Dip(
            int first,
            int end,
            int deepest,
            double depthMm,
            boolean hole,
            boolean bored,
            double xMm,
            double yMm,
            double pathRadiusMm,
            double circledLowMm) {}

    /** The dips of a run, in time order. */
    static List<Dip> of(Examination x, RunFacts run) {
        Segments s = x.plan().segments();
        List<Dip> dips = new ArrayList<>();
        int first = -1;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            boolean in = !s.has(i, Segments.POSITION_UNKNOWN)
                    && run.blankFromRunMm(s.has(i, Segments.START_UNKNOWN) ? s.z1Mm(i) : s.lowestMm(i)) < -1e-6;
            if (in && first < 0) {
                first = i;
            }
            boolean ends = first >= 0 && (!in || run.blankFromRunMm(s.z1Mm(i)) >= -1e-6);
            if (ends) {
                int end = in ? i + 1 : i;
                dips.add(dip(s, run, first, end));
                first = -1;
            }
        }
        if (first >= 0) {
            dips.add(dip(s, run, first, run.run().endSegment()));
        }
        return dips;
    }

    private static Dip dip(Segments s, RunFacts run, int first, int end) {
        int deepest = first;
        boolean lateral = false;
        for (int i = first; i < end; i++) {
            if (s.lowestMm(i) < s.lowestMm(deepest) - 1e-9) {
                deepest = i;
            }
            lateral |= s.planLengthMm(i) > LATERAL_MM;
        }
        double depth = -run.blankFromRunMm(s.lowestMm(deepest));
        if (!lateral) {
            return new Dip(
                    first,
                    end,
                    deepest,
                    depth,
                    true,
                    false,
                    s.x1Mm(deepest),
                    s.y1Mm(deepest),
                    0,
                    run.blankFromRunMm(s.lowestMm(deepest)));
        }
        Dip bore = bore(s, run, first, end, deepest, depth);
        return bore != null ? bore : new Dip(first, end, deepest, depth, false, false, Double.NaN, Double.NaN, 0, 0);
    }

    /** The dip as a bore, or null where its lateral moves do not circle one centre. */
    private static @org.jspecify.annotations.Nullable Dip bore(
            Segments s, RunFacts run, int first, int end, int deepest, double depth) {
        if (run.tool() == null) {
            return null;
        }
        double x0 = Double.POSITIVE_INFINITY;
        double y0 = Double.POSITIVE_INFINITY;
        double x1 = Double.NEGATIVE_INFINITY;
        double y1 = Double.NEGATIVE_INFINITY;
        for (int i = first; i < end; i++) {
            double[] box = s.planBox(i);
            x0 = Math.min(x0, box[0]);
            y0 = Math.min(y0, box[1]);
            x1 = Math.max(x1, box[2]);
            y1 = Math.max(y1, box[3]);
        }
        double radius = Math.max(x1 - x0, y1 - y0) / 2;
        double cx = (x0 + x1) / 2;
        double cy = (y0 + y1) / 2;
        double cutRadius = run.tool().cutRadiusAtHeightMm(depth);
        // a wider circle leaves a core: it is an inside cut, not a bore
        if (Math.abs((x1 - x0) - (y1 - y0)) > 2 * ROUND_MM || radius > cutRadius) {
            return null;
        }
        double turned = 0;
        double[] lowOfTurn = lowestTurn(s, run, first, end, cx, cy, radius);
        for (int i = first; i < end; i++) {
            turned += turnAbout(s, i, cx, cy, radius);
        }
        if (Math.abs(turned) < 2 * Math.PI - 0.02) {
            return null;
        }
        return new Dip(first, end, deepest, depth, true, true, cx, cy, radius, lowOfTurn[0]);
    }

    /** Angle about the centre that a segment on the circle turns through, rad; 0 where it is off the circle. */
    private static double turnAbout(Segments s, int i, double cx, double cy, double radius) {
        if (!onCircle(s.x0Mm(i), s.y0Mm(i), cx, cy, radius) || !onCircle(s.x1Mm(i), s.y1Mm(i), cx, cy, radius)) {
            return 0;
        }
        if (s.isArc(i)) {
            return onCircle(s.cxMm(i), s.cyMm(i), cx, cy, 0) ? s.sweepRad(i) : 0;
        }
        double a = StrictMath.atan2(s.y0Mm(i) - cy, s.x0Mm(i) - cx);
        double b = StrictMath.atan2(s.y1Mm(i) - cy, s.x1Mm(i) - cx);
        double turn = b - a;
        if (turn > Math.PI) {
            turn -= 2 * Math.PI;
        } else if (turn < -Math.PI) {
            turn += 2 * Math.PI;
        }
        return turn;
    }

    private static boolean onCircle(double x, double y, double cx, double cy, double radius) {
        return Math.abs(StrictMath.hypot(x - cx, y - cy) - radius) <= ROUND_MM;
    }

    /** Highest height along the last whole turn: so deep is the bore all round, blank's frame, mm. */
    private static double[] lowestTurn(
            Segments s, RunFacts run, int first, int end, double cx, double cy, double radius) {
        double turned = 0;
        double highest = Double.NEGATIVE_INFINITY;
        double best = Double.POSITIVE_INFINITY;
        for (int i = end - 1; i >= first; i--) {
            double turn = Math.abs(turnAbout(s, i, cx, cy, radius));
            if (turn == 0) {
                if (turned == 0) {
                    continue;
                }
                turned = 0;
                highest = Double.NEGATIVE_INFINITY;
                continue;
            }
            double part = Math.min(1, (2 * Math.PI - turned) / turn);
            double zAtPart = s.z1Mm(i) + (s.z0Mm(i) - s.z1Mm(i)) * part;
            highest = Math.max(highest, Math.max(s.z1Mm(i), zAtPart));
            turned += turn;
            if (turned >= 2 * Math.PI - 0.02) {
                best = Math.min(best, highest);
                turned = 0;
                highest = Double.NEGATIVE_INFINITY;
            }
        }
        return new double[] {run.blankFromRunMm(best)};
    }
}
