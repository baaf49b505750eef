package foilproof.findings;

import foilproof.bench.Work;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.List;

/**
 * Which places of a side are on the part and which are waste: outside every cut that goes through the blank, or inside
 * an inside cut. Without such a cut the whole blank is the part.
 */
final class OutlineSide {
    private final List<double[]> loops;
    /** Whether the part lies inside an odd number of loops: an outline goes round it; else there are only openings. */
    private final boolean odd;

    private OutlineSide(Examination x, int side, List<double[]> loops) {
        this.loops = loops;
        int balance = 0;
        Segments s = x.plan().segments();
        for (int i = 0; i < s.size() && !loops.isEmpty(); i++) {
            Work work = x.workOf(i);
            if (work != null && work.copper() && x.run(s.run(i)).side().number() == side) {
                double[] p = s.pointAt(i, 0.5);
                balance += round(p[0], p[1]) % 2 == 1 ? 1 : -1;
            }
        }
        odd = balance >= 0;
    }

    static OutlineSide of(Examination x, int side) {
        List<double[]> loops = new ArrayList<>();
        for (CutLoop loop : x.paths().outlines()) {
            RunFacts run = x.run(loop.run());
            if (run.blankFromRunMm(loop.deepestMm()) <= -0.9 * x.thicknessMm()) {
                loops.add(path(x, loop, side));
            }
        }
        return new OutlineSide(x, side, loops);
    }

    /** The deepest pass as points x, y, x, y ... on the side asked for. */
    private static double[] path(Examination x, CutLoop loop, int side) {
        Segments s = x.plan().segments();
        List<Double> points = new ArrayList<>();
        Stroke stroke =
                x.paths().strokes().get(loop.strokes().get(loop.strokes().size() - 1));
        List<Stroke> all = loop.closedByGaps()
                ? loop.strokes().stream().map(x.paths().strokes()::get).toList()
                : List.of(stroke);
        for (Stroke part : all) {
            for (int i = part.firstSegment(); i < part.endSegment(); i++) {
                int steps = s.isArc(i) ? 1 + (int) (Math.abs(s.sweepRad(i)) / 0.1) : 1;
                for (int k = 1; k <= steps; k++) {
                    double[] p = s.pointAt(i, (double) k / steps);
                    points.add(x.stock().xOnSideMm(loop.side(), side, p[0]));
                    points.add(x.stock().yOnSideMm(loop.side(), side, p[1]));
                }
            }
        }
        return points.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** Whether some cut takes the part out of the blank. */
    boolean cutsThePartOut() {
        return !loops.isEmpty() && odd;
    }

    /** Whether a place is not on the part that is kept. */
    boolean isWaste(double xMm, double yMm) {
        return !loops.isEmpty() && (round(xMm, yMm) % 2 == 1) != odd;
    }

    private int round(double xMm, double yMm) {
        int round = 0;
        for (double[] loop : loops) {
            round += inside(loop, xMm, yMm) ? 1 : 0;
        }
        return round;
    }

    private static boolean inside(double[] xy, double px, double py) {
        boolean in = false;
        int n = xy.length / 2;
        for (int a = 0, b = n - 1; a < n; b = a++) {
            double ay = xy[2 * a + 1];
            double by = xy[2 * b + 1];
            if (ay > py != by > py && px < (xy[2 * b] - xy[2 * a]) * (py - ay) / (by - ay) + xy[2 * a]) {
                in = !in;
            }
        }
        return in;
    }
}
