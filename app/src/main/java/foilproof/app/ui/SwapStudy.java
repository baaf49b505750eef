package foilproof.app.ui;

import foilproof.bench.Tool;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Finding;
import foilproof.findings.RunFacts;
import foilproof.report.HumanText;
import foilproof.study.BestDepth;
import foilproof.study.Change;
import foilproof.study.Odds;
import foilproof.study.Study;
import java.awt.FlowLayout;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** Every swap of two cutters, other blanks, the odds and the best depths, worked out in the background. */
final class SwapStudy extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient BenchModel model;
    private final JButton go = new JButton("Study swaps and odds");
    private final JButton stop = new JButton("Stop");
    private final Wrapped state = new Wrapped("Runs the job again for every pair of cutters and other blanks.");
    private final JPanel told = ConditionsPanel.column();
    private transient @Nullable Run running;

    SwapStudy(BenchModel model) {
        this.model = model;
        setLayout(new javax.swing.BoxLayout(this, javax.swing.BoxLayout.Y_AXIS));
        setAlignmentX(LEFT_ALIGNMENT);
        JLabel title = new JLabel("Every swap, and the odds");
        title.putClientProperty("FlatLaf.styleClass", "h4");
        title.setAlignmentX(LEFT_ALIGNMENT);
        add(title);
        JPanel row = new JPanel(new FlowLayout(FlowLayout.LEFT, 3, 2));
        row.setAlignmentX(LEFT_ALIGNMENT);
        go.setName("study swaps");
        stop.setName("stop study");
        stop.setVisible(false);
        row.add(go);
        row.add(stop);
        row.setMaximumSize(Px.size(10_000, 36));
        add(row);
        state.setName("study state");
        add(state);
        told.setName("study told");
        add(told);
        go.addActionListener(e -> start());
        stop.addActionListener(e -> cancel());
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                cancel();
                told.removeAll();
                told.revalidate();
                state.setText("Runs the job again for every pair of cutters and other blanks.");
            }
        });
    }

    /** Stops what runs. */
    void cancel() {
        Run r = running;
        if (r != null) {
            r.stopped = true;
            running = null;
            state.setText("Stopped.");
            buttons(false);
        }
    }

    private void buttons(boolean busy) {
        go.setEnabled(!busy);
        stop.setVisible(busy);
    }

    private void start() {
        DryRunResult base = model.result();
        if (base == null) {
            state.setText("The job is still being checked.");
            return;
        }
        cancel();
        Run r = new Run(base);
        running = r;
        buttons(true);
        state.setText("Studying ...");
        r.execute();
    }

    private final class Run extends SwingWorker<Study, String> {
        private final DryRunResult base;
        private volatile boolean stopped;

        Run(DryRunResult base) {
            this.base = base;
        }

        @Override
        protected Study doInBackground() {
            return Study.of(base.examination(), base.document().findings(), (what, fraction) -> {
                publish(what);
                return !stopped;
            });
        }

        @Override
        protected void process(List<String> chunks) {
            if (running == this) {
                state.setText("Studying: " + chunks.get(chunks.size() - 1) + " ...");
            }
        }

        @Override
        protected void done() {
            if (running != this) {
                return;
            }
            running = null;
            buttons(false);
            try {
                tell(get());
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            } catch (ExecutionException e) {
                state.setText(
                        e.getCause() instanceof CancellationException
                                ? "Stopped."
                                : "The study failed: " + (e.getCause() == null ? e : e.getCause()));
            }
        }
    }

    private void tell(Study s) {
        told.removeAll();
        state.setText("Against the job as it is; notes left out.");
        List<Swap> swaps = swaps();
        for (int i = 0; i < s.swaps().size(); i++) {
            change(s.swaps().get(i), i < swaps.size() ? swaps.get(i) : null);
        }
        if (s.swaps().isEmpty()) {
            words("Fewer than two cutters cut in this job: nothing to swap.");
        }
        s.variations().forEach(v -> change(v, null));
        odds(s.odds());
        for (BestDepth b : s.best()) {
            words(String.format(
                    Locale.ROOT,
                    "Run %d, %s: widest margin %+.3f mm with %s%s.",
                    b.run() + 1,
                    b.tool(),
                    b.marginMm(),
                    b.shiftMm() == 0
                            ? "the depth as it is"
                            : String.format(
                                    Locale.ROOT,
                                    "%.3f mm %s",
                                    Math.abs(b.shiftMm()),
                                    b.shiftMm() > 0 ? "deeper" : "shallower"),
                    b.marginMm() < 0 ? "; no depth works: flatten the blank or map its height" : ""));
        }
        s.notStudied().forEach(n -> words("Not studied: " + n + "."));
        told.revalidate();
        told.repaint();
    }

    private void odds(@Nullable Odds odds) {
        if (odds == null) {
            words("Odds: no run has a Z window.");
            return;
        }
        StringBuilder w = new StringBuilder(String.format(
                Locale.ROOT,
                "Odds: %.1f %% of %d seeded set-ups within your spread stay within every Z window (relative).",
                100.0 * odds.good() / odds.trials(),
                odds.trials()));
        for (int i = 0; i < Math.min(3, odds.causes().size()); i++) {
            Odds.Cause c = odds.causes().get(i);
            w.append(String.format(
                    Locale.ROOT,
                    " %s alone decides %.0f %% of the failures.",
                    c.what(),
                    100.0 * c.failures() / Math.max(1, odds.trials() - odds.good())));
        }
        words(w.toString());
    }

    private void words(String words) {
        Wrapped w = new Wrapped(words);
        w.setBorder(Px.pad(5, 0, 0, 0));
        told.add(w);
    }

    private void change(Change c, @Nullable Swap swap) {
        StringBuilder w = new StringBuilder(c.what()).append(": ");
        int n = c.appeared().stream().mapToInt(Change.Count::count).sum();
        int gone = c.gone().stream().mapToInt(Change.Count::count).sum();
        w.append(n == 0 ? "nothing new" : n + " new (" + counts(c.appeared()) + ")")
                .append(gone == 0 ? "" : ", " + gone + " gone")
                .append('.');
        Finding first = c.first();
        if (first != null) {
            w.append(" First: ")
                    .append(first.kind())
                    .append(", ")
                    .append(HumanText.where(first))
                    .append('.');
        }
        if (swap != null && c.onlyEyes()) {
            w.append(" DANGEROUS: nothing at fix or stop tells of it, only eyes would catch it.");
        }
        words(w.toString());
        if (swap != null) {
            JButton b = new JButton("Show this swap");
            b.setName("swap " + swap.a().name() + " " + swap.b().name());
            b.setMargin(new java.awt.Insets(1, 6, 1, 6));
            b.setAlignmentX(LEFT_ALIGNMENT);
            b.addActionListener(e -> show(swap));
            told.add(b);
        }
    }

    private static String counts(List<Change.Count> counts) {
        StringBuilder s = new StringBuilder();
        for (Change.Count c : counts) {
            s.append(s.length() == 0 ? "" : ", ")
                    .append(c.severity().word())
                    .append(' ')
                    .append(c.kind())
                    .append(c.count() == 1 ? "" : " x " + c.count());
        }
        return s.toString();
    }

    private record Swap(Tool a, Tool b) {}

    /** The pairs that are studied, in the study's own order; those without T words are left out of the picture. */
    private List<Swap> swaps() {
        DryRunResult r = model.result();
        Set<Tool> fitted = new LinkedHashSet<>();
        for (RunFacts run : r == null ? List.<RunFacts>of() : r.examination().runs()) {
            Tool t = run.tool() == null
                    ? null
                    : r == null ? null : r.examination().job().toolNamed(run.toolName());
            if (t != null && r != null && r.examination().cuts(run)) {
                fitted.add(t);
            }
        }
        List<Tool> list = new ArrayList<>(fitted);
        List<Swap> all = new ArrayList<>();
        for (int i = 0; i < list.size(); i++) {
            for (int j = i + 1; j < list.size(); j++) {
                all.add(new Swap(list.get(i), list.get(j)));
            }
        }
        return all;
    }

    private void show(Swap s) {
        if (s.a().number().isEmpty() || s.b().number().isEmpty()) {
            state.setText(
                    "A cutter without a T word is called for by name: the study tells of it, the picture cannot.");
            return;
        }
        BenchModel.Swept w = model.whatIf()
                .swept()
                .withCollet(s.a().number().getAsInt(), s.b().name())
                .withCollet(s.b().number().getAsInt(), s.a().name());
        model.setWhatIf(model.whatIf().withSwept(w));
    }
}
