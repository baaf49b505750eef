package foilproof.app.practice;

import foilproof.app.practice.Answer.Mark;
import foilproof.app.practice.Exercise.Planted;
import foilproof.app.practice.Exercise.Predicted;
import foilproof.app.practice.Exercise.Weight;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * An answer held against the planter's truth. Points: a fault's weight (stop 4, fix 2, watch 1) in full for place
 * within 2 mm and cause, half for the place only; a false alarm costs a watch, a false stop a fix; each judgement adds
 * {@code 0.25 - (confidence - outcome)^2}, which an honest confidence makes largest; numbers by log ratio.
 *
 * @param detecting share of the weights whose place was found, 0 to 1; NaN where nothing was planted
 * @param explaining share of the weights whose place and cause were found; NaN where nothing was planted
 * @param predicting mean of the numbers asked, 0 to 1; a number left out counts 0
 * @param hits points for faults found, or for a clean job called clean
 * @param falseAlarms points lost by false alarms, positive
 * @param calibration points of the stated confidences, of either sign
 * @param total hits - false alarms + calibration
 * @param most what hits can reach
 * @param saw lines: what was seen
 * @param missed lines: what was missed, one sentence why
 * @param cried lines: false alarms
 * @param told lines: predicted numbers beside the truth
 */
public record Score(
        double detecting,
        double explaining,
        double predicting,
        double hits,
        double falseAlarms,
        double calibration,
        double total,
        double most,
        List<String> saw,
        List<String> missed,
        List<String> cried,
        List<String> told) {

    /** How near a mark must lie, mm. */
    static final double NEAR_MM = 2;

    /** Scores an answer. */
    public static Score of(Exercise exercise, Answer answer) {
        return new Sum(exercise, answer).score();
    }

    /**
     * Score of one predicted number: 1 within the stated share, else falling with the log ratio to 0 at a factor 2.
     *
     * @param said predicted, positive
     */
    static double number(Predicted asked, double said) {
        double ratio = Math.abs(StrictMath.log(said / asked.truth()));
        double full = StrictMath.log(1 + asked.fullWithin());
        if (ratio <= full + 1e-9) {
            return 1;
        }
        double zero = StrictMath.log(2);
        return Math.max(0, (zero - ratio) / (zero - full));
    }

    /** Points of a stated confidence: 0.25 - (p - o)^2, so that 50 % gives nothing either way. */
    static double calibration(int percent, boolean right) {
        double off = percent / 100.0 - (right ? 1 : 0);
        return 0.25 - off * off;
    }

    private static final class Sum {
        private final Exercise exercise;
        private final Answer answer;
        private final List<String> saw = new ArrayList<>();
        private final List<String> missed = new ArrayList<>();
        private final List<String> cried = new ArrayList<>();
        private final List<String> told = new ArrayList<>();
        private final boolean[] used;
        private double falseAlarms;
        private double calibration;

        Sum(Exercise exercise, Answer answer) {
            this.exercise = exercise;
            this.answer = answer;
            used = new boolean[answer.marks().size()];
        }

        Score score() {
            double most = 0;
            double placed = 0;
            double explained = 0;
            for (Planted fault : exercise.planted()) {
                int best = bestMark(fault);
                if (fault.contested()) {
                    continue;
                }
                int points = fault.weight().points();
                most += points;
                if (best < 0) {
                    missed.add(fault.cause() + ": " + fault.why());
                    continue;
                }
                placed += points;
                Mark mark = answer.marks().get(best);
                boolean right = fault.explains(mark.cause());
                explained += right ? points : 0;
                calibration += calibration(mark.confidencePercent(), right);
                saw.add(
                        right
                                ? fault.cause() + ": " + fault.why()
                                : "the place of " + fault.cause() + ", taken for " + mark.cause() + ": " + fault.why());
            }
            double hits = (placed + explained) / 2;
            boolean nothing = most == 0;
            if (nothing) {
                most = Weight.FIX.points();
                hits = answer.clean() ? most : 0;
                if (answer.clean()) {
                    saw.add("nothing is wrong with this job, and you said so");
                } else {
                    missed.add("this job is right as it stands: nothing was planted");
                }
            }
            if (answer.clean()) {
                calibration += calibration(answer.cleanConfidence(), nothing);
            }
            falseAlarms();
            double predicting = predicting();
            return new Score(
                    nothing ? Double.NaN : placed / most,
                    nothing ? Double.NaN : explained / most,
                    predicting,
                    hits,
                    falseAlarms,
                    calibration,
                    hits - falseAlarms + calibration,
                    most,
                    saw,
                    missed,
                    cried,
                    told);
        }

        /** The mark that serves a fault best: near and right before near only; all near and right ones are used up. */
        private int bestMark(Planted fault) {
            int best = -1;
            boolean bestRight = false;
            for (int i = 0; i < used.length; i++) {
                Mark mark = answer.marks().get(i);
                if (used[i] || !fault.near(mark.xMm(), mark.yMm(), NEAR_MM)) {
                    continue;
                }
                boolean right = fault.explains(mark.cause());
                if (!right && explainsAnother(mark)) {
                    continue;
                }
                if (best < 0 || right && !bestRight) {
                    best = i;
                    bestRight = right;
                }
                used[i] = right;
            }
            if (best >= 0) {
                used[best] = true;
            }
            return best;
        }

        /** A mark that is right about something else, planted or acceptable, is no guess at this fault. */
        private boolean explainsAnother(Mark mark) {
            for (Planted fault : exercise.planted()) {
                if (fault.explains(mark.cause()) && fault.near(mark.xMm(), mark.yMm(), NEAR_MM)) {
                    return true;
                }
            }
            return acceptable(mark);
        }

        private boolean acceptable(Mark mark) {
            for (Planted remark : exercise.acceptable()) {
                if (remark.explains(mark.cause()) && remark.near(mark.xMm(), mark.yMm(), NEAR_MM)) {
                    return true;
                }
            }
            return false;
        }

        private void falseAlarms() {
            for (int i = 0; i < used.length; i++) {
                Mark mark = answer.marks().get(i);
                if (used[i] || acceptable(mark)) {
                    continue;
                }
                falseAlarms += mark.severity() == Weight.STOP ? Weight.FIX.points() : Weight.WATCH.points();
                calibration += calibration(mark.confidencePercent(), false);
                cried.add(String.format(
                        Locale.ROOT,
                        "%s at (%.1f, %.1f) mm: nothing of the kind was planted within %.0f mm of there",
                        mark.cause(),
                        mark.xMm(),
                        mark.yMm(),
                        NEAR_MM));
            }
        }

        private double predicting() {
            double sum = 0;
            for (Predicted asked : exercise.numbers()) {
                Double said = answer.numbers().get(asked.key());
                double points = said == null ? 0 : number(asked, said);
                sum += points;
                String form =
                        switch (asked.unit()) {
                            case "mm" -> "%.4f mm";
                            case "line" -> "line %.0f";
                            default -> "%.2f " + asked.unit();
                        };
                told.add(asked.question() + ": you said "
                        + (said == null ? "nothing" : String.format(Locale.ROOT, form, said)) + ", it is "
                        + String.format(Locale.ROOT, form, asked.truth())
                        + String.format(Locale.ROOT, " (%.0f %%)", 100 * points));
            }
            return exercise.numbers().isEmpty()
                    ? Double.NaN
                    : sum / exercise.numbers().size();
        }
    }
}
