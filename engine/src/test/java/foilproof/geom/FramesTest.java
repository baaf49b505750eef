package foilproof.geom;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Frames and turning over: the mapping of the job file's contract ("a later side turned about Y takes X to W - X"). */
class FramesTest {
    private static final TurnOver TURN = new TurnOver(60, 40, 1.5);

    @Test
    void shouldTurnTheBlankOverInSpaceAndMirrorItsPicture() {
        for (Transform<Frame.Blank, Frame.Blank> turned : java.util.List.of(TURN.aboutX(), TURN.aboutY())) {
            assertThat(turned.determinant()).isEqualTo(1);
            assertThat(turned.planarDeterminant()).isEqualTo(-1);
            Point<Frame.Blank> p = new Point<>(12, 7, -0.3);
            assertThat(turned.apply(turned.apply(p)).distanceMm(p)).isLessThan(1e-12);
        }
        assertThat(TURN.aboutY().apply(new Point<>(12, 7, -1.5))).isEqualTo(new Point<>(48.0, 7.0, 0.0));
        assertThat(TURN.aboutX().apply(new Point<>(12, 7, 0))).isEqualTo(new Point<>(12.0, 33.0, -1.5));
    }

    @Test
    void shouldLayTheDesignOnTheFirstSideAsTheContractSays() {
        assertThat(TURN.blankFromBoardTopUp(10, 8, 0).apply(new Point<>(1, 2, 0)))
                .isEqualTo(new Point<>(11.0, 10.0, 0.0));
        Point<Frame.Blank> bottom = TURN.blankFromBoardBottomUp(10, 8, 0).apply(new Point<>(1, 2, -1.5));
        assertThat(bottom).isEqualTo(new Point<>(60 - 10 - 1.0, 10.0, 0.0));
        assertThat(TURN.blankFromBoardTopUp(0, 0, 1).apply(new Point<>(1, 0, 0)))
                .isEqualTo(new Point<>(0.0, 1.0, 0.0));
        assertThat(TURN.blankFromBoardBottomUp(10, 8, 1).determinant()).isEqualTo(1);
    }

    @Test
    void shouldComposeSoThatNamesReadThemselves() {
        Transform<Frame.Machine, Frame.Blank> machineFromBlank = Transform.shift(10, 10, -32);
        Transform<Frame.Blank, Frame.Work> blankFromWork = Transform.withZeroAt(new Point<>(2, 2, 0));
        Transform<Frame.Machine, Frame.Work> machineFromWork = machineFromBlank.after(blankFromWork);
        Point<Frame.Work> hole = new Point<>(1, 1, -1.8);
        Point<Frame.Machine> there = machineFromWork.apply(hole);
        assertThat(there.distanceMm(new Point<>(13, 13, -33.8))).isLessThan(1e-12);
        assertThat(machineFromWork.inverse().apply(there).distanceMm(hole)).isLessThan(1e-12);
        Transform<Frame.Blank, Frame.Blank> turned = Transform.turn(Math.toRadians(37));
        assertThat(turned.determinant()).isCloseTo(1, within(1e-15));
        assertThat(turned.inverse().after(turned).apply(new Point<>(3, 4, 5)).distanceMm(new Point<>(3, 4, 5)))
                .isLessThan(1e-14);
    }
}
