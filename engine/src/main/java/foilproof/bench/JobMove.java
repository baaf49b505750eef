package foilproof.bench;

import java.util.ArrayList;
import java.util.List;

/**
 * A whole job moved on its blank: programs and design together, turned about a point and then shifted. Touch points, the
 * clip, pins and clamps stay where they are.
 *
 * @param xMm shift along X of the side in question, mm
 * @param yMm shift along Y of the side in question, mm
 * @param turnRad turn about the point, counter-clockwise as seen from above, rad
 * @param aboutXMm the point, blank's frame, mm
 * @param aboutYMm the point, blank's frame, mm
 */
public record JobMove(double xMm, double yMm, double turnRad, double aboutXMm, double aboutYMm) {
    /** Nothing is moved. */
    public static final JobMove NONE = new JobMove(0, 0, 0, 0, 0);

    /** Whether everything stays where the job has it. */
    public boolean none() {
        return xMm == 0 && yMm == 0 && turnRad == 0;
    }

    /** Where a point of the job comes to lie. */
    public XyMm of(XyMm p) {
        if (none()) {
            return p;
        }
        double c = StrictMath.cos(turnRad);
        double s = StrictMath.sin(turnRad);
        double dx = p.xMm() - aboutXMm;
        double dy = p.yMm() - aboutYMm;
        return new XyMm(aboutXMm + c * dx - s * dy + xMm, aboutYMm + s * dx + c * dy + yMm);
    }

    /** The job so moved: work zeros as they then lie, and the what-if that turns programs and design. */
    public Job applied(Job job) {
        if (none()) {
            return job;
        }
        List<Side> sides = new ArrayList<>();
        for (Side s : job.sides()) {
            JobMove here = onSide(job, s.number());
            List<ProgramEntry> programs = new ArrayList<>();
            for (ProgramEntry p : s.programs()) {
                programs.add(p.withWorkZero(here.of(p.workZeroMm())));
            }
            sides.add(s.withWorkZero(here.of(s.workZeroMm())).withPrograms(programs));
        }
        return job.withSides(sides).withWhatIf(job.whatIf().withMoved(this));
    }

    /** The same move of the board, said of the first side, as it is seen with a later side up. */
    public JobMove onSide(Job job, int number) {
        JobMove m = this;
        double width = job.blank().widthMm();
        double height = job.blank().heightMm();
        for (Side side : job.sides()) {
            if (side.number() > number) {
                break;
            }
            m = switch (side.turned()) {
                case NO -> m;
                case ABOUT_X -> new JobMove(m.xMm, -m.yMm, -m.turnRad, m.aboutXMm, height - m.aboutYMm);
                case ABOUT_Y -> new JobMove(-m.xMm, m.yMm, -m.turnRad, width - m.aboutXMm, m.aboutYMm);
            };
        }
        return m;
    }
}
