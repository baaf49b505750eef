package foilproof.samples;

import foilproof.samples.DesignWriter.Copper;
import foilproof.samples.DesignWriter.Pad;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Job 4: a pump driver for 9 V and 3.5 A in half-ounce foil, milled with one 1/32 in cutter. The feed is 2.2 mm wide and
 * 60 mm long, with a neck of 0.9 mm beside a screw hole; the ground round it is one area. Coordinates are those of the
 * programs: the board's lower-left corner as it lies, bottom copper up.
 */
final class IrrigationPumpDriver implements SampleJob {
    static final double BOARD_X_MM = 50;
    static final double BOARD_Y_MM = 35;
    private static final double CUTTER_RADIUS_MM = 0.396875;
    private static final double BODY_MM = 2.2;
    private static final double NECK_MM = 0.9;

    /** Half a neck's length along the feed. */
    private static final double NECK_HALF_LENGTH_MM = 1.5;

    private static final double BORE_RADIUS_MM = 0.153;

    /** Middle line of the feed: in from the terminal, round a corner, up to the transistor; 60 mm in all. */
    private static final double X0_MM = 6;

    private static final double Y0_MM = 8;
    private static final double X1_MM = 44;
    private static final double Y1_MM = 30;

    /** Middle of the neck, below a screw hole. */
    private static final double NECK_X_MM = 25;

    private static final Object[][] HOLES = {
        {"VIN", "J1", "1", X0_MM, Y0_MM},
        {"VIN", "Q1", "2", X1_MM, Y1_MM},
        {"GND", "J1", "2", 6.0, 15.0},
        {"GND", "Q1", "3", 36.0, 30.0},
        {"GND", "C1", "2", 20.0, 24.0},
        {"GATE", "Q1", "1", 12.0, 30.0},
        {"GATE", "R1", "1", 12.0, 26.0}
    };

    @Override
    public String folder() {
        return "irrigation-pump-driver";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("copper.ngc", copper());
        files.put("bores.ngc", bores());
        files.put("bottom.gbr", DesignWriter.layer("Copper,L2,Bot", areas(), pads()));
        files.put("holes.drl", DesignWriter.drill(pads()));
        files.put("board.ipc", DesignWriter.netlist(pads(), 2));
        return files;
    }

    private static String copper() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Irrigation pump driver, isolation, T1 end mill 1/32 in, 0.794 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        p.comment("frame");
        loop(p, List.of(new double[] {2, 2}, new double[] {48, 2}, new double[] {48, 33}, new double[] {2, 33}));
        p.comment("VIN, 2.2 mm wide, neck 0.9 mm below the screw hole");
        loop(p, feed(CUTTER_RADIUS_MM));
        p.comment("GATE");
        loop(p, gate(CUTTER_RADIUS_MM));
        p.end();
        return p.text();
    }

    private static void loop(ProgramWriter p, List<double[]> points) {
        double[] first = points.get(0);
        p.rapid(first[0], first[1]);
        p.plunge(-0.1, 90);
        for (int i = 1; i <= points.size(); i++) {
            double[] to = points.get(i % points.size());
            p.cut(to[0], to[1], i == 1 ? 420 : 0);
        }
        double[] next = points.get(1);
        double d = Math.hypot(next[0] - first[0], next[1] - first[1]);
        p.cut(first[0] + 0.3 * (next[0] - first[0]) / d, first[1] + 0.3 * (next[1] - first[1]) / d, 0);
        p.up();
    }

    /** The feed's outline, {@code out} outside its copper, counter-clockwise; the neck is cut in from its upper edge. */
    private static List<double[]> feed(double out) {
        double h = BODY_MM / 2 + out;
        double bite = BODY_MM - NECK_MM;
        double n = NECK_HALF_LENGTH_MM - out;
        return List.of(
                new double[] {X0_MM - h, Y0_MM - h},
                new double[] {X1_MM + h, Y0_MM - h},
                new double[] {X1_MM + h, Y1_MM + h},
                new double[] {X1_MM - h, Y1_MM + h},
                new double[] {X1_MM - h, Y0_MM + h},
                new double[] {NECK_X_MM + n, Y0_MM + h},
                new double[] {NECK_X_MM + n, Y0_MM + h - bite},
                new double[] {NECK_X_MM - n, Y0_MM + h - bite},
                new double[] {NECK_X_MM - n, Y0_MM + h},
                new double[] {X0_MM - h, Y0_MM + h});
    }

    private static List<double[]> gate(double out) {
        double h = 1.2 + out;
        return List.of(
                new double[] {12 - h, 26 - h},
                new double[] {12 + h, 26 - h},
                new double[] {12 + h, 30 + h},
                new double[] {12 - h, 30 + h});
    }

    private static String bores() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Irrigation pump driver, bores 1.10 mm and the screw hole 3.2 mm, T2 end mill 1/32 in, 0.794 mm");
        p.line(ProgramWriter.HEADER);
        p.change(2, true);
        for (Object[] hole : HOLES) {
            p.bore((double) hole[3], (double) hole[4], BORE_RADIUS_MM, 0.35, -1.65, 180);
        }
        p.bore(NECK_X_MM, 12.0, 1.203, 0.35, -1.65, 240);
        p.end();
        return p.text();
    }

    private static List<Pad> pads() {
        List<Pad> pads = new ArrayList<>();
        for (Object[] h : HOLES) {
            pads.add(Pad.through(
                    (String) h[0], (String) h[1], (String) h[2], BOARD_X_MM - (double) h[3], (double) h[4], 2.2, 1.1));
        }
        return pads;
    }

    /** The copper that is wanted: the feed and the gate as outlines, the ground as a filled trace between its pads. */
    private static List<Copper> areas() {
        List<Copper> areas = new ArrayList<>();
        areas.add(new Copper("VIN", 0, DesignWriter.turned(feed(-0.003), BOARD_X_MM)));
        areas.add(new Copper("GATE", 0, DesignWriter.turned(gate(-0.003), BOARD_X_MM)));
        areas.add(new Copper(
                "GND",
                2.0,
                DesignWriter.turned(
                        List.of(
                                new double[] {6, 15},
                                new double[] {20, 15},
                                new double[] {20, 24},
                                new double[] {36, 24},
                                new double[] {36, 30}),
                        BOARD_X_MM)));
        return areas;
    }
}
