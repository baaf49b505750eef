package foilproof;

import foilproof.source.Spelling;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;

/** Nearest word of a mistyped one: what an error message costs. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class SpellingBenchmark {
    private static final List<String> WORDS =
            List.of("width", "thickness", "height", "substrate", "foil", "copper", "tape");

    /** One look-up among seven words. */
    @Benchmark
    public Object nearest() {
        return Spelling.nearest("thikcness", WORDS);
    }
}
