package foilproof.language;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** What changes nothing in a program must change nothing in what it does; reported lines are the physical ones. */
class SameProgramTest {
    private static Interpretation run(String text, boolean shortWay) {
        return Interpreter.interpret(
                SourceFile.ofText("p.ngc", text),
                InterpreterSetup.builder()
                        .tools(Listing.REPORT_TOOLS)
                        .origin(10, 12, -30)
                        .machineKnown(false)
                        .startAssumed(0, 0, 0)
                        .plainMoves(shortWay)
                        .build());
    }

    private static List<String> program(Random random, double unit) {
        List<String> lines = new ArrayList<>(List.of(
                unit == 1 ? "G21" : "G20",
                "G90 G94 G17 G40 G49 G80 G54 G61",
                "T1 M6",
                "S16000 M3",
                "G4 P3",
                line("G0", "Z", 2 / unit),
                "G0 X0 Y0"));
        double x = 0;
        double y = 0;
        for (int i = 0; i < 60; i++) {
            double nx = random.nextInt(4000) / 100.0;
            double ny = random.nextInt(3000) / 100.0;
            switch (random.nextInt(6)) {
                case 0 -> lines.add(line("G0", "X", nx / unit, "Y", ny / unit));
                case 1 -> lines.add(line("G1", "X", nx / unit, "Y", ny / unit, "F", 400 / unit));
                case 2 ->
                    lines.add(line("", "G", 1, "Z", -0.1 / unit, "X", nx / unit, "Y", ny / unit, "F", 100 / unit));
                case 3 ->
                    lines.add(line(
                            "G3",
                            "X",
                            nx / unit,
                            "Y",
                            ny / unit,
                            "I",
                            (nx - x) / 2 / unit,
                            "J",
                            (ny - y) / 2 / unit,
                            "F",
                            200 / unit));
                case 4 -> {
                    lines.add(line(
                            "G81", "X", nx / unit, "Y", ny / unit, "Z", -1.8 / unit, "R", 0.5 / unit, "F", 60 / unit));
                    lines.add("G80");
                }
                default -> {
                    lines.add(line("G91 G1", "X", (nx - x) / unit, "Y", (ny - y) / unit, "F", 300 / unit));
                    lines.add("G90");
                }
            }
            x = nx;
            y = ny;
        }
        lines.add("M5");
        lines.add("M30");
        return lines;
    }

    private static String line(String code, Object... words) {
        StringBuilder text = new StringBuilder(code);
        for (int i = 0; i < words.length; i += 2) {
            text.append(' ')
                    .append(words[i])
                    .append(String.format(Locale.ROOT, "%.9f", ((Number) words[i + 1]).doubleValue()));
        }
        return text.toString();
    }

    private static void same(Interpretation a, Interpretation b, double toleranceMm, int[] lineOfA, String what) {
        assertThat(a.errors()).as(what).isEmpty();
        assertThat(b.errors()).as(what).isEmpty();
        CanonicalProgram p = a.commands();
        CanonicalProgram q = b.commands();
        assertThat(q.size()).as(what).isEqualTo(p.size());
        for (int i = 0; i < p.size(); i++) {
            assertThat(q.kind(i)).as(what).isEqualTo(p.kind(i));
            assertThat(q.line(i)).as(what).isEqualTo(lineOfA[p.line(i)]);
            if (p.isMotion(i)) {
                for (int axis = 0; axis < 3; axis++) {
                    assertThat(q.endMm(i, axis)).as(what).isCloseTo(p.endMm(i, axis), within(toleranceMm));
                }
                assertThat(q.flags(i)).as(what).isEqualTo(p.flags(i));
                if (!p.isRapid(i)) {
                    assertThat(q.feedMmPerMin(i)).as(what).isCloseTo(p.feedMmPerMin(i), within(1e-5));
                }
            }
        }
        assertThat(kinds(b)).as(what).isEqualTo(kinds(a));
        for (int line = 0; line < lineOfA.length; line++) {
            assertThat(b.stateAtLine(lineOfA[line]).motionTenths())
                    .as(what)
                    .isEqualTo(a.stateAtLine(line).motionTenths());
        }
    }

    /** Kinds of notes but for changes of feed: the last digit of a converted feed is one. */
    private static List<NoteKind> kinds(Interpretation interpretation) {
        return interpretation.notes().stream()
                .map(LanguageNote::kind)
                .filter(kind -> kind != NoteKind.FEED_CHANGED)
                .toList();
    }

    private static int[] identity(int lines) {
        int[] out = new int[lines + 1];
        for (int i = 0; i <= lines; i++) {
            out[i] = i;
        }
        return out;
    }

    @Test
    void shouldDoTheSameByTheShortWayForPlainMoves() {
        long seed = 31;
        Random random = new Random(seed);
        for (int round = 0; round < 40; round++) {
            List<String> lines = program(random, 1);
            String text = String.join("\n", lines) + "\n";
            same(run(text, false), run(text, true), 0, identity(lines.size()), "seed " + seed + " round " + round);
        }
    }

    @Test
    void shouldRefuseTheSameByTheShortWay() {
        for (String line : new String[] {
            "G1 X1 X2",
            "G1 X",
            "G1 X.",
            "G1 X1.2.3",
            "G1 X1,5",
            "G0 G1 X1",
            "G1 X1 F-1",
            "G1 X9999999999",
            "N1234567 G1 X1 Q2",
            "G1 X 1 2",
            "G0 1 X3",
            "G 1 X - 2",
            "G1 X1 (c)",
            "G1 X[1+1]",
            "N5",
            "n 5 g1 x1",
            "G1 X1 N5",
            "F100",
            "G1 X00000000000000001",
            "G1X1Y2Z3F4",
            "/G1 X1"
        }) {
            String text = "G21 G90 G0 X0\nF100\n" + line + "\nX5\nM2\n";
            Interpretation slow = run(text, false);
            Interpretation fast = run(text, true);
            assertThat(fast.errors()).as(line).isEqualTo(slow.errors());
            assertThat(fast.notes()).as(line).isEqualTo(slow.notes());
            assertThat(fast.commands().size())
                    .as(line)
                    .isEqualTo(slow.commands().size());
            for (int i = 0; i < slow.commands().size(); i++) {
                assertThat(fast.commands().span(i))
                        .as(line)
                        .isEqualTo(slow.commands().span(i));
                if (slow.commands().isMotion(i)) {
                    assertThat(fast.commands().endMm(i, 0))
                            .as(line)
                            .isEqualTo(slow.commands().endMm(i, 0));
                }
            }
        }
    }

    @Test
    void shouldNotMindLineEndsBlankLinesAndLineNumbers() {
        long seed = 32;
        Random random = new Random(seed);
        for (int round = 0; round < 20; round++) {
            List<String> lines = program(random, 1);
            String plain = String.join("\n", lines) + "\n";
            StringBuilder other = new StringBuilder();
            int[] place = new int[lines.size() + 1];
            int physical = 0;
            for (int i = 0; i < lines.size(); i++) {
                while (random.nextInt(4) == 0) {
                    other.append(random.nextBoolean() ? "  \t\r\n" : "\r\n");
                    physical++;
                }
                place[i + 1] = ++physical;
                other.append(random.nextBoolean() ? "N" + random.nextInt(99999) + " " : "")
                        .append(lines.get(i))
                        .append("\r\n");
            }
            same(run(plain, true), run(other.toString(), true), 0, place, "seed " + seed + " round " + round);
        }
    }

    @Test
    void shouldDoTheSameInInches() {
        for (int round = 0; round < 20; round++) {
            List<String> mm = program(new Random(33 + round), 1);
            List<String> inch = program(new Random(33 + round), 25.4);
            same(
                    run(String.join("\n", mm) + "\n", true),
                    run(String.join("\n", inch) + "\n", true),
                    1e-6,
                    identity(mm.size()),
                    "seed " + (33 + round));
        }
    }

    @Test
    void shouldTellTheStateInForceAfterEachLine() {
        Interpretation i = run("G21\nG0 X1\nG1 Y2 F100\n\nX3 F200\nS5 M3\nM30\n", true);
        assertThat(i.initialState().units()).isEqualTo(LengthUnits.UNKNOWN);
        assertThat(i.stateAtLine(1).units()).isEqualTo(LengthUnits.MM);
        assertThat(i.stateAtLine(2).motionTenths()).isZero();
        assertThat(i.stateAtLine(3).feedMmPerMin()).isEqualTo(100);
        assertThat(i.stateAtLine(4)).isEqualTo(i.stateAtLine(3));
        assertThat(i.stateAtLine(5).feedMmPerMin()).isEqualTo(200);
        assertThat(i.stateAtLine(6).spindle()).isEqualTo(SpindleTurn.CLOCKWISE);
        assertThat(i.stateAtLine(7).spindle()).isEqualTo(SpindleTurn.STOPPED);
        assertThat(i.stateAtLine(99)).isEqualTo(i.stateAtLine(7));
    }
}
