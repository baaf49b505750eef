package foilproof.app.ui;

import foilproof.app.cli.Screens;
import foilproof.app.viewer.GraphicsException;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.OffscreenRenderer;
import foilproof.app.viewer.Pictures;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Progress;
import foilproof.source.InputException;
import java.awt.GraphicsEnvironment;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Everything that draws, as the command line asks for it. */
public final class BenchScreens implements Screens {
    /** Made by the service loader. */
    public BenchScreens() {}

    @Override
    public void bench(@Nullable JobSource job, ReadOptions options) throws NoScreenException {
        if (GraphicsEnvironment.isHeadless()) {
            throw new NoScreenException("There is no display to open a window on.");
        }
        BenchWindow.openAndWait(job, options);
    }

    @Override
    public void practice() throws NoScreenException {
        throw new NoScreenException("The exercises are not built yet.");
    }

    @Override
    public void picture(JobSource source, ReadOptions options, PictureWish wish)
            throws InputException, NoScreenException, IOException {
        System.setProperty("java.awt.headless", "true");
        try (OffscreenRenderer renderer = new OffscreenRenderer()) {
            Pictures.View view = Pictures.View.valueOf(wish.view().toUpperCase(Locale.ROOT));
            if (view != Pictures.View.SECTION) {
                // The context and the shaders are made while the programs are read and swept.
                renderer.warmUp();
            }
            Job job = JobReader.read(source, options);
            int threads = Runtime.getRuntime().availableProcessors();
            JobScene scene = new JobScene(
                    Examiner.ground(job, new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, threads, Progress.NONE)));
            BufferedImage image =
                    Pictures.draw(renderer, scene, view, wish.atS(), wish.widthPx(), wish.heightPx(), List.of());
            Pictures.write(image, wish.file());
        } catch (GraphicsException e) {
            throw new NoScreenException(String.valueOf(e.getMessage()));
        }
    }
}
