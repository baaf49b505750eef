package foilproof.findings;

import foilproof.bench.Work;
import foilproof.motion.Segments;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What work each segment does. The job's word counts; where it says nothing, depth and shape tell: a straight plunge
 * or a circle that ends deeper than {@link #SPOT_MM} is boring, a lateral cut deeper than half the blank is an outline
 * cut, the rest that goes into the blank is isolation (common practice, no source).
 */
final class Works {
    /** Plunges up to this deep are entries and spot marks, mm. */
    static final double SPOT_MM = 0.3;

    private final @Nullable Work[] work;

    private Works(@Nullable Work[] work) {
        this.work = work;
    }

    @Nullable
    Work of(int segment) {
        return work[segment];
    }

    static Works classify(Examination x) {
        Segments s = x.plan().segments();
        @Nullable Work[] work = new Work[s.size()];
        for (RunFacts run : x.runs()) {
            if (run.tool() == null) {
                continue;
            }
            for (Dips.Dip dip : Dips.of(x, run)) {
                Work own = dip.hole()
                        ? dip.depthMm() > SPOT_MM ? Work.BORING : Work.ISOLATION
                        : dip.depthMm() > x.thicknessMm() / 2 ? Work.OUTLINE : Work.ISOLATION;
                Arrays.fill(work, dip.first(), dip.end(), own);
            }
        }
        for (var program : x.plan().programs()) {
            Work said = program.entry().work();
            if (said != null) {
                for (int i = program.firstSegment(); i < program.endSegment(); i++) {
                    work[i] = work[i] == null ? null : said;
                }
            }
        }
        return new Works(work);
    }
}
