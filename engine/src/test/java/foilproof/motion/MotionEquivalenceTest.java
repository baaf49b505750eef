package foilproof.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.XyMm;
import foilproof.bench.ZZero;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Writing the same job another way changes nothing but what it must: moved, turned by 90 degrees, in inches, with moves
 * split, with other line ends, blank lines, line numbers. Programs are drawn from the printed seed.
 */
class MotionEquivalenceTest {
    /** One move: kind 0 rapid, 1 feed, 2 clockwise arc, 3 counter-clockwise arc; arcs by centre offsets. */
    private record Op(int kind, double x, double y, double z, double i, double j) {}

    private static List<Op> ops(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<Op> ops = new ArrayList<>();
        double x = 0;
        double y = 0;
        for (int stroke = 0; stroke < 20; stroke++) {
            x = grid(random.nextDouble(1, 30));
            y = grid(random.nextDouble(1, 30));
            ops.add(new Op(0, x, y, 2, 0, 0));
            ops.add(new Op(1, x, y, -0.1, 0, 0));
            for (int k = 0; k < 12; k++) {
                int what = random.nextInt(4);
                if (what < 2) {
                    x = grid(x + random.nextDouble(-3, 3));
                    y = grid(y + random.nextDouble(-3, 3));
                    ops.add(new Op(1, x, y, -0.1 - 0.01 * k, 0, 0));
                } else {
                    // A half turn about a point beside: end is start reflected in the centre.
                    double i = grid(random.nextDouble(0.1, 2));
                    double j = grid(random.nextDouble(-2, 2));
                    x = grid(x + 2 * i);
                    y = grid(y + 2 * j);
                    ops.add(new Op(what, x, y, -0.1 - 0.02 * k, i, j));
                }
            }
            ops.add(new Op(0, x, y, 2, 0, 0));
        }
        return ops;
    }

    private static double grid(double v) {
        return Math.rint(v * 1000) / 1000;
    }

    /** How the text is written. */
    private static final class Style {
        double scale = 1;
        int decimals = 4;
        double dx;
        double dy;
        boolean turned;
        int split = 1;
        String end = "\n";
        boolean numbers;
        int blanks;
    }

    private static String text(List<Op> ops, Style style) {
        StringBuilder out = new StringBuilder();
        line(out, style, (style.scale == 1 ? "G21" : "G20") + " G90 G94 G17", 0);
        line(out, style, "M3 S20000", 1);
        line(out, style, "F" + number(400 / style.scale, style), 2);
        double px = 0;
        double py = 0;
        double pz = 5;
        int n = 3;
        for (Op op : ops) {
            int parts = op.kind == 1 ? style.split : 1;
            for (int k = 1; k <= parts; k++) {
                double share = (double) k / parts;
                String text = "G" + op.kind
                        + xy("X", "Y", px + (op.x - px) * share + style.dx, py + (op.y - py) * share + style.dy, style)
                        + " Z" + number((pz + (op.z - pz) * share) / style.scale, style)
                        + (op.kind >= 2 ? xy("I", "J", op.i, op.j, style) : "");
                line(out, style, text, n++);
            }
            px = op.x;
            py = op.y;
            pz = op.z;
        }
        line(out, style, "M5", n++);
        line(out, style, "M2", n);
        return out.toString();
    }

    private static String xy(String first, String second, double x, double y, Style style) {
        double a = style.turned ? -y : x;
        double b = style.turned ? x : y;
        return " " + first + number(a / style.scale, style) + " " + second + number(b / style.scale, style);
    }

    private static String number(double v, Style style) {
        return String.format(Locale.ROOT, "%." + style.decimals + "f", v);
    }

    private static void line(StringBuilder out, Style style, String text, int n) {
        if (style.numbers) {
            out.append('N').append(n * 10 % 100_000).append(' ');
        }
        out.append(text).append(style.end);
        for (int k = 0; k < style.blanks; k++) {
            out.append(style.end);
        }
    }

    private static MotionPlan plan(String text, XyMm workZero) {
        return Jobs.job().program(text, "cutter", true, workZero, ZZero.FOIL).plan();
    }

    private static void assertSame(MotionPlan a, MotionPlan b, double withinMm, String what) {
        Segments s = a.segments();
        Segments t = b.segments();
        assertThat(t.size()).as(what).isEqualTo(s.size());
        for (int i = 0; i < s.size(); i++) {
            String at = what + ", segment " + i;
            assertThat(t.kind(i)).as(at).isEqualTo(s.kind(i));
            if (i > 0) {
                assertThat(t.x0Mm(i)).as(at).isCloseTo(s.x0Mm(i), within(withinMm));
                assertThat(t.y0Mm(i)).as(at).isCloseTo(s.y0Mm(i), within(withinMm));
            }
            assertThat(t.z0Mm(i)).as(at).isCloseTo(s.z0Mm(i), within(withinMm));
            assertThat(t.x1Mm(i)).as(at).isCloseTo(s.x1Mm(i), within(withinMm));
            assertThat(t.y1Mm(i)).as(at).isCloseTo(s.y1Mm(i), within(withinMm));
            assertThat(t.z1Mm(i)).as(at).isCloseTo(s.z1Mm(i), within(withinMm));
            assertThat(t.sweepRad(i)).as(at).isCloseTo(s.sweepRad(i), within(withinMm * 100));
            if (i > 0) {
                assertThat(t.durationS(i)).as(at).isCloseTo(s.durationS(i), within(1e-4));
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldNotChangeWhenLineEndsBlankLinesOrLineNumbersChange(long seed) {
        List<Op> ops = ops(seed);
        MotionPlan plain = plan(text(ops, new Style()), XyMm.ZERO);
        assertThat(plain.programs().get(0).interpretation().errors()).isEmpty();
        Style dos = new Style();
        dos.end = "\r\n";
        MotionPlan crlf = plan(text(ops, dos), XyMm.ZERO);
        assertSame(plain, crlf, 0, "CRLF, seed " + seed);
        Style numbered = new Style();
        numbered.numbers = true;
        MotionPlan numbers = plan(text(ops, numbered), XyMm.ZERO);
        assertSame(plain, numbers, 0, "line numbers, seed " + seed);
        Style spaced = new Style();
        spaced.blanks = 2;
        MotionPlan blanks = plan(text(ops, spaced), XyMm.ZERO);
        assertSame(plain, blanks, 0, "blank lines, seed " + seed);
        for (int i = 0; i < plain.segments().size(); i++) {
            // Reported lines are the physical ones: the N word is not read as a line, and blank lines count.
            assertThat(crlf.segments().line(i)).isEqualTo(plain.segments().line(i));
            assertThat(numbers.segments().line(i)).isEqualTo(plain.segments().line(i));
            assertThat(blanks.segments().line(i))
                    .isEqualTo(3 * (plain.segments().line(i) - 1) + 1);
            assertThat(crlf.segments().startS(i)).isEqualTo(plain.segments().startS(i));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldNotChangeWhenTheProgramMovesAndTheWorkZeroMovesBack(long seed) {
        List<Op> ops = ops(seed);
        MotionPlan plain = plan(text(ops, new Style()), new XyMm(5, 5));
        Style moved = new Style();
        moved.dx = 3.25;
        moved.dy = -1.5;
        // The assumed start is the touch point either way.
        assertSame(plain, plan(text(ops, moved), new XyMm(1.75, 6.5)), 1e-9, "moved, seed " + seed);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldTurnWithTheProgram(long seed) {
        List<Op> ops = ops(seed);
        Segments s = plan(text(ops, new Style()), XyMm.ZERO).segments();
        Style style = new Style();
        style.turned = true;
        MotionPlan turnedPlan = plan(text(ops, style), XyMm.ZERO);
        Segments t = turnedPlan.segments();
        assertThat(t.size()).isEqualTo(s.size());
        for (int i = 1; i < s.size(); i++) {
            assertThat(t.x1Mm(i)).isCloseTo(-s.y1Mm(i), within(1e-9));
            assertThat(t.y1Mm(i)).isCloseTo(s.x1Mm(i), within(1e-9));
            assertThat(t.sweepRad(i)).isCloseTo(s.sweepRad(i), within(1e-9));
            if (i < 2) {
                // The place where the cutter is taken to start does not turn with the program.
                continue;
            }
            assertThat(t.durationS(i)).as("seed %d, segment %d", seed, i).isCloseTo(s.durationS(i), within(1e-9));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldReadInchesAsMillimetres(long seed) {
        List<Op> ops = ops(seed);
        MotionPlan plain = plan(text(ops, new Style()), XyMm.ZERO);
        Style inch = new Style();
        inch.scale = 25.4;
        inch.decimals = 9;
        MotionPlan inches = plan(text(ops, inch), XyMm.ZERO);
        assertSame(plain, inches, 3e-8, "inches, seed " + seed);
        assertThat(inches.segments().line(7)).isEqualTo(plain.segments().line(7));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldTakeNoLongerWhenStraightMovesAreSplit(long seed) {
        List<Op> ops = ops(seed);
        MotionPlan plain = plan(text(ops, new Style()), XyMm.ZERO);
        Style split = new Style();
        split.split = 4;
        split.decimals = 9;
        MotionPlan parts = plan(text(ops, split), XyMm.ZERO);
        assertThat(parts.segments().size()).isGreaterThan(2 * plain.segments().size());
        assertThat(parts.runs().get(0).cutLengthMm())
                .isCloseTo(plain.runs().get(0).cutLengthMm(), within(1e-6));
        // A corner's arc must fit into half of the shorter neighbour, which splitting shortens: only that may cost.
        double whole = plain.totals().cuttingS();
        assertThat(parts.totals().cuttingS()).isBetween(whole * (1 - 1e-6), whole * 1.01);
        Extents a = Extents.ofRun(plain, plain.runs().get(0));
        Extents b = Extents.ofRun(parts, parts.runs().get(0));
        assertThat(b.x1Mm()).isCloseTo(a.x1Mm(), within(1e-8));
        assertThat(b.z0Mm()).isCloseTo(a.z0Mm(), within(1e-8));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void shouldGiveTheSamePlanEveryTime(long seed) {
        String text = text(ops(seed), new Style());
        Locale before = Locale.getDefault();
        try {
            MotionPlan first = plan(text, XyMm.ZERO);
            Locale.setDefault(Locale.GERMANY);
            MotionPlan second = plan(text, XyMm.ZERO);
            assertSame(first, second, 0, "locale, seed " + seed);
            assertThat(second.totals()).isEqualTo(first.totals());
        } finally {
            Locale.setDefault(before);
        }
    }
}
