package foilproof.motion;

import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import foilproof.language.PathMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Draws a motion plan by hand, without program text: for studies that ask "what if the cutter went here", and for
 * tests. Coordinates as in {@link Segments}; lines count up by one a move.
 */
public final class PathSketch {
    private final SegmentsBuilder out = new SegmentsBuilder(64);
    private final List<RunDraft> runs = new ArrayList<>();
    private final Timing timing;
    private double x;
    private double y;
    private double z = JobPlanning.START_HEIGHT_MM;
    private double feedMmPerMin = 300;
    private int line;

    /** A sketch on a machine with 2500 mm/min rapids and 250 mm/s2. */
    public PathSketch() {
        timing = new Timing(out, new MachineLimits(2500, 2500, 2500, Double.POSITIVE_INFINITY, 250, 100));
    }

    /** Begins a tool run with its own touch-off on the foil at (0, 0), the cutter 5 mm above. */
    public PathSketch run(int side, @Nullable Tool tool) {
        return run(side, tool, ZZero.FOIL, 0, 0);
    }

    /** Begins a tool run with its own touch-off at a place, the cutter 5 mm above the zero there. */
    public PathSketch run(int side, @Nullable Tool tool, ZZero zero, double touchXMm, double touchYMm) {
        close();
        RunDraft draft = new RunDraft(runs.size(), side, 0, out.size, zero, touchXMm, touchYMm, true, 0, 0);
        draft.tool = tool;
        draft.intendedTool = tool;
        draft.toolNumber = tool == null ? 0 : tool.number().orElse(0);
        runs.add(draft);
        x = touchXMm;
        y = touchYMm;
        z = JobPlanning.START_HEIGHT_MM;
        return this;
    }

    /** Sets the feed of the moves that follow, mm/min. */
    public PathSketch feed(double mmPerMin) {
        feedMmPerMin = mmPerMin;
        return this;
    }

    /** A rapid in a straight line. */
    public PathSketch rapidTo(double xMm, double yMm, double zMm) {
        return add(SegmentKind.RAPID, xMm, yMm, zMm);
    }

    /** A feed move in a straight line. */
    public PathSketch feedTo(double xMm, double yMm, double zMm) {
        return add(SegmentKind.FEED, xMm, yMm, zMm);
    }

    /** An arc or helix about a centre by a signed turn (counter-clockwise positive), ending at height {@code zMm}. */
    public PathSketch arc(double cxMm, double cyMm, double sweepRad, double zMm) {
        double c = StrictMath.cos(sweepRad);
        double s = StrictMath.sin(sweepRad);
        double rx = x - cxMm;
        double ry = y - cyMm;
        boolean full = Math.abs(Math.abs(sweepRad) - 2 * Math.PI) < 1e-12;
        double ex = full ? x : cxMm + rx * c - ry * s;
        double ey = full ? y : cyMm + rx * s + ry * c;
        int i = append(SegmentKind.FEED, ex, ey, zMm);
        out.cxMm[i] = cxMm;
        out.cyMm[i] = cyMm;
        out.sweepRad[i] = sweepRad;
        return this;
    }

    private PathSketch add(SegmentKind kind, double xMm, double yMm, double zMm) {
        if (xMm == x && yMm == y && zMm == z) {
            return this;
        }
        append(kind, xMm, yMm, zMm);
        return this;
    }

    private int append(SegmentKind kind, double xMm, double yMm, double zMm) {
        if (runs.isEmpty()) {
            throw new IllegalStateException("begin a tool run first");
        }
        int i = out.add();
        out.kind[i] = (byte) kind.ordinal();
        out.x0Mm[i] = x;
        out.y0Mm[i] = y;
        out.z0Mm[i] = z;
        out.x1Mm[i] = xMm;
        out.y1Mm[i] = yMm;
        out.z1Mm[i] = zMm;
        out.feedMmPerMin[i] = feedMmPerMin;
        out.spindleRpm[i] = 20_000;
        out.spindleTurn[i] = 1;
        out.pathMode[i] = (byte) PathMode.CONTINUOUS.ordinal();
        out.deviationMm[i] = 0.01f;
        out.line[i] = ++line;
        out.run[i] = runs.size() - 1;
        x = xMm;
        y = yMm;
        z = zMm;
        return i;
    }

    private void close() {
        if (!runs.isEmpty()) {
            runs.get(runs.size() - 1).endSegment = out.size;
        }
    }

    /** The plan so far; it holds no programs. */
    public MotionPlan build() {
        close();
        double t = 0;
        for (RunDraft run : runs) {
            run.startS = t;
            t = timing.run(run.firstSegment, run.endSegment, t);
            run.endS = t;
        }
        Segments segments = out.build();
        List<ToolRun> built = new ArrayList<>();
        for (RunDraft run : runs) {
            double length = 0;
            for (int i = run.firstSegment; i < run.endSegment; i++) {
                length += segments.isFeed(i) ? segments.lengthMm(i) : 0;
            }
            built.add(run.build(length));
        }
        double rapid = 0;
        for (int i = 0; i < segments.size(); i++) {
            rapid += segments.isRapid(i) ? segments.durationS(i) : 0;
        }
        MotionTotals totals = new MotionTotals(t, t - rapid, rapid, 0, 0, 0, timing.feedOnlyS());
        return new MotionPlan(segments, built, List.of(), List.of(), totals, 250, List.of());
    }
}
