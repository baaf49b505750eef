package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import foilproof.bench.DiskFiles;
import foilproof.bench.JobReader;
import foilproof.bench.ReadOptions;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Progress;
import foilproof.source.InputException;
import foilproof.stock.ComposedSide;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The sample jobs, drawn from above, below and at a slant: the colour at a place, projected through the camera, must mean
 * the material that the engine's exact geometry says is there. Places nearer than {@link #AWAY_MM} to another material
 * or to a step of {@link #STEP_MM} are not asked: the picture's pixels are 0.05 to 0.1 mm there.
 */
class SamplePicturesTest {
    private static final double AWAY_MM = 0.22;
    private static final double STEP_MM = 0.03;
    private static final int ASKED = 200;
    private static final int WIDTH = 1280;
    private static final int HEIGHT = 800;
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

    static Stream<String> jobs() {
        return Stream.of(
                "thermistor-amplifier",
                "fine-pitch-breakout",
                "two-side-motor-bridge",
                "irrigation-pump-driver",
                "curved-lamp-insert",
                "keypad-panel");
    }

    private static JobScene scene(String name) throws InputException {
        Path folder = Path.of("../sample-jobs", name);
        if (!Files.isDirectory(folder)) {
            folder = Path.of("sample-jobs", name);
        }
        return new JobScene(Examiner.ground(
                JobReader.read(DiskFiles.source(folder), ReadOptions.DEFAULT),
                new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, 2, Progress.NONE)));
    }

    /** What the engine says lies bare at a place: FOIL, SUBSTRATE or SPOIL_BOARD; null where it is none of these. */
    private static BoardSnapshot.Material exact(BoardSnapshot b, ComposedSide side, double x, double y) {
        double z = side.exactHeightMm(x, y);
        double s = side.surfaceMm(x, y);
        if (z > s - 0.0005) {
            return BoardSnapshot.Material.FOIL;
        }
        if (z < side.undersideMm() - 0.01) {
            return z < b.spoilTopMm() + 0.001 ? BoardSnapshot.Material.SPOIL_BOARD : null;
        }
        return z < s - b.foilMm() - 0.002 && z > side.undersideMm() + 0.2 ? BoardSnapshot.Material.SUBSTRATE : null;
    }

    /** The material at a place of the underside: FOIL or SUBSTRATE as laid, SPOIL_BOARD for a hole. */
    private static BoardSnapshot.Material below(BoardSnapshot b, ComposedSide side, double x, double y) {
        double under = b.undersideMm(x, y);
        double z = side.exactHeightMm(x, y);
        if (z <= under + 0.0001) {
            return z < under - 0.01 ? BoardSnapshot.Material.SPOIL_BOARD : null;
        }
        if (z < under + 0.05) {
            return null;
        }
        double inwards = under + b.thicknessMm();
        if (inwards > 0.0005 && inwards < b.foilMm() + 0.002) {
            return null;
        }
        return b.copperDown() && inwards <= 0.0005 ? BoardSnapshot.Material.FOIL : BoardSnapshot.Material.SUBSTRATE;
    }

    private interface Truth {
        BoardSnapshot.Material at(double x, double y);
    }

    private record Asked(double x, double y, double z, BoardSnapshot.Material material) {}

    private static boolean clear(
            BoardSnapshot b, ComposedSide side, Truth truth, BoardSnapshot.Material m, double x, double y) {
        double z = side.exactHeightMm(x, y);
        for (int i = 0; i < 16; i++) {
            double a = Math.PI * i / 8;
            for (double r : new double[] {AWAY_MM, AWAY_MM / 2}) {
                double px = x + r * Math.cos(a);
                double py = y + r * Math.sin(a);
                if (!b.onBlank(px, py) || truth.at(px, py) != m || Math.abs(side.exactHeightMm(px, py) - z) > STEP_MM) {
                    return false;
                }
            }
        }
        return true;
    }

    private static List<Asked> places(BoardSnapshot b, ComposedSide side, Truth truth, long seed) {
        Random random = new Random(seed);
        List<Asked> asked = new ArrayList<>();
        Map<BoardSnapshot.Material, Integer> counts = new EnumMap<>(BoardSnapshot.Material.class);
        for (int tries = 0; tries < 60_000 && asked.size() < ASKED; tries++) {
            double x = random.nextDouble() * b.widthMm();
            double y = random.nextDouble() * b.heightMm();
            BoardSnapshot.Material m = truth.at(x, y);
            // Foil answers at most half of the questions unless hardly anything else is there.
            boolean common = counts.getOrDefault(m, 0) >= ASKED / 2 && tries < 50_000;
            if (m == null || common || !clear(b, side, truth, m, x, y)) {
                continue;
            }
            counts.merge(m, 1, Integer::sum);
            asked.add(new Asked(x, y, side.exactHeightMm(x, y), m));
        }
        assertThat(asked).as("seed %d", seed).hasSize(ASKED);
        return asked;
    }

    private static double[] colour(Frame f, double[] p) {
        int at = f.rgb()[(int) p[1] * f.width() + (int) p[0]];
        return new double[] {at >> 16 & 255, at >> 8 & 255, at & 255};
    }

    private static double hueDistance(double[] a, double[] b) {
        double ga = (a[0] + a[1] + a[2]) / 3 + 1;
        double gb = (b[0] + b[1] + b[2]) / 3 + 1;
        double d = Math.pow((ga - gb) / 255, 2) * 0.5;
        for (int i = 0; i < 3; i++) {
            d += Math.pow(a[i] / ga - b[i] / gb, 2);
        }
        return d;
    }

    private static void holds(String job, String view, Frame f, Camera camera, List<Asked> asked) {
        // What each material looks like in this picture is the middle of its own answers, channel by channel: a place
        // that shows another material then lies nearer to that one.
        Map<BoardSnapshot.Material, double[]> known = new EnumMap<>(BoardSnapshot.Material.class);
        for (BoardSnapshot.Material m : BoardSnapshot.Material.values()) {
            List<double[]> seen = new ArrayList<>();
            for (Asked a : asked) {
                if (a.material() == m) {
                    seen.add(colour(f, camera.project(a.x(), a.y(), a.z(), WIDTH, HEIGHT)));
                }
            }
            if (!seen.isEmpty()) {
                double[] middle = new double[3];
                for (int i = 0; i < 3; i++) {
                    int channel = i;
                    middle[i] =
                            seen.stream().mapToDouble(c -> c[channel]).sorted().toArray()[seen.size() / 2];
                }
                known.put(m, middle);
            }
        }
        // Which is which is not left to the picture: foil is reddish and the lightest of all, in every view.
        double[] foil = known.get(BoardSnapshot.Material.FOIL);
        if (foil != null) {
            assertThat(foil[0]).as("%s %s: foil's red", job, view).isGreaterThan(foil[2] * 1.25);
            known.forEach((m, c) -> assertThat(
                            view.equals("bottom") && m == BoardSnapshot.Material.SPOIL_BOARD || c[0] <= foil[0])
                    .as("%s %s: %s against foil", job, view, m)
                    .isTrue());
        }
        for (var a : known.entrySet()) {
            for (var b : known.entrySet()) {
                if (a.getKey() != b.getKey()) {
                    assertThat(hueDistance(a.getValue(), b.getValue()))
                            .as("%s %s: %s looks like %s", job, view, a.getKey(), b.getKey())
                            .isGreaterThan(0.01);
                }
            }
        }
        for (Asked a : asked) {
            double[] c = colour(f, camera.project(a.x(), a.y(), a.z(), WIDTH, HEIGHT));
            BoardSnapshot.Material best = a.material();
            for (var k : known.entrySet()) {
                if (hueDistance(c, k.getValue()) < hueDistance(c, known.get(best))) {
                    best = k.getKey();
                }
            }
            assertThat(best)
                    .as("%s %s at %.3f, %.3f mm, colour %.0f %.0f %.0f", job, view, a.x(), a.y(), c[0], c[1], c[2])
                    .isEqualTo(a.material());
        }
    }

    private static Frame draw(BoardSnapshot b, Camera camera) throws GraphicsException {
        Look look = Look.still(false).fine(4, false).withFixtures(false);
        return OffscreenRenderer.await(
                renderer.draw(new OffscreenRenderer.Request(b, b.baseConditions(), camera, look, WIDTH, HEIGHT)));
    }

    @ParameterizedTest
    @MethodSource("jobs")
    void shouldShowTheMaterialThatTheEngineSaysAtTwoHundredPlacesPerView(String name) throws Exception {
        assumeTrue(graphics, "needs OpenGL 3.3");
        JobScene scene = scene(name);
        long seed = 20260200 + name.hashCode() % 97;
        BoardSnapshot b = scene.snapshot(scene.endS(), 1);
        ComposedSide side = scene.boardAt(b, b.baseConditions()).side(1);
        List<Asked> fromAbove = places(b, side, (x, y) -> through(b, side, x, y), seed);
        Camera top = Camera.top(b, WIDTH, HEIGHT);
        holds(name, "top", draw(b, top), top, fromAbove);
        Camera oblique = Camera.oblique(b, WIDTH, HEIGHT);
        // Walls of holes and outlines hide their floors at a slant: only what lies near the foil is asked.
        List<Asked> shallow = places(
                b,
                side,
                (x, y) -> {
                    BoardSnapshot.Material m = through(b, side, x, y);
                    return m == BoardSnapshot.Material.SPOIL_BOARD || side.exactHeightMm(x, y) < -0.3 ? null : m;
                },
                seed + 1);
        holds(name, "oblique", draw(b, oblique), oblique, shallow);
        Camera bottom = Camera.bottom(b, WIDTH, HEIGHT);
        List<Asked> under = new ArrayList<>();
        for (Asked a : places(b, side, (x, y) -> below(b, side, x, y), seed + 2)) {
            under.add(new Asked(a.x(), a.y(), b.undersideMm(a.x(), a.y()), a.material()));
        }
        holds(name, "bottom", draw(b, bottom), bottom, under);
    }

    private static BoardSnapshot.Material through(BoardSnapshot b, ComposedSide side, double x, double y) {
        double under = b.undersideMm(x, y);
        double z = side.exactHeightMm(x, y);
        if (!b.farRuns().isEmpty() && under > -b.thicknessMm() && under >= z - 0.01) {
            return under > z + 0.01 ? BoardSnapshot.Material.SPOIL_BOARD : null;
        }
        return exact(b, side, x, y);
    }
}
