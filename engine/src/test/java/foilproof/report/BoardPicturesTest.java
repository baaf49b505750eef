package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;

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
import java.util.List;
import org.junit.jupiter.api.Test;

class BoardPicturesTest {
    private static final String JOB = """
            job = "Two grooves"
            [blank]
            substrate = "FR-1"
            thickness = "1.5 mm"
            foil = "1 oz"
            copper = "one side"
            width = "20 mm"
            height = "10 mm"
            [spoil_board]
            thickness = "6 mm"
            [[tool]]
            name = "cutter"
            number = 1
            shape = "flat"
            diameter = "1 mm"
            flutes = 2
            stick_out = "10 mm"
            [[side]]
            face = "bottom"
            work_zero = ["0 mm", "0 mm"]
            z_zero = "foil"
              [[side.program]]
              file = "a.ngc"
              tool = "cutter"
            """;
    // A groove through the foil at y = 2, one that leaves 14.8 um at y = 5, a hole through the blank at (10, 8).
    private static final String PROGRAM =
            "G21 G90 G17 G94 G54\nM3 S16000\nG0 Z2\nG0 X2 Y2\nG1 Z-0.1 F60\nG1 X18 F300\nG0 Z2\nG0 X2 Y5\nG1 Z-0.02 F60\n"
                    + "G1 X18 F300\nG0 Z2\nG0 X10 Y8\nG1 Z-1.8 F60\nG0 Z2\nM5\nM2\n";

    @Test
    void shouldPaintCopperFoilLeftFloorAndHolesWhereTheyAre() throws Exception {
        DryRunResult run = run();
        List<FlatPicture> pictures =
                BoardPictures.of(run.examination(), run.document().findings()).pictures();
        assertThat(pictures)
                .extracting(FlatPicture::name)
                .containsExactly(
                        "side-1-copper",
                        "side-1-copper-through",
                        "side-1-foil-left",
                        "side-1-margin",
                        "side-1-spoil-board");
        FlatPicture through = pictures.get(1);
        // The hole at X 10.0 of 20 mm lies in the middle either way; the groove ends at X 18.4 on the right, 1.6
        // through.
        assertThat(through.title()).contains("component side");
        FlatPicture copper = pictures.get(0);
        assertThat(copper.widthPx() * copper.mmPerPx()).isBetween(19.98, 20.02);
        assertThat(at(copper, 5, 8)).isEqualTo(colour(copper, "copper"));
        assertThat(at(copper, 5, 2)).isEqualTo(colour(copper, "substrate, cleared"));
        assertThat(at(copper, 10, 8)).isEqualTo(colour(copper, "through the blank"));
        assertThat(List.of(at(copper, 5, 5), at(copper, 5.03, 5), at(copper, 5.06, 5)))
                .containsAnyOf(colour(copper, "foil left where a cutter entered"), 0xffffff)
                .doesNotContain(colour(copper, "copper"));
        FlatPicture left = pictures.get(2);
        assertThat(at(left, 5, 5)).isEqualTo(colour(left, "10 to 20 um"));
        assertThat(at(left, 5, 2)).isEqualTo(colour(left, "no foil left"));
        FlatPicture margin = pictures.get(3);
        // 0.100 - 0.0348 - 0.005 = 0.0602 mm of margin
        assertThat(at(margin, 5, 2)).isEqualTo(colour(margin, "0.05 to 0.1 mm"));
        assertThat(at(margin, 5, 5)).isEqualTo(colour(margin, "not cleared by 5 um"));
    }

    @Test
    void shouldShowCloseUpsAndLinesOfWhatMatters() throws Exception {
        DryRunResult run = run();
        Finding bad = Finding.of("foil-left", Severity.FIX, Certainty.GEOMETRY)
                .says("Foil left.")
                .side(1)
                .at(5, 5)
                .line("a.ngc", 10)
                .build();
        Finding note = bad.withSeverity(Severity.NOTE);
        ReportExtras extras = BoardPictures.of(run.examination(), List.of(bad, note));
        assertThat(extras.closeUps().of(bad)).isNotNull();
        assertThat(extras.closeUps().of(note)).isNull();
        assertThat(extras.lines().of("a.ngc", 10)).isEqualTo("G1 X18 F300");
        assertThat(extras.lines().of("a.ngc", 99)).isNull();
        assertThat(extras.lines().of("b.ngc", 1)).isNull();
        assertThat(extras.pictures().get(0).labels())
                .extracting(FlatPicture.Label::text)
                .containsExactly("1");
        assertThat(HtmlReport.write(run.document(), extras)).contains("data:image/png;base64,");
    }

    private static DryRunResult run() throws Exception {
        MemoryFiles files = new MemoryFiles().with("job.toml", JOB).with("a.ngc", PROGRAM);
        return DryRun.run(
                new JobSource(files, "job.toml"), ReadOptions.DEFAULT, new ExamineOptions(0.01, 1, Progress.NONE));
    }

    private static int colour(FlatPicture picture, String meaning) {
        return picture.legend().stream()
                .filter(entry -> entry.text().equals(meaning))
                .findFirst()
                .orElseThrow()
                .rgb();
    }

    private static int at(FlatPicture picture, double xMm, double yMm) {
        int[] row = new int[picture.widthPx()];
        picture.pixels().row(picture.heightPx() - 1 - (int) (yMm / picture.mmPerPx()), row);
        return row[(int) (xMm / picture.mmPerPx())];
    }
}
