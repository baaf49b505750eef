package foilproof.study;

import foilproof.bench.IntervalMm;
import foilproof.bench.Spread;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.XyMm;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.findings.CopperFacts;
import foilproof.findings.Examination;
import foilproof.findings.RunFacts;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

/**
 * How often every tool run stays within its Z window when the set-up varies as its spread says: seeded trials, each
 * number uniform within its spread. Nothing is swept again: every number moves an end of a window.
 *
 * <ul>
 *   <li>touch-off of each run, bow of each side (shared by its runs): the Z error itself, as [spread] says it;
 *   <li>foil weight (-10 % to +20 %, material tolerance of needs.md): more foil wants as much more depth;
 *   <li>thickness of the blank: the Z error of runs whose zero lies on the spoil board;
 *   <li>tip width (worn by up to 0.03 mm), runout (up to 0.03 mm more), backlash and XY shift (the machine's backlash and
 *       repeatability): a V-groove wider by w is one deeper by w / (2 tan(angle / 2)) where copper's width ends the
 *       window.
 * </ul>
 *
 * A number is counted as a cause of a failed trial where the trial would have held with that number as it should be (at
 * the middle of a spread that was said outright). The odds are of these numbers alone and relative: what they leave out
 * is not in them. Wear and runout that are assumed are common practice, no source.
 *
 * @param seed seed of the trials
 * @param trials trials made
 * @param good trials in which every run stayed within its window
 * @param causes numbers by how many failed trials they cause, worst first
 */
public record Odds(long seed, int trials, int good, List<Cause> causes) {
    /** Seed of the trials. */
    public static final long SEED = 20260101L;

    private static final int TRIALS = 20_000;

    /** Copies the list. */
    public Odds {
        causes = List.copyOf(causes);
    }

    /**
     * A number of the set-up.
     *
     * @param what the number, in words
     * @param failures failed trials that would have held without its error
     */
    public record Cause(String what, int failures) {}

    /** One tool run: its window and where its error comes from. */
    private record Line(
            @Nullable Double lowMm,
            @Nullable Double highMm,
            boolean empty,
            double fromMm,
            double toMm,
            double restMm,
            double bowMm,
            int bow,
            boolean onSpoilBoard,
            boolean needsFoil,
            double depthPerWidth,
            String name) {
        boolean holds(double errorMm, double foilMm, double thicknessMm, double widthMm) {
            double atMm = errorMm + (onSpoilBoard ? thicknessMm : 0);
            return !empty
                    && (lowMm == null || atMm >= lowMm + (needsFoil ? foilMm : 0))
                    && (highMm == null || atMm + depthPerWidth * widthMm <= highMm);
        }
    }

    /** The odds of a job; null where no run has a window. */
    static @Nullable Odds of(Examination x) {
        List<Line> lines = lines(x);
        if (lines.isEmpty()) {
            return null;
        }
        Trial trial = new Trial(x, lines);
        int good = 0;
        SplittableRandom random = new SplittableRandom(SEED);
        int[] failures = new int[trial.values.length];
        for (int n = 0; n < TRIALS; n++) {
            trial.draw(random);
            if (trial.holds()) {
                good++;
            } else {
                trial.blame(failures);
            }
        }
        return new Odds(SEED, TRIALS, good, causes(trial, failures));
    }

    /** One set-up: the values of all its numbers, first the touch-offs, then the bows, then what all runs share. */
    private static final class Trial {
        private static final double FOIL_LESS = 0.10;
        private static final double FOIL_MORE = 0.20;
        private static final double WORN_MM = 0.03;
        private static final double RUNOUT_MM = 0.03;

        private final List<Line> lines;
        private final int bows;
        private final int shared;
        private final double[] values;
        private final double[] from;
        private final double[] to;
        private final double[] rest;
        private final String[] names;

        Trial(Examination x, List<Line> lines) {
            this.lines = lines;
            bows = lines.size();
            shared = bows + x.job().sides().size();
            values = new double[shared + 6];
            from = new double[values.length];
            to = new double[values.length];
            rest = new double[values.length];
            names = new String[values.length];
            for (int k = 0; k < bows; k++) {
                number(
                        k,
                        lines.get(k).name(),
                        lines.get(k).fromMm(),
                        lines.get(k).toMm());
                rest[k] = lines.get(k).restMm();
            }
            for (int k = bows; k < shared; k++) {
                number(k, "bow of the blank on side " + (k - bows + 1), 0, 1);
            }
            double thicknessMm = x.job().spread().thicknessMm();
            XyMm backlash = x.job().machine().backlashMm();
            double repeatMm = x.job().machine().repeatabilityMm();
            number(shared, "thickness of the foil", -FOIL_LESS * x.foilMm(), FOIL_MORE * x.foilMm());
            number(shared + 1, "thickness of the blank", -thicknessMm, thicknessMm);
            number(shared + 2, "wear of the tips", 0, WORN_MM);
            number(shared + 3, "runout", 0, RUNOUT_MM);
            number(shared + 4, "backlash", 0, Math.max(backlash.xMm(), backlash.yMm()));
            number(shared + 5, "XY shift", 0, repeatMm);
        }

        private void number(int k, String name, double least, double most) {
            names[k] = name;
            from[k] = least;
            to[k] = most;
        }

        void draw(SplittableRandom random) {
            for (int k = 0; k < values.length; k++) {
                values[k] = from[k] + random.nextDouble() * (to[k] - from[k]);
            }
        }

        boolean holds() {
            double widthMm = values[shared + 2] + values[shared + 3] + values[shared + 4] + values[shared + 5];
            for (int k = 0; k < bows; k++) {
                Line line = lines.get(k);
                double errorMm = values[k] - line.bowMm() * values[bows + line.bow()];
                if (!line.holds(errorMm, values[shared], values[shared + 1], widthMm)) {
                    return false;
                }
            }
            return true;
        }

        void blame(int[] failures) {
            for (int k = 0; k < values.length; k++) {
                double kept = values[k];
                values[k] = rest[k];
                failures[k] += holds() ? 1 : 0;
                values[k] = kept;
            }
        }
    }

    private static List<Line> lines(Examination x) {
        List<Line> out = new ArrayList<>();
        Spread spread = x.job().spread();
        for (CopperFacts copper : x.copper()) {
            for (Map.Entry<Integer, ZWindow> entry : copper.windows().entrySet()) {
                RunFacts run = x.run(entry.getKey());
                ZWindow window = entry.getValue();
                IntervalMm whole = x.spreadOf(run);
                boolean outright = spread.zMm() != null || spread.toolZMm().containsKey(run.toolName());
                double bowMm = outright ? 0 : -whole.fromMm() - spread.zTouchMm();
                out.add(new Line(
                        window.fromMm(),
                        window.toMm(),
                        window.empty(),
                        outright ? whole.fromMm() : -spread.zTouchMm(),
                        whole.toMm(),
                        outright ? (whole.fromMm() + whole.toMm()) / 2 : 0,
                        Math.max(0, bowMm),
                        run.side().number() - 1,
                        run.zeroOnSpoilBoard(),
                        window.limitedFrom() != null && window.limitedFrom().kind() == ZLimit.Kind.FOIL_LEFT,
                        depthPerWidth(run, window),
                        "touch-off of " + run.toolName() + ", run " + (entry.getKey() + 1)));
            }
        }
        return out;
    }

    /** How much deeper a V-groove is that is wider by one, where copper's width ends the window; else 0. */
    private static double depthPerWidth(RunFacts run, ZWindow window) {
        ZLimit high = window.limitedTo();
        Tool tool = run.tool();
        if (tool == null || tool.shape() != ToolShape.V || high == null || high.kind() == ZLimit.Kind.DUTY) {
            return 0;
        }
        double tangent = StrictMath.tan(tool.halfAngleRad());
        return tangent > 1e-6 ? 0.5 / tangent : 0;
    }

    private static List<Cause> causes(Trial trial, int[] failures) {
        List<Cause> out = new ArrayList<>();
        for (int k = 0; k < failures.length; k++) {
            if (failures[k] > 0) {
                out.add(new Cause(trial.names[k], failures[k]));
            }
        }
        out.sort(Comparator.comparingInt((Cause cause) -> -cause.failures()).thenComparing(Cause::what));
        return out;
    }
}
