package foilproof.app.ui;

import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.Tool;
import foilproof.bench.XyMm;
import foilproof.bench.ZZero;
import foilproof.motion.MotionPlan;
import foilproof.motion.Segments;
import foilproof.motion.ToolRun;
import java.util.ArrayList;
import java.util.List;

/**
 * Where a job cuts its blank, as strokes with a width, each side in its own frame: what decides whether a moved job still
 * fits and where it finds room. Rapids and moves in the air do not count.
 */
final class JobFootprint {
    /** Largest distance between a chord and its arc, mm. */
    private static final double CHORD_MM = 0.02;

    /** One straight stroke: its ends and the cutter's radius at the foil top, mm. */
    record Stroke(double x0Mm, double y0Mm, double x1Mm, double y1Mm, double radiusMm) {}

    private final Job job;
    private final List<List<Stroke>> sides = new ArrayList<>();

    private JobFootprint(Job job) {
        this.job = job;
    }

    /** The strokes of a planned job. */
    static JobFootprint of(Job job, MotionPlan plan) {
        JobFootprint f = new JobFootprint(job);
        job.sides().forEach(s -> f.sides.add(new ArrayList<>()));
        Segments all = plan.segments();
        for (ToolRun run : plan.runs()) {
            Tool tool = run.tool();
            if (tool == null) {
                continue;
            }
            var side = job.sides().get(run.side() - 1);
            double zero = run.zZero() == ZZero.FOIL ? 0 : -(job.blank().thicknessMm() + side.tapeMm());
            for (int i = run.firstSegment(); i < run.endSegment(); i++) {
                double low = all.lowestMm(i) + zero;
                if (!all.isRapid(i) && low < 0 && !all.has(i, Segments.POSITION_UNKNOWN)) {
                    add(f.sides.get(run.side() - 1), all, i, tool.cutRadiusAtHeightMm(-low) + tool.runoutMm() / 2);
                }
            }
        }
        return f;
    }

    private static void add(List<Stroke> to, Segments all, int i, double radius) {
        double[] from = {all.x0Mm(i), all.y0Mm(i)};
        int parts = 1;
        if (all.isArc(i)) {
            double r = Math.max(all.radiusMm(i), 1e-6);
            double half = Math.acos(Math.max(-1, 1 - Math.min(1, CHORD_MM / r)));
            parts = (int) Math.max(1, Math.min(720, Math.ceil(Math.abs(all.sweepRad(i)) / (2 * half))));
        }
        for (int k = 1; k <= parts; k++) {
            double[] p = all.pointAt(i, (double) k / parts);
            to.add(new Stroke(from[0], from[1], p[0], p[1], radius));
            from = p;
        }
    }

    /** Strokes of a side, from 1. */
    List<Stroke> side(int number) {
        return List.copyOf(sides.get(number - 1));
    }

    /** The point about which the job turns: X 0 Y 0 of its first program, on the first side. */
    XyMm pivot() {
        return pivot(job);
    }

    /** The point about which a job turns: X 0 Y 0 of its first program, on the first side. */
    static XyMm pivot(Job job) {
        for (var s : job.sides()) {
            if (!s.programs().isEmpty()) {
                return s.number() == 1
                        ? s.programs().get(0).workZeroMm()
                        : job.sides().get(0).workZeroMm();
            }
        }
        return XyMm.ZERO;
    }

    /** The box of a side's cuts under a move, widths included: x0, y0, x1, y1, mm; null where the side cuts nothing. */
    double @org.jspecify.annotations.Nullable [] box(int number, JobMove move) {
        JobMove here = move.onSide(job, number);
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (Stroke s : sides.get(number - 1)) {
            for (int end = 0; end < 2; end++) {
                XyMm p = here.of(end == 0 ? new XyMm(s.x0Mm, s.y0Mm) : new XyMm(s.x1Mm, s.y1Mm));
                box[0] = Math.min(box[0], p.xMm() - s.radiusMm);
                box[1] = Math.min(box[1], p.yMm() - s.radiusMm);
                box[2] = Math.max(box[2], p.xMm() + s.radiusMm);
                box[3] = Math.max(box[3], p.yMm() + s.radiusMm);
            }
        }
        return box[0] > box[2] ? null : box;
    }

    /** All strokes as seen with the first side up, moved. */
    List<Stroke> seenFromFirst(JobMove move) {
        List<Stroke> seen = new ArrayList<>();
        double wide = job.blank().widthMm();
        double high = job.blank().heightMm();
        boolean mirrorX = false;
        boolean mirrorY = false;
        for (var side : job.sides()) {
            mirrorX ^= side.turned() == foilproof.bench.Turn.ABOUT_Y;
            mirrorY ^= side.turned() == foilproof.bench.Turn.ABOUT_X;
            for (Stroke s : sides.get(side.number() - 1)) {
                XyMm a = move.of(new XyMm(mirrorX ? wide - s.x0Mm : s.x0Mm, mirrorY ? high - s.y0Mm : s.y0Mm));
                XyMm b = move.of(new XyMm(mirrorX ? wide - s.x1Mm : s.x1Mm, mirrorY ? high - s.y1Mm : s.y1Mm));
                seen.add(new Stroke(a.xMm(), a.yMm(), b.xMm(), b.yMm(), s.radiusMm));
            }
        }
        return seen;
    }

    /** The blank's size, mm. */
    double widthMm() {
        return job.blank().widthMm();
    }

    /** The blank's size, mm. */
    double heightMm() {
        return job.blank().heightMm();
    }

    Job job() {
        return job;
    }
}
