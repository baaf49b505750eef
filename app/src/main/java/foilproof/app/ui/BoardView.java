package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.Camera;
import foilproof.app.viewer.Frame;
import foilproof.app.viewer.GraphicsException;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.app.viewer.OffscreenRenderer;
import foilproof.app.viewer.OverlayPainter;
import foilproof.app.viewer.Pictures;
import foilproof.bench.JobMove;
import foilproof.bench.XyMm;
import java.awt.Color;
import java.awt.Cursor;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.atomic.AtomicInteger;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/**
 * The board, large in the middle: paints the last frame that came back, with words and handles of the very request that
 * made it. While something moves frames are smaller and plain; at rest a fine one follows.
 */
final class BoardView extends Drawn {
    private static final long serialVersionUID = 1L;
    private static final int REST_MS = 140;
    private static final int TINT_MS = 180;
    /** A frame that takes longer than this while moving is drawn smaller the next time, seconds. */
    private static final double SLOW_S = 0.05;

    private final transient BenchModel model;
    private final transient OffscreenRenderer renderer;
    private final AtomicInteger newest = new AtomicInteger();
    private final Timer rest;
    private final Timer settled;
    private transient @Nullable BufferedImage image;
    private transient OffscreenRenderer.@Nullable Request shown;
    private transient @Nullable CompletableFuture<Frame> pending;
    private transient @Nullable BufferedImage baseImage;
    private transient @Nullable BufferedImage tint;
    private final AtomicInteger tinted = new AtomicInteger();
    private int @Nullable [] swiping;
    private BenchModel.@Nullable Line drawing;
    private BenchModel.@Nullable Work moving;
    private @Nullable JobFootprint footprint;
    private @Nullable JobScene footprintOf;
    private boolean again;
    private boolean restAgain;
    private double movingScale = 0.75;
    private @Nullable String trouble;
    private int framesShown;

    BoardView(BenchModel model, OffscreenRenderer renderer) {
        this.model = model;
        this.renderer = renderer;
        setFocusable(true);
        setMinimumSize(Px.size(200, 150));
        setName("board");
        getAccessibleContext().setAccessibleName("Board");
        setCursor(Cursor.getPredefinedCursor(Cursor.CROSSHAIR_CURSOR));
        rest = new Timer(REST_MS, e -> drawStill());
        rest.setRepeats(false);
        settled = new Timer(TINT_MS, e -> tintAgain());
        settled.setRepeats(false);
        Mouse mouse = new Mouse();
        addMouseListener(mouse);
        addMouseMotionListener(mouse);
        addMouseWheelListener(mouse);
        addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent e) {
                redraw();
            }
        });
        model.listen(change -> {
            // The picture of a job whose files changed stays until that of the changed one is there.
            if (change == BenchModel.Change.JOB && !model.keptView()) {
                image = null;
                shown = null;
                baseImage = null;
                tint = null;
                repaint();
            }
            if (change == BenchModel.Change.CHOICE || change == BenchModel.Change.RESULT) {
                tintAgain();
            }
            if (change != BenchModel.Change.RESULT
                    && change != BenchModel.Change.JUDGING
                    && change != BenchModel.Change.TIME) {
                redraw();
            }
        });
    }

    /** Frames painted since the window opened, for tests and the curious. */
    int framesShown() {
        return framesShown;
    }

    /** What the shown picture was asked to be, or null. */
    OffscreenRenderer.@Nullable Request shownRequest() {
        return shown;
    }

    /** The last picture without words, or null. */
    @Nullable
    BufferedImage shownImage() {
        return image;
    }

    private double deviceScale() {
        return getGraphicsConfiguration() == null
                ? 1
                : getGraphicsConfiguration().getDefaultTransform().getScaleX();
    }

    /** The camera in use; the oblique one where none was set yet. */
    Camera camera() {
        Camera c = model.camera();
        BoardSnapshot b = model.board();
        if (c == null && b != null) {
            c = Camera.oblique(b, Math.max(1, getWidth()), Math.max(1, getHeight()));
        }
        return c == null ? new Camera(0, 0, 0, 0, 1, 50, false, 1) : c;
    }

    /** Asks for a new picture as soon as may be. */
    void redraw() {
        newest.incrementAndGet();
        if (pending != null) {
            again = true;
            return;
        }
        draw(false);
        rest.restart();
    }

    private void drawStill() {
        if (pending != null) {
            restAgain = true;
            return;
        }
        draw(true);
    }

    private OffscreenRenderer.@Nullable Request request(boolean still) {
        BoardSnapshot b = model.board();
        if (b == null || getWidth() < 2 || getHeight() < 2) {
            return null;
        }
        double scale = deviceScale() * (still ? 1 : movingScale);
        Look look = still ? model.look().fine(4, true) : model.look().fine(1, false);
        BoardSnapshot marked = b.withMarks(JobScene.marks(model.findings(), b.side(), model.chosen()));
        return new OffscreenRenderer.Request(
                marked, model.conditions(b), camera(), look, (int) Math.max(1, getWidth() * scale), (int)
                        Math.max(1, getHeight() * scale));
    }

    private void draw(boolean still) {
        OffscreenRenderer.Request q = request(still);
        if (q == null) {
            return;
        }
        again = false;
        int mine = newest.get();
        CompletableFuture<Frame> frame = renderer.draw(q, () -> mine != newest.get());
        OffscreenRenderer.Request base = baseRequest(q);
        if (base != null) {
            // The same view of the job itself, for the left of the divider.
            CompletableFuture<Frame> other = renderer.draw(base, () -> mine != newest.get());
            frame = frame.thenCombine(other, (now, before) -> {
                BufferedImage made = Pictures.image(before);
                renderer.recycle(before);
                SwingUtilities.invokeLater(() -> baseImage = made);
                return now;
            });
        }
        pending = frame.whenComplete((f, error) -> SwingUtilities.invokeLater(() -> done(q, f, error, still)));
    }

    private OffscreenRenderer.@Nullable Request baseRequest(OffscreenRenderer.Request q) {
        BoardSnapshot base = model.baseBoard();
        if (base == null || model.compare() != BenchModel.Compare.SWIPE) {
            return null;
        }
        return new OffscreenRenderer.Request(
                base.withMarks(q.board().marks()), base.baseConditions(), q.camera(), q.look(), q.width(), q.height());
    }

    /** What is tinted over the picture now: difference, joined copper, the far side's cuts; or null. */
    private PlaneTint.@Nullable At wanted(OffscreenRenderer.Request q) {
        BoardSnapshot base = model.baseBoard();
        if (model.compare() == BenchModel.Compare.DIFFERENCE && base != null) {
            return PlaneTint.difference(base, base.baseConditions(), q.board(), q.conditions());
        }
        if (model.through() && !q.board().farRuns().isEmpty()) {
            return PlaneTint.farCuts(q.board());
        }
        double[] p = model.asked();
        CopperAnswer copper = CopperAnswer.of(model, q.board().side());
        if (p == null || copper == null || q.camera().fromBelow() || q.board().timeS() < copper.endS()) {
            return null;
        }
        int piece = copper.pieceAt(p[0], p[1]);
        return piece < 0
                ? null
                : (x, y, px, py) -> ((px + py) & 3) != 0 && copper.pieceAt(x, y) == piece ? PlaneTint.JOINED : 0;
    }

    private void tintAgain() {
        OffscreenRenderer.Request q = shown;
        int mine = tinted.incrementAndGet();
        PlaneTint.At at = q == null ? null : wanted(q);
        if (q == null || at == null) {
            tint = null;
            repaint();
            return;
        }
        // Every second pixel is fine enough for a tint, and four times as quick.
        int w = Math.max(1, getWidth() / 2);
        int h = Math.max(1, getHeight() / 2);
        CompletableFuture.supplyAsync(() -> PlaneTint.over(q.board(), q.camera(), w, h, at, () -> mine != tinted.get()))
                .exceptionally(e -> {
                    SwingUtilities.invokeLater(() -> {
                        trouble = "The tint failed: " + e;
                        repaint();
                    });
                    return null;
                })
                .thenAccept(made -> SwingUtilities.invokeLater(() -> {
                    if (mine == tinted.get()) {
                        tint = made;
                        repaint();
                    }
                }));
    }

    /** The tint that is over the picture now, for tests; or null. */
    @Nullable
    BufferedImage tintImage() {
        return tint;
    }

    private void done(OffscreenRenderer.Request q, @Nullable Frame frame, @Nullable Throwable error, boolean still) {
        pending = null;
        Throwable cause = error instanceof CompletionException && error.getCause() != null ? error.getCause() : error;
        if (frame != null) {
            trouble = null;
            image = Pictures.image(frame);
            renderer.recycle(frame);
            OffscreenRenderer.Request old = shown;
            shown = q;
            boolean same = old != null
                    && old.camera().equals(q.camera())
                    && old.board().timeS() == q.board().timeS()
                    && old.board().side() == q.board().side();
            if (!same) {
                tint = null;
                tinted.incrementAndGet();
            }
            settled.restart();
            framesShown++;
            if (!still) {
                movingScale =
                        frame.drawS() > SLOW_S ? Math.max(0.4, movingScale * 0.85) : Math.min(1, movingScale * 1.1);
            }
            repaint();
        } else if (cause instanceof GraphicsException) {
            trouble = cause.getMessage();
            repaint();
        } else if (cause != null && !(cause instanceof CancellationException)) {
            trouble = "The picture failed: " + cause;
            repaint();
        }
        if (again) {
            draw(false);
            rest.restart();
        } else if (restAgain || cause instanceof CancellationException) {
            restAgain = false;
            rest.restart();
        }
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setColor(getBackground());
        g.fillRect(0, 0, getWidth(), getHeight());
        BufferedImage im = image;
        OffscreenRenderer.Request q = shown;
        if (im != null && q != null) {
            g.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            AffineTransform at = AffineTransform.getScaleInstance(
                    (double) getWidth() / im.getWidth(), (double) getHeight() / im.getHeight());
            g.drawImage(im, at, null);
            BufferedImage over = tint;
            if (over != null) {
                g.drawImage(over, 0, 0, getWidth(), getHeight(), null);
            }
            swipe(g);
            new OverlayPainter(q, getWidth(), getHeight(), Px.scale()).paint(g);
            asked(g, q);
            lines(g, q);
            dragged(g, q);
            compared(g);
        }
        String words = trouble != null ? trouble : im == null && model.scene() != null ? "Drawing the board ..." : null;
        if (words != null) {
            paintWords(
                    g,
                    trouble == null
                            ? words
                            : words
                                    + "\n\nFindings, conditions and sections go on without the picture; so do the commands\ndryrun (with its report), draft, study and explain.");
        }
        g.dispose();
    }

    private void swipe(Graphics2D g) {
        BufferedImage base = baseImage;
        if (model.compare() != BenchModel.Compare.SWIPE || base == null) {
            return;
        }
        int x = (int) Math.round(model.swipe() * getWidth());
        Graphics2D left = (Graphics2D) g.create(0, 0, x, getHeight());
        left.drawImage(base, 0, 0, getWidth(), getHeight(), null);
        left.dispose();
        g.setColor(new Color(0, 0, 0, 170));
        g.fillRect(x - 2, 0, 5, getHeight());
        g.setColor(Color.WHITE);
        g.fillRect(x - 1, 0, 3, getHeight());
        g.fillRoundRect(x - 7, getHeight() / 2 - 22, 15, 44, 8, 8);
        g.setColor(Color.BLACK);
        g.drawLine(x - 2, getHeight() / 2 - 12, x - 2, getHeight() / 2 + 12);
        g.drawLine(x + 2, getHeight() / 2 - 12, x + 2, getHeight() / 2 + 12);
    }

    private void compared(Graphics2D g) {
        boolean none = model.whatIf().equals(BenchModel.WhatIf.NONE);
        int y = getHeight() - 92;
        if (model.compare() == BenchModel.Compare.SWIPE) {
            int x = (int) Math.round(model.swipe() * getWidth());
            tag(g, "the job", x - 66, 100);
            tag(g, none ? "no what-if is set" : "what if", x + 10, 100);
        } else if (model.compare() == BenchModel.Compare.DIFFERENCE) {
            tag(g, none ? "difference: no what-if is set" : "difference, at the foil's underside:", 12, y - 66);
            swatch(g, PlaneTint.MORE, 12, y - 42);
            tag(g, "copper more under the what-if (stripes rise)", 40, y - 42);
            swatch(g, PlaneTint.LESS, 12, y - 18);
            tag(g, "copper less under the what-if (stripes fall)", 40, y - 18);
        } else if (model.through()) {
            BoardSnapshot b = model.board();
            boolean far = b != null && !b.farRuns().isEmpty();
            swatch(g, PlaneTint.FAR, 12, y - 18);
            tag(g, far ? "cuts of the far side, seen through the board" : "no cuts on the far side", 40, y - 18);
        }
        if (model.hand() != BenchModel.Hand.ASK) {
            tag(
                    g,
                    switch (model.hand()) {
                        case RULER -> "Ruler: drag from point to point (R or Esc ends)";
                        case ZERO -> "Work zero: drag moves the job, Ctrl+drag turns it (J or Esc ends, B goes back)";
                        default -> "Section: drag a line across the board (X or Esc ends; K pins)";
                    },
                    12,
                    100);
        }
    }

    private void swatch(Graphics2D g, int argb, int x, int y) {
        g.setColor(new Color(argb & 0xFFFFFF));
        g.fillRect(x, y, 22, 18);
        g.setColor(Color.WHITE);
        g.drawRect(x, y, 22, 18);
    }

    private void tag(Graphics2D g, String words, int x, int y) {
        g.setFont(getFont().deriveFont(Px.font(12)));
        int w = g.getFontMetrics().stringWidth(words);
        boolean dark = model.look().dark();
        g.setColor(dark ? new Color(18, 21, 26, 225) : new Color(250, 251, 252, 230));
        g.fillRoundRect(x, y, w + Px.of(12), Px.of(20), 8, 8);
        g.setColor(dark ? new Color(0xEEF1F4) : new Color(0x14181D));
        g.drawString(words, x + Px.of(6), y + Px.of(14));
    }

    private void lines(Graphics2D g, OffscreenRenderer.Request q) {
        int n = 1;
        for (BenchModel.Line l : model.pinned()) {
            line(g, q, l, "section " + n++);
        }
        BenchModel.Line s = model.section();
        if (s != null) {
            line(g, q, s, "section");
        }
        BenchModel.Line r = model.ruler();
        if (r != null) {
            line(g, q, r, AnswerPanel.length(r.lengthMm()));
        }
        BenchModel.Line d = drawing;
        if (d != null) {
            line(g, q, d, AnswerPanel.length(d.lengthMm()));
        }
    }

    private void line(Graphics2D g, OffscreenRenderer.Request q, BenchModel.Line l, String words) {
        if (l.side() != q.board().side()) {
            return;
        }
        double[] a = q.camera().project(l.x0Mm(), l.y0Mm(), 0, getWidth(), getHeight());
        double[] b = q.camera().project(l.x1Mm(), l.y1Mm(), 0, getWidth(), getHeight());
        if (a[2] <= 0 || b[2] <= 0) {
            return;
        }
        for (int pass = 0; pass < 2; pass++) {
            g.setColor(pass == 0 ? new Color(0, 0, 0, 170) : new Color(0xF0E442));
            g.setStroke(new java.awt.BasicStroke(pass == 0 ? 5f : 2f));
            g.draw(new java.awt.geom.Line2D.Double(a[0], a[1], b[0], b[1]));
            for (double[] e : new double[][] {a, b}) {
                g.draw(new java.awt.geom.Ellipse2D.Double(e[0] - 4, e[1] - 4, 8, 8));
            }
        }
        tag(g, words, (int) ((a[0] + b[0]) / 2) + 8, (int) ((a[1] + b[1]) / 2) - 24);
    }

    private void asked(Graphics2D g, OffscreenRenderer.Request q) {
        double[] p = model.asked();
        if (p == null) {
            return;
        }
        double z = q.board().spot(q.conditions(), p[0], p[1]).zMm();
        double[] at = q.camera().project(p[0], p[1], z, getWidth(), getHeight());
        if (at[2] <= 0) {
            return;
        }
        int x = (int) Math.round(at[0]);
        int y = (int) Math.round(at[1]);
        for (int pass = 0; pass < 2; pass++) {
            g.setColor(pass == 0 ? new Color(0, 0, 0, 160) : Color.WHITE);
            g.setStroke(new java.awt.BasicStroke(pass == 0 ? 4f : 1.6f));
            g.drawLine(x - 13, y, x - 4, y);
            g.drawLine(x + 4, y, x + 13, y);
            g.drawLine(x, y - 13, x, y - 4);
            g.drawLine(x, y + 4, x, y + 13);
        }
    }

    private void paintWords(Graphics2D g, String words) {
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(getForeground());
        g.setFont(getFont().deriveFont(Px.font(14)));
        int y = getHeight() / 2;
        for (String line : words.split("\n")) {
            g.drawString(line, 40, y);
            y += Px.of(20);
        }
    }

    private final class Mouse extends MouseAdapter {
        private @Nullable MouseEvent pressed;
        private @Nullable Camera start;
        private boolean moved;

        @Override
        public void mousePressed(MouseEvent e) {
            requestFocusInWindow();
            pressed = e;
            start = camera();
            moved = false;
            int divider = (int) Math.round(model.swipe() * getWidth());
            swiping = model.compare() == BenchModel.Compare.SWIPE && Math.abs(e.getX() - divider) < 10
                    ? new int[] {e.getX()}
                    : null;
            drawing = null;
        }

        @Override
        public void mouseDragged(MouseEvent e) {
            MouseEvent from = pressed;
            Camera c = start;
            if (from == null || c == null) {
                return;
            }
            if (swiping != null) {
                moved = true;
                model.setSwipe((double) e.getX() / Math.max(1, getWidth()));
                return;
            }
            if (model.hand() == BenchModel.Hand.ZERO && SwingUtilities.isLeftMouseButton(from)) {
                moved = true;
                moving = movedJob(from, e);
                repaint();
                return;
            }
            if (model.hand() != BenchModel.Hand.ASK && SwingUtilities.isLeftMouseButton(from)) {
                moved = true;
                drawing = drawn(from, e);
                repaint();
                return;
            }
            int dx = e.getX() - from.getX();
            int dy = e.getY() - from.getY();
            if (!moved && Math.hypot(dx, dy) < 4) {
                return;
            }
            moved = true;
            boolean pan = SwingUtilities.isRightMouseButton(from)
                    || SwingUtilities.isMiddleMouseButton(from)
                    || from.isShiftDown();
            model.setCamera(pan ? panned(c, dx, dy) : orbited(c, dx, dy));
        }

        @Override
        public void mouseReleased(MouseEvent e) {
            BenchModel.Line l = drawing;
            BenchModel.Work w = moving;
            if (w != null) {
                moving = null;
                model.setWhatIf(model.whatIf().withSwept(model.whatIf().swept().withWork(w)));
            } else if (!moved && SwingUtilities.isLeftMouseButton(e)) {
                askAt(e.getX(), e.getY());
            } else if (l != null && l.lengthMm() > 1e-4) {
                if (model.hand() == BenchModel.Hand.RULER) {
                    model.setRuler(l);
                } else {
                    model.setSection(l);
                }
            }
            drawing = null;
            swiping = null;
            pressed = null;
        }

        @Override
        public void mouseWheelMoved(MouseWheelEvent e) {
            zoomAt(e.getX(), e.getY(), Math.pow(1.18, e.getPreciseWheelRotation()));
        }
    }

    Camera orbited(Camera c, double dx, double dy) {
        double e = c.elevationRad() + dy * 0.008;
        double low = Math.toRadians(4);
        // The underside is a view of its own: turning does not slip through the board's edge.
        e = c.fromBelow() ? Math.min(-low, e) : Math.max(low, e);
        return c.turned(c.azimuthRad() - dx * 0.008, e).withParallel(false);
    }

    Camera panned(Camera c, double dx, double dy) {
        double perPixel = c.heightMm() / Math.max(1, getHeight());
        double se = Math.max(0.25, Math.abs(Math.sin(c.elevationRad())));
        double rx = -dx * perPixel;
        double uy = dy * perPixel / se * (c.fromBelow() ? -1 : 1);
        double ca = Math.cos(c.azimuthRad());
        double sa = Math.sin(c.azimuthRad());
        return c.at(c.xMm() + rx * ca - uy * sa, c.yMm() + rx * sa + uy * ca, c.zMm());
    }

    /** Zooms so that the place under the pointer stays where it is. */
    void zoomAt(int x, int y, double factor) {
        Camera c = camera();
        double[] before = onPlane(c, x, y);
        Camera z = c.showing(c.heightMm() * factor);
        double[] after = onPlane(z, x, y);
        if (before.length > 0 && after.length > 0) {
            z = z.at(z.xMm() + before[0] - after[0], z.yMm() + before[1] - after[1], z.zMm());
        }
        model.setCamera(z);
    }

    private double[] onPlane(Camera c, int x, int y) {
        double[] ray = c.ray(x, y, getWidth(), getHeight());
        if (Math.abs(ray[5]) < 1e-6) {
            return new double[0];
        }
        double t = (c.zMm() - ray[2]) / ray[5];
        return new double[] {ray[0] + t * ray[3], ray[1] + t * ray[4]};
    }

    private BenchModel.@Nullable Line drawn(MouseEvent from, MouseEvent to) {
        OffscreenRenderer.Request q = shown;
        if (q == null) {
            return null;
        }
        double[] a = q.camera().pick(q.board(), q.conditions(), from.getX(), from.getY(), getWidth(), getHeight());
        double[] b = q.camera().pick(q.board(), q.conditions(), to.getX(), to.getY(), getWidth(), getHeight());
        return a.length == 0 || b.length == 0
                ? null
                : new BenchModel.Line(
                        q.board().side(), a[0], a[1], b[0], b[1], q.camera().heightMm() / Math.max(1, getHeight()));
    }

    /** The job where a drag would lay it: shifted along, or with Ctrl turned about its zero. */
    private BenchModel.@Nullable Work movedJob(MouseEvent from, MouseEvent to) {
        OffscreenRenderer.Request q = shown;
        JobScene s = model.scene();
        if (q == null || s == null) {
            return null;
        }
        double[] a = onPlane(q.camera(), from.getX(), from.getY());
        double[] b = onPlane(q.camera(), to.getX(), to.getY());
        if (a.length == 0 || b.length == 0) {
            return null;
        }
        BenchModel.Work w = model.whatIf().swept().work();
        // Said of the first side: later sides see its mirror.
        JobMove unit = new JobMove(b[0] - a[0], b[1] - a[1], 1, 0, 0)
                .onSide(s.job(), q.board().side());
        if (!from.isControlDown()) {
            return w.withZero(hundredth(w.zeroXMm() + unit.xMm()), hundredth(w.zeroYMm() + unit.yMm()));
        }
        XyMm zero = w.move(s.job())
                .onSide(s.job(), q.board().side())
                .of(sidePivot(s, q.board().side()));
        double turn =
                Math.atan2(b[1] - zero.yMm(), b[0] - zero.xMm()) - Math.atan2(a[1] - zero.yMm(), a[0] - zero.xMm());
        double deg = Math.toDegrees(w.turnRad() + Math.signum(unit.turnRad()) * turn);
        deg = Math.round(deg * 2) / 2.0;
        return w.withTurn(Math.toRadians(deg - 360 * Math.floor((deg + 180) / 360)));
    }

    private static double hundredth(double mm) {
        return Math.round(mm * 100) / 100.0;
    }

    /** The point about which the job turns, as a side sees it. */
    private static XyMm sidePivot(JobScene s, int side) {
        XyMm p = JobFootprint.pivot(s.job());
        JobMove at = new JobMove(0, 0, 0, p.xMm(), p.yMm()).onSide(s.job(), side);
        return new XyMm(at.aboutXMm(), at.aboutYMm());
    }

    /** Where the job would cut while it is dragged, as lines over the board, and whether it fits. */
    private void dragged(Graphics2D g, OffscreenRenderer.Request q) {
        JobScene s = model.scene();
        if (s == null || model.hand() != BenchModel.Hand.ZERO) {
            return;
        }
        if (footprint == null || footprintOf != s) {
            footprint = JobFootprint.of(s.job(), s.ground().plan());
            footprintOf = s;
        }
        BenchModel.Work w = moving != null ? moving : model.whatIf().swept().work();
        JobMove move = w.move(s.job());
        JobMove here = move.onSide(s.job(), q.board().side());
        java.awt.geom.Path2D path = new java.awt.geom.Path2D.Double();
        for (JobFootprint.Stroke t : footprint.side(q.board().side())) {
            XyMm a = here.of(new XyMm(t.x0Mm(), t.y0Mm()));
            XyMm b = here.of(new XyMm(t.x1Mm(), t.y1Mm()));
            double[] p = q.camera().project(a.xMm(), a.yMm(), 0, getWidth(), getHeight());
            double[] r = q.camera().project(b.xMm(), b.yMm(), 0, getWidth(), getHeight());
            if (p[2] > 0 && r[2] > 0) {
                path.moveTo(p[0], p[1]);
                path.lineTo(r[0], r[1]);
            }
        }
        g.setColor(new Color(0, 0, 0, 150));
        g.setStroke(new java.awt.BasicStroke(3.4f));
        g.draw(path);
        g.setColor(new Color(0xF0E442));
        g.setStroke(new java.awt.BasicStroke(1.4f));
        g.draw(path);
        tag(g, StudyPanel.zeroWords(footprint, move).replace('\n', ' '), 12, 100 + Px.of(26));
    }

    private void askAt(int x, int y) {
        OffscreenRenderer.Request q = shown;
        if (q == null) {
            return;
        }
        double[] hit = q.camera().pick(q.board(), q.conditions(), x, y, getWidth(), getHeight());
        if (hit.length > 0) {
            model.ask(hit[0], hit[1]);
        }
    }
}
