package foilproof.study;

import foilproof.bench.Job;
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
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
 * @param notStudied what was left out, and why
 */
public record Study(
        List<Change> swaps,
        List<Change> variations,
        @Nullable Odds odds,
        List<String> notStudied) {
    private static final double HALF_OUNCE_MM = 0.0174;
    private static final double ONE_OUNCE_MM = 0.0348;
    private static final int MOST_SWAPS = 28;

    /** Copies the lists. */
    public Study {
        swaps = List.copyOf(swaps);
        variations = List.copyOf(variations);
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
        for (int i = 0; i < asked.size(); i++) {
            Asked one = asked.get(i);
            if (!progress.at(one.what(), (double) i / asked.size())) {
                throw new CancellationException();
            }
            ExamineOptions options = new ExamineOptions(
                    base.options().cellMm(),
                    base.options().threads(),
                    (what, fraction) -> progress.at(one.what(), (double) 0));
            Examination changed = Examiner.examine(one.job(), design, options);
            changes.add(Change.between(
                    one.what(), findings, Catalogue.judge(changed).findings()));
        }
        return new Study(changes.subList(0, swaps), changes.subList(swaps, changes.size()), Odds.of(base), leftOut);
    }

    /** A job to be run and what is different in it. */
    private record Asked(String what, Job job) {}

    private static int swaps(Examination base, List<Asked> asked, List<String> leftOut) {
        Map<Integer, Tool> fitted = new TreeMap<>();
        Map<String, Tool> unnumbered = new LinkedHashMap<>();
        for (RunFacts run : base.runs()) {
            Tool tool = run.tool();
            if (tool != null && base.cuts(run)) {
                if (tool.number().isPresent()) {
                    fitted.put(tool.number().getAsInt(), tool);
                } else {
                    unnumbered.put(tool.name(), tool);
                }
            }
        }
        unnumbered.keySet().forEach(name -> leftOut.add("swaps of " + name + ": the job gives it no T number"));
        List<Map.Entry<Integer, Tool>> list = List.copyOf(fitted.entrySet());
        for (int i = 0; i < list.size(); i++) {
            for (int j = i + 1; j < list.size(); j++) {
                if (asked.size() == MOST_SWAPS) {
                    leftOut.add("swaps beyond the first " + MOST_SWAPS);
                    return asked.size();
                }
                Map<Integer, String> collet = new TreeMap<>(base.job().whatIf().inCollet());
                collet.put(list.get(i).getKey(), list.get(j).getValue().name());
                collet.put(list.get(j).getKey(), list.get(i).getValue().name());
                WhatIf old = base.job().whatIf();
                Job job = base.job().withWhatIf(new WhatIf(old.zErrorMm(), old.bowMm(), collet));
                asked.add(new Asked(
                        "T" + list.get(i).getKey() + " ("
                                + list.get(i).getValue().name() + ") and T"
                                + list.get(j).getKey() + " ("
                                + list.get(j).getValue().name() + ") exchanged",
                        job));
            }
        }
        return asked.size();
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
