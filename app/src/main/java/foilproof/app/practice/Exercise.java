package foilproof.app.practice;

import java.util.List;
import java.util.Set;

/**
 * One exercise with the truth that its planter keeps. Places are mm in the blank's frame, lower-left corner (0, 0).
 *
 * @param id E1 to E8
 * @param level 1 easiest, 4 hardest
 * @param title the board
 * @param story what is told to the learner; never what or how much is wrong
 * @param planted what was planted; empty where the job is right
 * @param acceptable true remarks that were not planted: they cost nothing and earn nothing
 * @param numbers what is to be predicted
 * @param facts lines of the job file that say what lies on the bench: changing them repairs nothing
 */
public record Exercise(
        String id,
        int level,
        String title,
        String story,
        List<Planted> planted,
        List<Planted> acceptable,
        List<Predicted> numbers,
        List<String> facts) {

    /** Whether it begins with a bad board: what was wrong stands in no file, and there is nothing to repair. */
    public boolean afterTheFact() {
        return id.equals("E8");
    }

    /** How bad a fault is, and what it weighs. */
    public enum Weight {
        /** Do not run. */
        STOP(4),
        /** The board is likely bad. */
        FIX(2),
        /** Depends on set-up. */
        WATCH(1);

        private final int points;

        Weight(int points) {
            this.points = points;
        }

        /** Points at stake. */
        public int points() {
            return points;
        }
    }

    /**
     * A planted fault.
     *
     * @param cause word of the cause
     * @param alsoAcceptable causes that two people may call it by
     * @param weight how bad
     * @param places x0, y0, x1, y1 of the boxes where it may be marked, mm
     * @param why one sentence
     * @param kinds kinds of findings that must be gone after a repair
     * @param contested where an experienced person may disagree: drops out of the score
     */
    public record Planted(
            String cause,
            Set<String> alsoAcceptable,
            Weight weight,
            List<double[]> places,
            String why,
            Set<String> kinds,
            boolean contested) {
        /** Whether a place lies within {@code withinMm} of the fault. */
        boolean near(double xMm, double yMm, double withinMm) {
            for (double[] box : places) {
                double dx = Math.max(0, Math.max(box[0] - xMm, xMm - box[2]));
                double dy = Math.max(0, Math.max(box[1] - yMm, yMm - box[3]));
                if (dx * dx + dy * dy <= withinMm * withinMm + 1e-9) {
                    return true;
                }
            }
            return false;
        }

        /** Whether the word names the cause. */
        boolean explains(String word) {
            return cause.equals(word) || alsoAcceptable.contains(word);
        }
    }

    /**
     * A number to be predicted.
     *
     * @param key in the answer file
     * @param question what is asked
     * @param unit {@code mm} (any length unit may be written), {@code line} (a whole number), {@code K} or {@code times}
     * @param truth in that unit, positive
     * @param fullWithin share within which the answer counts in full
     */
    public record Predicted(String key, String question, String unit, double truth, double fullWithin) {}
}
