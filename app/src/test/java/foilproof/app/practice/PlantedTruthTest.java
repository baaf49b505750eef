package foilproof.app.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.DiskFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.report.ResultDocument;
import foilproof.report.Verdict;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the planter says of its jobs agrees with the dry run, which knows nothing of the planter. */
class PlantedTruthTest {
    @TempDir
    Path folder;

    private ResultDocument run(String id, boolean sound) throws Exception {
        Path at = Files.createDirectories(folder.resolve(id + sound));
        for (Map.Entry<String, String> file : Planter.files(id, sound).entrySet()) {
            Files.writeString(at.resolve(file.getKey()), file.getValue());
        }
        return DryRun.run(
                        DiskFiles.source(at),
                        ReadOptions.DEFAULT,
                        new ExamineOptions(0.010, 2, (what, fraction) -> true))
                .document();
    }

    private static List<Finding> all(ResultDocument result) {
        List<Finding> out = new ArrayList<>();
        for (Finding finding : result.findings()) {
            out.add(finding);
            out.addAll(finding.consequences());
        }
        return out;
    }

    private static Finding worst(ResultDocument result, String kind) {
        return all(result).stream()
                .filter(finding -> finding.kind().equals(kind))
                .findFirst()
                .orElseThrow(() -> new AssertionError(kind + " in " + result.findings()));
    }

    private static double measured(Finding finding) {
        return Objects.requireNonNull(finding.measured()).value();
    }

    private static double truth(String id, int number) {
        return Objects.requireNonNull(Exercises.of(id)).numbers().get(number).truth();
    }

    @Test
    void shouldFindNothingAboveANoteInAnyJobWithoutItsFault() throws Exception {
        for (Exercise exercise : Exercises.all()) {
            assertThat(run(exercise.id(), true).verdict()).as(exercise.id()).isEqualTo(Verdict.CLEAN);
        }
    }

    @Test
    void shouldSeeEveryPlantedFaultAtItsPlaceAndNothingThatThePlanterDoesNotKnow() throws Exception {
        for (Exercise exercise : Exercises.all()) {
            ResultDocument result = run(exercise.id(), false);
            for (Exercise.Planted fault : exercise.planted()) {
                if (fault.kinds().isEmpty()) {
                    // The dry run cannot see it (no lost motion is modelled); the exercise says so.
                    continue;
                }
                assertThat(all(result))
                        .as(exercise.id() + " " + fault.cause())
                        .anyMatch(finding -> fault.kinds().contains(finding.kind())
                                && finding.severity().atLeast(Severity.WATCH)
                                && (finding.atMm() == null || fault.near(finding.atMm()[0], finding.atMm()[1], 2)));
            }
            List<String> acceptable =
                    exercise.acceptable().stream().map(Exercise.Planted::cause).toList();
            for (Finding finding : all(result)) {
                assertThat(!finding.severity().atLeast(Severity.WATCH)
                                || acceptable.contains(finding.kind())
                                || exercise.planted().stream()
                                        .anyMatch(fault -> fault.kinds().contains(finding.kind())))
                        .as(exercise.id() + " " + finding.kind() + ": " + finding.message())
                        .isTrue();
            }
        }
    }

    @Test
    void shouldLeaveTheFoilThatThePlanterSaysInTheFirst() throws Exception {
        // 17.4 um of half an ounce less 10 um
        Finding foil = worst(run("E1", false), "foil-left");
        assertThat(truth("E1", 0)).isCloseTo(0.0074, within(1e-12));
        assertThat(foil.message()).contains("7.4 um");
    }

    @Test
    void shouldHaveTheWindowThatThePlanterSaysInTheCleanOne() throws Exception {
        ResultDocument result = run("E2", false);
        assertThat(result.verdict()).isEqualTo(Verdict.CLEAN);
        assertThat(Objects.requireNonNull(result.zWindows().get(0).fromMm())).isCloseTo(-truth("E2", 0), within(0.001));
        assertThat(Objects.requireNonNull(result.zWindows().get(0).toMm())).isCloseTo(truth("E2", 1), within(0.001));
    }

    @Test
    void shouldLeaveHairsOfTheWidthAndThePatchOfTheRadiusThatThePlanterSays() throws Exception {
        ResultDocument result = run("E3", false);
        // closed form: 0.16 - (0.10 + 2 (0.100 - 0.0348) tan 15 deg)
        assertThat(truth("E3", 1)).isCloseTo(0.025, within(0.0002));
        assertThat(measured(worst(result, "hair"))).isCloseTo(truth("E3", 1), within(0.002));
        // every place where foil is left lies in the patch, a touched point's distance allowed for
        assertThat(truth("E3", 0)).isCloseTo(6.88, within(0.01));
        double[] at = Objects.requireNonNull(worst(result, "foil-left").atMm());
        assertThat(StrictMath.hypot(at[0] - 30, at[1] - 22.5)).isLessThan(truth("E3", 0) * 1.3);
    }

    @Test
    void shouldSeeTheFourthMirroredInX() throws Exception {
        Finding finding = worst(run("E4", false), "mirrored");
        assertThat(finding.severity()).isEqualTo(Severity.STOP);
        assertThat(finding.message()).contains("mirrored in X");
        // the layer's line at x = 22 of a board 40 mm wide, seen from below: 18; 11, 27 and 32 are farther from 22
        assertThat(truth("E4", 0)).isEqualTo(22.0 - (40 - 22));
    }

    @Test
    void shouldEndTheWireWhereThePlanterSaysAndFreeThePartInItsLine() throws Exception {
        ResultDocument result = run("E7", false);
        assertThat(truth("E7", 0)).isCloseTo(0.867, within(0.0005));
        assertThat(worst(result, "wrong-bit-drilling").message()).contains("0.60 mm wire stops 0.867 mm");
        assertThat(result.findings())
                .anyMatch(finding -> finding.kind().equals("part-free")
                        && finding.line() != null
                        && finding.line() == (int) truth("E7", 1));
    }

    @Test
    void shouldRecordOnceRefuseToScoreBeforeThatAndTellARepairFromAChangedFact() throws Exception {
        Path at = folder.resolve("e1");
        Practice.start("E1", at);
        assertThatThrownBy(() -> Practice.start("E1", at)).isInstanceOf(Practice.RefusedException.class);
        Practice practice = Practice.open(at);
        assertThatThrownBy(practice::recorded).isInstanceOf(Practice.RefusedException.class);
        assertThatThrownBy(practice::predict).isInstanceOf(Answer.NotFilledInException.class);
        Files.writeString(at.resolve(Answer.FILE), "clean = true\nconfidence = 80\n");
        practice.predict();
        assertThatThrownBy(practice::predict).isInstanceOf(Practice.RefusedException.class);
        practice.mustBeUntouched();
        assertThat(practice.changedFacts()).isEmpty();
        assertThat(practice.judge(run("E1", false), run("E1", true)).remaining())
                .containsExactly("depth-slip");
        Practice.Repair good = practice.judge(run("E1", true), run("E1", true));
        assertThat(good.remaining()).isEmpty();
        assertThat(good.added()).isEmpty();
        assertThat(good.missing()).isEmpty();
        // E1's holes and copper are not those of E7's board: a job that lost its work is no repair
        assertThat(practice.judge(run("E1", true), run("E7", true)).missing()).isNotEmpty();
        Path job = at.resolve("job.toml");
        Files.writeString(job, Files.readString(job).replace("0.5 oz", "5 um"));
        assertThat(practice.changedFacts()).containsExactly("foil = \"0.5 oz\"");
        assertThatThrownBy(practice::mustBeUntouched).isInstanceOf(Practice.RefusedException.class);
    }
}
