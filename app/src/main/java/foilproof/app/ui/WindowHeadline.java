package foilproof.app.ui;

import foilproof.bench.IntervalMm;
import foilproof.dryrun.DryRunResult;
import foilproof.report.HumanText;
import foilproof.report.ResultDocument;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.BiConsumer;
import javax.swing.BoxLayout;
import javax.swing.JPanel;
import javax.swing.UIManager;
import org.jspecify.annotations.Nullable;

/**
 * What the job survives, before any list: the Z window of the tool run with the least margin as words and as a bar with
 * the person's own spread on it, the others in a line each. A click goes to the place that limits it.
 */
final class WindowHeadline extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final double REACH_MM = 0.15;
    /** More runs than these are counted only. */
    private static final int MOST_OTHERS = 2;

    private final transient BiConsumer<double[], Integer> go;
    private final Wrapped words = new Wrapped(" ");
    private final Wrapped others = new Wrapped(" ");
    private final Bar bar = new Bar();
    private transient ResultDocument.@Nullable ZWindow shown;

    /** Goes to a place of a side when the bar or its words are clicked. */
    WindowHeadline(BiConsumer<double[], Integer> go) {
        this.go = go;
        setLayout(new BoxLayout(this, BoxLayout.Y_AXIS));
        setName("z window headline");
        setBorder(Px.pad(4, 0, 6, 0));
        words.setName("z window words");
        others.setName("z window others");
        add(words);
        add(bar);
        add(others);
        MouseAdapter click = new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent e) {
                goToLimit();
            }
        };
        for (java.awt.Component c : new java.awt.Component[] {words, bar}) {
            c.addMouseListener(click);
            c.setCursor(Cursor.getPredefinedCursor(Cursor.HAND_CURSOR));
        }
        show(null, false);
    }

    /** Goes to the place that limits the end of the window that is nearer to the spread. */
    private void goToLimit() {
        ResultDocument.ZWindow w = shown;
        if (w == null) {
            return;
        }
        ResultDocument.LimitedBy by = limit(w);
        if (by != null && by.atMm() != null) {
            go.accept(by.atMm(), w.side());
        }
    }

    /** What ends the window on the side on which less is left. */
    private static ResultDocument.@Nullable LimitedBy limit(ResultDocument.ZWindow w) {
        double[] s = w.spreadMm();
        double low = w.fromMm() == null ? 9 : (s == null ? 0 : s[0]) - w.fromMm();
        double high = w.toMm() == null ? 9 : w.toMm() - (s == null ? 0 : s[1]);
        return low <= high ? w.limitedFrom() : w.limitedTo();
    }

    /**
     * Shows the windows of a result, or nothing where there is none.
     *
     * @param before whether they are those of before, and are being judged again
     */
    void show(@Nullable DryRunResult r, boolean before) {
        List<ResultDocument.ZWindow> all =
                r == null ? new ArrayList<>() : new ArrayList<>(r.document().zWindows());
        all.sort(Comparator.comparingDouble(WindowHeadline::room));
        shown = all.isEmpty() ? null : all.get(0);
        setVisible(r != null);
        if (r == null || shown == null) {
            words.setText(r == null ? " " : "No tool run has a Z window.");
            others.setText("");
            bar.setVisible(false);
            others.setVisible(false);
            return;
        }
        ResultDocument.ZWindow worst = shown;
        words.setText((before ? "[being judged] " : "") + words(worst));
        IntervalMm spread = r.examination().spreadOf(r.examination().run(worst.run() - 1));
        bar.setVisible(true);
        bar.set(worst, spread);
        StringBuilder s = new StringBuilder();
        for (int i = 1; i < all.size(); i++) {
            if (i > MOST_OTHERS) {
                s.append("; ").append(all.size() - i).append(" more with more room (W)");
                break;
            }
            ResultDocument.ZWindow w = all.get(i);
            s.append(s.length() == 0 ? "" : "; ").append(name(w)).append(": ").append(brief(w));
        }
        others.setText(s.toString());
        others.setVisible(s.length() > 0);
        revalidate();
        repaint();
    }

    /** How much room a window leaves, mm: what sorts the runs. */
    private static double room(ResultDocument.ZWindow w) {
        if (w.empty()) {
            return -9;
        }
        return w.marginMm() == null ? 9 : w.marginMm();
    }

    private static String name(ResultDocument.ZWindow w) {
        return "\"" + w.tool() + "\", run " + w.run();
    }

    private static String brief(ResultDocument.ZWindow w) {
        if (w.empty()) {
            return "no depth works";
        }
        if (w.marginMm() == null) {
            return w.fromMm() == null && w.toMm() == null ? "open both ways" : HumanText.window(w.fromMm(), w.toMm());
        }
        return String.format(Locale.ROOT, "margin %+.3f mm", w.marginMm());
    }

    private static String words(ResultDocument.ZWindow w) {
        if (w.empty()) {
            return "No depth works for " + name(w) + ". " + (w.note() == null ? "" : w.note());
        }
        StringBuilder s = new StringBuilder("Z window ")
                .append(HumanText.window(w.fromMm(), w.toMm()))
                .append(", ")
                .append(name(w));
        if (w.marginMm() != null) {
            s.append(String.format(
                    Locale.ROOT,
                    "; margin %+.3f +/- %.3f mm",
                    floorUm(w.marginMm()),
                    Math.max(0.001, w.plusMinusMm())));
        }
        ResultDocument.LimitedBy by = limit(w);
        if (by != null) {
            s.append(", ").append(by.kind());
            if (by.atMm() != null) {
                s.append(String.format(Locale.ROOT, " at (%.1f, %.1f)", by.atMm()[0], by.atMm()[1]));
            }
        }
        if (w.note() != null) {
            s.append(". ").append(w.note());
        }
        return s.toString();
    }

    /** Rounded so that no more is promised than is there. */
    private static double floorUm(double mm) {
        return Math.floor(mm * 1000 + 1e-6) / 1000;
    }

    /** The window as a band, the stated spread as a line with ends, 0 as a tick; left is higher, right deeper. */
    private static final class Bar extends Drawn {
        private static final long serialVersionUID = 1L;

        private double @Nullable [] window;
        private double @Nullable [] spread;

        Bar() {
            setPreferredSize(Px.size(200, 30));
            setMinimumSize(Px.size(80, 30));
            setMaximumSize(Px.size(10_000, 30));
            setAlignmentX(LEFT_ALIGNMENT);
            setName("z window bar");
            getAccessibleContext().setAccessibleName("Z window of the run with the least margin");
        }

        void set(ResultDocument.ZWindow w, @Nullable IntervalMm own) {
            window = w.empty()
                    ? null
                    : new double[] {w.fromMm() == null ? -REACH_MM : w.fromMm(), w.toMm() == null ? REACH_MM : w.toMm()
                    };
            spread = own == null ? null : new double[] {own.fromMm(), own.toMm()};
            setToolTipText("green: every check passes; line with ends: your spread; left higher, right deeper."
                    + " Click: where it is limited");
        }

        private double x(double mm) {
            double v = Math.max(-REACH_MM, Math.min(REACH_MM, mm));
            return 1 + (v / REACH_MM + 1) / 2 * (getWidth() / Px.scale() - 2);
        }

        @Override
        public Dimension getPreferredSize() {
            return Px.size(200, 30);
        }

        @Override
        protected void paintComponent(Graphics graphics) {
            Graphics2D g = (Graphics2D) graphics.create();
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            g.scale(Px.scale(), Px.scale());
            Color text = UIManager.getColor("Label.foreground");
            g.setColor(new Color(128, 128, 128, 80));
            g.fill(new Rectangle2D.Double(x(-REACH_MM), 4, x(REACH_MM) - x(-REACH_MM), 9));
            double[] w = window;
            if (w != null) {
                g.setColor(new Color(0x2E8F62));
                g.fill(new Rectangle2D.Double(x(w[0]), 4, Math.max(1, x(w[1]) - x(w[0])), 9));
            }
            g.setColor(text);
            g.setStroke(new BasicStroke(1));
            g.draw(new Line2D.Double(x(0), 2, x(0), 15));
            double[] s = spread;
            if (s != null) {
                g.setStroke(new BasicStroke(2));
                g.draw(new Line2D.Double(x(s[0]), 8.5, x(s[1]), 8.5));
                for (double end : s) {
                    g.draw(new Line2D.Double(x(end), 5, x(end), 12));
                }
            }
            g.setFont(getFont().deriveFont(10.5f));
            String high = "-0.15 higher";
            String deep = "deeper +0.15 mm";
            g.drawString(high, 1, 26);
            int deepWidth = g.getFontMetrics().stringWidth(deep);
            g.drawString(deep, (float) (x(REACH_MM) - deepWidth), 26);
            if (s != null) {
                String own = String.format(Locale.ROOT, "your spread %+.3f .. %+.3f", s[0], s[1]);
                int w0 = g.getFontMetrics().stringWidth(high) + 8;
                double room = x(REACH_MM) - deepWidth - 8 - w0;
                int ownWidth = g.getFontMetrics().stringWidth(own);
                if (ownWidth < room) {
                    g.drawString(own, (float) (w0 + (room - ownWidth) / 2), 26);
                }
            }
            g.dispose();
        }
    }
}
