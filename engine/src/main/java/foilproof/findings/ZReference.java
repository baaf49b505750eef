package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.bench.ZZero;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;

/** Copper work far from the declared Z zero (B1), or a depth that looks ten times wrong (A2). */
final class ZReference implements Check {
    private static final double ROUNDING_MM = 1e-6;
    private static final String FOIL_TOP = "at the foil top";
    private static final String SPOIL_BOARD = "on the spoil board";
    private static final String OTHER_ZERO =
            "Look in the program's header which zero it counts from, and say so in the job (z_zero); else make the"
                    + " program again.";

    @Override
    public List<String> kinds() {
        return List.of(Kinds.WRONG_Z_REFERENCE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A2", "B1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            for (RunFacts run : x.runs()) {
                if (run.run().firstProgram() <= program.index() && run.run().lastProgram() >= program.index()) {
                    judge(x, program, run, out);
                }
            }
        }
    }

    private static void judge(Examination x, PlannedProgram program, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        int from = Math.max(program.firstSegment(), run.run().firstSegment());
        int to = Math.min(program.endSegment(), run.run().endSegment());
        double deepestMm = Double.NEGATIVE_INFINITY;
        int at = -1;
        boolean copper = false;
        boolean other = false;
        boolean lateral = false;
        for (int i = from; i < to; i++) {
            if (!s.isFeed(i) || !x.overBlank(i)) {
                continue;
            }
            Work work = program.entry().work() != null ? program.entry().work() : x.workOf(i);
            copper |= work != null && work.copper();
            other |= work != null && !work.copper();
            lateral |= s.planLengthMm(i) > ROUNDING_MM;
            // what-if errors are not part of what the program says
            double depth = run.depthMm(s.lowestMm(i)) - run.zErrorMm();
            if (depth > deepestMm + ROUNDING_MM) {
                deepestMm = depth;
                at = i;
            }
        }
        if (at < 0 || !lateral && program.entry().work() == null) {
            return;
        }
        double leastMm = x.limit(LimitKey.COPPER_DEPTH_LEAST);
        double mostMm = x.limit(LimitKey.COPPER_DEPTH_MOST);
        String fits = otherZero(x, program, deepestMm, leastMm, mostMm);
        boolean declaredCopper =
                program.entry().work() != null ? program.entry().work().copper() : copper && !other;
        if (deepestMm < leastMm - ROUNDING_MM
                && (declaredCopper || program.entry().work() == null)) {
            out.add(x.at(Finding.of(Kinds.WRONG_Z_REFERENCE, Severity.STOP, Certainty.GEOMETRY), at)
                    .atLeast(Measured.mm("deepest cut below the foil top", deepestMm, 0.001), leastMm)
                    .says((deepestMm <= 0
                                    ? "Nothing in this program goes below the foil top: its deepest cut is "
                                            + Words.mm(-deepestMm)
                                            + " above it. The whole program cuts air."
                                    : "The deepest cut of this program is only " + Words.mm(deepestMm)
                                            + " below the foil top: usual copper work is ten times as deep.")
                            + fits)
                    .doThis(
                            fits.isEmpty()
                                    ? "Check the Z zero (foil top or spoil board), and the decimal point of the depth:"
                                            + " 0.1 is not 0.01."
                                    : OTHER_ZERO)
                    .build());
        } else if (declaredCopper && deepestMm > mostMm + ROUNDING_MM) {
            out.add(x.at(Finding.of(Kinds.WRONG_Z_REFERENCE, Severity.STOP, Certainty.GEOMETRY), at)
                    .atMost(Measured.mm("deepest cut below the foil top", deepestMm, 0.001), mostMm)
                    .says("Copper work goes " + Words.mm(deepestMm) + " below the foil top: usual is 0.05 to 0.2 mm."
                            + (fits.isEmpty()
                                    ? " Either the Z zero is another one than declared, or the depth lost its decimal"
                                            + " point."
                                    : fits))
                    .doThis(
                            fits.isEmpty()
                                    ? "Check the Z zero (foil top or spoil board) and the depth: 0.1 mm, not 0.1 in and"
                                            + " not 1.0."
                                    : OTHER_ZERO)
                    .build());
        }
    }

    /** What the depth would be from the other zero, where that is a usual depth; else empty. */
    private static String otherZero(
            Examination x, PlannedProgram program, double deepestMm, double leastMm, double mostMm) {
        boolean foil = program.entry().zZero() == ZZero.FOIL;
        double otherMm =
                deepestMm + (foil ? 1 : -1) * (x.thicknessMm() + program.side().tapeMm());
        return otherMm < leastMm || otherMm > mostMm
                ? ""
                : " The job says that Z 0 lies " + (foil ? FOIL_TOP : SPOIL_BOARD) + "; counted from Z 0 "
                        + (foil ? SPOIL_BOARD : FOIL_TOP) + " the same program goes " + Words.mm(otherMm)
                        + " deep, as copper work does.";
    }
}
