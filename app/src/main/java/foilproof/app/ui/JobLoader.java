package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.Machine;
import foilproof.bench.ReadOptions;
import foilproof.bench.Side;
import foilproof.bench.Surface;
import foilproof.bench.Tool;
import foilproof.bench.Touch;
import foilproof.bench.WhatIf;
import foilproof.bench.XyMm;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Catalogue;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.stock.Memo;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicReference;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** Reads and runs jobs in the background: first the board to look at, then the findings, and again for what-ifs. */
final class JobLoader {
    /** A slider that rests for so long is asked; less would start work for every place that a drag passes. */
    private static final int SETTLE_MS = 12;

    /** Findings that are not judged again within this are shown as being judged. */
    private static final int LATE_MS = 150;

    /** What dry runs of one job may keep for one another: a third of what Java may take, at most 1 GiB. */
    private static final long MEMO_BYTES =
            Math.min(1L << 30, Runtime.getRuntime().maxMemory() / 3);

    /** Told how far the work is, and of failures, in words; on the event thread. */
    interface Teller {
        void working(@Nullable String what, double fraction);

        void failed(String words);

        void told(String words);
    }

    private final BenchModel model;
    private final ReadOptions options;
    private final Teller teller;
    private final Timer settle;
    private final Timer late;
    /** Checks one at a time: what was stopped makes way at its next step, and two at once would only slow each other. */
    private final ExecutorService checks = background("foilproof-checks");
    /** What the picture waits for does not wait for checks that were stopped. */
    private final ExecutorService drawn = background("foilproof-reads");

    /** What the dry runs of the job on the bench keep for one another; only replaced on the event thread. */
    private volatile Memo memo = new Memo(MEMO_BYTES);

    private @Nullable JobSource source;
    private @Nullable Work<?> running;
    /** The work that reads the job: nothing that is asked of the job before may stop it. */
    private @Nullable Work<?> reading;
    /** The work that looks for the findings of the job as it is. */
    private @Nullable Work<?> checking;

    JobLoader(BenchModel model, ReadOptions options, Teller teller) {
        this.model = model;
        this.options = options;
        this.teller = teller;
        settle = new Timer(SETTLE_MS, e -> runWhatIf());
        settle.setRepeats(false);
        late = new Timer(LATE_MS, e -> model.setWhatIfJudging(Catalogue.Partial.NOTHING));
        late.setRepeats(false);
        model.listen(c -> {
            if (c == BenchModel.Change.CONDITIONS) {
                settle.restart();
                late.restart();
            } else if (c == BenchModel.Change.RESULT || c == BenchModel.Change.JUDGING) {
                late.stop();
            }
        });
    }

    private static ExecutorService background(String name) {
        return Executors.newSingleThreadExecutor(task -> {
            Thread t = new Thread(task, name);
            t.setDaemon(true);
            return t;
        });
    }

    /** A piece of work that may be stopped; works in the background, tells on the event thread. */
    private abstract class Work<T> implements Runnable {
        private final AtomicReference<@Nullable Step> step = new AtomicReference<>();
        private volatile boolean stopped;

        ExamineOptions examine() {
            return new ExamineOptions(
                            ExamineOptions.DEFAULT_CELL_MM,
                            Runtime.getRuntime().availableProcessors(),
                            (what, fraction) -> {
                                // Steps follow one another faster than anybody reads: only the newest is shown.
                                if (step.getAndSet(new Step(what, fraction)) == null) {
                                    SwingUtilities.invokeLater(this::show);
                                }
                                return !stopped;
                            })
                    .with(memo);
        }

        private void show() {
            Step last = step.getAndSet(null);
            if (last != null && running == this) {
                teller.working(last.what(), last.fraction());
            }
        }

        /** On the event thread, while this is what is wanted; nothing otherwise. */
        void tell(Runnable words) {
            SwingUtilities.invokeLater(() -> {
                if (running == this && !stopped) {
                    words.run();
                }
            });
        }

        void stop() {
            stopped = true;
        }

        abstract T make() throws InputException;

        abstract void finished(T value);

        abstract void broken(Throwable cause);

        @Override
        public void run() {
            if (stopped) {
                return;
            }
            try {
                T value = make();
                SwingUtilities.invokeLater(() -> ended(() -> finished(value)));
            } catch (CancellationException e) {
                // Stopped by the person or by newer work: what was there stays.
                SwingUtilities.invokeLater(() -> ended(() -> {}));
            } catch (InputException | RuntimeException | Error e) {
                SwingUtilities.invokeLater(() -> ended(() -> broken(e)));
            }
        }

        private void ended(Runnable then) {
            if (running != this) {
                return;
            }
            running = null;
            if (reading == this) {
                reading = null;
            }
            teller.working(null, 0);
            if (stopped) {
                teller.told("Stopped: what was not judged yet stands as it was before.");
            } else {
                then.run();
            }
        }
    }

    /** How far work is. */
    private record Step(String what, double fraction) {}

    /** Stops whatever runs. */
    void cancel() {
        settle.stop();
        if (running != null) {
            running.stop();
        }
    }

    private void start(Work<?> work, String what, ExecutorService on) {
        cancel();
        running = work;
        teller.working(what, 0);
        on.execute(work);
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
        if (!keepView) {
            memo = new Memo(MEMO_BYTES);
        }
        Work<JobScene> work = new Work<>() {
            @Override
            JobScene make() throws InputException {
                return new JobScene(Examiner.ground(JobReader.read(from, options), examine()));
            }

            @Override
            void finished(JobScene scene) {
                model.setScene(scene, keepView);
                if (!model.blind()) {
                    check(from);
                }
            }

            @Override
            void broken(Throwable cause) {
                teller.failed(words(cause));
            }
        };
        start(work, "Reading the job", drawn);
        reading = work;
    }

    private void check(JobSource from) {
        Work<DryRunResult> work = new Work<>() {
            @Override
            DryRunResult make() throws InputException {
                return DryRun.run(from, options, examine(), partial -> tell(() -> model.setJudging(partial)));
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
        };
        start(work, "Checking", checks);
        checking = work;
    }

    /** Sweeps again where the what-if asks for it, then looks for findings. */
    private void runWhatIf() {
        JobScene scene = model.scene();
        // A job that is being read is asked once its own findings are there.
        if (scene == null || reading != null) {
            return;
        }
        BenchModel.Swept wanted = model.whatIf().swept();
        if (wanted.equals(BenchModel.Swept.NONE)) {
            model.setSweptScene(null, wanted);
            findWhatIf();
        } else if (wanted.equals(model.sweptFor()) && model.drawnScene() != scene) {
            findWhatIf();
        } else {
            sweep(scene, wanted);
        }
    }

    private void sweep(JobScene scene, BenchModel.Swept wanted) {
        start(
                new Work<JobScene>() {
                    @Override
                    JobScene make() throws InputException {
                        return new JobScene(Examiner.ground(sweptJob(scene, wanted), examine()));
                    }

                    @Override
                    void finished(JobScene made) {
                        if (model.scene() == scene) {
                            model.setSweptScene(made, wanted);
                            findWhatIf();
                        }
                    }

                    @Override
                    void broken(Throwable cause) {
                        teller.told(
                                "This what-if cannot be swept: " + words(cause).strip());
                        if (model.result() == null) {
                            findWhatIf();
                        }
                    }
                },
                "Sweeping again",
                drawn);
    }

    private void findWhatIf() {
        JobScene scene = model.scene();
        JobSource from = source;
        if (scene == null || from == null || model.blind()) {
            return;
        }
        if (model.result() == null) {
            // A sweep may have taken the place of the job's own checks: they come first, and then this again.
            if (running == null || running != checking) {
                check(from);
            }
            return;
        }
        BenchModel.WhatIf w = model.whatIf();
        if (w.equals(BenchModel.WhatIf.NONE)) {
            cancel();
            running = null;
            teller.working(null, 0);
            model.setWhatIfResult(null);
            return;
        }
        Job job = whatIfJob(scene, w);
        start(
                new Work<DryRunResult>() {
                    @Override
                    DryRunResult make() throws InputException {
                        return DryRun.run(job, examine(), partial -> tell(() -> model.setWhatIfJudging(partial)));
                    }

                    @Override
                    void finished(DryRunResult result) {
                        model.setWhatIfResult(result);
                    }

                    @Override
                    void broken(Throwable cause) {
                        model.setWhatIfResult(null);
                        teller.told(
                                "The what-if cannot be checked: " + words(cause).strip());
                    }
                },
                "Checking the what-if",
                checks);
    }

    /** The job with the what-ifs that findings can answer; a run that is left out is a question to the picture alone. */
    static Job whatIfJob(JobScene scene, BenchModel.WhatIf w) {
        Job job = sweptJob(scene, w.swept());
        WhatIf asked = job.whatIf();
        Map<Integer, Double> errors = new TreeMap<>(asked.runZMm());
        w.zErrorMm().forEach((run, mm) -> errors.merge(run, mm, Double::sum));
        Job changed = job.withWhatIf(new WhatIf(
                asked.zErrorMm(),
                asked.bowMm() + w.bowMm(),
                asked.inCollet(),
                asked.programUnits(),
                asked.programZMm(),
                errors,
                asked.moved()));
        if (!Double.isNaN(w.foilMm())) {
            changed = changed.withBlank(changed.blank().withFoil(w.foilMm()));
        }
        if (w.thicknessChangeMm() != 0) {
            changed = changed.withBlank(
                    changed.blank().withThickness(changed.blank().thicknessMm() + w.thicknessChangeMm()));
        }
        return changed;
    }

    /** The job with everything that is swept again: surface, backlash, runout, tips, collet, programs, zero. */
    static Job sweptJob(JobScene scene, BenchModel.Swept w) {
        if (w.equals(BenchModel.Swept.NONE)) {
            return scene.job();
        }
        Job job = WorkChange.of(scene.job(), w.work());
        List<Tool> tools = new ArrayList<>();
        for (Tool t : job.tools()) {
            Double tip = w.tipMm().get(t.name());
            Double runout = w.runoutMm().get(t.name());
            Tool changed = tip == null ? t : t.withTipWidth(tip);
            tools.add(runout == null ? changed : changed.withRunout(runout));
        }
        List<Side> sides = new ArrayList<>();
        for (Side s : job.sides()) {
            sides.add(s.withSurface(surface(scene, s, w)));
        }
        Map<Integer, String> collet = new TreeMap<>(job.whatIf().inCollet());
        collet.putAll(w.inCollet());
        Machine m = job.machine();
        XyMm lost = new XyMm(
                Double.isNaN(w.backlashXMm()) ? m.backlashMm().xMm() : w.backlashXMm(),
                Double.isNaN(w.backlashYMm()) ? m.backlashMm().yMm() : w.backlashYMm());
        return new Job(
                job.name(),
                job.file(),
                job.blank(),
                job.spoilBoard(),
                m.withBacklash(lost),
                job.spread(),
                tools,
                sides,
                job.keepOuts(),
                job.design(),
                job.nets(),
                job.joins(),
                job.limits(),
                new WhatIf(
                        job.whatIf().zErrorMm(),
                        job.whatIf().bowMm(),
                        collet,
                        job.whatIf().programUnits(),
                        job.whatIf().programZMm(),
                        job.whatIf().runZMm(),
                        job.whatIf().moved()),
                job.assumed(),
                job.inputs());
    }

    private static Surface surface(JobScene scene, Side side, BenchModel.Swept w) {
        if (w.lies()) {
            return side.surface();
        }
        double wide = scene.ground().stock().blank().widthMm();
        double high = scene.ground().stock().blank().heightMm();
        var lies = scene.ground().stock().sides().get(side.number() - 1).surface();
        int n = 17;
        List<Touch> touches = new ArrayList<>();
        for (int j = 0; j < n; j++) {
            for (int i = 0; i < n; i++) {
                double u = i / (n - 1.0);
                double v = j / (n - 1.0);
                double z = lies.heightMm(u * wide, v * high) + w.heightMm(u, v);
                touches.add(new Touch(u * wide, v * high, z));
            }
        }
        return new Surface(touches);
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
