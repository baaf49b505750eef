package foilproof.findings;

import foilproof.motion.MotionPlan;
import foilproof.motion.Segments;
import foilproof.stock.BoardStock;
import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.Envelope;
import foilproof.stock.RunCut;
import foilproof.stock.SideStock;

/** Engagements sampled along each segment against the surface as it was just before it. */
final class ReplayedEngagements implements Engagements {
    private final float[] removedMm3;
    private final float[] depthMm;
    private final boolean[] foil;

    private ReplayedEngagements(int size) {
        removedMm3 = new float[size];
        depthMm = new float[size];
        foil = new boolean[size];
    }

    @Override
    public double removedMm3(int segment) {
        return removedMm3[segment];
    }

    @Override
    public double depthMm(int segment) {
        return depthMm[segment];
    }

    @Override
    public boolean cutsFoil(int segment) {
        return foil[segment];
    }

    static Engagements of(MotionPlan plan, BoardStock stock, ComposedBoard board, int threads) {
        ReplayedEngagements all = new ReplayedEngagements(plan.segments().size());
        for (SideStock side : stock.sides()) {
            for (RunCut cut : side.runs()) {
                all.run(plan, side, cut, board);
            }
        }
        return all;
    }

    private void run(MotionPlan plan, SideStock side, RunCut cut, ComposedBoard board) {
        Segments s = plan.segments();
        ComposedSide before = board.before(side.number(), cut.run());
        Envelope envelope = cut.envelope();
        double shift = board.zeroMm(cut.run()) - board.conditions().zErrorMm(cut.run());
        int first = plan.runs().get(cut.run()).firstSegment();
        double under = before.undersideMm();
        for (int i = first; i < plan.runs().get(cut.run()).endSegment(); i++) {
            if (s.lowestMm(i) + shift >= before.capMm()) {
                continue;
            }
            double length = s.lengthMm(i);
            int samples = 3;
            double area = 0;
            for (int k = 0; k < samples; k++) {
                double[] p = s.pointAt(i, s.planLengthMm(i) < 1e-6 ? 1 : (k + 0.5) / samples);
                if (p[0] < 0
                        || p[1] < 0
                        || p[0] > board.stock().blank().widthMm()
                        || p[1] > board.stock().blank().heightMm()) {
                    continue;
                }
                double was = Math.min(
                        before.exactHeightMm(p[0], p[1]), envelope.exactHeightAfterMm(p[0], p[1], i - first) + shift);
                double depth = was - (p[2] + shift);
                if (depth > 1e-9) {
                    depthMm[i] = Math.max(depthMm[i], (float) depth);
                    area += depth / samples;
                    foil[i] |= was > before.foilBottomMm(p[0], p[1]);
                }
                if (was < under) {
                    foil[i] = foil[i] && true;
                }
            }
            removedMm3[i] = (float) (area * Math.max(length, 0.1) * 0.1);
        }
    }
}
