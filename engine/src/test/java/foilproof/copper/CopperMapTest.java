package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/** Areas and pieces against closed forms (check-values Q10, Q11, Q28) and JTS 1.20 (O1). */
class CopperMapTest {
    private static final GeometryFactory JTS = new GeometryFactory();

    private static GrooveField field(double w, double h, double cell) {
        return new GrooveField(w, h, cell, 0.0348, 0.3);
    }

    @Test
    void shouldFindNothingClearedOnAnUntouchedBlankWhoseSizeIsNoMultipleOfTheCell() {
        CopperMap map = CopperMap.of(field(10.003, 7.0067, 0.01), 0);
        assertThat(map.copperMm2()).isCloseTo(10.003 * 7.0067, within(1e-9));
        assertThat(map.clearedMm2()).isCloseTo(0, within(1e-9));
        assertThat(map.pieces()).hasSize(1);
        assertThat(map.pieceAt(5, 5)).isZero();
        assertThat(map.pieceAt(11, 5)).isEqualTo(-1);
    }

    @Test
    void shouldHoldTheCapsuleOfOneStraightPassOfAFlatCutter() {
        // check-values Q10: r 0.396875, L 10: 8.432332 mm2
        CopperMap map = CopperMap.of(field(12, 3, 0.01).flat(1, 1.5037, 11, 1.5037, 0.1, 0.396875), 0);
        assertThat(map.clearedMm2()).isCloseTo(8.432332, within(Math.max(map.areaErrorMm2(), 1e-3)));
        assertThat(map.copperMm2() + map.clearedMm2()).isCloseTo(36, within(1e-12));
        assertThat(map.areaErrorMm2()).isLessThan(2e-3);
    }

    @Test
    void shouldHoldTheRingOfAClosedRectangleAndItsIsland() {
        // check-values Q11: rectangle 10 x 4, r 0.1: 5.591416 mm2, inner island 37.24 mm2
        GrooveField f = field(14, 8, 0.01);
        f.loop(0.1, 0.1, Double.POSITIVE_INFINITY, 2, 2, 12, 2, 12, 6, 2, 6, 2, 2);
        CopperMap map = CopperMap.of(f, 0);
        assertThat(map.pieces()).hasSize(2);
        assertThat(map.clearedMm2()).isCloseTo(5.591416, within(2e-3));
        assertThat(map.pieces().get(1).areaMm2()).isCloseTo(37.24, within(2e-3));
        Piece island = map.pieces().get(1);
        assertThat(map.pieceAt(island.insideXMm(), island.insideYMm())).isEqualTo(1);
        assertThat(new double[] {island.x0Mm(), island.y0Mm(), island.x1Mm(), island.y1Mm()})
                .containsExactly(new double[] {2.1, 2.1, 11.9, 5.9}, within(1e-4));
    }

    @Test
    void shouldLeaveOnePieceWhereTheLoopStaysOpen() {
        // check-values O1: ring left open by 0.3 with r 0.1: one piece; by 0.15: two
        for (double open : new double[] {0.3, 0.15}) {
            GrooveField f = field(14, 8, 0.01);
            f.loop(0.1, 0.1, Double.POSITIVE_INFINITY, 2, 2, 12, 2, 12, 6, 2, 6, 2, 2 + open);
            assertThat(CopperMap.of(f, 0).pieces()).hasSize(open > 0.2 ? 1 : 2);
        }
    }

    @Test
    void shouldPartCopperThatTouchesByACornerOnly() {
        // check-values Q28: 4-connected copper: two flat cuts whose corners of cleared ground touch leave two pieces
        GrooveField f = field(4, 4, 0.01);
        f.flat(0, 2, 4, 2, 0.1, 0.006);
        f.flat(2, 0, 2, 4, 0.1, 0.006);
        assertThat(CopperMap.of(f, 0).pieces()).hasSize(4);
    }

    @Test
    void shouldAgreeWithPolygonsOnRandomVGroovesAtAnyAngle() {
        long seed = 20260711;
        Random random = new Random(seed);
        int asked = 0;
        for (int board = 0; board < 20; board++) {
            GrooveField f = field(8.003, 6.004, 0.01);
            Geometry cut = JTS.createPolygon();
            // Q7: half the width at the foil's bottom, tip 0.10, 30 degrees, depth 0.1
            double half = 0.05 + (0.1 - 0.0348) / GrooveField.RISE_30;
            for (int k = 0; k < 12; k++) {
                double x0 = random.nextDouble() * 8;
                double y0 = random.nextDouble() * 6;
                double x1 = random.nextDouble() * 8;
                double y1 = random.nextDouble() * 6;
                f.v30(x0, y0, x1, y1, 0.1);
                Geometry line = JTS.createLineString(new Coordinate[] {new Coordinate(x0, y0), new Coordinate(x1, y1)});
                cut = cut.union(line.buffer(half, 64));
            }
            Geometry blank = JTS.toGeometry(new Envelope(0, 8.003, 0, 6.004));
            Geometry copper = blank.difference(cut);
            CopperMap map = CopperMap.of(f, 0);
            assertThat(map.copperMm2())
                    .as("board %d of seed %d", board, seed)
                    .isCloseTo(copper.getArea(), within(map.areaErrorMm2()));
            assertThat(map.areaErrorMm2()).isLessThan(0.1);
            // The number of pieces is asked only where it does not hang on less than a cell.
            int pieces = pieces(blank.difference(cut.buffer(0)));
            if (pieces == pieces(blank.difference(cut.buffer(0.006)))
                    && pieces == pieces(blank.difference(cut.buffer(-0.006)))) {
                asked++;
                assertThat(map.pieces()).as("board %d of seed %d", board, seed).hasSize(pieces);
            }
        }
        assertThat(asked).isGreaterThan(8);
    }

    private static int pieces(Geometry copper) {
        int pieces = 0;
        for (int g = 0; g < copper.getNumGeometries(); g++) {
            pieces += copper.getGeometryN(g).getArea() > CopperMap.CRUMB_MM2 ? 1 : 0;
        }
        return pieces;
    }

    @Test
    void shouldJoinWhatInterpolationJoinsSoThatAHairOfTenMicrometresIsOnePiece() {
        // Two V grooves at 37 degrees, pitch chosen so that 10 um of foil stay between them at the foil's bottom (Q9)
        GrooveField f = field(8, 8, 0.01);
        double w = 0.1 + 2 * (0.1 - 0.0348) / GrooveField.RISE_30;
        double pitch = w + 0.010;
        double c = StrictMath.cos(StrictMath.toRadians(37));
        double s = StrictMath.sin(StrictMath.toRadians(37));
        double u = 5.3;
        f.v30(4 - u * c, 4 - u * s, 4 + u * c, 4 + u * s, 0.1);
        f.v30(4 - u * c - pitch * s, 4 - u * s + pitch * c, 4 + u * c - pitch * s, 4 + u * s + pitch * c, 0.1);
        CopperMap map = CopperMap.of(f, 0);
        assertThat(map.pieces()).hasSize(3);
        assertThat(map.pieces().get(2).areaMm2()).isCloseTo(0.010 * 9.9, within(0.02));
    }

    @Test
    void shouldGiveTheSameNumbersForAnyNumberOfThreads() throws Exception {
        GrooveField f = field(8, 6, 0.01);
        Random random = new Random(5);
        for (int k = 0; k < 30; k++) {
            f.v30(
                    random.nextDouble() * 8,
                    random.nextDouble() * 6,
                    random.nextDouble() * 8,
                    random.nextDouble() * 6,
                    0.1);
        }
        java.util.concurrent.ForkJoinPool one = new java.util.concurrent.ForkJoinPool(1);
        java.util.concurrent.ForkJoinPool four = new java.util.concurrent.ForkJoinPool(4);
        CopperMap a = one.submit(() -> CopperMap.of(f, 0)).get();
        CopperMap b = four.submit(() -> CopperMap.of(f, 0)).get();
        assertThat(a.pieces()).isEqualTo(b.pieces());
        assertThat(a.copperMm2()).isEqualTo(b.copperMm2());
        one.shutdown();
        four.shutdown();
    }
}
