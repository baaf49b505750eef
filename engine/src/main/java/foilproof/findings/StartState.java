package foilproof.findings;

import foilproof.bench.Machine;
import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.language.Dialect;
import foilproof.language.Interpretation;
import foilproof.language.Interpreter;
import foilproof.language.InterpreterSetup;
import foilproof.language.LengthUnits;
import foilproof.language.ToolTable;
import foilproof.motion.PlannedProgram;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A program that cuts another board when the job before left another state (A24): each program is run again from other
 * start states, and its motion is compared. Units (A1), distance mode (A4) and the work coordinate system (A5) are told
 * by their own checks; a motion mode or cycle left behind counts nowhere, since axis words before the first G0 to G3 are
 * an error. Another plane is a watch, since M2 does not run after a job that was stopped and G18 and G19 are in daily
 * use; what only an aborted job leaves (compensation, a length offset, inverse time, absolute arc centres, G99) is a note.
 */
final class StartState implements Check {
    private static final double SAME_MM = 1e-9;

    /** A state that may have been left, as the line that sets it, and what a person calls it. */
    private record Left(String line, String words, boolean daily) {}

    private static final List<Left> STATES = List.of(
            new Left("G18", "the XZ plane (G18)", true),
            new Left("G19", "the YZ plane (G19)", true),
            new Left("G93", "inverse time feed (G93)", false),
            new Left("G41 D1", "radius compensation (G41)", false),
            new Left("G43 H1", "a length offset (G43)", false),
            new Left("G90.1", "absolute arc centres (G90.1)", false),
            new Left("G99", "the low retract of cycles (G99)", false));

    /** Every cutter has a length and a diameter: what is left behind counts. */
    private static final ToolTable TOOLS = new ToolTable() {
        @Override
        public boolean exists(int number) {
            return true;
        }

        @Override
        public double lengthMm(int number) {
            return 20;
        }

        @Override
        public double diameterMm(int number) {
            return 0.8;
        }
    };

    @Override
    public List<String> kinds() {
        return List.of(Kinds.START_STATE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A24");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            judge(x, program, out);
        }
    }

    private static void judge(Examination x, PlannedProgram program, FindingCollector out) {
        SourceFile source = program.interpretation().source();
        String text = source.latin1();
        int first = firstMotionLine(program.interpretation().commands());
        if (first < 0) {
            return;
        }
        InterpreterSetup setup = setup(x);
        String head = head(text, first);
        Interpretation headAlone = Interpreter.interpret(SourceFile.ofText(source.name(), after(head, "")), setup);
        String units =
                switch (headAlone.stateAtLine(first).units()) {
                    case INCH -> "G20 ";
                    case MM -> "G21 ";
                    case UNKNOWN -> "";
                };
        @Nullable Interpretation base = null;
        List<String> aborted = new ArrayList<>();
        int noteLine = Integer.MAX_VALUE;
        boolean told = false;
        for (Left left : STATES) {
            if (left.line().equals("G90.1") && setup.dialect() == Dialect.STRICT) {
                continue;
            }
            // left by a job in the same units: a change of units is A1's, and an error under compensation
            String before = units + left.line();
            // what the lines before the first move set again cannot make a difference later
            Interpretation headThen =
                    Interpreter.interpret(SourceFile.ofText(source.name(), after(head, before)), setup);
            if (headThen.stateAtLine(first).equals(headAlone.stateAtLine(first))) {
                continue;
            }
            base = base == null
                    ? Interpreter.interpret(SourceFile.ofText(source.name(), after(text, "")), setup)
                    : base;
            int line = firstDifference(
                    base, Interpreter.interpret(SourceFile.ofText(source.name(), after(text, before)), setup));
            int segment = line < 0 ? -1 : x.firstSegmentFrom(program, line);
            if (segment < 0 || !cutsFrom(x, program, segment)) {
                continue;
            }
            if (!left.daily()) {
                aborted.add(left.words());
                noteLine = Math.min(noteLine, line);
            } else if (!told) {
                told = true;
                out.add(x.at(Finding.of(Kinds.START_STATE, Severity.WATCH, Certainty.GEOMETRY), segment)
                        .line(program.file(), line)
                        .says("This line relies on the XY plane without G17 before it: after a job that left "
                                + left.words()
                                + " in force, it runs in another plane or stops with an error.")
                        .doThis("Begin the program with a safe-start line such as G21 G90 G94 G17 G40 G49 G80 G54.")
                        .build());
            }
        }
        if (!aborted.isEmpty()) {
            out.add(x.at(
                            Finding.of(Kinds.START_STATE, Severity.NOTE, Certainty.GEOMETRY),
                            x.firstSegmentFrom(program, noteLine))
                    .line(program.file(), noteLine)
                    .says(
                            "After a job that was stopped half-way, from this line on the program would run otherwise where"
                                    + " that job left in force: " + String.join(", ", aborted) + ".")
                    .doThis(
                            "Begin the program with a safe-start line such as G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G98.")
                    .build());
        }
    }

    private static InterpreterSetup setup(Examination x) {
        Machine m = x.job().machine();
        return InterpreterSetup.builder()
                .dialect(m.dialect())
                .initialUnits(
                        switch (m.units()) {
                            case MM -> LengthUnits.MM;
                            case INCH -> LengthUnits.INCH;
                            case UNKNOWN -> LengthUnits.UNKNOWN;
                        })
                .blockDelete(m.blockDelete())
                .missedProbeIsError(false)
                .tools(TOOLS)
                .build();
    }

    private static int firstMotionLine(CanonicalProgram commands) {
        for (int i = 0; i < commands.size(); i++) {
            if (commands.isMotion(i)) {
                return commands.line(i);
            }
        }
        return -1;
    }

    /** The lines before the first move. */
    private static String head(String text, int firstMotionLine) {
        int from = 0;
        for (int line = 1; line < firstMotionLine; line++) {
            int end = text.indexOf('\n', from);
            if (end < 0) {
                return text;
            }
            from = end + 1;
        }
        return text.substring(0, from);
    }

    /** A program with one line more at its beginning: after the percent sign that opens it, where there is one. */
    private static String after(String text, String line) {
        int from = 0;
        while (from < text.length() && Character.isWhitespace(text.charAt(from))) {
            from++;
        }
        if (from < text.length() && text.charAt(from) == '%') {
            int end = text.indexOf('\n', from);
            int cut = end < 0 ? text.length() : end + 1;
            return text.substring(0, cut) + line + "\n" + text.substring(cut);
        }
        return line + "\n" + text;
    }

    /** Line of the first move that differs, as the program itself counts lines; -1 where none does. */
    private static int firstDifference(Interpretation a, Interpretation b) {
        CanonicalProgram p = a.commands();
        CanonicalProgram q = b.commands();
        int j = 0;
        for (int i = 0; i < p.size(); i++) {
            if (!p.isMotion(i)) {
                continue;
            }
            while (j < q.size() && !q.isMotion(j)) {
                j++;
            }
            if (j >= q.size() || !same(p, i, q, j)) {
                return p.line(i) - 1;
            }
            j++;
        }
        return -1;
    }

    private static boolean same(CanonicalProgram p, int i, CanonicalProgram q, int j) {
        if (p.kind(i) != q.kind(j)
                || p.line(i) != q.line(j)
                || Double.compare(p.feedMmPerMin(i), q.feedMmPerMin(j)) != 0) {
            return false;
        }
        for (int axis = 0; axis < 3; axis++) {
            if (Math.abs(p.endMm(i, axis) - q.endMm(j, axis)) > SAME_MM) {
                return false;
            }
        }
        return p.kind(i) != CommandKind.ARC_FEED
                || p.plane(i) == q.plane(j)
                        && p.turn(i) == q.turn(j)
                        && Math.abs(p.centreFirstMm(i) - q.centreFirstMm(j)) <= SAME_MM
                        && Math.abs(p.centreSecondMm(i) - q.centreSecondMm(j)) <= SAME_MM;
    }

    private static boolean cutsFrom(Examination x, PlannedProgram program, int segment) {
        for (int i = segment; i < program.endSegment(); i++) {
            if (x.removes(i)) {
                return true;
            }
        }
        return false;
    }
}
