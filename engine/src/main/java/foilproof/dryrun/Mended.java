package foilproof.dryrun;

import foilproof.bench.Job;
import foilproof.findings.Catalogue;
import foilproof.findings.Causes;
import foilproof.findings.Examination;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Severity;
import foilproof.report.Approval;
import foilproof.report.Verdict;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Judges the rest of a job again with a cause assumed mended, where the mend can be assumed ({@link Mends}). The cause
 * stands, and so does the verdict; what the mend takes away is folded under it, so that one cause is one finding, and
 * what stays is told beside it. Where two mends are possible (mm or inch) the one with which less is wrong is taken, and
 * said.
 */
final class Mended {
    /** More causes than this are told as they are: each costs a run. */
    private static final int MOST = 3;

    /** Findings this near to each other are of one thing, mm. */
    private static final double SAME_PLACE_MM = 0.5;

    /** What brings other findings with it and can be assumed mended; what makes most wrong first. */
    private static final List<String> CAUSES = List.of(
            Kinds.UNITS_UNSET,
            Kinds.DISTANCE_MODE,
            Kinds.DECIMAL_SLIP,
            Kinds.LENGTH_OFFSET,
            Kinds.TOUCH_OFF_SPOILT,
            Kinds.WRONG_Z_REFERENCE,
            Kinds.WORK_OFFSET,
            Kinds.ARC_SUSPECT,
            Kinds.CYCLE_SUSPECT,
            Kinds.RAPID_IN_MATERIAL,
            Kinds.TILT);

    /** Causes of which a program has one. */
    private static final Set<String> PROGRAM_WIDE =
            Set.of(Kinds.UNITS_UNSET, Kinds.WRONG_Z_REFERENCE, Kinds.WORK_OFFSET, Kinds.RAPID_IN_MATERIAL);

    private Mended() {}

    /**
     * Findings with what only the mend brings to light folded under their causes, and all that remains.
     *
     * @param findings worst first
     * @param remains by number of the finding
     */
    record Outcome(List<Finding> findings, List<Approval.Remains> remains) {}

    static Outcome judge(Examination x, List<Finding> findings) {
        List<Finding> order = new ArrayList<>();
        for (String kind : CAUSES) {
            findings.stream().filter(f -> f.kind().equals(kind)).forEach(order::add);
        }
        List<Finding> open = new ArrayList<>(findings);
        List<Judged> judged = new ArrayList<>();
        Set<String> done = new HashSet<>();
        for (Finding cause : order) {
            int at = indexOf(open, cause);
            String once = cause.kind() + "\n" + (cause.program() == null ? cause.side() : cause.program()) + "\n"
                    + (PROGRAM_WIDE.contains(cause.kind()) ? "" : cause.line());
            if (at < 0 || judged.size() == MOST || !done.add(once)) {
                continue;
            }
            Mends.Mend best = null;
            List<Finding> rest = List.of();
            for (Mends.Mend mend : Mends.of(x, cause)) {
                List<Finding> all = judged(x, mend.job());
                List<Finding> now = mend.causeStays() ? without(cause, all) : all;
                if (best == null || weight(now) < weight(rest)) {
                    best = mend;
                    rest = now;
                }
            }
            if (best == null) {
                continue;
            }
            Finding led = lead(cause, best, rest, open);
            judged.add(new Judged(led, best.assuming(), rest));
        }
        List<Finding> out = Causes.sorted(open);
        List<Approval.Remains> remains = new ArrayList<>();
        for (Judged one : judged) {
            int at = indexOf(out, one.led());
            if (at >= 0) {
                remains.add(new Approval.Remains(at + 1, one.assuming(), Verdict.of(one.rest()), one.rest()));
            }
        }
        return new Outcome(out, remains);
    }

    /** A cause that leads, and what remains without it. */
    private record Judged(Finding led, String assuming, List<Finding> rest) {}

    /**
     * Puts a cause at the head of what goes with it: findings that the mend takes away are its consequences, and what was
     * taken for a consequence and stays nevertheless stands on its own.
     */
    private static Finding lead(Finding cause, Mends.Mend mend, List<Finding> rest, List<Finding> open) {
        List<Finding> left = new ArrayList<>();
        rest.forEach(f -> flatten(f, left));
        List<Finding> follow = new ArrayList<>();
        List<Finding> apart = new ArrayList<>();
        for (Finding folded : cause.consequences()) {
            (folded.severity().atLeast(Severity.WATCH) && stays(folded, left) ? apart : follow).add(folded);
        }
        List<Finding> kept = new ArrayList<>();
        for (Finding other : open) {
            boolean goes = other != cause && other.severity().atLeast(Severity.WATCH) && !stays(other, left);
            if (goes) {
                follow.add(other);
            } else if (other != cause) {
                kept.add(other);
            }
        }
        List<Finding> base = new ArrayList<>(open);
        Finding led = cause.withOnly(Causes.sorted(follow)).withConsequences(hidden(mend, rest, base));
        open.clear();
        open.addAll(kept);
        open.add(led);
        open.addAll(apart);
        return led;
    }

    private static void flatten(Finding finding, List<Finding> into) {
        into.add(finding);
        finding.consequences().forEach(f -> flatten(f, into));
    }

    /** Whether a finding is still there with the mend: the same thing at the same line, or at the same place. */
    private static boolean stays(Finding finding, List<Finding> left) {
        for (Finding other : left) {
            boolean kind = other.kind().equals(finding.kind())
                    && Objects.equals(other.side(), finding.side())
                    && Objects.equals(other.program(), finding.program());
            double[] a = finding.atMm();
            double[] b = other.atMm();
            boolean place = a == null || b == null
                    ? a == null && b == null
                    : StrictMath.hypot(a[0] - b[0], a[1] - b[1]) <= SAME_PLACE_MM;
            if (kind && (place || finding.line() != null && finding.line().equals(other.line()))) {
                return true;
            }
            // two nets that are joined either way, wherever the first bridge lies
            String nets = joinedNets(finding);
            if (nets != null && nets.equals(joinedNets(other)) && Objects.equals(other.side(), finding.side())) {
                return true;
            }
        }
        return false;
    }

    /** The two nets that a short names, in words; null for another finding. */
    private static @Nullable String joinedNets(Finding finding) {
        int end = finding.message().indexOf(" are joined");
        return finding.kind().equals(Kinds.SHORT)
                        && end > 0
                        && finding.message().startsWith("Nets ")
                ? finding.message().substring(0, end)
                : null;
    }

    private static int indexOf(List<Finding> findings, Finding one) {
        for (int i = 0; i < findings.size(); i++) {
            if (findings.get(i) == one) {
                return i;
            }
        }
        return -1;
    }

    private static List<Finding> judged(Examination x, Job job) {
        return Catalogue.judge(Examiner.examine(job, x.design().read(), x.options()))
                .findings();
    }

    private static List<Finding> without(Finding cause, List<Finding> findings) {
        List<Finding> out = new ArrayList<>();
        for (Finding finding : findings) {
            if (isCause(finding, cause)) {
                finding.consequences().stream().filter(f -> !isCause(f, cause)).forEach(out::add);
            } else {
                out.add(finding);
            }
        }
        return List.copyOf(out);
    }

    private static boolean isCause(Finding finding, Finding cause) {
        return finding.kind().equals(cause.kind())
                && Objects.equals(finding.program(), cause.program())
                && (PROGRAM_WIDE.contains(cause.kind()) || Objects.equals(finding.line(), cause.line()));
    }

    /** What comes to light only with the mend, said as such; what stands beside the cause anyway is not told twice. */
    private static List<Finding> hidden(Mends.Mend mend, List<Finding> rest, List<Finding> base) {
        List<Finding> known = new ArrayList<>();
        base.forEach(f -> flatten(f, known));
        List<Finding> out = new ArrayList<>();
        for (Finding finding : rest) {
            if (finding.severity() != Severity.NOTE && !stays(finding, known)) {
                out.add(finding.saying("Remains if " + mend.assuming() + ": " + finding.message()));
            }
        }
        return out;
    }

    private static double weight(List<Finding> findings) {
        double sum = 0;
        for (Finding finding : findings) {
            sum += switch (finding.severity()) {
                case STOP -> 10_000;
                case FIX -> 100;
                case WATCH -> 1;
                case NOTE -> 0;
            };
            sum += weight(finding.consequences());
        }
        return sum;
    }
}
