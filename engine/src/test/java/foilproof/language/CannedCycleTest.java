package foilproof.language;

import static foilproof.language.Listing.common;
import static foilproof.language.Listing.run;
import static foilproof.language.Listing.strict;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Canned cycles: NISTIR 6556 section 3.5.16; rows Y1 to Y8, C45 and C47 of the check values. */
class CannedCycleTest {
    private static final String START = "G0 X1 Y2 Z3 F100 S500 M3";

    private static void refused(String code, String... lines) {
        assertThat(run(strict(), lines).errorCodes())
                .as(String.join(" | ", lines))
                .containsExactly(code);
    }

    private static List<String> cycle(String... lines) {
        String[] all = new String[lines.length + 1];
        all[0] = START;
        System.arraycopy(lines, 0, all, 1, lines.length);
        Listing l = run(common(), all);
        assertThat(l.errorCodes()).isEmpty();
        return l.commandsFromLine(2).stream()
                .filter(c -> !c.startsWith("SET_PATH_MODE"))
                .toList();
    }

    @Test // C45: appendix C.3; the kept Z number is read anew as an increment (D)
    void shouldKeepNumbersAcrossLinesOfOneCycle() {
        Listing inches = run(
                strict().tools(inchTools()),
                "G20 T1 M6 F10",
                "G43 H1",
                "g81 x3 y4 r0.2 z-1.1",
                "x1 y0 r0 g91 l3",
                "y-2 r0.1",
                "g82 g90 x4 y5 r0.2 z-1.1 p0.6");
        assertThat(inches.errorCodes()).isEmpty();
        assertThat(inches.motionsFromLine(3))
                .containsExactly(
                        "T(0,0,0.2)",
                        "T(3,4,0.2)",
                        "F(3,4,-1.1)",
                        "T(3,4,0.2)", // first line
                        "T(4,4,0.2)",
                        "F(4,4,-0.9)",
                        "T(4,4,0.2)", // three by increments
                        "T(5,4,0.2)",
                        "F(5,4,-0.9)",
                        "T(5,4,0.2)",
                        "T(6,4,0.2)",
                        "F(6,4,-0.9)",
                        "T(6,4,0.2)",
                        "T(6,4,0.3)",
                        "T(6,2,0.3)",
                        "F(6,2,-0.8)",
                        "T(6,2,0.3)", // R 0.1 higher
                        "T(4,5,0.3)",
                        "T(4,5,0.2)",
                        "F(4,5,-1.1)",
                        "T(4,5,0.3)"); // C47
        assertThat(inches.commandsFromLine(6)).contains("DWELL(0.6)");
    }

    private static ToolTable inchTools() {
        return new ToolTable() {
            @Override
            public boolean exists(int number) {
                return number == 1;
            }

            @Override
            public double lengthMm(int number) {
                return 2 * 25.4;
            }

            @Override
            public double diameterMm(int number) {
                return 25.4;
            }
        };
    }

    @Test // Y1, Y2: sections 3.5.16.2 and 3.5.16.3
    void shouldDrillWithAndWithoutDwell() {
        assertThat(cycle("G81 X4 Y5 Z-1 R1")).containsExactly("T(4,5,3)", "T(4,5,1)", "F(4,5,-1)", "T(4,5,3)");
        assertThat(cycle("G82 G99 X4 Y5 Z-1 R1 P2"))
                .containsExactly("T(4,5,3)", "T(4,5,1)", "F(4,5,-1)", "DWELL(2)", "T(4,5,1)");
    }

    @Test // Y3: section 3.5.16.4; 0.254 mm above the bottom from memory
    void shouldPeck() {
        assertThat(cycle("G83 G99 X4 Y5 Z-1 R1 Q0.8"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "F(4,5,0.2)",
                        "T(4,5,1)",
                        "T(4,5,0.454)",
                        "F(4,5,-0.6)",
                        "T(4,5,1)",
                        "T(4,5,-0.346)",
                        "F(4,5,-1)",
                        "T(4,5,1)");
        assertThat(cycle("G73 G99 X4 Y5 Z-1 R1 Q0.8"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "F(4,5,0.2)",
                        "T(4,5,0.454)",
                        "F(4,5,-0.6)",
                        "T(4,5,-0.346)",
                        "F(4,5,-1)",
                        "T(4,5,1)");
        refused("cycle-peck", START, "G83 X4 Y5 Z-1 R1 Q0");
        refused("cycle-word-missing", START, "G83 X4 Y5 Z-1 R1");
    }

    @Test // Y4: section 3.5.16.5
    void shouldTap() {
        assertThat(cycle("G84 X4 Y5 Z-1 R1"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "SYNCHRONIZE(1)",
                        "F(4,5,-1)",
                        "SPINDLE_STOP",
                        "SPINDLE_COUNTERCLOCKWISE",
                        "F(4,5,3)",
                        "SYNCHRONIZE(0)",
                        "SPINDLE_STOP",
                        "SPINDLE_CLOCKWISE");
        refused("cycle-spindle", "G0 X1 F100", "G84 X4 Y5 Z-1 R1");
    }

    @Test // Y5, Y6, Y8: sections 3.5.16.6, .7, .9, .10
    void shouldBore() {
        assertThat(cycle("G85 X4 Y5 Z-1 R1")).containsExactly("T(4,5,3)", "T(4,5,1)", "F(4,5,-1)", "F(4,5,3)");
        assertThat(cycle("G89 X4 Y5 Z-1 R1 P1"))
                .containsExactly("T(4,5,3)", "T(4,5,1)", "F(4,5,-1)", "DWELL(1)", "F(4,5,3)");
        assertThat(cycle("G86 X4 Y5 Z-1 R1 P1"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "F(4,5,-1)",
                        "DWELL(1)",
                        "SPINDLE_STOP",
                        "T(4,5,3)",
                        "SPINDLE_CLOCKWISE");
        assertThat(cycle("G88 X4 Y5 Z-1 R1 P1"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "F(4,5,-1)",
                        "DWELL(1)",
                        "SPINDLE_STOP",
                        "PROGRAM_STOP",
                        "T(4,5,3)",
                        "SPINDLE_CLOCKWISE");
        refused("cycle-spindle", "G0 X1 F100", "G86 X4 Y5 Z-1 R1 P1");
    }

    @Test // Y7: section 3.5.16.8
    void shouldBoreFromBehind() {
        assertThat(cycle("G87 X4 Y5 Z-2 R1 I0.5 J0.25 K-1"))
                .containsExactly(
                        "T(4,5,3)",
                        "T(4,5,1)",
                        "T(4.5,5.25,1)",
                        "SPINDLE_ORIENT",
                        "T(4.5,5.25,-2)",
                        "T(4,5,-2)",
                        "SPINDLE_CLOCKWISE",
                        "F(4,5,-1)",
                        "F(4,5,-2)",
                        "SPINDLE_ORIENT",
                        "T(4.5,5.25,-2)",
                        "T(4.5,5.25,3)",
                        "T(4,5,3)",
                        "SPINDLE_CLOCKWISE");
    }

    @Test // section 3.5.16: the path mode of a cycle
    void shouldRunCyclesInExactPathModeAndRestoreTheMode() {
        assertThat(run(strict(), "G64 F1", "G81 X1 Y1 Z-1 R1").commandsFromLine(2))
                .startsWith("SET_PATH_MODE(1)")
                .endsWith("SET_PATH_MODE(3)");
    }

    @Test // section 3.5.16: errors
    void shouldRefuseWrongCycles() {
        refused("axis-missing", START, "G81 R1");
        refused("cycle-word-missing", START, "G81 X1 R1");
        refused("cycle-word-missing", START, "G81 X1 Z-1");
        refused("cycle-r-below-z", START, "G81 X1 Z2 R1");
        refused("cycle-repeats", START, "G81 X1 Z-1 R1 L0");
        refused("cycle-repeats", START, "G81 X1 Z-1 R1 L1.5");
        refused("dwell", START, "G82 X1 Z-1 R1 P-1");
    }

    @Test // A16 of the needs: a cycle left modal
    void shouldNoteCyclesLeftModal() {
        Interpretation i = run(strict(), START, "G81 X1 Z-1 R1", "X2", "M2").interpretation();
        assertThat(i.notes(NoteKind.CYCLE_LEFT_MODAL)).hasSize(1);
        assertThat(i.notes(NoteKind.CYCLE_REPEATED)).hasSize(1);
        assertThat(i.notes(NoteKind.CYCLE)).singleElement().satisfies(n -> assertThat(n.value())
                .isEqualTo(1));
    }

    @Test // sections 3.5.16.1 and 4.3.6.1: cycles in the other planes work along the axis across the plane
    void shouldDrillAlongTheAxisAcrossThePlane() {
        assertThat(cycle("G18 G81 X4 Z5 Y-1 R4"))
                .containsExactly("SELECT_PLANE(2)", "T(1,4,3)", "T(4,4,5)", "F(4,-1,5)", "T(4,4,5)");
    }
}
