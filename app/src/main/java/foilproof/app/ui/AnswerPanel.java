package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Section;
import foilproof.app.viewer.SectionPainter;
import foilproof.findings.RunFacts;
import foilproof.motion.MotionPlan;
import foilproof.stock.Cut;
import foilproof.stock.PointHistory;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** Answers a click on the board: what is here, who cut it, and the section through the place. */
final class AnswerPanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final int MOST_CUTS = 12;

    private final transient BenchModel model;
    private final JTextArea text = new JTextArea();
    private final SectionView section = new SectionView();
    private transient @Nullable SwingWorker<String, Void> asking;
    private double reachMm = 0.6;
    private boolean alongY;

    AnswerPanel(BenchModel model) {
        super(new BorderLayout(0, 4));
        this.model = model;
        setBorder(BorderFactory.createEmptyBorder(4, 10, 8, 10));
        text.setName("answer");
        text.setEditable(false);
        text.setLineWrap(true);
        text.setWrapStyleWord(true);
        text.setMargin(new java.awt.Insets(6, 8, 6, 8));
        text.getAccessibleContext().setAccessibleName("What is at the place that was asked");
        text.setText("Click the board: what is here, and who cut it?");
        JScrollPane scroll = new JScrollPane(text);
        scroll.setPreferredSize(new Dimension(280, 150));
        section.setPreferredSize(new Dimension(280, 190));
        section.setName("section");
        section.setToolTipText("Section through the place; wheel: wider or narrower; click: along X or along Y");
        section.addMouseWheelListener(e -> {
            reachMm = Math.max(0.05, Math.min(60, reachMm * Math.pow(1.2, e.getPreciseWheelRotation())));
            section.repaint();
        });
        section.addMouseListener(new java.awt.event.MouseAdapter() {
            @Override
            public void mouseClicked(java.awt.event.MouseEvent e) {
                turn();
            }
        });
        add(section, BorderLayout.NORTH);
        add(scroll);
        model.listen(c -> {
            if (c == BenchModel.Change.CHOICE || c == BenchModel.Change.BOARD || c == BenchModel.Change.CONDITIONS) {
                answer();
                section.repaint();
            }
        });
    }

    /** Turns the section from along X to along Y and back. */
    void turn() {
        alongY = !alongY;
        section.repaint();
    }

    private void answer() {
        double[] p = model.asked();
        BoardSnapshot b = model.board();
        JobScene s = model.scene();
        if (asking != null) {
            asking.cancel(false);
        }
        if (p == null || b == null || s == null) {
            return;
        }
        BoardSnapshot.Conditions c = model.conditions(b);
        SwingWorker<String, Void> work = new SwingWorker<>() {
            @Override
            protected String doInBackground() {
                return words(s, b, c, p[0], p[1]);
            }

            @Override
            protected void done() {
                if (!isCancelled()) {
                    try {
                        text.setText(get());
                        text.setCaretPosition(0);
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    } catch (ExecutionException e) {
                        text.setText("This place cannot be answered: " + e.getCause());
                    }
                }
            }
        };
        asking = work;
        work.execute();
    }

    /** The answer in words. */
    static String words(JobScene s, BoardSnapshot b, BoardSnapshot.Conditions c, double x, double y) {
        BoardSnapshot.Spot spot = b.spot(c, x, y);
        StringBuilder w = new StringBuilder();
        w.append(String.format(
                Locale.ROOT, "X %.3f Y %.3f mm (%.1f, %.1f thou), side %d\n", x, y, x / 0.0254, y / 0.0254, b.side()));
        w.append("Here: ").append(material(b, spot)).append('\n');
        PointHistory h = s.history(b, c, x, y);
        double open = h.madeFloor() == null ? spot.surfaceMm() : h.madeFloor().heightMm();
        if (b.onBlank(x, y) && b.throughFromBelow(x, y, open)) {
            w.append("A cut from the other face comes through here: turn the blank (T) to ask who made it\n");
        }
        double exact = h.madeFloor() == null ? spot.surfaceMm() : h.madeFloor().heightMm();
        w.append(String.format(
                Locale.ROOT,
                "Z %+.3f mm, %.3f mm (%.1f thou) below the foil top, exact to the path\n",
                exact,
                Math.max(0, spot.surfaceMm() - exact),
                Math.max(0, spot.surfaceMm() - exact) / 0.0254));
        double left = b.copperUp() && b.onBlank(x, y) ? exact - (spot.surfaceMm() - c.foilMm()) : 0;
        if (h.madeFloor() != null && left > 0) {
            w.append(String.format(Locale.ROOT, "Foil left: %.1f um of %.1f um\n", left * 1000, c.foilMm() * 1000));
        }
        widths(w, b, c, x, y);
        if (h.cuts().isEmpty()) {
            w.append("No cutter has touched this place by ")
                    .append(JobScene.clock(b.timeS()))
                    .append('\n');
            return w.toString();
        }
        Cut broke = h.brokeFoil();
        if (broke != null) {
            w.append("Broke the foil: ").append(who(s, broke)).append('\n');
        }
        Cut floor = h.madeFloor();
        if (floor != null) {
            w.append("Made the floor: ").append(who(s, floor)).append('\n');
        }
        w.append("All that touched it (").append(h.cuts().size()).append("):\n");
        List<Cut> cuts = h.cuts();
        for (int i = 0; i < Math.min(MOST_CUTS, cuts.size()); i++) {
            w.append("- ").append(who(s, cuts.get(i))).append('\n');
        }
        if (cuts.size() > MOST_CUTS) {
            w.append("- and ").append(cuts.size() - MOST_CUTS).append(" more\n");
        }
        return w.toString();
    }

    private static void widths(StringBuilder w, BoardSnapshot b, BoardSnapshot.Conditions c, double x, double y) {
        double error = b.runs().isEmpty() ? 0.01 : b.runs().get(0).tiles().cellMm() / 2;
        for (int axis = 0; axis < 2; axis++) {
            double dx = axis == 0 ? 1.5 : 0;
            double dy = axis == 0 ? 0 : 1.5;
            Section s = Section.of(b, c, x - dx, y - dy, x + dx, y + dy, 1201);
            Section.Groove g = s.grooveNear(1.5, c.foilMm());
            if (g != null && g.fromMm() <= 1.5 && g.toMm() >= 1.5 && g.fromMm() > 0.01 && g.toMm() < 2.99) {
                w.append(String.format(
                        Locale.ROOT,
                        "Cut along %s: %.3f mm (%.1f thou) wide at the foil top",
                        axis == 0 ? "X" : "Y",
                        g.topWidthMm(),
                        g.topWidthMm() / 0.0254));
                if (!Double.isNaN(g.bottomWidthMm())) {
                    w.append(String.format(
                            Locale.ROOT,
                            ", %.3f mm (%.1f thou) at the foil bottom",
                            g.bottomWidthMm(),
                            g.bottomWidthMm() / 0.0254));
                }
                w.append(String.format(Locale.ROOT, ", +/- %.3f mm%n", error));
            }
        }
    }

    private static String material(BoardSnapshot b, BoardSnapshot.Spot spot) {
        return switch (spot.material()) {
            case SUBSTRATE -> b.substrate().words() + " laid bare";
            case FOIL -> "copper foil, untouched";
            case FOIL_LEFT -> "foil left: a cutter was here and did not get through";
            default -> spot.material().words();
        };
    }

    private static String who(JobScene s, Cut cut) {
        MotionPlan plan = s.ground().plan();
        RunFacts run = s.ground().runs().get(cut.run());
        return String.format(
                Locale.ROOT,
                "%s line %d, %s, at %s, down to %+.3f mm",
                plan.programOf(cut.segment()).file(),
                plan.segments().line(cut.segment()),
                run.toolName(),
                JobScene.clock(cut.timeS()),
                cut.heightMm());
    }

    /** The section through the place that was asked. */
    private final class SectionView extends Drawn {
        private static final long serialVersionUID = 1L;

        @Override
        protected void paintComponent(Graphics graphics) {
            Graphics2D g = (Graphics2D) graphics.create();
            double[] p = model.asked();
            BoardSnapshot b = model.board();
            if (p != null && b != null) {
                BoardSnapshot.Conditions c = model.conditions(b);
                double dx = alongY ? 0 : reachMm;
                double dy = alongY ? reachMm : 0;
                Section s = Section.of(b, c, p[0] - dx, p[1] - dy, p[0] + dx, p[1] + dy, Math.max(200, getWidth() * 2));
                double deep = 0.05;
                for (int i = 0; i < s.zMm().length; i++) {
                    deep = Math.max(deep, s.onBlank()[i] ? -s.zMm()[i] : 0);
                }
                BoardSnapshot.Spot here = b.spot(c, p[0], p[1]);
                double[] profile =
                        here.run() >= 0 && model.scene() != null ? model.scene().profileOf(b, here.run()) : null;
                new SectionPainter(b, c, model.look().dark(), 0.85)
                        .paint(
                                g,
                                new SectionPainter.Panel(
                                        s,
                                        0,
                                        2 * reachMm,
                                        -deep * 1.3,
                                        deep * 0.7,
                                        alongY ? "Section along Y" : "Section along X",
                                        reachMm,
                                        profile,
                                        reachMm,
                                        here.zMm()),
                                0,
                                0,
                                getWidth(),
                                getHeight());
            }
            g.dispose();
        }
    }
}
