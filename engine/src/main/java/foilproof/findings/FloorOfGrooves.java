package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Floors of grooves that are not at one height: a step in the middle of a groove (D5), and a deeper pass that follows
 * an earlier one only part of the way (D8). Copper work only; judged on the programmed heights of level moves, so that
 * crossings with deeper cuts count for nothing. Several depth passes over one path are usual, ramps and helices are ways
 * in, and a program of many heights follows a height map: none of these is told.
 */
final class FloorOfGrooves implements Check {
    /** More heights than this in one run's level moves follow a map or a picture. */
    private static final int MOST_HEIGHTS = 6;

    private static final double LEAST_MM = 1;
    private static final double STEP_MM = 0.1;
    private static final double CELL_MM = 0.05;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOO_DEEP, Kinds.FLOOR_LEFT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("D5", "D8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            List<Level> levels = levels(x, run);
            Set<Long> heights = new HashSet<>();
            levels.forEach(l -> heights.add(Math.round(l.zMm * 1000)));
            if (heights.size() < 2 || heights.size() > MOST_HEIGHTS) {
                continue;
            }
            Floors floors = new Floors(levels);
            if (x.side(run.side().number()).isFlat()) {
                step(x, run, levels, floors, out);
            }
            left(x, levels, floors, out);
        }
    }

    /** A stretch of one stroke at one height. */
    private record Level(
            int stroke, double zMm, int firstSegment, int endSegment, double lengthMm, List<double[]> points) {}

    private static List<Level> levels(Examination x, RunFacts run) {
        Segments s = x.plan().segments();
        List<Level> levels = new ArrayList<>();
        for (Stroke stroke : x.paths().strokes()) {
            Work work = x.paths().workOf(stroke);
            if (stroke.run() != run.run().index()
                    || x.paths().makesHole(stroke)
                    || work != Work.ISOLATION && work != Work.CLEARING) {
                continue;
            }
            Level open = null;
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                double plan = s.planLengthMm(i);
                boolean level = plan > 0 && Math.abs(s.z1Mm(i) - s.z0Mm(i)) < 1e-4 && run.depthMm(s.z1Mm(i)) > 0;
                if (!level) {
                    open = close(open, levels);
                    continue;
                }
                if (open != null && Math.abs(open.zMm - s.z1Mm(i)) > 1e-4) {
                    open = close(open, levels);
                }
                List<double[]> points = open == null ? new ArrayList<>() : open.points;
                int n = (int) Math.min(20_000, 1 + plan / STEP_MM);
                for (int k = 0; k < n; k++) {
                    double[] p = s.pointAt(i, (k + 0.5) / n);
                    points.add(new double[] {p[0], p[1], plan / n, i});
                }
                open = new Level(
                        stroke.index(),
                        s.z1Mm(i),
                        open == null ? i : open.firstSegment,
                        i + 1,
                        plan + (open == null ? 0 : open.lengthMm),
                        points);
            }
            close(open, levels);
        }
        return levels;
    }

    private static @org.jspecify.annotations.Nullable Level close(
            @org.jspecify.annotations.Nullable Level open, List<Level> levels) {
        if (open != null) {
            levels.add(open);
        }
        return null;
    }

    /** The lowest programmed height along a run's level moves, by small squares. */
    private static final class Floors {
        private final Map<Long, Double> lowest = new HashMap<>();

        Floors(List<Level> levels) {
            for (Level level : levels) {
                for (double[] p : level.points) {
                    lowest.merge(key(p[0], p[1], 0, 0), level.zMm, Math::min);
                }
            }
        }

        private static long key(double xMm, double yMm, int dx, int dy) {
            return (Math.round(xMm / CELL_MM) + dx) * 4_000_003L + Math.round(yMm / CELL_MM) + dy;
        }

        double under(double xMm, double yMm) {
            double z = Double.POSITIVE_INFINITY;
            for (int dx = -1; dx <= 1; dx++) {
                for (int dy = -1; dy <= 1; dy++) {
                    z = Math.min(z, lowest.getOrDefault(key(xMm, yMm, dx, dy), Double.POSITIVE_INFINITY));
                }
            }
            return z;
        }

        /** Length of a stretch over which nothing deeper by a step follows it, mm. */
        double uncoveredMm(Level level, double step) {
            double length = 0;
            for (double[] p : level.points) {
                length += under(p[0], p[1]) > level.zMm - step ? p[2] : 0;
            }
            return length;
        }
    }

    /** Two neighbouring stretches of one stroke at heights further apart than the limit, both finished floors. */
    private static void step(Examination x, RunFacts run, List<Level> levels, Floors floors, FindingCollector out) {
        double limit = x.limit(LimitKey.DEPTH_STEP);
        for (int k = 1; k < levels.size(); k++) {
            Level a = levels.get(k - 1);
            Level b = levels.get(k);
            double high = Math.abs(a.zMm - b.zMm);
            if (a.stroke != b.stroke || high <= limit + 1e-6 || (!atOnce(x, a, b) && comesBack(levels, k, limit))) {
                continue;
            }
            if (floors.uncoveredMm(a, limit) < LEAST_MM || floors.uncoveredMm(b, limit) < LEAST_MM) {
                continue;
            }
            out.add(x.at(Finding.of(Kinds.TOO_DEEP, Severity.WATCH, Certainty.GEOMETRY), stepAt(x, b.firstSegment))
                    .at(b.points.get(0)[0], b.points.get(0)[1])
                    .atMost(Measured.mm("step in the floor", high, 0.001), limit)
                    .says("The finished floor of one groove steps by " + Words.mm(high) + " here, from "
                            + Words.plainMm(run.depthMm(a.zMm)) + " to " + Words.plainMm(run.depthMm(b.zMm))
                            + " below the foil top, and no touched points ask for it.")
                    .doThis("Look at this line: a Z word is wrong or was lost.")
                    .build());
            return;
        }
    }

    /** The move that changes the height: straight up or down before the stretch, else the first of the stretch. */
    private static int stepAt(Examination x, int first) {
        Segments s = x.plan().segments();
        boolean straight = first > 0
                && s.isFeed(first - 1)
                && s.program(first - 1) == s.program(first)
                && s.planLengthMm(first - 1) < 1e-6
                && Math.abs(s.z1Mm(first - 1) - s.z0Mm(first - 1)) > 1e-6;
        return straight ? first - 1 : first;
    }

    /** Whether another step of the same stroke goes the other way: slopes that follow the blank. */
    private static boolean comesBack(List<Level> levels, int k, double limit) {
        double up = levels.get(k).zMm - levels.get(k - 1).zMm;
        for (int j = 1; j < levels.size(); j++) {
            double other = levels.get(j).zMm - levels.get(j - 1).zMm;
            boolean same =
                    levels.get(j).stroke == levels.get(k).stroke && levels.get(j - 1).stroke == levels.get(k).stroke;
            if (same && Math.abs(other) > limit && other * up < 0) {
                return true;
            }
        }
        return false;
    }

    /** Whether the height changes within one short move between two stretches, not along a slope. */
    private static boolean atOnce(Examination x, Level a, Level b) {
        Segments s = x.plan().segments();
        double largest = 0;
        double sideways = 0;
        for (int i = a.endSegment; i < b.firstSegment; i++) {
            largest = Math.max(largest, Math.abs(s.z1Mm(i) - s.z0Mm(i)));
            sideways += s.planLengthMm(i);
        }
        return largest > 0.5 * Math.abs(a.zMm - b.zMm) && sideways < LEAST_MM;
    }

    /** Passes that a deeper one follows only part of the way. */
    private static void left(Examination x, List<Level> levels, Floors floors, FindingCollector out) {
        double limit = x.limit(LimitKey.FLOOR_LEFT);
        for (Level level : levels) {
            double uncovered = floors.uncoveredMm(level, limit + 1e-6);
            double covered = level.lengthMm - uncovered;
            // A pass that is followed for less than a third is another groove that touches or crosses it.
            if (uncovered < LEAST_MM || covered < level.lengthMm / 3 || covered < LEAST_MM) {
                continue;
            }
            double target = Double.POSITIVE_INFINITY;
            double[] at = level.points.get(0);
            boolean found = false;
            for (double[] p : level.points) {
                double z = floors.under(p[0], p[1]);
                target = Math.min(target, z);
                if (!found && z > level.zMm - limit) {
                    at = p;
                    found = true;
                }
            }
            double high = level.zMm - target;
            out.add(x.at(Finding.of(Kinds.FLOOR_LEFT, Severity.FIX, Certainty.GEOMETRY), (int) at[3])
                    .at(at[0], at[1])
                    .atMost(Measured.mm("material left above the floor", high, 0.001), limit)
                    .says("The deeper pass follows this one only part of the way: over " + Words.plainMm(uncovered)
                            + " of the groove " + Words.mm(high) + " is left above the floor of the rest.")
                    .doThis("Let the last pass run the whole way, or take it out.")
                    .build());
            return;
        }
    }
}
