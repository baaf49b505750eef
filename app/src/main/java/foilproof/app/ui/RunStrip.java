package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.OverlayPainter;
import foilproof.findings.Finding;
import foilproof.findings.RunFacts;
import foilproof.findings.Severity;
import foilproof.motion.MotionEvent;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Locale;
import javax.swing.UIManager;
import org.jspecify.annotations.Nullable;

/** The whole job as time: one block a tool run, tool changes between, findings marked; drag it both ways. */
final class RunStrip extends Drawn {
    private static final long serialVersionUID = 1L;
    /** Shorter pauses are drawn, but no key stops at them, seconds. */
    static final double LEAST_EVENT_S = 0.5;

    private static final int SIDE = 14;
    private static final int TOP = 24;
    private static final int BAR = 26;

    private final transient BenchModel model;

    RunStrip(BenchModel model) {
        this.model = model;
        setPreferredSize(Px.size(400, 94));
        setMinimumSize(Px.size(100, 94));
        setName("run strip");
        getAccessibleContext().setAccessibleName("Run strip: the job as time");
        setToolTipText("");
        MouseAdapter mouse = new MouseAdapter() {
            @Override
            public void mousePressed(MouseEvent e) {
                model.setTime(timeAt(e.getX()));
            }

            @Override
            public void mouseDragged(MouseEvent e) {
                model.setTime(timeAt(e.getX()));
            }
        };
        addMouseListener(mouse);
        addMouseMotionListener(mouse);
        model.listen(change -> repaint());
    }

    double timeAt(int x) {
        JobScene s = model.scene();
        return s == null ? 0 : (x / Px.scale() - SIDE) / Math.max(1, wide() - 2 * SIDE) * s.endS();
    }

    /** Width in pixels of an ordinary screen. */
    private double wide() {
        return getWidth() / Px.scale();
    }

    private double xAt(double timeS, double endS) {
        return SIDE + timeS / Math.max(1e-9, endS) * (wide() - 2 * SIDE);
    }

    @Override
    public @Nullable String getToolTipText(MouseEvent e) {
        JobScene s = model.scene();
        if (s == null) {
            return null;
        }
        double t = Math.max(0, Math.min(s.endS(), timeAt(e.getX())));
        double near = 3 * s.endS() / Math.max(1, wide() - 2 * SIDE);
        StringBuilder words = new StringBuilder(JobScene.clock(t));
        words.append("  ").append(s.ground().plan().tipAt(t).words(s.ground().plan()));
        for (MotionEvent m : s.ground().plan().events()) {
            if (m.durationS() >= 0.05 && t >= m.timeS() - near && t <= m.timeS() + m.durationS() + near) {
                words.append("; ").append(label(m));
            }
        }
        for (Finding f : model.findings()) {
            if (f.timeS() != null && Math.abs(f.timeS() - t) <= near) {
                words.append("; ").append(f.severity().word()).append(": ").append(f.kind());
            }
        }
        return words.toString();
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.scale(Px.scale(), Px.scale());
        g.setFont(getFont().deriveFont(12f));
        Color text = UIManager.getColor("Label.foreground");
        JobScene s = model.scene();
        if (s != null && s.endS() > 0) {
            runs(g, s);
            ticks(g, s, text);
            pauses(g, s, text);
            names(g, s);
            findings(g, s);
            head(g, s, text);
        }
        g.dispose();
    }

    private void runs(Graphics2D g, JobScene s) {
        g.setColor(new Color(128, 128, 128, 60));
        g.fill(new Rectangle2D.Double(SIDE, TOP, wide() - 2 * SIDE, BAR));
        List<RunFacts> runs = s.ground().runs();
        for (int i = 0; i < runs.size(); i++) {
            RunFacts r = runs.get(i);
            if (r.run().segmentCount() == 0) {
                continue;
            }
            double first = s.ground().plan().segments().startS(r.run().firstSegment());
            double x0 = xAt(first, s.endS());
            double x1 = xAt(r.run().endS(), s.endS());
            Color c = OverlayPainter.toolColour(i);
            g.setColor(c);
            g.fill(new Rectangle2D.Double(x0, TOP, Math.max(2, x1 - x0 - 1), BAR));
        }
    }

    /** Names of the tool runs, each in the widest part of its block that no pause takes. */
    private void names(Graphics2D g, JobScene s) {
        List<RunFacts> runs = s.ground().runs();
        for (int i = 0; i < runs.size(); i++) {
            RunFacts r = runs.get(i);
            if (r.run().segmentCount() == 0) {
                continue;
            }
            double from = s.ground().plan().segments().startS(r.run().firstSegment());
            double[] best = {0, 0};
            double free = from;
            for (MotionEvent e : s.ground().plan().events()) {
                boolean inside = e.durationS() >= 0.05
                        && e.timeS() >= from
                        && e.timeS() < r.run().endS();
                if (inside && e.timeS() - free > best[1] - best[0]) {
                    best = new double[] {free, e.timeS()};
                }
                free = inside ? e.timeS() + e.durationS() : free;
            }
            if (r.run().endS() - free > best[1] - best[0]) {
                best = new double[] {free, r.run().endS()};
            }
            double x0 = xAt(best[0], s.endS());
            double x1 = xAt(best[1], s.endS());
            g.setColor(OverlayPainter.inkOn(OverlayPainter.toolColour(i)));
            String words = r.toolName()
                    + (s.job().sides().size() > 1 ? ", side " + r.side().number() : "");
            if (g.getFontMetrics().stringWidth(words) < x1 - x0 - 8) {
                g.drawString(words, (float) x0 + 5, TOP + 17);
            }
        }
    }

    /** Tool changes, stops and dwells: hatched, with words where there is room and else a sign at the foot. */
    private void pauses(Graphics2D g, JobScene s, Color text) {
        double free = 0;
        for (MotionEvent e : s.ground().plan().events()) {
            if (e.durationS() < 0.05) {
                continue;
            }
            double x0 = xAt(e.timeS(), s.endS());
            double x1 = Math.max(x0 + 2, xAt(e.timeS() + e.durationS(), s.endS()));
            g.setColor(UIManager.getColor("Panel.background"));
            g.fill(new Rectangle2D.Double(x0, TOP, x1 - x0, BAR));
            g.setColor(new Color(128, 128, 128, 130));
            for (double x = x0; x < x1; x += 6) {
                g.fill(new Rectangle2D.Double(x, TOP, Math.min(2, x1 - x), BAR));
            }
            String words = label(e);
            int w = g.getFontMetrics().stringWidth(words);
            boolean inside = w + 10 < x1 - x0;
            double at = inside ? (x0 + x1 - w) / 2 : x0;
            if (inside) {
                g.setColor(UIManager.getColor("Panel.background"));
                g.fill(new Rectangle2D.Double(at - 3, TOP + 4, w + 6, BAR - 8));
                g.setColor(text);
                g.drawString(words, (float) at, TOP + 17);
                continue;
            }
            g.setColor(text);
            String sign = e.kind() == MotionEvent.Kind.DWELL ? "" : brief(e);
            int signWidth = g.getFontMetrics().stringWidth(sign);
            g.fill(new Rectangle2D.Double(x0, TOP - 3, 1.5, BAR + 6));
            if (!sign.isEmpty() && x0 > free && x0 + signWidth + 4 < wide()) {
                g.setColor(UIManager.getColor("Panel.background"));
                g.fill(new Rectangle2D.Double(x0 + 2, TOP + 5, signWidth + 4, BAR - 10));
                g.setColor(text);
                g.drawString(sign, (float) x0 + 4, TOP + 17);
                free = x0 + signWidth + 8;
            }
        }
    }

    /** What a pause is, in words: "tool change T2, 02:00". */
    static String label(MotionEvent e) {
        String what =
                switch (e.kind()) {
                    case DWELL -> "dwell";
                    case TOOL_CHANGE, TOOL_CHANGE_IGNORED -> "tool change" + brief(e).replaceAll("^(?=T)", " ");
                    case TOUCH_OFF -> "touch-off";
                    case PROGRAM_STOP, OPTIONAL_STOP -> "stop";
                    default -> "pause";
                };
        return what + ", "
                + (e.durationS() < 10
                        ? String.format(Locale.ROOT, "%.1f s", e.durationS())
                        : JobScene.clock(e.durationS()));
    }

    private static String brief(MotionEvent e) {
        return switch (e.kind()) {
            case TOOL_CHANGE, TOOL_CHANGE_IGNORED -> Double.isNaN(e.value()) ? "" : "T" + Math.round(e.value());
            case PROGRAM_STOP, OPTIONAL_STOP -> "stop";
            default -> "";
        };
    }

    private void ticks(Graphics2D g, JobScene s, Color text) {
        double[] steps = {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 18000};
        double step = steps[steps.length - 1];
        for (double v : steps) {
            if (v / s.endS() * (wide() - 2 * SIDE) > 70) {
                step = v;
                break;
            }
        }
        for (double t = 0; t <= s.endS() + 1e-6; t += step) {
            double x = xAt(t, s.endS());
            g.setColor(new Color(128, 128, 128));
            g.fill(new Rectangle2D.Double(x, TOP + BAR, 1, 5));
            g.setColor(text);
            String words = JobScene.clock(t);
            int w = g.getFontMetrics().stringWidth(words);
            g.drawString(words, (float) Math.max(2, Math.min(wide() - w - 2, x - w / 2.0)), TOP + BAR + 22);
        }
    }

    private void findings(Graphics2D g, JobScene s) {
        List<Finding> all = model.findings();
        for (int i = all.size() - 1; i >= 0; i--) {
            Double t = all.get(i).timeS();
            if (t != null) {
                int severity = Severity.NOTE.ordinal() - all.get(i).severity().ordinal();
                double x = xAt(t, s.endS());
                g.setColor(OverlayPainter.severityColour(severity));
                g.fill(new Rectangle2D.Double(x - 0.75, TOP - 6, 1.5, BAR + 6));
                g.fill(OverlayPainter.severityShape(severity, x, TOP - 11, i == model.chosen() ? 8 : 6));
            }
        }
    }

    private void head(Graphics2D g, JobScene s, Color text) {
        double x = xAt(model.timeS(), s.endS());
        g.setColor(text);
        g.setStroke(new BasicStroke(2));
        g.draw(new java.awt.geom.Line2D.Double(x, TOP - 4, x, TOP + BAR + 4));
        g.fill(OverlayPainter.severityShape(2, x, TOP + BAR + 7, 5));
        String words = String.format(Locale.ROOT, "%s of %s", JobScene.clock(model.timeS()), JobScene.clock(s.endS()));
        BoardSnapshot b = model.board();
        if (b != null) {
            // The moment stands in front already.
            words += "   " + b.stateWords().replaceAll(", " + JobScene.clock(b.timeS()) + "$", "");
        }
        int w = g.getFontMetrics().stringWidth(words);
        float at = (float) Math.max(SIDE, Math.min(wide() - SIDE - w, x - w / 2.0));
        g.drawString(words, at, 90);
    }
}
