package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.language.FeedMode;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Feed missing or above what the machine can do (A9); spindle off, turning the wrong way, out of range (A10). */
final class FeedAndSpindle implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.FEED_UNSET, Kinds.FEED_TOO_HIGH, Kinds.SPINDLE_NOT_TURNING, Kinds.SPINDLE_SPEED);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A9", "A10");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (var program : x.plan().programs()) {
            feeds(x, program.firstSegment(), program.endSegment(), out);
            inverseTime(x, program, out);
        }
        for (RunFacts run : x.runs()) {
            spindle(x, run, out);
        }
    }

    private static void feeds(Examination x, int from, int to, FindingCollector out) {
        Segments s = x.plan().segments();
        OptionalDouble most = x.job().machine().maxFeedMmPerMin();
        int unset = -1;
        int fastest = -1;
        int first = -1;
        for (int i = from; i < to; i++) {
            if (!s.isFeed(i)) {
                continue;
            }
            if (s.has(i, Segments.FEED_UNSET) && unset < 0) {
                unset = i;
            }
            if (most.isPresent() && s.feedMmPerMin(i) > most.getAsDouble() * (1 + 1e-9)) {
                first = first < 0 ? i : first;
                fastest = fastest < 0 || s.feedMmPerMin(i) > s.feedMmPerMin(fastest) ? i : fastest;
            }
        }
        if (unset >= 0) {
            out.add(x.at(Finding.of(Kinds.FEED_UNSET, Severity.STOP, Certainty.GEOMETRY), unset)
                    .says("A feed move is commanded before any feed was set (no F word, or F0): the controller stops"
                            + " with an error or uses whatever the job before left behind.")
                    .doThis("Set F on the first G1, G2 or G3.")
                    .build());
        }
        if (fastest >= 0) {
            out.add(x.at(Finding.of(Kinds.FEED_TOO_HIGH, Severity.FIX, Certainty.GEOMETRY), first)
                    .atMost(Measured.exact("feed", s.feedMmPerMin(fastest), "mm/min"), most.getAsDouble())
                    .says("Feeds up to " + Words.feed(s.feedMmPerMin(fastest)) + " are commanded; the machine does "
                            + Words.feed(most.getAsDouble()) + " at most.")
                    .doThis("Lower F, and check that it is not an inch feed read as mm or the other way round.")
                    .build());
        }
    }

    /** G93 that comes into force after cuts in mm a minute and is in force at the last cut and to the end: left on. */
    private static void inverseTime(Examination x, PlannedProgram program, FindingCollector out) {
        var notes = program.interpretation().notes(NoteKind.INVERSE_TIME);
        if (notes.isEmpty()) {
            return;
        }
        Segments s = x.plan().segments();
        boolean plain = false;
        int first = -1;
        boolean last = false;
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (s.isFeed(i) && x.removes(i)) {
                last = s.has(i, Segments.INVERSE_TIME);
                plain |= !last;
                first = last && first < 0 ? i : first;
            }
        }
        boolean stays = program.interpretation()
                        .stateAtLine(Math.max(0, program.interpretation().lastLine() - 1))
                        .feedMode()
                == FeedMode.INVERSE_TIME;
        if (plain && last && stays) {
            int line = notes.get(notes.size() - 1).span().line();
            out.add(x.at(Finding.of(Kinds.FEED_UNSET, Severity.FIX, Certainty.GEOMETRY), first)
                    .line(program.file(), line)
                    .says(
                            "G93 (inverse time) comes into force in this line and stays on: F then counts 1/minutes, and a"
                                    + " move takes 1/F minutes however long it is. The cuts before ran in mm a minute.")
                    .doThis("Write G94 before the next F.")
                    .build());
        }
    }

    private static void spindle(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        int stopped = -1;
        int wrongWay = -1;
        int outside = -1;
        int slow = -1;
        OptionalDouble least = x.job().machine().spindleMinRpm();
        OptionalDouble most = x.job().machine().spindleMaxRpm();
        double slowest = x.limit(LimitKey.SMALL_TOOL_SPINDLE);
        boolean small = small(run.tool(), x.limit(LimitKey.SMALL_TOOL));
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!x.removes(i)) {
                continue;
            }
            double rpm = s.spindleRpm(i);
            boolean turning = s.spindleTurn(i) != 0 && rpm > 0;
            if (!turning) {
                stopped = stopped < 0 ? i : stopped;
            } else if (s.spindleTurn(i) < 0) {
                wrongWay = wrongWay < 0 ? i : wrongWay;
            }
            if (turning
                    && (least.isPresent() && rpm < least.getAsDouble()
                            || most.isPresent() && rpm > most.getAsDouble())) {
                outside = outside < 0 ? i : outside;
            } else if (turning && small && rpm < slowest) {
                slow = slow < 0 ? i : slow;
            }
        }
        if (stopped >= 0) {
            out.add(x.at(Finding.of(Kinds.SPINDLE_NOT_TURNING, Severity.STOP, Certainty.GEOMETRY), stopped)
                    .says("The cutter enters material while the spindle does not turn (no M3, or S0): it breaks.")
                    .doThis("Start the spindle (S and M3, then a dwell of some seconds) before the first cut.")
                    .build());
        }
        if (wrongWay >= 0) {
            out.add(x.at(Finding.of(Kinds.SPINDLE_NOT_TURNING, Severity.STOP, Certainty.GEOMETRY), wrongWay)
                    .says("The spindle turns counter-clockwise (M4) while a right-hand cutter is in material: it rubs"
                            + " and burns instead of cutting.")
                    .doThis("Use M3.")
                    .build());
        }
        if (outside >= 0) {
            Measured speed = Measured.exact("spindle speed", s.spindleRpm(outside), "rpm");
            Finding.Builder b = x.at(Finding.of(Kinds.SPINDLE_SPEED, Severity.STOP, Certainty.GEOMETRY), outside);
            b = least.isPresent() && speed.value() < least.getAsDouble()
                    ? b.atLeast(speed, least.getAsDouble())
                    : b.atMost(speed, most.orElseThrow());
            out.add(b.says("S" + Words.number(s.spindleRpm(outside), 0) + " lies outside the machine's range of "
                            + range(least, most) + ".")
                    .doThis("Choose a speed within the range and adapt the feed to keep the chip load.")
                    .build());
        }
        if (slow >= 0) {
            boolean machineEnds = most.isPresent() && most.getAsDouble() < slowest;
            out.add(x.at(
                            Finding.of(
                                    Kinds.SPINDLE_SPEED,
                                    machineEnds ? Severity.NOTE : Severity.WATCH,
                                    Certainty.RULE_OF_THUMB),
                            slow)
                    .atLeast(Measured.exact("spindle speed", s.spindleRpm(slow), "rpm"), slowest)
                    .says("A cutter of up to 1 mm turns at " + Words.rpm(s.spindleRpm(slow)) + "; cutters this small"
                            + " want at least " + Words.rpm(slowest)
                            + (machineEnds ? ", but this machine ends below." : "."))
                    .doThis("Raise S, or lower the feed so that the chip load stays small.")
                    .build());
        }
    }

    private static String range(OptionalDouble least, OptionalDouble most) {
        return (least.isPresent() ? Words.rpm(least.getAsDouble()) : "0 rpm") + " to "
                + (most.isPresent() ? Words.rpm(most.getAsDouble()) : "unlimited");
    }

    /** Whether the cutting part is small: for V-shaped bits the tip counts, and that is always small. */
    static boolean small(@Nullable Tool tool, double limitMm) {
        return tool != null && (tool.shape() == ToolShape.V || tool.diameterMm() <= limitMm);
    }
}
