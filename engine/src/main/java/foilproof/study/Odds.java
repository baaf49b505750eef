package foilproof.study;

import foilproof.bench.IntervalMm;
import foilproof.bench.Spread;
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
 * How often every tool run stays within its Z window when the set-up varies as its spread says: seeded trials, numbers
 * uniform within their spread. Each run has a touch-off of its own; the bow is one number a side, shared by its runs. A
 * number is counted as a cause of a failed trial where the trial would have held with that number at 0 (at the middle of
 * a spread that was said outright). The odds are of these numbers alone and relative: what they leave out is not in
 * them.
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
            String name) {
        boolean holds(double errorMm) {
            return !empty && (lowMm == null || errorMm >= lowMm) && (highMm == null || errorMm <= highMm);
        }
    }

    /** The odds of a job; null where no run has a window. */
    static @Nullable Odds of(Examination x) {
        List<Line> lines = lines(x);
        if (lines.isEmpty()) {
            return null;
        }
        int sides = x.job().sides().size();
        int[] failures = new int[lines.size() + sides];
        int good = 0;
        SplittableRandom random = new SplittableRandom(SEED);
        double[] touch = new double[lines.size()];
        double[] bow = new double[sides];
        for (int trial = 0; trial < TRIALS; trial++) {
            for (int s = 0; s < sides; s++) {
                bow[s] = random.nextDouble();
            }
            for (int k = 0; k < touch.length; k++) {
                Line line = lines.get(k);
                touch[k] = line.fromMm() + random.nextDouble() * (line.toMm() - line.fromMm());
            }
            if (holds(lines, touch, bow)) {
                good++;
            } else {
                blame(lines, touch, bow, failures);
            }
        }
        return new Odds(SEED, TRIALS, good, causes(x, lines, failures));
    }

    private static void blame(List<Line> lines, double[] touch, double[] bow, int[] failures) {
        for (int k = 0; k < touch.length; k++) {
            double kept = touch[k];
            touch[k] = lines.get(k).restMm();
            failures[k] += holds(lines, touch, bow) ? 1 : 0;
            touch[k] = kept;
        }
        for (int s = 0; s < bow.length; s++) {
            double kept = bow[s];
            bow[s] = 0;
            failures[touch.length + s] += holds(lines, touch, bow) ? 1 : 0;
            bow[s] = kept;
        }
    }

    private static boolean holds(List<Line> lines, double[] touch, double[] bow) {
        for (int k = 0; k < touch.length; k++) {
            Line line = lines.get(k);
            if (!line.holds(touch[k] - line.bowMm() * bow[line.bow()])) {
                return false;
            }
        }
        return true;
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
                        "touch-off of " + run.toolName() + ", run " + (entry.getKey() + 1)));
            }
        }
        return out;
    }

    private static List<Cause> causes(Examination x, List<Line> lines, int[] failures) {
        List<Cause> out = new ArrayList<>();
        for (int k = 0; k < failures.length; k++) {
            if (failures[k] > 0) {
                String what = k < lines.size()
                        ? lines.get(k).name()
                        : "bow of the blank on side "
                                + x.job().sides().get(k - lines.size()).number();
                out.add(new Cause(what, failures[k]));
            }
        }
        out.sort(Comparator.comparingInt((Cause cause) -> -cause.failures()).thenComparing(Cause::what));
        return out;
    }
}
