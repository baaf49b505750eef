package foilproof.language;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.source.Diagnostic;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Whatever the bytes are: an error with its place, bounded time and memory, never an exception. */
class BadInputTest {
    private static Interpretation read(byte[] bytes) {
        return Interpreter.interpret(
                SourceFile.of("bad.ngc", bytes), InterpreterSetup.builder().build());
    }

    private static Diagnostic only(byte[] bytes) {
        Interpretation interpretation = read(bytes);
        assertThat(interpretation.errors()).hasSize(1);
        assertThat(interpretation.end()).isEqualTo(Interpretation.End.ERROR);
        Diagnostic error = interpretation.errors().get(0);
        assertThat(error.render()).isNotBlank();
        assertThat(error.expected()).isNotBlank();
        return error;
    }

    private static Diagnostic only(String text) {
        return only(text.getBytes(StandardCharsets.UTF_8));
    }

    private static void place(Diagnostic error, String code, int line, int column) {
        assertThat(error.code()).isEqualTo(code);
        assertThat(error.span().line()).isEqualTo(line);
        assertThat(error.span().column()).isEqualTo(column);
    }

    @Test
    void shouldNameTheTroublesOfTextThatIsNoProgram() {
        place(only("G21\nG0 X1,250\n"), "decimal-comma", 2, 6);
        place(only("G21\nG0 X\u22121\n"), "not-a-minus", 2, 5);
        place(only("G21\nG0 X\u20131\n"), "not-a-minus", 2, 5);
        place(only("\ufeffG21\n"), "byte-order-mark", 1, 1);
        place(only("G21\nG0 X1\n".getBytes(StandardCharsets.UTF_16)), "utf-16", 1, 1);
        place(only("G21\nG0 X1\n".getBytes(StandardCharsets.UTF_16LE)), "utf-16", 1, 1);
        place(only("G21\nG0 \0X1\n"), "control-character", 2, 4);
        place(only("G21\n(a\u0007)\n"), "control-character", 2, 3);
        place(only("G21\nG0 X" + "1".repeat(1_000_000) + "\n"), "line-too-long", 2, 4097);
        place(only("G21\nG0 X" + "1".repeat(4000) + "\n"), "number-too-long", 2, 5);
        place(only("G21\nG0 X" + "[".repeat(1000) + "\n"), "nesting", 2, 69);
        place(only("G21\nG0 X" + "#".repeat(1000) + "1\n"), "nesting", 2, 69);
        place(only("G21\nG0 X" + "ABS[".repeat(500) + "\n"), "nesting", 2, 264);
        place(only(""), "empty-program", 0, 0);
        place(only("\n\n \t\n"), "empty-program", 3, 0);
        place(only("G21\nG0 X9999999999\n"), "coordinate-too-large", 2, 1);
        place(only("G21 F1\nG91 G1 X900000\nX900000\n"), "coordinate-too-large", 3, 1);
    }

    @Test
    void shouldCountColumnsInCharactersAfterACommentInUtf8() {
        place(only("(\u00e9\u00e9\u00e9) G0 X1,2\n"), "decimal-comma", 1, 12);
    }

    @Test
    void shouldCountPhysicalLinesForEveryKindOfLineEnd() {
        for (String end : new String[] {"\n", "\r", "\r\n"}) {
            Diagnostic error = only(String.join(end, "G21", "", "N5 G0 X1", "?", "M2"));
            place(error, "unknown-character", 4, 1);
        }
        CanonicalProgram c = read("G21\r\n\r\nG0 X1\rG0 X2\nM2".getBytes(StandardCharsets.UTF_8))
                .commands();
        assertThat(c.line(1)).isEqualTo(3);
        assertThat(c.line(2)).isEqualTo(4);
    }

    @Test
    void shouldNoteALastLineThatWasCut() {
        assertThat(read("G21\nG1 X1 Y".getBytes(StandardCharsets.UTF_8)).notes(NoteKind.LAST_LINE_CUT))
                .hasSize(1);
        assertThat(read("G21\nG0 X1 Y2".getBytes(StandardCharsets.UTF_8)).notes(NoteKind.LAST_LINE_CUT))
                .hasSize(1);
        assertThat(read("G21\nG0 X1 Y2\nM2".getBytes(StandardCharsets.UTF_8)).notes(NoteKind.LAST_LINE_CUT))
                .isEmpty();
    }

    @Test
    void shouldRefuseFilesAndMotionsBeyondTheLimits() {
        InputLimits small = new InputLimits(100, 50, 10, 3, 5, 5);
        InterpreterSetup setup = InterpreterSetup.builder().limits(small).build();
        assertThat(Interpreter.interpret(SourceFile.of("a", new byte[101]), setup)
                        .errors()
                        .get(0)
                        .code())
                .isEqualTo("file-too-large");
        assertThat(Interpreter.interpret(SourceFile.ofText("a", "G0X1\nX2\nX3\nX4\nX5\nX6\n"), setup)
                        .errors()
                        .get(0)
                        .code())
                .isEqualTo("too-many-moves");
        InterpreterSetup usual = InterpreterSetup.builder().build();
        for (String endless : new String[] {"F1 G83 X1 Z-1 R1 Q0.0000001\n", "F1 G91 G81 X0 Z-1 R0 L999999999\n"}) {
            Interpretation i = Interpreter.interpret(SourceFile.ofText("a", endless), usual);
            assertThat(i.errors().get(0).code()).isEqualTo("too-many-moves");
        }
    }

    @Test
    void shouldRefuseAFileOfOneHugeLineWithoutReadingItTwice() {
        byte[] bytes = new byte[50_000_000];
        Arrays.fill(bytes, (byte) '1');
        place(only(bytes), "line-too-long", 1, 4097);
    }

    @Test
    void shouldNeverThrowOnSeededBytes() {
        long seed = 4711;
        Random random = new Random(seed);
        for (int i = 0; i < 3000; i++) {
            byte[] bytes = new byte[random.nextInt(200)];
            random.nextBytes(bytes);
            assertThat(read(bytes).end()).as("seed %d round %d", seed, i).isNotNull();
        }
    }

    @Test
    void shouldNeverThrowOnSeededPiecesOfPrograms() {
        long seed = 815;
        Random random = new Random(seed);
        String[] pieces = {
            "G0",
            "G1",
            "G2",
            "G3",
            "G17",
            "G18",
            "G19",
            "G20",
            "G21",
            "G28",
            "G30",
            "G10 L2 P1",
            "G10 L20 P2",
            "G38.2",
            "G38.3",
            "G38.5",
            "G40",
            "G41",
            "G42 D1",
            "G43 H1",
            "G43.1",
            "G49",
            "G53",
            "G54",
            "G59.3",
            "G61",
            "G64",
            "G64 P0.01",
            "G73",
            "G80",
            "G81",
            "G82",
            "G83",
            "G84",
            "G85",
            "G86",
            "G87",
            "G88",
            "G89",
            "G90",
            "G91",
            "G90.1",
            "G91.1",
            "G92",
            "G92.1",
            "G92.2",
            "G92.3",
            "G93",
            "G94",
            "G98",
            "G99",
            "M0",
            "M2",
            "M3",
            "M5",
            "M6",
            "M8",
            "M30",
            "T1",
            "T2",
            "S1000",
            "F100",
            "F0",
            "X1",
            "X-2.5",
            "Y1",
            "Y-3",
            "Z1",
            "Z-1",
            "R2",
            "R-2",
            "I1",
            "I-0.5",
            "J0",
            "J2",
            "K-1",
            "P1",
            "Q0.3",
            "L3",
            "D1",
            "H2",
            "#1=3",
            "X#1",
            "X[1+#2]",
            "Z[sin[30]]",
            "(c)",
            "(MSG,x)",
            ";",
            "/",
            "N1",
            "%",
            "\n",
            "\n",
            "\n",
            "\n",
            "\n",
            "\r\n",
            " ",
            "A1",
            "E",
            "[",
            "]",
            "-",
            ".",
            "1"
        };
        ToolTable tools = Listing.REPORT_TOOLS;
        for (int i = 0; i < 6000; i++) {
            StringBuilder text = new StringBuilder();
            for (int k = random.nextInt(60); k > 0; k--) {
                text.append(pieces[random.nextInt(pieces.length)]).append(random.nextInt(3) == 0 ? " " : "");
            }
            InterpreterSetup setup = InterpreterSetup.builder()
                    .dialect(random.nextBoolean() ? Dialect.STRICT : Dialect.COMMON)
                    .tools(tools)
                    .machineKnown(random.nextBoolean())
                    .continueAfterEnd(random.nextBoolean())
                    .build();
            Interpretation interpretation = Interpreter.interpret(SourceFile.ofText("p.ngc", text.toString()), setup);
            checkWhole(interpretation, "seed " + seed + " round " + i + "\n" + text);
        }
    }

    @Test
    void shouldNeverThrowOnAProgramWithOneByteChanged() {
        long seed = 99;
        Random random = new Random(seed);
        byte[] good =
                ("G21 G90 G94 G17 G40 G49 G80 G54 G61\nT1 M6\nS16000 M3\nG4 P3\nG0 X3.12 Y4.4\nG0 Z0.5\nG1 Z-0.1 F90\n"
                                + "G1 X36.88 F420\nG3 X38.88 Y6.4 I0 J2\nG2 X40 Y6.4 R0.56\nG1 Y[25.6+#100]\nG0 Z2\nG81 X4 Y5 Z-1.8 R0.5 F60\nX6\nG80\n"
                                + "G42 D1 G1 X30 Y30\nX20\nG40\nM5\nM30\n")
                        .getBytes(StandardCharsets.US_ASCII);
        InterpreterSetup setup =
                InterpreterSetup.builder().tools(Listing.REPORT_TOOLS).build();
        assertThat(Interpreter.interpret(SourceFile.of("p.ngc", good), setup).errors())
                .isEmpty();
        for (int i = 0; i < 4000; i++) {
            byte[] bytes = good.clone();
            bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            byte[] cut = random.nextInt(4) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
            checkWhole(Interpreter.interpret(SourceFile.of("p.ngc", cut), setup), "seed " + seed + " round " + i);
        }
    }

    private static void checkWhole(Interpretation interpretation, String what) {
        CanonicalProgram c = interpretation.commands();
        for (int i = 0; i < c.size(); i++) {
            assertThat(c.line(i)).as(what).isBetween(1, interpretation.lastLine());
            if (c.isMotion(i)) {
                for (int axis = 0; axis < 3; axis++) {
                    assertThat(c.endMm(i, axis)).as(what).isFinite();
                    assertThat(c.startMm(i, axis)).as(what).isFinite();
                }
            }
            if (c.kind(i) == CommandKind.ARC_FEED) {
                assertThat(c.sweepRad(i)).as(what).isFinite();
            }
        }
        for (Diagnostic error : interpretation.errors()) {
            assertThat(error.render()).as(what).isNotBlank();
            assertThat(error.span().endColumn())
                    .as(what)
                    .isGreaterThanOrEqualTo(error.span().column());
        }
        assertThat(interpretation.stateAtLine(interpretation.lastLine())).isNotNull();
    }
}
