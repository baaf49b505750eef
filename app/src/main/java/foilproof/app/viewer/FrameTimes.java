package foilproof.app.viewer;

import foilproof.bench.DiskFiles;
import foilproof.bench.JobReader;
import foilproof.bench.ReadOptions;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Progress;
import foilproof.source.InputException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;

/**
 * Measures frames: a job orbited at 1280 x 800 as the window does it while a person drags, a moved Z error, and a picture
 * at rest, each against a plain textured quad of the same pixels drawn in the same run. Run it by
 * {@code java -cp foilproof.jar foilproof.app.viewer.FrameTimes JOB OUT.txt}; it needs no display.
 */
public final class FrameTimes {
    private static final int WIDTH = 1280;
    private static final int HEIGHT = 800;
    private static final int WARM = 3;
    private static final int FRAMES = 11;

    private FrameTimes() {}

    /**
     * Writes medians and least times in ms.
     *
     * @param args the job (a folder, a job.toml or a program), and the file that the figures go to
     */
    public static void main(String[] args) throws InputException, GraphicsException, IOException {
        System.setProperty("java.awt.headless", "true");
        int threads = Runtime.getRuntime().availableProcessors();
        JobScene scene = new JobScene(Examiner.ground(
                JobReader.read(DiskFiles.source(Path.of(args[0])), ReadOptions.DEFAULT),
                new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, threads, Progress.NONE)));
        try (OffscreenRenderer renderer = new OffscreenRenderer()) {
            Files.writeString(Path.of(args[1]), measure(renderer, scene.snapshot(scene.endS(), 1)));
        }
    }

    private interface Frames {
        OffscreenRenderer.Request at(int i);
    }

    /** Measures one board; text with one line per case. */
    static String measure(OffscreenRenderer renderer, BoardSnapshot b) throws GraphicsException {
        BoardSnapshot.Conditions c = b.baseConditions();
        Camera oblique = Camera.oblique(b, WIDTH, HEIGHT);
        Look moving = Look.still(true).fine(1, false);
        double[] quad = timed(renderer, i -> renderer.drawPlainQuad(WIDTH, HEIGHT));
        double[] orbit = times(
                renderer, (Frames) i -> request(b, c, oblique.turned(oblique.azimuthRad() + 0.05 * i, 0.8), moving));
        double[] slider = times(renderer, i -> {
            double[] errors = new double[b.runs().size()];
            Arrays.fill(errors, 0.001 * i);
            return request(b, new BoardSnapshot.Conditions(errors, 0, b.foilMm(), 0, new boolean[0]), oblique, moving);
        });
        Camera top = Camera.top(b, WIDTH, HEIGHT);
        double[] close = times(renderer, i -> request(b, c, top.showing(3 + 0.01 * i), moving));
        double[] still = times(
                renderer, (Frames) i -> request(b, c, oblique, Look.still(true).fine(4, true)));
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "%s%n%d x %d pixels, %d frames, drawing and reading back: median and least, each against the quad's%n",
                renderer.words(),
                WIDTH,
                HEIGHT,
                FRAMES));
        String[] names = {"plain textured quad", "orbiting", "Z error moved", "close up, 3 mm high", "at rest, 4 sums"};
        double[][] all = {quad, orbit, slider, close, still};
        for (int i = 0; i < all.length; i++) {
            text.append(String.format(
                    Locale.ROOT,
                    "%-20s %8.2f ms %6.2f x   %8.2f ms %6.2f x%n",
                    names[i],
                    all[i][0],
                    all[i][0] / quad[0],
                    all[i][1],
                    all[i][1] / quad[1]));
        }
        return text.toString();
    }

    private static OffscreenRenderer.Request request(
            BoardSnapshot b, BoardSnapshot.Conditions c, Camera camera, Look look) {
        return new OffscreenRenderer.Request(b, c, camera, look, WIDTH, HEIGHT);
    }

    private interface Drawn {
        CompletableFuture<Frame> at(int i);
    }

    private static double[] times(OffscreenRenderer renderer, Frames frames) throws GraphicsException {
        return timed(renderer, i -> renderer.draw(frames.at(i)));
    }

    private static double[] timed(OffscreenRenderer renderer, Drawn frames) throws GraphicsException {
        double[] ms = new double[FRAMES];
        for (int i = -WARM; i < FRAMES; i++) {
            Frame f = OffscreenRenderer.await(frames.at(i + WARM));
            if (i >= 0) {
                ms[i] = f.drawS() * 1000;
            }
            renderer.recycle(f);
        }
        Arrays.sort(ms);
        return new double[] {ms[FRAMES / 2], ms[0]};
    }
}
