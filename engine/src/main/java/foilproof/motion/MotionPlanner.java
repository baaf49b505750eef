package foilproof.motion;

import foilproof.bench.Job;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/** Makes the motion plan of a job: every program interpreted in order, cut into tool runs, every move timed. */
public final class MotionPlanner {
    private MotionPlanner() {}

    /** Plans {@code job} with {@link MotionOptions#DEFAULT}. */
    public static MotionPlan plan(Job job) {
        return plan(job, MotionOptions.DEFAULT);
    }

    /**
     * Plans {@code job}. Errors in programs do not end it: they are in the interpretations, and the moves up to the
     * error are planned.
     */
    public static MotionPlan plan(Job job, MotionOptions options) {
        return new JobPlanning(job, options).run();
    }

    /** Answers a probing move from what was cut before it. */
    @FunctionalInterface
    public interface ProbeOracle {
        /**
         * Where a probing move trips.
         *
         * @param plan a plan that is right up to the probing move
         * @param segment index of the first segment that has not run before the probing move
         * @param move the probing move, whole
         * @return the fraction of the move at which the probe trips, 0 to 1, or empty where it never does
         */
        OptionalDouble tripsAt(MotionPlan plan, int segment, ProbeModel.ProbeMove move);
    }

    /** No more probing moves than this are asked about one by one; the rest meet the options' own probe model. */
    public static final int PROBES_ASKED = 200;

    /**
     * Plans {@code job} with probing moves answered from the stock that earlier moves leave. The moves are settled one
     * after the other, in time order: each answer that differs from what {@code options} would say plans again, since
     * everything after it may move.
     */
    public static MotionPlan plan(Job job, MotionOptions options, ProbeOracle oracle) {
        List<OptionalDouble> settled = new ArrayList<>();
        while (true) {
            List<ProbeModel.ProbeMove> moves = new ArrayList<>();
            List<OptionalDouble> given = new ArrayList<>();
            MotionPlan plan = plan(job, options.withProbes(move -> {
                while (moves.size() > move.ordinal()) {
                    // The program is being read a second time.
                    moves.remove(moves.size() - 1);
                    given.remove(given.size() - 1);
                }
                OptionalDouble answer = move.ordinal() < settled.size()
                        ? settled.get(move.ordinal())
                        : options.probes().tripsAt(move);
                moves.add(move);
                given.add(answer);
                return answer;
            }));
            int[] firsts = probeSegments(plan, moves.size());
            boolean changed = false;
            int most = Math.min(Math.min(moves.size(), firsts.length), PROBES_ASKED);
            for (int k = settled.size(); k < most && !changed; k++) {
                OptionalDouble answer = oracle.tripsAt(plan, firsts[k], moves.get(k));
                changed = !answer.equals(given.get(k));
                settled.add(answer);
            }
            if (!changed) {
                return plan;
            }
        }
    }

    /** For every probing move of the plan, in order, the index of the first segment that has not run before it. */
    private static int[] probeSegments(MotionPlan plan, int expected) {
        int[] firsts = new int[expected];
        int count = 0;
        Segments s = plan.segments();
        for (MotionEvent event : plan.events()) {
            boolean probe =
                    event.kind() == MotionEvent.Kind.PROBE_TRIPPED || event.kind() == MotionEvent.Kind.PROBE_MISSED;
            if (probe && count < expected) {
                int after = event.beforeSegment();
                boolean moved =
                        after > 0 && s.kind(after - 1) == SegmentKind.PROBE && s.line(after - 1) == event.line();
                firsts[count++] = moved ? after - 1 : after;
            }
        }
        return Arrays.copyOf(firsts, count);
    }
}
