package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.OverlayPainter;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Catalogue;
import foilproof.findings.Certainty;
import foilproof.findings.Finding;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import foilproof.report.Explanation;
import foilproof.report.HumanText;
import foilproof.report.Verdict;
import java.awt.BorderLayout;
import java.awt.Color;
import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.BorderFactory;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.Icon;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.JToggleButton;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import org.jspecify.annotations.Nullable;

/** The verdict, the findings worst first with a filter, and all that is said of the chosen one. */
final class FindingsPanel extends JPanel {
    private static final long serialVersionUID = 1L;

    /** Stands for the number of a row that is a place and no finding. */
    private static final int PLACE = -2;

    private final transient BenchModel model;
    private final transient BiConsumer<Integer, Finding> fly;
    private final JLabel verdict = new JLabel(" ");
    private final Wrapped state = new Wrapped(" ");
    private final JTextField filter = new JTextField();
    private final DefaultListModel<FindingRows.Row> rows = new DefaultListModel<>();
    private final JList<FindingRows.Row> list = new JList<>(rows);
    private final JTextArea detail = new JTextArea();
    private final JComboBox<String> kinds = choice("kind");
    private final JComboBox<String> sides = choice("side");
    private final JComboBox<String> tools = choice("cutter");
    private final JComboBox<String> severities = choice("severity");
    private final JPanel choices = new JPanel(new java.awt.GridLayout(2, 2, 4, 4));
    private final JToggleButton lists = new JToggleButton("Lists");
    private final WindowHeadline headline;
    private final JButton accept = new JButton("Accept, because ...  I");
    private boolean filling;
    private transient Consumer<@Nullable Finding> accepting = f -> {};

    FindingsPanel(BenchModel model, BiConsumer<Integer, Finding> fly) {
        super(new BorderLayout(0, 6));
        this.model = model;
        this.fly = fly;
        headline = new WindowHeadline((at, side) -> fly.accept(
                -1,
                Finding.of("z-window", Severity.NOTE, Certainty.GEOMETRY)
                        .says("Here the Z window ends: it is the first place that fails.")
                        .side(side)
                        .at(at[0], at[1])
                        .build()));
        setName("findings panel");
        setBorder(Px.pad(8, 10, 8, 10));
        add(head(), BorderLayout.NORTH);
        list.setName("findings");
        list.getAccessibleContext().setAccessibleName("Findings, worst first");
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setCellRenderer(new Renderer());
        list.addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent e) {
                // Heights of rows follow the width: asked again.
                list.setFixedCellHeight(10);
                list.setFixedCellHeight(-1);
            }
        });
        list.addListSelectionListener(e -> {
            FindingRows.Row r = list.getSelectedValue();
            if (!filling && !e.getValueIsAdjusting() && r != null) {
                show(r.finding());
                this.fly.accept(Math.max(-1, r.index()), r.finding());
            }
        });
        detail.setName("finding text");
        detail.setEditable(false);
        detail.setLineWrap(true);
        detail.setWrapStyleWord(true);
        detail.setMargin(new java.awt.Insets(8, 8, 8, 8));
        detail.getAccessibleContext().setAccessibleName("The chosen finding in full");
        JScrollPane lower = new JScrollPane(detail);
        JScrollPane upper = new JScrollPane(list);
        JSplitPane split = new JSplitPane(JSplitPane.VERTICAL_SPLIT, upper, lower);
        split.setResizeWeight(0.6);
        split.setBorder(BorderFactory.createEmptyBorder());
        upper.setPreferredSize(Px.size(300, 320));
        lower.setPreferredSize(Px.size(300, 210));
        add(split);
        add(acceptButton(), BorderLayout.SOUTH);
        model.listen(c -> {
            if (c == BenchModel.Change.JOB && model.camera() == null) {
                clearFilter();
            } else if (c == BenchModel.Change.JOB || c == BenchModel.Change.RESULT || c == BenchModel.Change.JUDGING) {
                fill();
                if (model.chosen() >= 0) {
                    select(model.chosen());
                }
            } else if (c == BenchModel.Change.CHOICE) {
                select(model.chosen());
                if (model.chosen() < 0 && model.chosenFinding() == null && model.result() != null) {
                    detail.setText(overview(java.util.Objects.requireNonNull(model.result())));
                    detail.setCaretPosition(0);
                }
            }
        });
    }

    /** The verdict over what narrows the findings. */
    private JPanel head() {
        verdict.putClientProperty("FlatLaf.styleClass", "h3");
        verdict.setName("verdict");
        filter.putClientProperty("JTextField.placeholderText", "hair, line 431, T2, holes < 0.6");
        filter.setToolTipText("Words that must all occur; side 2, line 431, T2, stop; holes < 0.6 and gaps < 0.15 (mm)"
                + " list places themselves  (/)");
        filter.putClientProperty("JTextField.showClearButton", true);
        filter.setName("filter");
        filter.getAccessibleContext().setAccessibleName("Filter findings");
        JPanel head = new JPanel(new BorderLayout(0, 4));
        head.add(verdict, BorderLayout.NORTH);
        state.setName("counts");
        JPanel middle = new JPanel(new BorderLayout(0, 0));
        middle.add(state, BorderLayout.NORTH);
        middle.add(headline);
        head.add(middle, BorderLayout.CENTER);
        JPanel narrow = new JPanel(new BorderLayout(0, 4));
        JPanel typed = new JPanel(new BorderLayout(4, 0));
        typed.add(filter);
        lists.setName("filter lists");
        lists.setToolTipText("narrow by severity, kind, side and cutter");
        lists.setMargin(new java.awt.Insets(2, 6, 2, 6));
        lists.addActionListener(e -> {
            choices.setVisible(lists.isSelected());
            revalidate();
        });
        typed.add(lists, BorderLayout.EAST);
        narrow.add(typed, BorderLayout.NORTH);
        choices.setVisible(false);
        List.of(severities, kinds, sides, tools).forEach(choices::add);
        narrow.add(choices);
        head.add(narrow, BorderLayout.SOUTH);
        filter.getInputMap().put(KeyStroke.getKeyStroke("ESCAPE"), "clear");
        filter.getActionMap().put("clear", new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(java.awt.event.ActionEvent e) {
                clearFilter();
            }
        });
        filter.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent e) {
                fill();
            }

            @Override
            public void removeUpdate(DocumentEvent e) {
                fill();
            }

            @Override
            public void changedUpdate(DocumentEvent e) {
                fill();
            }
        });
        return head;
    }

    private JComboBox<String> choice(String what) {
        JComboBox<String> box = new JComboBox<>(new String[] {"any " + what});
        box.setName("filter " + what);
        box.getAccessibleContext().setAccessibleName("Findings of this " + what);
        box.setToolTipText("show findings of this " + what + " alone (U shows all)");
        box.setPrototypeDisplayValue("any severity..");
        box.setMaximumRowCount(18);
        box.addActionListener(e -> {
            if (!filling) {
                fill();
            }
        });
        return box;
    }

    /** Every finding again: nothing typed, nothing chosen. */
    void clearFilter() {
        filling = true;
        List.of(severities, kinds, sides, tools).forEach(b -> b.setSelectedIndex(0));
        filling = false;
        filter.setText("");
        fill();
    }

    /** What is chosen in the lists. */
    private FindingChoice chosen() {
        Severity severity = null;
        for (Severity v : Severity.values()) {
            severity = v.word().equals(picked(severities)) ? v : severity;
        }
        String side = picked(sides);
        return new FindingChoice(
                picked(kinds),
                side == null ? 0 : Integer.parseInt(side.substring("side ".length())),
                picked(tools),
                severity);
    }

    private static @Nullable String picked(JComboBox<String> box) {
        return box.getSelectedIndex() <= 0 ? null : (String) box.getSelectedItem();
    }

    /** Offers what occurs in the findings, folded ones too; what is chosen stays chosen. */
    private void offer(List<Finding> all) {
        java.util.TreeSet<String> kind = new java.util.TreeSet<>();
        java.util.TreeSet<String> side = new java.util.TreeSet<>();
        java.util.TreeSet<String> tool = new java.util.TreeSet<>();
        Set<Severity> severity = new HashSet<>();
        all.forEach(f -> collect(f, kind, side, tool, severity));
        List<String> words = new ArrayList<>();
        for (Severity v : Severity.values()) {
            if (severity.contains(v)) {
                words.add(v.word());
            }
        }
        offer(kinds, new ArrayList<>(kind));
        offer(sides, new ArrayList<>(side));
        offer(tools, new ArrayList<>(tool));
        offer(severities, words);
    }

    private static void collect(Finding f, Set<String> kind, Set<String> side, Set<String> tool, Set<Severity> worst) {
        kind.add(f.kind());
        worst.add(f.severity());
        if (f.side() != null) {
            side.add("side " + f.side());
        }
        if (f.tool() != null) {
            tool.add(f.tool());
        }
        f.consequences().forEach(c -> collect(c, kind, side, tool, worst));
    }

    private static void offer(JComboBox<String> box, List<String> words) {
        String was = picked(box);
        if (was != null && !words.contains(was)) {
            words.add(was);
        }
        String any = box.getItemAt(0);
        box.removeAllItems();
        box.addItem(any);
        words.forEach(box::addItem);
        box.setSelectedItem(was == null ? any : was);
    }

    private JButton acceptButton() {
        accept.setName("accept");
        accept.setMargin(new java.awt.Insets(1, 6, 1, 6));
        accept.putClientProperty("FlatLaf.styleClass", "medium");
        accept.setToolTipText("stored beside the job; void when any byte of the inputs changes");
        accept.addActionListener(e -> accept());
        return accept;
    }

    /** Accepts the chosen finding of the job; says in words where there is none. */
    void accept() {
        FindingRows.Row r = list.getSelectedValue();
        accepting.accept(r == null || r.index() < 0 ? null : r.finding());
    }

    /** What happens when a finding of the job is to be accepted. */
    void onAccept(Consumer<@Nullable Finding> what) {
        accepting = what;
    }

    /** Puts the cursor into the filter. */
    void search() {
        filter.requestFocusInWindow();
        filter.selectAll();
    }

    private void select(int index) {
        filling = true;
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).index() == index && index >= 0) {
                list.setSelectedIndex(i);
                list.ensureIndexIsVisible(i);
                show(rows.get(i).finding());
            }
        }
        if (index < 0 && model.chosenFinding() == null) {
            list.clearSelection();
        }
        filling = false;
    }

    private void fill() {
        filling = true;
        DryRunResult base = model.result();
        Catalogue.Partial judging = model.judging();
        if (base != null) {
            fill(base);
        } else if (judging != null && model.scene() != null) {
            fillSoFar(judging);
        } else {
            fillNothing();
        }
        filling = false;
        repaint();
    }

    /** There is no job, or nothing of it may be told, or no check is through. */
    private void fillNothing() {
        boolean none = model.scene() == null;
        DryRunResult earlier = model.blind() ? null : model.earlier();
        verdict.setText(none ? "No job yet" : model.blind() ? "Predict first" : "Checking ...");
        verdict.setIcon(null);
        if (earlier != null) {
            // The files changed: what was found before is shown as what it is, until it is judged again.
            listed(FindingRows.of(Catalogue.Partial.NOTHING, earlier).rows(), List.of());
            headline.show(earlier, true);
            state.setText("The files have changed; all is being judged again.");
            return;
        }
        listed(List.of(), List.of());
        headline.show(null, false);
        state.setText(
                none
                        ? "Open a job, a folder or a program."
                        : model.blind()
                                ? "Findings and cuts are shown when your prediction is recorded (H)."
                                : "The board can be looked at meanwhile.");
        detail.setText("");
    }

    /** Checks still run: what they found so far. */
    private void fillSoFar(Catalogue.Partial judging) {
        DryRunResult earlier = model.earlier();
        FindingRows all = FindingRows.of(judging, earlier);
        boolean stop = judging.findings().stream().anyMatch(f -> f.severity() == Severity.STOP);
        verdict.setText(stop ? verdictWords(Verdict.STOP) : "Checking ...");
        verdict.setIcon(stop ? new Badge(3 - Verdict.STOP.ordinal(), "") : null);
        headline.show(earlier, true);
        int shown = listed(all.rows(), List.of());
        state.setText("So far: " + counts(judging.findings()) + toCome(all.open(), judging)
                + (shown < all.rows().size()
                        ? "; " + shown + " of " + all.rows().size() + " shown, U shows all"
                        : ""));
        if (model.chosenFinding() == null) {
            detail.setText("");
        }
    }

    /** What is still to be told, "" where nothing is. */
    private static String toCome(int open, Catalogue.@Nullable Partial judging) {
        if (judging == null || judging.open().isEmpty()) {
            return "";
        }
        return (open == 0 ? "" : ", " + open + " being judged") + "; " + judging.left()
                + (judging.left() == 1 ? " check" : " checks") + " to come";
    }

    /** The job's findings, and what a what-if does to them. */
    private void fill(DryRunResult base) {
        DryRunResult other = model.whatIfResult();
        Catalogue.Partial judging = model.whatIfJudging();
        FindingRows all = FindingRows.of(base, other, judging);
        List<Finding> findings = base.document().findings();
        List<Finding> told = new ArrayList<>(findings);
        all.rows().forEach(r -> told.add(r.finding()));
        offer(told);
        int shown = listed(all.rows(), FindingFilter.of(filter.getText()).places(other == null ? base : other));
        verdict.setText(verdictWords(base.document().verdict()));
        verdict.setIcon(new Badge(3 - base.document().verdict().ordinal(), ""));
        headline.show(
                other == null ? base : other, judging != null && !judging.open().isEmpty());
        int open = base.document().notChecked().size();
        String differs = other == null && judging == null
                ? ""
                : "; what if: "
                        + (other == null || judging != null
                                ? ""
                                : other.document().verdict().word() + ", ")
                        + all.appeared() + " appeared, " + all.gone() + " gone, " + all.unchanged()
                        + " unchanged"
                        + (all.changed() == 0 ? "" : ", " + all.changed() + " of another severity")
                        + toCome(all.open(), judging);
        state.setText(counts(findings)
                + (open == 0 ? "" : "; " + open + " not checked (Esc)")
                + differs
                + (model.whatIf().absent().isEmpty() ? "" : "; runs left out are left out of the picture alone")
                + (shown < all.rows().size()
                        ? "; " + shown + " of " + all.rows().size() + " shown, U shows all"
                        : ""));
        if (model.chosen() < 0 && model.chosenFinding() == null) {
            detail.setText(overview(base));
            detail.setCaretPosition(0);
        }
    }

    /** Lists what passes the filter, and places that it names; keeps the selection. Says how many passed. */
    private int listed(List<FindingRows.Row> all, List<Finding> places) {
        FindingChoice choice = chosen();
        List<FindingRows.Row> next = new ArrayList<>();
        for (FindingRows.Row r : all) {
            if (matches(r.finding(), choice)) {
                next.add(r);
            }
        }
        int shown = next.size();
        for (Finding f : places) {
            if (choice.side() == 0 || Integer.valueOf(choice.side()).equals(f.side())) {
                next.add(new FindingRows.Row(f, PLACE, FindingRows.State.STANDS));
            }
        }
        if (!java.util.Collections.list(rows.elements()).equals(next)) {
            FindingRows.Row was = list.getSelectedValue();
            rows.clear();
            rows.addAll(next);
            for (int i = 0; was != null && i < next.size(); i++) {
                if (FindingRows.key(next.get(i).finding()).equals(FindingRows.key(was.finding()))) {
                    list.setSelectedIndex(i);
                    break;
                }
            }
        }
        return shown;
    }

    private boolean matches(Finding f, FindingChoice choice) {
        JobScene s = model.scene();
        return FindingFilter.of(filter.getText()).matches(f, s == null ? null : s.job(), choice);
    }

    private static String verdictWords(Verdict v) {
        return switch (v) {
            case STOP -> "Stop: do not run it";
            case FIX -> "Fix it: a bad board is likely";
            case WATCH -> "Watch: it rests on your set-up";
            case CLEAN -> "Clean: nothing above a note";
        };
    }

    private static String counts(List<Finding> findings) {
        if (findings.isEmpty()) {
            return "nothing found";
        }
        StringBuilder s = new StringBuilder();
        for (Severity v : Severity.values()) {
            long n = findings.stream().filter(f -> f.severity() == v).count();
            if (n > 0) {
                s.append(s.length() == 0 ? "" : ", ").append(n).append(' ').append(v.word());
                s.append(v == Severity.NOTE && n > 1 ? "s" : "");
            }
        }
        return s.toString();
    }

    private static String overview(DryRunResult r) {
        StringBuilder s = new StringBuilder("Not checked:\n");
        for (NotChecked n : r.document().notChecked()) {
            s.append("- ").append(n.what()).append(": ").append(n.why()).append('\n');
        }
        if (r.document().notChecked().isEmpty()) {
            s.append("- nothing that this build knows of\n");
        }
        if (!r.document().assumed().isEmpty()) {
            s.append("\nAssumed:\n");
            r.document().assumed().forEach(a -> s.append("- ").append(a).append('\n'));
        }
        s.append("\nGlass fibre and fine dust, spinning cutters and live circuits hurt: keep extraction, guards and "
                + "glasses in use, and follow local rules and licensed practice.\n");
        return s.toString();
    }

    private void show(Finding f) {
        StringBuilder s = new StringBuilder();
        String text = lineOf(f);
        if (!text.isEmpty()) {
            s.append(f.program())
                    .append(' ')
                    .append(f.line())
                    .append(":  ")
                    .append(text)
                    .append("\n\n");
        }
        DryRunResult r = model.result();
        int number = r == null ? 0 : r.document().findings().indexOf(f) + 1;
        String reason = r == null || number < 1 ? null : r.document().approval().reasonFor(number);
        if (reason != null) {
            s.append("ACCEPTED, because: ").append(reason).append("\n\n");
        }
        tell(s, f, "");
        Explanation e = Explanation.of(f.kind());
        if (e != null) {
            s.append("\nWhy it matters: ").append(e.why()).append('\n');
        }
        detail.setText(s.toString());
        detail.setCaretPosition(0);
    }

    /** The program's line that a finding names, "" where there is none. */
    private String lineOf(Finding f) {
        JobScene scene = model.scene();
        if (scene == null || f.program() == null || f.line() == null) {
            return "";
        }
        for (var p : scene.ground().plan().programs()) {
            if (p.file().equals(f.program())) {
                String[] text = p.entry().source().latin1().split("\r\n|\n|\r", -1);
                return f.line() >= 1 && f.line() <= text.length ? text[f.line() - 1].strip() : "";
            }
        }
        return "";
    }

    private static void tell(StringBuilder s, Finding f, String indent) {
        s.append(indent)
                .append(f.severity().word())
                .append(", ")
                .append(f.kind())
                .append(" (rests on: ");
        s.append(f.certainty().word()).append(")\n");
        s.append(indent).append(f.message()).append('\n');
        if (!f.doThis().isEmpty()) {
            s.append(indent).append("Do: ").append(f.doThis()).append('\n');
        }
        s.append(indent).append(where(f)).append('\n');
        String numbers = HumanText.numbers(f);
        if (!numbers.isEmpty()) {
            s.append(indent).append(numbers).append('\n');
        }
        if (!f.consequences().isEmpty()) {
            s.append('\n').append(indent).append("From this follow:\n");
            for (Finding c : f.consequences()) {
                tell(s, c, indent + "   ");
            }
        }
    }

    private static String where(Finding f) {
        StringBuilder s = new StringBuilder();
        if (f.side() != null) {
            s.append("side ").append(f.side());
        }
        double[] at = f.atMm();
        if (at != null) {
            s.append(String.format(
                    Locale.ROOT, ", X %.2f Y %.2f mm (%.0f, %.0f thou)", at[0], at[1], at[0] / 0.0254, at[1] / 0.0254));
        }
        if (f.program() != null) {
            s.append(", ").append(f.program());
            if (f.line() != null) {
                s.append(" line ").append(f.line());
            }
        }
        if (f.timeS() != null) {
            s.append(", at ").append(JobScene.clock(f.timeS()));
        }
        if (f.tool() != null) {
            s.append(", ").append(f.tool());
        }
        return s.length() == 0 ? "the job as a whole" : s.toString();
    }

    /** A severity's shape and number. */
    private record Badge(int severity, String words) implements Icon {
        @Override
        public void paintIcon(Component c, Graphics graphics, int x, int y) {
            Graphics2D g = (Graphics2D) graphics.create();
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            g.setColor(OverlayPainter.severityColour(severity));
            g.translate(x, y);
            g.scale(Px.scale(), Px.scale());
            g.fill(OverlayPainter.severityShape(severity, 12, 12, 11));
            g.setColor(Color.WHITE);
            g.setFont(c.getFont().deriveFont(11f));
            g.drawString(words, 12 - g.getFontMetrics().stringWidth(words) / 2, 16);
            g.dispose();
        }

        @Override
        public int getIconWidth() {
            return Px.of(26);
        }

        @Override
        public int getIconHeight() {
            return Px.of(24);
        }
    }

    private static final class Renderer extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getListCellRendererComponent(
                JList<?> list, @Nullable Object value, int index, boolean selected, boolean focus) {
            JLabel label = (JLabel) super.getListCellRendererComponent(list, "", index, selected, focus);
            if (value instanceof FindingRows.Row row) {
                Finding f = row.finding();
                int severity = Severity.NOTE.ordinal() - f.severity().ordinal();
                boolean place = row.index() == PLACE;
                boolean appeared = row.state() == FindingRows.State.APPEARED;
                String number = row.index() >= 0 ? Integer.toString(row.index() + 1) : appeared ? "+" : "";
                label.setIcon(new Badge(severity, place ? "o" : number));
                String difference = row.words().isEmpty() ? "" : "<b>" + row.words() + "</b> ";
                int width = Math.max(160, list.getWidth() - Px.of(48));
                label.setText("<html><body style='width:" + width * 3 / 4 + "px'>" + difference + "<b>"
                        + (place ? "" : f.severity().word() + ": ") + f.kind() + "</b> "
                        + escape(f.message())
                        + line(f)
                        + (f.consequences().isEmpty()
                                ? ""
                                : " <i>(" + f.consequences().size() + " more follow)</i>")
                        + "</body></html>");
                label.setBorder(Px.pad(4, 4, 4, 4));
                label.setIconTextGap(8);
                label.setVerticalTextPosition(TOP);
                label.getAccessibleContext()
                        .setAccessibleName((row.words().isEmpty() ? "" : row.words() + ", ")
                                + f.severity().word() + ", " + f.kind() + ", " + f.message());
            }
            return label;
        }

        /** The line and moment at which it happens. */
        private static String line(Finding f) {
            if (f.program() == null || f.line() == null) {
                return "";
            }
            return " <i>" + escape(f.program()) + " line " + f.line()
                    + (f.timeS() == null ? "" : ", " + JobScene.clock(f.timeS())) + "</i>";
        }

        private static String escape(String s) {
            return s.replace("&", "&amp;").replace("<", "&lt;").replace("\n", "<br>");
        }
    }
}
