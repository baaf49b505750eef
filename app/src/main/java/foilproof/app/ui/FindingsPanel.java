package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.OverlayPainter;
import foilproof.dryrun.DryRunResult;
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

    /** A row: a finding of the base, its number, and whether the what-if takes it away; or one that the what-if adds. */
    private record Row(Finding finding, int index, String difference) {
        @Override
        public String toString() {
            // Letters typed while the list has the focus are keys of the window, not a search in the list.
            return "";
        }
    }

    private final transient BenchModel model;
    private final transient BiConsumer<Integer, Finding> fly;
    private final JLabel verdict = new JLabel(" ");
    private final Wrapped state = new Wrapped(" ");
    private final JTextField filter = new JTextField();
    private final DefaultListModel<Row> rows = new DefaultListModel<>();
    private final JList<Row> list = new JList<>(rows);
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
            Row r = list.getSelectedValue();
            if (!filling && !e.getValueIsAdjusting() && r != null) {
                show(r.finding());
                this.fly.accept(r.index(), r.finding());
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
            } else if (c == BenchModel.Change.JOB || c == BenchModel.Change.RESULT) {
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
        Row r = list.getSelectedValue();
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

    private static String key(Finding f) {
        double[] at = f.atMm();
        String place = at == null ? "" : Math.round(at[0] * 2) + "," + Math.round(at[1] * 2);
        return f.kind() + "|" + f.side() + "|" + f.tool() + "|" + place;
    }

    private void fill() {
        filling = true;
        rows.clear();
        DryRunResult base = model.result();
        DryRunResult other = model.whatIfResult();
        if (base == null) {
            boolean none = model.scene() == null;
            verdict.setText(none ? "No job yet" : model.blind() ? "Predict first" : "Checking ...");
            verdict.setIcon(null);
            headline.show(null);
            state.setText(
                    none
                            ? "Open a job, a folder or a program."
                            : model.blind()
                                    ? "Findings and cuts are shown when your prediction is recorded (H)."
                                    : "The board can be looked at meanwhile.");
            detail.setText("");
        } else {
            List<Finding> now = other == null ? List.of() : other.document().findings();
            Set<String> after = new HashSet<>();
            now.forEach(f -> after.add(key(f)));
            Set<String> before = new HashSet<>();
            int gone = 0;
            int fresh = 0;
            List<Row> all = new ArrayList<>();
            List<Finding> findings = base.document().findings();
            for (int i = 0; i < findings.size(); i++) {
                before.add(key(findings.get(i)));
                boolean left = other == null || after.contains(key(findings.get(i)));
                gone += left ? 0 : 1;
                boolean accepted = base.document().approval().reasonFor(i + 1) != null;
                all.add(new Row(findings.get(i), i, left ? accepted ? "accepted" : "" : "gone"));
            }
            for (Finding f : now) {
                if (!before.contains(key(f))) {
                    all.add(fresh++, new Row(f, -1, "appeared"));
                }
            }
            List<Finding> told = new ArrayList<>(findings);
            told.addAll(now);
            offer(told);
            FindingChoice choice = chosen();
            for (Row r : all) {
                if (matches(r.finding(), choice)) {
                    rows.addElement(r);
                }
            }
            int shown = rows.size();
            for (Finding f : FindingFilter.of(filter.getText()).places(other == null ? base : other)) {
                if (choice.side() == 0 || Integer.valueOf(choice.side()).equals(f.side())) {
                    rows.addElement(new Row(f, -1, "search"));
                }
            }
            verdict.setText(verdictWords(base.document().verdict()));
            verdict.setIcon(new Badge(3 - base.document().verdict().ordinal(), ""));
            headline.show(other == null ? base : other);
            int open = base.document().notChecked().size();
            state.setText(counts(findings)
                    + (open == 0 ? "" : "; " + open + " not checked (Esc)")
                    + (other == null
                            ? ""
                            : "; what if: " + fresh + " appeared, " + gone + " gone, " + (findings.size() - gone)
                                    + " unchanged")
                    + (model.whatIf().absent().isEmpty() ? "" : "; runs left out are left out of the picture alone")
                    + (shown < all.size() ? "; " + shown + " of " + all.size() + " shown, U shows all" : ""));
            if (model.chosen() < 0) {
                detail.setText(overview(base));
                detail.setCaretPosition(0);
            }
        }
        filling = false;
        repaint();
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
            if (value instanceof Row row) {
                Finding f = row.finding();
                int severity = Severity.NOTE.ordinal() - f.severity().ordinal();
                label.setIcon(new Badge(
                        severity,
                        row.difference().equals("search")
                                ? "o"
                                : row.index() < 0 ? "+" : Integer.toString(row.index() + 1)));
                String difference =
                        row.difference().isEmpty() || row.difference().equals("search")
                                ? ""
                                : row.difference().equals("accepted")
                                        ? "<b>[accepted]</b> "
                                        : "<b>[what if: " + row.difference() + "]</b> ";
                int width = Math.max(160, list.getWidth() - Px.of(48));
                boolean place = row.difference().equals("search");
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
                        .setAccessibleName(f.severity().word() + ", " + f.kind() + ", " + f.message());
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
