package foilproof;

import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.source.SourceFile;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** Program text to canonical commands: 60,000 short moves, by the short way for plain moves and by the whole grammar. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class InterpreterBenchmark {
    private final SourceFile plain = program("");
    private final SourceFile commented = program(" (a)");
    private final InterpreterSetup setup = InterpreterSetup.builder().build();

    private static SourceFile program(String tail) {
        StringBuilder text = new StringBuilder("G21 G90 G94 G17 G40 G49 G80 G54 G61\nS16000 M3\nG0 Z2\nF420\n");
        Random random = new Random(1);
        double x = 10;
        double y = 10;
        for (int i = 0; i < 60_000; i++) {
            x += random.nextDouble() * 0.4 - 0.2;
            y += random.nextDouble() * 0.4 - 0.2;
            text.append(String.format(Locale.ROOT, "G1 X%.4f Y%.4f%s%n", x, y, tail));
        }
        return SourceFile.ofText("plain.ngc", text.append("M30\n").toString());
    }

    /** Lines that hold a move and nothing else. */
    @Benchmark
    public Object plainMoves() {
        return Interpreter.interpret(plain, setup);
    }

    /** The same lines with a comment each, which take the whole grammar. */
    @Benchmark
    public Object wholeGrammar() {
        return Interpreter.interpret(commented, setup);
    }
}
