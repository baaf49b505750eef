package foilproof.app.cli;

import foilproof.findings.Finding;
import foilproof.report.Decimals;
import foilproof.report.HumanText;
import foilproof.report.ResultDocument;
import foilproof.study.BestDepth;
import foilproof.study.Change;
import foilproof.study.Odds;
import foilproof.study.Study;
import java.io.PrintStream;
import java.util.List;

/** A study as a person reads it in a terminal: always differences against the job as it is. */
final class StudyText {
    private static final int MOST_CAUSES = 3;

    private final PrintStream out;

    StudyText(PrintStream out) {
        this.out = out;
    }

    void print(ResultDocument base, Study study) {
        out.println(base.job() + ": as it is " + base.verdict().word() + ".");
        out.println();
        new ResultText(out).windows(base);
        out.println();
        out.println("Cutters exchanged in the collet (against the job as it is):");
        changes(study.swaps(), true, "fewer than two cutters cut in this job.");
        out.println();
        out.println("Another blank:");
        changes(study.variations(), false, "none.");
        out.println();
        odds(study.odds());
        best(study.best());
        study.notStudied().forEach(line -> out.println("Not studied: " + line + "."));
    }

    private void best(List<BestDepth> all) {
        out.println();
        out.println("Depth of copper work with the widest margin (to be judged by a person; nothing is written):");
        if (all.isEmpty()) {
            out.println("  no run's Z window ends on both sides.");
        }
        for (BestDepth b : all) {
            out.println("  run " + (b.run() + 1) + ", " + b.tool() + ", side " + b.side() + ": "
                    + (b.shiftMm() == 0
                            ? "as it is"
                            : Decimals.fixed(Math.abs(b.shiftMm()), 3) + " mm "
                                    + (b.shiftMm() > 0 ? "deeper" : "shallower"))
                    + ", down to " + Decimals.fixed(b.depthMm(), 3) + " mm; margin then "
                    + Decimals.signed(b.marginMm(), 3) + " mm"
                    + (b.marginMm() < 0 ? " (no depth works: flatten the blank or map its height)" : "") + ".");
            for (BestDepth.Edit edit : b.edits()) {
                edit.difference().lines().forEach(line -> out.println("    " + line));
            }
            if (!b.complete()) {
                out.println("    Some lines hold their Z as no plain number: edit those by hand.");
            }
        }
    }

    private void changes(List<Change> changes, boolean swaps, String none) {
        if (changes.isEmpty()) {
            out.println("  " + none);
        }
        for (Change change : changes) {
            String eyes =
                    swaps && change.onlyEyes() ? " Nothing at fix or stop tells of it: only eyes would catch it." : "";
            out.println("  " + change.what() + ": appeared " + counts(change.appeared()) + "; gone "
                    + counts(change.gone()) + "." + eyes);
            Finding first = change.first();
            if (first != null) {
                out.println("    first: " + first.kind() + ", " + HumanText.where(first));
            }
        }
    }

    private static String counts(List<Change.Count> counts) {
        if (counts.isEmpty()) {
            return "nothing";
        }
        StringBuilder text = new StringBuilder();
        for (Change.Count count : counts) {
            text.append(text.length() == 0 ? "" : ", ")
                    .append(count.severity().word())
                    .append(' ');
            text.append(count.kind()).append(count.count() == 1 ? "" : " x " + count.count());
        }
        return text.toString();
    }

    private void odds(@org.jspecify.annotations.Nullable Odds odds) {
        if (odds == null) {
            out.println("Odds: no run has a Z window.");
            return;
        }
        out.println(
                "Odds: " + Decimals.fixed(100.0 * odds.good() / odds.trials(), 1) + " % of " + odds.trials()
                        + " seeded set-ups within your spread stay within every Z window (relative: touch-off, bow, foil and blank thickness, worn tips, runout, backlash and XY shift are varied, nothing else).");
        for (Odds.Cause cause :
                odds.causes().subList(0, Math.min(MOST_CAUSES, odds.causes().size()))) {
            out.println("  " + cause.what() + ": alone decides "
                    + Decimals.fixed(100.0 * cause.failures() / (odds.trials() - odds.good()), 1)
                    + " % of the failures");
        }
    }
}
