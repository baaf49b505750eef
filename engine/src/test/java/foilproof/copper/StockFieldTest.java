package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.stock.BlankBody;
import foilproof.stock.BlankSurface;
import foilproof.stock.BoardStock;
import foilproof.stock.ComposedBoard;
import foilproof.stock.Conditions;
import foilproof.stock.CutPath;
import foilproof.stock.Envelope;
import foilproof.stock.RunCut;
import foilproof.stock.SweepSettings;
import foilproof.stock.ToolProfile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The fields over real sweeps: closed forms of check-values Q7, Q9, Q11 and needs.md section 6, job 1. */
class StockFieldTest {
    private static final double DEG = StrictMath.PI / 180;

    private static ComposedBoard board(
            double w, double h, double foil, double cell, CutPath path, ToolProfile profile) {
        SweepSettings settings = SweepSettings.forBlank(cell, w, h);
        Envelope e = Envelope.sweep(path, profile, settings, 0);
        BlankBody blank = new BlankBody(w, h, 1.5, foil, false);
        return BoardStock.oneSide(blank, BlankSurface.FLAT, 0.1, List.of(RunCut.onFoil(0, e, 0.2, 0.2)))
                .under(Conditions.NOMINAL);
    }

    @Test
    void shouldMapTheRingOfASweptLoop() {
        CutPath path = CutPath.builder()
                .line(2, 2, -0.1, 12, 2, -0.1)
                .line(12, 2, -0.1, 12, 6, -0.1)
                .line(12, 6, -0.1, 2, 6, -0.1)
                .line(2, 6, -0.1, 2, 2, -0.1)
                .build();
        ComposedBoard board = board(14, 8, 0.0348, 0.01, path, ToolProfile.flat(0.2, 0));
        CopperMap map = CopperMap.of(new SideField(board, 1), 0);
        assertThat(map.clearedMm2()).isCloseTo(5.591416, within(2e-3));
        assertThat(map.pieces()).hasSize(2);
        assertThat(map.pieces().get(1).areaMm2()).isCloseTo(37.24, within(2e-3));
    }

    @Test
    void shouldFindTheErrorAtWhichASweptTraceIsLost() {
        double c = StrictMath.cos(37 * DEG);
        double s = StrictMath.sin(37 * DEG);
        CutPath.Builder b = CutPath.builder();
        for (int side = -1; side <= 1; side += 2) {
            double ox = 2 - side * 0.1 * s;
            double oy = 2 + side * 0.1 * c;
            b.line(ox - 5 * c, oy - 5 * s, -0.1, ox + 5 * c, oy + 5 * s, -0.1);
        }
        ComposedBoard board = board(4, 4, 0.0348, 0.01, b.build(), ToolProfile.vFlatTip(30 * DEG, 0.1, 3.175, 0));
        RunSideField field = RunSideField.of(board, 1, 0);
        MergeTree tree = MergeTree.of(field, -0.1, 2 - 0.8 * c, 2 - 0.8 * s, 2 + 0.8 * c, 2 + 0.8 * s);
        assertThat(Bottleneck.between(tree, 0, 1)).isCloseTo(0.1214, within(0.003));
        assertThat(RunSideField.joint(board, 1).headroomMm()).isCloseTo(0.3, within(1e-6));
    }

    @Test
    void shouldGiveTheCleanJobItsWindowFromItsOwnSweep() {
        double[] xy = {13.12, 12.4, 46.88, 12.4, 46.88, 33.6, 13.12, 33.6, 13.12, 12.1};
        CutPath.Builder b = CutPath.builder();
        CutLines.Builder lines = CutLines.builder().begin(xy[0], xy[1], 0, 10);
        for (int i = 0; i + 3 < xy.length; i += 2) {
            b.line(xy[i], xy[i + 1], -0.1, xy[i + 2], xy[i + 3], -0.1);
            lines.add(xy[i + 2], xy[i + 3], 0, 11 + i / 2, true);
        }
        ComposedBoard board = board(60, 45, 0.0174, 0.01, b.build(), ToolProfile.flat(0.79375, 0));
        ZWindow w = ZWindows.of(new ZWindowSetup(
                RunSideField.of(board, 1, 0),
                lines.build(),
                List.of(),
                new double[0],
                true,
                new ZWindowSetup.Deepest(0.1, 1, 1, 0, 11),
                -0.05,
                0.03,
                null,
                null,
                ZWindowSetup.Limits.DEFAULTS));
        assertThat(w.printedFromMm()).isEqualTo(-0.077);
        assertThat(w.printedToMm()).isEqualTo(0.05);
        assertThat(w.marginMm()).isCloseTo(0.020, within(1e-9));
    }

    @Test
    void shouldJudgeAWholeSideFromASweptDoubleGroove() {
        // A closed square groove with a second one 0.16 inside: base 0.16 - 0.1349 = 0.0251 (Q9), a ring that nothing
        // holds; foil left on the walls: perimeter times (top - bottom width) / 2 at each of four walls.
        CutPath.Builder b = CutPath.builder();
        CutLines.Builder lines = CutLines.builder();
        for (int k = 0; k < 2; k++) {
            double a = 2 + 0.16 * k;
            double z = 8 - 0.16 * k;
            double[] xy = {a, a, z, a, z, z, a, z, a, a};
            lines.begin(a, a, 0, 10 * k + 1);
            for (int i = 0; i + 3 < xy.length; i += 2) {
                b.line(xy[i], xy[i + 1], -0.1, xy[i + 2], xy[i + 3], -0.1);
                lines.add(xy[i + 2], xy[i + 3], 0, 10 * k + 2 + i / 2, true);
            }
        }
        ComposedBoard board = board(10, 10, 0.0348, 0.01, b.build(), ToolProfile.vFlatTip(30 * DEG, 0.1, 3.175, 0));
        SideCopper.Run run =
                new SideCopper.Run(0, lines.build(), true, new ZWindowSetup.Deepest(0.1, 2, 2, 0, 2), -0.03, 0.03);
        SideCopper side = new SideCopper(board, 1, List.of(run), List.of(), null, SideCopper.Limits.DEFAULTS);
        assertThat(side.map().pieces()).hasSize(3);
        assertThat(side.strips()).hasSize(1);
        Strip hair = side.strips().get(0);
        assertThat(hair.grade()).isEqualTo(Strip.Grade.HAIR);
        assertThat(hair.baseMm()).isCloseTo(0.16 - 0.13494, within(0.002));
        assertThat(hair.lengthMm()).isCloseTo(4 * 5.84, within(0.7));
        assertThat(hair.leftover()).isTrue();
        assertThat(hair.freeEnds()).isZero();
        // Walls: outer loop 24 mm outside, inner loop 22.72 mm inside; the hair between has no more than its knife top.
        double wall = 0.5 * (0.15359 - 0.13494);
        double hairLeft = 4 * 5.84 * (0.02506 - Math.max(0, 0.16 - 0.15359));
        assertThat(side.foilLeftMm2())
                .isCloseTo(wall * (24 + 22.72) + hairLeft, within(0.01 + side.foilLeftErrorMm2()));
        assertThat(side.foilLeft(run)).isEmpty();
        ZWindow w = side.window(run);
        assertThat(w.fromMm()).isCloseTo(0.0348 + 0.005 - 0.1, within(1e-6));
        assertThat(w.toMm()).isCloseTo(0.05, within(1e-9));
        assertThat(side.jointWindow().toMm()).isCloseTo(0.05, within(1e-9));
        assertThat(side.gaps()).hasSize(2);
    }
}
