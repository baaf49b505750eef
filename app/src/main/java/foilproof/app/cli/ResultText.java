package foilproof.app.cli;

import foilproof.findings.Finding;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import foilproof.report.Approval;
import foilproof.report.Comparison;
import foilproof.report.Decimals;
import foilproof.report.HumanText;
import foilproof.report.ResultDocument;
import foilproof.report.ResultDocument.ZWindow;
import foilproof.report.Verdict;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A result as a person reads it in a terminal: the Z window before any list, findings worst first, never silent on gaps. */
final class ResultText {
    private static final int MOST_CONSEQUENCES = 8;

    private final PrintStream out;

    ResultText(PrintStream out) {
        this.out = out;
    }

    /** Prints the whole result. */
    void print(ResultDocument result) {
        out.println(result.job() + ": " + result.verdict().word().toUpperCase(Locale.ROOT) + ". "
                + meaning(result.verdict()));
        out.println();
        windows(result);
        out.println();
        findings(result);
        out.println();
        notChecked(result.notChecked());
        against(result);
        restart(result.restart());
        if (!result.assumed().isEmpty()) {
            out.println();
            out.println("Assumed, because the inputs do not say:");
            result.assumed().forEach(line -> out.println("  - " + line));
        }
        out.println();
        ResultDocument.TimeFacts time = result.time();
        out.println("Time " + HumanText.clock(time.totalS()) + ", cutting " + HumanText.clock(time.cuttingS())
                + ", tool changes: " + time.toolChanges() + ". Cells of " + Decimals.plain(result.cellUm(), 3)
                + " um.");
    }

    /** The restart card: for a person at the machine. */
    private void restart(ResultDocument.@Nullable Restart card) {
        if (card == null) {
            return;
        }
        out.println();
        out.println("Restart of " + card.program() + " at line " + card.line() + " with " + card.tool() + ", side "
                + card.side() + (card.freshBlank() ? ", on a fresh blank" : ", on this very blank")
                + " (a person does it; the dry run drives nothing):");
        card.problems().forEach(problem -> out.println("  ! do not begin there: " + problem));
        for (int i = 0; i < card.steps().size(); i++) {
            out.println("  " + (i + 1) + ". " + card.steps().get(i));
        }
    }

    private static String meaning(Verdict verdict) {
        return switch (verdict) {
            case STOP -> "Do not run this job.";
            case FIX -> "The board is likely to come off bad.";
            case WATCH -> "Right only if the stated set-up holds or a rule of thumb is forgiven.";
            case CLEAN -> "Nothing above a note was found.";
        };
    }

    /** Prints the Z windows. */
    void windows(ResultDocument result) {
        out.println("Z window (Z error that the job survives; + = really deeper):");
        if (result.zWindows().isEmpty()) {
            out.println("  none: no tool run cuts copper, or none could be judged.");
            return;
        }
        for (ZWindow window : result.zWindows()) {
            out.println("  run " + window.run() + ", " + window.tool() + ", side " + window.side() + ": "
                    + HumanText.window(window.empty(), window.fromMm(), window.toMm()));
            String limits = limits("below", window.limitedFrom()) + limits("above", window.limitedTo());
            out.println("    +/- " + Decimals.fixed(Decimals.upToUm(window.plusMinusMm()), 3) + " mm" + limits);
            if (window.spreadMm() != null) {
                String margin = window.marginMm() == null
                        ? "margin beyond the headroom"
                        : "margin " + HumanText.signedLength(Decimals.downToUm(window.marginMm()));
                out.println("    your spread " + Decimals.signed(window.spreadMm()[0], 3) + " to "
                        + Decimals.signed(window.spreadMm()[1], 3) + " mm: " + margin);
            }
            if (window.note() != null) {
                out.println("    " + window.note());
            }
        }
        ResultDocument.JointWindow joint = result.zWindowJoint();
        if (joint != null && result.zWindows().size() > 1) {
            out.println(
                    "  the same error for all runs: " + HumanText.window(joint.empty(), joint.fromMm(), joint.toMm()));
        }
    }

    private static String limits(String end, ResultDocument.@Nullable LimitedBy limit) {
        if (limit == null) {
            return "";
        }
        return ", " + end + ": " + limit.kind() + (limit.atMm() == null ? "" : " at " + HumanText.place(limit.atMm()));
    }

    private void findings(ResultDocument result) {
        List<Finding> findings = result.findings();
        out.println(findings.isEmpty() ? "Findings: none." : "Findings, worst first:");
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i);
            String reason = result.approval().reasonFor(i + 1);
            out.println("  " + (i + 1) + " " + (reason == null ? "" : "ACCEPTED, ")
                    + finding.severity().word().toUpperCase(Locale.ROOT) + " ("
                    + finding.certainty().word() + ") " + finding.kind() + ": " + finding.message());
            String where = HumanText.where(finding);
            String numbers = HumanText.numbers(finding);
            if (!where.isEmpty()) {
                out.println("    where: " + where);
            }
            if (!numbers.isEmpty()) {
                out.println("    measured: " + numbers);
            }
            if (!finding.doThis().isEmpty()) {
                out.println("    do: " + finding.doThis());
            }
            if (reason != null) {
                out.println("    accepted, because: " + reason);
            }
            consequences(finding.consequences());
            Approval.Remains remains = result.approval().remainsOf(i + 1);
            if (remains != null) {
                out.println("    assumed mended (" + remains.assuming() + "), " + remaining(remains.findings()));
            }
        }
        for (Approval.Expired one : result.approval().expired()) {
            out.println("  Accepted no longer (" + one.why() + "): "
                    + one.acceptance().severity() + " " + one.acceptance().kind() + ", because: "
                    + one.acceptance().reason());
        }
    }

    private static String remaining(List<Finding> findings) {
        StringBuilder text = new StringBuilder();
        for (Finding finding : findings) {
            if (finding.severity() != Severity.NOTE) {
                text.append(text.length() == 0 ? "" : ", ")
                        .append(finding.severity().word());
                text.append(' ').append(finding.kind());
                text.append(finding.line() == null ? "" : " (line " + finding.line() + ")");
            }
        }
        return text.length() == 0 ? "nothing above a note remains." : "this remains: " + text + ".";
    }

    private void against(ResultDocument result) {
        Comparison against = result.approval().against();
        if (against != null) {
            out.println();
            out.println("Since the earlier result:");
            against.lines().forEach(line -> out.println("  " + line));
        }
    }

    private void consequences(List<Finding> consequences) {
        if (consequences.isEmpty()) {
            return;
        }
        out.println("    " + consequences.size() + (consequences.size() == 1 ? " consequence" : " consequences")
                + " folded under it:");
        for (Finding consequence : consequences.subList(0, Math.min(MOST_CONSEQUENCES, consequences.size()))) {
            String where = HumanText.where(consequence);
            out.println("      " + consequence.severity().word() + " " + consequence.kind() + ": "
                    + consequence.message() + (where.isEmpty() ? "" : " (" + where + ")"));
        }
        if (consequences.size() > MOST_CONSEQUENCES) {
            out.println(
                    "      ... and " + (consequences.size() - MOST_CONSEQUENCES) + " more, all in --json and --out.");
        }
    }

    private void notChecked(List<NotChecked> items) {
        out.println(items.isEmpty() ? "Not checked: nothing is known to have been left out." : "Not checked:");
        for (NotChecked item : items) {
            out.println("  - " + item.what() + ": " + item.why());
        }
    }
}
