package foilproof.dryrun;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static org.assertj.core.api.Assertions.assertThat;

import foilproof.findings.Bench;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.report.Verdict;
import foilproof.source.InputException;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Sound jobs, as different generators write them, raise nothing above a note (design, idea 7). */
class SoundJobsTest {
    /** An outline in four rounds with two tabs in the last. */
    private static final String OUTLINE =
            start(2) + "G0 X2 Y2\nG0 Z1\nG1 Z-0.4 F90\nG1 X16 F300\nG1 Y13\nG1 X2\nG1 Y2\n"
                    + "G1 Z-0.8 F90\nG1 X16 F300\nG1 Y13\nG1 X2\nG1 Y2\nG1 Z-1.2 F90\nG1 X16 F300\nG1 Y13\nG1 X2\nG1 Y2\n"
                    + "G1 Z-1.65 F90\nG1 X8 F300\nG1 Z-1.0\nG1 X10\nG1 Z-1.65 F90\nG1 X16 F300\nG1 Y13\nG1 X10\nG1 Z-1.0\nG1 X8\n"
                    + "G1 Z-1.65 F90\nG1 X2 F300\nG1 Y2\nG0 Z5\n" + END;

    private static void assertSound(Bench bench) {
        try {
            DryRunResult r = DryRun.run(bench.read(), bench.options());
            assertThat(r.outcome().findings().stream()
                            .filter(f -> f.severity() != Severity.NOTE)
                            .map(Finding::message)
                            .collect(Collectors.toList()))
                    .isEmpty();
            assertThat(r.document().verdict()).isEqualTo(Verdict.CLEAN);
            assertThat(r.outcome().notChecked())
                    .as("what was not checked is always listed")
                    .isNotEmpty();
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void shouldBeSilentOnIsolationWithAnEngravingBitAndWithAnEndMill() {
        assertSound(Bench.job().runs(isolation()));
        assertSound(Bench.job().runs(start(3) + rectangle(3, 3, 13, 11, -0.1) + END));
    }

    @Test
    void shouldBeSilentOnIsolationBoresAndOutlineInOneJob() {
        assertSound(Bench.job()
                .program("a.ngc", isolation())
                .program("b.ngc", start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END)
                .program("c.ngc", OUTLINE));
    }

    @Test
    void shouldBeSilentOnDrillingInCycles() {
        assertSound(Bench.job().runs(start(4, 15000) + "G81 X5 Y5 Z-1.95 R1 F200\nX9\nX13\nG80\n" + END));
        assertSound(Bench.job().runs(start(4, 15000) + "G83 X5 Y5 Z-1.95 R1 Q0.6 F200\nX9\nX13\nG80\n" + END));
    }

    @Test
    void shouldBeSilentOnAProgramInInches() {
        String inches = isolation()
                .replace("G21", "G20")
                .replace("Z25", "Z1")
                .replace("Z-0.1 F90", "Z-0.0039 F3.5")
                .replace("F300", "F12")
                .replace("X3.0 Y3.0", "X0.12 Y0.12")
                .replace("X13.0", "X0.5")
                .replace("Y11.0", "Y0.43")
                .replace("X3.0", "X0.12")
                .replace("Y3.0", "Y0.12")
                .replace("X3.4", "X0.135")
                .replace("G0 Z1\n", "G0 Z0.04\n")
                .replace("G0 Z5\n", "G0 Z0.2\n")
                .replace("G0 Z10\n", "G0 Z0.4\n");
        assertSound(Bench.job().runs(inches));
    }

    @Test
    void shouldBeSilentOnAZeroOnTheSpoilBoard() {
        String program =
                start(1) + "G0 X3 Y3\nG0 Z3\nG1 Z1.5 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\nG1 X3.4\nG0 Z5\n" + END;
        assertSound(Bench.job().side("z_zero", "spoil board").runs(program));
    }

    @Test
    void shouldBeSilentOnTwoSides() {
        assertSound(Bench.job()
                .blank("copper", "both sides")
                .program("a.ngc", isolation())
                .nextSide("top", "about Y")
                .program("b.ngc", isolation())
                .program("c.ngc", start(2) + bore(8, 7, 1.0, 0.8, -0.4, -0.8, -1.2, -1.65) + END));
    }
}
