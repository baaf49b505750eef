package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.DrillFile;
import foilproof.design.PlaneMap;
import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.CutLoop;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Canned cycles (A16): R at or below the foil top, G99 that travels too low, and a cycle left in force, so that a line
 * meant as a move makes another hole. What is missing in a cycle's words is told with the program's errors.
 */
final class CannedCycles implements Check {
    private static final double INCH_MM = 25.4;
    /** Milled loops up to this size are rings round holes, mm (common practice, no source). */
    private static final double RING_MM = 6;
    /** As many holes, and such a share of all, must lie in rings before one outside is extra. */
    private static final int LEAST_HITS = 3;

    private static final double LEAST_SHARE = 0.6;
    /** A drill file says for sure: where half of the holes are in it, the others are extra. */
    private static final double DRILL_SHARE = 0.5;
    /** A hole this near to a wanted one is that hole out of its place, mm. */
    private static final double MOVED_MM = 1;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.CYCLE_SUSPECT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A16");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            if (!program.interpretation().notes(NoteKind.CYCLE).isEmpty()) {
                retract(x, program, out);
                extra(x, program, out);
            }
        }
    }

    private static void retract(Examination x, PlannedProgram program, FindingCollector out) {
        Segments s = x.plan().segments();
        double bow =
                x.job().spread().bowPer100Mm() + x.side(program.side().number()).highestMm();
        double least = x.limit(LimitKey.CYCLE_RETRACT) + bow;
        List<LanguageNote> cycles = program.interpretation().notes(NoteKind.CYCLE);
        int holes = cycles.size()
                + program.interpretation().notes(NoteKind.CYCLE_REPEATED).size();
        boolean lowTold = false;
        for (LanguageNote cycle : cycles) {
            int segment = x.firstSegmentFrom(program, cycle.span().line());
            if (segment < 0 || !cycle.text().startsWith("G")) {
                continue;
            }
            double r = -x.run(s.run(segment)).depthMm(cycle.value());
            if (r <= 1e-9) {
                out.add(x.at(Finding.of(Kinds.CYCLE_SUSPECT, Severity.STOP, Certainty.GEOMETRY), segment)
                        .line(program.file(), cycle.span().line())
                        .atLeast(Measured.mm("height of R above the foil top", r, 0.001), 0)
                        .says("R of the cycle lies " + (r < 0 ? Words.mm(-r) + " below" : "at")
                                + " the foil top: the cutter goes down to it at rapid speed.")
                        .doThis("Raise R to 1 mm or more above the foil top.")
                        .build());
                return;
            }
            if (!lowTold && cycle.text().contains("G99") && holes > 1 && r < least - 1e-9) {
                lowTold = true;
                out.add(x.at(Finding.of(Kinds.CYCLE_SUSPECT, Severity.STOP, Certainty.GEOMETRY), segment)
                        .line(program.file(), cycle.span().line())
                        .atLeast(Measured.mm("height of R above the foil top", r, 0.001), least)
                        .says("With G99 the cutter travels from hole to hole at R, only " + Words.mm(r)
                                + " above the foil top; with the bow allowed for it wants at least " + Words.mm(least)
                                + ".")
                        .doThis("Write G98, or raise R.")
                        .build());
            }
        }
    }

    /** A hole of a cycle. */
    private record Made(int line, double xMm, double yMm, int segment, boolean axisWordsAlone, boolean feedChanged) {}

    /** The holes of a program's cycles in the blank's frame, in order. */
    private static List<Made> holes(Examination x, PlannedProgram program) {
        Segments s = x.plan().segments();
        List<Integer> alone = new ArrayList<>();
        for (LanguageNote note : program.interpretation().notes(NoteKind.CYCLE_REPEATED)) {
            alone.add(note.span().line());
        }
        List<Integer> feeds = feedLines(program.interpretation().commands());
        List<Made> holes = new ArrayList<>();
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            boolean down = s.has(i, Segments.CANNED_CYCLE) && s.isFeed(i) && s.z1Mm(i) < s.z0Mm(i);
            int line = s.line(i);
            boolean same = !holes.isEmpty()
                    && holes.get(holes.size() - 1).line() == line
                    && StrictMath.hypot(
                                    holes.get(holes.size() - 1).xMm() - s.x1Mm(i),
                                    holes.get(holes.size() - 1).yMm() - s.y1Mm(i))
                            < 1e-6;
            if (down && !same) {
                int before = holes.isEmpty() ? 0 : holes.get(holes.size() - 1).line();
                boolean changed = before > 0 && feeds.stream().anyMatch(f -> f > before && f < line);
                holes.add(new Made(line, s.x1Mm(i), s.y1Mm(i), i, alone.contains(line), changed));
            }
        }
        return holes;
    }

    /** The lines that set a feed and move nothing. */
    private static List<Integer> feedLines(CanonicalProgram commands) {
        List<Integer> lines = new ArrayList<>();
        List<Integer> moving = new ArrayList<>();
        for (int i = 0; i < commands.size(); i++) {
            if (commands.isMotion(i)) {
                moving.add(commands.line(i));
            } else if (commands.kind(i) == CommandKind.SET_FEED) {
                lines.add(commands.line(i));
            }
        }
        lines.removeAll(new java.util.HashSet<>(moving));
        return lines;
    }

    private static void extra(Examination x, PlannedProgram program, FindingCollector out) {
        List<Made> holes = holes(x, program);
        if (holes.stream().noneMatch(Made::axisWordsAlone)) {
            return;
        }
        Made onEdge = onEdge(x, holes);
        if (onEdge != null) {
            tell(x, program, onEdge, 1, Severity.STOP, out);
            return;
        }
        boolean unset = !program.interpretation().notes(NoteKind.UNITS_UNSET).isEmpty();
        double factor = 1;
        List<Made> missed = null;
        for (double f : unset ? new double[] {1, INCH_MM} : new double[] {1}) {
            List<Made> without = missed(x, program, holes, f);
            if (without != null && (missed == null || without.size() < missed.size())) {
                missed = without;
                factor = f;
            }
        }
        if (missed == null) {
            boolean leftOn =
                    !program.interpretation().notes(NoteKind.CYCLE_LEFT_MODAL).isEmpty();
            for (Made hole : holes) {
                boolean parked = leftOn && hole == holes.get(holes.size() - 1) && isProgramZero(program, hole);
                if (hole.axisWordsAlone() && (hole.feedChanged() || parked)) {
                    tell(x, program, hole, factor, Severity.WATCH, out);
                    return;
                }
            }
            return;
        }
        DrillFile drill = x.design().read().wholeDrill();
        for (Made hole : missed) {
            boolean parking = isProgramZero(program, hole);
            // a hole that is only out of its place is told as a hole (G3)
            boolean moved = drill != null && within(x, program, drill, mended(program, hole, factor), MOVED_MM);
            if (hole.axisWordsAlone() && (drill != null && !moved || hole.feedChanged() || parking)) {
                tell(x, program, hole, factor, Severity.STOP, out);
                return;
            }
        }
    }

    /** The first hole by axis words alone on the very edge of the blank or beside it, among others that lie on it. */
    private static @Nullable Made onEdge(Examination x, List<Made> holes) {
        Made found = null;
        int on = 0;
        for (Made hole : holes) {
            double radius = 0;
            RunFacts run = x.run(x.plan().segments().run(hole.segment()));
            if (run.tool() != null) {
                radius = run.tool().diameterMm() / 2;
            }
            boolean whole = hole.xMm() > radius
                    && hole.yMm() > radius
                    && hole.xMm() < x.job().blank().widthMm() - radius
                    && hole.yMm() < x.job().blank().heightMm() - radius;
            on += whole ? 1 : 0;
            found = found == null && !whole && hole.axisWordsAlone() ? hole : found;
        }
        return on >= DRILL_SHARE * holes.size() ? found : null;
    }

    private static boolean isProgramZero(PlannedProgram program, Made hole) {
        return StrictMath.hypot(
                        hole.xMm() - program.entry().workZeroMm().xMm(),
                        hole.yMm() - program.entry().workZeroMm().yMm())
                < 1e-6;
    }

    private static double[] mended(PlannedProgram program, Made hole, double factor) {
        double x0 = program.entry().workZeroMm().xMm();
        double y0 = program.entry().workZeroMm().yMm();
        return new double[] {x0 + (hole.xMm() - x0) * factor, y0 + (hole.yMm() - y0) * factor};
    }

    /** The holes that hit neither a hole of the drill file nor a milled ring; null where that cannot be said. */
    private static @Nullable List<Made> missed(Examination x, PlannedProgram program, List<Made> holes, double factor) {
        DrillFile drill = x.design().read().wholeDrill();
        List<Made> missed = new ArrayList<>();
        for (Made hole : holes) {
            double[] at = mended(program, hole, factor);
            boolean hit = drill != null
                    ? within(x, program, drill, at, x.limit(LimitKey.HOLE_PLACE) + 1e-9)
                    : x.design().read().layers().isEmpty() ? inRing(x, program, at) : onPad(x, program, at);
            if (!hit) {
                missed.add(hole);
            }
        }
        int hits = holes.size() - missed.size();
        boolean unsure = drill != null
                ? hits < DRILL_SHARE * holes.size()
                : hits < LEAST_HITS || hits < LEAST_SHARE * holes.size();
        return unsure ? null : missed;
    }

    private static boolean within(
            Examination x, PlannedProgram program, DrillFile drill, double[] at, double distanceMm) {
        PlaneMap map = x.design().blankFromDesign(program.side().number());
        for (DrillFile.Hole hole : drill.holes()) {
            if (StrictMath.hypot(map.xMm(hole.xMm(), hole.yMm()) - at[0], map.yMm(hole.xMm(), hole.yMm()) - at[1])
                    <= distanceMm) {
                return true;
            }
        }
        return false;
    }

    private static boolean onPad(Examination x, PlannedProgram program, double[] at) {
        PlaneMap map = x.design().designFromBlank(program.side().number());
        return x.design().read().layers().values().stream()
                .anyMatch(layer -> layer.covers(map.xMm(at[0], at[1]), map.yMm(at[0], at[1])));
    }

    private static boolean inRing(Examination x, PlannedProgram program, double[] at) {
        for (CutLoop loop : x.paths().loops()) {
            boolean ring = loop.side() == program.side().number()
                    && loop.extents().longerSideMm() <= RING_MM
                    && at[0] > loop.extents().x0Mm()
                    && at[0] < loop.extents().x1Mm()
                    && at[1] > loop.extents().y0Mm()
                    && at[1] < loop.extents().y1Mm();
            if (ring) {
                return true;
            }
        }
        return false;
    }

    private static void tell(
            Examination x, PlannedProgram program, Made hole, double factor, Severity severity, FindingCollector out) {
        double[] at = mended(program, hole, factor);
        Segments s = x.plan().segments();
        out.add(x.at(Finding.of(Kinds.CYCLE_SUSPECT, severity, Certainty.GEOMETRY), hole.segment())
                .at(at[0], at[1])
                .line(program.file(), hole.line())
                .time(s.startS(hole.segment()))
                .says("A canned cycle is still in force in this line: its axis words make one more hole at "
                        + Words.place(at[0], at[1])
                        + (severity == Severity.STOP
                                ? ", where no pad or hole is wanted"
                                : hole.feedChanged()
                                        ? "; the feed was changed just before, so a plain move was most likely meant"
                                        : ", the program's X0 Y0, and no G80 follows: a move to park was most likely meant")
                        + (factor != 1 ? " (with the units mended to inches)" : "") + ".")
                .doThis("Write G80 after the last hole, and G0 or G1 in this line.")
                .build());
    }
}
