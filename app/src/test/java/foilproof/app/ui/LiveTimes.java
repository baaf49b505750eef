package foilproof.app.ui;

import foilproof.bench.DiskFiles;
import foilproof.bench.ReadOptions;
import foilproof.findings.Catalogue;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * Prints how long the window's findings and picture take after a slider moved and after a line of a program was edited:
 * {@code LiveTimes FOLDER PROGRAM ROUNDS [WHAT]}, where WHAT holds the words of the sliders to be moved, all where it is
 * left out. The folder holds a job that may be written to. Drives {@link JobLoader} and
 * {@link BenchModel} on the event thread, without a window.
 */
final class LiveTimes {
    private static final long MOST_NANOS = 120_000_000_000L;

    private final BenchModel model = new BenchModel();
    private final JobLoader loader = new JobLoader(model, ReadOptions.DEFAULT, new JobLoader.Teller() {
        @Override
        public void working(@Nullable String what, double fraction) {}

        @Override
        public void failed(String words) {
            System.out.println("failed: " + words);
        }

        @Override
        public void told(String words) {
            System.out.println("told: " + words);
        }
    });
    private final int rounds;
    private final String what;
    private long began;
    private double first = Double.NaN;
    private double board = Double.NaN;

    private LiveTimes(int rounds, String what) {
        this.rounds = rounds;
        this.what = what;
        model.listen(c -> {
            double ms = (System.nanoTime() - began) / 1e6;
            if ((c == BenchModel.Change.RESULT || c == BenchModel.Change.JUDGING && found()) && Double.isNaN(first)) {
                first = ms;
            } else if (c == BenchModel.Change.BOARD && model.board() != null && Double.isNaN(board)) {
                board = ms;
            }
        });
    }

    /** Whether checks were through with something: the list that says that all is to be judged again does not count. */
    private boolean found() {
        var base = model.judging();
        var now = model.whatIfJudging();
        return now != null ? now != Catalogue.Partial.NOTHING : base != null && base != Catalogue.Partial.NOTHING;
    }

    /** Measures one job. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        LiveTimes times = new LiveTimes(
                Integer.parseInt(args[2]), args.length > 3 ? args[3] : "Z error of run 0, bow, foil, thickness, tilt");
        times.load(folder);
        times.sliders();
        times.edits(folder.resolve(args[1]));
        long peak = 0;
        for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
            peak += pool.getType() == MemoryType.HEAP ? pool.getPeakUsage().getUsed() : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "heap: sum of the pools' peaks %d MB, at most %d MB%n",
                peak >> 20,
                Runtime.getRuntime().maxMemory() >> 20);
        System.exit(0);
    }

    private double await(Runnable change, BooleanSupplier there) throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        double[] ms = new double[1];
        SwingUtilities.invokeAndWait(() -> {
            first = Double.NaN;
            board = Double.NaN;
            began = System.nanoTime();
            change.run();
        });
        Thread waiting = new Thread(
                () -> {
                    boolean[] is = new boolean[1];
                    while (!is[0] && System.nanoTime() - began < MOST_NANOS) {
                        try {
                            SwingUtilities.invokeAndWait(() -> is[0] = there.getAsBoolean());
                            ms[0] = (System.nanoTime() - began) / 1e6;
                            Thread.sleep(1);
                        } catch (InterruptedException | java.lang.reflect.InvocationTargetException e) {
                            throw new IllegalStateException(e);
                        }
                    }
                    done.countDown();
                },
                "waiting");
        waiting.start();
        done.await();
        return ms[0];
    }

    private void load(Path folder) throws Exception {
        var source = DiskFiles.source(folder);
        double all = await(() -> loader.load(source, false), () -> model.result() != null && model.board() != null);
        say("first load", board, first, all);
    }

    private static void say(String what, double board, double first, double all) {
        System.out.printf(
                Locale.ROOT,
                "%-26s picture %6.0f  first findings %6.0f  all findings %6.0f ms%n",
                what,
                board,
                first,
                all);
    }

    private void sliders() throws Exception {
        move("Z error of run 0", k -> w -> w.withZError(0, 0.005 * (k + 1) * (k % 2 == 0 ? 1 : -1)));
        move("bow", k -> w -> w.withBow(0.01 * (k + 1)));
        move("foil", k -> w -> w.withFoil(k % 2 == 0 ? 0.0348 : 0.0174));
        move("thickness", k -> w -> w.withThicknessChange(0.01 * (k + 1)));
        move("tilt", k -> w -> w.withSwept(w.swept().withTilt(0.01 * (k + 1), 0)));
        await(() -> model.setWhatIf(BenchModel.WhatIf.NONE), () -> model.whatIfResult() == null);
    }

    private interface Move {
        UnaryOperator<BenchModel.WhatIf> at(int round);
    }

    private void move(String slider, Move move) throws Exception {
        if (!what.contains(slider)) {
            return;
        }
        double[] firsts = new double[rounds];
        double[] alls = new double[rounds];
        for (int k = 0; k < rounds; k++) {
            BenchModel.WhatIf to = move.at(k).apply(BenchModel.WhatIf.NONE);
            Object was = model.whatIfResult();
            alls[k] = await(() -> model.setWhatIf(to), () -> model.whatIfResult() != was);
            firsts[k] = first;
        }
        said(slider, new double[] {Double.NaN}, firsts, alls);
    }

    private void edits(Path program) throws Exception {
        FileWatch watch = new FileWatch(model, loader::reload);
        SwingUtilities.invokeAndWait(() -> {
            watch.watch(program.getParent());
            loader.reload();
        });
        Thread.sleep(500);
        await(() -> {}, () -> model.result() != null && model.board() != null);
        String[] lines = Files.readString(program, StandardCharsets.ISO_8859_1).split("\n");
        String before = String.join("\n", lines) + "\n";
        double[] boards = new double[rounds];
        double[] firsts = new double[rounds];
        double[] alls = new double[rounds];
        for (int k = 0; k < rounds; k++) {
            int at = lines.length * (k + 1) / (rounds + 2);
            while (!lines[at].matches("G1 X[0-9.]+.*")) {
                at++;
            }
            String was = lines[at];
            double x = Double.parseDouble(was.replaceAll("^G1 X([0-9.]+).*$", "$1"));
            lines[at] = was.replaceFirst("X[0-9.]+", String.format(Locale.ROOT, "X%.4f", x + 0.05));
            Files.writeString(program, String.join("\n", lines) + "\n", StandardCharsets.ISO_8859_1);
            Object scene = model.scene();
            alls[k] = await(
                    loader::reload, () -> model.scene() != scene && model.result() != null && model.board() != null);
            boards[k] = board;
            firsts[k] = first;
        }
        SwingUtilities.invokeAndWait(watch::stop);
        write(program, before);
        said("edited line", boards, firsts, alls);
    }

    private static void said(String what, double[] boards, double[] firsts, double[] alls) {
        say(what + ", first", boards[0], firsts[0], alls[0]);
        say(what + ", median", median(boards), median(firsts), median(alls));
        System.out.println("    all: "
                + Arrays.toString(Arrays.stream(alls).mapToLong(Math::round).toArray()));
    }

    private static void write(Path file, String text) {
        try {
            Files.writeString(file, text, StandardCharsets.ISO_8859_1);
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static double median(double[] of) {
        double[] sorted = of.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}
