package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.bench.JobMove;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Examination;
import foilproof.findings.RunFacts;
import foilproof.motion.Segments;
import foilproof.report.ResultDocument;
import foilproof.study.BestDepth;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleSupplier;
import javax.swing.Box;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSpinner;
import javax.swing.ListSelectionModel;
import javax.swing.SpinnerNumberModel;
import org.jspecify.annotations.Nullable;

/** Questions about the whole job: feeds, zero, order of programs, a second go deeper, every swap, the odds. */
final class StudyPanel extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient BenchModel model;
    private final Wrapped feeds = said("feeds say");
    private final Wrapped zero = said("zero says");
    private final Wrapped order = said("order says");
    private final Wrapped again = said("again says");
    private final transient List<Runnable> shown = new ArrayList<>();
    private final DefaultListModel<String> programs = new DefaultListModel<>();
    private final JList<String> programList = new JList<>(programs);
    private final JSpinner deeper = new JSpinner(new SpinnerNumberModel(0.04, 0.005, 0.3, 0.005));
    private boolean showing;

    StudyPanel(BenchModel model, SwapStudy swaps) {
        super(new BorderLayout());
        this.model = model;
        setName("study");
        Column all = new Column();
        all.setBorder(Px.pad(8, 10, 10, 10));
        all.add(ConditionsPanel.heading("Study", "Other ways to run the job; nothing here changes it. B goes back."));
        feeds(all);
        zero(all);
        order(all);
        again(all);
        all.add(Box.createVerticalStrut(Px.of(12)));
        all.add(swaps);
        add(all.scrolled());
        model.listen(c -> {
            switch (c) {
                case JOB, CONDITIONS, RESULT -> refresh();
                default -> {}
            }
        });
    }

    private static Wrapped said(String name) {
        Wrapped w = new Wrapped(" ");
        w.setName(name);
        return w;
    }

    private void title(JPanel to, String words) {
        JLabel l = new JLabel(words);
        l.putClientProperty("FlatLaf.styleClass", "h4");
        l.setAlignmentX(LEFT_ALIGNMENT);
        l.setBorder(Px.pad(10, 0, 2, 0));
        to.add(l);
    }

    private JPanel value(String words, String name, double[] range, DoubleSupplier now, DoubleConsumer changed) {
        JPanel p = new JPanel(new BorderLayout(6, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        JSpinner s = new JSpinner(new SpinnerNumberModel(now.getAsDouble(), range[0], range[1], range[2]));
        s.setEditor(new JSpinner.NumberEditor(s, range[2] < 0.01 ? "0.000" : "0.00"));
        s.setName(name);
        s.getAccessibleContext().setAccessibleName(name);
        s.setPreferredSize(Px.size(84, 26));
        s.addChangeListener(e -> {
            if (!showing) {
                changed.accept(((Number) s.getValue()).doubleValue());
            }
        });
        shown.add(() -> s.setValue(now.getAsDouble()));
        JLabel l = new JLabel(words);
        l.setLabelFor(s);
        p.add(l);
        p.add(s, BorderLayout.EAST);
        p.setMaximumSize(Px.size(10_000, 30));
        return p;
    }

    private BenchModel.Work work() {
        return model.whatIf().swept().work();
    }

    private void change(BenchModel.Work w) {
        model.setWhatIf(model.whatIf().withSwept(model.whatIf().swept().withWork(w)));
    }

    private void feeds(JPanel to) {
        title(to, "Feeds and speeds");
        double[] range = {0.25, 4, 0.05};
        to.add(value(
                "All feeds times", "feed factor", range, () -> work().feedShare(), v -> change(work().withFeed(v))));
        to.add(value(
                "All spindle speeds times",
                "speed factor",
                range,
                () -> work().speedShare(),
                v -> change(work().withSpeed(v))));
        JPanel quick = new JPanel(new java.awt.GridLayout(1, 5, 3, 0));
        quick.setAlignmentX(LEFT_ALIGNMENT);
        for (double v : new double[] {0.5, 0.75, 1, 1.5, 2}) {
            JButton b = new JButton("x"
                    + new java.math.BigDecimal(Double.toString(v))
                            .stripTrailingZeros()
                            .toPlainString());
            b.setName("feed x" + v);
            b.setToolTipText("all feeds times " + v);
            b.setMargin(new java.awt.Insets(1, 2, 1, 2));
            b.addActionListener(e -> change(work().withFeed(v)));
            quick.add(b);
        }
        quick.setMaximumSize(Px.size(10_000, 28));
        to.add(quick);
        to.add(feeds);
    }

    private void zero(JPanel to) {
        title(to, "The job elsewhere on its blank");
        double[] range = {-500, 500, 0.05};
        to.add(value(
                "along X by, mm",
                "zero X, mm",
                range,
                () -> work().zeroXMm(),
                v -> change(work().withZero(v, work().zeroYMm()))));
        to.add(value(
                "along Y by, mm",
                "zero Y, mm",
                range,
                () -> work().zeroYMm(),
                v -> change(work().withZero(work().zeroXMm(), v))));
        to.add(value(
                "turned about its zero by, deg",
                "zero turned, deg",
                new double[] {-180, 180, 0.5},
                () -> Math.toDegrees(work().turnRad()),
                v -> change(work().withTurn(Math.toRadians(v)))));
        to.add(zero);
        to.add(new ClearSpotPanel(model));
    }

    private void order(JPanel to) {
        title(to, "Order of the programs");
        programList.setName("programs in order");
        programList.getAccessibleContext().setAccessibleName("Programs in the order in which they run");
        programList.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        programList.setVisibleRowCount(4);
        programList.setToolTipText("drag a program to where it is to run; or choose it and press Earlier or Later");
        java.awt.event.MouseAdapter card = new java.awt.event.MouseAdapter() {
            private int held = -1;

            @Override
            public void mousePressed(java.awt.event.MouseEvent e) {
                held = programList.locationToIndex(e.getPoint());
            }

            @Override
            public void mouseDragged(java.awt.event.MouseEvent e) {
                int to = programList.locationToIndex(e.getPoint());
                if (held < 0 || to < 0) {
                    return;
                }
                // The list itself would choose what the pointer passes: the held card stays chosen.
                programList.setSelectedIndex(held);
                if (to != held) {
                    move(Integer.signum(to - held));
                    held = programList.getSelectedIndex();
                }
            }
        };
        programList.addMouseListener(card);
        programList.addMouseMotionListener(card);
        JScrollPane scroll = new JScrollPane(programList);
        scroll.setAlignmentX(LEFT_ALIGNMENT);
        scroll.setMaximumSize(Px.size(10_000, 96));
        scroll.setPreferredSize(Px.size(200, 84));
        to.add(scroll);
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.LEFT, 3, 2));
        buttons.setAlignmentX(LEFT_ALIGNMENT);
        for (int step : new int[] {-1, 1}) {
            JButton b = new JButton(step < 0 ? "Earlier" : "Later");
            b.setName(step < 0 ? "program earlier" : "program later");
            b.setMargin(new java.awt.Insets(1, 6, 1, 6));
            b.addActionListener(e -> move(step));
            buttons.add(b);
        }
        buttons.setMaximumSize(Px.size(10_000, 34));
        to.add(buttons);
        to.add(order);
    }

    private void again(JPanel to) {
        title(to, "Can this board be saved?");
        JPanel p = new JPanel(new BorderLayout(6, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        JLabel l = new JLabel("Copper again, deeper, mm");
        deeper.setEditor(new JSpinner.NumberEditor(deeper, "0.000"));
        deeper.setName("deeper, mm");
        deeper.setPreferredSize(Px.size(84, 26));
        l.setLabelFor(deeper);
        p.add(l);
        p.add(deeper, BorderLayout.EAST);
        p.setMaximumSize(Px.size(10_000, 30));
        to.add(p);
        JButton go = new JButton("From the same zero, deeper");
        go.setName("run deeper");
        go.setAlignmentX(LEFT_ALIGNMENT);
        go.setToolTipText("every run that works copper once more, its cutter lower by this");
        go.addActionListener(e -> deeper());
        to.add(Box.createVerticalStrut(Px.of(3)));
        to.add(go);
        to.add(again);
    }

    /** Runs whose cuts are copper work, by the engine's own word for each move. */
    static List<RunFacts> copperRuns(Examination x) {
        List<RunFacts> all = new ArrayList<>();
        for (RunFacts r : x.runs()) {
            boolean copper = false;
            for (int i = r.run().firstSegment(); i < r.run().endSegment() && !copper; i++) {
                var work = x.workOf(i);
                copper = work != null && work.copper() && x.plan().segments().isFeed(i);
            }
            if (copper) {
                all.add(r);
            }
        }
        return all;
    }

    private void deeper() {
        DryRunResult r = model.result();
        if (r == null) {
            return;
        }
        double mm = ((Number) deeper.getValue()).doubleValue();
        BenchModel.WhatIf w = model.whatIf();
        for (RunFacts run : copperRuns(r.examination())) {
            // The lower of the two goes is what is left: the same as one go that much deeper.
            w = w.withZError(run.run().index(), mm);
        }
        model.setWhatIf(w);
        again.setText(againWords(r.examination(), mm));
    }

    private static String againWords(Examination x, double mm) {
        StringBuilder s = new StringBuilder();
        double time = 0;
        int lines = 0;
        boolean complete = true;
        StringBuilder edits = new StringBuilder();
        for (RunFacts run : copperRuns(x)) {
            Segments all = x.plan().segments();
            time += run.run().endS() - all.startS(run.run().firstSegment());
            BestDepth.Edited e = BestDepth.edited(x, run, mm);
            complete &= e.complete();
            for (BestDepth.Edit edit : e.edits()) {
                lines += (int) edit.difference()
                        .lines()
                        .filter(l -> l.startsWith("@@"))
                        .count();
                edits.append(edit.difference());
            }
        }
        s.append(String.format(
                Locale.ROOT,
                "%.3f mm deeper: about %s of copper work again, tool changes not counted; %d lines with another Z. What"
                        + " appears and goes stands in the findings, the copper in the picture (V compares).",
                mm,
                JobScene.clock(time),
                lines));
        if (!complete) {
            s.append(" Some lines hold their Z as no plain number: edit those by hand.");
        }
        s.append("\nNothing is written. The lines:\n");
        String text = edits.toString();
        return s.append(text.length() > 1500 ? text.substring(0, 1500) + "\n... and more" : text)
                .toString();
    }

    private List<String> files() {
        List<String> all = new ArrayList<>();
        JobScene s = model.scene();
        if (s != null) {
            for (Side side : s.job().sides()) {
                side.programs()
                        .forEach(p -> all.add(
                                p.file() + (s.job().sides().size() > 1 ? "  (side " + side.number() + ")" : "")));
            }
        }
        return all;
    }

    private List<Integer> orderNow() {
        List<Integer> now = work().order();
        if (!now.isEmpty()) {
            return now;
        }
        List<Integer> all = new ArrayList<>();
        for (int i = 0; i < files().size(); i++) {
            all.add(i);
        }
        return all;
    }

    private void move(int step) {
        int at = programList.getSelectedIndex();
        List<Integer> now = new ArrayList<>(orderNow());
        int to = at + step;
        if (at < 0 || to < 0 || to >= now.size() || sideOf(now.get(at)) != sideOf(now.get(to))) {
            order.setText("A program changes places with its neighbours on its own side alone: choose one.");
            return;
        }
        java.util.Collections.swap(now, at, to);
        change(work().withOrder(now));
        programList.setSelectedIndex(to);
    }

    private int sideOf(int program) {
        JobScene s = model.scene();
        int first = 0;
        for (Side side : s == null ? List.<Side>of() : s.job().sides()) {
            if (program < first + side.programs().size()) {
                return side.number();
            }
            first += side.programs().size();
        }
        return 0;
    }

    private void refresh() {
        showing = true;
        shown.forEach(Runnable::run);
        int was = programList.getSelectedIndex();
        programs.clear();
        List<String> files = files();
        orderNow().stream().filter(i -> i < files.size()).forEach(i -> programs.addElement(files.get(i)));
        if (was >= 0 && was < programs.size()) {
            programList.setSelectedIndex(was);
        }
        showing = false;
        DryRunResult base = model.result();
        DryRunResult now = model.whatIfResult();
        feeds.setText(base == null ? " " : feedWords(base, now));
        zero.setText(zeroWords());
        order.setText(base == null || now == null || work().order().isEmpty() ? " " : timeWords(base, now));
        if (model.whatIf().zErrorMm().isEmpty()) {
            again.setText(" ");
        }
    }

    private static String timeWords(DryRunResult base, DryRunResult now) {
        ResultDocument.TimeFacts a = base.document().time();
        ResultDocument.TimeFacts b = now.document().time();
        return String.format(
                Locale.ROOT,
                "%s, %d tool changes; in the job's own order %s, %d. New findings stand at the left.",
                JobScene.clock(b.totalS()),
                b.toolChanges(),
                JobScene.clock(a.totalS()),
                a.toolChanges());
    }

    private String feedWords(DryRunResult base, @Nullable DryRunResult now) {
        Map<String, ResultDocument.ToolFacts> then = new HashMap<>();
        if (now != null) {
            now.document().tools().forEach(t -> then.put(t.name(), t));
        }
        StringBuilder s = new StringBuilder();
        for (ResultDocument.ToolFacts t : base.document().tools()) {
            Tool tool = base.examination().job().toolNamed(t.name());
            ResultDocument.ToolFacts n = then.get(t.name());
            s.append('"').append(t.name()).append("\": ").append(load(t, tool, 1, 1));
            if (n != null && (work().feedShare() != 1 || work().speedShare() != 1)) {
                s.append("  ->  ").append(load(n, tool, 1, 1));
            }
            s.append('\n');
        }
        s.append(String.format(
                Locale.ROOT,
                "In all %s%s. Feeds change no copper: the picture stays as it is.",
                JobScene.clock(base.document().time().totalS()),
                now == null ? "" : " -> " + JobScene.clock(now.document().time().totalS())));
        return s.toString();
    }

    /** Feed, chip load and time of a cutter. */
    private static String load(ResultDocument.ToolFacts t, @Nullable Tool tool, double feedShare, double speedShare) {
        StringBuilder s = new StringBuilder();
        double[] feed = t.feedMmPerMin();
        double[] speed = t.spindleRpm();
        if (feed != null) {
            s.append(String.format(Locale.ROOT, "up to %.0f mm/min", feed[1] * feedShare));
        }
        if (feed != null
                && speed != null
                && speed[0] > 0
                && tool != null
                && tool.flutes().isPresent()) {
            s.append(String.format(
                    Locale.ROOT,
                    ", %.4f mm a tooth",
                    feed[1]
                            * feedShare
                            / (speed[0] * speedShare)
                            / tool.flutes().getAsInt()));
        }
        return s.append(s.length() == 0 ? "" : ", ")
                .append(JobScene.clock(t.timeS()))
                .toString();
    }

    /** Where the cuts of each side lie with the job moved, widths included, and whether they fit. */
    static String zeroWords(JobFootprint cuts, JobMove move) {
        StringBuilder w = new StringBuilder();
        for (Side side : cuts.job().sides()) {
            double[] box = cuts.box(side.number(), move);
            if (box == null) {
                continue;
            }
            double out =
                    Math.max(Math.max(-box[0], -box[1]), Math.max(box[2] - cuts.widthMm(), box[3] - cuts.heightMm()));
            w.append(String.format(
                    Locale.ROOT,
                    "Side %d: cuts X %.2f to %.2f, Y %.2f to %.2f mm; %s\n",
                    side.number(),
                    box[0],
                    box[2],
                    box[1],
                    box[3],
                    out <= 0
                            ? String.format(Locale.ROOT, "fit, %.2f mm to the nearest edge.", -out)
                            : String.format(Locale.ROOT, "do not fit: %.2f mm beyond an edge.", out)));
        }
        return w.toString().strip();
    }

    private String zeroWords() {
        JobScene s = model.scene();
        return s == null ? " " : zeroWords(JobFootprint.of(s.job(), s.ground().plan()), work().move(s.job()));
    }

    @Override
    public Dimension getMinimumSize() {
        return Px.size(100, 100);
    }
}
