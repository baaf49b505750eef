package foilproof.samples;

import foilproof.samples.DesignWriter.Copper;
import foilproof.samples.DesignWriter.Pad;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Job 2: a leadless pressure sensor at 0.5 mm pitch on a dished blank of one-ounce foil. Eight nets are sectors of
 * copper between grooves that run out from the gaps of the lands; round the lands every groove has a second one
 * 0.20 mm beside it. Coordinates are those of the program, the board's lower-left corner as it lies, bottom copper up.
 */
final class FinePitchBreakout implements SampleJob {
    static final double BOARD_X_MM = 30;
    static final double BOARD_Y_MM = 22;
    private static final double MIDDLE_X_MM = 15;
    private static final double MIDDLE_Y_MM = 11;
    private static final double PITCH_MM = 0.5;
    private static final double BESIDE_MM = 0.2;
    private static final double LAND_X_MM = 0.28;
    private static final double LAND_Y_MM = 0.6;
    private static final double ROW_MM = 0.9;
    private static final double BLANK_X_MM = 40;
    private static final double BLANK_Y_MM = 30;
    private static final double GRID_MM = 5;
    private static final double DISH_MM = 0.08;
    private static final double DISH_RADIUS_MM = 19;

    /** Where the five grooves of a row meet the frame, from left to right. */
    private static final double[] FAN_MM = {11.0, 13.0, 15.0, 17.0, 19.0};

    /** Where the grooves of a row turn aside, from the line between the rows. */
    private static final double KNEE_MM = 2.0;

    private static final double HALF_GAP_MM = 0.11;
    /** The outer pads, and how far they lie from the line between the rows. */
    private static final double PAD_MM = 0.8;

    private static final double OUTER_PAD_MM = 6.5;
    /**
     * The groove that leaves a guard trace along the frame: 0.466 mm from it. So far out the blank lies higher, and the
     * trace is narrower than 0.25 mm at the foil bottom from 0.135 mm of real depth on.
     */
    private static final double GUARD_X_MM = 26.534;

    private static final double FRAME_X0_MM = 3;
    private static final double FRAME_Y0_MM = 3;
    private static final double FRAME_X1_MM = 27;
    private static final double FRAME_Y1_MM = 19;
    private static final String[] UPPER = {"VDD", "SDA", "SCL", "INT"};
    private static final String[] LOWER = {"GND", "ADDR", "CSB", "VIO"};

    @Override
    public String folder() {
        return "fine-pitch-breakout";
    }

    @Override
    public Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("copper.ngc", copper());
        files.put("bottom.gbr", DesignWriter.layer("Copper,L2,Bot", areas(), pads()));
        files.put("board.ipc", DesignWriter.netlist(pads(), 2));
        return files;
    }

    private static String copper() {
        ProgramWriter p = new ProgramWriter();
        p.comment("Fine-pitch pressure breakout, isolation, T1 engraving bit V 60 deg tip 0.10 mm");
        p.line(ProgramWriter.HEADER);
        p.change(1, true);
        p.comment("frame");
        p.rapid(FRAME_X0_MM, FRAME_Y0_MM);
        p.plunge(-0.1, 90);
        p.cut(FRAME_X1_MM, FRAME_Y0_MM, 300);
        p.cut(FRAME_X1_MM, FRAME_Y1_MM, 0);
        p.cut(FRAME_X0_MM, FRAME_Y1_MM, 0);
        p.cut(FRAME_X0_MM, FRAME_Y0_MM, 0);
        p.cut(FRAME_X0_MM + 0.3, FRAME_Y0_MM, 0);
        p.up();
        p.comment("between the rows");
        line(p, new double[][] {{FRAME_X0_MM, MIDDLE_Y_MM}, {GUARD_X_MM, MIDDLE_Y_MM}});
        p.comment("guard trace along the frame");
        line(p, new double[][] {{GUARD_X_MM, FRAME_Y0_MM}, {GUARD_X_MM, FRAME_Y1_MM}});
        for (int up : new int[] {1, -1}) {
            p.comment(up > 0 ? "upper row, gaps of the lands and fan" : "lower row, gaps of the lands and fan");
            for (int i = 0; i < FAN_MM.length; i++) {
                line(p, fan(i, up, 0));
            }
            p.comment("second grooves 0.20 beside, left and right of the row");
            line(p, beside(0, up, -BESIDE_MM));
            line(p, beside(FAN_MM.length - 1, up, BESIDE_MM));
        }
        p.end();
        return p.text();
    }

    private static void line(ProgramWriter p, double[][] points) {
        p.rapid(points[0][0], points[0][1]);
        p.plunge(-0.1, 90);
        for (int i = 1; i < points.length; i++) {
            p.cut(points[i][0], points[i][1], i == 1 ? 300 : 0);
        }
        p.up();
    }

    /** The groove through gap {@code i} of a row, from between the rows past the lands and out to the frame. */
    private static double[][] fan(int i, int up, double aside) {
        double x = MIDDLE_X_MM + (i - 2) * PITCH_MM + aside;
        double frame = up > 0 ? FRAME_Y1_MM : FRAME_Y0_MM;
        return new double[][] {{x, MIDDLE_Y_MM}, {x, MIDDLE_Y_MM + up * KNEE_MM}, {FAN_MM[i] + aside, frame}};
    }

    /** The second groove beside the lands only. */
    private static double[][] beside(int i, int up, double aside) {
        double[][] all = fan(i, up, aside);
        return new double[][] {all[0], all[1]};
    }

    private static List<Pad> pads() {
        List<Pad> pads = new ArrayList<>();
        for (int row = 0; row < 2; row++) {
            for (int i = 0; i < 4; i++) {
                double x = MIDDLE_X_MM + (i - 1.5) * PITCH_MM;
                double y = MIDDLE_Y_MM + (row == 0 ? ROW_MM : -ROW_MM);
                String net = (row == 0 ? UPPER : LOWER)[i];
                pads.add(new Pad(
                        net, "U1", Integer.toString(4 * row + i + 1), BOARD_X_MM - x, y, LAND_X_MM, LAND_Y_MM, 0));
            }
        }
        for (int row = 0; row < 2; row++) {
            for (int i = 0; i < 4; i++) {
                // In the middle of what both slanting grooves leave over the pad's whole height.
                double low = OUTER_PAD_MM - PAD_MM / 2;
                double high = OUTER_PAD_MM + PAD_MM / 2;
                double left = Math.max(fanX(i, low), fanX(i, high));
                double right = Math.min(fanX(i + 1, low), fanX(i + 1, high));
                double x = Math.rint(50 * (left + right)) / 100;
                double y = MIDDLE_Y_MM + (row == 0 ? OUTER_PAD_MM : -OUTER_PAD_MM);
                String net = (row == 0 ? UPPER : LOWER)[i];
                pads.add(new Pad(net, "J" + (row + 1), Integer.toString(i + 1), BOARD_X_MM - x, y, PAD_MM, PAD_MM, 0));
            }
        }
        for (int end = 0; end < 2; end++) {
            double x = (GUARD_X_MM + FRAME_X1_MM) / 2;
            double y = end == 0 ? FRAME_Y0_MM + 1 : FRAME_Y1_MM - 1;
            pads.add(new Pad("GUARD", "J3", Integer.toString(end + 1), BOARD_X_MM - x, y, 0.24, 0.8, 0));
        }
        return pads;
    }

    /** X of groove {@code i} of the fan at a distance from the line between the rows, beyond its knee. */
    private static double fanX(int i, double fromMiddleMm) {
        return kneeX(i) + slope(i) * (fromMiddleMm - KNEE_MM);
    }

    private static double kneeX(int i) {
        return MIDDLE_X_MM + (i - 2) * PITCH_MM;
    }

    /** How far groove {@code i} goes aside per mm beyond its knee. */
    private static double slope(int i) {
        return (FAN_MM[i] - kneeX(i)) / (FRAME_Y1_MM - MIDDLE_Y_MM - KNEE_MM);
    }

    /**
     * One edge of a sector: 0.11 mm, half the gap of the lands, off the middle line of groove {@code i} everywhere, the
     * slanting part too.
     *
     * @param to +1 for copper at greater X than the groove, -1 for copper at less
     * @return x and distance from the line between the rows at the knee and at the frame
     */
    private static double[][] edge(int i, int to) {
        double m = slope(i);
        double h = to * HALF_GAP_MM * Math.sqrt(1 + m * m);
        double knee = m == 0 ? KNEE_MM : KNEE_MM + (to * HALF_GAP_MM - h) / m;
        double far = FRAME_Y1_MM - MIDDLE_Y_MM - HALF_GAP_MM;
        return new double[][] {{kneeX(i) + to * HALF_GAP_MM, knee}, {fanX(i, far) + h, far}};
    }

    /** The sectors, half the gap of the lands off the grooves' middle lines; the outer ones leave out the second groove. */
    private static List<Copper> areas() {
        List<Copper> areas = new ArrayList<>();
        for (int row = 0; row < 2; row++) {
            int up = row == 0 ? 1 : -1;
            for (int i = 0; i < 4; i++) {
                double[][] left = edge(i, 1);
                double[][] right = edge(i + 1, -1);
                List<double[]> corners = new ArrayList<>();
                corners.add(new double[] {left[0][0], 0.6});
                corners.add(new double[] {right[0][0], 0.6});
                corners.add(right[0]);
                corners.add(right[1]);
                corners.add(left[1]);
                corners.add(left[0]);
                List<double[]> placed = new ArrayList<>();
                for (double[] c : corners) {
                    placed.add(new double[] {c[0], MIDDLE_Y_MM + up * c[1]});
                }
                areas.add(new Copper((row == 0 ? UPPER : LOWER)[i], 0, DesignWriter.turned(placed, BOARD_X_MM)));
            }
        }
        double x0 = GUARD_X_MM + HALF_GAP_MM;
        double x1 = FRAME_X1_MM - HALF_GAP_MM;
        double y0 = FRAME_Y0_MM + HALF_GAP_MM;
        double y1 = FRAME_Y1_MM - HALF_GAP_MM;
        areas.add(new Copper(
                "GUARD",
                0,
                DesignWriter.turned(
                        List.of(new double[] {x0, y0}, new double[] {x1, y0}, new double[] {x1, y1}, new double[] {
                            x0, y1
                        }),
                        BOARD_X_MM)));
        return areas;
    }

    /** The touched points as the job file has them: the dish about the blank's middle on a grid of 5 mm. */
    static String surface() {
        StringBuilder out = new StringBuilder();
        for (double y = 0; y <= BLANK_Y_MM; y += GRID_MM) {
            for (double x = 0; x <= BLANK_X_MM; x += GRID_MM) {
                double r = Math.hypot(x - BLANK_X_MM / 2, y - BLANK_Y_MM / 2) / DISH_RADIUS_MM;
                out.append(String.format(
                        Locale.ROOT, "    [\"%.0f mm\", \"%.0f mm\", \"%.4f mm\"],\n", x, y, -DISH_MM * (1 - r * r)));
            }
        }
        return out.toString();
    }
}
