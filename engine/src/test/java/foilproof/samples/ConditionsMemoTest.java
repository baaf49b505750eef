package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.DiskFiles;
import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.bench.Side;
import foilproof.bench.Surface;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.Touch;
import foilproof.bench.WhatIf;
import foilproof.dryrun.DryRun;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Catalogue;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.report.ResultJson;
import foilproof.stock.HeightTiles;
import foilproof.stock.Memo;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** A job under other conditions gives the same bytes, whatever earlier runs left in the memo. */
class ConditionsMemoTest {
    private static final double CELL_MM = 0.05;
    private static final int CONDITIONS = Integer.getInteger("foilproof.conditions", 2);
    private static final long SEED = Long.getLong("foilproof.seed", 20_261_126L);

    private static ExamineOptions with(Memo memo) {
        return new ExamineOptions(CELL_MM, 2, Progress.NONE).with(memo);
    }

    private static ExamineOptions without() {
        return with(new Memo(0));
    }

    private static String json(Job job, ExamineOptions options) throws Exception {
        return ResultJson.write(DryRun.run(job, options).document());
    }

    private static Job read(String folder) throws Exception {
        return JobReader.read(DiskFiles.source(SampleJobsTest.SAMPLES.resolve(folder)), ReadOptions.DEFAULT);
    }

    @TestFactory
    Stream<DynamicTest> shouldGiveTheSameBytesWhateverConditionsWereAskedBefore() {
        return SampleJob.all().stream()
                .map(job -> DynamicTest.dynamicTest(job.folder() + ", seed " + SEED, () -> hold(job.folder())));
    }

    private static void hold(String folder) throws Exception {
        Job job = read(folder);
        SplittableRandom random = new SplittableRandom(SEED + folder.hashCode());
        Memo memo = new Memo(1L << 30);
        json(job, with(memo));
        for (int i = 0; i < CONDITIONS; i++) {
            Job changed = changed(job, random);
            assertThat(json(changed, with(memo)))
                    .as(folder + ", seed " + SEED + ", condition " + i + ": " + changed.whatIf())
                    .isEqualTo(json(changed, without()));
        }
        assertThat(json(job, with(memo))).isEqualTo(json(job, without()));
        assertThat(memo.found()).as("asked and found").isPositive();
    }

    /** One to three conditions that are otherwise. */
    private static Job changed(Job job, SplittableRandom random) {
        Job out = job;
        int many = 1 + random.nextInt(3);
        for (int k = 0; k < many; k++) {
            out = switch (random.nextInt(8)) {
                case 0, 1 -> out.withWhatIf(out.whatIf().withRunZMm(Map.of(random.nextInt(3), between(random, 0.15))));
                case 2 -> out.withWhatIf(cutterError(out, random));
                case 3 -> out.withWhatIf(bow(out.whatIf(), between(random, 0.2)));
                case 4 -> out.withBlank(out.blank().withFoil(random.nextBoolean() ? 0.0348 : 0.0174));
                case 5 -> out.withBlank(out.blank().withThickness(out.blank().thicknessMm() + between(random, 0.2)));
                case 6 -> out.withTools(worn(out.tools(), random));
                default -> out.withSides(tilted(out, random));
            };
        }
        return out;
    }

    private static double between(SplittableRandom random, double most) {
        return Math.round(random.nextDouble(-most, most) * 200) / 200.0;
    }

    private static WhatIf cutterError(Job job, SplittableRandom random) {
        Map<String, Double> errors = new TreeMap<>(job.whatIf().zErrorMm());
        errors.put(job.tools().get(random.nextInt(job.tools().size())).name(), between(random, 0.15));
        WhatIf w = job.whatIf();
        return new WhatIf(errors, w.bowMm(), w.inCollet(), w.programUnits(), w.programZMm(), w.runZMm());
    }

    private static WhatIf bow(WhatIf w, double mm) {
        return new WhatIf(w.zErrorMm(), mm, w.inCollet(), w.programUnits(), w.programZMm(), w.runZMm());
    }

    private static List<Tool> worn(List<Tool> tools, SplittableRandom random) {
        List<Tool> out = new ArrayList<>(tools);
        int which = random.nextInt(out.size());
        Tool tool = out.get(which);
        if (tool.shape() == ToolShape.V) {
            out.set(which, tool.withTipWidth(0.1 + 0.01 * random.nextInt(10)));
        }
        return out;
    }

    private static List<Side> tilted(Job job, SplittableRandom random) {
        double w = job.blank().widthMm();
        double h = job.blank().heightMm();
        Surface surface = new Surface(List.of(
                new Touch(0, 0, 0), new Touch(w, 0, between(random, 0.1)), new Touch(0, h, 0), new Touch(w, h, 0)));
        List<Side> out = new ArrayList<>();
        for (Side s : job.sides()) {
            out.add(s.withSurface(surface));
        }
        return out;
    }

    @Test
    void shouldGiveTheSameBytesAfterALineOfAProgramWasEdited() throws Exception {
        Map<String, String> files = ReferenceJobs.files("T");
        Memo memo = new Memo(1L << 30);
        DryRun.run(source(files), ReadOptions.DEFAULT, with(memo));
        String[] lines = files.get("isolation.ngc").split("\n");
        SplittableRandom random = new SplittableRandom(SEED);
        for (int edit = 0; edit < 2; edit++) {
            int at = lines.length / 3 + random.nextInt(lines.length / 3);
            while (!lines[at].startsWith("G1 X")) {
                at++;
            }
            lines[at] = lines[at].replaceFirst("X([0-9.]+)", "X" + (20 + random.nextInt(10)) + ".125");
            Map<String, String> edited = new TreeMap<>(files);
            edited.put("isolation.ngc", String.join("\n", lines) + "\n");
            String again = ResultJson.write(
                    DryRun.run(source(edited), ReadOptions.DEFAULT, with(memo)).document());
            String fresh = ResultJson.write(
                    DryRun.run(source(edited), ReadOptions.DEFAULT, without()).document());
            assertThat(again).as("seed " + SEED + ", line " + (at + 1)).isEqualTo(fresh);
        }
    }

    private static JobSource source(Map<String, String> files) {
        MemoryFiles all = new MemoryFiles();
        for (Map.Entry<String, String> file : files.entrySet()) {
            all = all.with(file.getKey(), file.getValue());
        }
        return new JobSource(all, "job.toml");
    }

    @Test
    void shouldSweepNothingAgainForAnotherZErrorOrBow() throws Exception {
        Job job = read("thermistor-amplifier");
        Memo memo = new Memo(1L << 30);
        DryRunResult before = DryRun.run(job, with(memo));
        Job changed = job.withWhatIf(bow(job.whatIf().withRunZMm(Map.of(0, 0.02)), 0.05));
        DryRunResult after = DryRun.run(changed, with(memo));
        assertThat(tiles(after)).isNotEmpty().containsExactlyElementsOf(tiles(before));
    }

    private static List<HeightTiles> tiles(DryRunResult result) {
        return result.examination().stock().sides().stream()
                .flatMap(side -> side.runs().stream())
                .map(run -> run.envelope().tiles())
                .toList();
    }

    @Test
    void shouldCountAWindowFromTheZErrorThatIsAsked() throws Exception {
        Job job = read("thermistor-amplifier");
        DryRunResult before = DryRun.run(job, without());
        DryRunResult after = DryRun.run(job.withWhatIf(job.whatIf().withRunZMm(Map.of(0, 0.02))), without());
        var was = before.document().zWindows().get(0);
        var is = after.document().zWindows().get(0);
        assertThat(is.fromMm()).isEqualTo(Math.rint((was.fromMm() - 0.02) * 1e6) / 1e6);
        assertThat(is.toMm()).isEqualTo(Math.rint((was.toMm() - 0.02) * 1e6) / 1e6);
    }

    @Test
    void shouldTellWhatIsFoundBeforeTheCopperAndWhatIsStillOpen() throws Exception {
        Job job = read("thermistor-amplifier");
        List<Catalogue.Partial> told = new ArrayList<>();
        DryRunResult result =
                DryRun.run(job.withWhatIf(job.whatIf().withRunZMm(Map.of(0, -0.09))), without(), told::add);
        assertThat(told).isNotEmpty();
        Catalogue.Partial first = told.get(0);
        assertThat(first.left()).isPositive();
        assertThat(first.findings()).extracting(Finding::kind).contains("foil-left");
        assertThat(first.open()).contains("hair", "short").doesNotContain("foil-left");
        for (Catalogue.Partial partial : told) {
            assertThat(partial.left()).isLessThanOrEqualTo(first.left());
        }
        assertThat(result.document().findings()).extracting(Finding::kind).contains("foil-left");
    }
}
