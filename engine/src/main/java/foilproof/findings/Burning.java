package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.MotionEvent;
import foilproof.motion.Segments;
import java.util.List;

/** Heat (L2): a dwell while the cutter turns in material, and rubbing over a long way. Rules of thumb. */
final class Burning implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.BURN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("L2");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        dwells(x, out);
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool != null && tool.flutes().isPresent() && tool.shape() != ToolShape.DRILL) {
                rubbing(x, run, tool, tool.flutes().getAsInt(), out);
            }
        }
    }

    private static void dwells(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        double most = x.limit(LimitKey.DWELL_IN_CUT);
        MotionEvent worst = null;
        int at = -1;
        int count = 0;
        for (MotionEvent event : x.plan().events()) {
            int before = event.beforeSegment() - 1;
            if (event.kind() != MotionEvent.Kind.DWELL
                    || event.durationS() <= most + 1e-9
                    || before < 0
                    || s.program(before) != event.program()
                    || s.run(before) != event.run()
                    || s.spindleTurn(before) == 0
                    || !inMaterial(x, event, before)) {
                continue;
            }
            count++;
            if (worst == null) {
                worst = event;
                at = before;
            }
        }
        if (worst != null) {
            out.add(x.at(Finding.of(Kinds.BURN, Severity.WATCH, Certainty.RULE_OF_THUMB), at)
                    .line(x.plan().programs().get(worst.program()).file(), worst.line())
                    .time(worst.timeS())
                    .atMost(Measured.exact("dwell in material", worst.durationS(), "s"), most)
                    .says("The cutter turns on the spot in material for " + Words.number(worst.durationS(), 2) + " s"
                            + (count > 1 ? ", and " + (count - 1) + " times more" : "")
                            + ": it rubs, and phenolic paper smokes and chars.")
                    .doThis("Take the dwell out, or lift first.")
                    .build());
        }
    }

    private static boolean inMaterial(Examination x, MotionEvent event, int before) {
        Segments s = x.plan().segments();
        RunFacts run = x.run(event.run());
        boolean on = event.xMm() > 0
                && event.yMm() > 0
                && event.xMm() < x.job().blank().widthMm()
                && event.yMm() < x.job().blank().heightMm();
        double tip = run.blankFromRunMm(event.zMm());
        // at the end of the move that cut there, or in the groove that it left
        return on && s.isFeed(before) && tip < x.side(run.side().number()).surfaceMm(event.xMm(), event.yMm()) - 1e-6;
    }

    private static void rubbing(Examination x, RunFacts run, Tool tool, int flutes, FindingCollector out) {
        Segments s = x.plan().segments();
        if (!FeedAndSpindle.small(tool, x.limit(LimitKey.SMALL_TOOL))) {
            return;
        }
        double least = x.limit(LimitKey.CHIP_LOAD_LEAST);
        double most = x.limit(LimitKey.RUBBING_LENGTH);
        double length = 0;
        int over = -1;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            boolean lateral = s.isFeed(i) && s.planLengthMm(i) >= 1e-6 && x.removes(i);
            if (lateral && ChipLoad.chipLoadMm(s, i, flutes) < least - 1e-9) {
                length += s.lengthMm(i);
                over = over < 0 && length > most ? i : over;
            }
        }
        if (over >= 0) {
            out.add(x.at(Finding.of(Kinds.BURN, Severity.WATCH, Certainty.RULE_OF_THUMB), over)
                    .atMost(Measured.mm("length of rubbing", length, 0.01), most)
                    .says(run.quotedName() + " rubs over " + Words.number(length / 1000, 2) + " m with less than "
                            + Words.number(least * 1000, 1)
                            + " um a tooth: the substrate heats, phenolic paper smokes and chars, foil lifts.")
                    .doThis("Feed faster or turn slower, and clear the dust.")
                    .build());
        }
    }
}
