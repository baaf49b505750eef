package foilproof.app.viewer;

import foilproof.findings.Finding;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Locale;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;

/** Pictures of a job for files: drawn off screen, words and scales over them. */
public final class Pictures {
    /** Every kind of view. */
    public enum View {
        /** Straight from above. */
        TOP,
        /** Straight from below, off the spoil board. */
        BOTTOM,
        /** From the front left, above. */
        OBLIQUE,
        /** Cut through. */
        SECTION
    }

    private Pictures() {}

    /**
     * Draws one picture of a job.
     *
     * @param renderer draws it; not touched for a section
     * @param scene the swept job
     * @param view from where
     * @param atS the moment, seconds since the job's start, or null for its end
     * @param width pixels
     * @param height pixels
     * @param findings findings to be marked, as listed; may be empty
     * @throws GraphicsException where nothing can be drawn
     */
    public static BufferedImage draw(
            OffscreenRenderer renderer,
            JobScene scene,
            View view,
            @Nullable Double atS,
            int width,
            int height,
            List<Finding> findings)
            throws GraphicsException {
        double timeS = atS == null ? scene.endS() : Math.min(atS, scene.endS());
        int side = atS == null ? 1 : scene.sideAt(timeS);
        BoardSnapshot board = scene.snapshot(timeS, side).withMarks(JobScene.marks(findings, side, -1));
        if (view == View.SECTION) {
            return section(board, board.baseConditions(), false, width, height);
        }
        return draw(renderer, request(board, view, width, height));
    }

    /** What to draw for a view of a board at rest, on a light page. */
    static OffscreenRenderer.Request request(BoardSnapshot board, View view, int width, int height) {
        Camera camera =
                switch (view) {
                    case TOP, SECTION -> Camera.top(board, width, height);
                    case BOTTOM -> Camera.bottom(board, width, height);
                    case OBLIQUE -> Camera.oblique(board, width, height);
                };
        return new OffscreenRenderer.Request(board, board.baseConditions(), camera, Look.still(false), width, height);
    }

    /** Draws a picture with its words. */
    public static BufferedImage draw(OffscreenRenderer renderer, OffscreenRenderer.Request request)
            throws GraphicsException {
        Frame frame = OffscreenRenderer.await(renderer.draw(request));
        BufferedImage image = image(frame);
        Graphics2D g = image.createGraphics();
        double scale = OverlayPainter.scaleFor(frame.width(), frame.height());
        new OverlayPainter(request, frame.width(), frame.height(), scale).paint(g);
        g.dispose();
        return image;
    }

    /** A frame as an image. */
    public static BufferedImage image(Frame frame) {
        BufferedImage image = new BufferedImage(frame.width(), frame.height(), BufferedImage.TYPE_INT_RGB);
        image.setRGB(0, 0, frame.width(), frame.height(), frame.rgb(), 0, frame.width());
        return image;
    }

    /**
     * A picture of the section through the busiest line of the board, and of one of its grooves close up.
     *
     * @param dark dark or light page
     */
    public static BufferedImage section(
            BoardSnapshot board, BoardSnapshot.Conditions c, boolean dark, int width, int height) {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        double scale = OverlayPainter.scaleFor(width, height);
        Ink ink = new Ink(dark, scale);
        g.setColor(ink.page);
        g.fillRect(0, 0, width, height);
        Ink.smooth(g);
        double y = busiestRow(board, c);
        Section whole = Section.of(board, c, 0, y, board.widthMm(), y, Math.max(400, width * 3));
        SectionPainter painter = new SectionPainter(board, c, dark, scale);
        g.setColor(ink.text);
        g.setFont(ink.bold());
        g.drawString(
                board.job()
                        + String.format(
                                Locale.ROOT,
                                ": section along X at Y = %.2f mm, side %d, %s up, seen from the front (-Y)",
                                y,
                                board.side(),
                                board.face()),
                (float) ink.px(16),
                (float) ink.px(26));
        g.setFont(ink.small());
        g.setColor(ink.faint);
        g.drawString(board.stateWords(), (float) ink.px(16), (float) ink.px(45));
        double low = board.spoilTopMm() - 0.6;
        double top = ink.px(58);
        double half = (height - top) / 2;
        painter.paint(
                g,
                new SectionPainter.Panel(whole, 0, board.widthMm(), low, 0.5, "Whole blank", Double.NaN, null, 0, 0),
                ink.px(8),
                top,
                width - ink.px(16),
                half);
        double x = grooveAt(whole, board.widthMm());
        double reach = 0.6;
        Section near = Section.of(board, c, x - reach, y, x + reach, y, Math.max(400, width * 2));
        Section.Groove groove = near.grooveNear(reach, c.foilMm());
        double deep = groove == null ? 0.15 : Math.max(0.1, groove.depthMm());
        painter.paint(
                g,
                new SectionPainter.Panel(
                        near,
                        0,
                        2 * reach,
                        -deep * 1.35,
                        deep * 0.6,
                        String.format(Locale.ROOT, "Close up at X = %.2f mm", x),
                        reach,
                        null,
                        reach,
                        -deep),
                ink.px(8),
                top + half,
                width - ink.px(16),
                half);
        g.dispose();
        return image;
    }

    /** The Y of the line along X that crosses most walls: there is most to see. */
    private static double busiestRow(BoardSnapshot board, BoardSnapshot.Conditions c) {
        double best = board.heightMm() / 2;
        int most = -1;
        int rows = 60;
        for (int r = 1; r < rows; r++) {
            double y = board.heightMm() * r / rows;
            int crossings = 0;
            boolean cut = false;
            for (int i = 0; i <= 1500; i++) {
                boolean now = board.spot(c, board.widthMm() * i / 1500, y).run() >= 0;
                crossings += now != cut ? 1 : 0;
                cut = now;
            }
            if (crossings > most) {
                most = crossings;
                best = y;
            }
        }
        return best;
    }

    /** Where the shallow groove nearest to the middle begins, else the middle, mm along the section. */
    private static double grooveAt(Section s, double widthMm) {
        int n = s.zMm().length;
        int best = -1;
        for (int i = 1; i < n; i++) {
            boolean begins = depth(s, i - 1) <= 0.0005 && depth(s, i) > 0.0005;
            double deepest = 0;
            for (int k = i; begins && k < n && depth(s, k) > 0.0005; k++) {
                deepest = Math.max(deepest, depth(s, k));
            }
            if (begins && deepest < 0.6 && (best < 0 || Math.abs(i - n / 2) < Math.abs(best - n / 2))) {
                best = i;
            }
        }
        return widthMm * (best < 0 ? n / 2 : best) / (n - 1);
    }

    private static double depth(Section s, int i) {
        return s.surfaceMm()[i] - s.zMm()[i];
    }

    /** Writes a picture as PNG; the file appears whole or not at all. */
    public static void write(BufferedImage image, Path file) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Path part = Files.createTempFile(folder, ".picture", ".png");
        try {
            if (!ImageIO.write(image, "png", part.toFile())) {
                throw new IOException("PNG cannot be written here");
            }
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
