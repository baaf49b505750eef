package foilproof;

import foilproof.bench.Blank;
import foilproof.bench.Duty;
import foilproof.bench.Face;
import foilproof.bench.Hold;
import foilproof.bench.Job;
import foilproof.bench.Limits;
import foilproof.bench.Machine;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.SpoilBoard;
import foilproof.bench.Spread;
import foilproof.bench.Substrate;
import foilproof.bench.Surface;
import foilproof.bench.Tool;
import foilproof.bench.Turn;
import foilproof.bench.WhatIf;
import foilproof.bench.XyMm;
import foilproof.bench.ZZero;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.motion.MotionPlan;
import foilproof.motion.MotionPlanner;
import foilproof.motion.Toolpaths;
import foilproof.source.SourceFile;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** Program text of the size of reference job R (1,200 closed loops, 63,600 moves) to commands, to a plan, to shapes. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class MotionBenchmark {
    private Job job;
    private SourceFile source;
    private MotionPlan plan;

    /** Writes the program. */
    @Setup
    public void write() {
        SplittableRandom random = new SplittableRandom(20261125);
        StringBuilder out = new StringBuilder("G21 G90 G94 G17\nT1 M6\nM3 S20000\nG0 Z2\nF600\n");
        for (int loop = 0; loop < 1200; loop++) {
            double cx = random.nextDouble(2, 98);
            double cy = random.nextDouble(2, 78);
            out.append(String.format(Locale.ROOT, "G0 X%.4f Y%.4f%nG1 Z-0.1%n", cx + 1, cy));
            for (int k = 1; k <= 50; k++) {
                double angle = 2 * Math.PI * k / 50;
                double r = 1 + 0.2 * StrictMath.sin(5 * angle);
                out.append(String.format(
                        Locale.ROOT, "X%.4f Y%.4f%n", cx + r * StrictMath.cos(angle), cy + r * StrictMath.sin(angle)));
            }
            out.append("G0 Z2\n");
        }
        source = SourceFile.ofText("r.ngc", out.append("M5\nM2\n").toString());
        job = job(source);
        plan = MotionPlanner.plan(job);
    }

    private static Job job(SourceFile program) {
        XyMm zero = XyMm.ZERO;
        ProgramEntry entry = new ProgramEntry(program, null, null, zero, ZZero.FOIL, zero, true);
        Side side = new Side(
                1,
                Face.BOTTOM,
                Turn.NO,
                zero,
                ZZero.FOIL,
                zero,
                null,
                true,
                List.of(),
                Surface.FLAT,
                Hold.FULL_TAPE,
                0.1,
                List.of(entry));
        Machine machine = new Machine(
                null,
                null,
                Machine.Language.COMMON,
                Machine.Units.UNKNOWN,
                Machine.Dwell.SECONDS,
                false,
                Machine.OnToolChange.STOP,
                false,
                0.01,
                OptionalDouble.of(1200),
                new Machine.AxisFeeds(2500, 2500, 1000),
                250,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                zero,
                0.02,
                null,
                120,
                true);
        Blank blank = new Blank(
                Substrate.FR_1,
                1.5,
                true,
                Blank.HALF_OUNCE_MM,
                true,
                false,
                100,
                80,
                true,
                Hold.FULL_TAPE,
                0.1,
                Surface.FLAT);
        return new Job(
                "R",
                "job.toml",
                blank,
                new SpoilBoard(OptionalDouble.of(6)),
                machine,
                new Spread(0.03, 0.05, null, Map.of(), 0.05),
                List.of(Tool.vFlatTip("engraver", 1, Math.PI / 6, 0.1, Duty.COPPER_ONLY)),
                List.of(side),
                List.of(),
                null,
                List.of(),
                List.of(),
                Limits.DEFAULT,
                WhatIf.NONE,
                List.of(),
                List.of());
    }

    /** Text to canonical commands. */
    @Benchmark
    public Object interpret() {
        return Interpreter.interpret(source, InterpreterSetup.builder().build());
    }

    /** Text to the timed plan. */
    @Benchmark
    public Object plan() {
        return MotionPlanner.plan(job);
    }

    /** The plan to strokes, holes, loops. */
    @Benchmark
    public Object toolpaths() {
        return Toolpaths.of(plan, job);
    }
}
