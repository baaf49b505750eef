package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.bench.IntervalMm;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.RunFacts;
import foilproof.report.ResultDocument;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleConsumer;
import javax.swing.BorderFactory;
import javax.swing.Box;
import javax.swing.BoxLayout;
import javax.swing.ButtonGroup;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSpinner;
import javax.swing.JToggleButton;
import javax.swing.Scrollable;
import javax.swing.SpinnerNumberModel;
import org.jspecify.annotations.Nullable;

/** What may lie otherwise than the job says; every change acts on the next frame. */
final class ConditionsPanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final double Z_REACH_MM = 0.15;
    private static final double STEP_MM = 0.005;

    private final transient BenchModel model;
    private final JPanel runs = column();
    private final transient List<RunRow> rows = new ArrayList<>();
    private final ZSlider bow;
    private final JSpinner bowTyped;
    private final ZSlider thickness;
    private final JSpinner thicknessTyped;
    private final transient List<FoilButton> foils = new ArrayList<>();
    private boolean showing;

    private record FoilButton(JToggleButton button, double foilMm) {}

    ConditionsPanel(BenchModel model) {
        super(new BorderLayout());
        this.model = model;
        setName("conditions");
        JPanel all = new WidthOfView();
        all.setBorder(BorderFactory.createEmptyBorder(8, 10, 10, 10));
        all.add(heading("What if", "Nothing here changes the job; Home on a scale sets it back to 0."));
        all.add(look());
        all.add(runs);
        bow = new ZSlider("bow", 0.3, 0.01, v -> change(model.whatIf().withBow(v)));
        bowTyped = typed("bow, mm", 0.3, 0.01, v -> change(model.whatIf().withBow(v)));
        all.add(row("Bow: middle low by", bowTyped, bow, "+ = low, edge where it was"));
        thickness =
                new ZSlider("thickness", 0.2, 0.01, v -> change(model.whatIf().withThicknessChange(v)));
        thicknessTyped = typed(
                "thickness change, mm", 0.2, 0.01, v -> change(model.whatIf().withThicknessChange(v)));
        all.add(row("Blank thicker by", thicknessTyped, thickness, "+ = thicker, - = thinner"));
        all.add(foil());
        JButton reset = new JButton("Back to the job (B)");
        reset.setName("reset");
        reset.addActionListener(e -> model.setWhatIf(BenchModel.WhatIf.NONE));
        reset.setAlignmentX(LEFT_ALIGNMENT);
        all.add(Box.createVerticalStrut(10));
        all.add(reset);
        all.add(Box.createVerticalGlue());
        JScrollPane scroll =
                new JScrollPane(all, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.getVerticalScrollBar().setUnitIncrement(20);
        add(scroll);
        model.listen(c -> {
            switch (c) {
                case JOB -> fill();
                case RESULT -> windows();
                case CONDITIONS -> refresh();
                default -> {}
            }
        });
    }

    /** A column that is as wide as the part of it that is seen. */
    private static final class WidthOfView extends JPanel implements Scrollable {
        private static final long serialVersionUID = 1L;

        WidthOfView() {
            setLayout(new BoxLayout(this, BoxLayout.Y_AXIS));
        }

        @Override
        public Dimension getPreferredScrollableViewportSize() {
            return getPreferredSize();
        }

        @Override
        public int getScrollableUnitIncrement(Rectangle seen, int orientation, int direction) {
            return 20;
        }

        @Override
        public int getScrollableBlockIncrement(Rectangle seen, int orientation, int direction) {
            return seen.height;
        }

        @Override
        public boolean getScrollableTracksViewportWidth() {
            return true;
        }

        @Override
        public boolean getScrollableTracksViewportHeight() {
            return false;
        }
    }

    private static JPanel column() {
        JPanel p = new JPanel();
        p.setLayout(new BoxLayout(p, BoxLayout.Y_AXIS));
        p.setAlignmentX(LEFT_ALIGNMENT);
        return p;
    }

    static JPanel heading(String title, String words) {
        JPanel p = column();
        JLabel a = new JLabel(title);
        a.putClientProperty("FlatLaf.styleClass", "h3");
        JLabel b = new JLabel("<html><body style='width:200px'>" + words + "</body></html>");
        b.putClientProperty("FlatLaf.styleClass", "small");
        p.add(a);
        p.add(b);
        p.setBorder(BorderFactory.createEmptyBorder(0, 0, 6, 0));
        return p;
    }

    private JPanel look() {
        JPanel p = new JPanel(new BorderLayout(8, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        JLabel l = new JLabel("Colours show (C)");
        JComboBox<String> box = new JComboBox<>();
        for (Look.Paint paint : Look.Paint.values()) {
            box.addItem(paint.words());
        }
        box.setName("colours");
        l.setLabelFor(box);
        box.addActionListener(e -> {
            if (!showing) {
                model.setLook(model.look().withPaint(Look.Paint.values()[box.getSelectedIndex()]));
            }
        });
        model.listen(c -> {
            showing = true;
            box.setSelectedIndex(model.look().paint().ordinal());
            showing = false;
        });
        p.add(l, BorderLayout.WEST);
        p.add(box);
        p.setMaximumSize(new Dimension(10_000, 30));
        return p;
    }

    private JSpinner typed(String name, double reach, double step, DoubleConsumer changed) {
        JSpinner s = new JSpinner(new SpinnerNumberModel(0.0, -reach, reach, step));
        s.setEditor(new JSpinner.NumberEditor(s, "0.000"));
        s.setName(name);
        s.getAccessibleContext().setAccessibleName(name);
        s.setPreferredSize(new Dimension(84, 26));
        s.addChangeListener(e -> {
            if (!showing) {
                changed.accept(((Number) s.getValue()).doubleValue());
            }
        });
        return s;
    }

    private JPanel row(String words, JSpinner typed, ZSlider slider, String sign) {
        JPanel p = new JPanel(new BorderLayout(6, 2));
        p.setAlignmentX(LEFT_ALIGNMENT);
        p.setBorder(BorderFactory.createEmptyBorder(8, 0, 0, 0));
        JLabel l = new JLabel(words);
        JPanel right = new JPanel(new FlowLayout(FlowLayout.RIGHT, 4, 0));
        right.add(typed);
        right.add(new JLabel("mm"));
        p.add(l, BorderLayout.CENTER);
        p.add(right, BorderLayout.EAST);
        JPanel below = new JPanel(new BorderLayout());
        below.add(slider);
        JLabel s = new JLabel(sign);
        s.putClientProperty("FlatLaf.styleClass", "small");
        below.add(s, BorderLayout.SOUTH);
        p.add(below, BorderLayout.SOUTH);
        p.setMaximumSize(new Dimension(10_000, 100));
        return p;
    }

    private JPanel foil() {
        JPanel p = column();
        p.setBorder(BorderFactory.createEmptyBorder(8, 0, 0, 0));
        p.add(new JLabel("Foil"));
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.LEFT, 4, 2));
        buttons.setAlignmentX(LEFT_ALIGNMENT);
        ButtonGroup group = new ButtonGroup();
        double[] foil = {Double.NaN, 0.0174, 0.0348, 0.0696};
        String[] words = {"as the job", "0.5 oz", "1 oz", "2 oz"};
        for (int i = 0; i < foil.length; i++) {
            double mm = foil[i];
            JToggleButton b = new JToggleButton(words[i]);
            b.setName("foil " + words[i]);
            b.setToolTipText(Double.isNaN(mm) ? "as the job says" : String.format(Locale.ROOT, "%.1f um", mm * 1000));
            b.setMargin(new java.awt.Insets(2, 6, 2, 6));
            b.addActionListener(e -> model.setWhatIf(model.whatIf().withFoil(mm)));
            group.add(b);
            buttons.add(b);
            foils.add(new FoilButton(b, mm));
        }
        p.add(buttons);
        p.setMaximumSize(new Dimension(10_000, 70));
        return p;
    }

    private void change(BenchModel.WhatIf w) {
        if (!showing) {
            model.setWhatIf(w);
        }
    }

    /** One tool run's error and whether it happens at all. */
    private final class RunRow {
        private final int run;
        private final ZSlider slider;
        private final JSpinner typed;
        private final JCheckBox present;
        private final JLabel window = new JLabel(" ");

        RunRow(RunFacts facts, int sides) {
            run = facts.run().index();
            String name =
                    facts.toolName() + (sides > 1 ? ", side " + facts.side().number() : "");
            slider = new ZSlider(
                    "Z error of run " + (run + 1),
                    Z_REACH_MM,
                    STEP_MM,
                    v -> change(model.whatIf().withZError(run, v)));
            typed = typed(
                    "Z error of run " + (run + 1) + ", mm",
                    Z_REACH_MM,
                    STEP_MM,
                    v -> change(model.whatIf().withZError(run, v)));
            present = new JCheckBox("", true);
            present.setToolTipText("off: as if this tool run were left out");
            present.setName("run " + (run + 1) + " happens");
            present.getAccessibleContext().setAccessibleName("run " + (run + 1) + " happens");
            present.addActionListener(e -> change(model.whatIf().withAbsent(run, !present.isSelected())));
            JPanel p = row(name + " (run " + (run + 1) + ")", typed, slider, "Z error: + = really deeper, - = higher");
            window.putClientProperty("FlatLaf.styleClass", "small");
            JPanel head = new JPanel(new BorderLayout());
            head.setAlignmentX(LEFT_ALIGNMENT);
            head.add(present, BorderLayout.WEST);
            head.add(p);
            window.setAlignmentX(LEFT_ALIGNMENT);
            window.setBorder(BorderFactory.createEmptyBorder(0, 24, 0, 0));
            runs.add(head);
            runs.add(window);
        }

        void show() {
            double v = model.whatIf().zErrorMm().getOrDefault(run, 0.0);
            slider.setValue(v);
            typed.setValue(v);
            present.setSelected(!model.whatIf().absent().contains(run));
        }

        void windows(DryRunResult r) {
            ResultDocument.@Nullable ZWindow found = null;
            for (ResultDocument.ZWindow w : r.document().zWindows()) {
                if (w.run() == run + 1) {
                    found = w;
                }
            }
            IntervalMm spread = r.examination().spreadOf(r.examination().run(run));
            double[] ends = spread == null ? null : new double[] {spread.fromMm(), spread.toMm()};
            if (found == null) {
                slider.setWindow(null, null, ends);
                window.setText("no Z window for this run");
                return;
            }
            double[] inner = found.empty() ? null : ends(found.fromMm(), found.toMm());
            slider.setWindow(inner, ends(found.fixFromMm(), found.fixToMm()), ends);
            window.setText("<html><body style='width:190px'>" + words(found) + "</body></html>");
        }
    }

    private static double[] ends(@Nullable Double from, @Nullable Double to) {
        return new double[] {from == null ? -Z_REACH_MM : from, to == null ? Z_REACH_MM : to};
    }

    private static String words(ResultDocument.ZWindow w) {
        if (w.empty()) {
            return "Z window: no depth works. " + (w.note() == null ? "" : w.note());
        }
        String from = w.fromMm() == null ? "beyond the headroom" : String.format(Locale.ROOT, "%+.3f", w.fromMm());
        String to = w.toMm() == null ? "beyond the headroom" : String.format(Locale.ROOT, "%+.3f", w.toMm());
        StringBuilder s = new StringBuilder("Z window ")
                .append(from)
                .append(" to ")
                .append(to)
                .append(" mm");
        s.append(String.format(Locale.ROOT, " +/- %.3f", w.plusMinusMm()));
        if (w.limitedFrom() != null) {
            s.append(", above by ").append(w.limitedFrom().kind());
        }
        if (w.limitedTo() != null) {
            s.append(", below by ").append(w.limitedTo().kind());
        }
        if (w.marginMm() != null) {
            s.append(String.format(Locale.ROOT, "; margin to your spread %+.3f mm", w.marginMm()));
        }
        return s.toString();
    }

    private void fill() {
        runs.removeAll();
        rows.clear();
        JobScene s = model.scene();
        if (s != null) {
            for (RunFacts r : s.ground().runs()) {
                if (r.run().segmentCount() > 0 && r.tool() != null) {
                    rows.add(new RunRow(r, s.job().sides().size()));
                }
            }
        }
        runs.revalidate();
        refresh();
    }

    private void refresh() {
        showing = true;
        rows.forEach(RunRow::show);
        bow.setValue(model.whatIf().bowMm());
        bowTyped.setValue(model.whatIf().bowMm());
        thickness.setValue(model.whatIf().thicknessChangeMm());
        thicknessTyped.setValue(model.whatIf().thicknessChangeMm());
        for (FoilButton f : foils) {
            f.button().setSelected(Double.compare(f.foilMm(), model.whatIf().foilMm()) == 0);
        }
        showing = false;
    }

    private void windows() {
        DryRunResult r = model.result();
        if (r != null) {
            rows.forEach(row -> row.windows(r));
        }
    }
}
