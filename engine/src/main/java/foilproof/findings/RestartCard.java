package foilproof.findings;

import foilproof.bench.KeepOut;
import foilproof.language.CutterComp;
import foilproof.language.LengthUnits;
import foilproof.language.ModalState;
import foilproof.language.PathMode;
import foilproof.language.Plane;
import foilproof.language.SpindleTurn;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.stock.BoardTimeline;
import foilproof.stock.ComposedSide;
import foilproof.stock.Timeline;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * How to take a program up again at a line (L5): what must be in force there, where the cutter must stand, and the way
 * there (lift, traverse, spin up, descend), dry-run over the board as it is at that moment. It drives nothing: a person
 * reads it.
 *
 * @param program the program's file
 * @param line the line to begin with, from 1
 * @param state what must be in force before it
 * @param tool name of the cutter that must be in the collet
 * @param side the side, from 1
 * @param atMm where the tip must stand before the line: X, Y in the blank's frame, Z above the nominal foil top, mm
 * @param clearMm height above the nominal foil top at which the way there is free, mm
 * @param steps what to do, in order, as a person reads it; coordinates as the program counts them
 * @param problems why not to begin there: a stop for each
 */
public record RestartCard(
        String program,
        int line,
        ModalState state,
        String tool,
        int side,
        double[] atMm,
        double clearMm,
        List<String> steps,
        List<Finding> problems) {
    private static final double CLEAR_ABOVE_MM = 5;
    private static final double TOUCH_MM = 0.005;
    private static final int ROUND = 16;

    /** Copies place and lists. */
    public RestartCard {
        atMm = atMm.clone();
        steps = List.copyOf(steps);
        problems = List.copyOf(problems);
    }

    /** The card that an examination was asked for; null where none was, or where nothing moves at or after that line. */
    public static @Nullable RestartCard asked(Examination x) {
        return Restarts.card(x);
    }

    /** Where the tip must stand, a copy. */
    @Override
    public double[] atMm() {
        return atMm.clone();
    }

    /**
     * The card for a line.
     *
     * @param x the examined job
     * @param program one of its programs
     * @param line physical line, from 1
     * @param cutBefore whether the lines before have run on this very blank; false for a fresh one
     * @return the card, or null where nothing moves at or after that line
     */
    public static @Nullable RestartCard of(Examination x, PlannedProgram program, int line, boolean cutBefore) {
        int i = x.firstSegmentFrom(program, line);
        if (i < 0) {
            return null;
        }
        Segments s = x.plan().segments();
        RunFacts run = x.run(s.run(i));
        ModalState state = program.interpretation().stateAtLine(line - 1);
        double[] at = {s.x0Mm(i), s.y0Mm(i), run.blankFromRunMm(s.z0Mm(i))};
        double clear = clearMm(x, program, at[2]);
        List<Finding> problems = new ArrayList<>();
        modes(x, program, line, i, state, problems);
        descent(x, program, line, i, cutBefore ? s.startS(i) : -1, at, problems);
        return new RestartCard(
                program.file(),
                line,
                state,
                run.toolName(),
                program.side().number(),
                at,
                clear,
                steps(x, program, line, i, run, state, clear),
                problems);
    }

    private static double clearMm(Examination x, PlannedProgram program, double startMm) {
        double top = Math.max(startMm, x.side(program.side().number()).highestMm());
        for (KeepOut box : x.job().keepOuts()) {
            top = Math.max(top, box.topMm());
        }
        return top + CLEAR_ABOVE_MM;
    }

    private static Finding.Builder stop(Examination x, PlannedProgram program, int line, int i) {
        return x.at(Finding.of(Kinds.RAPID_IN_MATERIAL, Severity.STOP, Certainty.GEOMETRY), i)
                .line(program.file(), line);
    }

    private static void modes(
            Examination x, PlannedProgram program, int line, int i, ModalState state, List<Finding> problems) {
        boolean cycle = state.motionTenths() >= 810 && state.motionTenths() <= 890 || state.motionTenths() == 730;
        if (cycle && x.plan().segments().has(i, Segments.CANNED_CYCLE)) {
            problems.add(stop(x, program, line, i)
                    .says("A canned cycle is in force before this line: its R, Z and Q come from an earlier line, and a"
                            + " restart here would not know them.")
                    .doThis("Begin with the line that holds the cycle's G word.")
                    .build());
        }
        if (state.comp() != CutterComp.OFF) {
            problems.add(stop(x, program, line, i)
                    .says("Radius compensation is on before this line: a restart in mid-path would take the corner into"
                            + " the wall.")
                    .doThis("Begin where the compensation is switched on.")
                    .build());
        }
    }

    /** Going straight down to where the line begins must meet nothing that is still there at that moment. */
    private static void descent(
            Examination x,
            PlannedProgram program,
            int line,
            int i,
            double momentS,
            double[] at,
            List<Finding> problems) {
        Segments s = x.plan().segments();
        RunFacts run = x.run(s.run(i));
        if (run.tool() == null || s.has(i, Segments.START_UNKNOWN)) {
            return;
        }
        ComposedSide then = new BoardTimeline(x.stock(), Timeline.KEYFRAMES)
                .at(momentS, x.conditions())
                .side(program.side().number());
        double worst = depthMm(x, then, at[0], at[1], at[2]);
        double cell = then.cellMm();
        double radius = Math.max(0, run.tool().cutRadiusAtHeightMm(0) - 2 * cell);
        for (int a = 0; a < ROUND; a++) {
            double turn = 2 * Math.PI * a / ROUND;
            worst = Math.max(
                    worst,
                    depthMm(
                            x,
                            then,
                            at[0] + radius * StrictMath.cos(turn),
                            at[1] + radius * StrictMath.sin(turn),
                            at[2]));
        }
        if (worst > TOUCH_MM) {
            problems.add(stop(x, program, line, i)
                    .at(at[0], at[1])
                    .atMost(Measured.mm("material above the tip", worst, cell), 0)
                    .says("On the way down to where this line begins the cutter meets " + Words.mm(worst)
                            + " of material that is not cut yet.")
                    .doThis("Begin with an earlier line: the one that plunges.")
                    .build());
        }
    }

    /** How far a tip at a height lies below what is left at a place, mm; 0 beside the blank. */
    private static double depthMm(Examination x, ComposedSide side, double xMm, double yMm, double zMm) {
        if (!x.onBlank(xMm, yMm)) {
            return 0;
        }
        int i = (int) Math.min(side.columns() - 1, Math.floor(xMm / side.cellMm()));
        int j = (int) Math.min(side.rows() - 1, Math.floor(yMm / side.cellMm()));
        return Math.max(0, side.heightMm(i, j) - zMm);
    }

    private static List<String> steps(
            Examination x, PlannedProgram program, int line, int i, RunFacts run, ModalState state, double clearMm) {
        double scale = state.units().mmPerUnit();
        String unit = state.units() == LengthUnits.INCH ? " in" : " mm";
        Segments s = x.plan().segments();
        double px = (s.x0Mm(i) - program.entry().workZeroMm().xMm()) / scale;
        double py = (s.y0Mm(i) - program.entry().workZeroMm().yMm()) / scale;
        double pz = s.z0Mm(i) / scale;
        double high = (clearMm - run.nominalZeroMm()) / scale;
        List<String> steps = new ArrayList<>();
        steps.add("Lift the cutter: G0 Z" + number(high) + unit + " or higher, spindle off.");
        steps.add(
                "Make sure that " + Examination.called(run.toolName(), run.run().toolNumber())
                        + " is in the collet and its Z zero is right; touch it off again if in doubt.");
        steps.add("Set what the program has set by then: " + modal(state) + ".");
        if (state.spindle() != SpindleTurn.STOPPED) {
            steps.add("Start the spindle: S" + number(state.speedRpm())
                    + (state.spindle() == SpindleTurn.CLOCKWISE ? " M3" : " M4")
                    + ", and wait until it runs at speed.");
        }
        steps.add("Traverse at that height: G0 X" + number(px) + " Y" + number(py) + unit + ".");
        double feed = Double.isNaN(state.feedMmPerMin()) ? 60 : Math.min(60, state.feedMmPerMin());
        steps.add("Descend slowly: G1 Z" + number(pz) + unit + " F" + number(feed / scale) + unit + "/min"
                + (Double.isNaN(state.feedMmPerMin())
                        ? "."
                        : ", then set F" + number(state.feedMmPerMin() / scale) + "."));
        steps.add("Begin with line " + line + " of " + program.file() + ".");
        return steps;
    }

    /** The modal words in force, as they are typed. */
    private static String modal(ModalState state) {
        StringBuilder words = new StringBuilder(state.units() == LengthUnits.INCH ? "G20" : "G21");
        words.append(state.incremental() ? " G91" : " G90");
        words.append(state.plane() == Plane.XY ? " G17" : state.plane() == Plane.ZX ? " G18" : " G19");
        words.append(state.feedMode() == foilproof.language.FeedMode.INVERSE_TIME ? " G93" : " G94");
        words.append(' ').append(WorkOffsets.named(state.system())).append(" G40");
        words.append(state.lengthNumber() > 0 ? " G43 H" + state.lengthNumber() : " G49");
        if (state.pathMode() != PathMode.UNSET) {
            words.append(
                    state.pathMode() == PathMode.EXACT_PATH
                            ? " G61"
                            : state.pathMode() == PathMode.EXACT_STOP ? " G61.1" : " G64");
        }
        words.append(state.retractToOldZ() ? " G98" : " G99");
        return words.append(state.mist() ? " M7" : "")
                .append(state.flood() ? " M8" : "")
                .toString();
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.4f", value == 0 ? 0.0 : value);
        text = text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
        return text.equals("-0") ? "0" : text;
    }
}
