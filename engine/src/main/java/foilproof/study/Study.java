package foilproof.study;

import foilproof.bench.Job;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.WhatIf;
import foilproof.findings.Catalogue;
import foilproof.findings.Examination;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.Progress;
import foilproof.findings.ReadDesign;
import foilproof.findings.RunFacts;
import foilproof.stock.Memo;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * What-ifs over whole runs of a job: every pair of fitted cutters exchanged in the collet, the other foil weight, the
 * blank thicker and thinner by its spread, and the odds that the set-up stays within the Z windows.
 *
 * @param swaps pairs of cutters exchanged
 * @param variations other blanks
 * @param odds odds of the set-up, or null where no run has a Z window
 * @param best the depth of copper work with the widest margin, by tool run, with the edited lines as differences
 * @param notStudied what was left out, and why
 */
public record Study(
        List<Change> swaps,
        List<Change> variations,
        @Nullable Odds odds,
        List<BestDepth> best,
        List<String> notStudied) {
    private static final double HALF_OUNCE_MM = 0.0174;
    private static final double ONE_OUNCE_MM = 0.0348;
    private static final int MOST_SWAPS = 28;

    /** Cells of the runs of what-ifs, mm: differences are of whole findings, whose values are interpolated anyway. */
    private static final double CELL_MM = 0.025;

    /** Memory for what the changes leave as it is, bytes. */
    private static final long MEMO_BYTES = 256L << 20;

    /** Copies the lists. */
    public Study {
        swaps = List.copyOf(swaps);
        variations = List.copyOf(variations);
        best = List.copyOf(best);
        notStudied = List.copyOf(notStudied);
    }

    /**
     * Studies a job that was run.
     *
     * @param base the job as it is
     * @param findings its findings
     * @param progress told how far the study is, and asked whether it goes on
     * @throws CancellationException where the progress cancels
     */
    public static Study of(Examination base, List<Finding> findings, Progress progress) {
        List<String> leftOut = new ArrayList<>();
        List<Asked> asked = new ArrayList<>();
        int swaps = swaps(base, asked, leftOut);
        variations(base.job(), asked);
        List<Change> changes = new ArrayList<>();
        ReadDesign design = base.design().read();
        double cellMm = Math.max(base.options().cellMm(), CELL_MM);
        Memo kept = base.options().memo();
        Memo memo = kept == null ? new Memo(MEMO_BYTES) : kept;
        List<Finding> asItIs = findings;
        if (cellMm > base.options().cellMm() && !asked.isEmpty()) {
            // Held side by side, both must be of one grid.
            ExamineOptions options = new ExamineOptions(
                            cellMm, base.options().threads(), (what, fraction) -> progress.at("as it is", 0.0))
                    .with(memo);
            asItIs = Catalogue.judge(Examiner.examine(base.job(), design, options))
                    .findings();
        }
        for (int i = 0; i < asked.size(); i++) {
            Asked one = asked.get(i);
            if (!progress.at(one.what(), (double) i / asked.size())) {
                throw new CancellationException();
            }
            ExamineOptions options = new ExamineOptions(
                            cellMm, base.options().threads(), (what, fraction) -> progress.at(one.what(), (double) 0))
                    .with(memo);
            Examination changed = Examiner.examine(one.job(), design, options);
            changes.add(
                    Change.between(one.what(), asItIs, Catalogue.judge(changed).findings()));
        }
        return new Study(
                changes.subList(0, swaps),
                changes.subList(swaps, changes.size()),
                Odds.of(base),
                BestDepth.of(base),
                leftOut);
    }

    /** A job to be run and what is different in it. */
    private record Asked(String what, Job job) {}

    private static int swaps(Examination base, List<Asked> asked, List<String> leftOut) {
        Map<String, Tool> fitted = new LinkedHashMap<>();
        for (RunFacts run : base.runs()) {
            Tool tool = run.tool() == null ? null : base.job().toolNamed(run.toolName());
            if (tool != null && base.cuts(run)) {
                fitted.put(tool.name(), tool);
            }
        }
        List<Tool> list = List.copyOf(fitted.values());
        for (int i = 0; i < list.size(); i++) {
            for (int j = i + 1; j < list.size(); j++) {
                if (asked.size() == MOST_SWAPS) {
                    leftOut.add("swaps beyond the first " + MOST_SWAPS);
                    return asked.size();
                }
                Tool a = list.get(i);
                Tool b = list.get(j);
                asked.add(new Asked(
                        called(a) + " and " + called(b) + " exchanged", exchanged(exchanged(base.job(), a, b), b, a)));
            }
        }
        return asked.size();
    }

    private static String called(Tool tool) {
        return tool.number().isPresent() ? "T" + tool.number().getAsInt() + " (" + tool.name() + ")" : tool.name();
    }

    /** The job with {@code other} in the collet wherever {@code meant} is called for, by its number or its name. */
    private static Job exchanged(Job job, Tool meant, Tool other) {
        if (meant.number().isPresent()) {
            Map<Integer, String> collet = new TreeMap<>(job.whatIf().inCollet());
            collet.put(meant.number().getAsInt(), other.name());
            WhatIf old = job.whatIf();
            return job.withWhatIf(
                    new WhatIf(old.zErrorMm(), old.bowMm(), collet, old.programUnits(), old.programZMm()));
        }
        // A cutter without a T word is called for by name: the name keeps its place, the other cutter comes with it.
        String hidden = "exchanged for " + meant.name();
        List<Tool> tools = new ArrayList<>(job.tools());
        if (job.toolNamed(hidden) == null) {
            tools.add(renamed(other, hidden));
        }
        List<Side> sides = new ArrayList<>();
        for (Side side : job.sides()) {
            List<ProgramEntry> programs = new ArrayList<>();
            for (ProgramEntry entry : side.programs()) {
                programs.add(meant.name().equals(entry.tool()) ? entry.withTool(hidden) : entry);
            }
            sides.add(side.withPrograms(programs));
        }
        return job.withTools(tools).withSides(sides);
    }

    private static Tool renamed(Tool tool, String name) {
        return new Tool(
                name,
                OptionalInt.empty(),
                tool.shape(),
                tool.diameterMm(),
                tool.includedAngleRad(),
                tool.tipWidthMm(),
                tool.tipRadiusMm(),
                tool.shankMm(),
                tool.flutes(),
                tool.fluteLengthMm(),
                tool.stickOutMm(),
                tool.runoutMm(),
                tool.centreCutting(),
                tool.lengthMm(),
                tool.duty());
    }

    private static void variations(Job job, List<Asked> asked) {
        boolean thin = job.blank().foilMm() < (HALF_OUNCE_MM + ONE_OUNCE_MM) / 2;
        asked.add(new Asked(
                thin ? "one-ounce foil, 34.8 um" : "half-ounce foil, 17.4 um",
                job.withBlank(job.blank().withFoil(thin ? ONE_OUNCE_MM : HALF_OUNCE_MM))));
        double offMm = job.spread().thicknessMm();
        if (offMm > 0 && offMm < job.blank().thicknessMm() / 2) {
            double thicknessMm = job.blank().thicknessMm();
            asked.add(new Asked(
                    "blank thicker by its spread", job.withBlank(job.blank().withThickness(thicknessMm + offMm))));
            asked.add(new Asked(
                    "blank thinner by its spread", job.withBlank(job.blank().withThickness(thicknessMm - offMm))));
        }
    }
}
