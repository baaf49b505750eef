package foilproof.stock;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** How the sweep grows from job R to job S, four times the area and length, at 10 um on one thread. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class SizeBenchmark {
    private final CutPath r = ReferenceJobs.r();
    private final CutPath s = ReferenceJobs.s();

    /** Job R. */
    @Benchmark
    public Envelope jobR() {
        return Envelope.sweep(
                r, ReferenceJobs.bit(), SweepSettings.forBlank(0.01, 100, 80).withThreads(1), 0);
    }

    /** Job S. */
    @Benchmark
    public Envelope jobS() {
        return Envelope.sweep(
                s, ReferenceJobs.bit(), SweepSettings.forBlank(0.01, 200, 160).withThreads(1), 0);
    }
}
