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
import java.awt.Dimension;
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
    private static final int SIDE = 14;
    private static final int TOP = 24;
    private static final int BAR = 26;

    private final transient BenchModel model;

    RunStrip(BenchModel model) {
        this.model = model;
        setPreferredSize(new Dimension(400, 94));
        setMinimumSize(new Dimension(100, 94));
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
        return s == null ? 0 : (x - SIDE) / (double) Math.max(1, getWidth() - 2 * SIDE) * s.endS();
    }

    private double xAt(double timeS, double endS) {
        return SIDE + timeS / Math.max(1e-9, endS) * (getWidth() - 2 * SIDE);
    }

    @Override
    public @Nullable String getToolTipText(MouseEvent e) {
        JobScene s = model.scene();
        if (s == null) {
            return null;
        }
        double t = Math.max(0, Math.min(s.endS(), timeAt(e.getX())));
        return JobScene.clock(t) + "  "
                + s.ground().plan().tipAt(t).words(s.ground().plan());
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setFont(getFont().deriveFont(12f));
        Color text = UIManager.getColor("Label.foreground");
        JobScene s = model.scene();
        if (s != null && s.endS() > 0) {
            runs(g, s);
            ticks(g, s, text);
            findings(g, s);
            head(g, s, text);
        }
        g.dispose();
    }

    private void runs(Graphics2D g, JobScene s) {
        g.setColor(new Color(128, 128, 128, 60));
        g.fill(new Rectangle2D.Double(SIDE, TOP, getWidth() - 2.0 * SIDE, BAR));
        for (MotionEvent e : s.ground().plan().events()) {
            if (e.durationS() > 1) {
                double x0 = xAt(e.timeS(), s.endS());
                double x1 = xAt(e.timeS() + e.durationS(), s.endS());
                g.setColor(new Color(128, 128, 128, 110));
                for (double x = x0; x < x1; x += 6) {
                    g.fill(new Rectangle2D.Double(x, TOP, Math.min(2, x1 - x), BAR));
                }
            }
        }
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
            double grey = 0.299 * c.getRed() + 0.587 * c.getGreen() + 0.114 * c.getBlue();
            g.setColor(grey > 120 ? Color.BLACK : Color.WHITE);
            String words = r.toolName()
                    + (s.job().sides().size() > 1 ? ", side " + r.side().number() : "");
            if (g.getFontMetrics().stringWidth(words) < x1 - x0 - 8) {
                g.drawString(words, (float) x0 + 5, TOP + 17);
            }
        }
    }

    private void ticks(Graphics2D g, JobScene s, Color text) {
        double[] steps = {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 18000};
        double step = steps[steps.length - 1];
        for (double v : steps) {
            if (v / s.endS() * (getWidth() - 2 * SIDE) > 70) {
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
            g.drawString(words, (float) Math.max(2, Math.min(getWidth() - w - 2, x - w / 2.0)), TOP + BAR + 19);
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
        g.fill(OverlayPainter.severityShape(2, x, TOP + BAR + 8, 6));
        String words = String.format(Locale.ROOT, "%s of %s", JobScene.clock(model.timeS()), JobScene.clock(s.endS()));
        BoardSnapshot b = model.board();
        if (b != null) {
            words += "   " + b.stateWords();
        }
        int w = g.getFontMetrics().stringWidth(words);
        float at = (float) Math.max(SIDE, Math.min(getWidth() - SIDE - w, x - w / 2.0));
        g.drawString(words, at, 88);
    }
}
