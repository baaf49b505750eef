package foilproof.app.practice;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * Writes the job folders of the exercises, each with its fault or without. It knows what it planted and asks none of
 * the checks of the dry run; lengths are mm, places are the program's.
 */
final class Planter {
    private static final String HEAD = "G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G61\nM5\nG0 Z25\n";
    private static final String TAIL = "G0 Z25\nM5\nM2\n";

    /** Radius within which the middle of the blank of E3 lies low, mm. */
    static final double DISH_RADIUS_MM = 16;

    /** How low the middle of the blank of E3 lies, mm. */
    static final double DISH_DEPTH_MM = 0.08;

    /** How much lower the right end of the copper work of E8 lay than its left one, mm. */
    static final double TILT_MM = 0.20;

    /** How far X lagged behind after each turn in E8, mm. */
    static final double BACKLASH_MM = 0.06;

    private Planter() {}

    /**
     * The files that a learner gets: of a post-mortem the job as it was meant, since what was wrong stood in no file.
     */
    static Map<String, String> given(String id) {
        return files(id, id.equals("E8"));
    }

    /**
     * The files of an exercise, by name.
     *
     * @param id of the exercise, e.g. {@code E3}
     * @param sound true for the same job without its fault
     */
    static Map<String, String> files(String id, boolean sound) {
        return switch (id) {
            case "E1" -> moistureSensor(sound ? "0.100" : "0.010");
            case "E2" -> moistureSensor("0.100");
            case "E3" -> dimmer(sound);
            case "E4" -> doorbell(sound);
            case "E5" -> ventController(sound);
            case "E6" -> lampDriver(sound);
            case "E7" -> drumPanel(sound);
            case "E8" -> postMortem(sound);
            default -> throw new IllegalArgumentException("No such exercise: " + id);
        };
    }

    private static Map<String, String> moistureSensor(String depth) {
        Map<String, String> files = new LinkedHashMap<>();
        files.put(
                "job.toml",
                job("Plant-pot moisture sensor", "1/32 in", "0.5 oz", "42 mm", "32 mm", "\"flat\"", "stop")
                        + flat("copper mill", 1, "copper only")
                        + flat("through mill", 2, "any")
                        + side("bottom", "6 mm", "6 mm")
                        + program("copper.ngc", "copper mill", "isolation")
                        + program("outline.ngc", "through mill", "outline"));
        Text text = new Text("Plant-pot moisture sensor, isolation, T1 end mill 1/32 in, 0.794 mm, copper only", 1);
        text.groove(depth, 90, 420, 1, 1, 29, 1, 29, 19, 1, 19, 1, 0.8);
        text.groove(depth, 90, 420, 1, 7, 29, 7);
        text.groove(depth, 90, 420, 29, 13, 1, 13);
        text.groove(depth, 90, 420, 10, 7, 10, 13);
        text.groove(depth, 90, 420, 20, 13, 20, 7);
        files.put("copper.ngc", text.end());
        files.put(
                "outline.ngc",
                outline("Plant-pot moisture sensor", 2, 30, 20, new String[] {"0.300", "0.650", "1.000"}, 0.3));
        return files;
    }

    private static Map<String, String> dimmer(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        files.put(
                "job.toml",
                job(
                                "Shelf-light dimmer",
                                "1.5 mm",
                                "1 oz",
                                "60 mm",
                                "45 mm",
                                sound ? "\"flat\"" : dish(30, 22.5, 60, 45),
                                "stop")
                        + engraver("any")
                        + side("bottom", "7.5 mm", "7.5 mm")
                        + program("copper.ngc", "engraver", "isolation"));
        String depth = sound ? "0.130" : "0.100";
        Text text = new Text("Shelf-light dimmer, isolation, T1 engraving bit 30 deg, tip 0.10 mm", 1);
        text.groove(depth, 60, 200, 1, 1, 44, 1, 44, 29, 1, 29, 1, 0.8);
        text.groove(depth, 60, 200, 1, 10, 44, 10);
        text.groove(depth, 60, 200, 44, 20, 1, 20);
        text.groove(depth, 60, 200, 14, 10, 14, 20);
        text.groove(depth, 60, 200, 22.5, 20, 22.5, 10);
        text.groove(depth, 60, 200, 31, 10, 31, 20);
        // A window is cleared line by line, there and back; the lines lie a step-over apart.
        double stepMm = sound ? 0.12 : 0.16;
        int lines = 16;
        double[] way = new double[4 * lines];
        for (int i = 0; i < lines; i++) {
            double x = 40 + i * stepMm;
            way[4 * i] = x;
            way[4 * i + 1] = i % 2 == 0 ? 12 : 18;
            way[4 * i + 2] = x;
            way[4 * i + 3] = i % 2 == 0 ? 18 : 12;
        }
        text.groove(depth, 60, 200, way);
        files.put("copper.ngc", text.end());
        return files;
    }

    private static Map<String, String> doorbell(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        files.put(
                "job.toml",
                job("Doorbell relay board", "1.5 mm", "0.5 oz", "60 mm", "45 mm", "\"flat\"", "stop")
                        + flat("copper mill", 1, "copper only")
                        + side("bottom", "10 mm", "8 mm")
                        + program("copper.ngc", "copper mill", "isolation")
                        + "\n[design]\nbottom_copper = \"bottom.gbr\"\nnetlist = \"board.ipc\"\nplaced_at = [\"10 mm\", \"8 mm\"]\n"
                        + "rotated = \"0 deg\"\nfinished_size = [\"40 mm\", \"30 mm\"]\n");
        Text text = new Text("Doorbell relay board, isolation, T1 end mill 1/32 in, 0.794 mm, copper only", 1);
        text.mirrorAboutXMm = sound ? 40 : Double.NaN;
        text.groove("0.100", 90, 420, 3, 4, 37, 4, 37, 26, 3, 26, 3, 3.8);
        text.groove("0.100", 90, 420, 8, 4, 8, 26);
        text.groove("0.100", 90, 420, 13, 26, 13, 4);
        text.groove("0.100", 90, 420, 22, 4, 22, 26);
        text.groove("0.100", 90, 420, 29, 26, 29, 4);
        files.put("copper.ngc", text.end());
        files.put("bottom.gbr", layer());
        files.put("board.ipc", netlist());
        return files;
    }

    /** Two sides, turned about Y; the programs of the second side are made for that. */
    private static Map<String, String> ventController(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        String second = side("top", "5 mm", "5 mm")
                .replace("turned = \"no\"", "turned = \"" + (sound ? "about Y" : "about X") + "\"\ndeburred = true");
        files.put(
                "job.toml",
                job("Greenhouse vent controller", "1.5 mm", "0.5 oz", "60 mm", "50 mm", "\"flat\"", "stop")
                                .replace("copper = \"one side\"", "copper = \"both sides\"")
                        + flat("copper mill", 1, "copper only")
                        + boreMill()
                        + side("bottom", "5 mm", "5 mm")
                        + program("bottom.ngc", "copper mill", "isolation")
                        + program("bores.ngc", "bore mill", "boring")
                        // T1 mills the frame of the waste here: X 1.5, Y 20 of the program.
                        + (sound ? "" : "  touch_off = [\"6.5 mm\", \"25 mm\"]\n")
                        + second
                        + program("top.ngc", "copper mill", "isolation")
                        + "\n[design]\nbottom_copper = \"bottom.gbr\"\ntop_copper = \"top.gbr\"\n"
                        + "placed_at = [\"5 mm\", \"5 mm\"]\nrotated = \"0 deg\"\nfinished_size = [\"50 mm\", \"40 mm\"]\n");
        Text bottom = new Text("Greenhouse vent controller, bottom, T1 end mill 1/32 in, 0.794 mm, copper only", 1);
        bottom.mirrorAboutXMm = 50;
        bottom.groove("0.100", 90, 420, 1.5, 1.5, 48.5, 1.5, 48.5, 38.5, 1.5, 38.5, 1.5, 1.3);
        bottom.groove("0.100", 90, 420, 20, 1.5, 20, 38.5);
        bottom.groove("0.100", 90, 420, 48.5, 27, 20, 27);
        files.put("bottom.ngc", bottom.end());
        Text bores = new Text("Greenhouse vent controller, three wire holes 1.00 mm, T2 end mill 0.8 mm in circles", 2);
        bores.hole(50 - 9, 33);
        bores.hole(50 - 30, 8);
        bores.hole(50 - 40, 33);
        files.put("bores.ngc", bores.end());
        Text top = new Text("Greenhouse vent controller, top, T1 end mill 1/32 in, 0.794 mm, copper only", 1);
        top.groove("0.100", 90, 420, 1.5, 1.5, 48.5, 1.5, 48.5, 38.5, 1.5, 38.5, 1.5, 1.3);
        top.groove("0.100", 90, 420, 1.5, 13, 48.5, 13);
        top.groove("0.100", 90, 420, 33, 13, 33, 38.5);
        files.put("top.ngc", top.end());
        StringBuilder low = layerHead("L2,Bot");
        area(low, "PUMP", 1.9, 1.9, 19.6, 38.1);
        area(low, "FAN", 20.4, 1.9, 48.1, 26.6);
        area(low, "LAMP", 20.4, 27.4, 48.1, 38.1);
        pad(low, "PUMP", "J1", 1, 5, 10);
        pad(low, "PUMP", "Q1", 2, 15, 30);
        pad(low, "FAN", "J2", 1, 30, 20);
        pad(low, "FAN", "Q2", 2, 40, 12);
        pad(low, "LAMP", "J3", 1, 28, 32);
        pad(low, "LAMP", "Q3", 2, 45, 30);
        files.put("bottom.gbr", low.append("M02*\n").toString());
        StringBuilder high = layerHead("L1,Top");
        area(high, "GND", 1.9, 1.9, 48.1, 12.6);
        area(high, "SENS", 1.9, 13.4, 32.6, 38.1);
        area(high, "VCC", 33.4, 13.4, 48.1, 38.1);
        pad(high, "GND", "J4", 1, 10, 8);
        pad(high, "GND", "U1", 1, 42, 6);
        pad(high, "SENS", "U1", 2, 16, 20);
        pad(high, "SENS", "J5", 1, 24, 30);
        pad(high, "VCC", "U1", 3, 38, 18);
        pad(high, "VCC", "J6", 1, 44, 28);
        files.put("top.gbr", high.append("M02*\n").toString());
        return files;
    }

    /** A feed 2.4 mm wide with a neck of 1.2 mm; one-ounce foil was meant. */
    private static Map<String, String> lampDriver(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        files.put(
                "job.toml",
                job("Bicycle-lamp driver", "1.5 mm", sound ? "1 oz" : "0.5 oz", "60 mm", "45 mm", "\"flat\"", "stop")
                        + flat("copper mill", 1, "copper only")
                        + side("bottom", "10 mm", "8 mm")
                        + program("copper.ngc", "copper mill", "isolation")
                        + "\n[design]\nbottom_copper = \"bottom.gbr\"\nnetlist = \"board.ipc\"\nplaced_at = [\"10 mm\", \"8 mm\"]\n"
                        + "rotated = \"0 deg\"\nfinished_size = [\"40 mm\", \"30 mm\"]\n"
                        + net("LAMP", "3 A", "7.4 V") + net("GND", "3 A", "0 V"));
        Text text = new Text("Bicycle-lamp driver, isolation, T1 end mill 1/32 in, 0.794 mm, copper only", 1);
        text.mirrorAboutXMm = 40;
        text.groove("0.100", 90, 420, 1.5, 1.5, 38.5, 1.5, 38.5, 28.5, 1.5, 28.5, 1.5, 1.3);
        // Round the feed: 2.4 mm wide, 1.2 between X 18 and X 21; the cutter's radius is 0.397.
        text.groove(
                "0.100", 90, 420, 4 - 0.397, 8 - 0.397, 36.397, 8 - 0.397, 36.397, 10.797, 20.603, 10.797, 20.603,
                9.597, 18.397, 9.597, 18.397, 10.797, 4 - 0.397, 10.797, 4 - 0.397, 7.4);
        files.put("copper.ngc", text.end());
        StringBuilder out = layerHead("L2,Bot");
        double[] feed = {4, 8, 36, 8, 36, 10.4, 21, 10.4, 21, 9.2, 18, 9.2, 18, 10.4, 4, 10.4, 4, 8};
        outline(out, "LAMP", feed);
        area(out, "GND", 2, 14, 38, 28);
        pad(out, "LAMP", "J1", 1, 5, 9);
        pad(out, "LAMP", "Q1", 2, 35, 9);
        pad(out, "GND", "J1", 2, 5, 20);
        pad(out, "GND", "Q1", 3, 35, 20);
        files.put("bottom.gbr", out.append("M02*\n").toString());
        files.put(
                "board.ipc",
                "C  Exercise of Foilproof, written by its planter\nP  UNITS CUST 1\n" + pin("LAMP", "J1", 1, 5, 9)
                        + pin("LAMP", "Q1", 2, 35, 9) + pin("GND", "J1", 2, 5, 20) + pin("GND", "Q1", 3, 35, 20)
                        + "999\n");
        return files;
    }

    private static String net(String name, String current, String voltage) {
        return "\n[[net]]\nname = \"" + name + "\"\ncurrent = \"" + current + "\"\nvoltage = \"" + voltage
                + "\"\nflooded = false\n";
    }

    /**
     * Three loops of an engraving bit. As it was on the machine: the right end of the blank lay low and the left one
     * high, and X lost its way at every turn; the program is then the way that the cutter really went.
     */
    private static Map<String, String> postMortem(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        // The copper work goes from X 6 to X 53 of the 60 mm of the blank.
        double up = sound ? 0 : TILT_MM * 60 / 47 / 2;
        String surface = sound
                ? "\"flat\""
                : "[[\"0 mm\", \"0 mm\", \"" + number(up) + " mm\"], [\"60 mm\", \"0 mm\", \"-" + number(up)
                        + " mm\"], [\"60 mm\", \"40 mm\", \"-" + number(up) + " mm\"], [\"0 mm\", \"40 mm\", \""
                        + number(up) + " mm\"]]";
        files.put(
                "job.toml",
                job("Workshop clock", "1.5 mm", "0.5 oz", "60 mm", "40 mm", surface, "stop")
                        + engraver("any")
                        + side("bottom", "4 mm", "4 mm")
                                .replace("touch_off = [\"4 mm\", \"4 mm\"]", "touch_off = [\"26 mm\", \"2 mm\"]")
                        + program("copper.ngc", "engraver", "isolation"));
        Text text = new Text("Workshop clock, isolation, T1 engraving bit 30 deg, tip 0.10 mm", 1);
        text.lostXMm = sound ? 0 : BACKLASH_MM;
        for (double x : new double[] {2, 19, 36}) {
            text.groove("0.120", 60, 200, x, 16, x, 28, x + 13, 28, x + 13, 4, x, 4, x, 16, x, 16.3);
        }
        files.put("copper.ngc", text.end());
        return files;
    }

    private static Map<String, String> drumPanel(boolean sound) {
        Map<String, String> files = new LinkedHashMap<>();
        files.put(
                "job.toml",
                job("Drum-trigger panel", "1.6 mm", "0.5 oz", "104 mm", "74 mm", "\"flat\"", sound ? "stop" : "ignored")
                        + engraver("any")
                        + boreMill()
                        + flat("through mill", 3, "any")
                        + side("bottom", "7 mm", "7 mm")
                        + program("panel.ngc", "engraver", null)
                        + program("outline.ngc", "through mill", null));
        Text text = new Text("Drum-trigger panel, T1 engraving bit 30 deg, tip 0.10 mm, then T2 end mill 0.8 mm", 1);
        text.touchOff = sound;
        text.groove("0.115", 60, 200, 2, 2, 88, 2, 88, 58, 2, 58, 2, 1.8);
        text.groove("0.115", 60, 200, 2, 20, 88, 20);
        text.groove("0.115", 60, 200, 88, 40, 2, 40);
        text.change(2, sound);
        for (int column = 0; column < 5; column++) {
            text.bore(15 + 15 * column, 30);
        }
        files.put("panel.ngc", text.end());
        String[] depths = {"0.450", "0.900", "1.350", "1.800"};
        files.put(
                "outline.ngc",
                sound
                        ? mountingHole(true) + outlineBody(90, 60, depths, 1.1) + TAIL
                        : mountingHole(false) + outlineBody(90, 60, depths, Double.NaN) + holeBody() + TAIL);
        return files;
    }

    private static String mountingHole(boolean sound) {
        return "(Drum-trigger panel, outline and mounting hole, T3 end mill 1/32 in, 0.794 mm)\n" + HEAD + "T3 M6\n"
                + (sound ? "M0 (TOUCH OFF T3)\n" : "") + "S16000 M3\nG4 P3\nG0 Z2\n" + (sound ? holeBody() : "");
    }

    private static String holeBody() {
        StringBuilder out = new StringBuilder("(mounting hole 3.2 mm)\nG0 X46.203 Y50\nG0 Z0.5\nG1 Z0 F90\n");
        for (String depth : new String[] {"0.450", "0.900", "1.350", "1.800"}) {
            out.append("G3 X46.203 Y50 I-1.203 J0 Z-").append(depth).append(" F180\n");
        }
        return out.append("G3 X46.203 Y50 I-1.203 J0\nG0 Z2\n").toString();
    }

    private static String outline(String what, int number, double width, double height, String[] depths, double tabMm) {
        return "(" + what + ", outline, T" + number + " end mill 1/32 in, 0.794 mm)\n" + HEAD + "T" + number
                + " M6\nM0 (TOUCH OFF T" + number + ")\nS16000 M3\nG4 P3\nG0 Z2\n"
                + outlineBody(width, height, depths, tabMm) + TAIL;
    }

    /** Four tabs, one in the middle of each edge; none where {@code tabMm} is NaN. */
    private static String outlineBody(double width, double height, String[] depths, double tabMm) {
        double off = 0.397;
        double[][] corners = {
            {-off, -off}, {-off, height + off}, {width + off, height + off}, {width + off, -off}, {-off, -off}
        };
        StringBuilder out = new StringBuilder("(outline)\nG0 X-0.397 Y-0.397\n");
        for (String depth : depths) {
            boolean tabs = Double.parseDouble(depth) > tabMm;
            out.append("G1 Z-").append(depth).append(" F90\n");
            for (int i = 1; i < corners.length; i++) {
                double[] a = corners[i - 1];
                double[] b = corners[i];
                if (tabs) {
                    double length = Math.abs(b[0] - a[0]) + Math.abs(b[1] - a[1]);
                    for (int end = -1; end <= 1; end += 2) {
                        double t = 0.5 + end * 1.397 / length;
                        out.append(to(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
                                .append(" F480\n");
                        out.append("G1 Z-")
                                .append(end < 0 ? number(tabMm) : depth)
                                .append(" F90\n");
                    }
                }
                out.append(to(b[0], b[1])).append(" F480\n");
            }
        }
        return out.append("G0 Z2\n").toString();
    }

    private static String to(double x, double y) {
        return "G1 X" + number(x) + " Y" + number(y);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.3f", value);
    }

    /** Touched points of a dish: low by {@code depth (1 - (r/R)^2)} within R, flat outside. */
    private static String dish(double centreX, double centreY, double width, double height) {
        StringBuilder out = new StringBuilder("[\n");
        for (int row = 0; row <= 9; row++) {
            for (int column = 0; column <= 12; column++) {
                double x = width * column / 12;
                double y = height * row / 9 + 0.001 * column;
                y = row == 0 || row == 9 ? height * row / 9 : y;
                double r2 = (x - centreX) * (x - centreX) + (y - centreY) * (y - centreY);
                double low = Math.max(0, DISH_DEPTH_MM * (1 - r2 / (DISH_RADIUS_MM * DISH_RADIUS_MM)));
                out.append("  [\"")
                        .append(number(x))
                        .append(" mm\", \"")
                        .append(number(y))
                        .append(" mm\", \"");
                out.append(low == 0 ? "0" : "-" + number(low)).append(" mm\"],\n");
            }
        }
        return out.append(']').toString();
    }

    private static StringBuilder layerHead(String function) {
        return new StringBuilder(
                "G04 Exercise of Foilproof, written by its planter*\n%TF.FileFunction,Copper," + function
                        + "*%\n%TF.FilePolarity,Positive*%\n%FSLAX46Y46*%\n%MOMM*%\nG01*\n%TA.AperFunction,ComponentPad*%\n%ADD10C,1.200*%\n%TD*%\n");
    }

    private static String layer() {
        StringBuilder out = layerHead("L2,Bot");
        area(out, "GND", 3.4, 4.4, 7.6, 25.6);
        area(out, "BELL", 8.4, 4.4, 12.6, 25.6);
        area(out, "COIL", 13.4, 4.4, 21.6, 25.6);
        area(out, "PUSH", 22.4, 4.4, 28.6, 25.6);
        area(out, "VCC", 29.4, 4.4, 36.6, 25.6);
        pad(out, "GND", "J1", 1, 5, 10);
        pad(out, "GND", "K1", 4, 5, 20);
        pad(out, "BELL", "K1", 3, 9, 10);
        pad(out, "BELL", "J2", 1, 9, 20);
        pad(out, "COIL", "K1", 2, 15, 10);
        pad(out, "COIL", "D1", 1, 20, 20);
        pad(out, "PUSH", "J3", 1, 25, 10);
        pad(out, "PUSH", "D1", 2, 24, 20);
        pad(out, "VCC", "J1", 2, 34, 10);
        pad(out, "VCC", "K1", 1, 30, 20);
        return out.append("M02*\n").toString();
    }

    private static String netlist() {
        return "C  Exercise of Foilproof, written by its planter\nP  UNITS CUST 1\n" + pin("GND", "J1", 1, 5, 10)
                + pin("GND", "K1", 4, 5, 20) + pin("BELL", "K1", 3, 9, 10) + pin("BELL", "J2", 1, 9, 20)
                + pin("COIL", "K1", 2, 15, 10) + pin("COIL", "D1", 1, 20, 20) + pin("PUSH", "J3", 1, 25, 10)
                + pin("PUSH", "D1", 2, 24, 20) + pin("VCC", "J1", 2, 34, 10) + pin("VCC", "K1", 1, 30, 20) + "999\n";
    }

    private static String pin(String net, String part, int pin, int xMm, int yMm) {
        return String.format(
                Locale.ROOT,
                "317%-17s%-6s-%d    D1000UA00X+%03d000Y+%03d000X1200Y0000R000 S0\n",
                net,
                part,
                pin,
                xMm,
                yMm);
    }

    private static void pad(StringBuilder out, String net, String part, int pin, int xMm, int yMm) {
        out.append("%TO.N,")
                .append(net)
                .append("*%\n%TO.P,")
                .append(part)
                .append(',')
                .append(pin);
        out.append("*%\nD10*\nX").append(xMm).append("000000Y").append(yMm).append("000000D03*\n%TD*%\n");
    }

    private static void area(StringBuilder out, String net, double x0, double y0, double x1, double y1) {
        outline(out, net, new double[] {x0, y0, x1, y0, x1, y1, x0, y1, x0, y0});
    }

    private static void outline(StringBuilder out, String net, double[] way) {
        out.append("%TO.N,").append(net).append("*%\nG36*\n");
        for (int i = 0; i < way.length; i += 2) {
            out.append('X').append(Math.round(way[i] * 1e6));
            out.append('Y').append(Math.round(way[i + 1] * 1e6)).append(i == 0 ? "D02*\n" : "D01*\n");
        }
        out.append("G37*\n%TD*%\n");
    }

    private static String job(
            String name, String thickness, String foil, String width, String height, String surface, String change) {
        return "job = \"" + name + "\"\n\n[blank]\nsubstrate = \"FR-1\"\nthickness = \"" + thickness + "\"\nfoil = \""
                + foil + "\"\nfoil_known = true\ncopper = \"one side\"\nwidth = \"" + width + "\"\nheight = \"" + height
                + "\"\nhold = \"full tape\"\ntape = \"0.1 mm\"\nsurface = " + surface
                + "\n\n[spoil_board]\nthickness = \"6 mm\"\n\n[machine]\n"
                + "travel = [\"160 mm\", \"100 mm\", \"45 mm\"]\nlanguage = \"common\"\nunits = \"mm\"\ndwell = \"s\"\n"
                + "block_delete = false\non_tool_change = \"" + change
                + "\"\napplies_height_map = false\ncorner_deviation = \"0.01 mm\"\nmax_feed = \"1200 mm/min\"\n"
                + "rapid = [\"2500 mm/min\", \"2500 mm/min\", \"1000 mm/min\"]\nacceleration = \"250 mm/s2\"\n"
                + "spindle = [\"8000 rpm\", \"24000 rpm\"]\nbacklash = [\"0.04 mm\", \"0.04 mm\"]\n"
                + "repeatability = \"0.02 mm\"\ncollet_nut = [\"16 mm\", \"18 mm\"]\ntool_change = \"120 s\"\n"
                + "extraction = true\n\n[spread]\nz = [\"-0.040 mm\", \"0.030 mm\"]\nthickness = \"0.05 mm\"\n";
    }

    private static String flat(String name, int number, String duty) {
        return "\n[[tool]]\nname = \"" + name + "\"\nnumber = " + number
                + "\nshape = \"flat\"\ndiameter = \"1/32 in\"\n"
                + "shank = \"3.175 mm\"\nflutes = 2\nflute_length = \"3 mm\"\nstick_out = \"12 mm\"\nrunout = \"0 mm\"\n"
                + "centre_cutting = true\nduty = \"" + duty + "\"\n";
    }

    private static String engraver(String duty) {
        return "\n[[tool]]\nname = \"engraver\"\nnumber = 1\nshape = \"V\"\nincluded_angle = \"30 deg\"\n"
                + "tip_width = \"0.10 mm\"\nshank = \"3.175 mm\"\nflutes = 1\nflute_length = \"6 mm\"\n"
                + "stick_out = \"12 mm\"\nrunout = \"0 mm\"\ncentre_cutting = true\nduty = \"" + duty + "\"\n";
    }

    private static String boreMill() {
        return flat("bore mill", 2, "any").replace("1/32 in", "0.8 mm");
    }

    private static String side(String face, String zeroX, String zeroY) {
        return "\n[[side]]\nface = \"" + face + "\"\nturned = \"no\"\nwork_zero = [\"" + zeroX + "\", \"" + zeroY
                + "\"]\nz_zero = \"foil\"\ntouch_off = [\"4 mm\", \"4 mm\"]\nprobe_clip = [\"2 mm\", \"4 mm\"]\n";
    }

    private static String program(String file, String tool, @org.jspecify.annotations.Nullable String work) {
        return "\n  [[side.program]]\n  file = \"" + file + "\"\n  tool = \"" + tool + "\"\n"
                + (work == null ? "" : "  work = \"" + work + "\"\n");
    }

    /** One program as it grows. */
    private static final class Text {
        private final StringBuilder out = new StringBuilder();
        private double mirrorAboutXMm = Double.NaN;
        private double lostXMm;
        private double lastX;
        private int direction = 1;
        private boolean touchOff = true;
        private boolean begun;

        Text(String what, int number) {
            this.number = number;
            out.append('(').append(what).append(")\n").append(HEAD);
        }

        private final int number;

        private void begin() {
            if (!begun) {
                begun = true;
                change(number, touchOff);
            }
        }

        void change(int tool, boolean stop) {
            out.append(tool == number ? "" : "G0 Z25\nM5\n");
            out.append("T").append(tool).append(" M6\n");
            out.append(stop ? "M0 (TOUCH OFF T" + tool + ")\n" : "");
            out.append("S16000 M3\nG4 P3\nG0 Z2\n");
        }

        void groove(String depth, int plungeFeed, int feed, double... way) {
            begin();
            out.append("G0").append(place(way, 0)).append('\n');
            out.append("G1 Z-").append(depth).append(" F").append(plungeFeed).append('\n');
            for (int i = 2; i < way.length; i += 2) {
                out.append("G1")
                        .append(place(way, i))
                        .append(i == 2 ? " F" + feed : "")
                        .append('\n');
            }
            out.append("G0 Z2\n");
        }

        void bore(double x, double y) {
            out.append("G0 X").append(number(x)).append(" Y").append(number(y)).append('\n');
            out.append("G1 Z-0.600 F100\nG0 Z2\nG0 Z-0.500\nG1 Z-1.200\nG0 Z2\nG0 Z-1.100\nG1 Z-1.800\nG0 Z2\n");
        }

        /** A hole of 1.00 mm milled in circles by an end mill of 0.8 mm. */
        void hole(double x, double y) {
            begin();
            String at = " X" + number(x + 0.1) + " Y" + number(y);
            out.append("G0").append(at).append("\nG0 Z0.5\nG1 Z0 F90\n");
            for (String depth : new String[] {"0.350", "0.700", "1.050", "1.400", "1.700"}) {
                out.append("G3")
                        .append(at)
                        .append(" I-0.100 J0 Z-")
                        .append(depth)
                        .append(" F180\n");
            }
            out.append("G3").append(at).append(" I-0.100 J0\nG0 Z2\n");
        }

        private String place(double[] way, int i) {
            double x = Double.isNaN(mirrorAboutXMm) ? way[i] : mirrorAboutXMm - way[i];
            if (lostXMm > 0) {
                // Half the lost way behind, in the direction of the last move along X.
                double from = i > 0 ? way[i - 2] : lastX;
                direction = way[i] > from ? 1 : way[i] < from ? -1 : direction;
                lastX = way[i];
                x -= direction * lostXMm / 2;
            }
            return " X" + number(x) + " Y" + number(way[i + 1]);
        }

        String end() {
            return out.append(TAIL).toString();
        }
    }
}
