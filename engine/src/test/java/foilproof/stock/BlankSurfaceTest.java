package foilproof.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Touch;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.triangulate.DelaunayTriangulationBuilder;

class BlankSurfaceTest {
    @Test
    void shouldBeAPlaneThroughThreePoints() {
        BlankSurface plane =
                BlankSurface.ofTouches(List.of(new Touch(1, 1, 0.1), new Touch(9, 1, 0.3), new Touch(1, 9, -0.1)));
        // Closed form: 0.1 + 0.025 (x - 1) - 0.025 (y - 1), inside and outside the triangle.
        for (double[] p : new double[][] {{2, 2}, {9, 9}, {-5, 3}, {40, -7}}) {
            assertThat(plane.heightMm(p[0], p[1]))
                    .isEqualTo(0.1 + 0.025 * (p[0] - 1) - 0.025 * (p[1] - 1), within(1e-12));
        }
        assertThat(plane.highestMm(20, 10)).isEqualTo(0.1 + 0.025 * 19 + 0.025, within(1e-12));
    }

    @Test
    void shouldSplitFourPointsOnOneCircleAlongTheDiagonalThatRisesToTheRight() {
        List<Touch> square = new ArrayList<>(
                List.of(new Touch(0, 0, 1), new Touch(10, 0, 0), new Touch(10, 8, 1), new Touch(0, 8, 0)));
        for (int k = 0; k < 8; k++) {
            Collections.shuffle(square, new Random(k));
            // Along the rising diagonal both ends are 1; the falling one would give 0 in the middle.
            assertThat(BlankSurface.ofTouches(square).heightMm(5, 4)).isEqualTo(1, within(1e-12));
        }
    }

    @Test
    void shouldSplitEveryFieldOfAGridAlongTheRisingDiagonal() {
        List<Touch> grid = new ArrayList<>();
        for (int j = 0; j < 6; j++) {
            for (int i = 0; i < 7; i++) {
                grid.add(new Touch(0.1 + 3.3 * i, 0.2 + 2.7 * j, (i + j) % 2 == 0 ? 1 : 0));
            }
        }
        BlankSurface surface = BlankSurface.ofTouches(grid);
        for (int j = 0; j < 5; j++) {
            for (int i = 0; i < 6; i++) {
                double middle = surface.heightMm(0.1 + 3.3 * (i + 0.5), 0.2 + 2.7 * (j + 0.5));
                assertThat(middle).as("field %d %d", i, j).isEqualTo((i + j) % 2 == 0 ? 1 : 0, within(1e-9));
            }
        }
    }

    @Test
    void shouldTakeTheNearestPlaceOfTheHullsEdgeOutside() {
        BlankSurface surface = BlankSurface.ofTouches(
                List.of(new Touch(0, 0, 0), new Touch(10, 0, 0.2), new Touch(10, 10, 0.4), new Touch(0, 10, 0.1)));
        assertThat(surface.heightMm(5, -3)).isEqualTo(0.1, within(1e-12));
        assertThat(surface.heightMm(14, 2.5)).isEqualTo(0.25, within(1e-12));
        assertThat(surface.heightMm(17, 19)).isEqualTo(0.4, within(1e-12));
        assertThat(surface.heightMm(-1, -1)).isEqualTo(0, within(1e-12));
    }

    @Test
    void shouldAgreeWithAnotherLibrarysTriangulationOnRandomPoints() {
        long seed = 5;
        Random random = new Random(seed);
        for (int n = 0; n < 20; n++) {
            List<Touch> touches = new ArrayList<>();
            List<Coordinate> sites = new ArrayList<>();
            for (int k = 0; k < 40; k++) {
                Touch t = new Touch(100 * random.nextDouble(), 80 * random.nextDouble(), random.nextDouble());
                touches.add(t);
                sites.add(new Coordinate(t.xMm(), t.yMm(), t.heightMm()));
            }
            BlankSurface surface = BlankSurface.ofTouches(touches);
            DelaunayTriangulationBuilder builder = new DelaunayTriangulationBuilder();
            builder.setSites(sites);
            Geometry triangles = builder.getTriangles(new GeometryFactory());
            for (int t = 0; t < triangles.getNumGeometries(); t++) {
                Coordinate[] c = triangles.getGeometryN(t).getCoordinates();
                double x = (c[0].x + c[1].x + c[2].x) / 3;
                double y = (c[0].y + c[1].y + c[2].y) / 3;
                double z = (c[0].getZ() + c[1].getZ() + c[2].getZ()) / 3;
                assertThat(surface.heightMm(x, y)).as("seed %d set %d", seed, n).isEqualTo(z, within(1e-9));
            }
        }
    }

    @Test
    void shouldGiveRowsThatAgreeWithPoints() {
        long seed = 8;
        Random random = new Random(seed);
        List<Touch> touches = new ArrayList<>();
        for (int k = 0; k < 25; k++) {
            touches.add(new Touch(20 * random.nextDouble(), 16 * random.nextDouble(), random.nextDouble()));
        }
        BlankSurface surface = BlankSurface.ofTouches(touches);
        double[] row = new double[900];
        for (double y : new double[] {-3, 0, 4.4, 7, 12.3, 20}) {
            surface.rowMm(-3, y, 0.03, row.length, row);
            for (int i = 0; i < row.length; i++) {
                assertThat(row[i]).as("seed %d", seed).isEqualTo(surface.heightMm(-3 + 0.03 * i, y), within(1e-9));
            }
        }
    }

    @Test
    void shouldSayWhenTouchedPointsAreTooFewOrOnOneLine() {
        assertThatThrownBy(() -> BlankSurface.ofTouches(List.of(new Touch(0, 0, 0), new Touch(1, 0, 0))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("three");
        assertThatThrownBy(() -> BlankSurface.ofTouches(
                        List.of(new Touch(0, 0, 0), new Touch(1, 1, 0), new Touch(2, 2, 1), new Touch(3, 3, 1))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("one line");
        assertThatThrownBy(() -> BlankSurface.ofTouches(
                        List.of(new Touch(0, 0, 0), new Touch(1, 0, 0), new Touch(0, 1, 1), new Touch(0, 1, 2))))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
