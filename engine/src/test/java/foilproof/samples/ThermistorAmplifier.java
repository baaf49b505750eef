package foilproof.samples;

import foilproof.samples.DesignWriter.Copper;
import foilproof.samples.DesignWriter.Pad;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Job 1, clean: six areas of copper parted by single grooves of one 1/32 in cutter. Coordinates are those of the
 * programs: the board's lower-left corner as it lies, bottom copper up.
 */
final class ThermistorAmplifier implements SampleJob {
    static final double BOARD_X_MM = 40;
    static final double BOARD_Y_MM = 30;
    private static final double CUTTER_RADIUS_MM = 0.396875;
    private static final double BORE_RADIUS_MM = 0.103;
    private static final double LEFT_MM = 3.12;
    private static final double RIGHT_MM = 36.88;
    private static final double LOW_MM = 4.4;
    private static final double HIGH_MM = 25.6;
    private static final double GND_MM = 10.5;
    private static final double VCC_MM = 19.0;
    private static final int FEED = 420;

    /** The three lines that part the middle band, from below to above. */
    private static final double[][][] DIVIDERS = {
        {{11.5, GND_MM}, {11.5, 13.5}, {12.5, 14.5}, {12.5, VCC_MM}},
        {{20.5, GND_MM}, {20.5, 14.0}, {19.5, 15.0}, {19.5, VCC_MM}},
        {{28.5, GND_MM}, {28.5, 13.5}, {29.5, 14.5}, {29.5, VCC_MM}}
    };

    private static final Object[][] HOLES = {
        {"GND", "TH1", "2", 10.16, 8.89},
        {"GND", "R3", "2", 15.24, 8.89},
        {"GND", "C1", "2", 24.13, 8.89},
        {"GND", "R5", "2", 33.02, 8.89},
        {"GND", "J1", "2", 20.32, 6.985},
        {"NTC", "TH1", "1", 7.62, 12.70},
        {"NTC", "R1", "2", 7.62, 16.51},
        {"REF", "R3", "1", 15.24, 12.70},
        {"REF", "R2", "2", 15.24, 16.51},
        {"REF", "Q1", "2", 17.78, 12.70},
        {"FB", "C1", "1", 24.13, 12.70},
        {"FB", "R4", "2", 24.13, 16.51},
        {"FB", "Q1", "1", 26.67, 12.70},
        {"OUT", "Q1", "3", 30.48, 12.70},
        {"OUT", "R5", "1", 33.02, 12.70},
        {"OUT", "J1", "3", 33.02, 16.51},
        {"VCC", "R1", "1", 7.62, 21.59},
        {"VCC", "R2", "1", 15.24, 21.59},
        {"VCC", "R4", "1", 24.13, 21.59},
        {"VCC", "J1", "1", 33.02, 21.59}
    };

    @Override
    public String folder() {
        return "thermistor-amplifier";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("copper.ngc", copper());
        files.put("bores.ngc", bores());
        files.put("outline.ngc", outline());
        files.put("bottom.gbr", DesignWriter.layer("Copper,L2,Bot", areas(), pads()));
        files.put("holes.drl", DesignWriter.drill(pads()));
        files.put("board.ipc", DesignWriter.netlist(pads(), 2));
        files.put(
                "outline.gbr",
                DesignWriter.outline(List.of(
                        new double[] {0, 0},
                        new double[] {BOARD_X_MM, 0},
                        new double[] {BOARD_X_MM, BOARD_Y_MM},
                        new double[] {0, BOARD_Y_MM})));
        return files;
    }

    private static String copper() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Thermistor amplifier, isolation, T1 end mill 1/32 in, 0.794 mm, copper only");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        p.comment("frame");
        p.line("G0 X3.120 Y4.400");
        p.line("G1 Z-0.100 F90");
        p.line("G1 X36.880 F420");
        p.line("G1 Y25.600");
        p.line("G1 X3.120");
        p.line("G1 Y4.100 (lead-over)");
        p.line("G0 Z2");
        p.comment("ground below, supply above");
        groove(p, new double[][] {{LEFT_MM, GND_MM}, {RIGHT_MM, GND_MM}});
        groove(p, new double[][] {{RIGHT_MM, VCC_MM}, {LEFT_MM, VCC_MM}});
        p.comment("the middle band");
        for (double[][] divider : DIVIDERS) {
            groove(p, divider);
        }
        p.end();
        return p.text();
    }

    /** A groove that begins and ends in one that is cut already. */
    private static void groove(ProgramWriter p, double[][] points) {
        p.rapid(points[0][0], points[0][1]);
        p.plunge(-0.1, 90);
        for (int i = 1; i < points.length; i++) {
            p.cut(points[i][0], points[i][1], i == 1 ? FEED : 0);
        }
        p.up();
    }

    private static String bores() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Thermistor amplifier, bores 1.00 mm, T2 end mill 1/32 in, 0.794 mm");
        p.line(ProgramWriter.HEADER);
        p.change(2, true);
        for (Object[] hole : HOLES) {
            p.bore((double) hole[3], (double) hole[4], BORE_RADIUS_MM, 0.35, -1.65, 180);
        }
        p.end();
        return p.text();
    }

    private static String outline() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Thermistor amplifier, outline 40 x 30 mm with four tabs 2.0 x 0.5 mm, T2 still in the collet");
        p.line(ProgramWriter.HEADER);
        p.line("S16000 M3");
        p.line("G4 P3");
        p.line("G0 Z2");
        double r = CUTTER_RADIUS_MM;
        double[][] corners = {
            {-r, -r}, {-r, BOARD_Y_MM + r}, {BOARD_X_MM + r, BOARD_Y_MM + r}, {BOARD_X_MM + r, -r}, {-r, -r}
        };
        p.rapid(corners[0][0], corners[0][1]);
        for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
            p.plunge(z, 90);
            for (int i = 1; i < corners.length; i++) {
                side(p, corners[i - 1], corners[i], z, i == 1 ? 480 : 0);
            }
        }
        p.up();
        p.end();
        return p.text();
    }

    /** One side of the outline; passes below the tab's top lift over its middle, by its length and the cutter. */
    private static void side(ProgramWriter p, double[] from, double[] to, double zMm, int feed) {
        double tabTopMm = -1.0;
        if (zMm >= tabTopMm) {
            p.cut(to[0], to[1], feed);
            return;
        }
        double lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
        double half = (2.0 / 2 + CUTTER_RADIUS_MM) / lengthMm;
        double[] a = between(from, to, 0.5 - half);
        double[] b = between(from, to, 0.5 + half);
        p.cut(a[0], a[1], feed);
        p.line("G1 Z-1.000");
        p.cut(b[0], b[1], 0);
        p.line("G1 Z" + ProgramWriter.n(zMm) + " F90");
        p.cut(to[0], to[1], 480);
    }

    private static double[] between(double[] from, double[] to, double share) {
        return new double[] {from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])};
    }

    /** Pads in design coordinates: the board seen from above, so X is turned. */
    private static List<Pad> pads() {
        List<Pad> pads = new ArrayList<>();
        for (Object[] h : HOLES) {
            pads.add(Pad.through(
                    (String) h[0], (String) h[1], (String) h[2], BOARD_X_MM - (double) h[3], (double) h[4], 2.0, 1.0));
        }
        return pads;
    }

    /** The areas of copper, 0.40 mm inside the grooves' middle lines, in design coordinates. */
    private static List<Copper> areas() {
        double g = 0.4;
        List<Copper> areas = new ArrayList<>();
        areas.add(area("GND", box(LEFT_MM + g, LOW_MM + g, RIGHT_MM - g, GND_MM - g)));
        areas.add(area("VCC", box(LEFT_MM + g, VCC_MM + g, RIGHT_MM - g, HIGH_MM - g)));
        double[][] left = {{LEFT_MM, GND_MM}, {LEFT_MM, VCC_MM}};
        double[][] right = {{RIGHT_MM, GND_MM}, {RIGHT_MM, VCC_MM}};
        String[] nets = {"NTC", "REF", "FB", "OUT"};
        for (int i = 0; i < nets.length; i++) {
            List<double[]> from = shifted(i == 0 ? left : DIVIDERS[i - 1], g);
            List<double[]> to = shifted(i == DIVIDERS.length ? right : DIVIDERS[i], -g);
            List<double[]> points = new ArrayList<>(from);
            for (int k = to.size() - 1; k >= 0; k--) {
                points.add(to.get(k));
            }
            areas.add(area(nets[i], points));
        }
        return areas;
    }

    private static Copper area(String net, List<double[]> points) {
        return new Copper(net, 0, DesignWriter.turned(points, BOARD_X_MM));
    }

    private static List<double[]> box(double x0, double y0, double x1, double y1) {
        return List.of(new double[] {x0, y0}, new double[] {x1, y0}, new double[] {x1, y1}, new double[] {x0, y1});
    }

    /** A divider moved sideways by {@code g} (its corners turn by 45 degrees) and shortened by 0.4 mm at both ends. */
    private static List<double[]> shifted(double[][] line, double g) {
        List<double[]> out = new ArrayList<>();
        double bend = Math.abs(g) * Math.tan(Math.PI / 8);
        for (int i = 0; i < line.length; i++) {
            double y = line[i][1];
            if (i == 0) {
                y += 0.4;
            } else if (i == line.length - 1) {
                y -= 0.4;
            } else {
                boolean rightwards = line[2][0] > line[1][0];
                y += (rightwards == g > 0 ? -bend : bend);
            }
            out.add(new double[] {line[i][0] + g, y});
        }
        return out;
    }
}
