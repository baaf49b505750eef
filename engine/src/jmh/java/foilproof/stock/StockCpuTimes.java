package foilproof.stock;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.util.Locale;

/**
 * The figures of {@link SweepBenchmark} as processor time instead of wall time: least of several rounds, all threads of
 * the process together, the compiler's and the collector's included. For machines that have other work to do, where wall
 * time says nothing. Arguments: cell in um, rounds.
 */
public final class StockCpuTimes {
    private static final OperatingSystemMXBean SYSTEM =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private StockCpuTimes() {}

    /** Prints one line a figure. */
    public static void main(String[] arguments) {
        SweepBenchmark bench = new SweepBenchmark();
        bench.cellUm = Integer.parseInt(arguments[0]);
        bench.threads = 2;
        int rounds = Integer.parseInt(arguments[1]);
        long start = SYSTEM.getProcessCpuTime();
        bench.make();
        print("first sweep, fresh process", (SYSTEM.getProcessCpuTime() - start) / 1e6);
        print("sweep", least(rounds, 1, bench::sweep));
        print("memory floor", least(rounds, 20, bench::memoryFloor));
        print("sweep of a hundredth", least(rounds, 20, bench::sweepHundredth));
        print("stamping of a hundredth", least(3, 2, bench::stampHundredth));
        print("replay", least(rounds, 1, bench::replay));
        print("volumes removed", least(rounds, 1, bench::removed));
        bench.scrub();
        print("state at a moment", least(rounds, 20, bench::scrub));
    }

    private static void print(String what, double cpuMs) {
        System.out.printf(Locale.ROOT, "%-28s %10.2f ms of processor time%n", what, cpuMs);
    }

    private static double least(int rounds, int times, java.util.function.Supplier<?> work) {
        double best = Double.MAX_VALUE;
        for (int round = 0; round < rounds; round++) {
            long start = SYSTEM.getProcessCpuTime();
            Object last = null;
            for (int k = 0; k < times; k++) {
                last = work.get();
            }
            if (last != null) {
                best = Math.min(best, (SYSTEM.getProcessCpuTime() - start) / 1e6 / times);
            }
        }
        return best;
    }
}
