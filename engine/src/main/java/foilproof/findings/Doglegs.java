package foilproof.findings;

import foilproof.bench.KeepOut;
import foilproof.bench.Machine;
import foilproof.motion.Dogleg;
import foilproof.motion.Segments;
import java.util.List;

/**
 * Rapids that are clear as straight lines and hit something where the controller does not coordinate its axes (A8): each
 * axis then runs at its own full speed, and the way is a dogleg.
 */
final class Doglegs implements Check {
    private static final double STEP_MM = 0.1;
    private static final int MOST_SAMPLES = 2048;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.KEEP_OUT_CONTACT, Kinds.RAPID_IN_MATERIAL);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            if (run.tool() == null) {
                continue;
            }
            boolean[] told = new boolean[x.job().keepOuts().size()];
            boolean blankTold = false;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (!s.isRapid(i)
                        || s.planLengthMm(i) < 1e-6
                        || s.has(i, Segments.POSITION_UNKNOWN)
                        || s.has(i, Segments.START_UNKNOWN)) {
                    continue;
                }
                double[][] way = Dogleg.corners(s, i, x.job().machine().rapidMmPerMin());
                if (way.length < 3) {
                    continue;
                }
                for (int k = 0; k < told.length; k++) {
                    told[k] = told[k] || box(x, run, i, way, x.job().keepOuts().get(k), out);
                }
                blankTold = blankTold || blank(x, run, i, way, out);
            }
        }
    }

    private static boolean box(Examination x, RunFacts run, int i, double[][] way, KeepOut box, FindingCollector out) {
        Segments s = x.plan().segments();
        double low = run.blankFromRunMm(s.lowestMm(i));
        if (low >= box.topMm()) {
            return false;
        }
        double widest = KeepOuts.stackRadiusMm(x, run.knownTool(), box.topMm() - low);
        double[] plan = hull(way);
        if (plan[2] + widest < box.x0Mm()
                || plan[3] + widest < box.y0Mm()
                || plan[0] - widest > box.x1Mm()
                || plan[1] - widest > box.y1Mm()) {
            return false;
        }
        double[][] straight = {way[0], way[way.length - 1]};
        double[] hit = contact(x, run, way, box);
        if (hit == null || contact(x, run, straight, box) != null) {
            return false;
        }
        out.add(x.at(Finding.of(Kinds.KEEP_OUT_CONTACT, Severity.WATCH, Certainty.SET_UP), i)
                .at(hit[0], hit[1])
                .box(box.x0Mm(), box.y0Mm(), box.x1Mm(), box.y1Mm())
                .says("As a straight line this rapid clears \"" + box.name()
                        + "\"; on a controller that runs each axis at" + " its own full speed ("
                        + speeds(x.job().machine()) + ") it runs into it.")
                .doThis("Split the rapid: Z up first, then X and Y, then Z down.")
                .build());
        return true;
    }

    private static String speeds(Machine machine) {
        return "X " + Words.feed(machine.rapidMmPerMin().xMmPerMin()) + ", Y "
                + Words.feed(machine.rapidMmPerMin().yMmPerMin()) + ", Z "
                + Words.feed(machine.rapidMmPerMin().zMmPerMin());
    }

    private static double[] hull(double[][] way) {
        double[] box = {way[0][0], way[0][1], way[0][0], way[0][1]};
        for (double[] p : way) {
            box[0] = Math.min(box[0], p[0]);
            box[1] = Math.min(box[1], p[1]);
            box[2] = Math.max(box[2], p[0]);
            box[3] = Math.max(box[3], p[1]);
        }
        return box;
    }

    /** Where the stack first touches the box along the way, or null. */
    private static double @org.jspecify.annotations.Nullable [] contact(
            Examination x, RunFacts run, double[][] way, KeepOut box) {
        for (int k = 1; k < way.length; k++) {
            int n = samples(way[k - 1], way[k]);
            for (int j = 0; j <= n; j++) {
                double[] p = between(way[k - 1], way[k], (double) j / n);
                double z = run.blankFromRunMm(p[2]);
                if (z < box.topMm()) {
                    double dx = Math.max(0, Math.max(box.x0Mm() - p[0], p[0] - box.x1Mm()));
                    double dy = Math.max(0, Math.max(box.y0Mm() - p[1], p[1] - box.y1Mm()));
                    double radius = KeepOuts.stackRadiusMm(x, run.knownTool(), box.topMm() - z);
                    if (Math.sqrt(dx * dx + dy * dy) <= radius) {
                        return p;
                    }
                }
            }
        }
        return null;
    }

    private static int samples(double[] a, double[] b) {
        double length = Math.sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]));
        return (int) Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(length / STEP_MM)));
    }

    private static double[] between(double[] a, double[] b, double f) {
        return new double[] {a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f, a[2] + (b[2] - a[2]) * f};
    }

    private static boolean blank(Examination x, RunFacts run, int i, double[][] way, FindingCollector out) {
        Segments s = x.plan().segments();
        // the tip never goes lower than the lower end
        if (run.blankFromRunMm(s.lowestMm(i)) > x.side(run.side().number()).highestMm()
                || x.removes(i)
                || x.lowestAboveFoilMm(i) < 0) {
            return false;
        }
        for (int k = 1; k < way.length; k++) {
            int n = samples(way[k - 1], way[k]);
            for (int j = 0; j <= n; j++) {
                double[] p = between(way[k - 1], way[k], (double) j / n);
                boolean on = p[0] > 0
                        && p[1] > 0
                        && p[0] < x.job().blank().widthMm()
                        && p[1] < x.job().blank().heightMm();
                double surface = on ? x.side(run.side().number()).surfaceMm(p[0], p[1]) : Double.NEGATIVE_INFINITY;
                if (run.blankFromRunMm(p[2]) < surface - 1e-6) {
                    out.add(x.at(Finding.of(Kinds.RAPID_IN_MATERIAL, Severity.WATCH, Certainty.SET_UP), i)
                            .at(p[0], p[1])
                            .says("As a straight line this rapid clears the blank; on a controller that runs each axis"
                                    + " at its own full speed ("
                                    + speeds(x.job().machine()) + ") it passes "
                                    + Words.mm(surface - run.blankFromRunMm(p[2])) + " below the foil top.")
                            .doThis("Split the rapid: Z up first, then X and Y, then Z down.")
                            .build());
                    return true;
                }
            }
        }
        return false;
    }
}
