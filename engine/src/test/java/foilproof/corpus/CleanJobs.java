package foilproof.corpus;

import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.HEAD;
import static foilproof.findings.Programs.start;

import foilproof.findings.Bench;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Good jobs in the manners in which generators and people write programs. Nothing here knows of the checks: each job is
 * what a careful person would run. The cutters are those of {@link Bench}; half-ounce foil on 1.5 mm FR-1 unless said
 * otherwise. Dimensions vary by seed.
 */
final class CleanJobs {
    private static final String NL = "\n";

    private final SplittableRandom random;
    private final Map<String, Bench> jobs = new LinkedHashMap<>();

    private CleanJobs(long seed) {
        random = new SplittableRandom(seed);
    }

    /** The jobs by the manner in which they are written. */
    static Map<String, Bench> of(long seed) {
        CleanJobs made = new CleanJobs(seed);
        made.grooves();
        made.arcs();
        made.manners();
        made.clearing();
        made.holes();
        made.outlines();
        made.set();
        made.sides();
        return made.jobs;
    }

    /** A number in [from, to) on a grid of 0.05 mm. */
    private double some(double from, double to) {
        return StrictMath.round((from + random.nextDouble() * (to - from)) * 20) / 20.0;
    }

    private static String n(double v) {
        String s = String.format(Locale.ROOT, "%.4f", v);
        return s.contains(".") ? s.replaceAll("0+$", "").replaceAll("\\.$", ".0") : s;
    }

    private static String xy(double x, double y) {
        return "X" + n(x) + " Y" + n(y);
    }

    private static String down(double x, double y, double z) {
        return "G0 " + xy(x, y) + NL + "G0 Z1.0" + NL + "G1 Z" + n(z) + " F90" + NL;
    }

    /** A closed rectangle with a lead-over of 0.4 mm. */
    private static String box(double x0, double y0, double x1, double y1, double z) {
        return down(x0, y0, z) + "G1 X" + n(x1) + " F300" + NL + "G1 Y" + n(y1) + NL + "G1 X" + n(x0) + NL + "G1 Y"
                + n(y0) + NL + "G1 X" + n(x0 + 0.4) + NL + "G0 Z5.0" + NL;
    }

    private static String bore(double x, double y, double holeMm, double cutterMm) {
        double r = (holeMm - cutterMm) / 2;
        StringBuilder s = new StringBuilder("G0 " + xy(x + r, y) + NL + "G0 Z0.5" + NL + "G1 Z0.0 F90" + NL);
        for (double z : new double[] {-0.35, -0.7, -1.05, -1.4, -1.65}) {
            s.append("G3 ")
                    .append(xy(x + r, y))
                    .append(" I")
                    .append(n(-r))
                    .append(" J0.0 Z")
                    .append(n(z));
            s.append(" F180").append(NL);
        }
        return s + "G3 " + xy(x + r, y) + " I" + n(-r) + " J0.0" + NL + "G0 Z2.0" + NL;
    }

    private void grooves() {
        double x = some(2, 4);
        double y = some(2, 4);
        double w = some(5, 9);
        String nested = box(x, y, x + w, y + 6, -0.1) + box(x + 1.5, y + 1.5, x + w - 1.5, y + 4.5, -0.1);
        jobs.put("contours from outside in", Bench.job().runs(start(1) + nested + END));
        String out = box(x + 1.5, y + 1.5, x + w - 1.5, y + 4.5, -0.1) + box(x, y, x + w, y + 6, -0.1);
        jobs.put("contours from inside out", Bench.job().runs(start(1) + out + END));
        jobs.put("flat cutter contours", Bench.job().runs(start(3) + box(x, y, x + w, y + 6, -0.1) + END));
        jobs.put(
                "second groove 0.12 beside the first",
                Bench.job()
                        .runs(start(1)
                                + box(x, y, x + w, y + 6, -0.1)
                                + box(x + 0.12, y + 0.12, x + w - 0.12, y + 5.88, -0.1)
                                + END));
        jobs.put(
                "two depth passes on one path",
                Bench.job().runs(start(1) + box(x, y, x + w, y + 6, -0.05) + box(x, y, x + w, y + 6, -0.1) + END));
        String open = down(x, y, -0.1) + "G1 " + xy(x + w, y + 1) + " F300" + NL + "G1 " + xy(x + w, y + 5) + NL
                + "G0 Z5.0" + NL;
        jobs.put("open lines that end in copper", Bench.job().runs(start(1) + open + END));
        String t = box(x, y, x + w, y + 6, -0.1) + down(x + w / 2, y, -0.1) + "G1 Y" + n(y + 6) + " F300" + NL
                + "G0 Z5.0" + NL;
        jobs.put("a groove that joins two walls of a loop", Bench.job().runs(start(1) + t + END));
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 3; i++) {
            double at = x + 2.0 * i;
            text.append(down(at, y, -0.1))
                    .append("G1 Y")
                    .append(n(y + 2))
                    .append(" F300")
                    .append(NL);
            text.append("G1 ")
                    .append(xy(at + 1, y))
                    .append(NL)
                    .append("G1 Y")
                    .append(n(y + 2))
                    .append(NL);
            text.append("G0 Z5.0").append(NL);
        }
        jobs.put("letters", Bench.job().program("text.ngc", start(1) + text + END, "work", "text"));
    }

    private void arcs() {
        double x = some(6, 9);
        double y = some(6, 8);
        double r = some(2, 3.5);
        String circle = down(x + r, y, -0.1) + "G3 " + xy(x + r, y) + " I" + n(-r) + " J0.0 F300" + NL + "G0 Z5.0" + NL;
        jobs.put("full circles", Bench.job().runs(start(1) + circle + END));
        String halves = down(x + r, y, -0.1) + "G2 " + xy(x - r, y) + " I" + n(-r) + " J0.0 F300" + NL + "G2 "
                + xy(x + r, y) + " I" + n(r) + " J0.0" + NL + "G2 " + xy(x, y - r) + " I" + n(-r) + " J0.0" + NL
                + "G0 Z5.0" + NL;
        jobs.put("half circles clockwise", Bench.job().runs(start(1) + halves + END));
        String radius = down(x + r, y, -0.1) + "G3 " + xy(x, y + r) + " R" + n(r) + " F300" + NL + "G3 " + xy(x - r, y)
                + " R" + n(r) + NL + "G3 " + xy(x, y - r) + " R" + n(r) + NL + "G3 " + xy(x + r, y) + " R" + n(r) + NL
                + "G3 " + xy(x, y + r) + " R" + n(r) + NL + "G0 Z5.0" + NL;
        jobs.put("arcs by radius", Bench.job().runs(start(1) + radius + END));
        String absolute = down(x + r, y, -0.1) + "G90.1" + NL + "G3 " + xy(x, y + r) + " I" + n(x) + " J" + n(y)
                + " F300" + NL
                + "G3 " + xy(x - r, y) + " I" + n(x) + " J" + n(y) + NL + "G3 " + xy(x + r, y) + " I" + n(x) + " J"
                + n(y) + NL + "G3 " + xy(x, y + r) + " I" + n(x) + " J" + n(y) + NL + "G91.1" + NL + "G0 Z5.0" + NL;
        jobs.put("absolute arc centres", Bench.job().runs(start(1) + absolute + END));
        jobs.put("chords of 0.02 mm", Bench.job().runs(start(1) + chords(x, y, r, 0.02) + END));
        jobs.put("chords of 0.2 mm", Bench.job().runs(start(1) + chords(x, y, r, 0.2) + END));
        StringBuilder spiral = new StringBuilder(down(x, y, -0.1));
        for (int i = 1; i <= 6; i++) {
            double a = 0.2 * i;
            double s = i % 2 == 0 ? -1 : 1;
            double from = x + (i == 1 ? 0 : (i % 2 == 0 ? 0.2 * (i - 1) : -0.2 * (i - 1)));
            spiral.append("G3 ").append(xy(x + s * a, y)).append(" I").append(n((x + s * a - from) / 2));
            spiral.append(" J0.0 F300").append(NL);
        }
        jobs.put(
                "spiral that clears a disc",
                Bench.job().program("clear.ngc", start(3) + spiral + "G0 Z5.0" + NL + END));
        String rounded =
                down(x, y - 2, -0.1) + "G1 X" + n(x + 3) + " F300" + NL + "G3 " + xy(x + 4, y - 1) + " I0.0 J1.0" + NL
                        + "G1 Y" + n(y + 1) + NL + "G3 " + xy(x + 3, y + 2) + " I-1.0 J0.0" + NL + "G1 X" + n(x - 3)
                        + NL + "G3 "
                        + xy(x - 4, y + 1) + " I0.0 J-1.0" + NL + "G1 Y" + n(y - 1) + NL + "G3 " + xy(x - 3, y - 2)
                        + " I1.0 J0.0" + NL + "G1 X" + n(x + 0.4) + NL + "G0 Z5.0" + NL;
        jobs.put("rounded rectangle", Bench.job().runs(start(1) + rounded + END));
    }

    private static String chords(double x, double y, double r, double chord) {
        int parts = (int) StrictMath.ceil(2 * StrictMath.PI * r / chord);
        StringBuilder s = new StringBuilder(down(x + r, y, -0.1));
        for (int i = 1; i <= parts + 3; i++) {
            double a = 2 * StrictMath.PI * i / parts;
            s.append(i == 1 ? "G1 " : "").append(xy(x + r * StrictMath.cos(a), y + r * StrictMath.sin(a)));
            s.append(i == 1 ? " F300" : "").append(NL);
        }
        return s + "G0 Z5.0" + NL;
    }

    private void manners() {
        String loop = box(some(2, 4), some(2, 4), some(10, 14), some(8, 11), -0.1);
        String plain = start(1) + loop + END;
        StringBuilder numbered = new StringBuilder();
        int number = 10;
        for (String line : plain.split(NL)) {
            numbered.append('N').append(number).append(' ').append(line).append(NL);
            number += 10;
        }
        jobs.put("numbered lines", Bench.job().runs(numbered.toString()));
        jobs.put("small letters", Bench.job().runs(plain.toLowerCase(Locale.ROOT)));
        jobs.put("no spaces", Bench.job().runs(plain.replace(" ", "").replace("(TOUCHOFFT1)", "")));
        jobs.put("line ends of two characters", Bench.job().runs(plain.replace(NL, "\r\n")));
        jobs.put("per cent signs round it", Bench.job().runs("%" + NL + plain + "%" + NL));
        jobs.put("comments everywhere", Bench.job().runs(commented(plain)));
        jobs.put(
                "leading zeros and plus signs",
                Bench.job()
                        .runs(plain.replace("G0 ", "G00 ")
                                .replace("G1 ", "G01 ")
                                .replace("X", "X+")));
        jobs.put("G words only where they change", Bench.job().runs(modal(plain)));
        jobs.put("M30 at the end", Bench.job().runs(plain.replace("M2", "M30")));
        jobs.put("header on lines of its own", Bench.job().runs(plain.replace(HEAD, String.join(NL, HEAD.split(" ")))));
        jobs.put("short header", Bench.job().runs(plain.replace(HEAD, "G21 G90 G94 G17 G54" + NL)));
        jobs.put("blending 0.005", Bench.job().runs(plain.replace("G61", "G64 P0.005")));
        jobs.put(
                "block delete with nothing that cuts",
                Bench.job().runs(plain.replace("M5", "/ M8" + NL + "M5").replaceFirst("/ M8" + NL, "")));
        jobs.put(
                "retract to the machine's height",
                Bench.job().runs(plain.replace("G0 Z10" + NL, "G91 G28 Z0.0" + NL + "G90" + NL)));
        jobs.put(
                "parameters and sums",
                Bench.job()
                        .runs(start(1) + "#1=-0.1" + NL + "#2=[3.0+2.0/4.0]" + NL
                                + "G0 X#2 Y4.0" + NL + "G0 Z1.0" + NL + "G1 Z#1 F90" + NL + "G1 X[#2+6.0] F300" + NL
                                + "G1 Y9.0" + NL
                                + "G1 X#2" + NL + "G1 Y4.0" + NL + "G1 X[#2+0.4]" + NL + "G0 Z5.0" + NL + END));
        jobs.put("inches", Bench.job().runs(inches()));
        jobs.put(
                "increments between absolute starts",
                Bench.job()
                        .runs(start(1) + "G0 X3.0 Y3.0" + NL + "G0 Z1.0" + NL
                                + "G1 Z-0.1 F90" + NL + "G91" + NL + "G1 X8.0 F300" + NL + "Y6.0" + NL + "X-8.0" + NL
                                + "Y-6.0" + NL
                                + "X0.4" + NL + "G90" + NL + "G0 Z5.0" + NL + END));
    }

    private static String inches() {
        return HEAD.replace("G21", "G20") + "T1 M6" + NL + "M0 (TOUCH OFF T1)" + NL + "S16000 M3" + NL + "G4 P3" + NL
                + "G0 Z0.2" + NL + "G0 X0.1 Y0.1" + NL + "G0 Z0.04" + NL + "G1 Z-0.0039 F3.5" + NL + "G1 X0.5 F12" + NL
                + "G1 Y0.4" + NL + "G1 X0.1" + NL + "G1 Y0.1" + NL + "G1 X0.115" + NL + "G0 Z0.4" + NL + "M5" + NL
                + "M2"
                + NL;
    }

    private static String commented(String plain) {
        return "; made for the bench" + NL + "(isolation, 30 deg, tip 0.12)" + NL
                + plain.replace("F300" + NL, "F300 (along the bottom)" + NL).replace("M5" + NL, "M5 ; off" + NL)
                + "(end)" + NL;
    }

    private static String modal(String plain) {
        StringBuilder out = new StringBuilder();
        String last = "";
        for (String line : plain.split(NL)) {
            boolean move = line.startsWith("G0 ") || line.startsWith("G1 ");
            if (move && line.startsWith(last) && !last.isEmpty()) {
                out.append(line.substring(3));
            } else {
                out.append(line);
                last = move ? line.substring(0, 3) : "";
            }
            out.append(NL);
        }
        return out.toString();
    }

    private void clearing() {
        double x = some(3, 5);
        StringBuilder zigzag = new StringBuilder(down(x, 3, -0.1));
        StringBuilder upright = new StringBuilder(down(x, 3, -0.1));
        StringBuilder oneWay = new StringBuilder();
        for (int i = 0; i < 10; i++) {
            double at = 3 + 0.5 * i;
            zigzag.append("G1 Y").append(n(at)).append(" F300").append(NL);
            zigzag.append("G1 X").append(n(i % 2 == 0 ? x + 6 : x)).append(NL);
            upright.append("G1 X").append(n(x + 0.5 * i)).append(" F300").append(NL);
            upright.append("G1 Y").append(n(i % 2 == 0 ? 9 : 3)).append(NL);
            oneWay.append(down(x, at, -0.1))
                    .append("G1 X")
                    .append(n(x + 6))
                    .append(" F300")
                    .append(NL);
            oneWay.append("G0 Z2.0").append(NL);
        }
        String up = "G0 Z5.0" + NL + END;
        jobs.put("raster along X", Bench.job().program("a.ngc", start(3) + zigzag + up, "work", "clearing"));
        jobs.put("raster along Y", Bench.job().program("a.ngc", start(3) + upright + up, "work", "clearing"));
        jobs.put("raster one way", Bench.job().program("a.ngc", start(3) + oneWay + END, "work", "clearing"));
    }

    private void holes() {
        String iso = start(1) + box(2, 2, 14, 10, -0.1) + END;
        String at = "X5.0 Y5.0 Z-2.05 R0.6 ";
        String more = "F200" + NL + "X8.0" + NL + "X11.0 Y7.0" + NL + "G80" + NL;
        jobs.put(
                "drilled by G81",
                Bench.job().program("i.ngc", iso).program("d.ngc", start(4) + "G99 G81 " + at + more + END));
        jobs.put(
                "drilled by G81 back to the height before",
                Bench.job()
                        .program("i.ngc", iso)
                        .program("d.ngc", start(4) + "G0 Z3.0" + NL + "G98 G81 " + at + more + END));
        jobs.put(
                "drilled by G82",
                Bench.job().program("i.ngc", iso).program("d.ngc", start(4) + "G99 G82 P0.1 " + at + more + END));
        jobs.put(
                "drilled by G83",
                Bench.job().program("i.ngc", iso).program("d.ngc", start(4) + "G99 G83 Q0.5 " + at + more + END));
        jobs.put(
                "drilled by G73",
                Bench.job().program("i.ngc", iso).program("d.ngc", start(4) + "G99 G73 Q0.5 " + at + more + END));
        jobs.put(
                "drilled by plain moves",
                Bench.job()
                        .program("i.ngc", iso)
                        .program(
                                "d.ngc",
                                start(4) + "G0 X5.0 Y5.0" + NL + "G0 Z1.0" + NL + "G1 Z-2.05 F200" + NL + "G0 Z1.0" + NL
                                        + "G0 X8.0" + NL + "G1 Z-2.05" + NL + "G0 Z5.0" + NL + END));
        jobs.put(
                "bored by helices",
                Bench.job()
                        .program("i.ngc", iso)
                        .program("b.ngc", start(2) + bore(5, 5, 1.2, 0.8) + bore(9, 7, 1.0, 0.8) + END));
        jobs.put(
                "one program, two cutters",
                Bench.job()
                        .runs(start(1) + box(2, 2, 14, 10, -0.1) + "M5" + NL + "G0 Z25" + NL
                                + "T2 M6" + NL + "M0 (TOUCH OFF T2)" + NL + "S16000 M3" + NL + "G4 P3" + NL + "G0 Z5.0"
                                + NL
                                + bore(5, 5, 1.2, 0.8) + END));
        jobs.put("slot by a ramp", Bench.job().program("i.ngc", iso).program("s.ngc", start(2) + ramp() + END));
    }

    private static String ramp() {
        StringBuilder s = new StringBuilder("G0 X5.0 Y5.0" + NL + "G0 Z0.5" + NL + "G1 Z0.0 F90" + NL);
        double[] levels = {-0.3, -0.6, -0.9, -1.2, -1.5, -1.7, -1.7, -1.7};
        for (int i = 0; i < levels.length; i++) {
            s.append("G1 X")
                    .append(i % 2 == 0 ? "8.0" : "5.0")
                    .append(" Z")
                    .append(n(levels[i]))
                    .append(" F180")
                    .append(NL);
        }
        return s + "G0 Z5.0" + NL;
    }

    /** Passes of an outline; the last ones lift over tabs of 2 mm. */
    private static String outline(boolean tabs) {
        StringBuilder s = new StringBuilder("G0 X1.6 Y1.6" + NL + "G0 Z0.5" + NL);
        for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
            boolean lift = tabs && z < -1.0;
            s.append("G1 Z").append(n(z)).append(" F90").append(NL);
            for (int i = 0; i < 4; i++) {
                double[] from = corner(i);
                double[] to = corner(i + 1);
                if (lift) {
                    s.append("G1 ")
                            .append(between(from, to, 0.4))
                            .append(" F300")
                            .append(NL);
                    s.append("G1 Z-1.0").append(NL);
                    s.append("G1 ").append(between(from, to, 0.65)).append(NL);
                    s.append("G1 Z").append(n(z)).append(" F90").append(NL);
                }
                s.append("G1 ").append(xy(to[0], to[1])).append(" F300").append(NL);
            }
        }
        return s + "G0 Z5.0" + NL;
    }

    private static double[] corner(int i) {
        double[][] all = {{1.6, 1.6}, {15.6, 1.6}, {15.6, 11.6}, {1.6, 11.6}};
        return all[i % 4];
    }

    private static String between(double[] a, double[] b, double share) {
        return xy(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]));
    }

    private void outlines() {
        String iso = start(1) + box(4, 4, 13, 9, -0.1) + END;
        jobs.put(
                "outline with tabs",
                Bench.job().program("i.ngc", iso).program("o.ngc", start(2) + outline(true) + END));
        jobs.put(
                "outline on tape without tabs",
                Bench.job().program("i.ngc", iso).program("o.ngc", start(2) + outline(false) + END));
        jobs.put(
                "copper, bores, outline with tabs under clamps",
                Bench.job()
                        .blank("hold", "edge clamps", "tape", "0 mm")
                        .spread("z", "[\"-0.040 mm\", \"0.030 mm\"]")
                        .keepOut("left clamp", -10, 5, -1.0, 9, 3)
                        .program("i.ngc", iso)
                        .program("b.ngc", start(2) + bore(6, 6, 1.2, 0.8) + END)
                        .program("o.ngc", start(2) + outline(true) + END));
        jobs.put(
                "vacuum and tabs",
                Bench.job()
                        .blank("hold", "vacuum", "tape", "0 mm")
                        .program("i.ngc", iso)
                        .program("o.ngc", start(2) + outline(true) + END));
    }

    private void set() {
        String loop = box(3, 3, 12, 9, -0.1);
        jobs.put(
                "work zero inside the blank",
                Bench.job().side("work_zero", "[\"2 mm\", \"2 mm\"]").runs(start(1) + loop + END));
        jobs.put(
                "work zero at the blank's middle",
                Bench.job()
                        .side("work_zero", "[\"10 mm\", \"7.5 mm\"]")
                        .runs(start(1) + box(-5, -4, 4, 3, -0.1) + END));
        jobs.put(
                "zero on the spoil board",
                Bench.job()
                        .side("z_zero", "spoil board")
                        .runs(start(1)
                                + "G0 Z5.0" + NL + "G0 X3.0 Y3.0" + NL + "G0 Z2.6" + NL + "G1 Z1.5 F90" + NL
                                + "G1 X12.0 F300" + NL
                                + "G1 Y9.0" + NL + "G1 X3.0" + NL + "G1 Y3.0" + NL + "G1 X3.4" + NL + "G0 Z6.0" + NL
                                + END));
        jobs.put(
                "one-ounce glass with the dust taken away",
                Bench.job()
                        .blank("substrate", "FR-4", "thickness", "1.6 mm", "foil", "1 oz")
                        .tool("engraver", "duty", "any")
                        .runs(start(1) + box(3, 3, 12, 9, -0.12) + END));
        jobs.put(
                "lengths that are measured",
                Bench.job()
                        .machine("on_tool_change", "measured")
                        .tool("engraver", "length", "32.1 mm")
                        .runs(start(1).replace("M0 (TOUCH OFF T1)", "G43 H1") + loop + END));
        jobs.put(
                "probing before the cut",
                Bench.job()
                        .runs(HEAD + "T1 M6" + NL + "M0 (CLIP ON)" + NL + "G0 Z5.0" + NL
                                + "G0 X18.5 Y13.5" + NL + "G38.2 Z-1.0 F30" + NL + "G10 L20 P1 Z0.0" + NL + "G0 Z5.0"
                                + NL + "M0 (CLIP OFF)"
                                + NL + "S16000 M3" + NL + "G4 P3" + NL + loop + END));
        jobs.put(
                "a controller that follows the touched points",
                Bench.job()
                        .machine("applies_height_map", "true")
                        .blank(
                                "surface",
                                "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"20 mm\",\"0 mm\",\"-0.12 mm\"],"
                                        + "[\"0 mm\",\"15 mm\",\"0.02 mm\"],[\"20 mm\",\"15 mm\",\"-0.1 mm\"]]")
                        .runs(start(1) + loop + END));
        jobs.put(
                "a dished blank and touched points that Z follows",
                Bench.job()
                        .blank(
                                "surface",
                                "[[\"0 mm\",\"0 mm\",\"0 mm\"],[\"20 mm\",\"0 mm\",\"0.04 mm\"],"
                                        + "[\"0 mm\",\"15 mm\",\"0 mm\"],[\"20 mm\",\"15 mm\",\"0.04 mm\"]]")
                        .side("touch_off", "[\"0.5 mm\", \"13.5 mm\"]")
                        .runs(start(1) + mapped() + END));
    }

    /** The groove's Z follows a blank that rises 0.002 mm a mm in X, counted from the touch point at X 0.5. */
    private static String mapped() {
        return "G0 X3.0 Y3.0" + NL + "G0 Z1.0" + NL + "G1 Z-0.095 F90" + NL + "G1 X7.0 Z-0.087 F300" + NL
                + "G1 X12.0 Z-0.077" + NL + "G1 Y9.0" + NL + "G1 X7.0 Z-0.087" + NL + "G1 X3.0 Z-0.095" + NL + "G1 Y3.0"
                + NL
                + "G1 X3.4" + NL + "G0 Z5.0" + NL;
    }

    private void sides() {
        String top = start(1) + box(3, 3, 12, 9, -0.1) + END;
        String bottom = start(1) + box(20 - 12, 3, 20 - 3, 9, -0.1) + END;
        jobs.put(
                "two sides turned about Y",
                Bench.job()
                        .blank("copper", "both sides")
                        .side("face", "top", "deburred", "true")
                        .program("top.ngc", top)
                        .program("holes.ngc", start(2) + bore(5, 5, 1.2, 0.8) + END)
                        .nextSide("bottom", "about Y")
                        .side("deburred", "true", "touch_off", "[\"1.0 mm\", \"13.5 mm\"]")
                        .program("bottom.ngc", bottom));
        jobs.put(
                "two sides turned about X",
                Bench.job()
                        .blank("copper", "both sides")
                        .side("face", "top", "deburred", "true")
                        .program("top.ngc", top)
                        .program("holes.ngc", start(2) + bore(5, 5, 1.2, 0.8) + END)
                        .nextSide("bottom", "about X")
                        .side("deburred", "true", "touch_off", "[\"18.5 mm\", \"1.0 mm\"]")
                        .program("bottom.ngc", start(1) + box(3, 15 - 9, 12, 15 - 3, -0.1) + END));
    }
}
