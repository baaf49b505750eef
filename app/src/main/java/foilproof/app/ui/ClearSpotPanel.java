package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.JobReader;
import foilproof.bench.KeepOut;
import foilproof.bench.ReadOptions;
import foilproof.motion.MotionPlanner;
import foilproof.source.InputException;
import java.awt.FlowLayout;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import javax.swing.BoxLayout;
import javax.swing.JButton;
import javax.swing.JFileChooser;
import javax.swing.JPanel;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** The nearest clear spot: beside what this very job cuts, or beside what another job has cut on the blank before. */
final class ClearSpotPanel extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient BenchModel model;
    private final Wrapped says = new Wrapped(" ");

    ClearSpotPanel(BenchModel model) {
        this.model = model;
        setLayout(new BoxLayout(this, BoxLayout.Y_AXIS));
        setAlignmentX(LEFT_ALIGNMENT);
        says.setName("clear spot says");
        JPanel row = new JPanel(new FlowLayout(FlowLayout.LEFT, 3, 2));
        row.setAlignmentX(LEFT_ALIGNMENT);
        row.add(button(
                "Once more beside it", "clear spot again", "the nearest place for a second board on this blank", () -> {
                    JobScene s = model.scene();
                    if (s != null) {
                        search(JobFootprint.of(s.job(), s.ground().plan()), "what this job cuts as it stands");
                    }
                }));
        row.add(button(
                "Blank used by ...",
                "clear spot used",
                "choose the job that was cut on this blank before: the nearest place that it left free",
                this::choose));
        row.setMaximumSize(Px.size(10_000, 36));
        add(row);
        add(says);
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                says.setText(" ");
            }
        });
    }

    private static JButton button(String words, String name, String tip, Runnable work) {
        JButton b = new JButton(words);
        b.setName(name);
        b.setToolTipText(tip);
        b.setMargin(new java.awt.Insets(1, 6, 1, 6));
        b.addActionListener(e -> work.run());
        return b;
    }

    private void choose() {
        JFileChooser chooser = new JFileChooser();
        chooser.setFileSelectionMode(JFileChooser.FILES_AND_DIRECTORIES);
        chooser.setDialogTitle("Which job was cut on this blank before?");
        if (chooser.showOpenDialog(this) == JFileChooser.APPROVE_OPTION) {
            usedBy(chooser.getSelectedFile().toPath());
        }
    }

    /** Searches beside what the job at a path has cut. */
    void usedBy(Path path) {
        says.setText("Reading that job ...");
        new SwingWorker<JobFootprint, Void>() {
            @Override
            protected JobFootprint doInBackground() throws InputException {
                Job job = JobReader.read(DiskFiles.source(path), ReadOptions.DEFAULT);
                return JobFootprint.of(job, MotionPlanner.plan(job));
            }

            @Override
            protected void done() {
                try {
                    JobFootprint before = get();
                    search(before, "what \"" + before.job().name() + "\" has cut");
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    says.setText("That job cannot be read: "
                            + JobLoader.words(e.getCause() == null ? e : e.getCause())
                                    .strip());
                }
            }
        }.execute();
    }

    private void search(JobFootprint before, String what) {
        JobScene s = model.scene();
        if (s == null) {
            return;
        }
        says.setText("Searching ...");
        BenchModel.Work w = model.whatIf().swept().work();
        JobMove from = w.move(s.job()).none()
                ? new JobMove(
                        0,
                        0,
                        0,
                        JobFootprint.pivot(s.job()).xMm(),
                        JobFootprint.pivot(s.job()).yMm())
                : w.move(s.job());
        new SwingWorker<@Nullable JobMove, Void>() {
            @Override
            protected @Nullable JobMove doInBackground() {
                ClearSpot spot =
                        new ClearSpot(s.job().blank().widthMm(), s.job().blank().heightMm());
                spot.use(before.seenFromFirst(JobMove.NONE));
                List<KeepOut> standing = s.job().keepOuts();
                standing.forEach(spot::use);
                return spot.nearest(JobFootprint.of(s.job(), s.ground().plan()), from);
            }

            @Override
            protected void done() {
                try {
                    told(get(), w, what);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    says.setText("The search failed: " + e.getCause());
                }
            }
        }.execute();
    }

    private void told(@Nullable JobMove found, BenchModel.Work w, String what) {
        String apart = String.format(
                Locale.ROOT,
                "%.1f mm from %s and from clamps, %.1f mm from the edges",
                ClearSpot.APART_MM,
                what,
                ClearSpot.EDGE_MM);
        if (found == null) {
            says.setText("No clear spot with this turn, " + apart + ". Try another angle.");
            return;
        }
        says.setText(String.format(
                Locale.ROOT,
                "Nearest clear spot: zero moved by X %+.2f, Y %+.2f mm from the job's own; %s. Both are taken to lie"
                        + " against the blank's lower-left corner.",
                found.xMm(),
                found.yMm(),
                apart));
        model.setWhatIf(
                model.whatIf().withSwept(model.whatIf().swept().withWork(w.withZero(found.xMm(), found.yMm()))));
    }
}
