package foilproof.findings;

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
 * Answers probing moves from what was cut before them: the tip trips where it meets the composed surface, when the
 * copper there is joined to the clip (or no clip is named). What was swept for one answer serves the next, as long as
 * nothing is cut between them.
 */
final class StockProbe implements MotionPlanner.ProbeOracle {
    private static final int STEPS = 256;
    private static final int HALVINGS = 30;

    private final BiFunction<MotionPlan, Integer, BoardStock> sweptBefore;
    private final Function<MotionPlan, Conditions> conditions;
    private final Function<Integer, @Nullable XyMm> clipOfSide;
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
     */
    StockProbe(
            BiFunction<MotionPlan, Integer, BoardStock> sweptBefore,
            Function<MotionPlan, Conditions> conditions,
            Function<Integer, @Nullable XyMm> clipOfSide) {
        this.sweptBefore = sweptBefore;
        this.conditions = conditions;
        this.clipOfSide = clipOfSide;
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
        OptionalDouble met = meets(side, move);
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
        int touched = copper.pieceAt(
                move.fromXMm() + (move.toXMm() - move.fromXMm()) * f,
                move.fromYMm() + (move.toYMm() - move.fromYMm()) * f);
        return touched >= 0 && touched == copper.pieceAt(clip.xMm(), clip.yMm()) ? met : OptionalDouble.empty();
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

    /** Where the tip's centre first meets the surface along the move, as a fraction of it. */
    private static OptionalDouble meets(ComposedSide side, ProbeModel.ProbeMove move) {
        double before = 0;
        for (int k = 0; k <= STEPS; k++) {
            double at = (double) k / STEPS;
            if (below(side, move, at)) {
                double low = before;
                double high = at;
                for (int i = 0; i < HALVINGS && k > 0; i++) {
                    double mid = (low + high) / 2;
                    if (below(side, move, mid)) {
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

    private static boolean below(ComposedSide side, ProbeModel.ProbeMove move, double f) {
        double x = move.fromXMm() + (move.toXMm() - move.fromXMm()) * f;
        double y = move.fromYMm() + (move.toYMm() - move.fromYMm()) * f;
        double z = move.fromZMm() + (move.toZMm() - move.fromZMm()) * f - move.foilTopMm();
        boolean onBlank = x >= 0 && y >= 0 && x <= move.blankWidthMm() && y <= move.blankHeightMm();
        return onBlank && z <= side.exactHeightMm(x, y);
    }
}
