package foilproof.app.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.app.practice.Answer.Mark;
import foilproof.app.practice.Exercise.Planted;
import foilproof.app.practice.Exercise.Predicted;
import foilproof.app.practice.Exercise.Weight;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Scoring by hand-worked examples; the rules are those of the training part of the needs. */
class ScoreTest {
    private static Planted fault(String cause, Weight weight, double x, double y, boolean contested) {
        return new Planted(
                cause, Set.of("tilt"), weight, List.of(new double[] {x, y, x, y}), "why.", Set.of(), contested);
    }

    private static Exercise exercise(List<Planted> planted, List<Planted> acceptable) {
        return new Exercise(
                "E0", 1, "t", "s", planted, acceptable, List.of(new Predicted("n", "n", "mm", 1.0, 0.3)), List.of());
    }

    private static Answer marked(Mark... marks) {
        return new Answer(false, 50, List.of(marks), Map.of());
    }

    private static final Exercise TWO = exercise(
            List.of(fault("mirrored", Weight.STOP, 10, 10, false), fault("step-over", Weight.FIX, 30, 10, false)),
            List.of(fault("short", Weight.WATCH, 20, 20, false)));

    @Test
    void shouldGiveFullForPlaceAndCauseHalfForThePlaceAndTakeAWatchForAFalseAlarm() {
        Score score = Score.of(
                TWO,
                marked(
                        new Mark(12, 10, "mirrored", 90, Weight.STOP),
                        new Mark(30, 11, "backlash", 60, Weight.FIX),
                        new Mark(50, 50, "worn-tip", 70, Weight.WATCH)));
        // 4 in full, half of 2; one false alarm of 1.
        assertThat(score.hits()).isCloseTo(5, within(1e-12));
        assertThat(score.falseAlarms()).isEqualTo(1);
        // (0.25 - 0.01) + (0.25 - 0.36) + (0.25 - 0.49)
        assertThat(score.calibration()).isCloseTo(-0.11, within(1e-12));
        assertThat(score.total()).isCloseTo(3.89, within(1e-12));
        assertThat(score.detecting()).isEqualTo(1);
        assertThat(score.explaining()).isCloseTo(4.0 / 6, within(1e-12));
        assertThat(score.most()).isEqualTo(6);
        assertThat(score.predicting()).isZero();
    }

    @Test
    void shouldMissWhatLiesBeyondTwoMillimetresAndTakeAFixForAFalseStop() {
        Score score = Score.of(TWO, marked(new Mark(12.01, 10, "mirrored", 50, Weight.STOP)));
        assertThat(score.hits()).isZero();
        assertThat(score.falseAlarms()).isEqualTo(2);
        assertThat(score.missed()).hasSize(2);
        assertThat(score.cried()).hasSize(1);
    }

    @Test
    void shouldTakeAlsoAcceptableAnswersAndLeaveTrueRemarksWithoutACharge() {
        Score score = Score.of(
                TWO, marked(new Mark(10, 10, "tilt", 99, Weight.STOP), new Mark(20, 20, "short", 99, Weight.STOP)));
        assertThat(score.hits()).isEqualTo(4);
        assertThat(score.falseAlarms()).isZero();
        assertThat(score.calibration()).isCloseTo(0.25 - 0.0001, within(1e-12));
    }

    @Test
    void shouldDropContestedFaultsAndTheMarksOnThem() {
        Exercise exercise = exercise(
                List.of(fault("mirrored", Weight.STOP, 10, 10, false), fault("step-over", Weight.FIX, 30, 10, true)),
                List.of());
        Score score = Score.of(
                exercise,
                marked(new Mark(10, 10, "mirrored", 80, Weight.STOP), new Mark(30, 10, "step-over", 99, Weight.FIX)));
        assertThat(score.most()).isEqualTo(4);
        assertThat(score.hits()).isEqualTo(4);
        assertThat(score.falseAlarms()).isZero();
        assertThat(Score.of(exercise, marked(new Mark(10, 10, "mirrored", 80, Weight.STOP)))
                        .total())
                .isEqualTo(score.total());
    }

    @Test
    void shouldLetAnHonestSixtyBeatABluffOfNinetyNineWhereBothAreWrong() {
        Score bluff = Score.of(TWO, marked(new Mark(50, 50, "tilt", 99, Weight.WATCH)));
        Score honest = Score.of(TWO, marked(new Mark(50, 50, "tilt", 60, Weight.WATCH)));
        assertThat(bluff.total()).isLessThan(honest.total());
        assertThat(Score.calibration(50, true)).isZero();
        assertThat(Score.calibration(50, false)).isZero();
    }

    @Test
    void shouldRewardCallingACleanJobCleanAndChargeFaultsSeenInIt() {
        Exercise clean = exercise(List.of(), List.of());
        Score right = Score.of(clean, new Answer(true, 90, List.of(), Map.of("n", 1.3)));
        assertThat(right.total()).isCloseTo(2.24, within(1e-12));
        assertThat(right.predicting()).isEqualTo(1);
        Score wrong = Score.of(clean, marked(new Mark(1, 1, "tilt", 60, Weight.STOP)));
        assertThat(wrong.total()).isCloseTo(-2 - 0.11, within(1e-12));
        Score blind = Score.of(TWO, new Answer(true, 99, List.of(), Map.of()));
        assertThat(blind.total()).isCloseTo(0.25 - 0.9801, within(1e-12));
    }

    @Test
    void shouldJudgeNumbersByTheirLogRatioAlikeUpAndDown() {
        Predicted asked = new Predicted("n", "n", "mm", 1.0, 0.0);
        assertThat(Score.number(asked, 1)).isEqualTo(1);
        assertThat(Score.number(asked, StrictMath.sqrt(2))).isCloseTo(0.5, within(1e-12));
        assertThat(Score.number(asked, 1 / StrictMath.sqrt(2))).isCloseTo(0.5, within(1e-12));
        assertThat(Score.number(asked, 2.1)).isZero();
    }

    @Test
    void shouldReadAFilledInAnswerAndRefuseTheEmptyForm() throws Exception {
        Exercise e3 = java.util.Objects.requireNonNull(Exercises.of("E3"));
        assertThatThrownBy(() -> Answer.read(Answer.form(e3), e3)).isInstanceOf(Answer.NotFilledInException.class);
        String mark =
                "[[mark]]\nat = [\"12 mm\", \"1 in\"]\ncause = \"step-over\"\nconfidence = 70\nseverity = \"fix\"\n";
        Answer answer = Answer.read("clean = false\n" + mark + "[numbers]\nhair_base = \"25 um\"\n", e3);
        assertThat(answer.marks()).containsExactly(new Mark(12, 25.4, "step-over", 70, Weight.FIX));
        assertThat(answer.numbers()).containsEntry("hair_base", 0.025);
        for (String bad : List.of(
                "clean = false\n",
                "clean = true\n",
                "clean = true\nconfidence = 100\n",
                "clean = true\nconfidence = 80\n" + mark,
                "clean = false\n" + mark.replace("70", "49"),
                "clean = false\n" + mark.replace("step-over", "gremlins"),
                "clean = false\n" + mark.replace("12 mm", "12"),
                "clean = false\nmark = [1]\n",
                "clean = false\n" + mark + "[numbers]\nhair_base = \"0 mm\"\n",
                "clean =")) {
            assertThatThrownBy(() -> Answer.read(bad, e3)).as(bad).isInstanceOf(Answer.NotFilledInException.class);
        }
    }
}
