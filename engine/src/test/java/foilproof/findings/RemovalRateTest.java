package foilproof.findings;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.start;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Job;
import foilproof.bench.Tool;
import foilproof.source.InputException;
import org.junit.jupiter.api.Test;

/** Check values P5 (section times feed) and P6 (radial chip thinning), closed forms. */
class RemovalRateTest {
    private static RemovalRate of(Bench bench, String tool) throws InputException {
        Job job = bench.read();
        Examination x = Examiner.examine(job, ReadDesign.of(job), bench.options());
        for (Tool t : job.tools()) {
            if (t.name().equals(tool)) {
                return RemovalRate.of(x, t);
            }
        }
        throw new AssertionError(tool);
    }

    @Test
    void shouldBeTheSectionTimesTheFeed() {
        assertThat(RemovalRate.mm3PerMin(0.79375 * 0.1, 600)).as("P5").isCloseTo(47.625, within(1e-9));
        assertThat(RemovalRate.mm3PerMin(0.0126795, 300)).as("P5").isCloseTo(3.80385, within(1e-9));
    }

    @Test
    void shouldThinTheChipsOfACutterThatTakesLessThanHalfItsWidth() {
        // P6
        assertThat(RemovalRate.chipThinning(0.5)).isCloseTo(1, within(5e-5));
        assertThat(RemovalRate.chipThinning(0.3)).isCloseTo(1.0911, within(5e-5));
        assertThat(RemovalRate.chipThinning(0.15)).isCloseTo(1.4003, within(5e-5));
        assertThat(RemovalRate.chipThinning(0.05)).isCloseTo(2.2942, within(5e-5));
        assertThat(RemovalRate.chipThinning(0.8)).isEqualTo(1);
    }

    @Test
    void shouldReadTheRateOffTheMovesOfAnEndMill() throws InputException {
        // P5's cut: 0.79375 mm wide, 0.1 mm deep; at 300 mm/min half the rate
        Bench b = Bench.job().cellUm(10).tool("cutter", "diameter", "1/32 in");
        RemovalRate rate = of(b.runs(start(2) + line(3, 7, 15, 7, -0.1) + END), "cutter");
        assertThat(rate.mostMm3PerMin()).isCloseTo(47.625 / 2, within(0.02 * 47.625 / 2));
        assertThat(rate.leastShareInCut()).isCloseTo(1, within(0.02));
    }

    @Test
    void shouldReadTheRateOffTheMovesOfAVShapedBit() throws InputException {
        // Q27 and P5: 0.0126795 mm2 at 300 mm/min
        Bench b = Bench.job().cellUm(5);
        RemovalRate rate = of(b.runs(start(5) + line(3, 7, 15, 7, -0.1) + END), "pencil");
        assertThat(rate.mostMm3PerMin()).isCloseTo(3.80385, within(0.02 * 3.80385));
        assertThat(rate.leastShareInCut())
                .as("its width changes with the depth")
                .isEqualTo(1);
    }

    @Test
    void shouldSeeThatASecondPassBesideTheFirstTakesAThirdOfTheWidth() throws InputException {
        Bench b = Bench.job().cellUm(10);
        RemovalRate rate =
                of(b.runs(start(2) + line(3, 7, 15, 7, -0.1) + line(3, 7.24, 15, 7.24, -0.1) + END), "cutter");
        assertThat(rate.leastShareInCut()).isCloseTo(0.3, within(0.02));
    }
}
