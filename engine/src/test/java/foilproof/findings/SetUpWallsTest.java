package foilproof.findings;

import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.WATCH;

import org.junit.jupiter.api.Test;

/**
 * Walls that lost motion, another angle or more runout move. Numbers by closed form: an axis with backlash b stands b/2
 * behind in the direction of its last move, so two walls differ by b at most; the groove of the engraver at Z-0.1 is
 * 0.12 + 2 (0.1 - 0.0174) tan 15 deg wide at the foil bottom.
 */
class SetUpWallsTest {
    private static final double BOTTOM_MM = 0.12 + 2 * (0.1 - 0.0174) * StrictMath.tan(StrictMath.toRadians(15));

    private static Bench fine(String backlash) {
        return Bench.job().cellUm(10).machine("backlash", "[\"" + backlash + "\", \"" + backlash + "\"]");
    }

    /** A rectangle that comes back downwards to this far above its first cut, which was reached from below. */
    private static String shortLoop(double gap, String from) {
        return start(1) + "G0 X3 " + from + "\n"
                + text("G0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y%s\nG0 Z5\n", 3 + gap) + END;
    }

    @Test
    @Fires({"B18 backlash", "E1 backlash"})
    void shouldWatchANeckThatLostMotionLeavesWhereALoopHardlyCloses() {
        double gap = BOTTOM_MM - 0.02;
        fine("0.05 mm")
                .runs(shortLoop(gap, "Y1"))
                .raises(Kinds.BACKLASH, WATCH, SET_UP)
                .at(3, 3 + gap)
                .onLineOf("G1 Y3.14")
                .measuring(0.03, "mm", 0.001)
                .saying("neck of copper");
    }

    @Test
    @Silent({"B18 backlash", "E1 backlash"})
    void shouldSayNothingOfLoopsThatCloseWithTheirLostMotion() {
        double gap = BOTTOM_MM - 0.02;
        fine("0.019 mm").runs(shortLoop(gap, "Y1")).isSilentOn(Kinds.BACKLASH);
        fine("0 mm").runs(shortLoop(gap, "Y1")).isSilentOn(Kinds.BACKLASH);
        // both ends were reached downwards: the lost motion is shared
        fine("0.05 mm").runs(shortLoop(gap, "Y13")).isSilentOn(Kinds.BACKLASH);
        fine("0.10 mm").runs(Programs.isolation()).isSilentOn(Kinds.BACKLASH);
    }

    /** A loop begun in the middle of a side, to the right, that is left open over this way; reached along X as said. */
    private static String middleLoop(double way, String from) {
        return start(1) + "G0 " + from + " Y3\n" + "G0 X8 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\n"
                + text("G1 X%s\n", 8 - way) + "G0 Z5\n" + END;
    }

    @Test
    @Fires("E1 backlash")
    void shouldWatchANeckWhereALoopIsBegunAgainstTheWayItIsReached() {
        // begun half the lost motion ahead, ended half of it behind
        fine("0.05 mm")
                .runs(middleLoop(BOTTOM_MM - 0.04, "X12"))
                .raises(Kinds.BACKLASH, WATCH, SET_UP)
                .at(8 - BOTTOM_MM + 0.04, 3)
                .measuring(0.01, "mm", 0.001);
    }

    @Test
    @Silent("E1 backlash")
    void shouldSayNothingOfALoopBegunTheWayItIsReached() {
        fine("0.05 mm").runs(middleLoop(BOTTOM_MM - 0.04, "X4")).isSilentOn(Kinds.BACKLASH);
        fine("0.05 mm").runs(middleLoop(BOTTOM_MM - 0.06, "X12")).isSilentOn(Kinds.BACKLASH);
    }

    /** Two cuts side by side: the lower one reached upwards, the upper one downwards, so that they move apart. */
    private static String apart(double step) {
        return start(1) + "G0 X3 Y2\n" + line(3, 5, 13, 5, -0.1) + "G0 X3 Y12\n" + line(3, 5 + step, 13, 5 + step, -0.1)
                + END;
    }

    @Test
    @Fires("B18 backlash")
    void shouldWatchAHairThatLostMotionOpensBetweenTwoPasses() {
        fine("0.05 mm")
                .runs(apart(BOTTOM_MM - 0.03))
                .raises(Kinds.BACKLASH, WATCH, SET_UP)
                .measuring(0.02, "mm", 0.001)
                .against(0.05);
    }

    /** The lower wall of a ring that is run counter-clockwise and reached from above moves up, the upper one down. */
    private static Bench trace(String backlash, double widthMm) {
        return fine(backlash).runs(start(1) + rectangle(3, 5, 13, 5 + widthMm + BOTTOM_MM, -0.1) + END);
    }

    @Test
    @Fires("B18 backlash")
    void shouldWatchATraceThatLostMotionMakesTooNarrow() {
        trace("0.05 mm", 0.197)
                .raises(Kinds.BACKLASH, WATCH, SET_UP)
                .measuring(0.147, "mm", 0.001)
                .against(0.15);
        trace("0.05 mm", 0.297).raises(Kinds.BACKLASH, NOTE, SET_UP).against(0.25);
    }

    @Test
    @Silent("B18 backlash")
    void shouldSayNothingWhereWallsKeepTheirLimits() {
        fine("0.05 mm").runs(apart(BOTTOM_MM - 0.052)).isSilentOn(Kinds.BACKLASH);
        trace("0.05 mm", 0.303).isSilentOn(Kinds.BACKLASH);
        trace("0.05 mm", 0.203).examined().raisesNothingAbove(NOTE, Kinds.BACKLASH);
    }

    /** Wider by (0.1 - 0.0174)(tan 30 - tan 15 deg) on each wall: 0.1982 becomes 0.147. */
    @Test
    @Fires("C2 angle-doubt")
    void shouldWatchATraceThatTheHalfAngleWouldMakeTooNarrow() {
        double each =
                (0.1 - 0.0174) * (StrictMath.tan(StrictMath.toRadians(30)) - StrictMath.tan(StrictMath.toRadians(15)));
        trace("0 mm", 0.147 + 2 * each)
                .raises(Kinds.ANGLE_DOUBT, WATCH, SET_UP)
                .measuring(0.147, "mm", 0.002)
                .against(0.15)
                .saying("half angle");
    }

    @Test
    @Silent("C2 angle-doubt")
    void shouldSayNothingOfTheAngleWhereNoTraceDependsOnIt() {
        double each =
                (0.1 - 0.0174) * (StrictMath.tan(StrictMath.toRadians(30)) - StrictMath.tan(StrictMath.toRadians(15)));
        trace("0 mm", 0.153 + 2 * each).isSilentOn(Kinds.ANGLE_DOUBT);
        fine("0 mm").runs(start(3) + rectangle(3, 5, 13, 6.003, -0.1) + END).isSilentOn(Kinds.ANGLE_DOUBT);
    }

    @Test
    @Fires("C9 runout")
    void shouldWatchATraceThatMoreRunoutWouldMakeTooNarrow() {
        trace("0 mm", 0.197)
                .raises(Kinds.RUNOUT, WATCH, SET_UP)
                .measuring(0.147, "mm", 0.002)
                .against(0.15);
    }

    @Test
    @Silent("C9 runout")
    void shouldSayNothingOfRunoutWhereTracesAreWideOrItIsStatedSo() {
        trace("0 mm", 0.203).isSilentOn(Kinds.RUNOUT);
        trace("0 mm", 0.254).isSilentOn(Kinds.RUNOUT);
    }
}
