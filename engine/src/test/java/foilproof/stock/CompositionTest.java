package foilproof.stock;

import static foilproof.stock.StockFixtures.BLANK;
import static foilproof.stock.StockFixtures.FOIL_MM;
import static foilproof.stock.StockFixtures.board;
import static foilproof.stock.StockFixtures.settings;
import static foilproof.stock.StockFixtures.sweep;
import static foilproof.stock.StockFixtures.v30;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Touch;
import foilproof.bench.Turn;
import foilproof.bench.ZZero;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CompositionTest {
    private static final double CELL = 0.025;

    private static ToolProfile tool(int k) {
        return switch (k) {
            case 0 -> v30(0.1);
            case 1 -> ToolProfile.flat(0.8, 0.01);
            case 2 -> ToolProfile.ball(1, 0);
            case 3 -> ToolProfile.vRoundTip(StockFixtures.rad(40), 0.08, 3.175, 0.015);
            default -> ToolProfile.drill(0.9, StockFixtures.rad(118), 0);
        };
    }

    /** Lines, ramps, arcs, helices and rapids, shifted in Z. */
    private static CutPath path(Random random, double lowerMm) {
        CutPath.Builder b = CutPath.builder();
        double x = 10;
        double y = 8;
        for (int k = 0; k < 12; k++) {
            double z = 0.02 - 0.3 * random.nextDouble() - lowerMm;
            double z1 = random.nextBoolean() ? z : 0.02 - 0.3 * random.nextDouble() - lowerMm;
            double x1 = 2 + 16 * random.nextDouble();
            double y1 = 2 + 12 * random.nextDouble();
            switch (random.nextInt(4)) {
                case 0 -> b.rapid(x, y, z, x1, y1, z1);
                case 1 -> b.arc(x, y, z, x + 0.5, y + 0.3, 4 * random.nextDouble() - 2, z1);
                case 2 -> b.arc(x, y, z, x + 0.4, y, 12 * random.nextDouble() - 6, z1);
                default -> b.line(x, y, z, x1, y1, z1);
            }
            x = x1;
            y = y1;
        }
        return b.build();
    }

    private static BoardStock job(long seed, double lowerMm) {
        Random random = new Random(seed);
        List<Touch> touches = new ArrayList<>();
        for (int k = 0; k < 9; k++) {
            touches.add(new Touch(9.5 * (k % 3) + 0.5, 7.5 * (k / 3) + 0.5, 0.1 * (random.nextDouble() - 0.5)));
        }
        BlankSurface surface = seed % 3 == 0 ? BlankSurface.FLAT : BlankSurface.ofTouches(touches);
        List<RunCut> runs = new ArrayList<>();
        for (int run = 0; run < 3; run++) {
            boolean spoil = random.nextInt(3) == 0;
            double zero = spoil ? -1.6 : 0;
            CutPath own = path(random, lowerMm - (spoil ? 1.6 : 0));
            Envelope envelope = Envelope.sweep(own, tool(random.nextInt(5)), settings(CELL), zero);
            double tx = 2 + 16 * random.nextDouble();
            double ty = 2 + 12 * random.nextDouble();
            runs.add(new RunCut(run, envelope, spoil ? ZZero.SPOIL_BOARD : ZZero.FOIL, run, tx, ty));
        }
        return BoardStock.oneSide(BLANK, surface, 0.1, runs);
    }

    @Test
    void shouldGiveForAZErrorWhatZWordsLowerByItGiveCellByCellOnTwentyJobs() {
        for (long seed = 1; seed <= 20; seed++) {
            Conditions deeper = Conditions.NOMINAL;
            for (int run = 0; run < 3; run++) {
                deeper = deeper.withZError(run, 0.05);
            }
            ComposedSide error = job(seed, 0).under(deeper).side(1);
            ComposedSide words = job(seed, 0.05).under(Conditions.NOMINAL).side(1);
            float[] a = new float[error.columns()];
            float[] b = new float[error.columns()];
            double worst = 0;
            for (int j = 0; j < error.rows(); j++) {
                error.heightRow(j, 0, a.length, a);
                words.heightRow(j, 0, b.length, b);
                for (int i = 0; i < a.length; i++) {
                    worst = Math.max(worst, Math.abs(a[i] - b[i]));
                }
            }
            assertThat(worst).as("seed %d, mm", seed).isLessThan(2e-6);
        }
    }

    @Test
    void shouldSitDeeperWhereACutterIsTouchedOffOnCutGround() {
        Envelope pocket = sweep(CutPath.builder().line(5, 8, -0.2, 9, 8, -0.2).build(), ToolProfile.flat(1, 0), CELL);
        Envelope second = sweep(CutPath.builder().line(12, 8, -0.1, 16, 8, -0.1).build(), ToolProfile.flat(1, 0), CELL);
        List<RunCut> runs = List.of(RunCut.onFoil(0, pocket, 1, 1), RunCut.onFoil(1, second, 7, 8));
        BoardStock stock = BoardStock.oneSide(BLANK, BlankSurface.FLAT, 0.1, runs);
        ComposedBoard board = stock.under(Conditions.NOMINAL);
        assertThat(board.zeroMm(1)).isEqualTo(-0.2, within(1e-9));
        assertThat(board.side(1).exactHeightMm(14, 8)).isEqualTo(-0.3, within(1e-9));
        // Without the first run the ground is whole again; with it deeper, so is the second run's zero.
        assertThat(stock.under(Conditions.NOMINAL.withPresent(0, false)).zeroMm(1))
                .isZero();
        ComposedBoard deeper =
                stock.under(Conditions.NOMINAL.withZError(0, 0.05).withZError(1, 0.01));
        assertThat(deeper.side(1).exactHeightMm(14, 8)).isEqualTo(-0.36, within(1e-9));
    }

    @Test
    void shouldFollowTheBlanksThicknessWhereZeroIsTheSpoilBoard() {
        Envelope cut = Envelope.sweep(
                CutPath.builder().line(5, 8, 1.5, 9, 8, 1.5).build(), ToolProfile.flat(1, 0), settings(CELL), -1.6);
        BoardStock stock = BoardStock.oneSide(BLANK, BlankSurface.FLAT, 0.1, List.of(RunCut.onSpoilBoard(0, cut)));
        assertThat(stock.under(Conditions.NOMINAL).side(1).exactHeightMm(7, 8)).isEqualTo(-0.1, within(1e-9));
        assertThat(stock.under(Conditions.NOMINAL.withThickness(1.55)).side(1).exactHeightMm(7, 8))
                .isEqualTo(-0.15, within(1e-9));
        // Thinner by 0.2: the floor would lie 0.1 above the foil top.
        assertThat(stock.under(Conditions.NOMINAL.withThickness(1.3)).side(1).exactHeightMm(7, 8))
                .isZero();
    }

    @Test
    void shouldLowerTheMiddleAndKeepTheEdgeUnderAWhatIfBow() {
        Envelope cut = sweep(CutPath.builder().line(2, 8, -0.05, 18, 8, -0.05).build(), v30(0.1), CELL);
        ComposedSide side = board(BlankSurface.FLAT, BLANK, cut)
                .under(Conditions.NOMINAL.withBow(0.06))
                .side(1);
        assertThat(side.surfaceMm(10, 8)).isEqualTo(-0.06, within(1e-12));
        assertThat(side.surfaceMm(0, 8)).isZero();
        assertThat(side.surfaceMm(10, 16)).isZero();
        assertThat(side.exactHeightMm(10, 8))
                .as("the groove misses the low middle")
                .isEqualTo(-0.06, within(1e-12));
        assertThat(side.foilBottomMm(10, 8)).isEqualTo(-0.06 - FOIL_MM, within(1e-12));
    }

    @Test
    void shouldKeepTheEnvelopeAboveTheFoilAsAThreshold() {
        Envelope above = sweep(CutPath.builder().line(5, 8, 0.1, 15, 8, 0.1).build(), v30(0.1), CELL);
        ComposedSide side = StockFixtures.onFlat(above);
        assertThat(side.exactCutMm(10, 8)).isEqualTo(0.1, within(1e-9));
        assertThat(side.exactHeightMm(10, 8)).isZero();
        ComposedSide deeper = board(BlankSurface.FLAT, BLANK, above)
                .under(Conditions.NOMINAL.withZError(0, 0.15))
                .side(1);
        assertThat(deeper.exactHeightMm(10, 8)).isEqualTo(-0.05, within(1e-9));
        assertThat(side.exactCutMm(10, 12)).isEqualTo(side.capMm());
    }

    @Test
    void shouldMeetCutsFromTheOtherSideAboutYAndAboutX() {
        BlankBody both = new BlankBody(20, 16, 1.5, FOIL_MM, true);
        for (Turn turn : new Turn[] {Turn.ABOUT_Y, Turn.ABOUT_X}) {
            CutPath first =
                    CutPath.builder().line(3.013, 4.021, 1, 3.013, 4.021, -0.8).build();
            // The same place as it lies on the second side.
            double x = turn == Turn.ABOUT_Y ? 20 - 3.013 : 3.013;
            double y = turn == Turn.ABOUT_X ? 16 - 4.021 : 4.021;
            CutPath second = CutPath.builder().line(x, y, 1, x, y, -0.9).build();
            ToolProfile drill = ToolProfile.flat(1, 0);
            BoardStock stock = new BoardStock(
                    both,
                    List.of(
                            new SideStock(
                                    1,
                                    Turn.NO,
                                    BlankSurface.FLAT,
                                    0.1,
                                    List.of(RunCut.onFoil(0, sweep(first, drill, CELL), 1, 1))),
                            new SideStock(
                                    2,
                                    turn,
                                    BlankSurface.FLAT,
                                    0.1,
                                    List.of(RunCut.onFoil(1, sweep(second, drill, CELL), 1, 1)))));
            ComposedBoard board = stock.under(Conditions.NOMINAL);
            assertThat(board.throughAt(1, 3.013, 4.021)).isTrue();
            assertThat(board.throughAt(2, x, y)).isTrue();
            assertThat(board.throughAt(1, 3.013, 4.7)).isFalse();
            assertThat(board.exactFarCutMm(1, 3.013, 4.021)).isEqualTo(-0.6, within(1e-9));
            float[] row = new float[400];
            board.farCutRow(1, (int) (4.021 / CELL), 0, row.length, row);
            assertThat((double) row[(int) (3.013 / CELL)]).isEqualTo(-0.6, within(1e-6));
            assertThat((double) row[(int) (3.8 / CELL)]).isEqualTo(-1.5, within(1e-6));
            Removed removed = Removed.of(board, 2);
            double disc = Math.PI / 4;
            assertThat(removed.foilMm3()).as("both foils").isEqualTo(2 * FOIL_MM * disc, within(1e-4));
            assertThat(removed.substrateMm3()).isEqualTo((1.5 - 2 * FOIL_MM) * disc, within(2e-3));
            // One side alone does not go through.
            ComposedBoard alone = stock.under(Conditions.NOMINAL.withPresent(1, false));
            assertThat(alone.throughAt(1, 3.013, 4.021)).isFalse();
        }
    }

    @Test
    void shouldTakeTheZeroOfTheRunThatTouchedOff() {
        Envelope cut = sweep(CutPath.builder().line(5, 8, -0.2, 9, 8, -0.2).build(), ToolProfile.flat(1, 0), CELL);
        List<Touch> tilt = List.of(new Touch(0, 0, 0), new Touch(20, 0, 0.2), new Touch(0, 16, 0));
        List<RunCut> runs = List.of(RunCut.onFoil(0, cut, 10, 1), new RunCut(1, cut, ZZero.FOIL, 0, 10, 1));
        ComposedBoard board = BoardStock.oneSide(BLANK, BlankSurface.ofTouches(tilt), 0.1, runs)
                .under(Conditions.NOMINAL);
        assertThat(board.zeroMm(0)).isEqualTo(0.1, within(1e-12));
        assertThat(board.zeroMm(1)).isEqualTo(0.1, within(1e-12));
        assertThatThrownBy(() -> board.zeroMm(7)).isInstanceOf(IllegalArgumentException.class);
    }
}
