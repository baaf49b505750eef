package foilproof.dryrun;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.bore;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.plunge;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.findings.Bench;
import foilproof.findings.Finding;
import foilproof.report.ResultDocument;
import foilproof.report.ResultJson;
import foilproof.report.SarifJson;
import foilproof.source.InputException;
import foilproof.stock.ComposedSide;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What must not change a result does not, and what must change it alone does. */
class SameResultTest {
    /** Isolation with a sliver and a stray piece, bores that are not through, holes made with the wrong bit. */
    private static final String ISOLATION = start(1)
            + rectangle(3, 3, 13, 11, -0.1)
            + rectangle(3.27, 3.27, 12.73, 10.73, -0.1)
            + rectangle(15, 4, 15.8, 4.8, -0.12)
            + END;

    private static final String BORES =
            start(2) + bore(7, 7, 1.2, 0.8, -0.4, -0.8, -1.2, -1.4) + line(5, 9, 11, 9, -0.5) + END;
    private static final String WRONG = start(5) + plunge(10, 7, -1.8) + END;

    private static Bench troubled(UnaryOperator<String> change) {
        return Bench.job()
                .program("a.ngc", change.apply(ISOLATION))
                .program("b.ngc", change.apply(BORES))
                .program("c.ngc", change.apply(WRONG));
    }

    private static DryRunResult run(Bench bench) {
        try {
            return DryRun.run(bench.read(), bench.options());
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String json(Bench bench) {
        return ResultJson.write(run(bench).document());
    }

    /** The result without the hashes of its inputs. */
    private static String unhashed(String json) {
        return json.replaceAll("\"sha256\" ?: ?\"[0-9a-f]*\"", "");
    }

    private static final UnaryOperator<String> AS_IS = t -> t;

    @Test
    void shouldWriteTheSameBytesWithOneAndTwoThreads() {
        String one = json(troubled(AS_IS).threads(1));
        assertThat(one).contains("sliver").contains("wrong-bit-drilling").contains("not-through");
        assertThat(json(troubled(AS_IS).threads(2))).isEqualTo(one);
        assertThat(json(troubled(AS_IS).threads(3))).isEqualTo(one);
    }

    @Test
    void shouldWriteTheSameBytesInEveryLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.ROOT);
            DryRunResult first = run(troubled(AS_IS));
            String json = ResultJson.write(first.document());
            String sarif = SarifJson.write(first.document());
            for (String tag : List.of("de-DE", "tr-TR", "ar-EG-u-nu-arab")) {
                Locale.setDefault(Locale.forLanguageTag(tag));
                DryRunResult other = run(troubled(AS_IS));
                assertThat(ResultJson.write(other.document())).as(tag).isEqualTo(json);
                assertThat(SarifJson.write(other.document())).as(tag).isEqualTo(sarif);
            }
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldWriteTheSameBytesWithOtherLineEndsAndLineNumbers() {
        String plain = unhashed(json(troubled(AS_IS)));
        assertThat(unhashed(json(troubled(t -> t.replace("\n", "\r\n"))))).isEqualTo(plain);
        assertThat(unhashed(json(troubled(SameResultTest::numbered)))).isEqualTo(plain);
        assertThat(unhashed(json(troubled(t -> t.replace("G1 ", "g1").replace("X", " x ")))))
                .isEqualTo(plain);
    }

    private static String numbered(String program) {
        String[] lines = program.split("\n");
        StringBuilder t = new StringBuilder();
        for (int i = 0; i < lines.length; i++) {
            t.append('N').append(10 * (i + 1)).append(' ').append(lines[i]).append('\n');
        }
        return t.toString();
    }

    @Test
    void shouldReportPhysicalLinesWhereBlankLinesAndCommentsAreAdded() {
        List<Finding> plain = run(troubled(AS_IS)).outcome().findings();
        List<Finding> spaced =
                run(troubled(t -> "\n(made for a test)\n" + t)).outcome().findings();
        assertThat(told(spaced)).isEqualTo(told(plain));
        for (int i = 0; i < plain.size(); i++) {
            Integer line = plain.get(i).line();
            assertThat(spaced.get(i).line()).as(plain.get(i).message()).isEqualTo(line == null ? null : line + 2);
        }
    }

    @Test
    void shouldWriteTheSameBytesWhereProgramAndWorkZeroMoveTogether() {
        String moved = json(troubled(t -> words(t, "XY", (letter, v) -> letter == 'X' ? v - 2.5 : v - 1.25))
                .side("work_zero", "[\"2.5 mm\", \"1.25 mm\"]"));
        // the set-up says where the work zero lies
        assertThat(unhashed(moved).replace("(2.50, 1.25)", "(0.00, 0.00)")).isEqualTo(unhashed(json(troubled(AS_IS))));
    }

    @Test
    void shouldFindTheSameInInches() {
        List<Finding> plain = run(troubled(AS_IS)).outcome().findings();
        List<Finding> inches = run(troubled(
                        t -> words(t, "XYZIJF", (letter, v) -> v / 25.4).replace("G21 ", "G20 ")))
                .outcome()
                .findings();
        assertThat(told(inches)).isEqualTo(told(plain));
        for (int i = 0; i < plain.size(); i++) {
            assertThat(inches.get(i).line()).isEqualTo(plain.get(i).line());
            var a = plain.get(i).measured();
            var b = inches.get(i).measured();
            if (a != null && b != null) {
                assertThat(b.value())
                        .as(plain.get(i).message())
                        .isCloseTo(a.value(), within(2e-5 * Math.max(1, a.value())));
            }
        }
    }

    @Test
    void shouldFindTheSameWhereMovesAreSplit() {
        UnaryOperator<String> split = t -> t.replace("G1 X13.0 F300\n", "G1 X6.0 F300\nG1 X9.5\nG1 X13.0\n")
                .replace("G1 Z-1.8 F90\n", "G1 Z-0.3 F90\nG1 Z-1.1\nG1 Z-1.8\n");
        DryRunResult plain = run(troubled(AS_IS));
        DryRunResult parts = run(troubled(split));
        assertThat(told(parts.outcome().findings()))
                .isEqualTo(told(plain.outcome().findings()));
        assertSameBoard(parts.document(), plain.document(), 1e-6);
    }

    /** Turned by 90 degrees counter-clockwise: (x, y) goes to (15 - y, x), on a blank of 15 x 20 mm. */
    @Test
    void shouldFindTheSameOnAJobTurnedByAQuarter() {
        DryRunResult plain = run(quarter(AS_IS));
        DryRunResult turned = run(quarter(SameResultTest::turned)
                .blank("width", "15 mm", "height", "20 mm")
                .side("touch_off", "[\"1.5 mm\", \"18.5 mm\"]"));
        assertThat(told(turned.outcome().findings()))
                .isEqualTo(told(plain.outcome().findings()));
        assertSameBoard(turned.document(), plain.document(), 1e-6);
        for (int i = 0; i < plain.outcome().findings().size(); i++) {
            Finding a = plain.outcome().findings().get(i);
            Finding b = turned.outcome().findings().get(i);
            assertThat(b.line()).as(a.message()).isEqualTo(a.line());
        }
    }

    /** Absolute words on every line, so that a line can be turned by itself. */
    private static Bench quarter(UnaryOperator<String> change) {
        String isolation = start(1)
                + "G0 X4 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 Y3 F300\nG1 X13 Y11\nG1 X3 Y10\nG1 X4 Y3\nG1 X4.5 Y3\n"
                + "G0 Z5\n" + END;
        String bores = start(2) + "G0 X7.2 Y7\nG0 Z0.5\nG1 Z0 F90\nG3 X7.2 Y7 I-0.2 J0 Z-0.7 F180\n"
                + "G3 X7.2 Y7 I-0.2 J0 Z-1.4\nG3 X7.2 Y7 I-0.2 J0\nG0 Z2\n" + END;
        return Bench.job().program("a.ngc", change.apply(isolation)).program("b.ngc", change.apply(bores));
    }

    private static String turned(String program) {
        Matcher m = Pattern.compile("X(\\S+) Y(\\S+)").matcher(program);
        String xy =
                m.replaceAll(r -> text("X%s Y%s", 15 - Double.parseDouble(r.group(2)), Double.parseDouble(r.group(1))));
        Matcher ij = Pattern.compile("I(\\S+) J(\\S+)").matcher(xy);
        return ij.replaceAll(r -> text("I%s J%s", -Double.parseDouble(r.group(2)), Double.parseDouble(r.group(1))));
    }

    /** Kind, severity and certainty of each finding, with what is folded under it. */
    private static List<String> told(List<Finding> findings) {
        return findings.stream()
                .map(f -> f.kind() + " " + f.severity() + " " + f.certainty() + " " + f.tool() + " "
                        + told(f.consequences()))
                .collect(Collectors.toList());
    }

    private static void assertSameBoard(ResultDocument a, ResultDocument b, double tolerance) {
        for (int i = 0; i < b.sides().size(); i++) {
            assertThat(a.sides().get(i).copperMm2()).isCloseTo(b.sides().get(i).copperMm2(), within(tolerance));
            assertThat(a.sides().get(i).pieces()).isEqualTo(b.sides().get(i).pieces());
        }
        assertThat(a.removed().foilMm3()).isCloseTo(b.removed().foilMm3(), within(tolerance));
        assertThat(a.removed().substrateMm3()).isCloseTo(b.removed().substrateMm3(), within(tolerance));
        assertThat(a.removed().spoilBoardMm3()).isCloseTo(b.removed().spoilBoardMm3(), within(tolerance));
    }

    /** A number word and what it becomes. */
    private interface Change {
        double of(char letter, double value);
    }

    private static String words(String program, String letters, Change change) {
        Matcher m = Pattern.compile("([" + letters + "])(-?[0-9.]+)").matcher(program);
        return m.replaceAll(r -> r.group(1)
                + String.format(Locale.ROOT, "%.9f", change.of(r.group(1).charAt(0), Double.parseDouble(r.group(2)))));
    }

    // ---- a Z error equals a program whose Z words are lower

    /** A job of several cutters over a bowed or flat blank, both kinds of Z zero, from a seed. */
    private static Bench random(long seed, double lowerMm, boolean asError) {
        Random dice = new Random(seed);
        boolean spoil = dice.nextBoolean();
        double zero = spoil ? 1.6 : 0;
        StringBuilder a = new StringBuilder(start(1));
        StringBuilder b = new StringBuilder(start(6));
        for (int k = 0; k < 4; k++) {
            double x = 2 + 12 * dice.nextDouble();
            double y = 2 + 9 * dice.nextDouble();
            a.append(text("G0 X%s Y%s\nG0 Z3\nG1 Z%s F90\n", x, y, zero - 0.06 - 0.05 * dice.nextDouble()));
            a.append(text("G1 X%s Y%s Z%s F300\n", x + 3 * dice.nextDouble(), y + 2, zero - 0.1));
            a.append(text("G1 X%s F300\nG0 Z5\n", x + 2));
            double u = 3 + 12 * dice.nextDouble();
            double v = 3 + 8 * dice.nextDouble();
            b.append(text("G0 X%s Y%s\nG0 Z3\nG1 Z%s F90\n", u + 0.3, v, zero + 0.2));
            b.append(text("G3 X%s Y%s I-0.3 J0 Z%s F180\n", u + 0.3, v, zero - 0.2 - 0.4 * dice.nextDouble()));
            b.append(text("G1 X%s Y%s\nG0 Z5\n", u + 1, v + 1));
        }
        boolean ball = dice.nextBoolean();
        boolean bowed = dice.nextBoolean();
        UnaryOperator<String> change = asError ? AS_IS : t -> words(t, "Z", (letter, value) -> value - lowerMm);
        Bench bench = Bench.job()
                .tool("second", "number", "6", "shape", ball ? "ball" : "flat", "diameter", "0.8 mm", "flutes", "2")
                .tool("second", "flute_length", "4 mm", "shank", "3.175 mm", "stick_out", "10 mm", "runout", "0 mm")
                .tool("second", "centre_cutting", "true", "duty", "any")
                .side("z_zero", spoil ? "spoil board" : "foil")
                .program("a.ngc", change.apply(a + END))
                .program("b.ngc", change.apply(b + END));
        if (bowed) {
            bench.blank(
                    "surface",
                    "[[\"0 mm\",\"0 mm\",\"0.02 mm\"], [\"20 mm\",\"0 mm\",\"-0.01 mm\"],"
                            + " [\"9 mm\",\"7 mm\",\"-0.05 mm\"], [\"0 mm\",\"15 mm\",\"0 mm\"], [\"20 mm\",\"15 mm\",\"0.03 mm\"]]");
        }
        return asError
                ? bench.set("z_error.engraver=" + lowerMm + " mm").set("z_error.second=" + lowerMm + " mm")
                : bench;
    }

    @Test
    void shouldTakeAZErrorForLowerZWordsCellByCell() {
        for (long seed = 1; seed <= 20; seed++) {
            DryRunResult error = run(random(seed, 0.05, true));
            DryRunResult lower = run(random(seed, 0.05, false));
            ComposedSide a = error.examination().side(1);
            ComposedSide b = lower.examination().side(1);
            for (int y = 0; y < a.rows(); y++) {
                for (int x = 0; x < a.columns(); x++) {
                    double da = a.heightMm(x, y);
                    double db = b.heightMm(x, y);
                    if (Math.abs(da - db) > 2e-6) {
                        assertThat(da)
                                .as("seed %d at cell (%d, %d)", seed, x, y)
                                .isCloseTo(db, within(2e-6));
                    }
                }
            }
            assertSameBoard(error.document(), lower.document(), 2e-4);
            assertThat(error.document().holes().size())
                    .isEqualTo(lower.document().holes().size());
        }
    }
}
