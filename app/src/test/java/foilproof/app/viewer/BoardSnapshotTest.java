package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Progress;
import foilproof.source.InputException;
import foilproof.stock.ComposedSide;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The picture's composition against the engine's own, and both faces of one blank. */
class BoardSnapshotTest {
    private static final String JOB = """
            job = "Two faces"
            [blank]
            substrate = "FR-4"
            thickness = "1.0 mm"
            foil = "1 oz"
            copper = "both sides"
            width = "20 mm"
            height = "12 mm"
            surface = [["0 mm","0 mm","-0.03 mm"], ["20 mm","0 mm","0.02 mm"], ["0 mm","12 mm","0.01 mm"], ["19 mm","12 mm","0 mm"]]
            [[tool]]
            name = "engraver"
            number = 1
            shape = "V"
            included_angle = "30 deg"
            tip_width = "0.10 mm"
            shank = "3.175 mm"
            [[tool]]
            name = "drill"
            number = 2
            shape = "flat"
            diameter = "1 mm"
            [[side]]
            face = "bottom"
            turned = "no"
            work_zero = ["0 mm", "0 mm"]
            touch_off = ["1 mm", "1 mm"]
              [[side.program]]
              file = "a.ngc"
              tool = "engraver"
            [[side]]
            face = "top"
            turned = "about Y"
            work_zero = ["0 mm", "0 mm"]
            touch_off = ["1 mm", "1 mm"]
              [[side.program]]
              file = "b.ngc"
              tool = "drill"
            """;

    private static JobScene scene;

    @BeforeAll
    static void sweep() throws InputException {
        MemoryFiles files = new MemoryFiles()
                .with("job.toml", JOB)
                .with("a.ngc", "G21 G90\nM3 S12000\nG0 Z2\nG0 X4 Y3\nG1 Z-0.12 F100\nG1 X15 Y8 F200\nG0 Z2\nM2\n")
                .with("b.ngc", "G21 G90\nM3 S12000\nG0 Z2\nG0 X5 Y9\nG1 Z-1.2 F100\nG0 Z2\nM2\n");
        scene = new JobScene(Examiner.ground(
                JobReader.read(new JobSource(files, "job.toml"), ReadOptions.DEFAULT),
                new ExamineOptions(0.01, 1, Progress.NONE)));
    }

    @Test
    void shouldComposeWhatTheEngineComposesUnderAnyConditions() {
        BoardSnapshot asSaid = scene.snapshot(scene.endS(), 1);
        Random random = new Random(11);
        for (int round = 0; round < 4; round++) {
            BoardSnapshot b = asSaid.withThickness(asSaid.thicknessMm() + round * 0.05);
            BoardSnapshot.Conditions c = new BoardSnapshot.Conditions(
                    new double[] {round * 0.03 - 0.05}, round * 0.04, b.foilMm(), round * 0.05, new boolean[0]);
            ComposedSide side = scene.boardAt(b, c).side(1);
            for (int i = 0; i < 500; i++) {
                double t = random.nextDouble();
                double x = 4 + 11 * t + (random.nextDouble() - 0.5) * 0.1;
                double y = 3 + 5 * t + (random.nextDouble() - 0.5) * 0.1;
                // Floor and walls rise at most 3.73 per mm: half a cell's diagonal away is 0.027 mm of Z, and no more.
                assertThat(b.spot(c, x, y).zMm())
                        .as("seed 11, round %d, at %.3f %.3f", round, x, y)
                        .isCloseTo(side.exactHeightMm(x, y), within(0.027));
            }
        }
    }

    @Test
    void shouldOpenAHoleThatComesFromTheOtherFace() {
        BoardSnapshot first = scene.snapshot(scene.endS(), 1);
        // Turned about Y: X 5 on side 2 is X 15 on side 1.
        assertThat(first.spot(first.baseConditions(), 15, 9).material()).isEqualTo(BoardSnapshot.Material.SPOIL_BOARD);
        assertThat(first.spot(first.baseConditions(), 5, 9).material()).isEqualTo(BoardSnapshot.Material.FOIL);
        BoardSnapshot second = scene.snapshot(scene.endS(), 2);
        assertThat(second.spot(second.baseConditions(), 5, 9).material()).isEqualTo(BoardSnapshot.Material.SPOIL_BOARD);
        BoardSnapshot before = scene.snapshot(0, 1);
        assertThat(before.spot(before.baseConditions(), 15, 9).material()).isEqualTo(BoardSnapshot.Material.FOIL);
        assertThat(second.face()).isEqualTo("top copper");
    }

    @Test
    void shouldShareTilesThatDidNotChangeBetweenTwoMoments() {
        HeightTiles early = scene.snapshot(scene.endS() - 1, 1).runs().get(0).tiles();
        HeightTiles late = scene.snapshot(scene.endS(), 1).runs().get(0).tiles();
        for (int r = 0; r < late.rows(); r++) {
            for (int c = 0; c < late.columns(); c++) {
                assertThat(early.tile(c, r)).isEqualTo(late.tile(c, r));
            }
        }
    }
}
