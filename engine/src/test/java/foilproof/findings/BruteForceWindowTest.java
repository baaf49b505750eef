package foilproof.findings;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * The Z window against brute force: seeded random boards, each simulated anew with all Z words of its program shifted by
 * an error, and the whole dry run repeated. Just inside either end no copper or duty check may speak, just outside the
 * one that the window names must, at the place that it names.
 *
 * <p>{@code -Dfoilproof.windows=FROM:COUNT} runs other seeds; the result of 50 stands in benchmarks/CORPORA.md.
 */
class BruteForceWindowTest {
    private static final int BOARDS = 6;
    /** The quantum of e: a window is told in whole micrometres, mm. */
    private static final double QUANTUM_MM = 0.001;

    private static final double HEADROOM_MM = 0.25;
    /** The findings whose absence the window promises (design, section 1, idea 4). */
    private static final Set<String> PROMISED =
            Set.of(Kinds.FOIL_LEFT, Kinds.SHORT, Kinds.OPEN, Kinds.THIN_TRACE, Kinds.DUTY_BROKEN);

    /** A board whose truth is only what examining it says. */
    private static final class Board {
        final Random dice;
        final boolean oneOunce;
        final boolean sharp;
        final boolean copperOnly;
        final boolean tilted;
        final boolean second;
        final double tipMm;
        final double foilMm;
        final double depthMm;
        final double tilt;
        final StringBuilder layer =
                new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%TF.FileFunction,Copper,L2,Bot*%\n%LPD*%\n");
        final StringBuilder pads = new StringBuilder();
        /** Lines of the program; Z words stand as numbers to be shifted. */
        final List<String> lines = new ArrayList<>();

        /** The window by closed forms (Q1, Q7, Q9, needs C13, D1, E8), where the ground is flat. */
        double closedFromMm = Double.NEGATIVE_INFINITY;

        double closedToMm = Double.POSITIVE_INFINITY;

        int apertures = 10;

        Board(long seed) {
            dice = new Random(seed);
            oneOunce = dice.nextBoolean();
            sharp = dice.nextBoolean();
            copperOnly = dice.nextInt(3) == 0;
            tilted = dice.nextInt(3) == 0;
            second = dice.nextInt(4) == 0;
            tipMm = 0.1 + 0.1 * dice.nextDouble();
            foilMm = oneOunce ? 0.0348 : 0.0174;
            depthMm = foilMm + 0.02 + 0.04 * dice.nextDouble();
            tilt = tilted ? 0.015 * dice.nextDouble() : 0;
            for (int k = 0; k < 3; k++) {
                net(k, 2.0 + 3.0 * k, 4 + dice.nextDouble());
            }
            pad("GND", 4, 1.0, 9.3, 7.3);
        }

        double rise() {
            return StrictMath.tan(sharp ? StrictMath.PI / 12 : StrictMath.PI / 6);
        }

        /** Width of a groove of a depth at the foil bottom, mm. */
        double bottomMm(double depth) {
            return tipMm + 2 * (depth - foilMm) * rise();
        }

        /** A blank seen from its copper, bottom side up first: the design is its mirror image. */
        private static String at(double x, double y) {
            return String.format(Locale.ROOT, "X%dY%d", Math.round((10 - x) * 1e6), Math.round(y * 1e6));
        }

        private void pad(String net, int pin, double size, double x, double y) {
            layer.append("%TA.AperFunction,ComponentPad*%\n%ADD")
                    .append(apertures)
                    .append(text("C,%s*%%\nD", size))
                    .append(apertures++)
                    .append("*\n%TO.N,")
                    .append(net)
                    .append("*%\n%TO.P,")
                    .append(net)
                    .append(',')
                    .append(pin)
                    .append("*%\n")
                    .append(at(x, y))
                    .append("D03*\n%TD*%\n");
        }

        /** A strip at any angle in one closed groove; perhaps a notch from both sides, perhaps a loop that hardly closes. */
        private void net(int k, double cx, double cy) {
            double turn = StrictMath.PI * (0.5 + 0.16 * (dice.nextDouble() - 0.5));
            double c = StrictMath.cos(turn);
            double s = StrictMath.sin(turn);
            double depth = depthMm + 0.02 * dice.nextDouble();
            boolean notched = dice.nextInt(3) == 0;
            double base = (notched ? 0.7 : 0.26) + 0.25 * dice.nextDouble();
            double b = 0.5 * (base + bottomMm(depth));
            double a = 1.6 + 0.5 * dice.nextDouble();
            double end = a - b;
            double[][] corner = {{-a, -b}, {a, -b}, {a, b}, {-a, b}};
            double[][] p = new double[4][];
            for (int i = 0; i < 4; i++) {
                p[i] = new double[] {cx + corner[i][0] * c - corner[i][1] * s, cy + corner[i][0] * s + corner[i][1] * c
                };
            }
            String name = "N" + k;
            pad(name, 1, base, cx - end * c, cy - end * s);
            pad(name, 2, base, cx + end * c, cy + end * s);
            layer.append("%TA.AperFunction,Conductor*%\n%ADD")
                    .append(apertures)
                    .append(text("C,%s*%%\nD", base))
                    .append(apertures++)
                    .append("*\n%TO.N,")
                    .append(name)
                    .append("*%\n")
                    .append(at(cx - end * c, cy - end * s))
                    .append("D02*\n")
                    .append(at(cx + end * c, cy + end * s))
                    .append("D01*\n%TD*%\n");
            lines.add(text("G0 X%s Y%s", p[0][0], p[0][1]));
            down(depth);
            for (int i = 1; i < 4; i++) {
                lines.add(text("G1 X%s Y%s F300", p[i][0], p[i][1]));
            }
            // the last side may stop so early that its round end hardly meets the groove where it began
            double left = dice.nextInt(3) == 0 ? bottomMm(depth) + 0.03 * (dice.nextDouble() - 0.7) : 0;
            closedFromMm = Math.max(closedFromMm, foilMm + 0.005 - depth);
            closedToMm = Math.min(closedToMm, (base - 0.25) / (2 * rise()));
            if (copperOnly) {
                closedToMm = Math.min(closedToMm, 0.15 - depth);
            }
            if (left > 0) {
                // both ends are round: they meet where the groove is as wide as their middles are apart
                closedFromMm = Math.max(closedFromMm, (left - bottomMm(depth)) / (2 * rise()));
            }
            double f = 1 - left / (2 * b);
            lines.add(text("G1 X%s Y%s", p[3][0] + f * (p[0][0] - p[3][0]), p[3][1] + f * (p[0][1] - p[3][1])));
            up();
            if (notched) {
                double along = 0.6 * (dice.nextDouble() - 0.5);
                double neck = 0.5 * (bottomMm(depth) + 0.02 + 0.12 * dice.nextDouble());
                closedToMm = Math.min(closedToMm, (2 * neck - bottomMm(depth)) / (2 * rise()));
                for (int side = -1; side <= 1; side += 2) {
                    lines.add(text("G0 X%s Y%s", cx + along * c - side * b * s, cy + along * s + side * b * c));
                    down(depth);
                    lines.add(text(
                            "G1 X%s Y%s F300", cx + along * c - side * neck * s, cy + along * s + side * neck * c));
                    up();
                }
            }
        }

        private void down(double depth) {
            lines.add("Z1");
            lines.add("Z" + (-depth));
        }

        private void up() {
            lines.add("Z5");
        }

        /** The program as it reads where everything is an error deeper. */
        String program(double errorMm) {
            StringBuilder t = new StringBuilder(start(5));
            for (String line : lines) {
                if (line.startsWith("Z")) {
                    double z = Double.parseDouble(line.substring(1));
                    t.append(z > 0 ? "G0" : "G1")
                            .append(String.format(Locale.ROOT, " Z%.7f", z - errorMm))
                            .append(z > 0 ? "\n" : " F90\n");
                } else {
                    t.append(line).append('\n');
                }
            }
            return t.append(END).toString();
        }

        Examination examination(double errorMm) {
            Bench b = Bench.job()
                    .cellUm(10)
                    .blank("width", "10 mm", "height", "8 mm", "foil", oneOunce ? "1 oz" : "0.5 oz")
                    .side("touch_off", "[\"9.5 mm\", \"0.5 mm\"]")
                    .tool("pencil", "included_angle", sharp ? "30 deg" : "60 deg")
                    .tool("pencil", "tip_width", String.format(Locale.ROOT, "%.9f mm", tipMm))
                    .tool("pencil", "duty", copperOnly ? "copper only" : "any");
            if (tilted) {
                b.blank(
                        "surface",
                        String.format(
                                Locale.ROOT,
                                "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"10 mm\",\"0 mm\",\"0 mm\"],[\"0 mm\",\"8 mm\",\"%.6f mm\"]]",
                                -tilt));
            }
            b.design("bottom_copper", "layer.gbr", layer + "M02*\n").runs(program(errorMm));
            if (second) {
                b.program("b.ngc", start(3) + "G0 X0.5 Y0.6\nG0 Z1\nG1 Z-0.1 F90\nG1 X9 Y0.6 F300\nG0 Z5\n" + END);
            }
            var job = b.read();
            try {
                return Examiner.examine(job, ReadDesign.of(job), b.options());
            } catch (InputException e) {
                throw new IllegalStateException(e);
            }
        }

        /** What the dry run says, with that error, of all that the window promises. */
        List<Finding> told(double errorMm) {
            List<Finding> out = new ArrayList<>();
            gather(Catalogue.judge(examination(errorMm)).findings(), out);
            return out;
        }

        private static void gather(List<Finding> findings, List<Finding> into) {
            for (Finding f : findings) {
                if (f.severity() != Severity.NOTE && PROMISED.contains(f.kind())) {
                    into.add(f);
                }
                gather(f.consequences(), into);
            }
        }
    }

    /** What of one end does not hold; null where all does. {@code sign}: -1 the lower end, + 1 the upper. */
    private static @Nullable String wrong(Board board, double e, ZLimit limit, int sign) {
        List<Finding> inside = board.told(e - sign * QUANTUM_MM);
        if (!inside.isEmpty()) {
            return "just inside: " + inside.get(0).kind() + " " + inside.get(0).message();
        }
        List<Finding> outside = board.told(e + sign * QUANTUM_MM);
        List<Finding> named = outside.stream()
                .filter(f -> f.kind().equals(limit.kind().key()))
                .toList();
        if (named.isEmpty()) {
            return "just outside: "
                    + (outside.isEmpty()
                            ? "nothing"
                            : outside.get(0).kind() + " " + outside.get(0).message());
        }
        if (limit.kind() != ZLimit.Kind.DUTY && named.stream().noneMatch(f -> near(f, limit))) {
            return "place: " + named.get(0).message();
        }
        return null;
    }

    /** Where a whole stretch is at its limit, any place in it is the limit's. */
    private static boolean near(Finding f, ZLimit limit) {
        double[] box = f.boxMm();
        double[] at = Objects.requireNonNull(f.atMm());
        double margin = 0.1;
        return box != null
                ? limit.xMm() > box[0] - margin
                        && limit.xMm() < box[2] + margin
                        && limit.yMm() > box[1] - margin
                        && limit.yMm() < box[3] + margin
                : StrictMath.hypot(limit.xMm() - at[0], limit.yMm() - at[1]) < margin;
    }

    /** Where the promise really ends, by bisection within 64 quanta. */
    private static double bisected(Board board, double e, int sign) {
        double good = e - sign * 32 * QUANTUM_MM;
        double bad = e + sign * 32 * QUANTUM_MM;
        while (Math.abs(bad - good) > QUANTUM_MM / 8) {
            double mid = 0.5 * (good + bad);
            if (board.told(mid).isEmpty()) {
                good = mid;
            } else {
                bad = mid;
            }
        }
        return 0.5 * (good + bad);
    }

    @Test
    void shouldEndWhereClosedFormsSayForStripsAtAnyAngle() {
        int flat = 0;
        for (long seed = 500; flat < 15; seed++) {
            Board board = new Board(seed);
            if (board.tilted) {
                continue;
            }
            flat++;
            ZWindow w = Objects.requireNonNull(
                    board.examination(0).copper(1).windows().get(0));
            assertThat(w.fromMm()).as("from, seed %s, %s", seed, w).isCloseTo(board.closedFromMm, within(QUANTUM_MM));
            assertThat(w.toMm()).as("to, seed %s, %s", seed, w).isCloseTo(board.closedToMm, within(QUANTUM_MM));
        }
    }

    @Test
    void shouldEndWhereRepeatingTheWholeDryRunAtEveryErrorSaysThatItEnds() {
        String[] asked = System.getProperty("foilproof.windows", "0:" + BOARDS).split(":", 2);
        long from = Long.parseLong(asked[0]);
        List<String> wrong = new ArrayList<>();
        TreeMap<String, Integer> met = new TreeMap<>();
        int empty = 0;
        for (long seed = from; seed < from + Long.parseLong(asked[1]); seed++) {
            Board board = new Board(seed);
            ZWindow w = Objects.requireNonNull(
                    board.examination(0).copper(1).windows().get(0));
            Double low = w.fromMm();
            Double high = w.toMm();
            if (w.empty()) {
                empty++;
                for (double e : new double[] {-0.05, -0.01, 0, 0.02, 0.05, 0.1}) {
                    if (board.told(e).isEmpty()) {
                        wrong.add("seed " + seed + ": empty, but good at " + e);
                    }
                }
                continue;
            }
            for (int sign = -1; sign <= 1; sign += 2) {
                Double e = sign < 0 ? low : high;
                ZLimit limit = sign < 0 ? w.limitedFrom() : w.limitedTo();
                String end = "seed " + seed + (sign < 0 ? " from " : " to ") + e;
                if (e == null || limit == null) {
                    met.merge("open end", 1, Integer::sum);
                    if (!board.told(sign * HEADROOM_MM).isEmpty()) {
                        wrong.add(end + ": "
                                + board.told(sign * HEADROOM_MM).get(0).message());
                    }
                    continue;
                }
                met.merge((sign < 0 ? "from " : "to ") + limit.kind(), 1, Integer::sum);
                String what = wrong(board, e, limit, sign);
                if (what != null) {
                    wrong.add(end + " " + limit + ": " + what + "; by bisection " + bisected(board, e, sign));
                }
            }
        }
        assertThat(wrong)
                .as(wrong.size() + " ends, of " + met + ", empty " + empty)
                .isEmpty();
        if (Long.parseLong(asked[1]) > BOARDS) {
            assertThat(met.keySet()).as(met + ", empty " + empty).hasSizeGreaterThan(4);
        }
    }
}
