package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;

/** Arcs that run but look wrong: radii that differ, half turns in radius form (A14), unexpected full circles (A15). */
final class Arcs implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.ARC_SUSPECT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A14", "A15");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            radii(x, program, out);
            halfTurns(x, program, out);
            circles(x, program, out);
        }
    }

    private static void radii(Examination x, PlannedProgram program, FindingCollector out) {
        double watch = x.limit(LimitKey.ARC_RADIUS_WATCH);
        var notes = program.interpretation().notes(NoteKind.ARC_RADIUS_ERROR).stream()
                .filter(n -> n.value() > watch + roundingMm(program, n.span().line()))
                .toList();
        if (notes.isEmpty()) {
            return;
        }
        var worst = notes.get(0);
        for (var note : notes) {
            worst = note.value() > worst.value() ? note : worst;
        }
        out.add(x.at(
                        Finding.of(Kinds.ARC_SUSPECT, Severity.WATCH, Certainty.GEOMETRY),
                        x.firstSegmentFrom(program, worst.span().line()))
                .line(program.file(), worst.span().line())
                .atMost(Measured.mm("difference of the arc's radii", worst.value(), 0.0001), watch)
                .says("The arc's radii at start and end differ by " + Words.um(worst.value())
                        + (notes.size() > 1
                                ? "; " + Words.count(notes.size() - 1, "more arc differs", "more arcs differ")
                                        + " less."
                                : "."))
                .doThis("Export with more decimals, or check that arc centres are meant as offsets (G91.1).")
                .build());
    }

    /** Rounding to three decimals of a millimetre alone reaches 0.0023 mm; to four of an inch 2.54 times as much. */
    private static double roundingMm(PlannedProgram program, int line) {
        boolean inch = program.interpretation().stateAtLine(line).units().mmPerUnit() > 1;
        return inch ? 0.0038 : 0.0003;
    }

    private static void halfTurns(Examination x, PlannedProgram program, FindingCollector out) {
        double within = x.limit(LimitKey.ARC_HALF_TURN);
        for (var note : program.interpretation().notes(NoteKind.ARC_BY_RADIUS_FRAGILE)) {
            if (Math.abs(note.value() - 180) <= within) {
                out.add(x.at(
                                Finding.of(Kinds.ARC_SUSPECT, Severity.WATCH, Certainty.GEOMETRY),
                                x.firstSegmentFrom(program, note.span().line()))
                        .line(program.file(), note.span().line())
                        .measured(Measured.exact("sweep", note.value(), "deg"))
                        .says("An arc in radius form sweeps " + Words.number(note.value(), 2)
                                + " deg: so near a half turn its centre moves far with the last decimal.")
                        .doThis("Write the arc with I and J, or split it.")
                        .build());
                return;
            }
        }
    }

    private static void circles(Examination x, PlannedProgram program, FindingCollector out) {
        Segments s = x.plan().segments();
        double times = x.limit(LimitKey.ARC_SUSPECT_RATIO);
        for (int i = program.firstSegment() + 1; i + 1 < program.endSegment(); i++) {
            if (!s.isArc(i) || Math.abs(Math.abs(s.sweepRad(i)) - 2 * Math.PI) > 1e-9) {
                continue;
            }
            double before = s.planLengthMm(i - 1);
            double after = s.planLengthMm(i + 1);
            double radius = s.radiusMm(i);
            boolean inContour = s.isFeed(i - 1)
                    && s.isFeed(i + 1)
                    && s.isFeed(i)
                    && before > 1e-6
                    && after > 1e-6
                    && !(s.isArc(i - 1) && Math.abs(s.sweepRad(i - 1)) > 3)
                    && Math.abs(s.z0Mm(i) - s.z1Mm(i)) < 1e-6;
            if (inContour && radius > times * before && !rings(s, program, i) && !leadsOnly(s, program, i)) {
                out.add(x.at(Finding.of(Kinds.ARC_SUSPECT, Severity.STOP, Certainty.GEOMETRY), i)
                        .measured(Measured.mm("radius", radius, 0.0005))
                        .says("Start and end of this arc are one point, so it runs as a full circle of radius "
                                + Words.mm(radius) + ", while the moves beside it are only " + Words.plainMm(before)
                                + " long: a tiny arc was most likely rounded to nothing.")
                        .doThis("Export with more decimals, or replace the arc by a straight line.")
                        .build());
            }
        }
    }

    /** Whether another full circle comes within two moves: rings that clear an area from within. */
    private static boolean rings(Segments s, PlannedProgram program, int circle) {
        for (int i = circle - 2; i <= circle + 2; i++) {
            if (i != circle
                    && i >= program.firstSegment()
                    && i < program.endSegment()
                    && Math.abs(Math.abs(s.sweepRad(i)) - 2 * Math.PI) < 1e-9) {
                return true;
            }
        }
        return false;
    }

    /**
     * Whether all that a full circle hangs together with is a lead-in and a lead-out of at most two moves each, short
     * beside the circle: then the circle is what was meant.
     */
    private static boolean leadsOnly(Segments s, PlannedProgram program, int circle) {
        double length = 0;
        int most = 2;
        for (int step : new int[] {-1, 1}) {
            int moves = 0;
            for (int i = circle + step;
                    i >= program.firstSegment() && i < program.endSegment() && s.isFeed(i) && s.planLengthMm(i) > 1e-6;
                    i += step) {
                length += s.planLengthMm(i);
                if (++moves > most) {
                    return false;
                }
            }
        }
        return s.planLengthMm(circle) > 2 * length;
    }
}
