package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.Work;
import foilproof.motion.MotionEvent;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.stock.ComposedSide;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Minutes that could be saved, and changes that are awkward (K1 to K4, K6): notes, never more. The time itself rests on
 * the machine's acceleration as the job states it.
 */
final class TimeNotes implements Check {
    /** Cutters whose diameters differ by less than this share look alike (common practice, no source). */
    private static final double ALIKE = 0.10;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.TIME, Kinds.ORDER, Kinds.TOOL_CHANGES, Kinds.LOOK_ALIKE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("K1", "K2", "K3", "K4", "K6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        range(x, out);
        changes(x, out);
        fineClearing(x, out);
        places(x, out);
        alike(x, out);
    }

    private static void range(Examination x, FindingCollector out) {
        var totals = x.plan().totals();
        double moving = totals.cuttingS();
        double plain = totals.feedOnlyS();
        double share = x.limit(LimitKey.TIME_ERROR);
        if (plain > 0 && moving > plain * (1 + share)) {
            out.add(Finding.of(Kinds.TIME, Severity.NOTE, Certainty.RULE_OF_THUMB)
                    .measured(Measured.exact("time with acceleration", totals.totalS(), "s"))
                    .says("The job takes " + minutes(totals.totalS() * (1 - share)) + " to "
                            + minutes(totals.totalS() * (1 + share)) + ": the feeds alone take " + minutes(moving)
                            + " with this machine's acceleration, and " + minutes(plain)
                            + " if they were reached at once.")
                    .doThis("Time one run with a stopwatch and correct [machine] acceleration by it.")
                    .build());
        }
    }

    private static String minutes(double seconds) {
        return seconds < 60
                ? String.format(Locale.ROOT, "%.0f s", seconds)
                : String.format(Locale.ROOT, "%.1f min", seconds / 60);
    }

    private static void changes(Examination x, FindingCollector out) {
        int needed = 0;
        String last = "";
        int made = 0;
        for (var side : x.job().sides()) {
            Set<String> names = new LinkedHashSet<>();
            String before = last;
            for (RunFacts run : x.runs()) {
                if (run.side().number() == side.number() && x.cuts(run)) {
                    made += last.isEmpty() || last.equals(run.toolName()) ? 0 : 1;
                    last = run.toolName();
                    names.add(last);
                }
            }
            needed += Math.max(0, names.size() - (before.isEmpty() || names.contains(before) ? 1 : 0));
        }
        double saved = (made - needed) * x.job().machine().toolChangeS();
        if (made > needed && saved > x.limit(LimitKey.CHANGE_SAVING) + 1e-9) {
            out.add(Finding.of(Kinds.ORDER, Severity.NOTE, Certainty.GEOMETRY)
                    .atMost(Measured.exact("time saved by another order", saved, "s"), x.limit(LimitKey.CHANGE_SAVING))
                    .says("The cutter is changed " + made + " times; " + needed
                            + " would do if each cutter did all its work of a side at once: about " + minutes(saved)
                            + " less.")
                    .doThis("Put the work of one cutter together, where copper before bores before outline allows it.")
                    .build());
        }
    }

    private static void fineClearing(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            Tool coarse = run.tool() == null ? null : coarser(x, run);
            if (coarse == null) {
                continue;
            }
            double seconds = 0;
            int first = -1;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                Work work = x.workOf(i);
                if (s.isFeed(i) && x.cutsFoil(i) && work != null && work.copper() && free(x, run, i, coarse)) {
                    seconds += s.durationS(i);
                    first = first < 0 ? i : first;
                }
            }
            if (seconds > x.limit(LimitKey.FINE_CLEARING) + 1e-9) {
                out.add(x.at(Finding.of(Kinds.TIME, Severity.NOTE, Certainty.GEOMETRY), first)
                        .atMost(Measured.exact("time of clearing", seconds, "s"), x.limit(LimitKey.FINE_CLEARING))
                        .says(run.quotedName() + " clears copper for " + minutes(seconds)
                                + " where nothing wanted is within the radius of " + Words.quoted(coarse.name()) + " ("
                                + Words.mm(coarse.diameterMm() / 2) + ").")
                        .doThis("Clear with " + Words.quoted(coarse.name()) + " first, and do only the edges with "
                                + run.quotedName() + ".")
                        .build());
            }
        }
    }

    /** The widest end mill of the job that is at least twice as wide as what the run cuts, or null. */
    private static @org.jspecify.annotations.Nullable Tool coarser(Examination x, RunFacts run) {
        double own = 2 * run.knownTool().cutRadiusAtHeightMm(x.foilMm());
        Tool found = null;
        for (Tool tool : x.job().tools()) {
            boolean wide = tool.shape() == ToolShape.FLAT && tool.diameterMm() >= 2 * own;
            if (wide && (found == null || tool.diameterMm() > found.diameterMm())) {
                found = tool;
            }
        }
        return found;
    }

    /** Whether all foil within the coarse cutter's radius of a segment's middle is gone at the end. */
    private static boolean free(Examination x, RunFacts run, int i, Tool coarse) {
        double[] p = x.plan().segments().pointAt(i, 0.5);
        ComposedSide side = x.side(run.side().number());
        for (int a = 0; a < 12; a++) {
            double turn = Math.PI * a / 6;
            for (double share : new double[] {1.0 / 3, 2.0 / 3, 1}) {
                double px = p[0] + share * coarse.diameterMm() / 2 * StrictMath.cos(turn);
                double py = p[1] + share * coarse.diameterMm() / 2 * StrictMath.sin(turn);
                boolean on = px > 0
                        && py > 0
                        && px < x.job().blank().widthMm()
                        && py < x.job().blank().heightMm();
                if (on && side.exactHeightMm(px, py) > side.foilBottomMm(px, py)) {
                    return false;
                }
            }
        }
        return true;
    }

    private static void places(Examination x, FindingCollector out) {
        for (MotionEvent event : x.plan().events()) {
            if (event.kind() != MotionEvent.Kind.TOOL_CHANGE || event.line() == 0 || event.run() < 0) {
                continue;
            }
            PlannedProgram program = x.plan().programs().get(event.program());
            if (event.beforeSegment() <= program.firstSegment()
                    || x.plan().segments().has(event.beforeSegment() - 1, Segments.START_UNKNOWN)) {
                continue;
            }
            double z = x.run(event.run()).blankFromRunMm(event.zMm());
            boolean over = event.xMm() >= 0
                    && event.yMm() >= 0
                    && event.xMm() <= x.job().blank().widthMm()
                    && event.yMm() <= x.job().blank().heightMm();
            if (over || z < x.limit(LimitKey.CHANGE_HEIGHT) - 1e-9) {
                Finding.Builder b = Finding.of(Kinds.TOOL_CHANGES, Severity.NOTE, Certainty.SET_UP)
                        .side(program.side().number())
                        .at(event.xMm(), event.yMm())
                        .line(program.file(), event.line())
                        .time(event.timeS());
                Measured height = Measured.mm("height of the tip at the change", z, 0.001);
                b = over ? b.measured(height) : b.atLeast(height, x.limit(LimitKey.CHANGE_HEIGHT));
                out.add(b.says("The cutter is changed " + (over ? "over the blank, " : "") + Words.mm(z)
                                + " above the foil top: little room for spanners, and a cutter that drops lands on the"
                                + " board.")
                        .doThis("Park at the front, beside the blank and at least "
                                + Words.plainMm(x.limit(LimitKey.CHANGE_HEIGHT)) + " up, before M6.")
                        .build());
                return;
            }
        }
    }

    private static void alike(Examination x, FindingCollector out) {
        List<Tool> used = new ArrayList<>();
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool != null
                    && x.cuts(run)
                    && used.stream().noneMatch(t -> t.name().equals(tool.name()))) {
                used.add(tool);
            }
        }
        for (int i = 0; i < used.size(); i++) {
            for (int k = i + 1; k < used.size(); k++) {
                Tool a = used.get(i);
                Tool b = used.get(k);
                double differ = Math.abs(a.diameterMm() - b.diameterMm());
                if (a.shape() == b.shape() && differ <= ALIKE * Math.max(a.diameterMm(), b.diameterMm())) {
                    out.add(Finding.of(Kinds.LOOK_ALIKE, Severity.NOTE, Certainty.GEOMETRY)
                            .tool(b.name())
                            .says(Words.quoted(a.name()) + " and " + Words.quoted(b.name())
                                    + " look alike: if they are swapped, only the eye at the collet notices.")
                            .doThis("Mark the two cutters, and read the number aloud at each change; study shows what"
                                    + " each swap would do.")
                            .build());
                    return;
                }
            }
        }
    }
}
