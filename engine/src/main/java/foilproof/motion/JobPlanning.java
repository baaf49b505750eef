package foilproof.motion;

import foilproof.bench.Job;
import java.util.List;

/** Plans one job (being built: plans nothing yet). */
final class JobPlanning {
    private final Job job;
    private final MotionOptions options;

    JobPlanning(Job job, MotionOptions options) {
        this.job = job;
        this.options = options;
    }

    MotionPlan run() {
        return new MotionPlan(
                new SegmentsBuilder(options.limits().nesting()).build(),
                List.of(),
                List.of(),
                List.of(),
                new MotionTotals(0, 0, 0, 0, 0, 0, 0),
                job.machine().accelerationMmPerS2(),
                List.of());
    }
}
