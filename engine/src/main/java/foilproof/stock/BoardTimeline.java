package foilproof.stock;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The whole board at any moment. Keyframes of a run are made when a moment in it is first asked for; asking is safe
 * from several threads.
 */
public final class BoardTimeline {
    private final BoardStock stock;
    private final int keyframes;
    private final Map<Integer, Timeline> timelines = new HashMap<>();

    /**
     * The timeline of a board.
     *
     * @param keyframes keyframes of each run, see {@link Timeline#KEYFRAMES}
     */
    public BoardTimeline(BoardStock stock, int keyframes) {
        this.stock = stock;
        this.keyframes = keyframes;
    }

    /**
     * The board at a moment: runs that have ended whole, the one under way up to the moment, none that has not begun.
     *
     * @param timeS seconds since the job's start
     * @param conditions the conditions
     */
    public ComposedBoard at(double timeS, Conditions conditions) {
        List<SideStock> sides = new ArrayList<>();
        for (SideStock side : stock.sides()) {
            List<RunCut> runs = new ArrayList<>();
            for (RunCut run : side.runs()) {
                CutPath path = run.envelope().path();
                if (path.size() > 0 && path.startS(0) <= timeS) {
                    boolean ended = path.endS(path.size() - 1) <= timeS;
                    Envelope envelope = ended ? run.envelope() : timeline(run).at(timeS);
                    runs.add(
                            new RunCut(run.run(), envelope, run.zero(), run.zeroRun(), run.touchXMm(), run.touchYMm()));
                }
            }
            sides.add(new SideStock(side.number(), side.turned(), side.surface(), side.tapeMm(), runs));
        }
        return new BoardStock(stock.blank(), sides).under(conditions);
    }

    private Timeline timeline(RunCut run) {
        synchronized (timelines) {
            return timelines.computeIfAbsent(run.run(), k -> Timeline.of(run.envelope(), keyframes));
        }
    }
}
