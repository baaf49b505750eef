package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.bench.XyMm;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import foilproof.motion.MotionPlanner;
import foilproof.motion.Segments;
import foilproof.source.InputException;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A whole job moved and turned on its blank: the same work elsewhere, with its design. */
class MovedJobTest {
    private static final String JOB = """
            job = "Moved"
            [blank]
            substrate = "FR-1"
            thickness = "1.5 mm"
            foil = "0.5 oz"
            copper = "one side"
            width = "60 mm"
            height = "40 mm"
            hold = "full tape"
            tape = "0.1 mm"
            surface = "flat"
            [spoil_board]
            thickness = "6 mm"
            [[tool]]
            name = "mill"
            number = 1
            shape = "flat"
            diameter = "1/32 in"
            flutes = 2
            [[side]]
            face = "bottom"
            turned = "no"
            work_zero = ["20 mm", "10 mm"]
            z_zero = "foil"
            touch_off = ["1 mm", "1 mm"]
              [[side.program]]
              file = "a.ngc"
              tool = "mill"
            """;

    private static Job job(String program) throws InputException {
        return JobReader.read(
                new JobSource(new MemoryFiles().with("job.toml", JOB).with("a.ngc", program), "job.toml"),
                ReadOptions.DEFAULT);
    }

    private static Job sample(String name) throws InputException {
        return JobReader.read(DiskFiles.source(SampleJobsTest.SAMPLES.resolve(name)), ReadOptions.DEFAULT);
    }

    /** X and Y of a point turned by whole degrees about the program's zero, as a person writes them, 6 decimals. */
    private static String at(double x, double y, double deg) {
        double c = StrictMath.cos(StrictMath.toRadians(deg));
        double s = StrictMath.sin(StrictMath.toRadians(deg));
        return String.format(Locale.ROOT, "X%.6f Y%.6f", c * x - s * y, s * x + c * y);
    }

    private static String centre(double i, double j, double deg) {
        return at(i, j, deg).replace('X', 'I').replace('Y', 'J');
    }

    private static String program(double deg) {
        return "G21 G90 G17 G91.1 G94\nM3 S12000\nG0 Z5\nG0 " + at(2, 3, deg) + "\nG1 Z-0.1 F100\nG1 " + at(12, 3, deg)
                + " F200\nG3 " + at(12, 9, deg) + " " + centre(0, 3, deg) + "\nG1 " + at(2, 9, deg) + "\nG2 "
                + at(2, 3, deg) + " " + centre(0, -3, deg) + "\nG0 Z5\nM5\nM2\n";
    }

    @ParameterizedTest
    @ValueSource(doubles = {90, -37, 12.5, 180})
    void shouldRunAsAProgramThatWasWrittenTurned(double deg) throws InputException {
        // The zero lies at (20, 10): turned about it and shifted by (5, 4) the zero comes to (25, 14).
        JobMove move = new JobMove(5, 4, StrictMath.toRadians(deg), 20, 10);
        Segments moved = MotionPlanner.plan(move.applied(job(program(0)))).segments();
        Segments written = MotionPlanner.plan(new JobMove(5, 4, 0, 0, 0).applied(job(program(deg))))
                .segments();
        assertThat(moved.size()).isEqualTo(written.size());
        for (int i = 0; i < moved.size(); i++) {
            // Six decimals of a millimetre in the text: half a nanometre each way, twice that on arcs' ends.
            assertThat(moved.x1Mm(i)).isEqualTo(written.x1Mm(i), within(2e-6));
            assertThat(moved.y1Mm(i)).isEqualTo(written.y1Mm(i), within(2e-6));
            assertThat(moved.x0Mm(i)).isEqualTo(written.x0Mm(i), within(2e-6));
            assertThat(moved.lengthMm(i)).isEqualTo(written.lengthMm(i), within(1e-5));
        }
    }

    @Test
    void shouldTurnAPointAboutTheNamedOneAndSeeItMirroredOnTheOtherSide() throws InputException {
        XyMm p = new JobMove(1, 2, StrictMath.toRadians(90), 10, 10).of(new XyMm(15, 10));
        assertThat(p.xMm()).isEqualTo(11, within(1e-12));
        assertThat(p.yMm()).isEqualTo(17, within(1e-12));
        Job bridge = sample("two-side-motor-bridge");
        double wide = bridge.blank().widthMm();
        double high = bridge.blank().heightMm();
        JobMove move = new JobMove(3, -2, 0.2, 30, 20);
        XyMm before = new XyMm(12, 17);
        XyMm after = move.of(before);
        // Side 2 as this job turns the blank over: the same board, each point seen in the mirror of the turn.
        boolean aboutX = bridge.sides().get(1).turned() == foilproof.bench.Turn.ABOUT_X;
        XyMm seenBefore =
                aboutX ? new XyMm(before.xMm(), high - before.yMm()) : new XyMm(wide - before.xMm(), before.yMm());
        XyMm seenAfter = aboutX ? new XyMm(after.xMm(), high - after.yMm()) : new XyMm(wide - after.xMm(), after.yMm());
        XyMm seen = move.onSide(bridge, 2).of(seenBefore);
        assertThat(seen.xMm()).isEqualTo(seenAfter.xMm(), within(1e-9));
        assertThat(seen.yMm()).isEqualTo(seenAfter.yMm(), within(1e-9));
    }

    private static List<String> serious(Job job) throws InputException {
        DryRunResult r = DryRun.run(job, new ExamineOptions(ExamineOptions.DEFAULT_CELL_MM, 2, Progress.NONE));
        return r.document().findings().stream()
                .filter(f -> f.severity() != Severity.NOTE)
                .map(Finding::kind)
                .sorted()
                .collect(Collectors.toList());
    }

    @Test
    void shouldFindNothingNewWhereASoundBoardAndItsDesignGoElsewhereTogether() throws InputException {
        Job sound = sample("thermistor-amplifier");
        assertThat(serious(sound)).isEmpty();
        assertThat(serious(new JobMove(1.5, -1, StrictMath.toRadians(4), 30, 22).applied(sound)))
                .isEmpty();
    }

    @Test
    void shouldKeepTwoSidesOnOneAnother() throws InputException {
        Job bridge = sample("two-side-motor-bridge");
        assertThat(serious(new JobMove(1, 0.5, 0, 0, 0).applied(bridge))).isEqualTo(serious(bridge));
    }
}
