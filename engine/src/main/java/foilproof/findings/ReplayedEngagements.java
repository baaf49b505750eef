package foilproof.findings;

import foilproof.motion.MotionPlan;
import foilproof.stock.ComposedBoard;
import foilproof.stock.Replay;
import foilproof.stock.RunCut;
import foilproof.stock.SideStock;
import org.jspecify.annotations.Nullable;

/** Engagements from the stock's replay of each tool run. */
final class ReplayedEngagements implements Engagements {
    private final MotionPlan plan;
    private final @Nullable Replay[] replays;

    private ReplayedEngagements(MotionPlan plan, @Nullable Replay[] replays) {
        this.plan = plan;
        this.replays = replays;
    }

    static Engagements of(MotionPlan plan, ComposedBoard board, ExamineOptions options) {
        @Nullable Replay[] replays = new Replay[plan.runs().size()];
        for (SideStock side : board.stock().sides()) {
            for (RunCut cut : side.runs()) {
                replays[cut.run()] = Replay.of(options.memo(), board, side.number(), cut.run(), options.threads());
            }
        }
        return new ReplayedEngagements(plan, replays);
    }

    @Override
    public double removedMm3(int segment) {
        Replay replay = replays[plan.segments().run(segment)];
        return replay == null ? 0 : replay.removedMm3(move(segment));
    }

    @Override
    public double depthMm(int segment) {
        Replay replay = replays[plan.segments().run(segment)];
        return replay == null ? 0 : replay.engagedMm(move(segment));
    }

    @Override
    public boolean cutsFoil(int segment) {
        Replay replay = replays[plan.segments().run(segment)];
        return replay != null && replay.removedFoilMm3(move(segment)) > NOTHING_MM3;
    }

    private int move(int segment) {
        return segment - plan.runs().get(plan.segments().run(segment)).firstSegment();
    }
}
