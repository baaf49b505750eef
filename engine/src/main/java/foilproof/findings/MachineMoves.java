package foilproof.findings;

import foilproof.bench.KeepOut;
import foilproof.bench.LimitKey;
import foilproof.language.CanonicalProgram;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Moves in machine coordinates and home (G53, G28, G30) that pass too low over the blank (A6). Clamps are looked at by
 * the check of keep-outs, which sees these moves too where machine positions are known.
 */
final class MachineMoves implements Check {
    /** G53 heights down to this below the machine's Z zero count as retracts, mm (common practice, no source). */
    private static final double TOP_OF_TRAVEL_MM = 15;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.RAPID_IN_MATERIAL);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            low(x, program, out);
            if (!program.interpretation()
                    .notes(NoteKind.MACHINE_POSITION_UNKNOWN)
                    .isEmpty()) {
                unknown(x, program, out);
            }
        }
    }

    /** The lines of a program that hold G53, G28 or G30. */
    private static Set<Integer> lines(PlannedProgram program) {
        Set<Integer> lines = new HashSet<>();
        CanonicalProgram commands = program.interpretation().commands();
        for (int i = 0; i < commands.size(); i++) {
            if (commands.isMotion(i) && (commands.flags(i) & CanonicalProgram.MACHINE_COORDINATES) != 0) {
                lines.add(commands.line(i));
            }
        }
        return lines;
    }

    private static void low(Examination x, PlannedProgram program, FindingCollector out) {
        Set<Integer> lines = lines(program);
        if (lines.isEmpty()) {
            return;
        }
        Segments s = x.plan().segments();
        double least = x.limit(LimitKey.RAPID_HEIGHT);
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (!s.isRapid(i)
                    || !lines.contains(s.line(i))
                    || s.has(i, Segments.POSITION_UNKNOWN)
                    || s.has(i, Segments.START_UNKNOWN)
                    // what removes material is told as a rapid in material anyway
                    || x.removedMm3(i) > x.limit(LimitKey.RAPID_VOLUME)) {
                continue;
            }
            boolean sideways = s.planLengthMm(i) > 1e-6;
            double height =
                    sideways || s.z1Mm(i) < s.z0Mm(i) - 1e-9 ? x.lowestAboveFoilMm(i) : Double.POSITIVE_INFINITY;
            if (height < least - 1e-9) {
                out.add(x.at(Finding.of(Kinds.RAPID_IN_MATERIAL, Severity.STOP, Certainty.SET_UP), i)
                        .atLeast(Measured.mm("height of the rapid above the foil", height, 0.001), least)
                        .says("The way of this G53, G28 or G30 "
                                + (sideways ? "crosses the blank " : "goes down over the blank to ")
                                + (height < 0 ? Words.mm(-height) + " below" : Words.mm(height) + " above")
                                + " the foil top.")
                        .doThis("Retract Z first (G91 G28 Z0 on a line of its own), then move X and Y.")
                        .build());
                return;
            }
        }
    }

    private static void unknown(Examination x, PlannedProgram program, FindingCollector out) {
        CanonicalProgram commands = program.interpretation().commands();
        Segments s = x.plan().segments();
        for (int i = 0; i < commands.size(); i++) {
            if (!commands.isMotion(i) || (commands.flags(i) & CanonicalProgram.MACHINE_COORDINATES) == 0) {
                continue;
            }
            int before = lastBefore(program, s, commands.line(i));
            boolean sideways = Math.abs(commands.endMm(i, 0) - commands.startMm(i, 0)) > 1e-9
                    || Math.abs(commands.endMm(i, 1) - commands.startMm(i, 1)) > 1e-9;
            double z =
                    before < 0 ? Double.POSITIVE_INFINITY : x.run(s.run(before)).blankFromRunMm(s.z1Mm(before));
            boolean lowSideways = sideways && z < clearMm(x, program);
            boolean lowers = isG53(program, commands.line(i))
                    && Math.abs(commands.endMm(i, 2) - commands.startMm(i, 2)) > 1e-9
                    && commands.endMm(i, 2) < -TOP_OF_TRAVEL_MM;
            if (lowSideways || lowers) {
                out.add(x.at(Finding.of(Kinds.RAPID_IN_MATERIAL, Severity.WATCH, Certainty.SET_UP), before)
                        .side(program.side().number())
                        .line(program.file(), commands.line(i))
                        .says(
                                "This line moves to a place in machine coordinates (G53, G28 or G30), and the job does not"
                                        + " say where the blank lies in them: "
                                        + (lowSideways
                                                ? "from " + Words.mm(z)
                                                        + " above the foil top it may pass through the blank or"
                                                        + " a clamp."
                                                : "how high Z " + Words.plainMm(commands.endMm(i, 2))
                                                        + " lies above the foil top, nobody knows."))
                        .doThis("Retract Z first, and give [machine] blank_at so that the way can be checked.")
                        .build());
                return;
            }
        }
    }

    /** Height above which nothing stands, mm above the nominal foil top. */
    private static double clearMm(Examination x, PlannedProgram program) {
        double top = x.side(program.side().number()).highestMm() + x.limit(LimitKey.RAPID_HEIGHT) - 1e-9;
        for (KeepOut box : x.job().keepOuts()) {
            top = Math.max(top, box.topMm());
        }
        return top;
    }

    private static boolean isG53(PlannedProgram program, int line) {
        for (LanguageNote note : program.interpretation().notes(NoteKind.MACHINE_POSITION_UNKNOWN)) {
            if (note.span().line() == line) {
                return note.text().equals("G53");
            }
        }
        return false;
    }

    private static int lastBefore(PlannedProgram program, Segments s, int line) {
        int found = -1;
        for (int i = program.firstSegment(); i < program.endSegment() && s.line(i) < line; i++) {
            found = i;
        }
        return found;
    }
}
