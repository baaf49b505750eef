package foilproof.findings;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.function.LongFunction;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Seeded random boards with a known truth, by construction: pads of nets on a coarse lattice, each net with a straight
 * trace, each in a groove of its own; a pour round them is a net too, so one gap in one groove is one short and one cut
 * through a trace is one open. Cutters, faces, turns of the design, corners (sharp or rounded) and Z vary with the seed.
 */
class PlantedNetsTest {
    private static final double TAN_15 = StrictMath.tan(Math.PI / 12);
    private static final int BOARDS = 50;
    /** A place is told to a few cells of 0.02 mm. */
    private static final double NEAR_MM = 0.1;
    /** A width at the foil bottom is told to this (design, idea 5: V walls 2 um, flat cutters half a cell), two walls. */
    private static final double WIDTH_MM = 0.02;

    /** What is planted. */
    private enum Fault {
        NONE,
        GAP,
        MISSING_CORNER,
        OPEN_LOOP,
        SHALLOW,
        CUT
    }

    private static final class Board {
        final Random dice;
        final boolean flat;
        final boolean top;
        final int turned;
        final boolean rounded;
        final double half;
        final StringBuilder layer = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n");
        final List<String> lines = new ArrayList<>();
        String faultNet = "";
        double faultX;
        double faultY;
        /** How far from the planted place the narrowest copper may lie by geometry, beside {@link #NEAR_MM}. */
        double spanMm;
        /** How wide bridge or cut are at the foil bottom by geometry; NaN where the groove goes on over the bridge. */
        double bridgeMm = Double.NaN;

        int faultLine = -1;
        double deepMm = -0.1;

        Board(long seed, Fault fault) {
            dice = new Random(seed);
            flat = dice.nextInt(3) == 0;
            top = dice.nextBoolean();
            turned = 90 * dice.nextInt(4);
            rounded = dice.nextBoolean();
            // wide enough beside lands to solder without a mask (needs, row E4)
            half = flat ? 0.4 : 0.085 + (0.1 - 0.0174) * TAN_15;
            layer.append("%TF.FileFunction,Copper,")
                    .append(top ? "L1,Top" : "L2,Bot")
                    .append("*%\n%LPD*%\n");
            layer.append("%TA.AperFunction,ComponentPad*%\n%ADD10C,1.2*%\n%ADD11C,0.6*%\nD10*\n");
            for (String line : start(flat ? 3 : 1).split("\n")) {
                lines.add(line);
            }
            int cells = 6;
            int faulty = dice.nextInt(cells);
            for (int k = 0; k < cells; k++) {
                net(k, k == faulty ? fault : Fault.NONE);
            }
            pad("GND", "G", 1, 19, 7.5);
            for (String line : END.split("\n")) {
                lines.add(line);
            }
            layer.append("M02*\n");
        }

        /** From the blank (as it lies with the copper up) to the design: undo the face's mirror and the turn. */
        private double[] design(double x, double y) {
            double u = (top ? x : 20 - x) - 10;
            double v = y - 7.5;
            return switch (turned) {
                case 90 -> new double[] {v, -u};
                case 180 -> new double[] {-u, -v};
                case 270 -> new double[] {-v, u};
                default -> new double[] {u, v};
            };
        }

        private String at(double x, double y) {
            double[] d = design(x, y);
            return String.format(Locale.ROOT, "X%dY%d", Math.round(d[0] * 1e6), Math.round(d[1] * 1e6));
        }

        private void pad(String net, String pin, int number, double x, double y) {
            layer.append("D10*\n%TO.N,")
                    .append(net)
                    .append("*%\n%TO.P,")
                    .append(pin)
                    .append(',')
                    .append(number);
            layer.append("*%\n").append(at(x, y)).append("D03*\n");
        }

        private void net(int k, Fault fault) {
            String name = "N" + k;
            double cx = 3.2 + 5.6 * (k % 3) + 0.4 * dice.nextDouble();
            double cy = 3.9 + 6.4 * (k / 3) + 0.4 * dice.nextDouble();
            boolean across = dice.nextBoolean();
            double reach = 0.8 + 0.2 * dice.nextDouble();
            double ax = across ? cx - reach : cx;
            double ay = across ? cy : cy - reach;
            double bx = across ? cx + reach : cx;
            double by = across ? cy : cy + reach;
            pad(name, "U" + k, 1, ax, ay);
            pad(name, "U" + k, 2, bx, by);
            layer.append("D11*\n%TO.N,").append(name).append("*%\n");
            layer.append(at(ax, ay)).append("D02*\n").append(at(bx, by)).append("D01*\n");
            double free = 0.6 + half + 0.02;
            loop(name, ax - free, ay - free, bx + free, by + free, fault);
            if (fault == Fault.CUT) {
                faultNet = name;
                faultX = cx;
                faultY = cy;
                double r = 0.6 + half;
                lines.add(text("G0 X%s Y%s", across ? cx : cx - r, across ? cy - r : cy));
                lines.add("G0 Z1");
                lines.add(text("G1 Z%s F90", deepMm));
                lines.add(text("G1 X%s Y%s F300", across ? cx : cx + r, across ? cy + r : cy));
                faultLine = lines.size();
                bridgeMm = 2 * half;
                lines.add("G0 Z5");
            }
        }

        /** Corners counter-clockwise from the lower left, with the planted fault on one side or corner. */
        private void loop(String name, double x0, double y0, double x1, double y1, Fault fault) {
            double r = rounded ? 0.5 : 0;
            double[][] sides = {
                {x0 + r, y0, x1 - r, y0}, {x1, y0 + r, x1, y1 - r}, {x1 - r, y1, x0 + r, y1}, {x0, y1 - r, x0, y0 + r}
            };
            int side = dice.nextInt(4);
            double neck = 0.02 + 0.2 * dice.nextDouble();
            lines.add(text("G0 X%s Y%s", sides[0][0], sides[0][1]));
            lines.add("G0 Z1");
            lines.add(text("G1 Z%s F90", deepMm));
            for (int k = 0; k < 4; k++) {
                double[] s = sides[k];
                double length = StrictMath.hypot(s[2] - s[0], s[3] - s[1]);
                double ux = (s[2] - s[0]) / length;
                double uy = (s[3] - s[1]) / length;
                double[] mid = {(s[0] + s[2]) / 2, (s[1] + s[3]) / 2};
                if (k == side && (fault == Fault.GAP || fault == Fault.SHALLOW)) {
                    double g = half + neck / 2;
                    lines.add(text("G1 X%s Y%s F300", mid[0] - ux * g, mid[1] - uy * g));
                    planted(name, mid[0] - ux * g, mid[1] - uy * g, mid[0] + ux * g, mid[1] + uy * g);
                    lines.add(fault == Fault.GAP ? "G0 Z1" : "G1 Z-0.005");
                    if (fault == Fault.SHALLOW) {
                        faultLine = lines.size() + 1;
                        bridgeMm = Double.NaN;
                        spanMm = g;
                    }
                    lines.add(text((fault == Fault.GAP ? "G0" : "G1") + " X%s Y%s", mid[0] + ux * g, mid[1] + uy * g));
                    lines.add(text("G1 Z%s F90", deepMm));
                }
                boolean ends = k == 3 && fault == Fault.OPEN_LOOP;
                double short1 = ends ? 2 * half + neck : 0;
                double[] next = sides[(k + 1) % 4];
                if (fault == Fault.MISSING_CORNER && k == side) {
                    // the groove stops before the corner and goes on behind it, on the next side
                    double nl = StrictMath.hypot(next[2] - next[0], next[3] - next[1]);
                    double cut = Math.min(2 * half + 0.3, 0.8 * Math.min(length, nl));
                    double[] on = {next[0] + (next[2] - next[0]) / nl * cut, next[1] + (next[3] - next[1]) / nl * cut};
                    lines.add(text("G1 X%s Y%s F300", s[2] - ux * cut, s[3] - uy * cut));
                    if (k == 3) {
                        planted(name, s[2] - ux * cut, s[3] - uy * cut, next[0], next[1]);
                        break;
                    }
                    planted(name, s[2] - ux * cut, s[3] - uy * cut, on[0], on[1]);
                    lines.add("G0 Z1");
                    lines.add(text("G0 X%s Y%s", on[0], on[1]));
                    lines.add(text("G1 Z%s F90", deepMm));
                    continue;
                }
                lines.add(text("G1 X%s Y%s F300", s[2] - ux * short1, s[3] - uy * short1));
                if (ends) {
                    planted(name, s[2] - ux * short1, s[3] - uy * short1, next[0], next[1]);
                    break;
                }
                if (r > 0) {
                    // the centre lies to the left of the way
                    lines.add(text("G3 X%s Y%s I%s J%s", next[0], next[1], -uy * r, ux * r));
                }
            }
            // no lead-over where it would end beside the planted gap
            if (fault == Fault.NONE || fault == Fault.CUT) {
                lines.add(text("G1 X%s Y%s", sides[0][0] + 0.05, sides[0][1]));
            }
            lines.add("G0 Z5");
        }

        /** The groove ends at A, on the line just written, and begins at B; both ends are round: narrowest midway. */
        private void planted(String name, double ax, double ay, double bx, double by) {
            faultNet = name;
            faultX = (ax + bx) / 2;
            faultY = (ay + by) / 2;
            bridgeMm = StrictMath.hypot(bx - ax, by - ay) - 2 * half;
            faultLine = lines.size();
        }

        Verdicts examined() {
            Bench b = Bench.job()
                    .cellUm(20)
                    .tool("engraver", "tip_width", "0.17 mm")
                    .side("face", top ? "top" : "bottom");
            // the design is seen from the top: its zero in the blank's middle either way
            b.design(top ? "top_copper" : "bottom_copper", "layer.gbr", layer.toString());
            return b.set("design.placed_at=[\"10 mm\", \"7.5 mm\"]")
                    .set("design.rotated=" + turned + " deg")
                    .runs(String.join("\n", lines) + "\n")
                    .examined();
        }
    }

    private static final Fault[] BRIDGES = {Fault.GAP, Fault.MISSING_CORNER, Fault.OPEN_LOOP, Fault.SHALLOW};

    /** What a sound board says above a note. */
    private static @Nullable String ofSoundBoard(long seed) {
        Verdicts v = new Board(seed, Fault.NONE).examined();
        return v.findings().stream().allMatch(f -> f.severity() == Severity.NOTE) ? null : "seed " + seed + "\n" + v;
    }

    private static @Nullable String ofBridge(long seed) {
        return told(new Board(seed, BRIDGES[(int) (seed % BRIDGES.length)]), seed, Kinds.SHORT, Kinds.OPEN);
    }

    private static @Nullable String ofCut(long seed) {
        return told(new Board(seed, Fault.CUT), seed, Kinds.OPEN, Kinds.SHORT);
    }

    /** What is not told as planted: one finding of the kind, none of the other, both nets, place and line. */
    private static @Nullable String told(Board board, long seed, String kind, String other) {
        Verdicts v = board.examined();
        List<String> wrong = new ArrayList<>();
        List<Finding> found =
                v.findings().stream().filter(f -> f.kind().equals(kind)).toList();
        if (found.size() != 1) {
            wrong.add(found.size() + " findings");
        }
        if (v.findings().stream().anyMatch(f -> f.kind().equals(other))) {
            wrong.add(other + " beside it");
        }
        for (Finding f : found) {
            boolean named = kind.equals(Kinds.OPEN)
                    ? f.message().contains("Net " + board.faultNet)
                    : f.message().contains(board.faultNet) && f.message().contains("GND");
            if (!named) {
                wrong.add("nets");
            }
            double off = StrictMath.hypot(f.atMm()[0] - board.faultX, f.atMm()[1] - board.faultY);
            if (off > NEAR_MM + board.spanMm) {
                wrong.add("place " + off + " off: " + f.atMm()[0] + ", " + f.atMm()[1]);
            }
            Measured width = f.measured();
            if (!Double.isNaN(board.bridgeMm)
                    && (width == null || Math.abs(width.value() - board.bridgeMm) > WIDTH_MM)) {
                wrong.add("width " + (width == null ? "unmeasured" : width.value()) + " for " + board.bridgeMm);
            }
            if (f.line() != board.faultLine) {
                wrong.add("line " + f.line());
            }
            if (f.timeS() == null) {
                wrong.add("no moment");
            }
        }
        return wrong.isEmpty()
                ? null
                : "seed " + seed + " planted at (" + board.faultX + ", " + board.faultY + ") line " + board.faultLine
                        + ": " + wrong + "\n" + v;
    }

    /** The seeds of the suite, or those of {@code -Dfoilproof.seeds=FROM:COUNT}, counted from the kind's own start. */
    private static LongStream seeds(long start) {
        String asked = System.getProperty("foilproof.seeds", "0:" + BOARDS);
        String[] parts = asked.split(":", 2);
        long from = start + Long.parseLong(parts[0]);
        return LongStream.range(from, from + Long.parseLong(parts[1]));
    }

    private static void allAgree(long start, LongFunction<@Nullable String> board) {
        List<String> wrong =
                seeds(start).mapToObj(board).filter(Objects::nonNull).toList();
        assertThat(wrong).as(wrong.size() + " boards").isEmpty();
    }

    @Test
    void shouldFindNoShortAndNoOpenOnFiftySoundBoards() {
        allAgree(0, PlantedNetsTest::ofSoundBoard);
    }

    @Test
    void shouldNameTheTwoNetsThePlaceAndTheLineOfFiftyBridges() {
        allAgree(1000, PlantedNetsTest::ofBridge);
    }

    @Test
    void shouldNameTheNetThePlaceAndTheLineOfFiftyCuts() {
        allAgree(2000, PlantedNetsTest::ofCut);
    }
}
