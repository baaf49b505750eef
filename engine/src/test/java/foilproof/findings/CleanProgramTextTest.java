package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Sound jobs written in the manners of many generators and hands: whatever the header, the numbering, the case, the
 * spaces, the order of words, nothing above a note may be raised. The board is always the same: one isolated rectangle,
 * two bores, one drilled row. Each program replays from its seed.
 */
class CleanProgramTextTest {
    private static final int PROGRAMS = 48;

    /** How one program is written. */
    private static final class Manner {
        private final Random random;
        private final boolean inch;
        private final boolean milliseconds;
        private final StringBuilder text = new StringBuilder();
        private final boolean numbered;
        private final boolean lower;
        private final boolean tight;
        private final boolean spaced;
        private final boolean twoDigits;
        private final boolean modal;
        private final boolean semicolons;
        private final boolean percent;
        private final String lineEnd;
        private int number = 10;
        private String motion = "";

        Manner(long seed) {
            random = new Random(seed);
            inch = random.nextInt(4) == 0;
            milliseconds = random.nextInt(5) == 0;
            numbered = random.nextInt(3) == 0;
            lower = random.nextInt(5) == 0;
            tight = random.nextInt(4) == 0;
            spaced = !tight && random.nextInt(6) == 0;
            twoDigits = random.nextBoolean();
            modal = random.nextBoolean();
            semicolons = random.nextInt(3) == 0;
            percent = random.nextInt(3) == 0;
            lineEnd = random.nextInt(3) == 0 ? "\r\n" : "\n";
        }

        private String pick(String... options) {
            return options[random.nextInt(options.length)];
        }

        /** A line of code: words parted by single blanks, comments left alone. */
        void line(String words) {
            String code = words;
            if (twoDigits) {
                code = code.replaceAll("\\b([GM])(\\d)\\b(?!\\.)", "$10$2");
            }
            code = spaced ? code.replace(" ", "  ") : tight ? code.replace(" ", "") : code;
            code = lower ? code.toLowerCase(Locale.ROOT) : code;
            text.append(numbered ? (lower ? "n" : "N") + number + " " : "")
                    .append(code)
                    .append(lineEnd);
            number += 10;
        }

        void comment(String words) {
            text.append(semicolons ? "; " + words : "(" + words + ")").append(lineEnd);
            if (random.nextInt(4) == 0) {
                text.append(lineEnd);
            }
        }

        String mm(double valueMm) {
            double value = inch ? valueMm / 25.4 : valueMm;
            String s = String.format(Locale.ROOT, inch ? "%.5f" : "%.4f", value);
            return switch (random.nextInt(3)) {
                case 0 -> s;
                case 1 -> s.replaceAll("0+$", "");
                default ->
                    s.replaceAll("0+$", "").replaceAll("^(-?)0\\.", "$1.").replaceAll("^(-?)\\.$", "$10.");
            };
        }

        String feed(double mmPerMin) {
            return " F" + (inch ? String.format(Locale.ROOT, "%.3f", mmPerMin / 25.4) : String.valueOf((int) mmPerMin));
        }

        void move(String code, String words) {
            line(modal && motion.equals(code) ? words : code + " " + words);
            motion = code;
        }

        void rapid(double x, double y) {
            move("G0", "X" + mm(x) + " Y" + mm(y));
        }

        void up(double z) {
            move("G0", "Z" + mm(z));
        }

        void header() {
            String units = inch ? "G20" : "G21";
            switch (random.nextInt(6)) {
                case 0 -> line(units + " G90 G94 G17 G54");
                case 1 -> line(units + " G90 G91.1 G94 G17 G40 G49 G80 G54 G61");
                case 2 -> {
                    line("G17");
                    line(units);
                    line("G90");
                    line("G94");
                }
                case 3 -> {
                    line("G90 G94 G17");
                    line(units);
                    line("G64 P" + (inch ? "0.0002" : "0.005"));
                }
                case 4 -> line("G90 " + units + " G17 G40 G80 G49");
                default -> {
                    line("G91.1");
                    line("G54");
                    line(units + " G17 G90 G94 G40");
                }
            }
        }

        void change(int tool, String called, boolean first) {
            motion = "";
            if (!first) {
                line("M5");
                retract();
            } else if (random.nextBoolean()) {
                up(25);
            }
            if (random.nextBoolean()) {
                comment(called);
            }
            switch (random.nextInt(4)) {
                case 0 -> line("T" + tool + " M6");
                case 1 -> line("M6 T" + tool);
                case 2 -> {
                    line("T" + tool);
                    line("M6");
                }
                default -> {
                    line("T" + tool + " M6");
                    text.append("M0 ").append("(touch off)").append(lineEnd);
                }
            }
            if (random.nextInt(4) == 0) {
                line("G43 H" + tool);
            }
            spindle();
            motion = "";
        }

        private void spindle() {
            switch (random.nextInt(4)) {
                case 0 -> line("S16000 M3");
                case 1 -> line("M3 S16000");
                case 2 -> {
                    line("S16000");
                    line("M3");
                }
                default -> {
                    line("M3");
                    line("S16000");
                }
            }
            line(milliseconds ? pick("G4 P3000", "G4 P2500.0") : pick("G4 P3", "G4 P2.5", "G4 P4."));
            if (random.nextInt(4) == 0) {
                line("M8");
            }
            up(random.nextBoolean() ? 5 : 2);
        }

        private void retract() {
            switch (random.nextInt(4)) {
                case 0 -> {
                    line("G91 G28 Z0");
                    line("G90");
                }
                case 1 -> line("G53 G0 Z0");
                case 2 -> line("G0 Z" + mm(25));
                default -> {
                    line("G0 Z" + mm(30));
                    line("G0 X" + mm(0) + " Y" + mm(40));
                }
            }
            motion = "";
        }

        void isolate() {
            double[][] corners = {{13, 3}, {13, 11}, {3, 11}, {3, 3}, {3.4, 3}};
            rapid(3, 3);
            if (random.nextBoolean()) {
                up(1);
            }
            move("G1", "Z" + mm(-0.1) + feed(90));
            boolean words = random.nextBoolean();
            for (int k = 0; k < corners.length; k++) {
                boolean alongX = k % 2 == 0;
                String to = words
                        ? "X" + mm(corners[k][0]) + " Y" + mm(corners[k][1])
                        : alongX ? "X" + mm(corners[k][0]) : "Y" + mm(corners[k][1]);
                move("G1", to + (k == 0 ? feed(300) : ""));
            }
            up(5);
        }

        void bore(double x, double y) {
            double r = 0.1;
            rapid(x + r, y);
            up(0.5);
            move("G1", "Z" + mm(0) + feed(90));
            for (double z : new double[] {-0.4, -0.8, -1.2, -1.65, -1.65}) {
                move("G3", "X" + mm(x + r) + " Y" + mm(y) + " Z" + mm(z) + " I" + mm(-r) + " J0" + feed(180));
            }
            up(2);
        }

        void drill() {
            motion = "";
            String z = " Z" + mm(-1.95);
            switch (random.nextInt(4)) {
                case 0 -> {
                    line("G98 G81 X" + mm(6) + " Y" + mm(5) + z + " R" + mm(1) + feed(200));
                    line("X" + mm(8));
                    line("X" + mm(10));
                    line("G80");
                }
                case 1 -> {
                    line("G99 G83 X" + mm(6) + " Y" + mm(5) + z + " R" + mm(1) + " Q" + mm(0.6) + feed(200));
                    line("X" + mm(8) + " Y" + mm(5));
                    line("G80");
                }
                case 2 -> {
                    line("G81 X" + mm(6) + " Y" + mm(5) + z + " R" + mm(2) + feed(200));
                    line("G81 X" + mm(8) + " Y" + mm(5) + z + " R" + mm(2));
                }
                default -> {
                    for (double x : new double[] {6, 8}) {
                        rapid(x, 5);
                        up(1);
                        move("G1", "Z" + mm(-1.95) + feed(200));
                        up(2);
                    }
                }
            }
            motion = "";
        }

        void end() {
            motion = "";
            switch (random.nextInt(3)) {
                case 0 -> {
                    up(10);
                    line("M5");
                }
                case 1 -> {
                    line("G91 G28 Z0");
                    line("G90");
                    line("M5 M9");
                }
                default -> {
                    line("M5");
                    up(20);
                    rapid(0, 60);
                }
            }
            line(pick("M2", "M30"));
            if (percent) {
                text.append("%").append(lineEnd);
            }
        }

        void begin(String title) {
            if (percent) {
                text.append("%").append(lineEnd);
            }
            comment(title);
            if (random.nextInt(3) == 0) {
                comment("made by hand, 20 x 15 mm, FR-1 1.5 mm");
            }
            header();
        }
    }

    private static Bench bench(Manner manner) {
        return Bench.job()
                .machine(
                        "dwell",
                        manner.milliseconds ? "ms" : "s",
                        "spindle",
                        "[\"5000 rpm\", \"24000 rpm\"]",
                        "blank_at",
                        "[\"10 mm\", \"10 mm\", \"-38 mm\"]");
    }

    private static Verdicts whole(long seed) {
        Manner m = new Manner(seed);
        m.begin("board " + seed);
        m.change(1, "T1 V-bit 30 deg", true);
        m.isolate();
        m.change(2, "0.8 mm end mill", false);
        m.bore(6, 8);
        m.bore(10, 8);
        m.change(4, "drill 1.0 mm", false);
        m.drill();
        m.end();
        return bench(m).program("board.ngc", m.text.toString()).examined();
    }

    private static Verdicts apart(long seed) {
        Manner iso = new Manner(seed);
        iso.begin("copper, tool 1");
        iso.change(1, "engraver", true);
        iso.isolate();
        iso.end();
        Manner bore = new Manner(seed);
        bore.begin("bores");
        bore.change(2, "T2 1/32 in end mill", true);
        bore.bore(6, 8);
        bore.end();
        return bench(iso)
                .program("copper.nc", iso.text.toString())
                .program("bores.nc", bore.text.toString())
                .examined();
    }

    @TestFactory
    List<DynamicTest> shouldRaiseNothingAboveANoteOnSoundProgramsOfManyManners() {
        return IntStream.range(0, PROGRAMS)
                .mapToObj(seed -> DynamicTest.dynamicTest(
                        "seed " + seed, () -> (seed % 3 == 2 ? apart(seed) : whole(seed)).raisesNothingAboveANote()))
                .collect(Collectors.toList());
    }

    @Test
    void shouldWriteProgramsThatDiffer() {
        assertThat(IntStream.range(0, PROGRAMS)
                        .mapToObj(seed -> {
                            Manner m = new Manner(seed);
                            m.begin("x");
                            m.change(1, "y", true);
                            m.isolate();
                            return m.text.toString();
                        })
                        .distinct()
                        .count())
                .isEqualTo(PROGRAMS);
    }

    /** Whole programs as hands and small scripts write them. */
    @Test
    void shouldRaiseNothingAboveANoteOnProgramsOfOtherHands() {
        List<String> programs = List.of(
                // one long block a move, everything said each time
                "G21\nG90\nG94\nG17\nM6 T1\nM3 S16000\nG4 P3\nG0 X3 Y3 Z5\nG1 X3 Y3 Z-0.1 F90\nG1 X13 Y3 Z-0.1 F300\n"
                        + "G1 X13 Y11 Z-0.1 F300\nG1 X3 Y11 Z-0.1 F300\nG1 X3 Y3 Z-0.1 F300\nG1 X3.5 Y3 Z-0.1 F300\nG0 Z5\nM5\nM30\n",
                // no end of line at the end, no M2
                "G21 G90\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X3 Y3\nG1 Z-.1 F90\nX13 F300\nY11\nX3\nY3\nX3.5\nG0 Z5\nM5\nM30",
                // parameters and expressions
                "G21 G90 G17\n#1=3\n#2=[#1+10]\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X#1 Y#1\nG1 Z[0-0.1] F90\nG1 X#2 F300\n"
                        + "G1 Y[#1+8]\nG1 X#1\nG1 Y#1\nG1 X[#1+0.5]\nG0 Z5\nM5\nM2\n",
                // incremental cuts that come back
                "G21 G90 G17 G94 G54\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG91\nG1 X10 F300\nG1 Y8\n"
                        + "G1 X-10\nG1 Y-8\nG1 X0.5\nG90\nG0 Z5\nM5\nM2\n",
                // ramps into the groove
                "G21 G90 G17 G94 G54\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X3 Y3\nG0 Z0.3\nG1 X5 Z-0.1 F120\nG1 X13 F300\nG1 Y11\n"
                        + "G1 X3\nG1 Y3\nG1 X5.5\nG0 Z5\nM5\nM2\n",
                // spindle first, then the tool's touch-off was made by hand; comments with a message and signs
                "(MSG, engraver in the collet?)\n(--- begin ---)\nG21 G90 G94 G17\nM3 S16000\nG4 P4\nG0 Z5\nG0 X3 Y3\nG1 Z-0.1 F90\n"
                        + "G1 X13 F300 (first wall)\nG1 Y11\nG1 X3\nG1 Y3\nG1 X3.5\nG0 Z5\nM5 (off)\nM9\nM2\n",
                // arcs by radius and by centre, rounded corners
                "G21 G90 G91.1 G17 G94 G54\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X4 Y3\nG1 Z-0.1 F90\nG1 X12 F300\nG3 X13 Y4 R1\nG1 Y10\n"
                        + "G3 X12 Y11 I-1 J0\nG1 X4\nG3 X3 Y10 R1.0\nG1 Y4\nG3 X4 Y3 I1 J0\nG1 X4.5\nG0 Z5\nM5\nM2\n",
                // tabs, spaces within words, lower case, percent
                "%\n n1 g21 g90 g17\n\tt1 m6\n n2 s 16000 m 3\ng4 p3\ng0 z5\ng0 x 3 y 3\ng1 z - 0 . 1 f 90\ng1 x13 f300\ny11\nx3\ny3\nx3.5\n"
                        + "g0 z5\nm5\nm2\n%\n",
                // block delete and optional stop that change nothing
                "G21 G90 G17 G94\n/M8\nT1 M6\nS16000 M3\nG4 P3\nG0 Z5\nG0 X3 Y3\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X3\nG1 Y3\n"
                        + "G1 X3.5\nG0 Z5\nM5\nM1\n/M9\nM2\n",
                // homes before and after
                "G21 G90 G17 G94 G54\nG53 G0 Z0\nT1 M6\nS16000 M3\nG4 P3\nG0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X3\n"
                        + "G1 Y3\nG1 X3.5\nG0 Z5\nM5\nG53 G0 Z0\nG53 G0 X0 Y0\nM30\n",
                "G28 G91 Z0\nG90 G21 G17 G94 G54\nT1 M6\nS16000 M3\nG4 P3\nG0 X3 Y3\nG0 Z1\nG1 Z-0.1 F90\nG1 X13 F300\nG1 Y11\nG1 X3\n"
                        + "G1 Y3\nG1 X3.5\nG0 Z5\nM5\nG28 G91 Z0\nG28 X0 Y0\nG90\nM30\n");
        for (String program : programs) {
            Bench.job()
                    .program("hand.ngc", program, "tool", "engraver")
                    .examined()
                    .raisesNothingAboveANote();
        }
    }
}
