package foilproof.dryrun;

import foilproof.bench.Job;
import foilproof.bench.LimitKey;
import foilproof.bench.Machine;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.bench.WhatIf;
import foilproof.bench.ZZero;
import foilproof.findings.BlankLies;
import foilproof.findings.Examination;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Measured;
import foilproof.findings.RunFacts;
import foilproof.findings.Severity;
import foilproof.findings.Words;
import foilproof.language.LanguageNote;
import foilproof.language.ModalState;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.source.SourceFile;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The mends that can be assumed of a cause: a condition of the job that is other than it says, or a line of a program as
 * it was most likely meant. The job's own files are never changed.
 */
final class Mends {
    /** Between 1 and 25.4, nearer to neither in ratio. */
    private static final double FIFTH = 5.04;

    /** Height above the foil top at which a rapid is free of everything but clamps, mm. */
    private static final double FREE_MM = 5;

    private static final Pattern MOTION = Pattern.compile("(?i)G\\s*0*[0-3](?![\\d.])");
    private static final Pattern CENTRE = Pattern.compile("(?i)[IJKR]\\s*[-+]?[\\d.]");

    /**
     * A mend.
     *
     * @param job the job with it
     * @param assuming what it assumes, in words that follow "if"
     * @param causeStays whether the cause is found again though it is mended
     */
    record Mend(Job job, String assuming, boolean causeStays) {}

    private Mends() {}

    /** The mends of a cause that stands in a program; none where nobody can know what was meant. */
    static List<Mend> of(Examination x, Finding cause) {
        if (cause.kind().equals(Kinds.TILT)) {
            return level(x.job(), cause);
        }
        String program = cause.program();
        boolean grave = cause.severity() == Severity.STOP
                || cause.kind().equals(Kinds.WORK_OFFSET) && cause.severity() == Severity.FIX;
        if (program == null || !grave) {
            return List.of();
        }
        return switch (cause.kind()) {
            case Kinds.UNITS_UNSET -> units(x, program);
            case Kinds.WRONG_Z_REFERENCE -> zReference(x, cause, program);
            case Kinds.LENGTH_OFFSET -> lengths(x.job());
            case Kinds.TOUCH_OFF_SPOILT -> touch(x, cause);
            default -> text(x, cause, program);
        };
    }

    /** The blank of a side stuck down again: the best plane taken out of its touched points, their bow left in. */
    private static List<Mend> level(Job job, Finding cause) {
        List<Side> sides = new ArrayList<>();
        for (Side side : job.sides()) {
            boolean tilted = cause.side() != null && cause.side() == side.number();
            sides.add(tilted ? side.withSurface(BlankLies.levelled(side.surface())) : side);
        }
        return List.of(new Mend(job.withSides(sides), "the blank of side " + cause.side() + " is not tilted", false));
    }

    private static List<Mend> units(Examination x, String program) {
        Job job = x.job();
        List<Mend> out = new ArrayList<>();
        if (job.machine().units() == Machine.Units.UNKNOWN) {
            for (Machine.Units units : likelyUnits(x, program)) {
                out.add(new Mend(
                        job.withWhatIf(job.whatIf().withProgramUnits(program, units)),
                        program + " is in " + (units == Machine.Units.MM ? "mm (G21)" : "inches (G20)"),
                        true));
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

    /** Another zero than declared for a whole side, where it makes the depth a usual one; else ten times too much. */
    private static List<Mend> zReference(Examination x, Finding cause, String program) {
        Job job = x.job();
        Measured depth = cause.measured();
        if (depth == null) {
            return List.of();
        }
        for (Side side : job.sides()) {
            for (ProgramEntry entry : side.programs()) {
                if (!entry.file().equals(program) || cause.side() != null && cause.side() != side.number()) {
                    continue;
                }
                boolean foil = entry.zZero() == ZZero.FOIL;
                double otherMm = depth.value() + (foil ? 1 : -1) * (x.thicknessMm() + side.tapeMm());
                if (otherMm >= x.limit(LimitKey.COPPER_DEPTH_LEAST) && otherMm <= x.limit(LimitKey.COPPER_DEPTH_MOST)) {
                    ZZero other = foil ? ZZero.SPOIL_BOARD : ZZero.FOIL;
                    return List.of(new Mend(
                            withZero(job, side.number(), entry.zZero(), other),
                            "Z 0 of these programs lies " + (foil ? "on the spoil board" : "at the foil top"),
                            false));
                }
            }
        }
        if (depth.value() <= 0) {
            return List.of();
        }
        boolean shallow = depth.value() < 0.05;
        double meantMm = shallow ? depth.value() * 10 : depth.value() / 10;
        return List.of(new Mend(
                job.withWhatIf(job.whatIf().withProgramZMm(program, meantMm - depth.value())),
                program + " was meant to reach " + Words.mm(meantMm) + " below the foil top, not "
                        + Words.mm(depth.value()),
                true));
    }

    private static Job withZero(Job job, int number, ZZero from, ZZero to) {
        List<Side> sides = new ArrayList<>();
        for (Side side : job.sides()) {
            List<ProgramEntry> programs = new ArrayList<>();
            for (ProgramEntry e : side.programs()) {
                ZZero zero = side.number() == number && e.zZero() == from ? to : e.zZero();
                programs.add(e.withZZero(zero));
            }
            ZZero zero = side.number() == number && side.zZero() == from ? to : side.zZero();
            sides.add(side.withZZero(zero).withPrograms(programs));
        }
        return job.withSides(sides);
    }

    private static List<Mend> lengths(Job job) {
        Machine.OnToolChange now = job.machine().onToolChange();
        return now == Machine.OnToolChange.MEASURED || now == Machine.OnToolChange.IGNORED
                ? List.of(new Mend(
                        job.withMachine(job.machine().withOnToolChange(Machine.OnToolChange.STOP)),
                        "each cutter is put in and touched off at its change",
                        false))
                : List.of();
    }

    /** The cutter touched off on foil as high as it was before anything was cut. */
    private static List<Mend> touch(Examination x, Finding cause) {
        for (RunFacts run : x.runs()) {
            double[] at = cause.atMm();
            boolean same = cause.timeS() != null
                    && at != null
                    && run.tool() != null
                    && run.run().zeroRun() == run.run().index()
                    && run.toolName().equals(cause.tool())
                    && Math.abs(run.run().startS() - cause.timeS()) < 1e-9;
            if (!same) {
                continue;
            }
            double lowMm = x.board()
                            .before(run.side().number(), run.run().index())
                            .surfaceMm(run.run().touchXMm(), run.run().touchYMm())
                    - run.zeroMm();
            if (lowMm < 1e-6) {
                return List.of();
            }
            WhatIf old = x.job().whatIf();
            Map<Integer, Double> runs = new TreeMap<>(old.runZMm());
            for (RunFacts other : x.runs()) {
                if (other.run().zeroRun() == run.run().index()) {
                    runs.merge(other.run().index(), -lowMm, Double::sum);
                }
            }
            return List.of(new Mend(
                    x.job().withWhatIf(old.withRunZMm(runs)),
                    run.quotedName() + " is touched off on foil that nothing has cut",
                    true));
        }
        return List.of();
    }

    // ---- lines of a program as they were most likely meant

    private static List<Mend> text(Examination x, Finding cause, String file) {
        Integer line = cause.line();
        PlannedProgram program = x.plan().programs().stream()
                .filter(p -> p.file().equals(file)
                        && (cause.side() == null || cause.side() == p.side().number()))
                .findFirst()
                .orElse(null);
        if (program == null || line == null) {
            return List.of();
        }
        String[] lines = program.interpretation().source().latin1().split("\r\n|\r|\n", -1);
        if (line > lines.length) {
            return List.of();
        }
        String[] written = lines.clone();
        String assuming = edit(x, cause, program, lines, line);
        if (assuming == null || computed(written, lines)) {
            return List.of();
        }
        SourceFile mended = SourceFile.of(file, String.join("\n", lines).getBytes(StandardCharsets.ISO_8859_1));
        List<Side> sides = new ArrayList<>();
        for (Side side : x.job().sides()) {
            List<ProgramEntry> programs = new ArrayList<>();
            for (ProgramEntry e : side.programs()) {
                programs.add(e.file().equals(file) ? e.withSource(mended) : e);
            }
            sides.add(side.withPrograms(programs));
        }
        return List.of(new Mend(x.job().withSides(sides), assuming, false));
    }

    /** Whether a line that was changed holds values that are worked out: what they were meant to be stands nowhere. */
    private static boolean computed(String[] written, String[] lines) {
        for (int k = 0; k < lines.length; k++) {
            String was = bare(written[k]);
            if (!lines[k].equals(written[k]) && (was.indexOf('#') >= 0 || was.indexOf('[') >= 0)) {
                return true;
            }
        }
        return false;
    }

    /** Changes lines, and says what that assumes; null where nothing can be assumed. */
    private static @Nullable String edit(
            Examination x, Finding cause, PlannedProgram program, String[] lines, int line) {
        return switch (cause.kind()) {
            case Kinds.ARC_SUSPECT -> arc(lines, line);
            case Kinds.DECIMAL_SLIP -> point(cause, lines, line);
            case Kinds.WORK_OFFSET -> offset(program, lines);
            case Kinds.CYCLE_SUSPECT -> cycle(cause, program, lines, line);
            case Kinds.DISTANCE_MODE -> distance(program, lines, line);
            case Kinds.RAPID_IN_MATERIAL -> rapids(x, program, lines);
            default -> null;
        };
    }

    private static String bare(String line) {
        return line.replaceAll("\\([^)]*\\)", "").replaceAll(";.*", "");
    }

    /** Start and end are one point: without the arc the way goes on. */
    private static @Nullable String arc(String[] lines, int line) {
        String next = line < lines.length ? bare(lines[line]) : "";
        if (!MOTION.matcher(next).find() && CENTRE.matcher(next).find()) {
            return null;
        }
        lines[line - 1] = bare(lines[line - 1])
                .replaceAll("(?i)G\\s*0*[23](?![\\d.])", "")
                .replaceAll("(?i)[XYZIJKRP]\\s*[-+]?[\\d.]+", "");
        return "line " + line + " was a tiny arc that rounding left no length";
    }

    /** The point put where the program's other words have it. */
    private static @Nullable String point(Finding cause, String[] lines, int line) {
        Measured word = cause.measured();
        if (word == null || !word.name().startsWith("axis word ")) {
            return null;
        }
        String axis = word.name().substring("axis word ".length());
        int[] counts = new int[8];
        Pattern decimals = Pattern.compile("(?i)[XYZ]\\s*[-+]?\\d*\\.(\\d+)");
        for (String text : lines) {
            Matcher m = decimals.matcher(bare(text));
            while (m.find()) {
                counts[Math.min(7, m.group(1).length())]++;
            }
        }
        int places = 3;
        for (int k = 1; k < counts.length; k++) {
            places = counts[k] > counts[places] ? k : places;
        }
        Matcher m =
                Pattern.compile("(?i)(" + axis + "\\s*[-+]?)(\\d+)(?![\\d.])").matcher(bare(lines[line - 1]));
        if (!m.find()) {
            return null;
        }
        String digits = "0".repeat(Math.max(0, places + 1 - m.group(2).length())) + m.group(2);
        String meant = m.group(1) + digits.substring(0, digits.length() - places) + "."
                + digits.substring(digits.length() - places);
        lines[line - 1] = m.replaceFirst(Matcher.quoteReplacement(meant));
        return meant + " is meant in line " + line;
    }

    /** The shifts of a program taken out, but for those that probing sets. */
    private static @Nullable String offset(PlannedProgram program, String[] lines) {
        List<Integer> taken = new ArrayList<>();
        for (NoteKind kind : List.of(NoteKind.G92_IN_FORCE, NoteKind.ORIGIN_SET)) {
            for (LanguageNote note : program.interpretation().notes(kind)) {
                int at = note.span().line();
                if (at >= 1 && at <= lines.length && !taken.contains(at)) {
                    taken.add(at);
                    lines[at - 1] = "";
                }
            }
        }
        return taken.isEmpty() ? null : "the shift in line " + taken.get(0) + " of " + program.file() + " is taken out";
    }

    private static @Nullable String cycle(Finding cause, PlannedProgram program, String[] lines, int line) {
        String text = bare(lines[line - 1]);
        Measured r = cause.measured();
        if (cause.consequences().stream().anyMatch(f -> f.kind().equals(Kinds.PROGRAM_ERROR))) {
            return null;
        }
        if (r == null) {
            lines[line - 1] = text.replaceAll("(?i)[XYZRQLP]\\s*[-+]?[\\d.]+", "");
            return "line " + line + " makes no hole";
        }
        if (cause.limit() == null
                || !Pattern.compile("(?i)R\\s*[-+]?[\\d.]").matcher(text).find()) {
            return null;
        }
        double perUnit = program.interpretation().stateAtLine(line).units().mmPerUnit();
        Matcher old = Pattern.compile("(?i)R\\s*([-+]?[\\d.]+)").matcher(text);
        if (!old.find()) {
            return null;
        }
        double raisedMm = Math.max(1, cause.limit().value() + 0.5) - r.value();
        double value = Double.parseDouble(old.group(1)) + raisedMm / perUnit;
        lines[line - 1] = old.replaceFirst("R" + Words.number(value, 4));
        return "R of line " + line + " lies " + Words.plainMm(r.value() + raisedMm) + " above the foil top";
    }

    private static @Nullable String distance(PlannedProgram program, String[] lines, int line) {
        ModalState state = program.interpretation().stateAtLine(line);
        int from = 0;
        for (LanguageNote note : program.interpretation().notes(NoteKind.INCREMENTAL_STRETCH)) {
            from = note.span().line() <= line ? Math.max(from, note.span().line()) : from;
        }
        if (!state.incremental() || from == 0) {
            return null;
        }
        // the line that says G91 lies at the first move of the stretch or before it
        Pattern g91 = Pattern.compile("(?i)G\\s*91(?![\\d.])");
        for (int k = from; k >= 1; k--) {
            String text = bare(lines[k - 1]);
            if (g91.matcher(text).find()) {
                boolean homes = Pattern.compile("(?i)G\\s*(28|30|53)(?![\\d.])")
                        .matcher(text)
                        .find();
                if (!homes) {
                    lines[k - 1] = g91.matcher(text).replaceFirst("G90");
                } else if (k < lines.length) {
                    lines[k] = bare(lines[k]).replaceFirst("(?i)^(\\s*N\\s*\\d+)?", "$1 G90 ");
                }
                return "G90 is in force from line " + (homes ? k + 1 : k) + " of " + program.file() + " on";
            }
        }
        return null;
    }

    /** Rapids in material that travel run free of it; those that only plunge run at feed. */
    private static @Nullable String rapids(Examination x, PlannedProgram program, String[] lines) {
        Segments s = x.plan().segments();
        List<Integer> raised = new ArrayList<>();
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            int line = s.line(i);
            if (!s.isRapid(i) || !x.removes(i) || line < 1 || line > lines.length || raised.contains(line)) {
                continue;
            }
            ModalState state = program.interpretation().stateAtLine(line);
            if (s.has(i, Segments.CANNED_CYCLE) || state.incremental() || s.planLengthMm(i) < 1e-6) {
                return null;
            }
            raised.add(line);
            double perUnit = state.units().mmPerUnit();
            double upMm = FREE_MM - x.run(s.run(i)).blankFromRunMm(s.z1Mm(i));
            Matcher z = Pattern.compile("(?i)Z\\s*([-+]?[\\d.]+)").matcher(bare(lines[line - 1]));
            double wasZ = z.find() ? Double.parseDouble(z.group(1)) : lastZ(lines, line);
            if (Double.isNaN(wasZ)) {
                return null;
            }
            String free = "Z" + Words.number(wasZ + upMm / perUnit, 4);
            String text = bare(lines[line - 1]).replaceAll("(?i)Z\\s*[-+]?[\\d.]+", "");
            lines[line - 1] = text + " " + free;
            for (int k = line; k < lines.length; k++) {
                String next = bare(lines[k]);
                if (Pattern.compile("(?i)[XYZ]\\s*[-+]?[\\d.]").matcher(next).find()) {
                    boolean down = !Pattern.compile("(?i)Z\\s*[-+]?[\\d.]")
                            .matcher(next)
                            .find();
                    lines[k] = down ? next + " Z" + Words.number(wasZ, 4) : next;
                    break;
                }
            }
        }
        return raised.isEmpty() ? null : "the rapids of " + program.file() + " run clear of the blank";
    }

    private static double lastZ(String[] lines, int before) {
        Pattern z = Pattern.compile("(?i)Z\\s*([-+]?[\\d.]+)");
        for (int k = before - 1; k >= 1; k--) {
            Matcher m = z.matcher(bare(lines[k - 1]));
            if (m.find()) {
                return Double.parseDouble(m.group(1));
            }
        }
        return Double.NaN;
    }
}
