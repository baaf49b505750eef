package foilproof.stock;

import static foilproof.stock.StockFixtures.FOIL_MM;
import static foilproof.stock.StockFixtures.across;
import static foilproof.stock.StockFixtures.groove;
import static foilproof.stock.StockFixtures.onFlat;
import static foilproof.stock.StockFixtures.rad;
import static foilproof.stock.StockFixtures.sweep;
import static foilproof.stock.StockFixtures.v30;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Widths and heights of grooves against the closed forms of check-values section 2. */
class GrooveTest {
    private static double width(ComposedSide side, double angleRad, double depthMm) {
        List<Section.Span> spans = across(side, angleRad, 0, 0).cutDeeperThan(depthMm);
        assertThat(spans).hasSize(1);
        return spans.get(0).widthMm();
    }

    /** Width from cell centres alone, along the row through the middle, walls interpolated; times the sine to square. */
    private static double gridWidth(ComposedSide side, double angleRad, double depthMm) {
        int j = (int) (8 / side.cellMm());
        float[] row = new float[side.columns()];
        side.cutRow(j, 0, row.length, row);
        double from = Double.NaN;
        double to = Double.NaN;
        for (int i = 0; i + 1 < row.length; i++) {
            double a = row[i] + depthMm;
            double b = row[i + 1] + depthMm;
            if (a > 0 && b <= 0) {
                from = i + a / (a - b);
            } else if (a <= 0 && b > 0) {
                to = i + a / (a - b);
            }
        }
        return (to - from) * side.cellMm() * Math.abs(StrictMath.sin(angleRad));
    }

    @Test
    void shouldCutVGroovesAt37DegreesWithinTwoMicrometresAtATenMicrometreCell() {
        double angle = rad(37);
        ComposedSide side = onFlat(sweep(groove(angle, 0.1, 0, 0), v30(0.1), 0.01));
        assertThat(width(side, angle, 0)).as("Q1").isEqualTo(0.15359, within(1e-5));
        assertThat(width(side, angle, FOIL_MM)).as("Q7").isEqualTo(0.13494, within(1e-5));
        assertThat(gridWidth(side, angle, 0)).as("Q1 from cells").isEqualTo(0.15359, within(0.002));
        assertThat(gridWidth(side, angle, FOIL_MM)).as("Q7 from cells").isEqualTo(0.13494, within(0.002));
        ComposedSide shallow = onFlat(sweep(groove(angle, 0.05, 0, 0), v30(0.1), 0.01));
        assertThat(width(shallow, angle, 0)).as("Q8 top").isEqualTo(0.12679, within(1e-5));
        assertThat(width(shallow, angle, 0.0174)).as("Q8 bottom").isEqualTo(0.11747, within(1e-5));
    }

    @Test
    void shouldLeaveNoGapWhereTheGrooveIsNoDeeperThanTheFoil() {
        ComposedSide side = onFlat(sweep(groove(0.3, 0.034, 0, 0), v30(0.1), 0.01));
        assertThat(across(side, 0.3, 0, 0).cutDeeperThan(FOIL_MM))
                .as("Q7, d <= foil")
                .isEmpty();
    }

    @Test
    void shouldLeaveATraceBetweenTwoGrooves() {
        CutPath path = CutPath.builder()
                .line(4, 7.5, -0.1, 16, 7.5, -0.1)
                .line(4, 8.5, -0.1, 16, 8.5, -0.1)
                .build();
        ComposedSide side = onFlat(sweep(path, v30(0.1), 0.01));
        Section section = new Section(side, 10, 7, 10, 9, 0.005);
        List<Section.Span> top = section.cutDeeperThan(0);
        List<Section.Span> bottom = section.cutDeeperThan(FOIL_MM);
        assertThat(top.get(1).fromMm() - top.get(0).toMm()).as("Q9 top").isEqualTo(0.84641, within(1e-5));
        assertThat(bottom.get(1).fromMm() - bottom.get(0).toMm())
                .as("Q9 bottom")
                .isEqualTo(0.86506, within(1e-5));
    }

    @Test
    void shouldPlaceFlatWallsWithinHalfACellAtAnyAngleAndHoldThePlusMinusOnAThousandGrooves() {
        long seed = 20261125;
        Random random = new Random(seed);
        double cell = 0.02;
        for (int n = 0; n < 1000; n++) {
            double angle = Math.PI * random.nextDouble();
            double diameter = 0.3 + 0.6 * random.nextDouble();
            double dx = random.nextDouble() * cell;
            double dy = random.nextDouble() * cell;
            double c = 0.6 * StrictMath.cos(angle);
            double s = 0.6 * StrictMath.sin(angle);
            CutPath path = CutPath.builder()
                    .line(10 + dx - c, 8 + dy - s, -0.2, 10 + dx + c, 8 + dy + s, -0.2)
                    .build();
            ComposedSide side = onFlat(Envelope.sweep(
                    path, ToolProfile.flat(diameter, 0), new SweepSettings(cell, 0.3, 8, 6, 12, 10, 1), 0));
            List<Section.Span> spans = across(side, angle, dx, dy).cutDeeperThan(FOIL_MM);
            assertThat(spans).as("seed %d groove %d", seed, n).hasSize(1);
            assertThat(spans.get(0).widthMm())
                    .as("seed %d groove %d", seed, n)
                    .isEqualTo(diameter, within(Section.PLUS_MINUS_MM));
            // Every cell centre is on the side of the wall that its distance says.
            for (int k = 0; k < 40; k++) {
                int i = (int) (10 / cell) + random.nextInt(40) - 20;
                int j = (int) (8 / cell) + random.nextInt(40) - 20;
                double x = (i + 0.5) * cell - 10 - dx;
                double y = (j + 0.5) * cell - 8 - dy;
                double t = Math.max(-0.6, Math.min(0.6, (x * c + y * s) / 0.6));
                double d = Math.hypot(x - t * c / 0.6, y - t * s / 0.6);
                if (Math.abs(d - diameter / 2) > 1e-6) {
                    assertThat(side.heightMm(i, j) < -0.1)
                            .as("seed %d groove %d cell %d %d", seed, n, i, j)
                            .isEqualTo(d < diameter / 2);
                }
            }
        }
    }

    @Test
    void shouldRaiseSteeperWallsUnderARampedPointedCone() {
        double[][] q17 = {{0, 0.107180}, {0.1, 0.107218}, {0.5, 0.108155}, {1.0, 0.111248}};
        for (double[] row : q17) {
            // The tip passes the middle, (10, 8), at 0.2 deep; long enough that both ends are far away.
            double run = 1.2;
            CutPath path = CutPath.builder()
                    .line(10 - run, 8, -0.2 + run * row[0], 10 + run, 8, -0.2 - run * row[0])
                    .build();
            ComposedSide side = onFlat(sweep(path, v30(0), 0.01));
            // The section square to the path sees the wall that the tip left there, at any place along it.
            List<Section.Span> spans = new Section(side, 10, 7.5, 10, 8.5, 0.004).cutDeeperThan(0);
            assertThat(spans).hasSize(1);
            assertThat(spans.get(0).widthMm()).as("Q17 m %s", row[0]).isEqualTo(row[1], within(2e-6));
        }
    }

    @Test
    void shouldLeaveScallopsBetweenBallPassesAndRidgesBetweenVPasses() {
        CutPath passes = CutPath.builder()
                .line(4, 7.9, -0.3, 16, 7.9, -0.3)
                .line(4, 8.1, -0.3, 16, 8.1, -0.3)
                .build();
        Envelope ball = sweep(passes, ToolProfile.ball(1, 0), 0.01);
        assertThat(ball.exactHeightMm(10, 8) + 0.3).as("Q18").isEqualTo(0.0101021, within(1e-7));
        CutPath wide = CutPath.builder()
                .line(4, 7.75, -1, 16, 7.75, -1)
                .line(4, 8.25, -1, 16, 8.25, -1)
                .build();
        Envelope large = sweep(wide, ToolProfile.ball(6, 0), 0.01);
        assertThat(large.exactHeightMm(10, 8) + 1).as("Q18").isEqualTo(0.0104348, within(1e-7));
        CutPath close = CutPath.builder()
                .line(4, 7.925, -0.05, 16, 7.925, -0.05)
                .line(4, 8.075, -0.05, 16, 8.075, -0.05)
                .build();
        Envelope bit = sweep(close, v30(0.1), 0.01);
        assertThat(bit.exactHeightMm(10, 8) + 0.05).as("Q19 ridge").isEqualTo(0.0933, within(1e-4));
        List<Section.Span> cut = new Section(onFlat(bit), 10, 7.5, 10, 8.5, 0.004).cutDeeperThan(0);
        assertThat(cut.get(1).fromMm() - cut.get(0).toMm()).as("Q19 strip").isEqualTo(0.02321, within(1e-5));
    }

    @Test
    void shouldPutTheFullDiameterOfADrillAtTheUndersideWhenThePointIsThrough() {
        double[][] q22 = {{118, 1.84034, 0.240}, {130, 1.78652, 0.187}};
        for (double[] row : q22) {
            CutPath plunge = CutPath.builder().line(10, 8, 1, 10, 8, -row[1]).build();
            Envelope hole = sweep(plunge, ToolProfile.drill(0.8, rad(row[0]), 0), 0.01);
            assertThat(hole.exactHeightMm(10.4 - 1e-9, 8)).as("Q22 edge").isEqualTo(-1.6, within(1e-4));
            assertThat(-1.6 - hole.exactHeightMm(10, 8)).as("Q22 point").isEqualTo(row[2], within(1e-3));
        }
    }

    @Test
    void shouldWidenAGrooveByTheRunout() {
        ComposedSide side = onFlat(sweep(groove(0.7, 0.1, 0, 0), ToolProfile.flat(0.79375, 0.0127), 0.01));
        assertThat(width(side, 0.7, FOIL_MM)).as("Q26").isEqualTo(0.80645, within(2e-6));
    }
}
