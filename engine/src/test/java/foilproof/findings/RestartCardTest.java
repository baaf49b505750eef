package foilproof.findings;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.start;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.Job;
import foilproof.source.InputException;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** The restart card (needs row L5): state at a line, place, way there, and why not to begin there. */
class RestartCardTest {
    private static RestartCard card(Bench bench, String program, String lineWith) {
        return card(bench, program, lineWith, true);
    }

    private static RestartCard card(Bench bench, String program, String lineWith, boolean cutBefore) {
        String[] lines = program.split("\n", -1);
        int line = 0;
        for (int i = 0; i < lines.length && line == 0; i++) {
            line = lines[i].contains(lineWith) ? i + 1 : 0;
        }
        try {
            Job job = bench.runs(program).read();
            Examination x = Examiner.examine(job, ReadDesign.of(job), bench.options());
            return Objects.requireNonNull(RestartCard.of(x, x.plan().programs().get(0), line, cutBefore));
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void shouldTellStateAndPlaceBeforeALineInMidCut() {
        RestartCard card = card(Bench.job().side("work_zero", "[\"1 mm\", \"2 mm\"]"), isolation(), "G1 Y11");
        assertThat(card.tool()).isEqualTo("engraver");
        assertThat(card.atMm()[0]).isCloseTo(14, within(1e-9));
        assertThat(card.atMm()[1]).isCloseTo(5, within(1e-9));
        assertThat(card.atMm()[2]).isCloseTo(-0.1, within(1e-9));
        assertThat(card.state().feedMmPerMin()).isEqualTo(300);
        assertThat(card.steps())
                .anyMatch(s -> s.contains("G21 G90 G17 G94 G54"))
                .anyMatch(s -> s.contains("S16000 M3"))
                .anyMatch(s -> s.contains("G0 X13 Y3"))
                .anyMatch(s -> s.contains("G1 Z-0.1"));
        assertThat(card.problems()).isEmpty();
    }

    @Test
    void shouldLiftAboveClampsBeforeTraversing() {
        RestartCard card = card(Bench.job().keepOut("clamp", 15, 0, 19, 3, 12), isolation(), "G1 Y11");
        assertThat(card.clearMm()).isGreaterThanOrEqualTo(12);
    }

    @Test
    void shouldStopARestartWithinACycle() {
        String program = start(4, 15000) + "G81 X5 Y5 Z-1.95 R1 F200\nX9\nX13\nG80\n" + END;
        assertThat(card(Bench.job(), program, "X9").problems()).singleElement().satisfies(f -> assertThat(f.severity())
                .isEqualTo(Severity.STOP));
        assertThat(card(Bench.job(), program, "G81").problems()).isEmpty();
    }

    @Test
    void shouldStopARestartWhoseDescentMeetsMaterialOnAFreshBlank() {
        RestartCard fresh = card(Bench.job(), isolation(), "G1 Y11", false);
        assertThat(fresh.problems()).singleElement().satisfies(f -> {
            assertThat(f.severity()).isEqualTo(Severity.STOP);
            assertThat(Objects.requireNonNull(f.measured()).value()).isCloseTo(0.1, within(1e-3));
        });
        assertThat(card(Bench.job(), isolation(), "G0 X3", false).problems()).isEmpty();
    }

    private static int lineOf(String program, String text) {
        return program.substring(0, program.indexOf(text)).split("\n", -1).length;
    }

    @Test
    @Fires("L5 rapid-in-material")
    void shouldStopARestartThatIsAskedForWhereItsWayMeetsMaterial() {
        int line = lineOf(isolation(), "G1 Y11");
        Bench.job()
                .runs(isolation())
                .restartsAt(line, true)
                .raises(Kinds.RAPID_IN_MATERIAL, Severity.STOP, Certainty.GEOMETRY)
                .onLineOf("G1 Y11")
                .at(13, 3)
                .measuring(0.1, "mm", 0.001);
    }

    @Test
    @Silent("L5 rapid-in-material")
    void shouldSayNothingOfARestartWhoseWayIsFree() {
        int line = lineOf(isolation(), "G1 Y11");
        Bench.job().runs(isolation()).restartsAt(line, false).isSilentOn(Kinds.RAPID_IN_MATERIAL);
        Bench.job().runs(isolation()).isSilentOn(Kinds.RAPID_IN_MATERIAL);
        int before = lineOf(isolation(), "G0 X3");
        Bench.job().runs(isolation()).restartsAt(before, true).isSilentOn(Kinds.RAPID_IN_MATERIAL);
    }

    @Test
    void shouldTellInchesAsTheProgramCountsThem() {
        String program =
                "G20 G90 G17 G94 G54\nT1 M6\nS16000 M3\nG4 P3\nG0 Z0.2\nG0 X0.2 Y0.2\nG1 Z-0.004 F4\nG1 X0.5 F12\nG0 Z0.2\nM5\nM2\n";
        RestartCard card = card(Bench.job(), program, "G1 X0.5");
        assertThat(card.steps()).anyMatch(s -> s.contains("G0 X0.2 Y0.2 in")).anyMatch(s -> s.contains("G20"));
        assertThat(card.atMm()[0]).isCloseTo(5.08, within(1e-9));
    }
}
