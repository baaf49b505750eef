package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Pixels read back are held against the snapshot itself: the same place must mean the same material. */
class PicturesTest {
    private static final int WIDTH = 900;
    private static final int HEIGHT = 600;
    private static OffscreenRenderer renderer;
    private static boolean graphics;

    @BeforeAll
    static void start() {
        renderer = new OffscreenRenderer();
        graphics = renderer.start().handle((words, error) -> error == null).join();
    }

    @AfterAll
    static void stop() {
        renderer.close();
    }

    private static Frame draw(BoardSnapshot b, BoardSnapshot.Conditions c, Camera camera, Look look)
            throws GraphicsException {
        assumeTrue(graphics, "needs OpenGL 3.3");
        return OffscreenRenderer.await(renderer.draw(new OffscreenRenderer.Request(b, c, camera, look, WIDTH, HEIGHT)));
    }

    private static Look plain() {
        return Look.still(false).fine(1, false);
    }

    /** Mean colour of a few pixels round a place. */
    private static double[] colour(Frame f, double x, double y) {
        double[] sum = new double[3];
        for (int dy = -1; dy <= 1; dy++) {
            for (int dx = -1; dx <= 1; dx++) {
                int p = f.rgb()[((int) y + dy) * f.width() + (int) x + dx];
                sum[0] += (p >> 16 & 255) / 9.0;
                sum[1] += (p >> 8 & 255) / 9.0;
                sum[2] += (p & 255) / 9.0;
            }
        }
        return sum;
    }

    private static boolean alike(BoardSnapshot b, BoardSnapshot.Conditions c, double x, double y, double reachMm) {
        BoardSnapshot.Material m = b.spot(c, x, y).material();
        double z = b.spot(c, x, y).zMm();
        for (int i = 0; i < 16; i++) {
            double a = Math.PI * i / 8;
            for (double r : new double[] {reachMm, reachMm / 2}) {
                BoardSnapshot.Spot s = b.spot(c, x + r * Math.cos(a), y + r * Math.sin(a));
                if (s.material() != m || Math.abs(s.zMm() - z) > 0.02) {
                    return false;
                }
            }
        }
        return true;
    }

    /** The material of the reference whose hue, and then lightness, is nearest. */
    private static BoardSnapshot.Material nearest(Map<BoardSnapshot.Material, double[]> known, double[] c) {
        BoardSnapshot.Material best = BoardSnapshot.Material.FOIL;
        double least = Double.MAX_VALUE;
        for (var e : known.entrySet()) {
            double[] k = e.getValue();
            double d = 0;
            // Hue counts more than lightness, which grain and light move about.
            double kGrey = (k[0] + k[1] + k[2]) / 3;
            double cGrey = (c[0] + c[1] + c[2]) / 3;
            for (int i = 0; i < 3; i++) {
                d += Math.pow(k[i] / kGrey - c[i] / cGrey, 2);
            }
            d += Math.pow((kGrey - cGrey) / 255, 2) * 0.5;
            if (d < least) {
                least = d;
                best = e.getKey();
            }
        }
        return best;
    }

    @Test
    void shouldShowTheMaterialThatTheSnapshotSaysAtTwoHundredSeededPlaces() throws GraphicsException {
        for (BoardSnapshot.Substrate substrate : BoardSnapshot.Substrate.values()) {
            BoardSnapshot b = SyntheticBoard.small(substrate);
            BoardSnapshot.Conditions c = b.baseConditions();
            Camera camera = Camera.top(b, WIDTH, HEIGHT);
            Frame f = draw(b, c, camera, plain());
            // References: a stretch of each material, far from any edge; both grain and light vary along it.
            Map<BoardSnapshot.Material, double[]> known = new EnumMap<>(BoardSnapshot.Material.class);
            known.put(BoardSnapshot.Material.FOIL, along(f, camera, 6, 34, 3.8));
            known.put(BoardSnapshot.Material.SUBSTRATE, along(f, camera, 21, 29, 9));
            known.put(BoardSnapshot.Material.SPOIL_BOARD, along(f, camera, 2, 38, -3));
            Random random = new Random(20260101 + substrate.ordinal());
            int asked = 0;
            for (int tries = 0; tries < 200_000 && asked < 200; tries++) {
                double x = random.nextDouble() * 46 - 3;
                double y = random.nextDouble() * 36 - 3;
                BoardSnapshot.Material m = b.spot(c, x, y).material();
                // Every second question goes to the rare materials, so that the foil does not answer them all.
                boolean rare =
                        m == BoardSnapshot.Material.SUBSTRATE || b.onBlank(x, y) && m != BoardSnapshot.Material.FOIL;
                if (!known.containsKey(m) || rare != (asked % 2 == 0) || !alike(b, c, x, y, 0.16) || hidden(x, y)) {
                    continue;
                }
                asked++;
                assertThat(nearest(known, at(f, camera, x, y)))
                        .as("seed %d: %s at %.3f, %.3f mm", 20260101 + substrate.ordinal(), substrate, x, y)
                        .isEqualTo(m);
            }
            assertThat(asked).isEqualTo(200);
        }
    }

    /** Where clamp, touch point and clip stand over the board. */
    private static boolean hidden(double x, double y) {
        return x < 0.5 && y > 8 && y < 22 || y > 26 && (x < 2.5 || x > 35.5);
    }

    private static double[] along(Frame f, Camera camera, double x0, double x1, double y) {
        double[] sum = new double[3];
        for (int i = 0; i < 50; i++) {
            double[] c = at(f, camera, x0 + (x1 - x0) * i / 49, y);
            for (int k = 0; k < 3; k++) {
                sum[k] += c[k] / 50;
            }
        }
        return sum;
    }

    private static double[] at(Frame f, Camera camera, double x, double y) {
        double[] p = camera.project(x, y, 0, WIDTH, HEIGHT);
        return colour(f, p[0], p[1]);
    }

    @Test
    void shouldAnswerAMovedZErrorInTheVeryNextFrame() throws GraphicsException {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
        Camera camera = Camera.top(b, WIDTH, HEIGHT).at(17, 27, 0).showing(3);
        double[] base = at(draw(b, b.baseConditions(), camera, plain()), camera, 17, 27);
        // 0.010 deep in 17.4 um of foil leaves 7.4 um: 0.020 deeper gets through to the substrate.
        BoardSnapshot.Conditions deeper =
                new BoardSnapshot.Conditions(new double[] {0.020}, 0, b.foilMm(), 0, new boolean[0]);
        assertThat(b.spot(b.baseConditions(), 17, 27).material()).isEqualTo(BoardSnapshot.Material.FOIL_LEFT);
        assertThat(b.spot(deeper, 17, 27).material()).isEqualTo(BoardSnapshot.Material.SUBSTRATE);
        double[] through = at(draw(b, deeper, camera, plain()), camera, 17, 27);
        double[] substrate = at(draw(b, b.baseConditions(), camera.at(25, 9, 0), plain()), camera.at(25, 9, 0), 25, 9);
        assertThat(distance(through, substrate)).isLessThan(40);
        assertThat(distance(base, substrate)).isGreaterThan(60);
        // The same run left out: foil, untouched.
        BoardSnapshot.Conditions forgotten =
                new BoardSnapshot.Conditions(new double[0], 0, b.foilMm(), 0, new boolean[] {true});
        double[] foil = at(draw(b, forgotten, camera, plain()), camera, 17, 27);
        double[] elsewhere =
                at(draw(b, b.baseConditions(), camera.at(17, 25.5, 0), plain()), camera.at(17, 25.5, 0), 17, 25.5);
        assertThat(distance(foil, elsewhere)).isLessThan(40);
    }

    private static double distance(double[] a, double[] b) {
        return Math.sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) + (a[2] - b[2]) * (a[2] - b[2]));
    }

    @Test
    void shouldLetTheBackgroundThroughHolesWhereTheBlankIsLifted() throws GraphicsException {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_4);
        Camera below = Camera.bottom(b, WIDTH, HEIGHT);
        Frame f = draw(b, b.baseConditions(), below, plain());
        double[] p = below.project(5, 6, -b.thicknessMm(), WIDTH, HEIGHT);
        double[] hole = colour(f, p[0], p[1]);
        double[] corner = colour(f, 5, HEIGHT / 2.0);
        double[] q = below.project(20, 15, -b.thicknessMm(), WIDTH, HEIGHT);
        assertThat(distance(hole, corner)).isLessThan(30);
        assertThat(distance(colour(f, q[0], q[1]), corner)).isGreaterThan(60);
        // Seen from below as if turned about Y, X runs to the left.
        assertThat(below.project(30, 15, 0, WIDTH, HEIGHT)[0]).isLessThan(below.project(10, 15, 0, WIDTH, HEIGHT)[0]);
    }

    @Test
    void shouldDrawTheSameBytesTwice() throws GraphicsException {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
        Camera camera = Camera.oblique(b, WIDTH, HEIGHT);
        Look look = Look.still(true).fine(3, true);
        int[] once = draw(b, b.baseConditions(), camera, look).rgb();
        assertThat(draw(b, b.baseConditions(), camera, look).rgb()).isEqualTo(once);
    }

    @Test
    void shouldHatchFoilLeftInAGrooveWithDarkAndPaleStripes() throws GraphicsException {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
        Camera camera = Camera.top(b, WIDTH, HEIGHT).at(17, 27, 0).showing(0.5);
        Frame f = draw(b, b.baseConditions(), camera, plain());
        double darkest = 255;
        double palest = 0;
        for (int i = 0; i < 40; i++) {
            int p = f.rgb()[HEIGHT / 2 * WIDTH + WIDTH / 2 + i];
            double grey = 0.299 * (p >> 16 & 255) + 0.587 * (p >> 8 & 255) + 0.114 * (p & 255);
            darkest = Math.min(darkest, grey);
            palest = Math.max(palest, grey);
        }
        assertThat(palest - darkest).isGreaterThan(70);
    }

    @Test
    void shouldRefusePicturesThatCannotBeDrawnInWords() {
        assumeTrue(graphics, "needs OpenGL 3.3");
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
        OffscreenRenderer.Request q =
                new OffscreenRenderer.Request(b, b.baseConditions(), Camera.top(b, 10, 10), plain(), 1_000_000, 10);
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> OffscreenRenderer.await(renderer.draw(q)))
                .isInstanceOf(GraphicsException.class)
                .hasMessageContaining("can be drawn here");
    }
}
