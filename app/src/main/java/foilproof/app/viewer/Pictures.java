package foilproof.app.viewer;

import foilproof.bench.Face;
import foilproof.bench.Side;
import foilproof.bench.Turn;
import foilproof.findings.Finding;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
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
        SECTION,
        /** The bottom copper seen from its own side, the blank in the hand. */
        SOLDER,
        /** The other side, where parts are put in, the blank in the hand. */
        COMPONENT
    }

    /**
     * A picture that is asked for.
     *
     * @param view from where
     * @param atS the moment, seconds since the job's start, or null for its end
     * @param width pixels
     * @param height pixels
     * @param side number of the side that lies up; 0 for the first, or the one that lies up at the moment
     * @param paint what the colours mean
     * @param zFactor exaggeration of Z, 1 for none
     * @param dark dark or light page
     * @param marks whether findings are marked
     * @param finding number of the finding that is looked at close up, 0 for none
     * @param through whether cuts of the far face are drawn over this one
     * @param compare against the job without its what-ifs, or null
     * @param turnRad how far the blank is turned over about its declared axis, radians
     * @param alongMm ends of a section, or null
     */
    public record Wish(
            View view,
            @Nullable Double atS,
            int width,
            int height,
            int side,
            Look.Paint paint,
            double zFactor,
            boolean dark,
            boolean marks,
            int finding,
            boolean through,
            OffscreenRenderer.Comparison.@Nullable Kind compare,
            double turnRad,
            double @Nullable [] alongMm) {
        /** Materials, to scale, light, side 1. */
        public static Wish plain(View view, @Nullable Double atS, int width, int height) {
            return new Wish(view, atS, width, height, 0, Look.Paint.MATERIAL, 1, false, true, 0, false, null, 0, null);
        }
    }

    private Pictures() {}

    /**
     * The job without its what-ifs, that a comparison is held against.
     *
     * @param scene the job, swept as it stands
     * @param whatIfs what was set, {@code KEY=VALUE}, told in the picture
     */
    public record Base(JobScene scene, List<String> whatIfs) {}

    /**
     * Draws one picture of a job under the conditions that the job itself asks for.
     *
     * @param renderer draws it; not touched for a section
     * @param scene the swept job
     * @param wish what is asked
     * @param findings findings to be marked, as listed; may be empty
     * @param base what a comparison is held against; null where none is asked
     * @throws GraphicsException where nothing can be drawn
     * @throws IllegalArgumentException where the job has no such side, moment or finding, in words
     */
    public static BufferedImage draw(
            OffscreenRenderer renderer, JobScene scene, Wish wish, List<Finding> findings, @Nullable Base base)
            throws GraphicsException {
        Finding near = nearOf(wish, findings);
        double timeS = wish.atS() == null ? scene.endS() : Math.min(wish.atS(), scene.endS());
        int side = sideOf(scene, wish, near, timeS);
        BoardSnapshot board = scene.snapshot(timeS, side);
        List<BoardSnapshot.Mark> marks = JobScene.marks(findings, side, wish.finding() - 1);
        board = board.withMarks(
                wish.marks() ? marks : marks.stream().filter(m -> m.chosen()).toList());
        BoardSnapshot.Conditions asked = scene.askedConditions(board);
        double[] place = near == null ? null : near.atMm();
        if (wish.view() == View.SECTION) {
            return section(scene, board, asked, wish, place);
        }
        double scale = OverlayPainter.scaleFor(wish.width(), wish.height());
        Ink ink = new Ink(wish.dark(), scale);
        FindingColumn column = wish.marks() || near != null
                ? FindingColumn.of(
                        ink,
                        findings,
                        side,
                        near,
                        wish.width(),
                        scene.job().sides().size())
                : null;
        int wide = wish.width() - (column == null ? 0 : column.widthPixels());
        OffscreenRenderer.Request request = request(board, asked, wish, scene, place, wide);
        Frame frame;
        if (wish.compare() == null || base == null) {
            frame = OffscreenRenderer.await(renderer.draw(request));
        } else {
            double baseS = Math.min(timeS, base.scene().endS());
            if (wish.atS() == null) {
                baseS = base.scene().endS();
            }
            BoardSnapshot before = base.scene()
                    .snapshot(baseS, Math.min(side, base.scene().job().sides().size()));
            OffscreenRenderer.Request was = new OffscreenRenderer.Request(
                    before,
                    base.scene().askedConditions(before),
                    request.camera(),
                    request.look(),
                    wide,
                    wish.height());
            frame = Comparing.frames(
                    OffscreenRenderer.await(renderer.draw(was)),
                    OffscreenRenderer.await(renderer.draw(request)),
                    wish.compare(),
                    Math.max(1, (int) Math.rint(scale)));
            request = new OffscreenRenderer.Request(
                            board.saying(Comparing.words(base.whatIfs())),
                            board.baseConditions(),
                            request.camera(),
                            request.look(),
                            wide,
                            wish.height())
                    .against(new OffscreenRenderer.Comparison(board.baseConditions(), wish.compare(), 0.5));
        }
        BufferedImage image = new BufferedImage(wish.width(), wish.height(), BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.drawImage(image(frame), 0, 0, null);
        OverlayPainter over = new OverlayPainter(request, wide, wish.height(), scale);
        if (column == null) {
            over.paint(g);
        } else {
            g.clipRect(0, 0, wide, wish.height());
            over.paintBoard(g);
            g.setClip(null);
            column.ground(g, wide, wish.height());
            double legendTop = over.legendBeside(g, column.widthPixels());
            column.paint(g, wide, legendTop);
        }
        g.dispose();
        return image;
    }

    private static @Nullable Finding nearOf(Wish wish, List<Finding> findings) {
        if (wish.finding() <= 0) {
            return null;
        }
        if (wish.finding() > findings.size()) {
            throw new IllegalArgumentException(
                    "There is no finding " + wish.finding() + "; the job has " + findings.size() + ".");
        }
        Finding near = findings.get(wish.finding() - 1);
        if (near.atMm() == null) {
            throw new IllegalArgumentException(
                    "Finding " + wish.finding() + " (" + near.kind() + ") has no place on the blank to be looked at.");
        }
        return near;
    }

    private static int sideOf(JobScene scene, Wish wish, @Nullable Finding near, double timeS) {
        int sides = scene.job().sides().size();
        if (wish.side() > sides) {
            throw new IllegalArgumentException("There is no side " + wish.side() + "; the job has " + sides + ".");
        }
        if (wish.side() > 0) {
            return wish.side();
        }
        if (near != null && near.side() != null) {
            return near.side();
        }
        if (wish.view() == View.SOLDER || wish.view() == View.COMPONENT) {
            return Math.max(1, lastSideOf(scene, wish.view()));
        }
        return wish.atS() == null ? 1 : scene.sideAt(timeS);
    }

    /** The last side on which the face of this view lies up, 0 where it never does. */
    private static int lastSideOf(JobScene scene, View view) {
        Face face = view == View.SOLDER ? Face.BOTTOM : Face.TOP;
        int found = 0;
        for (Side s : scene.job().sides()) {
            found = s.face() == face ? s.number() : found;
        }
        return found;
    }

    private static OffscreenRenderer.Request request(
            BoardSnapshot board,
            BoardSnapshot.Conditions asked,
            Wish wish,
            JobScene scene,
            double @Nullable [] place,
            int w) {
        int h = wish.height();
        boolean hand = wish.view() == View.SOLDER || wish.view() == View.COMPONENT;
        Face up = scene.job().sides().get(board.side() - 1).face();
        boolean faceUp = (up == Face.BOTTOM) == (wish.view() == View.SOLDER);
        Camera camera =
                switch (wish.view()) {
                    case BOTTOM -> Camera.bottom(board, w, h);
                    case OBLIQUE -> Camera.oblique(board, w, h);
                    case SOLDER, COMPONENT -> faceUp ? Camera.top(board, w, h) : Camera.bottom(board, w, h);
                    default -> Camera.top(board, w, h);
                };
        if (place != null) {
            camera = camera.at(place[0], place[1], camera.fromBelow() ? camera.zMm() : 0)
                    .showing(Math.max(3, 0.12 * board.heightMm()));
        }
        camera = camera.withZFactor(wish.zFactor());
        for (int i = 0; i < 4 && wish.view() == View.OBLIQUE && place == null; i++) {
            camera = camera.fitted(board, w, h);
        }
        if (wish.turnRad() != 0) {
            camera = camera.turning(board, turnsAboutX(scene), wish.turnRad());
        }
        Look look = Look.still(wish.dark())
                // Large pictures have small pixels: fewer sums smooth them as well.
                .fine(Math.max(4, Math.min(9, 12_500_000 / (w * h))), true)
                .withPaint(wish.paint())
                .withThrough(wish.through() ? 0.8 : 0)
                .withLifted(hand);
        return new OffscreenRenderer.Request(board, asked, camera, look, w, h);
    }

    /** Whether the job turns its blank about X; about Y where it never turns it. */
    public static boolean turnsAboutX(JobScene scene) {
        for (Side s : scene.job().sides()) {
            if (s.turned() != Turn.NO) {
                return s.turned() == Turn.ABOUT_X;
            }
        }
        return false;
    }

    /** What to draw for a view of a board at rest, on a light page. */
    static OffscreenRenderer.Request request(BoardSnapshot board, View view, int width, int height) {
        Camera camera =
                switch (view) {
                    case TOP, SECTION, SOLDER, COMPONENT -> Camera.top(board, width, height);
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
        // Written into the image's own store: pixel by pixel through its colour model takes longer than drawing.
        int[] store = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
        System.arraycopy(frame.rgb(), 0, store, 0, frame.rgb().length);
        return image;
    }

    /** A picture of a section: the whole line, and one of its grooves close up with the cutter's outline. */
    private static BufferedImage section(
            JobScene scene, BoardSnapshot board, BoardSnapshot.Conditions c, Wish wish, double @Nullable [] place) {
        int width = wish.width();
        int height = wish.height();
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        double scale = OverlayPainter.scaleFor(width, height);
        Ink ink = new Ink(wish.dark(), scale);
        g.setColor(ink.page);
        g.fillRect(0, 0, width, height);
        Ink.smooth(g);
        double[] ends = ends(board, c, wish, place);
        Section whole = Section.of(board, c, ends[0], ends[1], ends[2], ends[3], Math.max(400, width * 3));
        SectionPainter painter = new SectionPainter(board, c, wish.dark(), scale);
        head(g, ink, board, c, ends);
        double top = ink.px(58);
        double half = (height - top) / 2;
        double length = whole.lengthMm();
        BoardSnapshot.Cutter t = board.cutter();
        double cutterAt = t == null ? Double.NaN : along(ends, t.xMm(), t.yMm());
        boolean here = t != null && offLine(ends, t.xMm(), t.yMm()) < 0.05;
        SectionPainter.Panel all = new SectionPainter.Panel(
                whole,
                0,
                length,
                board.spoilTopMm() - 0.6,
                0.5,
                "Whole line",
                Double.NaN,
                t != null && here ? t.profileMm() : null,
                cutterAt,
                t != null && here ? t.zMm() : 0);
        painter.paint(g, all, ink.px(8), top, width - ink.px(16), half);
        double at = here ? cutterAt : place != null ? along(ends, place[0], place[1]) : grooveAt(whole, length);
        closeUp(g, painter, scene, board, c, new double[] {ends[0], ends[1], ends[2], ends[3], at}, new double[] {
            ink.px(8), top + half, width - ink.px(16), half
        });
        g.dispose();
        return image;
    }

    private static void head(Graphics2D g, Ink ink, BoardSnapshot board, BoardSnapshot.Conditions c, double[] ends) {
        g.setColor(ink.text);
        g.setFont(ink.bold());
        g.drawString(
                String.format(
                        Locale.ROOT,
                        "%s: section from X %.2f Y %.2f to X %.2f Y %.2f mm, side %d, %s up",
                        board.job(),
                        ends[0],
                        ends[1],
                        ends[2],
                        ends[3],
                        board.side(),
                        board.face()),
                (float) ink.px(16),
                (float) ink.px(26));
        g.setFont(ink.small());
        g.setColor(ink.faint);
        g.drawString(board.stateWords() + OverlayPainter.whatIf(board, c), (float) ink.px(16), (float) ink.px(45));
    }

    private static double[] ends(
            BoardSnapshot board, BoardSnapshot.Conditions c, Wish wish, double @Nullable [] place) {
        if (wish.alongMm() != null) {
            return wish.alongMm();
        }
        BoardSnapshot.Cutter t = board.cutter();
        double y = place != null
                ? place[1]
                : t != null && board.onBlank(t.xMm(), t.yMm()) ? t.yMm() : busiestRow(board, c);
        double[] alongX = {0, y, board.widthMm(), y};
        if (place == null) {
            return alongX;
        }
        // Across the groove, not along it.
        double[] alongY = {place[0], 0, place[0], board.heightMm()};
        return grooveWidth(board, c, alongY, place[1]) < grooveWidth(board, c, alongX, place[0]) ? alongY : alongX;
    }

    private static double grooveWidth(BoardSnapshot board, BoardSnapshot.Conditions c, double[] ends, double alongMm) {
        double n = Math.hypot(ends[2] - ends[0], ends[3] - ends[1]);
        Section s = between(board, c, ends, (ends[2] - ends[0]) / n, (ends[3] - ends[1]) / n, alongMm - 3, alongMm + 3);
        Section.Groove g = s.grooveNear(3, c.foilMm());
        return g == null ? 100 : g.topWidthMm();
    }

    private static double along(double[] ends, double x, double y) {
        double dx = ends[2] - ends[0];
        double dy = ends[3] - ends[1];
        double n = Math.hypot(dx, dy);
        return ((x - ends[0]) * dx + (y - ends[1]) * dy) / n;
    }

    private static double offLine(double[] ends, double x, double y) {
        double dx = ends[2] - ends[0];
        double dy = ends[3] - ends[1];
        return Math.abs((x - ends[0]) * dy - (y - ends[1]) * dx) / Math.hypot(dx, dy);
    }

    /** One groove: both walls, foil, floor, the outline of the cutter that made it, measures with their error. */
    private static void closeUp(
            Graphics2D g,
            SectionPainter painter,
            JobScene scene,
            BoardSnapshot board,
            BoardSnapshot.Conditions c,
            double[] line,
            double[] box) {
        double dx = line[2] - line[0];
        double dy = line[3] - line[1];
        double n = Math.hypot(dx, dy);
        dx /= n;
        dy /= n;
        // A first look finds the groove; the second shows it whole.
        double reach = 3;
        double middle = line[4];
        Section wide = between(board, c, line, dx, dy, middle - reach, middle + reach);
        Section.Groove groove = wide.grooveNear(reach, c.foilMm());
        if (groove != null && groove.topWidthMm() < 2 * reach - 0.1) {
            middle += (groove.fromMm() + groove.toMm()) / 2 - reach;
            reach = Math.max(0.2, groove.topWidthMm() * 1.4);
        }
        Section near = between(board, c, line, dx, dy, middle - reach, middle + reach);
        groove = near.grooveNear(reach, c.foilMm());
        double deep = groove == null ? 0.15 : Math.max(0.1, groove.depthMm());
        int run = board.spot(c, line[0] + dx * middle, line[1] + dy * middle).run();
        double[] profile = run < 0 ? null : scene.profileOf(board, run);
        double axis = reach;
        if (groove != null && profile != null) {
            // Where the groove is wider than the cutter, the outline stands at the left wall.
            double r = radiusAt(profile, groove.depthMm());
            axis = Math.min(reach, groove.fromMm() + r);
        }
        double surface = near.surfaceMm()[near.surfaceMm().length / 2];
        painter.paint(
                g,
                new SectionPainter.Panel(
                        near,
                        0,
                        2 * reach,
                        surface - deep * 1.35,
                        surface + deep * 0.6,
                        String.format(
                                Locale.ROOT,
                                "Close up at X %.2f Y %.2f mm%s",
                                line[0] + dx * middle,
                                line[1] + dy * middle,
                                run < 0
                                        ? ""
                                        : ", outline of "
                                                + board.runs().get(run).name()),
                        reach,
                        profile,
                        axis,
                        surface - deep),
                box[0],
                box[1],
                box[2],
                box[3]);
    }

    private static Section between(
            BoardSnapshot board,
            BoardSnapshot.Conditions c,
            double[] line,
            double dx,
            double dy,
            double fromMm,
            double toMm) {
        return Section.of(
                board, c, line[0] + dx * fromMm, line[1] + dy * fromMm, line[0] + dx * toMm, line[1] + dy * toMm, 3000);
    }

    /** Radius of an outline at a height above its tip, mm. */
    private static double radiusAt(double[] profile, double heightMm) {
        double r = 0;
        for (int i = 0; i + 3 < profile.length; i += 2) {
            double h0 = profile[i + 1];
            double h1 = profile[i + 3];
            if (h1 > h0 && heightMm >= h0 && heightMm <= h1) {
                return profile[i] + (profile[i + 2] - profile[i]) * (heightMm - h0) / (h1 - h0);
            }
            r = profile[i];
        }
        return r;
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
