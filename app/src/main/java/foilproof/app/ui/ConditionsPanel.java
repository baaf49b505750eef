package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.bench.IntervalMm;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.RunFacts;
import foilproof.report.HumanText;
import foilproof.report.ResultDocument;
import java.awt.BorderLayout;
import java.awt.FlowLayout;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleSupplier;
import java.util.function.UnaryOperator;
import javax.swing.BorderFactory;
import javax.swing.Box;
import javax.swing.BoxLayout;
import javax.swing.ButtonGroup;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSpinner;
import javax.swing.JToggleButton;
import javax.swing.SpinnerNumberModel;
import org.jspecify.annotations.Nullable;

/** What may lie otherwise than the job says; every change acts on the next frame. */
final class ConditionsPanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final double Z_REACH_MM = 0.15;
    private static final double STEP_MM = 0.005;

    private final transient BenchModel model;
    private final Wrapped difference = new Wrapped(" ");
    private final JPanel runs = column();
    private final JPanel sweep = column();
    private final transient List<Runnable> shown = new ArrayList<>();
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
        JPanel all = new Column();
        all.setBorder(Px.pad(8, 10, 10, 10));
        all.add(
                heading(
                        "What if",
                        "Nothing here changes the job. Z error: + = the cutter really goes deeper, - = higher. Home on a scale sets it to 0."));
        all.add(look());
        all.add(comparing());
        all.add(runs);
        bow = new ZSlider("bow", 0.3, 0.01, v -> change(model.whatIf().withBow(v)));
        bowTyped = typed("bow, mm", 0.3, 0.01, v -> change(model.whatIf().withBow(v)));
        all.add(row(new JLabel("Bow: middle low by"), bowTyped, bow.meaning("high", "low")));
        all.add(presets());
        all.add(new SurfacePanel(model));
        thickness =
                new ZSlider("thickness", 0.2, 0.01, v -> change(model.whatIf().withThicknessChange(v)));
        thicknessTyped = typed(
                "thickness change, mm", 0.2, 0.01, v -> change(model.whatIf().withThicknessChange(v)));
        all.add(row(new JLabel("Blank thicker by"), thicknessTyped, thickness.meaning("thinner", "thicker")));
        all.add(foil());
        JButton reset = new JButton("Back to the job (B)");
        all.add(sweep);
        reset.setName("reset");
        reset.addActionListener(e -> model.setWhatIf(BenchModel.WhatIf.NONE));
        reset.setAlignmentX(LEFT_ALIGNMENT);
        all.add(Box.createVerticalStrut(Px.of(10)));
        all.add(reset);
        all.add(Box.createVerticalGlue());
        JScrollPane scroll =
                new JScrollPane(all, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.getVerticalScrollBar().setUnitIncrement(20);
        add(scroll);
        add(says(), BorderLayout.SOUTH);
        javax.swing.SwingUtilities.invokeLater(
                () -> scroll.getVerticalScrollBar().setValue(0));
        model.listen(c -> {
            switch (c) {
                case JOB -> {
                    fill();
                    javax.swing.SwingUtilities.invokeLater(
                            () -> scroll.getVerticalScrollBar().setValue(0));
                }
                case RESULT -> {
                    windows();
                    differ();
                }
                case CONDITIONS -> {
                    refresh();
                    differ();
                }
                default -> {}
            }
        });
    }

    /** What the what-if comes to: its room is kept, so that no control moves away under the hand that drags it. */
    private JScrollPane says() {
        difference.setName("difference says");
        difference.setBorder(Px.pad(4, 10, 4, 10));
        JScrollPane pane =
                new JScrollPane(
                        difference, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER) {
                    private static final long serialVersionUID = 1L;

                    @Override
                    public void updateUI() {
                        super.updateUI();
                        setBorder(BorderFactory.createMatteBorder(
                                1, 0, 0, 0, javax.swing.UIManager.getColor("Separator.foreground")));
                    }

                    @Override
                    public java.awt.Dimension getPreferredSize() {
                        int line =
                                difference.getFontMetrics(difference.getFont()).getHeight();
                        return new java.awt.Dimension(10, 5 * line + Px.of(10));
                    }
                };
        pane.setName("difference");
        differ();
        return pane;
    }

    static JPanel column() {
        JPanel p = new JPanel();
        p.setLayout(new BoxLayout(p, BoxLayout.Y_AXIS));
        p.setAlignmentX(LEFT_ALIGNMENT);
        return p;
    }

    static JPanel heading(String title, String words) {
        JPanel p = column();
        JLabel a = new JLabel(title);
        a.putClientProperty("FlatLaf.styleClass", "h3");
        Wrapped b = new Wrapped(words);
        p.add(a);
        p.add(b);
        p.setBorder(Px.pad(0, 0, 6, 0));
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
        p.setMaximumSize(Px.size(10_000, 30));
        return p;
    }

    private JSpinner typed(String name, double reach, double step, DoubleConsumer changed) {
        JSpinner s = new JSpinner(new SpinnerNumberModel(0.0, -reach, reach, step));
        JSpinner.NumberEditor editor = new JSpinner.NumberEditor(s, "0.000");
        if (editor.getTextField().getCaret() instanceof javax.swing.text.DefaultCaret caret) {
            // A value that changes elsewhere must not scroll the panel.
            caret.setUpdatePolicy(javax.swing.text.DefaultCaret.NEVER_UPDATE);
        }
        s.setEditor(editor);
        s.setName(name);
        s.getAccessibleContext().setAccessibleName(name);
        s.setPreferredSize(Px.size(84, 26));
        s.addChangeListener(e -> {
            if (!showing) {
                changed.accept(((Number) s.getValue()).doubleValue());
            }
        });
        return s;
    }

    private JPanel row(JComponent head, JSpinner typed, ZSlider slider) {
        JPanel p = column();
        p.setBorder(Px.pad(8, 0, 0, 0));
        head.setAlignmentX(LEFT_ALIGNMENT);
        p.add(head);
        JPanel line = new JPanel(new BorderLayout(4, 0));
        line.setAlignmentX(LEFT_ALIGNMENT);
        line.add(slider);
        JPanel right = new JPanel(new FlowLayout(FlowLayout.RIGHT, 3, 0));
        right.add(typed);
        right.add(new JLabel("mm"));
        line.add(right, BorderLayout.EAST);
        line.setMaximumSize(Px.size(10_000, 44));
        p.add(line);
        return p;
    }

    private JPanel presets() {
        JPanel p = new JPanel(new java.awt.GridLayout(0, 3, 3, 3));
        p.setAlignmentX(LEFT_ALIGNMENT);
        preset(p, "Sag", "middle 0.08 mm low", w -> w.withBow(0.08));
        preset(p, "Hog", "middle 0.08 mm high", w -> w.withBow(-0.08));
        preset(
                p,
                "Twist",
                "corners 0.08 mm up and down",
                w -> w.withSwept(w.swept().withShape(BenchModel.Shape.TWIST, 0.08)));
        preset(
                p,
                "Swarf",
                "the corner at X 0 Y 0 lies 0.08 mm high",
                w -> w.withSwept(w.swept().withShape(BenchModel.Shape.CORNER, 0.08)));
        preset(p, "Flat", "no bow, no twist, no tilt, no dragged points", w -> w.withBow(0)
                .withSwept(w.swept()
                        .withShape(BenchModel.Shape.FLAT, 0)
                        .withTilt(0, 0)
                        .withPoints(List.of())));
        p.setMaximumSize(Px.size(10_000, 64));
        return p;
    }

    private void preset(JPanel to, String name, String words, UnaryOperator<BenchModel.WhatIf> change) {
        JButton b = new JButton(name);
        b.setName("preset " + name);
        b.setToolTipText(words);
        b.setMargin(new java.awt.Insets(2, 2, 2, 2));
        b.addActionListener(e -> change(change.apply(model.whatIf())));
        to.add(b);
    }

    /** A typed value in a line of its own; shown and changed through the model. */
    private void line(
            JPanel to, String words, String name, double[] range, DoubleSupplier now, DoubleConsumer changed) {
        JPanel p = new JPanel(new BorderLayout(6, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        p.setBorder(Px.pad(3, 0, 0, 0));
        JSpinner s = typed(name, range[1], range[2], changed);
        ((SpinnerNumberModel) s.getModel()).setMinimum(range[0]);
        JPanel right = new JPanel(new FlowLayout(FlowLayout.RIGHT, 3, 0));
        right.add(s);
        right.add(new JLabel("mm"));
        JLabel l = new JLabel(words);
        l.setToolTipText(words);
        p.add(l);
        p.add(right, BorderLayout.EAST);
        p.setMaximumSize(Px.size(10_000, 32));
        to.add(p);
        shown.add(() -> s.setValue(now.getAsDouble()));
    }

    private BenchModel.Swept swept() {
        return model.whatIf().swept();
    }

    private void sweptTo(BenchModel.Swept s) {
        change(model.whatIf().withSwept(s));
    }

    /** Everything that depends on the job's tools: collet, runout, tip; and backlash and tilt. */
    private void fillSwept(JobScene s) {
        shown.clear();
        sweep.removeAll();
        measured(s);
        double[] heights = {-1, 1, 0.01};
        line(
                sweep,
                "Twist or swarf",
                "shape, mm",
                heights,
                () -> swept().shapeMm(),
                v -> sweptTo(swept().withShape(
                                swept().shape() == BenchModel.Shape.FLAT ? BenchModel.Shape.TWIST : swept().shape(),
                                v)));
        line(
                sweep,
                "Tilt: right edge higher by",
                "tilt X, mm",
                heights,
                () -> swept().tiltXMm(),
                v -> sweptTo(swept().withTilt(v, swept().tiltYMm())));
        line(
                sweep,
                "Tilt: far edge higher by",
                "tilt Y, mm",
                heights,
                () -> swept().tiltYMm(),
                v -> sweptTo(swept().withTilt(swept().tiltXMm(), v)));
        var lost = s.job().machine().backlashMm();
        double[] slack = {0, 0.5, 0.005};
        line(
                sweep,
                "Backlash X",
                "backlash X, mm",
                slack,
                () -> Double.isNaN(swept().backlashXMm()) ? lost.xMm() : swept().backlashXMm(),
                v -> sweptTo(swept().withBacklash(v == lost.xMm() ? Double.NaN : v, swept().backlashYMm())));
        line(
                sweep,
                "Backlash Y",
                "backlash Y, mm",
                slack,
                () -> Double.isNaN(swept().backlashYMm()) ? lost.yMm() : swept().backlashYMm(),
                v -> sweptTo(swept().withBacklash(swept().backlashXMm(), v == lost.yMm() ? Double.NaN : v)));
        for (Tool t : s.job().tools()) {
            line(
                    sweep,
                    "Runout of \"" + t.name() + "\"",
                    "runout of " + t.name() + ", mm",
                    slack,
                    () -> swept().runoutMm().getOrDefault(t.name(), t.runoutMm()),
                    v -> sweptTo(swept().withRunout(t.name(), v == t.runoutMm() ? Double.NaN : v)));
            if (t.shape() == ToolShape.V) {
                double base = t.tipWidthMm().orElse(2 * t.tipRadiusMm().orElse(0.05));
                line(
                        sweep,
                        "Tip flat of \"" + t.name() + "\"",
                        "tip of " + t.name() + ", mm",
                        new double[] {0, 2, 0.01},
                        () -> swept().tipMm().getOrDefault(t.name(), base),
                        v -> sweptTo(swept().withTip(t.name(), v == base ? Double.NaN : v)));
            }
            if (t.number().isPresent()) {
                collet(s, t, t.number().getAsInt());
            }
        }
        sweep.add(
                new Wrapped("Twist, tilt, backlash, runout, tip and collet sweep the cutters again: the picture follows"
                        + " in a moment. A tip that is typed counts as flat. Backlash acts on the checks of sizes; no wall is moved"
                        + " by it in picture or section."));
    }

    /** The blank as a caliper measures it, usual blanks, and usual runouts, each by one press. */
    private void measured(JobScene s) {
        double job = s.job().blank().thicknessMm();
        line(
                sweep,
                "Blank measures",
                "blank measures, mm",
                new double[] {0.2, 6, 0.01},
                () -> job + model.whatIf().thicknessChangeMm(),
                v -> change(model.whatIf().withThicknessChange(Math.abs(v - job) < 1e-9 ? 0 : v - job)));
        sweep.add(chips(
                "mm",
                new String[] {"0.8", "1.0", "1.5", "1.6"},
                "blank ",
                v -> change(model.whatIf().withThicknessChange(Math.abs(v - job) < 1e-9 ? 0 : v - job))));
        JLabel l = new JLabel("Runout of every cutter");
        l.setBorder(Px.pad(4, 0, 0, 0));
        sweep.add(l);
        sweep.add(chips("mm", new String[] {"0", "0.015", "0.030", "0.050"}, "runout ", v -> {
            BenchModel.Swept w = swept();
            for (Tool t : s.job().tools()) {
                w = w.withRunout(t.name(), v == t.runoutMm() ? Double.NaN : v);
            }
            sweptTo(w);
        }));
    }

    private static JPanel chips(String unit, String[] values, String name, DoubleConsumer chosen) {
        JPanel p = new JPanel(new java.awt.GridLayout(1, values.length, 3, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        for (String v : values) {
            JButton b = new JButton(v);
            b.setName(name + v);
            b.setToolTipText(name + v + " " + unit);
            b.setMargin(new java.awt.Insets(1, 2, 1, 2));
            b.addActionListener(e -> chosen.accept(Double.parseDouble(v)));
            p.add(b);
        }
        p.setMaximumSize(Px.size(10_000, 28));
        return p;
    }

    private void collet(JobScene s, Tool meant, int number) {
        JPanel p = new JPanel(new BorderLayout(6, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        p.setBorder(Px.pad(3, 0, 0, 0));
        JComboBox<String> box = new JComboBox<>();
        s.job().tools().forEach(t -> box.addItem(t.name()));
        box.setName("in collet " + number);
        box.setPrototypeDisplayValue("engraving bit 30");
        box.addActionListener(e -> {
            if (!showing && box.getSelectedItem() instanceof String name) {
                sweptTo(swept().withCollet(number, name.equals(meant.name()) ? null : name));
            }
        });
        JLabel l = new JLabel("In the collet for T" + number);
        l.setLabelFor(box);
        p.add(l);
        p.add(box, BorderLayout.EAST);
        p.setMaximumSize(Px.size(10_000, 32));
        sweep.add(p);
        shown.add(() -> box.setSelectedItem(swept().inCollet().getOrDefault(number, meant.name())));
    }

    private JPanel comparing() {
        JPanel p = new JPanel(new java.awt.GridLayout(1, 3, 3, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        p.setBorder(Px.pad(6, 0, 0, 0));
        String[] words = {"What-if", "Swipe", "Difference"};
        ButtonGroup group = new ButtonGroup();
        for (BenchModel.Compare c : BenchModel.Compare.values()) {
            JToggleButton b = new JToggleButton(words[c.ordinal()]);
            b.setName("compare " + words[c.ordinal()]);
            b.setToolTipText("how job and what-if are held against each other (V)");
            b.setMargin(new java.awt.Insets(2, 2, 2, 2));
            b.addActionListener(e -> model.setCompare(c));
            group.add(b);
            p.add(b);
            model.listen(x -> b.setSelected(model.compare() == c));
        }
        p.setMaximumSize(Px.size(10_000, 36));
        return p;
    }

    private JPanel foil() {
        JPanel p = column();
        p.setBorder(Px.pad(8, 0, 0, 0));
        p.add(new JLabel("Foil"));
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.LEFT, 4, 2));
        buttons.setAlignmentX(LEFT_ALIGNMENT);
        ButtonGroup group = new ButtonGroup();
        double[] foil = {Double.NaN, 0.0174, 0.0348, 0.0696};
        String[] words = {"as the job", "half", "one", "two ounce"};
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
        p.setMaximumSize(Px.size(10_000, 70));
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
        private final Wrapped window = new Wrapped(" ");

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
            present = new JCheckBox(name + " (run " + (run + 1) + ")", true);
            present.setToolTipText("off: as if this tool run were left out, in the picture; findings keep it");
            present.setName("run " + (run + 1) + " happens");
            present.addActionListener(e -> change(model.whatIf().withAbsent(run, !present.isSelected())));
            runs.add(row(present, typed, slider.meaning("higher", "deeper")));
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
            window.setText(words(found));
        }
    }

    private static double[] ends(@Nullable Double from, @Nullable Double to) {
        return new double[] {from == null ? -Z_REACH_MM : from, to == null ? Z_REACH_MM : to};
    }

    private static String words(ResultDocument.ZWindow w) {
        if (w.empty()) {
            return "Z window: no depth works. " + (w.note() == null ? "" : w.note());
        }
        if (w.fromMm() == null && w.toMm() == null) {
            return "Z window: open both ways, beyond the headroom";
        }
        StringBuilder s = new StringBuilder("Z window ").append(HumanText.window(w.fromMm(), w.toMm()));
        s.append(String.format(Locale.ROOT, ", +/- %.3f mm", w.plusMinusMm()));
        if (w.limitedFrom() != null) {
            s.append("; at its shallow end ").append(w.limitedFrom().kind());
        }
        if (w.limitedTo() != null) {
            s.append("; at its deep end ").append(w.limitedTo().kind());
        }
        if (w.marginMm() != null) {
            s.append(String.format(
                    Locale.ROOT, "; margin to your spread %+.3f mm", Math.floor(w.marginMm() * 1000 + 1e-6) / 1000));
        }
        if (w.note() != null) {
            s.append(". ").append(w.note());
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
        if (s != null) {
            showing = true;
            fillSwept(s);
            showing = false;
        }
        runs.revalidate();
        sweep.revalidate();
        refresh();
    }

    private void refresh() {
        showing = true;
        rows.forEach(RunRow::show);
        shown.forEach(Runnable::run);
        bow.setValue(model.whatIf().bowMm());
        bowTyped.setValue(model.whatIf().bowMm());
        thickness.setValue(model.whatIf().thicknessChangeMm());
        thicknessTyped.setValue(model.whatIf().thicknessChangeMm());
        for (FoilButton f : foils) {
            f.button().setSelected(Double.compare(f.foilMm(), model.whatIf().foilMm()) == 0);
        }
        showing = false;
    }

    /** What the what-if rests on and what it changes, as a difference against the job. */
    private void differ() {
        JobScene s = model.scene();
        DryRunResult base = model.result();
        String rests = s == null ? "" : WhatIfWords.basedOn(model.whatIf(), s.job());
        String words = rests.isEmpty()
                ? "As in the job: nothing is changed."
                : "Based on: " + rests + "; every other number as in the job.\n"
                        + (base == null ? "" : WhatIfWords.changes(base, model.whatIfResult()));
        if (!words.equals(difference.getText())) {
            difference.setText(words);
        }
    }

    private void windows() {
        DryRunResult r = model.result();
        if (r != null) {
            rows.forEach(row -> row.windows(r));
        }
    }
}
