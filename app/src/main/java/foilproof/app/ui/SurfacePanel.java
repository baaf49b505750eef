package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import java.awt.BasicStroke;
import java.awt.BorderLayout;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ActionEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import javax.swing.AbstractAction;
import javax.swing.ButtonGroup;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JSpinner;
import javax.swing.JToggleButton;
import javax.swing.KeyStroke;
import javax.swing.SpinnerNumberModel;
import javax.swing.UIManager;

/** The foil top as a net of points that can be dragged up and down, or typed; linear between them. */
final class SurfacePanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final double REACH_MM = 0.3;
    private static final double STEP_MM = 0.005;

    private final transient BenchModel model;
    private final Net net = new Net();
    private final JLabel place = new JLabel(" ");
    private final JSpinner typed;
    private final List<JToggleButton> sizes = new ArrayList<>();
    private int across = 3;
    private int chosen = 4;
    private boolean showing;

    SurfacePanel(BenchModel model) {
        super(new BorderLayout(0, 2));
        this.model = model;
        setAlignmentX(LEFT_ALIGNMENT);
        setBorder(Px.pad(8, 0, 0, 0));
        JPanel head = new JPanel(new BorderLayout());
        JLabel title = new JLabel("Points of the foil top, + = higher");
        title.setToolTipText("drag a point up or down; arrow keys choose, + and - move by 0.005 mm");
        head.add(title);
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.RIGHT, 2, 0));
        ButtonGroup group = new ButtonGroup();
        for (int n : new int[] {3, 5}) {
            JToggleButton b = new JToggleButton(Integer.toString(n * n), n == across);
            b.setName("points " + n * n);
            b.setToolTipText(n * n + " points; those that were dragged keep their shape");
            b.setMargin(new java.awt.Insets(1, 6, 1, 6));
            b.addActionListener(e -> resize(n));
            group.add(b);
            sizes.add(b);
            buttons.add(b);
        }
        head.add(buttons, BorderLayout.EAST);
        add(head, BorderLayout.NORTH);
        add(net);
        JPanel low = new JPanel(new BorderLayout(4, 0));
        low.add(place);
        typed = new JSpinner(new SpinnerNumberModel(0.0, -REACH_MM, REACH_MM, STEP_MM));
        typed.setEditor(new JSpinner.NumberEditor(typed, "0.000"));
        typed.setName("point height, mm");
        typed.getAccessibleContext().setAccessibleName("height of the chosen point, mm, + = higher");
        typed.setPreferredSize(new Dimension(Px.of(84), Px.of(26)));
        typed.addChangeListener(e -> {
            if (!showing) {
                put(((Number) typed.getValue()).doubleValue());
            }
        });
        JPanel right = new JPanel(new FlowLayout(FlowLayout.RIGHT, 3, 0));
        right.add(typed);
        right.add(new JLabel("mm"));
        low.add(right, BorderLayout.EAST);
        add(low, BorderLayout.SOUTH);
        setMaximumSize(new Dimension(10_000, Px.of(210)));
        model.listen(c -> {
            if (c == BenchModel.Change.CONDITIONS || c == BenchModel.Change.JOB) {
                follow();
            }
        });
        follow();
    }

    private List<Double> heights() {
        List<Double> now = model.whatIf().swept().pointsMm();
        return now.size() == across * across ? now : Collections.nCopies(across * across, 0.0);
    }

    /** Another number of points: the surface that was dragged is kept as well as the new points can. */
    private void resize(int n) {
        BenchModel.Swept was = model.whatIf().swept();
        across = n;
        chosen = n * n / 2;
        if (!was.pointsMm().isEmpty()) {
            List<Double> all = new ArrayList<>();
            BenchModel.Swept bare = BenchModel.Swept.NONE.withPoints(was.pointsMm());
            for (int j = 0; j < n; j++) {
                for (int i = 0; i < n; i++) {
                    all.add(bare.heightMm(i / (n - 1.0), j / (n - 1.0)));
                }
            }
            model.setWhatIf(model.whatIf().withSwept(was.withPoints(all)));
        }
        follow();
    }

    private void follow() {
        int n = (int) Math.round(Math.sqrt(model.whatIf().swept().pointsMm().size()));
        if (n >= 2 && n != across) {
            across = n;
            chosen = n * n / 2;
        }
        sizes.forEach(b -> b.setSelected(b.getText().equals(Integer.toString(across * across))));
        showing = true;
        typed.setValue(heights().get(chosen));
        showing = false;
        JobScene s = model.scene();
        double u = chosen % across / (across - 1.0);
        double v = chosen / across / (across - 1.0);
        place.setText(
                s == null
                        ? " "
                        : String.format(
                                Locale.ROOT,
                                "X %.1f Y %.1f mm",
                                u * s.job().blank().widthMm(),
                                v * s.job().blank().heightMm()));
        net.repaint();
    }

    private void choose(int point) {
        chosen = Math.max(0, Math.min(across * across - 1, point));
        follow();
    }

    private void put(double mm) {
        double h = Math.round(Math.max(-REACH_MM, Math.min(REACH_MM, mm)) / 0.001) * 0.001;
        List<Double> all = new ArrayList<>(heights());
        if (all.get(chosen) != h) {
            all.set(chosen, h);
            model.setWhatIf(model.whatIf().withSwept(model.whatIf().swept().withPoints(all)));
        }
    }

    /** Where point i of the net is drawn at a height, pixels of the net. For tests, too. */
    java.awt.Point at(int i, double heightMm) {
        double[] p = net.at(i, heightMm);
        return new java.awt.Point((int) Math.round(p[0]), (int) Math.round(p[1]));
    }

    private final class Net extends Drawn {
        private static final long serialVersionUID = 1L;

        private double heldMm;
        private int pressedY;

        Net() {
            setName("surface net");
            getAccessibleContext().setAccessibleName("Points of the foil top");
            setFocusable(true);
            setPreferredSize(new Dimension(Px.of(260), Px.of(132)));
            MouseAdapter mouse = new MouseAdapter() {
                @Override
                public void mousePressed(MouseEvent e) {
                    requestFocusInWindow();
                    choose(nearest(e.getX(), e.getY()));
                    heldMm = heights().get(chosen);
                    pressedY = e.getY();
                }

                @Override
                public void mouseDragged(MouseEvent e) {
                    put(Math.round((heldMm + (pressedY - e.getY()) / perMm()) / STEP_MM) * STEP_MM);
                }
            };
            addMouseListener(mouse);
            addMouseMotionListener(mouse);
            key("LEFT", () -> choose(chosen - 1));
            key("RIGHT", () -> choose(chosen + 1));
            key("UP", () -> choose(chosen + across < across * across ? chosen + across : chosen));
            key("DOWN", () -> choose(chosen >= across ? chosen - across : chosen));
            key("typed +", () -> put(heights().get(chosen) + STEP_MM));
            key("typed -", () -> put(heights().get(chosen) - STEP_MM));
            key("HOME", () -> put(0));
        }

        private void key(String stroke, Runnable work) {
            getInputMap().put(KeyStroke.getKeyStroke(stroke), stroke);
            getActionMap().put(stroke, new AbstractAction() {
                private static final long serialVersionUID = 1L;

                @Override
                public void actionPerformed(ActionEvent e) {
                    work.run();
                }
            });
        }

        private double perMm() {
            return getHeight() * 0.3 / REACH_MM;
        }

        double[] at(int i, double mm) {
            double u = i % across / (across - 1.0);
            double v = i / across / (across - 1.0);
            double w = getWidth() - 2.0 * Px.of(14);
            double low = getHeight() * 0.74;
            return new double[] {Px.of(14) + w * (0.74 * u + 0.26 * v), low - getHeight() * 0.42 * v - mm * perMm()};
        }

        private int nearest(int x, int y) {
            int best = 0;
            double d = Double.POSITIVE_INFINITY;
            List<Double> h = heights();
            for (int i = 0; i < across * across; i++) {
                double[] p = at(i, h.get(i));
                double to = Math.hypot(p[0] - x, p[1] - y);
                if (to < d) {
                    d = to;
                    best = i;
                }
            }
            return best;
        }

        @Override
        protected void paintComponent(Graphics graphics) {
            Graphics2D g = (Graphics2D) graphics.create();
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            Color text = UIManager.getColor("Label.foreground");
            Color accent = UIManager.getColor("Component.accentColor");
            List<Double> h = heights();
            g.setStroke(new BasicStroke(1));
            for (int i = 0; i < across * across; i++) {
                neighbours(g, i, h, new Color(128, 128, 128, 90), false);
            }
            g.setStroke(new BasicStroke((float) (1.6 * Px.scale())));
            for (int i = 0; i < across * across; i++) {
                neighbours(g, i, h, text, true);
            }
            double r = Px.of(5);
            for (int i = across * across - 1; i >= 0; i--) {
                double[] foot = at(i, 0);
                double[] p = at(i, h.get(i));
                g.setColor(new Color(128, 128, 128));
                g.draw(new Line2D.Double(foot[0], foot[1], p[0], p[1]));
                g.setColor(i == chosen && accent != null ? accent : text);
                g.fill(new Ellipse2D.Double(p[0] - r, p[1] - r, 2 * r, 2 * r));
                if (i == chosen) {
                    g.setColor(text);
                    g.draw(new Ellipse2D.Double(p[0] - r - 3, p[1] - r - 3, 2 * r + 6, 2 * r + 6));
                }
            }
            g.setFont(getFont().deriveFont(Px.font(10.5)));
            double[] origin = at(0, 0);
            g.drawString("X 0 Y 0", (float) origin[0] - Px.of(8), getHeight() - Px.of(3));
            String words = String.format(Locale.ROOT, "%+.3f mm", h.get(chosen));
            g.drawString(words, getWidth() - g.getFontMetrics().stringWidth(words) - Px.of(6), getHeight() - Px.of(3));
            g.dispose();
        }

        private void neighbours(Graphics2D g, int i, List<Double> h, Color c, boolean raised) {
            g.setColor(c);
            double[] a = at(i, raised ? h.get(i) : 0);
            if (i % across < across - 1) {
                double[] b = at(i + 1, raised ? h.get(i + 1) : 0);
                g.draw(new Line2D.Double(a[0], a[1], b[0], b[1]));
            }
            if (i / across < across - 1) {
                double[] b = at(i + across, raised ? h.get(i + across) : 0);
                g.draw(new Line2D.Double(a[0], a[1], b[0], b[1]));
            }
        }
    }
}
