package foilproof.findings;

import foilproof.language.CanonicalProgram;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;

/** G90 missing, or G91 left on so that the cuts walk away (A4). */
final class Distance implements Check {
    private static final double WALK_MM = 0.05;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.DISTANCE_MODE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            var unset = program.interpretation().notes(NoteKind.DISTANCE_UNSET);
            if (!unset.isEmpty()) {
                int line = unset.get(0).span().line();
                out.add(x.at(
                                Finding.of(Kinds.DISTANCE_MODE, Severity.STOP, Certainty.GEOMETRY),
                                x.firstSegmentFrom(program, line))
                        .line(program.file(), line)
                        .says("The program moves before it says G90 (absolute) or G91 (incremental): it relies on what"
                                + " the job before left behind. It was run as G90.")
                        .doThis("Write G90 into the first lines.")
                        .build());
            }
            boolean told = program.interpretation().errors().stream().anyMatch(d -> AbsoluteArc.meant(x, program, d));
            if (!told && !afterRetract(x, program, out)) {
                leftOn(x, program, out);
            }
        }
    }

    /** G91 of a retract (G91 G28 Z0) with no G90 after it: whatever is cut before the next G90 was meant as absolute. */
    private static boolean afterRetract(Examination x, PlannedProgram program, FindingCollector out) {
        Segments s = x.plan().segments();
        for (var note : program.interpretation().notes(NoteKind.INCREMENTAL_STRETCH)) {
            int line = note.span().line();
            if (!homes(program.interpretation().commands(), line)) {
                continue;
            }
            for (int i = x.firstSegmentFrom(program, line); i >= 0 && i < program.endSegment(); i++) {
                if (!program.interpretation().stateAtLine(s.line(i)).incremental()) {
                    break;
                }
                if (s.line(i) <= line) {
                    // the retract itself: what it meets on its way is told by itself
                    continue;
                }
                // from a home that nobody knows, nobody knows either where the feeds lead
                if (x.removes(i) || s.isFeed(i) && s.has(i, Segments.POSITION_UNKNOWN)) {
                    out.add(x.at(Finding.of(Kinds.DISTANCE_MODE, Severity.STOP, Certainty.GEOMETRY), i)
                            .says(
                                    "G91 (incremental) was written for the retract in line " + line
                                            + " and is still in force: the moves from here on count from where the cutter stands.")
                            .doThis("Write G90 right after the retract.")
                            .build());
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean homes(CanonicalProgram commands, int line) {
        for (int i = 0; i < commands.size() && commands.line(i) <= line; i++) {
            if (commands.line(i) == line
                    && commands.isMotion(i)
                    && (commands.flags(i) & CanonicalProgram.MACHINE_COORDINATES) != 0) {
                return true;
            }
        }
        return false;
    }

    private static boolean cutsBefore(Examination x, PlannedProgram program, int end) {
        for (int i = program.firstSegment(); i < end; i++) {
            if (x.removes(i)) {
                return true;
            }
        }
        return false;
    }

    private static void leftOn(Examination x, PlannedProgram program, FindingCollector out) {
        var stretches = program.interpretation().notes(NoteKind.INCREMENTAL_STRETCH);
        if (stretches.isEmpty()
                || !program.interpretation()
                        .stateAtLine(Math.max(0, program.interpretation().lastLine() - 1))
                        .incremental()) {
            return;
        }
        int line = stretches.get(stretches.size() - 1).span().line();
        int first = x.firstSegmentFrom(program, line);
        Segments s = x.plan().segments();
        int cut = -1;
        int feed = -1;
        int down = -1;
        int plunge = -1;
        for (int i = first; i >= 0 && i < program.endSegment(); i++) {
            cut = cut < 0 && x.removes(i) && !s.isRapid(i) ? i : cut;
            boolean lateral = s.isFeed(i) && s.planLengthMm(i) > 1e-6;
            feed = feed < 0 && lateral ? i : feed;
            plunge = plunge < 0 && lateral && down == i - 1 && down >= 0 ? down : plunge;
            down = s.isFeed(i) && !lateral && s.z1Mm(i) < s.z0Mm(i) - 1e-6 ? i : down;
        }
        // Z may have walked off too: feeds that should cut run through air. A retract or a way to park goes up or
        // along;
        // what plunges at feed and then travels was to cut
        cut = cut < 0 && (!cutsBefore(x, program, first) || plunge >= 0) ? feed : cut;
        int last = program.endSegment() - 1;
        if (cut < 0 || StrictMath.hypot(s.x1Mm(last) - s.x0Mm(first), s.y1Mm(last) - s.y0Mm(first)) < WALK_MM) {
            return;
        }
        out.add(x.at(Finding.of(Kinds.DISTANCE_MODE, Severity.STOP, Certainty.GEOMETRY), cut)
                .says("G91 (incremental) comes into force in line " + line
                        + " and stays on: the cuts after it walk and never return to where they began.")
                .doThis("Write G90 after the incremental moves.")
                .build());
    }
}
