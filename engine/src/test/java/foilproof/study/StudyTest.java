package foilproof.study;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Certainty;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import foilproof.report.StudyJson;
import java.util.List;
import org.junit.jupiter.api.Test;

class StudyTest {
    private static final String JOB = """
            job = "Two cutters"
            [blank]
            substrate = "FR-1"
            thickness = "1.5 mm"
            foil = "0.5 oz"
            copper = "one side"
            width = "16 mm"
            height = "10 mm"
            [spoil_board]
            thickness = "6 mm"
            [machine]
            on_tool_change = "stop"
            [spread]
            z = ["-0.1 mm", "0.0 mm"]
            [[tool]]
            name = "engraver"
            number = 1
            shape = "V"
            included_angle = "30 deg"
            tip_width = "0.1 mm"
            flutes = 1
            stick_out = "12 mm"
            duty = "copper only"
            [[tool]]
            name = "cutter"
            number = 2
            shape = "flat"
            diameter = "0.8 mm"
            flutes = 2
            stick_out = "10 mm"
            [[side]]
            face = "bottom"
            work_zero = ["0 mm", "0 mm"]
            z_zero = "foil"
              [[side.program]]
              file = "a.ngc"
            """;
    private static final String PROGRAM =
            "G21 G90 G17 G94 G54\nT1 M6\nM0\nM3 S16000\nG4 P3\nG0 Z2\nG0 X3 Y3\nG1 Z-0.0724 F60\n"
                    + "G1 X13 F300\nG0 Z2\nM5\nT2 M6\nM0\nM3 S16000\nG4 P3\nG0 X8 Y7\nG1 Z-1.7 F60\nG0 Z2\nM5\nM2\n";

    @Test
    void shouldTellWhatASwapBringsAndGiveTheOddsOfTheZWindow() throws Exception {
        MemoryFiles files = new MemoryFiles().with("job.toml", JOB).with("a.ngc", PROGRAM);
        DryRunResult run = DryRun.run(
                new JobSource(files, "job.toml"), ReadOptions.DEFAULT, new ExamineOptions(0.01, 1, Progress.NONE));
        Study study = Study.of(run.examination(), run.document().findings(), Progress.NONE);
        assertThat(study.swaps()).hasSize(1);
        Change swap = study.swaps().get(0);
        assertThat(swap.onlyEyes()).isFalse();
        assertThat(swap.appeared()).extracting(Change.Count::kind).contains("wrong-bit-drilling");
        assertThat(study.variations()).extracting(Change::what).contains("one-ounce foil, 34.8 um");
        // The foil is cleared down to e = 0.0174 + 0.005 - 0.0724 = -0.050, so half of -0.1 .. 0 holds (closed form);
        // 20,000 trials stray from it by 0.35 % (one standard deviation of a binomial count).
        Odds odds = study.odds();
        assertThat(odds).isNotNull();
        assertThat((double) odds.good() / odds.trials()).isBetween(0.485, 0.515);
        assertThat(odds.causes().get(0).what()).startsWith("touch-off of engraver");
        JsonNode json = new ObjectMapper().readTree(StudyJson.write(run.document(), study));
        assertThat(json.get("swaps").get(0).get("only_eyes").asBoolean()).isFalse();
        assertThat(json.get("odds").get("good").asInt()).isEqualTo(odds.good());
    }

    @Test
    void shouldExchangeCuttersThatHaveNoNumber() throws Exception {
        String job = JOB.replace("number = 1\n", "")
                .replace("number = 2\n", "")
                .replace(
                        "file = \"a.ngc\"\n",
                        "file = \"a.ngc\"\n  tool = \"engraver\"\n  [[side.program]]\n  file = \"b.ngc\"\n  tool = \"cutter\"\n");
        String head = "G21 G90 G17 G94 G54\nM3 S16000\nG4 P3\nG0 Z2\n";
        MemoryFiles files = new MemoryFiles()
                .with("job.toml", job)
                .with("a.ngc", head + "G0 X3 Y3\nG1 Z-0.0724 F60\nG1 X13 F300\nG0 Z2\nM5\nM2\n")
                .with("b.ngc", head + "G0 X8 Y7\nG1 Z-1.7 F60\nG0 Z2\nM5\nM2\n");
        DryRunResult run = DryRun.run(
                new JobSource(files, "job.toml"), ReadOptions.DEFAULT, new ExamineOptions(0.02, 1, Progress.NONE));
        Study study = Study.of(run.examination(), run.document().findings(), Progress.NONE);
        assertThat(study.swaps()).singleElement().satisfies(swap -> {
            assertThat(swap.what()).isEqualTo("engraver and cutter exchanged");
            assertThat(swap.appeared()).extracting(Change.Count::kind).contains("wrong-bit-drilling");
        });
    }

    @Test
    void shouldCountOnlyWhatIsNewAndWhatIsGone() {
        Finding hair = Finding.of("hair", Severity.FIX, Certainty.GEOMETRY)
                .says("a")
                .time(5)
                .build();
        Finding open = Finding.of("open", Severity.STOP, Certainty.GEOMETRY)
                .says("b")
                .time(3)
                .build();
        Finding note =
                Finding.of("dust", Severity.NOTE, Certainty.SET_UP).says("c").build();
        Change change = Change.between("x", List.of(hair, note), List.of(hair, hair, open));
        assertThat(change.appeared())
                .containsExactly(new Change.Count("open", Severity.STOP, 1), new Change.Count("hair", Severity.FIX, 1));
        assertThat(change.gone()).isEmpty();
        assertThat(change.first()).isEqualTo(open);
        assertThat(Change.between("x", List.of(hair), List.of(note)).onlyEyes()).isTrue();
    }
}
