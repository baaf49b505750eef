package foilproof.stock;

import static foilproof.stock.StockFixtures.BLANK;
import static foilproof.stock.StockFixtures.FOIL_MM;
import static foilproof.stock.StockFixtures.board;
import static foilproof.stock.StockFixtures.groove;
import static foilproof.stock.StockFixtures.onFlat;
import static foilproof.stock.StockFixtures.rad;
import static foilproof.stock.StockFixtures.sweep;
import static foilproof.stock.StockFixtures.v30;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Touch;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/** Areas and volumes against closed forms (check-values Q10 to Q12, Q15, Q20, Q24, Q27) and against JTS. */
class RemovedTest {
    private static final double CELL = 0.01;

    private static double area(double depthMm, Envelope... runs) {
        return Areas.deeperThanMm2(onFlat(runs), depthMm, 2);
    }

    private static CutPath plunge(double x, double y, double z) {
        return CutPath.builder().line(x, y, 1, x, y, z).build();
    }

    @Test
    void shouldMeasureAStraightPassAsACapsule() {
        for (double angle : new double[] {0, 0.2, Math.PI / 4, 1.1}) {
            double c = 5 * StrictMath.cos(angle);
            double s = 5 * StrictMath.sin(angle);
            CutPath path = CutPath.builder()
                    .line(10 - c, 8 - s, -0.2, 10 + c, 8 + s, -0.2)
                    .build();
            Envelope cut = sweep(path, ToolProfile.flat(0.79375, 0), CELL);
            assertThat(area(FOIL_MM, cut)).as("Q10 at %s rad", angle).isEqualTo(8.432332, within(2e-4));
            Removed removed = Removed.of(board(BlankSurface.FLAT, BLANK, cut).under(Conditions.NOMINAL), 2);
            assertThat(removed.foilMm3()).isEqualTo(8.432332 * FOIL_MM, within(1e-5));
            assertThat(removed.substrateMm3()).isEqualTo(8.432332 * (0.2 - FOIL_MM), within(5e-5));
            assertThat(removed.spoilBoardMm3()).isZero();
        }
    }

    @Test
    void shouldMeasureAClosedRingAndLeaveItsIsland() {
        CutPath ring = CutPath.builder()
                .line(5, 6, -0.1, 15, 6, -0.1)
                .line(15, 6, -0.1, 15, 10, -0.1)
                .line(15, 10, -0.1, 5, 10, -0.1)
                .line(5, 10, -0.1, 5, 6, -0.1)
                .build();
        Envelope cut = sweep(ring, ToolProfile.flat(0.2, 0), CELL);
        assertThat(area(FOIL_MM, cut)).as("Q11").isEqualTo(5.591416, within(2e-4));
    }

    @Test
    void shouldMeasureOverlappingDiscsTheirNeckAndInsideCorners() {
        Envelope one = sweep(plunge(9.5, 8, -0.2), ToolProfile.flat(2, 0), CELL);
        Envelope two = sweep(plunge(10.5, 8, -0.2), ToolProfile.flat(2, 0), CELL);
        double lens = area(FOIL_MM, one) + area(FOIL_MM, two) - area(FOIL_MM, one, two);
        assertThat(lens).as("Q12").isEqualTo(1.2283697, within(1e-3));
        List<Section.Span> neck = new Section(onFlat(one, two), 10, 6, 10, 10, 0.01).cutDeeperThan(FOIL_MM);
        assertThat(neck.get(0).widthMm()).as("Q15").isEqualTo(1.7320508, within(2e-6));
        assertThat(area(FOIL_MM, one)).as("disc, no polygon of it (Q24)").isEqualTo(Math.PI, within(3e-4));
        // An L of two passes leaves in its inside corner what a round tool cannot reach; outside it is round.
        double r = 0.396875;
        CutPath corner = CutPath.builder()
                .line(6, 6, -0.2, 12, 6, -0.2)
                .line(12, 6, -0.2, 12, 10, -0.2)
                .build();
        // Two capsules less what they share: a square of side r inside the bend and three quarters of a disc.
        double shared = r * r + 0.75 * Math.PI * r * r;
        double expected = (2 * r * 6 + Math.PI * r * r) + (2 * r * 4 + Math.PI * r * r) - shared;
        assertThat(area(FOIL_MM, sweep(corner, ToolProfile.flat(2 * r, 0), CELL)))
                .isEqualTo(expected, within(3e-4));
        assertThat(r * r * (1 / StrictMath.tan(Math.PI / 4) - (Math.PI - Math.PI / 2) / 2))
                .as("Q20, closed form used by the pocket below")
                .isEqualTo(0.0338019, within(1e-7));
        CutPath.Builder pocket = CutPath.builder();
        for (int k = 0; k <= 20; k++) {
            pocket.line(7, 6 + 0.2 * k, -0.2, 13, 6 + 0.2 * k, -0.2);
        }
        double whole = (6 + 2 * r) * (4 + 2 * r);
        double outside = 4 * 0.0338019;
        // Along both short sides the passes leave scallops; a pass up each side takes them away.
        pocket.line(7, 6, -0.2, 7, 10, -0.2).line(13, 6, -0.2, 13, 10, -0.2);
        assertThat(area(FOIL_MM, sweep(pocket.build(), ToolProfile.flat(2 * r, 0), CELL)))
                .as("pocket with four corners of Q20")
                .isEqualTo(whole - outside, within(5e-4));
    }

    @Test
    void shouldMeasureLensesOfOtherDiscsAndArcsApartFromTheirChords() {
        double[][] q12 = {{0.5, 0.5, 0.4, 0.3963367}, {1, 0.5, 1, 0.3507666}, {0.396875, 0.396875, 0.5, 0.1260426}};
        for (double[] row : q12) {
            Envelope one = sweep(plunge(9.7, 8, -0.2), ToolProfile.flat(2 * row[0], 0), CELL);
            Envelope two = sweep(plunge(9.7 + row[2], 8, -0.2), ToolProfile.flat(2 * row[1], 0), CELL);
            double lens = area(FOIL_MM, one) + area(FOIL_MM, two) - area(FOIL_MM, one, two);
            assertThat(lens).as("Q12").isEqualTo(row[3], within(1e-3));
        }
        // Q23: an arc of radius 5 stands 0.0250628 off its chord of 1.
        double half = StrictMath.asin(0.1);
        CutPath arc = CutPath.builder()
                .arc(10 - 0.5, 4 + 5 * StrictMath.cos(half), -0.1, 10, 4, -2 * half, -0.1)
                .build();
        Section section = new Section(onFlat(sweep(arc, ToolProfile.flat(0.2, 0), CELL)), 10, 8, 10, 10, 0.01);
        double middle = (section.cutDeeperThan(FOIL_MM).get(0).fromMm()
                        + section.cutDeeperThan(FOIL_MM).get(0).toMm())
                / 2;
        assertThat(8 + middle - (4 + 5 * StrictMath.cos(half))).as("Q23").isEqualTo(0.0250628, within(2e-6));
    }

    @Test
    void shouldRemoveTheCrossSectionOfAVGroove() {
        double angle = rad(37);
        Envelope cut = sweep(groove(angle, 0.1, 0, 0), v30(0.1), CELL);
        Removed removed = Removed.of(board(BlankSurface.FLAT, BLANK, cut).under(Conditions.NOMINAL), 2);
        // Q27 over 8 mm, and at the ends a frustum of a cone of radii 0.05 and 0.0767949.
        double a = 0.05;
        double b = 0.05 + 0.1 * StrictMath.tan(rad(15));
        double ends = Math.PI * 0.1 / 3 * (a * a + a * b + b * b);
        assertThat(removed.foilMm3() + removed.substrateMm3()).as("Q27").isEqualTo(8 * 0.0126795 + ends, within(5e-5));
    }

    @Test
    void shouldMeasureARampAHelixAndABowedBlank() {
        double r = 0.4;
        // Ramp of a flat tool from the foil top to 0.5 deep over 6 mm; the deepest place within r decides, so the floor
        // runs ahead of the axis: integral over the strip of min(0.5, m (x + sqrt(r2 - y2))).
        CutPath ramp = CutPath.builder().line(6, 8, 0, 12, 8, -0.5).build();
        Envelope cut = sweep(ramp, ToolProfile.flat(2 * r, 0), CELL);
        double m = 0.5 / 6;
        double expected = 0;
        int n = 4000;
        for (int k = 0; k < n; k++) {
            double y = -r + 2 * r * (k + 0.5) / n;
            double w = Math.sqrt(r * r - y * y);
            // The axis may stand w before or after: from -w the floor falls at m to the full depth at 6 - w, on to 6 +
            // w.
            expected += (m * 6 * 6 / 2 + 0.5 * 2 * w) * 2 * r / n;
        }
        Removed removed = Removed.of(board(BlankSurface.FLAT, BLANK, cut).under(Conditions.NOMINAL), 2);
        assertThat(removed.foilMm3() + removed.substrateMm3()).as("ramp").isEqualTo(expected, within(3e-4));
        // Helix down to 1.8 and a full turn there: a bore of radius R + r through blank, tape and into the spoil board.
        CutPath helix = CutPath.builder()
                .arc(10.3, 8, 0, 10, 8, 8 * Math.PI, -1.8)
                .arc(10.3, 8, -1.8, 10, 8, 2 * Math.PI, -1.8)
                .build();
        double bore = Math.PI * 0.7 * 0.7;
        Removed hole = Removed.of(
                board(BlankSurface.FLAT, BLANK, sweep(helix, ToolProfile.flat(2 * r, 0), CELL))
                        .under(Conditions.NOMINAL),
                2);
        assertThat(hole.foilMm3()).as("bore").isEqualTo(bore * FOIL_MM, within(1e-5));
        assertThat(hole.substrateMm3()).isEqualTo(bore * (1.5 - FOIL_MM), within(4e-4));
        assertThat(hole.spoilBoardMm3()).isEqualTo(bore * (1.8 - 1.6), within(1e-4));
    }

    @Test
    void shouldMeasureATiltedBlank() {
        List<Touch> tilt = List.of(new Touch(0, 0, 0), new Touch(20, 0, 0.1), new Touch(0, 16, 0));
        CutPath path = CutPath.builder().line(5, 8, -0.2, 15, 8, -0.2).build();
        Envelope cut = sweep(path, ToolProfile.flat(1, 0), CELL);
        // Touched off at (1, 1), where the plane lies 0.005 high: the floor is flat at -0.195, the foil top 0.005 x.
        Removed removed =
                Removed.of(board(BlankSurface.ofTouches(tilt), BLANK, cut).under(Conditions.NOMINAL), 2);
        double area = 10 + Math.PI / 4;
        assertThat(removed.foilMm3() + removed.substrateMm3()).isEqualTo(area * (0.195 + 0.005 * 10), within(2e-4));
    }

    @Test
    void shouldAgreeWithBufferedLinesOfAnotherLibrary() {
        long seed = 99;
        Random random = new Random(seed);
        GeometryFactory factory = new GeometryFactory();
        for (int job = 0; job < 4; job++) {
            CutPath.Builder b = CutPath.builder();
            List<Coordinate> line = new ArrayList<>();
            double x = 10;
            double y = 8;
            line.add(new Coordinate(x, y));
            for (int k = 0; k < 40; k++) {
                double x1 = 2 + 16 * random.nextDouble();
                double y1 = 2 + 12 * random.nextDouble();
                b.line(x, y, -0.1, x1, y1, -0.1);
                line.add(new Coordinate(x1, y1));
                x = x1;
                y = y1;
            }
            Geometry judge =
                    factory.createLineString(line.toArray(new Coordinate[0])).buffer(0.1, 64);
            CutPath path = b.build();
            assertThat(area(FOIL_MM, sweep(path, ToolProfile.flat(0.2, 0), CELL)))
                    .as("seed %d job %d flat", seed, job)
                    .isEqualTo(judge.getArea(), within(judge.getArea() * 5e-4));
            double bottom = StockFixtures.v30(0.1).radiusMm(0.1 - FOIL_MM);
            Geometry vJudge =
                    factory.createLineString(line.toArray(new Coordinate[0])).buffer(bottom, 64);
            assertThat(area(FOIL_MM, sweep(path, v30(0.1), CELL)))
                    .as("seed %d job %d V", seed, job)
                    .isEqualTo(vJudge.getArea(), within(vJudge.getArea() * 1e-3));
        }
    }
}
