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
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.JToggleButton;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** Answers a click on the board: what is here, who cut it, and the section through the place. */
final class AnswerPanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final int MOST_CUTS = 12;
    private static final String NOTHING = "Click the board: what is here, who cut it, which copper is joined. A second"
            + " click: what lies between the two. R measures, X cuts a section, K pins it, Ctrl+C copies.";

    private final transient BenchModel model;
    private final JTextArea text = new JTextArea();
    private final GroovePanel groove;
    private final JToggleButton measured = new JToggleButton("A measured groove  M");
    private final SectionView section = new SectionView();
    private transient @Nullable SwingWorker<String, Void> asking;
    private double reachMm = 0.6;
    private boolean alongY;

    AnswerPanel(BenchModel model) {
        super(new BorderLayout(0, 4));
        this.model = model;
        groove = new GroovePanel(model);
        setBorder(Px.pad(4, 10, 8, 10));
        text.setName("answer");
        text.setEditable(false);
        text.setLineWrap(true);
        text.setWrapStyleWord(true);
        text.setMargin(new java.awt.Insets(6, 8, 6, 8));
        text.getAccessibleContext().setAccessibleName("What is at the place that was asked");
        text.setText(NOTHING);
        JScrollPane scroll = new JScrollPane(text);
        scroll.setPreferredSize(Px.size(280, 170));
        section.setPreferredSize(Px.size(280, 240));
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
        javax.swing.JSplitPane split =
                new javax.swing.JSplitPane(javax.swing.JSplitPane.VERTICAL_SPLIT, section, scroll);
        split.setResizeWeight(0.6);
        split.setBorder(BorderFactory.createEmptyBorder());
        section.setMinimumSize(Px.size(100, 120));
        scroll.setMinimumSize(Px.size(100, 120));
        add(split);
        add(folded(), BorderLayout.SOUTH);
        model.listen(c -> {
            if (c == BenchModel.Change.CHOICE || c == BenchModel.Change.BOARD || c == BenchModel.Change.CONDITIONS) {
                answer();
                section.repaint();
            }
        });
    }

    /** The measured groove takes room only when it is wanted. */
    private JPanel folded() {
        JPanel p = new JPanel(new BorderLayout());
        measured.setName("measured groove shown");
        measured.setToolTipText("a groove's width under the microscope tells its real depth, or a worn tip (M)");
        measured.putClientProperty("FlatLaf.styleClass", "medium");
        measured.addActionListener(e -> {
            groove.setVisible(measured.isSelected());
            revalidate();
        });
        groove.setVisible(false);
        p.setBorder(Px.pad(4, 0, 0, 0));
        p.add(measured, BorderLayout.NORTH);
        p.add(groove);
        return p;
    }

    /** Turns the section from along X to along Y and back. */
    void turn() {
        alongY = !alongY;
        section.repaint();
    }

    private void answer() {
        double[] p = model.asked();
        BoardSnapshot b = model.board();
        JobScene s = model.drawnScene();
        if (asking != null) {
            asking.cancel(false);
        }
        if (b == null || s == null || p == null && model.ruler() == null) {
            text.setText(NOTHING);
            return;
        }
        BoardSnapshot.Conditions c = model.conditions(b);
        double[] before = model.askedBefore();
        BenchModel.Line ruler = model.ruler();
        CopperAnswer copper = CopperAnswer.of(model, b.side());
        SwingWorker<String, Void> work = new SwingWorker<>() {
            @Override
            protected String doInBackground() {
                StringBuilder all = new StringBuilder();
                if (ruler != null) {
                    all.append(rulerWords(ruler)).append('\n');
                }
                if (p != null) {
                    all.append(words(s, b, c, p[0], p[1]));
                    if (copper != null) {
                        all.append(copper.words(p, before));
                    }
                }
                return all.toString();
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

    /** The answer as it is shown, to be copied. */
    String shownText() {
        String measured = groove.shownText();
        return text.getText() + (measured.isEmpty() ? "" : "\nMeasured groove: " + measured + "\n");
    }

    /** Puts the cursor where a measured width is typed. */
    void measure() {
        measured.setSelected(true);
        groove.setVisible(true);
        revalidate();
        groove.type();
    }

    /** A length in mm and thou. */
    static String length(double mm) {
        return String.format(Locale.ROOT, "%.3f mm (%.1f thou)", mm, mm / 0.0254);
    }

    private static String rulerWords(BenchModel.Line r) {
        double dx = r.x1Mm() - r.x0Mm();
        double dy = r.y1Mm() - r.y0Mm();
        // Both ends are a pixel of the picture uncertain.
        double error = Math.max(0.001, r.errorMm() * Math.sqrt(2));
        return String.format(
                Locale.ROOT,
                "Ruler: %s +/- %.3f mm (a pixel at each end; come nearer for less); dX %+.3f mm (%+.1f thou),"
                        + " dY %+.3f mm (%+.1f thou); %.1f deg from X, counter-clockwise%n",
                length(r.lengthMm()),
                error,
                dx,
                dx / 0.0254,
                dy,
                dy / 0.0254,
                Math.toDegrees(Math.atan2(dy, dx)));
    }

    /** The answer in words. */
    static String words(JobScene s, BoardSnapshot b, BoardSnapshot.Conditions c, double x, double y) {
        BoardSnapshot.Spot spot = b.spot(c, x, y);
        StringBuilder w = new StringBuilder();
        w.append(String.format(
                Locale.ROOT, "X %.3f Y %.3f mm (%.1f, %.1f thou), side %d%n", x, y, x / 0.0254, y / 0.0254, b.side()));
        PointHistory h = s.history(b, c, x, y);
        double open = h.madeFloor() == null ? spot.surfaceMm() : h.madeFloor().heightMm();
        if (b.onBlank(x, y) && b.throughFromBelow(x, y, open)) {
            // Nothing of this side is left here whose height could be told.
            w.append("Here: a hole, cut from the other face; turn the blank (T) to ask who made it\n");
            return w.toString();
        }
        w.append("Here: ").append(material(b, spot)).append('\n');
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
            BoardSnapshot b = model.board();
            if (b != null) {
                paintAll(g, b);
            }
            g.dispose();
        }

        private void paintAll(Graphics2D g, BoardSnapshot b) {
            List<Shown> shown = shown(b);
            List<Section> cut = new ArrayList<>();
            double longest = 0.1;
            double deep = 0.05;
            for (Shown one : shown) {
                BenchModel.Line l = one.line();
                Section s = Section.of(
                        one.board(),
                        model.conditions(one.board()),
                        l.x0Mm(),
                        l.y0Mm(),
                        l.x1Mm(),
                        l.y1Mm(),
                        Math.max(400, getWidth() * 3));
                cut.add(s);
                longest = Math.max(longest, l.lengthMm());
                for (int i = 0; i < s.zMm().length; i++) {
                    deep = Math.max(deep, s.onBlank()[i] ? Math.min(-s.zMm()[i], b.thicknessMm() + 0.6) : 0);
                }
            }
            // All share their axes, so that two can be compared; beside or above one another, as Z is less out of
            // scale.
            int n = Math.max(1, cut.size());
            boolean beside = n > 1
                    && outOfScale(getWidth() / n, getHeight(), longest, 2 * deep)
                            < outOfScale(getWidth(), getHeight() / n, longest, 2 * deep);
            int wide = beside ? getWidth() / n : getWidth();
            int high = beside ? getHeight() : getHeight() / n;
            for (int i = 0; i < cut.size(); i++) {
                Shown one = shown.get(i);
                one(
                        g,
                        one,
                        cut.get(i),
                        new double[] {longest, deep},
                        new java.awt.Rectangle(beside ? i * wide : 0, beside ? 0 : i * high, wide, high));
            }
        }

        /** How far from true a section of this size would be drawn in a box, 0 for Z to scale. */
        private double outOfScale(int w, int h, double longMm, double highMm) {
            double room = w - Px.of(70);
            return room < Px.of(50)
                    ? Double.MAX_VALUE
                    : Math.abs(Math.log((Math.max(1, h - Px.of(56)) / highMm) / (room / longMm)));
        }

        private void one(Graphics2D g, Shown shown, Section s, double[] size, java.awt.Rectangle box) {
            BoardSnapshot b = shown.board();
            BoardSnapshot.Conditions c = model.conditions(b);
            BenchModel.Line l = shown.line();
            double longest = size[0];
            double deep = size[1];
            double middle = l.lengthMm() / 2;
            double x = (l.x0Mm() + l.x1Mm()) / 2;
            double y = (l.y0Mm() + l.y1Mm()) / 2;
            BoardSnapshot.Spot here = b.spot(c, x, y);
            JobScene scene = model.drawnScene();
            double[] profile = here.run() >= 0 && scene != null ? scene.profileOf(b, here.run()) : null;
            new SectionPainter(b, c, model.look().dark(), 0.85 * Px.scale())
                    .paint(
                            g,
                            new SectionPainter.Panel(
                                    s,
                                    0,
                                    longest,
                                    -deep * 1.3,
                                    deep * 0.7,
                                    shown.title(),
                                    middle,
                                    profile,
                                    middle,
                                    here.zMm()),
                            box.x,
                            box.y,
                            box.width,
                            box.height);
        }
    }

    /** One section that is shown. */
    private record Shown(BoardSnapshot board, BenchModel.Line line, String title) {}

    /**
     * The sections that are shown: pinned ones, then the dragged one, the chosen finding's (just before its moment and
     * when the board is finished) or the one through the place that was asked.
     */
    private List<Shown> shown(BoardSnapshot b) {
        List<Shown> all = new ArrayList<>();
        for (BenchModel.Line l : model.pinned()) {
            if (l.side() == b.side()) {
                all.add(new Shown(b, l, "Pinned section " + (all.size() + 1)));
            }
        }
        BenchModel.Line s = model.section();
        BenchModel.Line f = model.findingSection();
        double[] p = model.asked();
        if (s != null && s.side() == b.side()) {
            if (!model.pinned().contains(s)) {
                all.add(new Shown(b, s, "Section along the line"));
            }
        } else if (f != null && f.side() == b.side()) {
            BoardSnapshot end = model.finished();
            BenchModel.Line l = alongY ? turned(f) : f;
            if (end != null && end.timeS() > b.timeS()) {
                all.add(new Shown(b, l, "At " + JobScene.clock(b.timeS())));
                all.add(new Shown(end, l, "Finished board"));
            } else {
                all.add(new Shown(b, l, "Across the finding"));
            }
        } else if (p != null) {
            double dx = alongY ? 0 : reachMm;
            double dy = alongY ? reachMm : 0;
            all.add(new Shown(
                    b,
                    new BenchModel.Line(b.side(), p[0] - dx, p[1] - dy, p[0] + dx, p[1] + dy),
                    alongY ? "Section along Y" : "Section along X"));
        }
        return all;
    }

    /** The same line, a quarter turn about its middle. */
    private static BenchModel.Line turned(BenchModel.Line l) {
        double x = (l.x0Mm() + l.x1Mm()) / 2;
        double y = (l.y0Mm() + l.y1Mm()) / 2;
        double dx = (l.x1Mm() - l.x0Mm()) / 2;
        double dy = (l.y1Mm() - l.y0Mm()) / 2;
        return new BenchModel.Line(l.side(), x + dy, y - dx, x - dy, y + dx);
    }
}
