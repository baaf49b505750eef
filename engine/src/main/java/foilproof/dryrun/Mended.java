package foilproof.dryrun;

import foilproof.bench.Job;
import foilproof.bench.Machine;
import foilproof.bench.WhatIf;
import foilproof.findings.Catalogue;
import foilproof.findings.Examination;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Measured;
import foilproof.findings.ReadDesign;
import foilproof.findings.Severity;
import foilproof.findings.Words;
import foilproof.motion.Segments;
import foilproof.report.Approval;
import foilproof.report.Verdict;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Judges the rest of a job again with a cause assumed mended, where the mend can be assumed: units that nobody states,
 * a depth that is off by ten, a length offset that is not the cutter's. The cause stands, and so does the verdict. Where
 * two mends are possible (mm or inch) the one with which less is wrong is taken, and said.
 */
final class Mended {
    /** More causes than this are told as they are: each costs a run. */
    private static final int MOST = 3;

    /** Between 1 and 25.4, nearer to neither in ratio. */
    private static final double FIFTH = 5.04;

    private Mended() {}

    /**
     * Findings with what only the mend brings to light folded under their causes, and all that remains.
     *
     * @param findings worst first
     * @param remains by number of the finding
     */
    record Outcome(List<Finding> findings, List<Approval.Remains> remains) {}

    /** A mend: the job with it, and what it assumes in words. */
    private record Mend(Job job, String assuming) {}

    static Outcome judge(Examination x, List<Finding> findings) {
        List<Finding> out = new ArrayList<>(findings);
        List<Approval.Remains> remains = new ArrayList<>();
        Set<String> done = new HashSet<>();
        for (int i = 0; i < findings.size() && remains.size() < MOST; i++) {
            Finding cause = findings.get(i);
            List<Mend> mends = cause.severity() == Severity.STOP && done.add(cause.kind() + "\n" + cause.program())
                    ? mends(x, cause)
                    : List.of();
            Mend best = null;
            List<Finding> rest = List.of();
            for (Mend mend : mends) {
                List<Finding> now = without(cause, judged(x, mend.job()));
                if (best == null || weight(now) < weight(rest)) {
                    best = mend;
                    rest = now;
                }
            }
            if (best != null) {
                remains.add(new Approval.Remains(i + 1, best.assuming(), Verdict.of(rest), rest));
                out.set(i, cause.withConsequences(hidden(best, rest, findings)));
            }
        }
        return new Outcome(List.copyOf(out), remains);
    }

    private static List<Finding> judged(Examination x, Job job) {
        ReadDesign design = x.design().read();
        ExamineOptions options = x.options();
        return Catalogue.judge(Examiner.examine(job, design, options)).findings();
    }

    private static List<Mend> mends(Examination x, Finding cause) {
        Job job = x.job();
        String program = cause.program();
        WhatIf old = job.whatIf();
        List<Mend> out = new ArrayList<>();
        if (program == null) {
            return out;
        }
        switch (cause.kind()) {
            case Kinds.UNITS_UNSET -> {
                if (job.machine().units() == Machine.Units.UNKNOWN) {
                    for (Machine.Units units : likelyUnits(x, program)) {
                        out.add(new Mend(
                                job.withWhatIf(old.withProgramUnits(program, units)),
                                program + " is in " + (units == Machine.Units.MM ? "mm (G21)" : "inches (G20)")));
                    }
                }
            }
            case Kinds.WRONG_Z_REFERENCE -> {
                Measured depth = cause.measured();
                if (depth != null && depth.value() > 0) {
                    boolean shallow = depth.value() < 0.05;
                    double meantMm = shallow ? depth.value() * 10 : depth.value() / 10;
                    out.add(new Mend(
                            job.withWhatIf(old.withProgramZMm(program, meantMm - depth.value())),
                            program + " was meant to reach " + Words.mm(meantMm) + " below the foil top, not "
                                    + Words.mm(depth.value())));
                }
            }
            case Kinds.LENGTH_OFFSET -> {
                if (job.machine().onToolChange() == Machine.OnToolChange.MEASURED) {
                    out.add(new Mend(
                            job.withMachine(job.machine().withOnToolChange(Machine.OnToolChange.STOP)),
                            "each cutter is touched off after its change"));
                }
            }
            default -> {
                // Nothing that can be assumed mended without knowing what was meant.
            }
        }
        return out;
    }

    /**
     * Units in which a program that was run as mm is likely written: inches where its moves span less than a fifth
     * (about the root of 25.4) of what the other programs of the job span; both where there are none to compare with.
     */
    private static List<Machine.Units> likelyUnits(Examination x, String file) {
        double[] own = box();
        double[] others = box();
        Segments s = x.plan().segments();
        for (int i = 0; i < s.size(); i++) {
            if (s.isFeed(i)) {
                grow(x.plan().programOf(i).file().equals(file) ? own : others, s.planBox(i));
            }
        }
        double ownMm = Math.max(own[2] - own[0], own[3] - own[1]);
        double othersMm = Math.max(others[2] - others[0], others[3] - others[1]);
        if (!(ownMm > 0) || !(othersMm > 0)) {
            return List.of(Machine.Units.MM, Machine.Units.INCH);
        }
        return List.of(othersMm > FIFTH * ownMm ? Machine.Units.INCH : Machine.Units.MM);
    }

    private static double[] box() {
        double inf = Double.POSITIVE_INFINITY;
        return new double[] {inf, inf, -inf, -inf};
    }

    private static void grow(double[] into, double[] box) {
        into[0] = Math.min(into[0], box[0]);
        into[1] = Math.min(into[1], box[1]);
        into[2] = Math.max(into[2], box[2]);
        into[3] = Math.max(into[3], box[3]);
    }

    private static List<Finding> without(Finding cause, List<Finding> findings) {
        List<Finding> out = new ArrayList<>();
        for (Finding finding : findings) {
            if (finding.kind().equals(cause.kind()) && same(finding.program(), cause.program())) {
                out.addAll(finding.consequences());
            } else {
                out.add(finding);
            }
        }
        return List.copyOf(out);
    }

    /** What comes to light only with the mend, said as such; what stands beside the cause anyway is not told twice. */
    private static List<Finding> hidden(Mend mend, List<Finding> rest, List<Finding> base) {
        Set<String> known = new HashSet<>();
        base.forEach(finding -> known(finding, known));
        List<Finding> out = new ArrayList<>();
        for (Finding finding : rest) {
            if (finding.severity() != Severity.NOTE && !known.contains(key(finding))) {
                out.add(finding.saying("Remains if " + mend.assuming() + ": " + finding.message()));
            }
        }
        return out;
    }

    private static void known(Finding finding, Set<String> into) {
        into.add(key(finding));
        finding.consequences().forEach(f -> known(f, into));
    }

    private static String key(Finding f) {
        return f.kind() + "\n" + f.severity() + "\n" + f.program() + "\n" + f.line() + "\n" + f.side() + "\n"
                + f.message();
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

    private static boolean same(@Nullable String a, @Nullable String b) {
        return a == null ? b == null : a.equals(b);
    }
}
