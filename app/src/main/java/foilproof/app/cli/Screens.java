package foilproof.app.cli;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.source.InputException;
import java.io.IOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * What the command line asks of the parts of the app that draw. They register an implementation as a service, so that the
 * command line loads no graphics before it is asked for some, and works where there can be none.
 */
public interface Screens {
    /**
     * Opens the bench and returns when its window is closed.
     *
     * @param job the job, or null to offer the samples and recent jobs
     * @param options how jobs are read
     * @throws InputException where the job cannot be read and no window can tell so
     * @throws NoScreenException where no window can be opened
     */
    void bench(@Nullable JobSource job, ReadOptions options) throws InputException, NoScreenException;

    /**
     * Draws one picture off screen into a file that appears whole or not at all.
     *
     * @throws InputException where the job cannot be run
     * @throws NoScreenException where nothing can be drawn
     * @throws IOException where the file cannot be written
     */
    void picture(JobSource job, ReadOptions options, PictureWish wish)
            throws InputException, NoScreenException, IOException;

    /**
     * Opens the exercises and returns when their window is closed.
     *
     * @throws NoScreenException where no window can be opened
     */
    void practice() throws NoScreenException;

    /**
     * A picture that is asked for.
     *
     * @param file where it goes
     * @param view {@code top}, {@code bottom}, {@code oblique}, {@code section}, {@code solder} or {@code component}
     * @param atS the moment, seconds since the job's start, or null for its end
     * @param widthPx width, pixels
     * @param heightPx height, pixels
     * @param options what else was asked
     */
    record PictureWish(
            Path file, String view, @Nullable Double atS, int widthPx, int heightPx, PictureOptions options) {}

    /**
     * What else can be asked of a picture.
     *
     * @param side number of the side that lies up, 0 where not said
     * @param colour what the colours mean: {@code material}, {@code depth}, {@code foil-left}, {@code margin},
     *     {@code tool}, {@code line}, {@code time} or {@code width}
     * @param zFactor exaggeration of Z, 1 for none
     * @param dark dark or light page
     * @param marks whether findings are marked
     * @param finding number of the finding that is looked at close up, 0 for none
     * @param through whether cuts of the far face are drawn over this one
     * @param compare {@code swipe} or {@code difference} against the job without its what-ifs, or null
     * @param turnDeg how far the blank is turned over about its declared axis, degrees
     * @param alongMm ends of a section: x0, y0, x1, y1, mm, or null where the picture chooses
     */
    record PictureOptions(
            int side,
            String colour,
            double zFactor,
            boolean dark,
            boolean marks,
            int finding,
            boolean through,
            @Nullable String compare,
            double turnDeg,
            double @Nullable [] alongMm) {}

    /** Nothing can be drawn or shown here; the message says why in words. */
    final class NoScreenException extends Exception {
        private static final long serialVersionUID = 1L;

        /** With the reason, one sentence. */
        public NoScreenException(String reason) {
            super(reason);
        }
    }
}
