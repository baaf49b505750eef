package foilproof.findings;

import foilproof.bench.Work;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * Which places of a side are on the part and which are waste: outside every cut that goes through the blank, or inside
 * an inside cut. Without such a cut the whole blank is the part.
 */
final class OutlineSide {
    private final List<LoopShape> loops;
    /** Whether the part lies inside an odd number of loops: an outline goes round it; else there are only openings. */
    private final boolean odd;

    private OutlineSide(Examination x, int side, List<LoopShape> loops) {
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
        List<LoopShape> loops = new ArrayList<>();
        for (CutLoop loop : x.paths().outlines()) {
            RunFacts run = x.run(loop.run());
            if (run.blankFromRunMm(loop.deepestMm()) <= -0.9 * x.thicknessMm()) {
                loops.add(LoopShape.of(x, loop, side));
            }
        }
        return new OutlineSide(x, side, loops);
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
        for (LoopShape loop : loops) {
            round += loop.holds(xMm, yMm) ? 1 : 0;
        }
        return round;
    }
}
