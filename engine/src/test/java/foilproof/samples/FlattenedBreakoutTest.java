package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.Catalogue;
import foilproof.findings.CopperPlaces;
import foilproof.findings.Examination;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Progress;
import foilproof.findings.ReadDesign;
import foilproof.findings.Severity;
import foilproof.study.BestDepth;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The dished breakout as it is, on flat ground, and flattened to half the dish (needs.md section 6, job 2). */
class FlattenedBreakoutTest {
    @TempDir
    Path folder;

    private Examination examine(double share, double depthMm) throws Exception {
        try (Stream<Path> files = Files.list(SampleJobsTest.SAMPLES.resolve("fine-pitch-breakout"))) {
            for (Path file : files.toList()) {
                Files.copy(file, folder.resolve(file.getFileName().toString()));
            }
        }
        Path job = folder.resolve("job.toml");
        Matcher m = Pattern.compile("(\\[\"\\d+ mm\", \"\\d+ mm\", \")(-?[\\d.]+)( mm\"\\],\\n)")
                .matcher(Files.readString(job, StandardCharsets.UTF_8).replace("\r", ""));
        Files.writeString(
                job,
                m.replaceAll(r -> r.group(1)
                        + String.format(Locale.ROOT, "%.4f", share * Double.parseDouble(r.group(2)))
                        + r.group(3)));
        Path program = folder.resolve("copper.ngc");
        Files.writeString(
                program,
                Files.readString(program, StandardCharsets.UTF_8)
                        .replace("G1 Z-0.100", String.format(Locale.ROOT, "G1 Z-%.3f", depthMm)));
        Job read = JobReader.read(DiskFiles.source(folder), ReadOptions.DEFAULT);
        return Examiner.examine(read, ReadDesign.of(read), new ExamineOptions(0.02, 2, Progress.NONE));
    }

    /** The dish is touched on a grid of 5 mm: between the points the surface is up to 1.4 um above the formula's, 0.4 mm of radius. */
    @Test
    void shouldLeaveFoilWithinTheRadiusOfTheTable() throws Exception {
        Examination x = examine(1, 0.1);
        for (double rule : new double[] {0.005, 0}) {
            double radius = rule > 0 ? 9.5 : 8.2;
            for (double r = 0.5; r < 11; r += 0.1) {
                boolean left = x.copper(1).field().exactMarginMm(20 - r, 15) + rule > 0;
                if (Math.abs(r - radius) > 0.5) {
                    assertThat(left).as("%.1f of %.1f", r, radius).isEqualTo(r < radius);
                }
            }
        }
        List<Finding> found = Catalogue.judge(x).findings();
        // One cause, one finding: that no depth works stands inside the foil that is left, which takes its remedy.
        Finding foilLeft = found.stream()
                .filter(f -> f.kind().equals(Kinds.FOIL_LEFT))
                .findFirst()
                .orElseThrow();
        assertThat(foilLeft.severity()).isEqualTo(Severity.STOP);
        assertThat(foilLeft.doThis()).startsWith("Flatten the blank").contains("on a flat blank a depth of");
        assertThat(foilLeft.consequences()).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.THIN_MARGIN);
            assertThat(f.severity()).isEqualTo(Severity.FIX);
            assertThat(f.message()).contains("No depth setting works");
            assertThat(f.doThis()).contains("on a flat blank a depth of");
        });
        assertThat(x.copper(1).windows().values()).singleElement().satisfies(window -> {
            assertThat(window.limitedFrom()).isNotNull();
            assertThat(window.limitedTo()).isNotNull();
        });
        BestDepth best = BestDepth.of(x).get(0);
        assertThat(best.marginMm()).isNegative();
    }

    /** The window stands before every list of findings, so it says by itself that no depth works (D6). */
    @Test
    void shouldSayBesideTheWindowThatNoDepthWorks() throws Exception {
        assertThat(noteOf("fine-pitch-breakout"))
                .startsWith("No depth works with this spread, which is wider than the window: flatten the blank");
        assertThat(noteOf("thermistor-amplifier")).isNull();
    }

    private static String noteOf(String sample) throws Exception {
        return DryRun.run(
                        DiskFiles.source(SampleJobsTest.SAMPLES.resolve(sample)),
                        ReadOptions.DEFAULT,
                        new ExamineOptions(0.05, 2, Progress.NONE))
                .document()
                .zWindows()
                .get(0)
                .note();
    }

    @Test
    void shouldBeGoodOnceItIsFlattened() throws Exception {
        Examination x = examine(0.5, 0.116);
        assertThat(Catalogue.judge(x).findings())
                .allSatisfy(f -> assertThat(f.severity().atLeast(Severity.FIX))
                        .as(f.message())
                        .isFalse());
        BestDepth best = BestDepth.of(x).get(0);
        // 0.0398 + 0.040 - 0.116 and 0.135 + 0.017 - 0.116: the window lies even about 0 already
        assertThat(best.shiftMm()).isCloseTo(0, within(0.003));
        assertThat(best.marginMm()).isCloseTo(0.006, within(0.002));
    }

    @Test
    void shouldShowTheHairsAlongTheDoubleGroovesOnFlatGround() throws Exception {
        Examination x = examine(0, 0.1);
        assertThat(Catalogue.judge(x).findings()).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.HAIR);
            assertThat(f.severity()).isEqualTo(Severity.FIX);
            assertThat(f.consequences()).hasSize(3);
        });
        List<CopperPlaces.SliverPlace> slivers = CopperPlaces.sliversByReach(x);
        assertThat(slivers).hasSize(4).allSatisfy(s -> {
            // base 0.200 - 0.1753, top 0 (closed form); narrower at the end where the fan's groove turns over it
            assertThat(s.baseMm()).isCloseTo(0.0247, within(0.005));
            assertThat(s.topMm()).isZero();
            assertThat(s.reaches()).isTrue();
        });
        BestDepth best = BestDepth.of(x).get(0);
        assertThat(best.shiftMm()).isNegative();
        assertThat(best.complete()).isTrue();
        assertThat(best.edits()).singleElement().satisfies(e -> assertThat(e.difference())
                .startsWith("--- copper.ngc\n+++ copper.ngc\n@@ -12 +12 @@\n-G1 Z-0.100 F90\n+G1 Z-0.08"));
    }
}
