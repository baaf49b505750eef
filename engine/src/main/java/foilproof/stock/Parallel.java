package foilproof.stock;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.IntConsumer;
import java.util.function.Supplier;

/**
 * Runs independent pieces of work on a few threads. What a piece computes depends on its index alone, never on the
 * thread that runs it: so results are the same bytes for any number of threads.
 */
public final class Parallel {
    private Parallel() {}

    /** Threads used where a caller does not say: the processors of the machine. */
    public static int defaultThreads() {
        return Runtime.getRuntime().availableProcessors();
    }

    /**
     * Calls a worker for every index from 0 to {@code count - 1}, each exactly once, in no stated order.
     *
     * @param count how many pieces
     * @param threads how many threads, at least 1
     * @param workers makes one worker (with buffers of its own) for each thread
     * @throws java.util.concurrent.CancellationException where the calling thread is interrupted; it stays interrupted
     */
    public static void run(int count, int threads, Supplier<IntConsumer> workers) {
        int used = Math.max(1, Math.min(threads, count));
        AtomicInteger next = new AtomicInteger();
        AtomicReference<Throwable> failed = new AtomicReference<>();
        List<Thread> helpers = new ArrayList<>();
        for (int t = 1; t < used; t++) {
            Thread helper = new Thread(() -> drain(count, next, failed, workers), "foilproof-worker-" + t);
            helper.setDaemon(true);
            helper.start();
            helpers.add(helper);
        }
        drain(count, next, failed, workers);
        boolean interrupted = false;
        for (Thread helper : helpers) {
            interrupted |= joinFully(helper, next, count);
        }
        if (interrupted || Thread.currentThread().isInterrupted()) {
            Thread.currentThread().interrupt();
            throw new java.util.concurrent.CancellationException("interrupted");
        }
        Throwable failure = failed.get();
        if (failure instanceof RuntimeException runtime) {
            throw runtime;
        }
        if (failure instanceof Error error) {
            throw error;
        }
    }

    private static boolean joinFully(Thread helper, AtomicInteger next, int count) {
        boolean interrupted = false;
        while (true) {
            try {
                helper.join();
                return interrupted;
            } catch (InterruptedException e) {
                interrupted = true;
                next.set(count);
            }
        }
    }

    private static void drain(
            int count, AtomicInteger next, AtomicReference<Throwable> failed, Supplier<IntConsumer> workers) {
        Thread self = Thread.currentThread();
        try {
            IntConsumer worker = workers.get();
            for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
                worker.accept(i);
                if (self.isInterrupted()) {
                    next.set(count);
                }
            }
        } catch (RuntimeException | Error e) {
            failed.compareAndSet(null, e);
            next.set(count);
        }
    }
}
