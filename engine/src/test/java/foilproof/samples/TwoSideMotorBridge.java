package foilproof.samples;

import foilproof.samples.DesignWriter.Copper;
import foilproof.samples.DesignWriter.Pad;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Job 3: two sides, 15 vias and 22 pins in lands of 1.80 mm. No stop after the change to T2, so the engraving bit is
 * still in the collet when the holes begin, at line 318; and the zero of side 2 was touched 0.25 right and 0.20 low.
 * Every net is a chain of lands on a straight line, isolated by one loop; vias carry nets from side to side.
 * Coordinates are those of side 1 (bottom copper up) unless said otherwise; the board is 60 x 45 mm.
 */
final class TwoSideMotorBridge implements SampleJob {
    static final double BOARD_X_MM = 60;
    static final double BOARD_Y_MM = 45;

    /** Line of the first plunge of the holes, as the story tells it. */
    static final int FIRST_HOLE_LINE = 318;

    private static final double LAND_MM = 1.8;
    private static final double TRACE_MM = 1.0;
    /** Half the width at the bottom of one-ounce foil, 30 deg, tip 0.10: (0.10 + 2 x (0.135 - 0.0348) x tan 15 deg) / 2. */
    private static final double HALF_GROOVE_MM = 0.0768;

    private static final double COPPER_Z_MM = -0.135;
    private static final int FEED = 300;

    /** Chains of the bottom side: net, then lands as part.pin at x, y; a via has an empty part. */
    private static final Object[][] BOTTOM = {
        {"VM", "", "", 14.0, 9.5, "J1", "1", 20.0, 9.5, "C1", "1", 27.0, 9.5},
        {"GND", "J1", "2", 20.0, 5.0, "C1", "2", 27.0, 5.0, "", "", 34.0, 5.0},
        {"OUTA", "J2", "1", 40.0, 9.5, "", "", 47.0, 9.5},
        {"OUTB", "J2", "2", 40.0, 5.0, "", "", 47.0, 5.0},
        {"INA", "J3", "1", 8.0, 16.0, "", "", 8.0, 23.0},
        {"INB", "J3", "2", 12.0, 16.0, "", "", 12.0, 23.0},
        {"EN", "J3", "3", 16.0, 16.0, "", "", 16.0, 23.0},
        {"SENSE", "R1", "1", 52.0, 16.0, "", "", 52.0, 23.0},
        {"GHA", "U1", "1", 22.0, 18.0, "", "", 22.0, 25.0},
        {"GLA", "U1", "2", 26.0, 18.0, "", "", 26.0, 25.0},
        {"GHB", "U1", "3", 30.0, 18.0, "", "", 30.0, 25.0},
        {"GLB", "U1", "4", 34.0, 18.0, "", "", 34.0, 25.0},
        {"LED", "D1", "1", 44.0, 18.0, "", "", 44.0, 25.0},
        {"VCC", "C2", "1", 8.0, 33.0, "", "", 14.0, 33.0},
        {"BOOT", "C3", "1", 50.0, 33.0, "", "", 44.0, 33.0}
    };

    /** Chains of the top side, in the same coordinates, seen through the board. */
    private static final Object[][] TOP = {
        {"VM", "", "", 14.0, 9.5, "Q1", "1", 14.0, 13.0},
        {"GND", "", "", 34.0, 5.0, "Q2", "2", 34.0, 13.0},
        {"OUTA", "", "", 47.0, 9.5, "Q1", "2", 47.0, 16.0},
        {"OUTB", "", "", 47.0, 5.0, "Q2", "1", 54.0, 5.0},
        {"INA", "", "", 8.0, 23.0, "", "", 8.0, 23.0},
        {"INB", "", "", 12.0, 23.0, "U1", "5", 12.0, 28.0},
        {"EN", "", "", 16.0, 23.0, "", "", 16.0, 23.0},
        {"SENSE", "", "", 52.0, 23.0, "", "", 52.0, 23.0},
        {"GHA", "", "", 22.0, 25.0, "", "", 22.0, 25.0},
        {"GLA", "", "", 26.0, 25.0, "", "", 26.0, 25.0},
        {"GHB", "", "", 30.0, 25.0, "", "", 30.0, 25.0},
        {"GLB", "", "", 34.0, 25.0, "", "", 34.0, 25.0},
        {"LED", "", "", 44.0, 25.0, "", "", 44.0, 25.0},
        {"VCC", "", "", 14.0, 33.0, "", "", 14.0, 33.0},
        {"BOOT", "", "", 44.0, 33.0, "", "", 44.0, 33.0}
    };

    /** One land of a chain. */
    private record Land(String net, String part, String pin, double xMm, double yMm) {
        boolean via() {
            return part.isEmpty();
        }
    }

    @Override
    public String folder() {
        return "two-side-motor-bridge";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("side1.ngc", side1());
        files.put("side2.ngc", side2());
        files.put("bottom.gbr", DesignWriter.layer("Copper,L2,Bot", copper(BOTTOM), pads()));
        files.put("top.gbr", DesignWriter.layer("Copper,L1,Top", copper(TOP), pads()));
        files.put("holes.drl", DesignWriter.drill(pads()));
        files.put("board.ipc", DesignWriter.netlist(pads(), 2));
        return files;
    }

    private static String side1() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Two-side motor bridge, side 1: bottom copper, T1 engraving bit V 30 deg tip 0.10 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        isolate(p, chains(BOTTOM), false);
        for (Land land : alone(BOTTOM)) {
            ring(p, land, false);
        }
        int holesHeader = 6;
        int fill = FIRST_HOLE_LINE - holesHeader - p.next();
        p.comment("holes: T2 end mill 0.80 mm");
        for (int i = 0; i < fill; i++) {
            Land land = lands().get(i % lands().size());
            p.comment((land.via() ? "via 0.80 at X" : "pin 1.00 at X") + ProgramWriter.n(land.xMm()) + " Y"
                    + ProgramWriter.n(land.yMm()));
        }
        p.line("M5");
        p.line("G0 Z5");
        p.line("T2 M6");
        p.line("S16000 M3");
        p.line("G0 X14.000 Y9.500");
        if (p.next() != FIRST_HOLE_LINE) {
            throw new IllegalStateException("the first hole is at line " + p.next());
        }
        p.line("G1 Z-1.800 F90");
        p.line("G0 Z2");
        for (Land land : lands()) {
            if (land.via() && !(land.xMm() == 14.0 && land.yMm() == 9.5)) {
                p.rapid(land.xMm(), land.yMm());
                p.plunge(-1.8, 90);
                p.up();
            }
        }
        for (Land land : lands()) {
            if (!land.via()) {
                p.bore(land.xMm(), land.yMm(), 0.1, 0.35, -1.8, 180);
            }
        }
        p.end();
        return p.text();
    }

    private static String side2() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Two-side motor bridge, side 2: top copper, T1 engraving bit V 30 deg tip 0.10 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        isolate(p, chains(TOP), true);
        for (Land land : alone(TOP)) {
            ring(p, land, true);
        }
        p.end();
        return p.text();
    }

    private static void isolate(ProgramWriter p, List<List<Land>> chains, boolean turned) {
        for (List<Land> chain : chains) {
            if (chain.size() == 1) {
                ring(p, chain.get(0), turned);
            } else {
                loop(p, chain, turned);
            }
        }
    }

    /** A round groove about one land, with a lead-over. */
    private static void ring(ProgramWriter p, Land land, boolean turned) {
        double x = turned ? BOARD_X_MM - land.xMm() : land.xMm();
        double r = LAND_MM / 2 + HALF_GROOVE_MM;
        p.comment("net " + land.net() + (land.via() ? ", via" : ", " + land.part() + "-" + land.pin()));
        p.rapid(x + r, land.yMm());
        p.plunge(COPPER_Z_MM, 90);
        p.arc(false, x + r, land.yMm(), x, land.yMm(), " F" + FEED);
        p.arc(false, x, land.yMm() + r, x, land.yMm(), "");
        p.up();
    }

    /** One loop about the lands of a chain and the straight trace between them, counter-clockwise, with a lead-over. */
    private static void loop(ProgramWriter p, List<Land> chain, boolean turned) {
        double r = LAND_MM / 2 + HALF_GROOVE_MM;
        double h = TRACE_MM / 2 + HALF_GROOVE_MM;
        double along = Math.sqrt(r * r - h * h);
        int n = chain.size();
        double[][] at = new double[n][];
        for (int i = 0; i < n; i++) {
            Land land = chain.get(i);
            at[i] = new double[] {turned ? BOARD_X_MM - land.xMm() : land.xMm(), land.yMm()};
        }
        double dx = at[n - 1][0] - at[0][0];
        double dy = at[n - 1][1] - at[0][1];
        double d = Math.hypot(dx, dy);
        double ux = dx / d;
        double uy = dy / d;
        p.comment("net " + chain.get(0).net() + ", " + n + " lands");
        p.rapid(at[0][0] + along * ux + h * uy, at[0][1] + along * uy - h * ux);
        p.plunge(COPPER_Z_MM, 90);
        boolean first = true;
        for (int i = 1; i < n; i++) {
            p.cut(at[i][0] - along * ux + h * uy, at[i][1] - along * uy - h * ux, first ? FEED : 0);
            first = false;
            double side = i == n - 1 ? -1 : 1;
            p.arc(
                    false,
                    at[i][0] + side * along * ux + side * h * uy,
                    at[i][1] + side * along * uy - side * h * ux,
                    at[i][0],
                    at[i][1],
                    "");
            if (i == n - 1) {
                break;
            }
        }
        back(p, at, ux, uy, along, h);
        p.up();
    }

    /** The way back of a loop, from the last land's far side round the first land and 0.4 mm over the beginning. */
    private static void back(ProgramWriter p, double[][] at, double ux, double uy, double along, double h) {
        int n = at.length;
        double[] last = at[n - 1];
        // The arc about the last land ended at (-along, +h) beside the trace's left wall.
        for (int i = n - 2; i >= 1; i--) {
            p.cut(at[i][0] + along * ux - h * uy, at[i][1] + along * uy + h * ux, 0);
            p.arc(false, at[i][0] - along * ux - h * uy, at[i][1] - along * uy + h * ux, at[i][0], at[i][1], "");
        }
        p.cut(at[0][0] + along * ux - h * uy, at[0][1] + along * uy + h * ux, 0);
        p.arc(false, at[0][0] + along * ux + h * uy, at[0][1] + along * uy - h * ux, at[0][0], at[0][1], "");
        double over = Math.min(0.4, Math.hypot(last[0] - at[0][0], last[1] - at[0][1]) / 4);
        p.cut(at[0][0] + (along + over) * ux + h * uy, at[0][1] + (along + over) * uy - h * ux, 0);
    }

    private static List<List<Land>> chains(Object[][] side) {
        List<List<Land>> chains = new ArrayList<>();
        for (Object[] row : side) {
            List<Land> chain = new ArrayList<>();
            for (int i = 1; i < row.length; i += 4) {
                Land land =
                        new Land((String) row[0], (String) row[i], (String) row[i + 1], (double) row[i + 2], (double)
                                row[i + 3]);
                if (!chain.contains(land)) {
                    chain.add(land);
                }
            }
            chains.add(chain);
        }
        return chains;
    }

    /** Every land of the board once: vias, then pins, in the order of the chains. */
    static List<Land> lands() {
        List<Land> all = new ArrayList<>();
        for (boolean via : new boolean[] {true, false}) {
            for (Object[][] side : List.of(BOTTOM, TOP)) {
                for (List<Land> chain : chains(side)) {
                    for (Land land : chain) {
                        if (land.via() == via && !all.contains(land)) {
                            all.add(land);
                        }
                    }
                }
            }
        }
        return all;
    }

    /** Lands that this side's chains do not reach: they are isolated by a ring of their own. */
    private static List<Land> alone(Object[][] side) {
        List<Land> reached = new ArrayList<>();
        chains(side).forEach(reached::addAll);
        List<Land> alone = new ArrayList<>(lands());
        alone.removeAll(reached);
        return alone;
    }

    private static List<Pad> pads() {
        List<Pad> pads = new ArrayList<>();
        for (Land l : lands()) {
            pads.add(Pad.through(
                    l.net(), l.part(), l.pin(), BOARD_X_MM - l.xMm(), l.yMm(), LAND_MM, l.via() ? 0.8 : 1.0));
        }
        return pads;
    }

    private static List<Copper> copper(Object[][] side) {
        List<Copper> copper = new ArrayList<>();
        for (List<Land> chain : chains(side)) {
            if (chain.size() > 1) {
                List<double[]> points = new ArrayList<>();
                chain.forEach(l -> points.add(new double[] {BOARD_X_MM - l.xMm(), l.yMm()}));
                copper.add(new Copper(chain.get(0).net(), TRACE_MM, points));
            }
        }
        return copper;
    }
}
