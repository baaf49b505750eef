package foilproof.motion;

import java.util.function.IntPredicate;

/**
 * The smallest upright box round some moves of the tip, arcs exactly; the cutter's radius is not in it.
 *
 * @param x0Mm left, blank's frame
 * @param y0Mm lower
 * @param z0Mm lowest tip height in the runs' own zero
 * @param x1Mm right
 * @param y1Mm upper
 * @param z1Mm highest tip height
 * @param empty whether no move was asked about; the numbers are then 0
 */
public record Extents(double x0Mm, double y0Mm, double z0Mm, double x1Mm, double y1Mm, double z1Mm, boolean empty) {
    /** Round no move at all. */
    public static final Extents NONE = new Extents(0, 0, 0, 0, 0, 0, true);

    /** Round the segments {@code from} to {@code end} (exclusive) that {@code wanted} picks. */
    public static Extents of(Segments segments, int from, int end, IntPredicate wanted) {
        double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
        double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
        boolean any = false;
        for (int i = from; i < end; i++) {
            if (!wanted.test(i)) {
                continue;
            }
            any = true;
            double[] box = segments.planBox(i);
            low[0] = Math.min(low[0], box[0]);
            low[1] = Math.min(low[1], box[1]);
            low[2] = Math.min(low[2], segments.lowestMm(i));
            high[0] = Math.max(high[0], box[2]);
            high[1] = Math.max(high[1], box[3]);
            high[2] = Math.max(high[2], Math.max(segments.z0Mm(i), segments.z1Mm(i)));
        }
        return any ? new Extents(low[0], low[1], low[2], high[0], high[1], high[2], false) : NONE;
    }

    /** Round all feed moves of a tool run whose tip is below {@code belowMm} somewhere. */
    public static Extents ofCuts(MotionPlan plan, ToolRun run, double belowMm) {
        Segments s = plan.segments();
        return of(s, run.firstSegment(), run.endSegment(), i -> s.isFeed(i) && s.lowestMm(i) < belowMm);
    }

    /** Round all moves of a tool run, rapids included. */
    public static Extents ofRun(MotionPlan plan, ToolRun run) {
        return of(plan.segments(), run.firstSegment(), run.endSegment(), i -> true);
    }

    /** Round all moves of a program, rapids included. */
    public static Extents ofProgram(MotionPlan plan, PlannedProgram program) {
        return of(plan.segments(), program.firstSegment(), program.endSegment(), i -> true);
    }

    /** Extent along X, mm. */
    public double widthMm() {
        return x1Mm - x0Mm;
    }

    /** Extent along Y, mm. */
    public double heightMm() {
        return y1Mm - y0Mm;
    }

    /** The longer side in plan view, mm. */
    public double longerSideMm() {
        return Math.max(widthMm(), heightMm());
    }
}
