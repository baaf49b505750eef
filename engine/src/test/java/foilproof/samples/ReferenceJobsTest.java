package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ProgramEntry;
import foilproof.bench.ReadOptions;
import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.Interpretation;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.language.ToolTable;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The sizes of the reference jobs are those that the goals of speed speak of. */
class ReferenceJobsTest {
    /** Loops, cut length in mm, cutting moves of a job, plunges left out. */
    private static double[] size(String name) throws Exception {
        MemoryFiles files = new MemoryFiles();
        for (Map.Entry<String, String> file : ReferenceJobs.files(name).entrySet()) {
            files.with(file.getKey(), file.getValue());
        }
        Job job = JobReader.read(new JobSource(files, "job.toml"), ReadOptions.DEFAULT);
        double[] sum = new double[3];
        for (ProgramEntry entry : job.sides().get(0).programs()) {
            Interpretation read = Interpreter.interpret(
                    entry.source(),
                    InterpreterSetup.builder().tools(new Numbers()).build());
            assertThat(read.errors()).isEmpty();
            CanonicalProgram c = read.commands();
            for (int i = 0; i < c.size(); i++) {
                CommandKind kind = c.kind(i);
                if (kind == CommandKind.STRAIGHT_FEED || kind == CommandKind.ARC_FEED) {
                    double d = Math.hypot(c.endMm(i, 0) - c.startMm(i, 0), c.endMm(i, 1) - c.startMm(i, 1));
                    boolean plunge = kind == CommandKind.STRAIGHT_FEED && d == 0;
                    sum[0] += plunge ? 1 : 0;
                    sum[1] += kind == CommandKind.ARC_FEED ? 2 * Math.PI * 0.15 : d;
                    sum[2] += plunge ? 0 : 1;
                }
            }
        }
        return sum;
    }

    private record Numbers() implements ToolTable {
        @Override
        public boolean exists(int number) {
            return number <= 3;
        }

        @Override
        public double lengthMm(int number) {
            return Double.NaN;
        }

        @Override
        public double diameterMm(int number) {
            return Double.NaN;
        }
    }

    @Test
    void shouldMakeRAsLongAsItSays() throws Exception {
        double[] r = size("R");
        assertThat(r[0]).isCloseTo(1200, within(30.0));
        assertThat(r[1]).isCloseTo(12_600, within(250.0));
        assertThat(r[2]).isCloseTo(61_500, within(1200.0));
    }

    @Test
    void shouldMakeSFourTimesR() throws Exception {
        double[] r = size("R");
        double[] s = size("S");
        assertThat(s[1] / r[1]).isCloseTo(4, within(0.1));
        assertThat(s[2] / r[2]).isCloseTo(4, within(0.1));
    }

    @Test
    void shouldMakeTATypicalBoard() throws Exception {
        double[] t = size("T");
        assertThat(t[1]).isCloseTo(2500, within(100.0));
        assertThat(t[2]).isCloseTo(6000, within(250.0));
    }

    @Test
    void shouldWriteTheSameBytesEveryTime() {
        assertThat(ReferenceJobs.files("T")).isEqualTo(ReferenceJobs.files("T"));
    }
}
