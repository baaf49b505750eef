package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.bench.XyMm;
import foilproof.copper.CopperMap;
import foilproof.copper.SideField;
import foilproof.motion.MotionPlan;
import foilproof.motion.MotionPlanner;
import foilproof.motion.ProbeModel;
import foilproof.motion.Segments;
import foilproof.stock.BoardStock;
import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.Conditions;
import java.util.OptionalDouble;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Answers probing moves from what was cut before them: the cutter trips where its shape first meets the composed surface,
 * when the copper that it touches is joined to the clip (or no clip is named). What was swept for one answer serves the next, as long as
 * nothing is cut between them.
 */
final class StockProbe implements MotionPlanner.ProbeOracle {
    private static final int STEPS = 256;
    private static final int HALVINGS = 30;
    /** Rings of points that stand for a cutter's lower end, and points on each. */
    private static final int RINGS = 6;

    private static final int ROUND = 16;
    /** How far up its flank a cutter is looked at, mm. */
    private static final double FLANK_MM = 0.4;

    private final BiFunction<MotionPlan, Integer, BoardStock> sweptBefore;
    private final Function<MotionPlan, Conditions> conditions;
    private final Function<Integer, @Nullable XyMm> clipOfSide;
    private final Function<ProbeModel.ProbeMove, @Nullable Tool> cutter;
    private int cutsSeen = -1;
    private @Nullable ComposedBoard board;
    private @Nullable CopperMap map;
    private int mappedSide;

    /**
     * A probe.
     *
     * @param sweptBefore the stock that the segments before an index leave
     * @param conditions the conditions asked for
     * @param clipOfSide where the clip sits on a side, from 1; null where none is named
     * @param cutter the cutter that probes; null where it is not known: the tip alone is looked at
     */
    StockProbe(
            BiFunction<MotionPlan, Integer, BoardStock> sweptBefore,
            Function<MotionPlan, Conditions> conditions,
            Function<Integer, @Nullable XyMm> clipOfSide,
            Function<ProbeModel.ProbeMove, @Nullable Tool> cutter) {
        this.sweptBefore = sweptBefore;
        this.conditions = conditions;
        this.clipOfSide = clipOfSide;
        this.cutter = cutter;
    }

    @Override
    public OptionalDouble tripsAt(MotionPlan plan, int segment, ProbeModel.ProbeMove move) {
        int cuts = cutsBefore(plan, segment);
        ComposedBoard now = board;
        if (now == null || cuts != cutsSeen) {
            now = sweptBefore.apply(plan, segment).under(conditions.apply(plan));
            board = now;
            cutsSeen = cuts;
            map = null;
        }
        ComposedSide side = now.side(move.side());
        double[] shape = shape(cutter.apply(move));
        OptionalDouble met = meets(side, move, shape);
        XyMm clip = clipOfSide.apply(move.side());
        if (met.isEmpty() || clip == null) {
            return met;
        }
        double f = met.getAsDouble();
        CopperMap copper = map;
        if (copper == null || mappedSide != move.side()) {
            copper = CopperMap.of(new SideField(now, move.side()), 0);
            map = copper;
            mappedSide = move.side();
        }
        int joined = copper.pieceAt(clip.xMm(), clip.yMm());
        for (int k = 0; joined >= 0 && k < shape.length; k += 3) {
            double px = at(move.fromXMm(), move.toXMm(), f) + shape[k];
            double py = at(move.fromYMm(), move.toYMm(), f) + shape[k + 1];
            if (touches(side, move, f, shape, k) && copper.pieceAt(px, py) == joined) {
                return met;
            }
        }
        return OptionalDouble.empty();
    }

    private static double at(double from, double to, double f) {
        return from + (to - from) * f;
    }

    /** Points of a cutter's lower end: offsets in X and Y, and how far above the tip they stand, mm. */
    private static double[] shape(@Nullable Tool tool) {
        if (tool == null) {
            return new double[3];
        }
        double flat = tool.tipFlatRadiusMm();
        double[] points = new double[3 * (1 + RINGS * ROUND)];
        int n = 3;
        for (int ring = 1; ring <= RINGS; ring++) {
            // half the tip's flat, its edge, then up the flank
            double lift = ring <= 2 ? 0 : FLANK_MM * (ring - 2) / (RINGS - 2);
            double r = ring == 1 ? flat / 2 : ring == 2 ? flat : tool.radiusAtHeightMm(lift);
            for (int k = 0; k < ROUND; k++) {
                double a = 2 * Math.PI * k / ROUND;
                points[n++] = r * StrictMath.cos(a);
                points[n++] = r * StrictMath.sin(a);
                points[n++] = lift;
            }
        }
        return points;
    }

    /** How many moves before a segment go below the nominal foil top at a feed. */
    private static int cutsBefore(MotionPlan plan, int segment) {
        Segments s = plan.segments();
        int count = 0;
        for (int i = 0; i < segment; i++) {
            if (s.isFeed(i)) {
                count++;
            }
        }
        return count;
    }

    /** Where the cutter first meets the surface along the move, as a fraction of it. */
    private static OptionalDouble meets(ComposedSide side, ProbeModel.ProbeMove move, double[] shape) {
        double before = 0;
        for (int k = 0; k <= STEPS; k++) {
            double at = (double) k / STEPS;
            if (below(side, move, at, shape)) {
                double low = before;
                double high = at;
                for (int i = 0; i < HALVINGS && k > 0; i++) {
                    double mid = (low + high) / 2;
                    if (below(side, move, mid, shape)) {
                        high = mid;
                    } else {
                        low = mid;
                    }
                }
                return OptionalDouble.of(high);
            }
            before = at;
        }
        return OptionalDouble.empty();
    }

    private static boolean below(ComposedSide side, ProbeModel.ProbeMove move, double f, double[] shape) {
        if (at(move.fromZMm(), move.toZMm(), f) - move.foilTopMm() > side.highestMm() + 1e-9) {
            return false;
        }
        for (int k = 0; k < shape.length; k += 3) {
            if (touches(side, move, f, shape, k)) {
                return true;
            }
        }
        return false;
    }

    /** Whether a point of the cutter's lower end is at or below the surface. */
    private static boolean touches(ComposedSide side, ProbeModel.ProbeMove move, double f, double[] shape, int k) {
        double x = at(move.fromXMm(), move.toXMm(), f) + shape[k];
        double y = at(move.fromYMm(), move.toYMm(), f) + shape[k + 1];
        double z = at(move.fromZMm(), move.toZMm(), f) + shape[k + 2] - move.foilTopMm();
        boolean onBlank = x >= 0 && y >= 0 && x <= move.blankWidthMm() && y <= move.blankHeightMm();
        return onBlank && z <= side.exactHeightMm(x, y);
    }
}
