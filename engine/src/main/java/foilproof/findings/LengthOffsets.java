package foilproof.findings;

import foilproof.bench.Machine;
import foilproof.motion.MotionEvent;
import foilproof.motion.Segments;
import foilproof.motion.ToolRun;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A cutter that cuts after a change without a touch-off and without its own length in force (A13). */
final class LengthOffsets implements Check {
    private static final double SAME_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.LENGTH_OFFSET);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A13");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            int first = firstCut(x, run);
            if (first < 0) {
                continue;
            }
            RunFacts before = unchangedFrom(x, run);
            if (before != null) {
                out.add(x.at(Finding.of(Kinds.LENGTH_OFFSET, Severity.STOP, Certainty.SET_UP), first)
                        .says("M6 in line " + run.run().startLine() + " calls for " + run.quotedName()
                                + ", but on this machine M6 does nothing and no program stop follows: nobody is asked"
                                + " to change the cutter and touch it off before it cuts.")
                        .doThis("Add M5 and M0 after M6, retract first, and touch the new cutter off there.")
                        .build());
            } else if (run.run().lengthsMeasured() && Math.abs(run.run().residualZMm()) > SAME_MM) {
                double residual = run.run().residualZMm();
                out.add(x.at(Finding.of(Kinds.LENGTH_OFFSET, Severity.STOP, Certainty.SET_UP), first)
                        .atMost(Measured.mm("height error of the tip", Math.abs(residual), 0.001), 0)
                        .says("The length offset in force is not that of " + run.quotedName() + ": its tip runs "
                                + Words.mm(Math.abs(residual)) + (residual < 0 ? " too low." : " too high."))
                        .doThis("Write G43 with this tool's H number after the tool change, or touch off again.")
                        .build());
            } else if (run.run().lengthsMeasured() && Double.isNaN(run.run().residualZMm())) {
                out.add(x.at(Finding.of(Kinds.LENGTH_OFFSET, Severity.STOP, Certainty.SET_UP), first)
                        .says("M6 relies on measured lengths, and the length of " + run.quotedName()
                                + " is not given: where its tip is, nobody knows. The length offset was taken as"
                                + " right.")
                        .doThis("Give the tool's length in the job, or touch it off.")
                        .build());
            }
            if (before == null && run.run().lengthsMeasured()) {
                changed(x, run, first, out);
            }
        }
    }

    /** An offset that changes between two cuts of one cutter: G49, or another H, in mid-work. */
    private static void changed(Examination x, RunFacts run, int first, FindingCollector out) {
        Segments s = x.plan().segments();
        double before = offsetMm(x, first);
        for (int i = first + 1; i < run.run().endSegment(); i++) {
            if (s.isRapid(i) || s.line(i) == s.line(i - 1) || !x.removes(i)) {
                continue;
            }
            double now = offsetMm(x, i);
            if (Math.abs(now - before) > SAME_MM) {
                out.add(x.at(Finding.of(Kinds.LENGTH_OFFSET, Severity.STOP, Certainty.SET_UP), i)
                        .atMost(Measured.mm("change of the length offset", Math.abs(now - before), 0.001), 0)
                        .says("The length offset changes by " + Words.mm(Math.abs(now - before))
                                + " between two cuts of " + run.quotedName()
                                + ", though no other cutter comes in: Z 0 is another height from here.")
                        .doThis("Take the G49, or the other H, out of the middle of the work.")
                        .build());
                return;
            }
        }
    }

    private static double offsetMm(Examination x, int i) {
        return x.plan()
                .programOf(i)
                .interpretation()
                .stateAtLine(x.plan().segments().line(i))
                .lengthOffsetMm();
    }

    /** The run whose cutter may still be in the collet, where no stop lets a person change it; else null. */
    static @Nullable RunFacts unchangedFrom(Examination x, RunFacts run) {
        ToolRun r = run.run();
        if (x.job().machine().onToolChange() != Machine.OnToolChange.IGNORED || r.index() == 0 || r.stopInProgram()) {
            return null;
        }
        boolean ignored = false;
        for (MotionEvent event : x.plan().events()) {
            ignored |= event.kind() == MotionEvent.Kind.TOOL_CHANGE_IGNORED
                    && event.line() == r.startLine()
                    && event.program() == r.firstProgram()
                    && event.beforeSegment() == r.firstSegment();
        }
        return ignored ? x.run(r.index() - 1) : null;
    }

    private static int firstCut(Examination x, RunFacts run) {
        Segments s = x.plan().segments();
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!s.isRapid(i) && x.removes(i)) {
                return i;
            }
        }
        return -1;
    }
}
