package foilproof.app.ui;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ActionEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import java.util.function.DoubleConsumer;
import javax.swing.AbstractAction;
import javax.swing.KeyStroke;
import javax.swing.UIManager;
import org.jspecify.annotations.Nullable;

/**
 * Chooses a signed length: a scale with the Z window as a band, the person's own spread as a line and the chosen value as
 * a needle. Arrow keys and the wheel move it by one step, a double click sets it to 0.
 */
final class ZSlider extends Drawn {
    private static final long serialVersionUID = 1L;
    private static final int SIDE = 12;

    private final double reachMm;
    private final double stepMm;
    private final transient DoubleConsumer changed;
    private double valueMm;
    private double @Nullable [] window;
    private double @Nullable [] fixWindow;
    private double @Nullable [] spread;
    private String low = "";
    private String high = "";

    ZSlider(String name, double reachMm, double stepMm, DoubleConsumer changed) {
        this.reachMm = reachMm;
        this.stepMm = stepMm;
        this.changed = changed;
        setName(name);
        getAccessibleContext().setAccessibleName(name);
        setFocusable(true);
        setPreferredSize(Px.size(200, 40));
        setMinimumSize(Px.size(120, 40));
        MouseAdapter mouse = new MouseAdapter() {
            @Override
            public void mousePressed(MouseEvent e) {
                requestFocusInWindow();
                move(e.getClickCount() > 1 ? 0 : at(e.getX()));
            }

            @Override
            public void mouseDragged(MouseEvent e) {
                move(at(e.getX()));
            }
        };
        addMouseListener(mouse);
        addMouseMotionListener(mouse);
        addMouseWheelListener(e -> {
            if (isFocusOwner()) {
                move(valueMm - Math.signum(e.getPreciseWheelRotation()) * stepMm);
            } else if (getParent() != null) {
                // A wheel that scrolls past must not change what was set.
                getParent().dispatchEvent(javax.swing.SwingUtilities.convertMouseEvent(this, e, getParent()));
            }
        });
        key("RIGHT", 1);
        key("LEFT", -1);
        key("UP", 1);
        key("DOWN", -1);
        key("HOME", 0);
    }

    /** What its ends mean, in a word each. */
    ZSlider meaning(String newLow, String newHigh) {
        low = newLow;
        high = newHigh;
        getAccessibleContext().setAccessibleDescription("- = " + low + ", + = " + high);
        setToolTipText("- = " + low + ", + = " + high + "; arrow keys and wheel step, Home sets 0");
        return this;
    }

    private void key(String stroke, int steps) {
        getInputMap().put(KeyStroke.getKeyStroke(stroke), stroke);
        getActionMap().put(stroke, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent e) {
                move(steps == 0 ? 0 : valueMm + steps * stepMm);
            }
        });
    }

    void setValue(double mm) {
        valueMm = mm;
        repaint();
    }

    void setWindow(double @Nullable [] newWindow, double @Nullable [] newFix, double @Nullable [] newSpread) {
        window = newWindow;
        fixWindow = newFix;
        spread = newSpread;
        repaint();
    }

    private void move(double mm) {
        double v = Math.round(Math.max(-reachMm, Math.min(reachMm, mm)) / stepMm) * stepMm;
        if (Math.abs(v - valueMm) > 1e-9) {
            valueMm = v;
            repaint();
            changed.accept(v);
        }
    }

    private double at(int x) {
        return ((x / Px.scale() - SIDE) / (wide() - 2 * SIDE) * 2 - 1) * reachMm;
    }

    private double x(double mm) {
        double v = Math.max(-reachMm, Math.min(reachMm, mm));
        return SIDE + (v / reachMm + 1) / 2 * (wide() - 2 * SIDE);
    }

    /** Width in pixels of an ordinary screen. */
    private double wide() {
        return getWidth() / Px.scale();
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.scale(Px.scale(), Px.scale());
        Color text = UIManager.getColor("Label.foreground");
        Color accent = UIManager.getColor("Component.accentColor");
        accent = accent == null ? new Color(0x2E8BC0) : accent;
        double y = 13;
        g.setColor(new Color(128, 128, 128, 70));
        g.fill(new Rectangle2D.Double(SIDE, y - 5, wide() - 2.0 * SIDE, 10));
        band(g, fixWindow, new Color(0x8FB4A0), y, 10, 110);
        band(g, window, new Color(0x2E8F62), y, 10, 230);
        double[] s = spread;
        if (s != null) {
            g.setColor(text);
            g.setStroke(new BasicStroke(2));
            g.draw(new Line2D.Double(x(s[0]), y, x(s[1]), y));
            for (double end : s) {
                g.draw(new Line2D.Double(x(end), y - 4, x(end), y + 4));
            }
        }
        g.setFont(getFont().deriveFont(10.5f));
        ticks(g, text, y);
        double x = x(valueMm);
        g.setColor(isFocusOwner() ? accent : text);
        g.setStroke(new BasicStroke(2.4f));
        g.draw(new Line2D.Double(x, y - 9, x, y + 8));
        g.fill(new Ellipse2D.Double(x - 5, y - 12, 10, 10));
        g.dispose();
    }

    /** Ticks at the ends, the middle and half-way; labels only where they stand clear of one another. */
    private void ticks(Graphics2D g, Color text, double y) {
        double gap = 8;
        double[][] taken = new double[5][];
        for (int i : new int[] {-2, 2, 0, -1, 1}) {
            double v = reachMm * i / 2;
            g.setColor(new Color(128, 128, 128));
            g.fill(new Rectangle2D.Double(x(v) - 0.5, y + 5, 1, 4));
            String words = i == 0 ? "0" : plain(v);
            if (i == -2 && !low.isEmpty()) {
                words = words + " " + low;
            } else if (i == 2 && !high.isEmpty()) {
                words = high + " " + words;
            }
            double w = g.getFontMetrics().stringWidth(words);
            double at = Math.max(0, Math.min(wide() - w, x(v) - w / 2));
            boolean free = true;
            for (double[] t : taken) {
                free &= t == null || at > t[1] + gap || at + w < t[0] - gap;
            }
            if (free) {
                taken[i + 2] = new double[] {at, at + w};
                g.setColor(text);
                g.drawString(words, (float) at, (float) (y + 21));
            }
        }
    }

    /** A signed length with as many digits as it has. */
    private static String plain(double mm) {
        return (mm < 0 ? "-" : "+")
                + new java.math.BigDecimal(String.format(Locale.ROOT, "%.3f", Math.abs(mm)))
                        .stripTrailingZeros()
                        .toPlainString();
    }

    private void band(Graphics2D g, double @Nullable [] ends, Color c, double y, double h, int alpha) {
        if (ends != null && ends[1] > ends[0]) {
            g.setColor(new Color(c.getRed(), c.getGreen(), c.getBlue(), alpha));
            g.fill(new Rectangle2D.Double(x(ends[0]), y - h / 2, x(ends[1]) - x(ends[0]), h));
        }
    }
}
