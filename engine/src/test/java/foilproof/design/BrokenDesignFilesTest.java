package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Damaged design files: an error with its place or a word, never a crash and never a hang. */
class BrokenDesignFilesTest {
    private static final String LAYER = LayerImageTest.HEAD
            + "%TF.FileFunction,Copper,L1,Top*%\n%AMBOX*$3=$1x2*21,1,$1,$2,0,0,30*1,0,0.2,0,0*%\n%ADD10C,0.5X0.1*%\n"
            + "%ADD11R,1X0.5*%\n%ADD12BOX,1X0.7*%\n%ADD13P,1X6X15*%\n%ABD20*%\nD10*\nX0Y0D03*\n%AB*%\n%TO.N,VIN*%\nG75*\nD10*\n"
            + "G01X0Y0D02*\nX5000000Y0D01*\nG03X5000000Y5000000I0J2500000D01*\n%LPC*%\nD12*\nX1000000Y1000000D03*\n%LPD*%\n"
            + "G36*\nG01*\nX0Y0D02*\nX9000000D01*\nY9000000D01*\nX0Y0D01*\nG37*\n%SRX2Y3I10J10*%\nD11*\nX3Y3D03*\n%SR*%\n"
            + "%LMX*%%LR45*%%LS1.5*%\nD20*\nX7000000Y7000000D03*\nD13*\nX8000000Y8000000D03*\nM02*\n";
    private static final String DRILL = "M48\n;TYPE=PLATED\nMETRIC,TZ,000.000\nT1C0.8\nT2C1.0\n%\nG05\nT1\nX1000Y2000\n"
            + "R3X2540\nX1.0Y1.0G85X4.0Y1.0\nT2\nG00X10.0Y0.0\nM15\nG01X12.0\nG03X12.0Y2.0A1.0\nM16\nM30\n";
    private static final String NETLIST = "C  board\nP  UNITS CUST 1\nP  NNAME1  LONG_NET\n"
            + "317NET1             J1    -1    D0800PA00X+001000Y+002000X1600Y0000R000 S0\n"
            + "017                 J1    -2    D0800PA00X+003000Y+002000X1600Y0000R000 S0\n"
            + "327NNAME1           R12   -2          A01X-002540Y+012700X1200Y0600R090 S0\n999\n";

    private interface Reader {
        Object read(SourceFile file) throws InputException;
    }

    private static String damaged(String text, Random random) {
        StringBuilder out = new StringBuilder(text);
        String letters = "0123456789XYIJDGM%*,.+-$()/xCROPABLSTN \n\u00e9\u0000";
        int hits = 1 + random.nextInt(4);
        for (int k = 0; k < hits && out.length() > 2; k++) {
            int at = random.nextInt(out.length());
            switch (random.nextInt(5)) {
                case 0 -> out.setCharAt(at, letters.charAt(random.nextInt(letters.length())));
                case 1 -> out.deleteCharAt(at);
                case 2 -> out.insert(at, letters.charAt(random.nextInt(letters.length())));
                case 3 -> out.delete(at, Math.min(out.length(), at + 1 + random.nextInt(12)));
                default -> out.insert(at, out.substring(at, Math.min(out.length(), at + 1 + random.nextInt(30))));
            }
        }
        if (random.nextInt(4) == 0) {
            out.setLength(random.nextInt(out.length() + 1));
        }
        return out.toString();
    }

    private static void survive(String text, String name, Reader reader, int runs) {
        int refused = 0;
        for (long seed = 1; seed <= runs; seed++) {
            String broken = damaged(text, new Random(seed));
            try {
                Object read = reader.read(SourceFile.ofText(name, broken));
                assertThat(read).isNotNull();
            } catch (InputException e) {
                refused++;
                assertThat(e.diagnostics()).isNotEmpty();
                assertThat(e.diagnostics().get(0).span().file()).isEqualTo(name);
            } catch (RuntimeException e) {
                fail("seed " + seed + " of " + name + ":\n" + broken, e);
            }
        }
        assertThat(refused).isPositive();
    }

    private static final InputLimits LIMITS = new InputLimits(1 << 20, 4096, 64, 64, 5_000, 20_000);

    @Test
    void shouldSurviveDamagedLayerImages() {
        survive(
                LAYER,
                "layer.gbr",
                f -> {
                    LayerImage image = DesignReader.readLayer(f, LIMITS).value();
                    image.covers(1, 1);
                    image.areaMm2();
                    return image.pads();
                },
                3000);
    }

    @Test
    void shouldSurviveDamagedDrillFiles() {
        survive(DRILL, "holes.drl", f -> DesignReader.readDrill(f, LIMITS), 5000);
    }

    @Test
    void shouldSurviveDamagedNetlists() {
        survive(
                NETLIST,
                "board.ipc",
                f -> DesignReader.readNetlist(f, LIMITS).value().nets(),
                5000);
    }

    @Test
    void shouldSurviveDamagedOutlines() {
        survive(
                LAYER,
                "edge.gbr",
                f -> DesignReader.readOutline(f, LIMITS).value().bounds(),
                500);
    }

    private static void refused(String name, byte[] bytes, Reader reader, String code, String says) {
        assertThatThrownBy(() -> reader.read(SourceFile.of(name, bytes)))
                .isInstanceOfSatisfying(InputException.class, e -> {
                    assertThat(e.diagnostics().get(0).code()).isEqualTo(code);
                    assertThat(e.getMessage()).contains(name).contains(says);
                });
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static final Reader LAYERS = f -> DesignReader.readLayer(f, LIMITS);
    private static final Reader DRILLS = f -> DesignReader.readDrill(f, LIMITS);
    private static final Reader NETLISTS = f -> DesignReader.readNetlist(f, LIMITS);

    @Test
    void shouldSayThatAFileIsNoTextAndAskToExportItAgain() {
        for (Charset two : List.of(StandardCharsets.UTF_16, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            refused("layer.gbr", LAYER.getBytes(two), LAYERS, "not-text", "UTF-16");
            refused("holes.drl", DRILL.getBytes(two), DRILLS, "not-text", "UTF-16");
            refused("board.ipc", NETLIST.getBytes(two), NETLISTS, "not-text", "UTF-16");
        }
        refused("layer.gbr", bytes(LAYER + "\0"), LAYERS, "not-text", "export it again");
        refused("holes.drl", bytes(DRILL + "\0"), DRILLS, "not-text", "line 19");
    }

    @Test
    void shouldRefuseZeroBytesInTheShortestOfFiles() {
        for (String text : List.of("\0", "a\0", "ab\0", "abc\0", "\0\0", "a\0b", "abcd\0")) {
            refused("layer.gbr", bytes(text), LAYERS, "not-text", "zero bytes, the first in line 1");
        }
        refused("layer.gbr", bytes("\0a\0b"), LAYERS, "not-text", "UTF-16");
        refused("layer.gbr", bytes("a\0b\0"), LAYERS, "not-text", "UTF-16");
    }

    @Test
    void shouldSayThatAFileIsOfAnotherKind() {
        refused("layer.gbr", bytes("G21\nG0 X1\nM2\n"), LAYERS, "layer-not-known", "no layer image");
        refused("board.ipc", bytes(LAYER), NETLISTS, "netlist-not-known", "IPC-D-356A");
        refused("layer.gbr", bytes(""), LAYERS, "layer-empty", "empty");
        refused("holes.drl", bytes(" \n"), DRILLS, "drill-empty", "empty");
        refused("board.ipc", bytes("\n\n"), NETLISTS, "netlist-empty", "empty");
    }

    @Test
    void shouldReadTheSameBehindAByteOrderMarkAndWithAnyLineEnd() throws InputException {
        int holes = DesignReader.readDrill(SourceFile.ofText("holes.drl", DRILL), LIMITS)
                .value()
                .holes()
                .size();
        double area = DesignReader.readLayer(SourceFile.ofText("layer.gbr", LAYER), LIMITS)
                .value()
                .areaMm2();
        for (String end : List.of("\n", "\r\n", "\r")) {
            for (String mark : List.of("", "\ufeff")) {
                Reading<DrillFile> drill =
                        DesignReader.readDrill(SourceFile.ofText("holes.drl", mark + DRILL.replace("\n", end)), LIMITS);
                assertThat(drill.value().holes()).hasSize(holes);
                assertThat(DesignReader.readLayer(
                                        SourceFile.ofText("layer.gbr", mark + LAYER.replace("\n", end)), LIMITS)
                                .value()
                                .areaMm2())
                        .isEqualTo(area);
                Netlist nets = DesignReader.readNetlist(
                                SourceFile.ofText("board.ipc", mark + NETLIST.replace("\n", end)), LIMITS)
                        .value();
                assertThat(nets.points()).hasSize(3);
                assertThat(nets.points().get(1).xMm()).isCloseTo(3, within(1e-12));
                boolean told = drill.warnings().stream().anyMatch(d -> d.code().equals("byte-order-mark"));
                assertThat(told).isEqualTo(!mark.isEmpty());
            }
        }
    }

    /** 10^6 flashes: two seconds or so, and no more memory than a small machine has. */
    @Test
    void shouldReadAMillionFlashes() throws InputException {
        StringBuilder text = new StringBuilder(LayerImageTest.HEAD).append("%ADD10C,0.01*%\nD10*\n");
        for (int k = 0; k < 1_000_000; k++) {
            text.append('X')
                    .append(k % 1000 * 40_000)
                    .append('Y')
                    .append(k / 1000 * 30_000)
                    .append("D03*\n");
        }
        LayerImage image = DesignReader.readLayer(
                        SourceFile.ofText("layer.gbr", text.append("M02*\n").toString()), InputLimits.DEFAULT)
                .value();
        assertThat(image.size()).isEqualTo(1_000_000);
        assertThat(image.covers(0.04, 0.03)).isTrue();
        assertThat(image.covers(0.06, 0.045)).isFalse();
    }
}
