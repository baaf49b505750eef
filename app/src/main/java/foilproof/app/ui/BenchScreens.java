package foilproof.app.ui;

import foilproof.app.cli.Screens;
import foilproof.app.viewer.GraphicsException;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.app.viewer.OffscreenRenderer;
import foilproof.app.viewer.Pictures;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Progress;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
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
        BenchWindow.openAndWait(job, options, false);
    }

    @Override
    public void practice() throws NoScreenException {
        if (GraphicsEnvironment.isHeadless()) {
            throw new NoScreenException("There is no display to open a window on.");
        }
        BenchWindow.openAndWait(null, ReadOptions.DEFAULT, true);
    }

    @Override
    public void picture(JobSource source, ReadOptions options, PictureWish wish)
            throws InputException, NoScreenException, IOException {
        System.setProperty("java.awt.headless", "true");
        try (OffscreenRenderer renderer = new OffscreenRenderer()) {
            if (!wish.view().equals("section")) {
                // The context and the shaders are made while the programs are read and swept.
                renderer.warmUp();
            }
            Job job = JobReader.read(source, options);
            int threads = Runtime.getRuntime().availableProcessors();
            ExamineOptions how = new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, threads, Progress.NONE);
            PictureOptions o = wish.options();
            boolean findings = o.marks() || o.finding() > 0;
            DryRunResult run = findings ? DryRun.run(job, how) : null;
            JobScene scene = new JobScene(
                    run == null
                            ? Examiner.ground(job, how)
                            : new Examiner.Ground(
                                    job,
                                    run.examination().plan(),
                                    run.examination().stock(),
                                    run.examination().board(),
                                    run.examination().runs()));
            Pictures.Wish asked = new Pictures.Wish(
                    Pictures.View.valueOf(wish.view().toUpperCase(Locale.ROOT)),
                    wish.atS(),
                    wish.widthPx(),
                    wish.heightPx(),
                    o.side(),
                    Look.Paint.valueOf(o.colour().toUpperCase(Locale.ROOT).replace('-', '_')),
                    o.zFactor(),
                    o.dark(),
                    o.marks(),
                    o.finding(),
                    o.through(),
                    o.compare() == null
                            ? null
                            : OffscreenRenderer.Comparison.Kind.valueOf(
                                    o.compare().toUpperCase(Locale.ROOT)),
                    Math.toRadians(o.turnDeg()),
                    o.alongMm());
            BufferedImage image;
            try {
                image = Pictures.draw(
                        renderer,
                        scene,
                        asked,
                        run == null ? List.of() : run.document().findings(),
                        o.compare() == null ? null : base(source, options, how));
            } catch (IllegalArgumentException e) {
                throw new InputException(
                        Diagnostic.of(SourceSpan.ofFile("command line"), "bad-option", String.valueOf(e.getMessage())));
            }
            Pictures.write(image, wish.file());
        } catch (GraphicsException e) {
            throw new NoScreenException(String.valueOf(e.getMessage()));
        }
    }

    /** The job without what was set, swept. */
    private static Pictures.Base base(JobSource source, ReadOptions options, ExamineOptions how) throws InputException {
        if (options.settings().isEmpty()) {
            throw new IllegalArgumentException(
                    "--compare holds what --set asks against the job without it, and nothing is set.");
        }
        Job before = JobReader.read(source, options.withSettings(List.of()));
        return new Pictures.Base(new JobScene(Examiner.ground(before, how)), options.settings());
    }
}
