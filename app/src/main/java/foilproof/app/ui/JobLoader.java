package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.bench.WhatIf;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.RunFacts;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import javax.swing.SwingWorker;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** Reads and runs jobs in the background: first the board to look at, then the findings, and again for what-ifs. */
final class JobLoader {
    private static final int SETTLE_MS = 350;

    /** Told how far the work is, and of failures, in words; on the event thread. */
    interface Teller {
        void working(@Nullable String what, double fraction);

        void failed(String words);
    }

    private final BenchModel model;
    private final ReadOptions options;
    private final Teller teller;
    private final Timer settle;
    private @Nullable JobSource source;
    private @Nullable Work<?> running;

    JobLoader(BenchModel model, ReadOptions options, Teller teller) {
        this.model = model;
        this.options = options;
        this.teller = teller;
        settle = new Timer(SETTLE_MS, e -> runWhatIf());
        settle.setRepeats(false);
        model.listen(c -> {
            if (c == BenchModel.Change.CONDITIONS) {
                settle.restart();
            }
        });
    }

    /** A piece of work that may be stopped. */
    private abstract class Work<T> extends SwingWorker<T, Object[]> {
        private volatile boolean stopped;

        ExamineOptions examine() {
            return new ExamineOptions(
                    ExamineOptions.DEFAULT_CELL_MM, Runtime.getRuntime().availableProcessors(), (what, fraction) -> {
                        publish(new Object[] {what, fraction});
                        return !stopped;
                    });
        }

        void stop() {
            stopped = true;
        }

        @Override
        protected void process(java.util.List<Object[]> chunks) {
            if (running == this) {
                Object[] last = chunks.get(chunks.size() - 1);
                teller.working((String) last[0], (Double) last[1]);
            }
        }

        abstract void finished(T value);

        abstract void broken(Throwable cause);

        @Override
        protected void done() {
            if (running != this) {
                return;
            }
            running = null;
            teller.working(null, 0);
            try {
                T value = get();
                if (!stopped) {
                    finished(value);
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            } catch (CancellationException e) {
                // Stopped by the person: what was there stays.
            } catch (ExecutionException e) {
                Throwable cause = e.getCause() == null ? e : e.getCause();
                if (!(cause instanceof CancellationException)) {
                    broken(cause);
                }
            }
        }
    }

    /** Stops whatever runs. */
    void cancel() {
        settle.stop();
        if (running != null) {
            running.stop();
        }
    }

    private void start(Work<?> work, String what) {
        cancel();
        running = work;
        teller.working(what, 0);
        work.execute();
    }

    /** Reads the same job again, keeping camera and moment. */
    void reload() {
        if (source != null) {
            load(source, true);
        }
    }

    /** Puts a job on the bench. */
    void load(JobSource from, boolean keepView) {
        source = from;
        start(
                new Work<JobScene>() {
                    @Override
                    protected JobScene doInBackground() throws InputException {
                        return new JobScene(Examiner.ground(JobReader.read(from, options), examine()));
                    }

                    @Override
                    void finished(JobScene scene) {
                        model.setScene(scene, keepView);
                        check(scene.job());
                    }

                    @Override
                    void broken(Throwable cause) {
                        teller.failed(words(cause));
                    }
                },
                "Reading the job");
    }

    private void check(Job job) {
        start(
                new Work<DryRunResult>() {
                    @Override
                    protected DryRunResult doInBackground() throws InputException {
                        return DryRun.run(job, examine());
                    }

                    @Override
                    void finished(DryRunResult result) {
                        model.setResult(result);
                        if (!model.whatIf().equals(BenchModel.WhatIf.NONE)) {
                            runWhatIf();
                        }
                    }

                    @Override
                    void broken(Throwable cause) {
                        teller.failed(words(cause));
                    }
                },
                "Checking");
    }

    private void runWhatIf() {
        JobScene scene = model.scene();
        if (scene == null || model.result() == null) {
            return;
        }
        BenchModel.WhatIf w = model.whatIf();
        if (w.equals(BenchModel.WhatIf.NONE)) {
            cancel();
            model.setWhatIfResult(null);
            return;
        }
        Job job = whatIfJob(scene, w);
        start(
                new Work<DryRunResult>() {
                    @Override
                    protected DryRunResult doInBackground() throws InputException {
                        return DryRun.run(job, examine());
                    }

                    @Override
                    void finished(DryRunResult result) {
                        model.setWhatIfResult(result);
                    }

                    @Override
                    void broken(Throwable cause) {
                        model.setWhatIfResult(null);
                    }
                },
                "Checking the what-if");
    }

    /** The job with the what-ifs that findings can answer; a run that is left out is a question to the picture alone. */
    static Job whatIfJob(JobScene scene, BenchModel.WhatIf w) {
        Job job = scene.job();
        Map<String, Double> errors = new TreeMap<>(job.whatIf().zErrorMm());
        for (RunFacts r : scene.ground().runs()) {
            Double e = w.zErrorMm().get(r.run().index());
            if (e != null) {
                errors.merge(r.toolName(), e, Double::sum);
            }
        }
        Job changed = job.withWhatIf(new WhatIf(
                errors, job.whatIf().bowMm() + w.bowMm(), job.whatIf().inCollet()));
        if (!Double.isNaN(w.foilMm())) {
            changed = changed.withBlank(changed.blank().withFoil(w.foilMm()));
        }
        if (w.thicknessChangeMm() != 0) {
            changed = changed.withBlank(
                    changed.blank().withThickness(changed.blank().thicknessMm() + w.thicknessChangeMm()));
        }
        return changed;
    }

    /** A failure in words. */
    static String words(Throwable cause) {
        if (cause instanceof InputException e) {
            StringBuilder s = new StringBuilder();
            for (Diagnostic d : e.diagnostics()) {
                s.append(d.render()).append("\n\n");
            }
            return s.toString();
        }
        if (cause instanceof OutOfMemoryError) {
            return "There is not enough memory for this job; use a larger cell or start with more (-Xmx2g).";
        }
        return "A fault of ours: " + cause + "\nThe command line (dryrun) may still tell more.";
    }
}
