package foilproof.stock;

import static foilproof.stock.StockFixtures.BLANK;
import static foilproof.stock.StockFixtures.board;
import static foilproof.stock.StockFixtures.settings;
import static foilproof.stock.StockFixtures.sweep;
import static foilproof.stock.StockFixtures.v30;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Determinism, keyframes, replay, who cut here. */
class TimeTest {
    private static final double CELL = 0.02;

    private static CutPath busy(long seed, int moves) {
        Random random = new Random(seed);
        CutPath.Builder b = CutPath.builder();
        double x = 10;
        double y = 8;
        double z = -0.1;
        for (int k = 0; k < moves; k++) {
            double x1 = 2 + 16 * random.nextDouble();
            double y1 = 2 + 12 * random.nextDouble();
            double z1 = random.nextInt(3) == 0 ? -0.2 * random.nextDouble() : z;
            if (random.nextInt(4) == 0) {
                b.arc(x, y, z, x + 0.7, y - 0.2, 5 * random.nextDouble() - 2.5, z1);
            } else {
                b.line(x, y, z, x1, y1, z1);
            }
            x = x1;
            y = y1;
            z = z1;
        }
        return b.build();
    }

    @Test
    void shouldGiveTheSameBytesForAnyNumberOfThreads() {
        CutPath path = busy(3, 60);
        for (ToolProfile profile :
                new ToolProfile[] {v30(0.1), ToolProfile.ball(0.8, 0.01), ToolProfile.flat(0.7, 0)}) {
            long one = Envelope.sweep(path, profile, settings(CELL).withThreads(1), 0)
                    .tiles()
                    .fingerprint();
            for (int threads : new int[] {2, 3, 7}) {
                Envelope many = Envelope.sweep(path, profile, settings(CELL).withThreads(threads), 0);
                assertThat(many.tiles().fingerprint()).as("%d threads", threads).isEqualTo(one);
            }
        }
        ComposedBoard board =
                board(BlankSurface.FLAT, BLANK, sweep(path, v30(0.1), CELL)).under(Conditions.NOMINAL);
        assertThat(Removed.of(board, 1)).isEqualTo(Removed.of(board, 3));
        Replay one = Replay.of(board, 1, 0, 1);
        Replay three = Replay.of(board, 1, 0, 3);
        for (int i = 0; i < one.size(); i++) {
            assertThat(one.removedMm3(i)).isEqualTo(three.removedMm3(i));
        }
    }

    @Test
    void shouldShowAtAnyMomentWhatTheMovesSoFarHaveCut() {
        CutPath path = busy(11, 50);
        Envelope whole = sweep(path, v30(0.1), CELL);
        Timeline timeline = Timeline.of(whole, 7);
        for (double timeS : new double[] {-1, 0, 0.5, 3, 12.25, 31.999, 49, 49.5, 50, 99}) {
            Envelope now = timeline.at(timeS);
            int moves = (int) Math.max(0, Math.min(50, Math.floor(timeS)));
            Random random = new Random(4);
            for (int k = 0; k < 400; k++) {
                int i = random.nextInt(1000);
                int j = random.nextInt(800);
                double x = (i + 0.5) * CELL;
                double y = (j + 0.5) * CELL;
                assertThat(now.heightMm(i, j)).isEqualTo(now.exactHeightMm(x, y), within(2e-6));
                double done = whole.exactHeightAfterMm(x, y, moves);
                double next = whole.exactHeightAfterMm(x, y, Math.min(50, moves + 1));
                assertThat(now.exactHeightMm(x, y)).as("at %s s", timeS).isBetween(next - 1e-9, done + 1e-9);
            }
        }
        assertThat(timeline.at(50)).isSameAs(whole);
    }

    @Test
    void shouldCutAMoveUnderWayUpToTheMoment() {
        Envelope whole = sweep(CutPath.builder().line(5, 8, -0.1, 15, 8, -0.1).build(), v30(0.1), CELL);
        Envelope half = Timeline.of(whole, 4).at(0.5);
        assertThat(half.exactHeightMm(9.9, 8)).isEqualTo(-0.1, within(1e-9));
        assertThat(half.exactHeightMm(10.4, 8)).isEqualTo(half.capMm());
        assertThat(half.heightMm((int) (9.9 / CELL), (int) (8 / CELL))).isEqualTo(-0.1, within(1e-6));
    }

    @Test
    void shouldShareTilesThatNoMoveChanges() {
        CutPath path = CutPath.builder()
                .line(3, 3, -0.1, 4, 3, -0.1)
                .line(4, 3, 1, 15, 12, 1)
                .line(15, 12, -0.1, 16, 12, -0.1)
                .build();
        Envelope whole = sweep(path, v30(0.1), CELL);
        Envelope early = Timeline.of(whole, 3).at(2.2);
        Envelope later = Timeline.of(whole, 3).at(2.8);
        int tx = (int) Math.floor(3.5 / (CELL * 64));
        int ty = (int) Math.floor(3 / (CELL * 64));
        assertThat(early.tiles().sharedTile(tx, ty)).isEqualTo(later.tiles().sharedTile(tx, ty));
        Timeline one = Timeline.of(whole, 3);
        assertThat(one.at(2.2).tiles().sharedTile(tx, ty))
                .isSameAs(one.at(2.8).tiles().sharedTile(tx, ty));
    }

    @Test
    void shouldReplayWhatEachMoveRemoved() {
        CutPath path = CutPath.builder()
                .rapid(5, 8, 2, 5, 8, 0.5)
                .line(5, 8, 0.5, 5, 8, -0.2)
                .line(5, 8, -0.2, 15, 8, -0.2)
                .line(15, 8, -0.2, 5, 8, -0.2)
                .rapid(5, 8, -0.2, 5, 8, 2)
                .rapid(5, 8, 2, 5, 12, 2)
                .rapid(5, 12, -0.1, 15, 12, -0.1)
                .build();
        Envelope cut = sweep(path, ToolProfile.flat(1, 0), CELL);
        ComposedBoard board = board(BlankSurface.FLAT, BLANK, cut).under(Conditions.NOMINAL);
        Replay replay = Replay.of(board, 1, 0, 2);
        double disc = Math.PI / 4;
        assertThat(replay.firstContact()).isEqualTo(1);
        assertThat(replay.removedMm3(1)).isEqualTo(0.2 * disc, within(2e-3));
        assertThat(replay.engagedMm(1)).isEqualTo(0.2, within(1e-6));
        assertThat(replay.removedMm3(2)).as("swept, less the plunge").isEqualTo(0.2 * 10, within(4e-3));
        assertThat(replay.removedFoilMm3(2)).isEqualTo(StockFixtures.FOIL_MM * 10, within(1e-3));
        assertThat(replay.removes(3)).as("the way back").isFalse();
        assertThat(replay.removes(4)).as("out of the cut").isFalse();
        assertThat(replay.removedMm3(6)).as("a rapid in material").isGreaterThan(0.9);
        Removed removed = Removed.of(board, 2);
        assertThat(replay.removedMm3(0, replay.size()))
                .isEqualTo(removed.foilMm3() + removed.substrateMm3(), within(5e-3));
    }

    @Test
    void shouldSayWhoCutHereWhoBrokeTheFoilAndWhoMadeTheFloor() {
        CutPath shallow = CutPath.builder()
                .line(5, 8, -0.02, 15, 8, -0.02)
                .line(10, 4, -0.06, 10, 12, -0.06)
                .build();
        CutPath ramp = CutPath.builder().line(6, 8, 0, 14, 8, -0.4).build();
        Envelope bit = sweep(shallow, v30(0.1), CELL);
        Envelope mill = sweep(ramp, ToolProfile.flat(0.6, 0), CELL);
        ComposedSide side = StockFixtures.onFlat(bit, mill);
        PointHistory crossing = PointHistory.at(side, 10, 8);
        assertThat(crossing.cuts()).extracting(Cut::run).containsExactly(0, 0, 1);
        assertThat(crossing.cuts()).extracting(Cut::segment).containsExactly(0, 1, 0);
        Cut broke = crossing.brokeFoil();
        assertThat(broke).isNotNull();
        assertThat(broke.segment()).isEqualTo(1);
        // The flat tip of 0.1 comes over the point 0.05 before its axis does, at 3.95 of 8 mm.
        assertThat(broke.timeS())
                .isEqualTo(
                        1 + 3.95 / 8 - (0.06 - StockFixtures.FOIL_MM) * Math.tan(StockFixtures.rad(15)) / 8,
                        within(1e-3));
        Cut floor = crossing.madeFloor();
        assertThat(floor).isNotNull();
        assertThat(floor.run()).isEqualTo(1);
        // Lowest when the rim, 0.3 behind the axis, still holds the point: axis at 10.3, depth 0.05 x 4.3.
        assertThat(floor.heightMm()).isEqualTo(-0.215, within(1e-9));
        assertThat(floor.timeS()).isEqualTo(4.3 / 8, within(1e-9));
        assertThat(PointHistory.at(side, 3, 3).cuts()).isEmpty();
        assertThat(PointHistory.at(side, 7, 8.1).brokeFoil()).isNotNull();
    }

    @Test
    void shouldNotChangeWhenMovesAreSplitOrAllIsMovedByWholeCells() {
        CutPath whole = CutPath.builder()
                .line(5, 5, -0.1, 12, 9, -0.1)
                .line(12, 9, -0.1, 14, 4, -0.3)
                .build();
        CutPath split = CutPath.builder()
                .line(5, 5, -0.1, 8.5, 7, -0.1)
                .line(8.5, 7, -0.1, 12, 9, -0.1)
                .line(12, 9, -0.1, 13, 6.5, -0.2)
                .line(13, 6.5, -0.2, 14, 4, -0.3)
                .build();
        CutPath moved = CutPath.builder()
                .line(6, 7, -0.1, 13, 11, -0.1)
                .line(13, 11, -0.1, 15, 6, -0.3)
                .build();
        Envelope a = sweep(whole, v30(0.1), CELL);
        Envelope b = sweep(split, v30(0.1), CELL);
        Envelope c = sweep(moved, v30(0.1), CELL);
        for (int j = 150; j < 550; j++) {
            for (int i = 200; i < 750; i++) {
                assertThat(b.heightMm(i, j)).isEqualTo(a.heightMm(i, j), within(1e-6));
                assertThat(c.heightMm(i + 50, j + 100)).isEqualTo(a.heightMm(i, j), within(1e-6));
            }
        }
    }

    @Test
    void shouldNotCutWhereTheDomainEnds() {
        Envelope cut = sweep(CutPath.builder().line(-20, 8, -0.1, 40, 8, -0.1).build(), v30(0.1), CELL);
        assertThat(cut.exactHeightMm(-4, 8)).isEqualTo(-0.1, within(1e-9));
        assertThat(cut.exactHeightMm(-19, 8)).isEqualTo(cut.capMm());
        assertThat(cut.tiles().tileCount()).isLessThan(60);
        CutPath none = CutPath.builder().rapid(0, 0, 5, 9, 9, 5).build();
        assertThat(sweep(none, v30(0.1), CELL).tiles().tileCount()).isZero();
        assertThat(CutPath.builder().build().lowestMm()).isInfinite();
    }
}
