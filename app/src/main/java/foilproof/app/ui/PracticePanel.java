package foilproof.app.ui;

import foilproof.app.practice.Answer;
import foilproof.app.practice.Exercise;
import foilproof.app.practice.Exercises;
import foilproof.app.practice.Practice;
import foilproof.app.practice.Score;
import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.ExamineOptions;
import foilproof.report.ResultDocument;
import foilproof.source.InputException;
import java.awt.BorderLayout;
import java.awt.FlowLayout;
import java.awt.Font;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import javax.swing.Box;
import javax.swing.DefaultListModel;
import javax.swing.ImageIcon;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSpinner;
import javax.swing.JTabbedPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import javax.swing.SpinnerNumberModel;
import javax.swing.SwingUtilities;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** The exercises: choose one, predict before the dry run tells, see what was planted, mend it. */
final class PracticePanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final double CELL_MM = 0.010;

    /** What the exercises ask of the window. */
    interface Host {
        /** Puts a job on the bench; blind: the blank alone, before any cut and without findings. */
        void bench(JobSource job, Path folder, boolean blind);

        /** Asks for a folder, null where none is given. */
        @Nullable
        Path askFolder(String title, String suggested);

        void tell(String words);
    }

    private final transient BenchModel model;
    private final transient Host host;
    private final JScrollPane scroll;
    private final JComboBox<String> exercises = new JComboBox<>();
    private final Wrapped story = new Wrapped(" ");
    private final JPanel form = ConditionsPanel.column();
    private final JPanel after = ConditionsPanel.column();
    private final Wrapped place = new Wrapped(" ");
    private final JComboBox<String> cause = new JComboBox<>();
    private final JComboBox<String> severity = new JComboBox<>(new String[] {"stop", "fix", "watch"});
    private final JSpinner sure = new JSpinner(new SpinnerNumberModel(70, 50, 99, 5));
    private final JCheckBox clean = new JCheckBox("Nothing is wrong with this job");
    private final transient List<Answer.Mark> marks = new ArrayList<>();
    private final DefaultListModel<String> markWords = new DefaultListModel<>();
    private final JList<String> markList = new JList<>(markWords);
    private final JPanel numbers = ConditionsPanel.column();
    private final transient Map<String, JTextField> fields = new LinkedHashMap<>();
    private final Wrapped score = new Wrapped(" ");
    private final JButton repair = new JButton("Judge my repair");
    private transient @Nullable Practice practice;

    PracticePanel(BenchModel model, Host host) {
        super(new BorderLayout());
        this.model = model;
        this.host = host;
        setName("practice");
        Column all = new Column();
        all.setBorder(Px.pad(8, 10, 10, 10));
        all.add(ConditionsPanel.heading(
                "Practice",
                "Find what was planted before a blank pays for it. How many faults there are is never told."));
        all.add(chooser());
        story.setName("exercise story");
        all.add(story);
        buildForm();
        all.add(form);
        buildAfter();
        all.add(after);
        scroll = all.scrolled();
        add(scroll);
        show(false, false);
        model.listen(c -> {
            double[] p = model.asked();
            if (c == BenchModel.Change.CHOICE) {
                place.setText(
                        p == null
                                ? "Click the blank where you see a fault."
                                : String.format(Locale.ROOT, "At X %.2f Y %.2f mm, side %d", p[0], p[1], model.side()));
            }
        });
    }

    private JComponent chooser() {
        JPanel p = new JPanel(new BorderLayout(4, 4));
        p.setAlignmentX(LEFT_ALIGNMENT);
        for (Exercise e : Exercises.all()) {
            exercises.addItem(e.id() + ", level " + e.level() + ": " + e.title());
        }
        exercises.setName("exercises");
        exercises.setPrototypeDisplayValue("E1, level 1: Greenhouse vent");
        exercises.addActionListener(e -> story.setText(chosen().story()));
        story.setText(chosen().story());
        JButton begin = new JButton("Begin ...");
        begin.setName("begin exercise");
        begin.setToolTipText("writes the exercise into a folder of yours and lays its blank on the bench");
        begin.addActionListener(e -> begin());
        p.add(exercises);
        p.add(begin, BorderLayout.EAST);
        p.setMaximumSize(Px.size(10_000, 32));
        return p;
    }

    private Exercise chosen() {
        return Exercises.all().get(Math.max(0, exercises.getSelectedIndex()));
    }

    private static JPanel pair(JComponent left, JComponent right) {
        JPanel p = new JPanel(new BorderLayout(6, 0));
        p.setAlignmentX(LEFT_ALIGNMENT);
        p.setBorder(Px.pad(3, 0, 0, 0));
        p.add(left, BorderLayout.WEST);
        p.add(right);
        p.setMaximumSize(Px.size(10_000, 32));
        return p;
    }

    private static JPanel row(JButton... buttons) {
        JPanel p = new JPanel(new FlowLayout(FlowLayout.LEFT, 3, 2));
        p.setAlignmentX(LEFT_ALIGNMENT);
        for (JButton b : buttons) {
            b.setMargin(new java.awt.Insets(2, 6, 2, 6));
            p.add(b);
        }
        p.setMaximumSize(Px.size(10_000, 36));
        return p;
    }

    private static JButton button(String words, String name, Runnable work) {
        JButton b = new JButton(words);
        b.setName(name);
        b.addActionListener(e -> work.run());
        return b;
    }

    private void buildForm() {
        form.add(Box.createVerticalStrut(Px.of(8)));
        form.add(row(button("Read job and programs", "read files", this::readFiles)));
        place.setName("mark place");
        place.setText("Click the blank where you see a fault.");
        form.add(place);
        Exercises.CAUSES.forEach(cause::addItem);
        cause.setName("cause");
        severity.setName("mark severity");
        sure.setName("confidence");
        form.add(pair(new JLabel("Cause"), cause));
        form.add(pair(new JLabel("How bad"), severity));
        form.add(pair(new JLabel("How sure, 50 to 99 %"), sure));
        form.add(row(
                button("Mark it", "mark", this::mark), button("Take the chosen mark away", "unmark", this::unmark)));
        markList.setName("marks");
        markList.setVisibleRowCount(3);
        JScrollPane scroll = new JScrollPane(markList);
        scroll.setAlignmentX(LEFT_ALIGNMENT);
        scroll.setPreferredSize(Px.size(200, 64));
        scroll.setMaximumSize(Px.size(10_000, 64));
        form.add(scroll);
        clean.setName("clean");
        clean.setAlignmentX(LEFT_ALIGNMENT);
        form.add(clean);
        form.add(numbers);
        form.add(Box.createVerticalStrut(Px.of(6)));
        form.add(row(button("This is my prediction", "predict", this::predict)));
        form.add(new Wrapped("It counts as it stands; only then the dry run tells."));
    }

    private void buildAfter() {
        after.add(Box.createVerticalStrut(Px.of(8)));
        score.setName("score");
        after.add(score);
        repair.setName("repair");
        repair.addActionListener(e -> judge());
        after.add(row(repair));
    }

    private void show(boolean predicting, boolean revealed) {
        form.setVisible(predicting);
        after.setVisible(revealed);
        SwingUtilities.invokeLater(() -> scroll.getVerticalScrollBar().setValue(0));
        revalidate();
        repaint();
    }

    private void begin() {
        Exercise e = chosen();
        Path folder = host.askFolder(
                "Write exercise " + e.id() + " into a new folder",
                "foilproof-practice-" + e.id().toLowerCase(Locale.ROOT));
        if (folder == null) {
            return;
        }
        try {
            Practice.start(e.id(), folder);
            resume(Practice.open(folder));
            host.tell("Exercise " + e.id() + " written to " + folder + ".");
        } catch (IOException | Practice.RefusedException ex) {
            host.tell("Not begun: " + Saving.why(ex));
        }
    }

    /** Goes on with an exercise in its folder: to predict, or, where that was done, to see and mend. */
    void resume(Practice p) {
        practice = p;
        for (int i = 0; i < Exercises.all().size(); i++) {
            if (Exercises.all().get(i).id().equals(p.exercise().id())) {
                exercises.setSelectedIndex(i);
            }
        }
        story.setText(p.exercise().story());
        marks.clear();
        markWords.clear();
        clean.setSelected(false);
        askNumbers(p.exercise());
        try {
            reveal(p, p.recorded());
        } catch (Practice.RefusedException e) {
            show(true, false);
            host.bench(onDisk(p), p.folder(), true);
        } catch (IOException | Answer.NotFilledInException e) {
            host.tell("The prediction cannot be read: " + Saving.why(e));
        }
    }

    private static JobSource onDisk(Practice p) {
        return new JobSource(new DiskFiles(p.folder()), JobSource.JOB_FILE);
    }

    private void askNumbers(Exercise e) {
        numbers.removeAll();
        fields.clear();
        for (Exercise.Predicted n : e.numbers()) {
            JTextField f = new JTextField();
            f.setName("number " + n.key());
            fields.put(n.key(), f);
            numbers.add(Box.createVerticalStrut(Px.of(5)));
            numbers.add(new Wrapped(n.question() + ", " + n.unit() + " (may stay empty):"));
            f.setAlignmentX(LEFT_ALIGNMENT);
            f.setMaximumSize(Px.size(10_000, 28));
            numbers.add(f);
        }
    }

    private void mark() {
        double[] p = model.asked();
        if (p == null) {
            host.tell("Click the blank first: a mark has a place.");
            return;
        }
        Answer.Mark m = new Answer.Mark(
                p[0],
                p[1],
                String.valueOf(cause.getSelectedItem()),
                ((Number) sure.getValue()).intValue(),
                Exercise.Weight.valueOf(
                        String.valueOf(severity.getSelectedItem()).toUpperCase(Locale.ROOT)));
        marks.add(m);
        markWords.addElement(String.format(
                Locale.ROOT,
                "%s at (%.1f, %.1f), %s, %d %%",
                m.cause(),
                m.xMm(),
                m.yMm(),
                severity.getSelectedItem(),
                m.confidencePercent()));
        clean.setSelected(false);
    }

    private void unmark() {
        int i = markList.getSelectedIndex();
        if (i >= 0) {
            marks.remove(i);
            markWords.remove(i);
        }
    }

    private void predict() {
        Practice p = practice;
        if (p == null) {
            return;
        }
        Map<String, Double> said = new LinkedHashMap<>();
        for (Map.Entry<String, JTextField> f : fields.entrySet()) {
            String words = f.getValue().getText().strip().replaceFirst("(?i)\\s*(mm|k|times|line)$", "");
            if (words.isEmpty()) {
                continue;
            }
            try {
                said.put(f.getKey(), Double.parseDouble(words));
            } catch (NumberFormatException e) {
                host.tell("\"" + f.getValue().getText() + "\" is no number: write it with a point, e.g. 0.42.");
                return;
            }
        }
        Answer answer = new Answer(
                clean.isSelected(), ((Number) sure.getValue()).intValue(), List.copyOf(marks), Map.copyOf(said));
        try {
            Files.writeString(p.folder().resolve(Answer.FILE), answer.toml(p.exercise()));
            reveal(p, p.predict());
        } catch (IOException | Practice.RefusedException | Answer.NotFilledInException e) {
            host.tell("Not recorded: " + Saving.why(e));
        }
    }

    private void reveal(Practice p, Answer answer) {
        Score s = Score.of(p.exercise(), answer);
        StringBuilder w = new StringBuilder();
        told(w, "What you saw", s.saw());
        told(w, "What you missed", s.missed());
        told(w, "What you cried wolf about", s.cried());
        told(w, "Numbers", s.told());
        w.append(String.format(
                Locale.ROOT,
                "Detecting %s, explaining %s, predicting %s.%nScore %.2f of %.0f: hits %.2f, false alarms -%.2f,"
                        + " calibration %+.2f. This qualifies nobody.",
                percent(s.detecting()),
                percent(s.explaining()),
                percent(s.predicting()),
                s.total(),
                s.most(),
                s.hits(),
                s.falseAlarms(),
                s.calibration()));
        boolean over = p.exercise().afterTheFact();
        w.append(
                over
                        ? "\nAfter the fact there is nothing to mend; the bench shows what really ran."
                        : "\nNow mend it: edit job.toml or a program in " + p.folder()
                                + "; the bench follows. Then have the repair judged.");
        score.setText(w.toString());
        repair.setVisible(!over);
        show(false, true);
        host.bench(p.checked(), p.folder(), false);
    }

    private static void told(StringBuilder w, String head, List<String> lines) {
        w.append(head).append(lines.isEmpty() ? ": nothing.\n" : ":\n");
        lines.forEach(l -> w.append("- ").append(l).append('\n'));
        w.append('\n');
    }

    private static String percent(double share) {
        return Double.isNaN(share) ? "not asked" : String.format(Locale.ROOT, "%.0f %%", 100 * share);
    }

    private void judge() {
        Practice p = practice;
        if (p == null) {
            return;
        }
        repair.setEnabled(false);
        host.tell("Judging the repair ...");
        new SwingWorker<String, Void>() {
            @Override
            protected String doInBackground() throws Exception {
                List<String> changed = p.changedFacts();
                Practice.Repair r = p.judge(dryRun(onDisk(p)), dryRun(p.sound()));
                StringBuilder w = new StringBuilder();
                told(w, "Changed on paper, though it lies on the bench as it did (no repair)", changed);
                told(w, "Still there", r.remaining());
                told(w, "New faults", r.added());
                told(w, "No longer made", r.missing());
                boolean good = changed.isEmpty()
                        && r.remaining().isEmpty()
                        && r.added().isEmpty()
                        && r.missing().isEmpty();
                return w.append(good ? "Mended without new faults. " + Practice.READY : "Not mended yet.")
                        .toString();
            }

            @Override
            protected void done() {
                repair.setEnabled(true);
                try {
                    score.setText(get());
                    host.tell(" ");
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    host.tell("The repair cannot be judged: "
                            + (e.getCause() instanceof InputException i
                                    ? JobLoader.words(i).strip()
                                    : Saving.why(e.getCause())));
                }
            }
        }.execute();
    }

    private static ResultDocument dryRun(JobSource source) throws InputException {
        int threads = Runtime.getRuntime().availableProcessors();
        return DryRun.run(source, ReadOptions.DEFAULT, new ExamineOptions(CELL_MM, threads, (what, fraction) -> true))
                .document();
    }

    /** The exercise's files in a window beside the bench: job, programs, design files, the photo. */
    private void readFiles() {
        Practice p = practice;
        if (p == null) {
            return;
        }
        JTabbedPane tabs = new JTabbedPane();
        try (DirectoryStream<Path> all = Files.newDirectoryStream(p.folder())) {
            TreeSet<Path> files = new TreeSet<>();
            all.forEach(files::add);
            for (Path f : files) {
                String name = String.valueOf(f.getFileName());
                if (name.endsWith(".png")) {
                    tabs.insertTab(name, null, new JScrollPane(new JLabel(new ImageIcon(f.toString()))), null, 0);
                } else if (Files.isRegularFile(f) && !name.equals(Answer.FILE) && !name.equals("exercise.txt")) {
                    JTextArea text = new JTextArea(Files.readString(f, StandardCharsets.ISO_8859_1));
                    text.setFont(new Font(Font.MONOSPACED, Font.PLAIN, Px.of(13)));
                    text.setEditable(false);
                    text.setCaretPosition(0);
                    tabs.addTab(name, new JScrollPane(text));
                }
            }
        } catch (IOException e) {
            host.tell("The files cannot be read: " + Saving.why(e));
            return;
        }
        JDialog dialog = new JDialog(
                SwingUtilities.getWindowAncestor(this),
                "Files of exercise " + p.exercise().id());
        dialog.setContentPane(tabs);
        dialog.getRootPane()
                .registerKeyboardAction(
                        e -> dialog.dispose(), KeyStroke.getKeyStroke("ESCAPE"), JComponent.WHEN_IN_FOCUSED_WINDOW);
        dialog.setSize(Px.size(760, 620));
        dialog.setLocationRelativeTo(this);
        dialog.setVisible(true);
    }
}
