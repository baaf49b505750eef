package foilproof.motion;

import foilproof.bench.Job;

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
}
