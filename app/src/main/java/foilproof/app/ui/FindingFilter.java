package foilproof.app.ui;

import foilproof.bench.Job;
import foilproof.bench.Tool;
import foilproof.copper.NarrowGap;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Certainty;
import foilproof.findings.CopperFacts;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.report.ResultDocument;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What is typed to narrow the findings: words that must all occur, "side 2", "line 431", "T2", a severity, and
 * "holes &lt; 0.6" or "gaps &lt; 0.15" (mm), which list holes and gaps themselves.
 *
 * @param words lower-case words that must all occur
 * @param side the side, 0 for any
 * @param line the program line, 0 for any
 * @param tool the T number, -1 for any
 * @param holesBelowMm list holes whose entry is below this, NaN for none
 * @param gapsBelowMm list gaps below this, NaN for none
 */
record FindingFilter(List<String> words, int side, int line, int tool, double holesBelowMm, double gapsBelowMm) {
    private static final Pattern BELOW = Pattern.compile("(holes?|gaps?)\\s*<\\s*([0-9.]+)\\s*(?:mm)?");
    private static final Pattern NUMBERED = Pattern.compile("\\b(side|line)\\s+(\\d{1,9})\\b");
    private static final Pattern TOOL = Pattern.compile("(?:^|\\s)t(\\d{1,6})(?=\\s|$)");

    /** Reads what was typed; nothing typed matches everything. */
    static FindingFilter of(String typed) {
        String s = typed.toLowerCase(Locale.ROOT).replace(',', ' ');
        double holes = Double.NaN;
        double gaps = Double.NaN;
        Matcher below = BELOW.matcher(s);
        while (below.find()) {
            double v = number(below.group(2));
            if (below.group(1).startsWith("hole")) {
                holes = v;
            } else {
                gaps = v;
            }
        }
        s = BELOW.matcher(s).replaceAll(" ");
        int side = 0;
        int line = 0;
        Matcher n = NUMBERED.matcher(s);
        while (n.find()) {
            if (n.group(1).equals("side")) {
                side = Integer.parseInt(n.group(2));
            } else {
                line = Integer.parseInt(n.group(2));
            }
        }
        s = NUMBERED.matcher(s).replaceAll(" ");
        Matcher t = TOOL.matcher(s);
        int tool = t.find() ? Integer.parseInt(t.group(1)) : -1;
        s = TOOL.matcher(s).replaceAll(" ").strip();
        return new FindingFilter(s.isEmpty() ? List.of() : List.of(s.split("\\s+")), side, line, tool, holes, gaps);
    }

    private static double number(String s) {
        try {
            return Double.parseDouble(s);
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    /** Whether a finding, or one folded under it, is meant. */
    boolean matches(Finding f, @Nullable Job job) {
        return matches(f, job, FindingChoice.ANY);
    }

    /** Whether a finding, or one folded under it, is meant by what was typed and by what was chosen. */
    boolean matches(Finding f, @Nullable Job job, FindingChoice choice) {
        if (!Double.isNaN(holesBelowMm) || !Double.isNaN(gapsBelowMm)) {
            return false;
        }
        boolean narrowed = !(words.isEmpty() && side == 0 && line == 0 && tool < 0) || !choice.any();
        for (Finding c : f.consequences()) {
            if (narrowed && matches(c, job, choice)) {
                return true;
            }
        }
        Tool cutter = job == null || f.tool() == null ? null : job.toolNamed(f.tool());
        boolean numbered = tool < 0
                || cutter != null
                        && cutter.number().isPresent()
                        && cutter.number().getAsInt() == tool;
        if (!numbered
                || !choice.matches(f)
                || side != 0 && !Integer.valueOf(side).equals(f.side())
                || line != 0 && !Integer.valueOf(line).equals(f.line())) {
            return false;
        }
        String all = (f.kind() + " " + f.severity().word() + " " + f.certainty().word() + " " + f.message() + " "
                        + f.tool() + " " + f.program())
                .toLowerCase(Locale.ROOT);
        return words.stream().allMatch(all::contains);
    }

    /** Holes and gaps below what was typed, smallest first, as rows to fly to. */
    List<Finding> places(DryRunResult r) {
        List<Finding> found = new ArrayList<>();
        if (!Double.isNaN(holesBelowMm)) {
            r.document().holes().stream()
                    .filter(h -> h.entryMm() < holesBelowMm)
                    .sorted((a, b) -> Double.compare(a.entryMm(), b.entryMm()))
                    .limit(200)
                    .forEach(h -> found.add(hole(h)));
        }
        if (!Double.isNaN(gapsBelowMm)) {
            for (CopperFacts c : r.examination().copper()) {
                for (NarrowGap g : c.gaps()) {
                    if (g.bottomMm() < gapsBelowMm) {
                        found.add(gap(g, c.side()));
                    }
                }
            }
        }
        return found;
    }

    private static Finding hole(ResultDocument.HoleFacts h) {
        return Finding.of("hole", Severity.NOTE, Certainty.GEOMETRY)
                .says(String.format(
                        Locale.ROOT,
                        "Entry %.3f mm (%.1f thou), exit %s.",
                        h.entryMm(),
                        h.entryMm() / 0.0254,
                        h.through()
                                ? String.format(Locale.ROOT, "%.3f mm (%.1f thou)", h.exitMm(), h.exitMm() / 0.0254)
                                : "none: not through"))
                .side(h.side())
                .at(h.atMm()[0], h.atMm()[1])
                .build();
    }

    private static Finding gap(NarrowGap g, int side) {
        return Finding.of("gap", Severity.NOTE, Certainty.GEOMETRY)
                .says(String.format(
                        Locale.ROOT,
                        "%.3f mm (%.1f thou) +/- %.3f at the foil bottom, %.2f mm long.",
                        g.bottomMm(),
                        g.bottomMm() / 0.0254,
                        g.errorMm(),
                        g.lengthMm()))
                .side(side)
                .at(g.xMm(), g.yMm())
                .build();
    }
}
