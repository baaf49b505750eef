package foilproof.stock;

import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/**
 * Reference job R swept, replayed, measured and scrubbed, beside the memory floor (one read-modify-write of every
 * touched cell, in the same tiles) and beside stamping a hundredth of the job into a dense array.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class SweepBenchmark {
    /** Side of a cell, um. */
    @Param({"10", "5"})
    public int cellUm = 10;

    /** Threads. */
    @Param({"1", "2"})
    public int threads = 1;

    private CutPath job;
    private CutPath hundredth;
    private SweepSettings settings;
    private SweepSettings small;
    private Envelope envelope;
    private ComposedBoard board;
    private Timeline timeline;
    private double moment;
    private float[] dense = new float[0];
    private final ToolProfile bit = ReferenceJobs.bit();

    /** Makes the jobs. */
    @Setup
    public void make() {
        double cell = cellUm / 1000.0;
        job = ReferenceJobs.r();
        hundredth = ReferenceJobs.loops(10, 8, 12, 7L, 0.1);
        settings = SweepSettings.forBlank(cell, 100, 80).withThreads(threads);
        small = SweepSettings.forBlank(cell, 10, 8).withThreads(threads);
        envelope = Envelope.sweep(job, ReferenceJobs.bit(), settings, 0);
        BlankBody blank = new BlankBody(100, 80, 1.5, 0.0348, false);
        board = BoardStock.oneSide(blank, BlankSurface.FLAT, 0.1, List.of(RunCut.onFoil(0, envelope, 1, 1)))
                .under(Conditions.NOMINAL);
        dense = new float[(int) Math.round(10 / cell) * (int) Math.round(8 / cell)];
    }

    /** The sweep. */
    @Benchmark
    public Envelope sweep() {
        return Envelope.sweep(job, ReferenceJobs.bit(), settings, 0);
    }

    /** The memory floor. */
    @Benchmark
    public int memoryFloor() {
        HeightTiles tiles = envelope.tiles();
        Parallel.run(tiles.tilesY(), threads, () -> row -> {
            for (int x = 0; x < tiles.tilesX(); x++) {
                float[] tile = tiles.sharedTile(tiles.tileX0() + x, tiles.tileY0() + row);
                if (tile != null) {
                    for (int c = 0; c < tile.length; c++) {
                        tile[c] = tile[c] * 1.0f + 0f;
                    }
                }
            }
        });
        return tiles.tileCount();
    }

    /** A hundredth of the job, swept. */
    @Benchmark
    public Envelope sweepHundredth() {
        return Envelope.sweep(hundredth, ReferenceJobs.bit(), small, 0);
    }

    /** The same hundredth, a disc stamped at every cell's length along each move, dense array, one thread. */
    @Benchmark
    public float[] stampHundredth() {
        Arrays.fill(dense, 0.3f);
        double cell = cellUm / 1000.0;
        int width = (int) Math.round(10 / cell);
        int height = dense.length / width;
        double reach = bit.radiusMm(0.4);
        for (int m = 0; m < hundredth.size(); m++) {
            if (hundredth.lowestMm(m) >= 0.3) {
                continue;
            }
            double dx = hundredth.x1Mm[m] - hundredth.x0Mm[m];
            double dy = hundredth.y1Mm[m] - hundredth.y0Mm[m];
            int n = Math.max(1, (int) Math.ceil(Math.sqrt(dx * dx + dy * dy) / cell));
            for (int k = 0; k <= n; k++) {
                double x = hundredth.x0Mm[m] + dx * k / n;
                double y = hundredth.y0Mm[m] + dy * k / n;
                stamp(x, y, hundredth.zMm(m, (double) k / n), new double[] {cell, reach}, width, height);
            }
        }
        return dense;
    }

    private void stamp(double x, double y, double z, double[] cellReach, int width, int height) {
        double cell = cellReach[0];
        double reach = cellReach[1];
        for (int j = Math.max(0, (int) ((y - reach) / cell));
                j <= Math.min(height - 1, (int) ((y + reach) / cell));
                j++) {
            for (int i = Math.max(0, (int) ((x - reach) / cell));
                    i <= Math.min(width - 1, (int) ((x + reach) / cell));
                    i++) {
                double ex = (i + 0.5) * cell - x;
                double ey = (j + 0.5) * cell - y;
                float rise = (float) (z + bit.riseMm(Math.sqrt(ex * ex + ey * ey)));
                if (rise < dense[j * width + i]) {
                    dense[j * width + i] = rise;
                }
            }
        }
    }

    /** What each move removed. */
    @Benchmark
    public Replay replay() {
        return Replay.of(board, 1, 0, threads);
    }

    /** Volumes removed. */
    @Benchmark
    public Removed removed() {
        return Removed.of(board, threads);
    }

    /** The state at moments all over the job. */
    @Benchmark
    public Envelope scrub() {
        if (timeline == null) {
            timeline = Timeline.of(envelope, Timeline.KEYFRAMES);
        }
        moment = (moment + job.size() * 0.381966) % job.size();
        return timeline.at(moment);
    }
}
