package foilproof.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * The seeded reference jobs that speed and size are measured on. R: blank 100 x 80 mm, an engraving bit of 30 deg with
 * a tip of 0.10 mm at 0.100, about 1,200 closed loops (rounded rectangles and curvy outlines 0.3 to 2 mm apart, a third
 * of the loops 0.16 mm beside another), 12.6 m in 61,500 segments. S: four times the area and length. T: a typical
 * board of 40 x 30 mm, 2.5 m in 6,000 segments, three tools, 40 bores, outline with tabs.
 */
public final class ReferenceJobs {
    private static final long SEED = 20_260_101L;
    private static final double BESIDE_MM = 0.16;
    private static final double DEPTH_MM = -0.1;
    private static final double MILL_RADIUS_MM = 0.396875;

    private ReferenceJobs() {}

    /** Files of job {@code name}: R, S or T. */
    public static Map<String, String> files(String name) {
        return switch (name) {
            case "R" -> large("R", 1);
            case "S" -> large("S", 2);
            case "T" -> typical();
            default -> throw new IllegalArgumentException("the reference jobs are R, S and T, not " + name);
        };
    }

    /** Writes job {@code args[1]} (R, S or T) into the folder {@code args[0]}. */
    public static void main(String[] args) throws IOException {
        Path folder = Path.of(args[0]);
        Files.createDirectories(folder);
        for (Map.Entry<String, String> file : files(args[1]).entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue(), StandardCharsets.UTF_8);
        }
    }

    private static Map<String, String> large(String name, int times) {
        SplittableRandom random = new SplittableRandom(SEED);
        StringBuilder out = start("(reference job " + name + ", seed " + SEED + ")", 1);
        loops(out, random, new Grid(1, 1, 100.0 * times - 1, 80.0 * times - 1, 18 * times, 45 * times, 0.2062));
        end(out);
        Map<String, String> files = new LinkedHashMap<>();
        String tool = tool("engraver", 1, "V", "included_angle = \"30 deg\"\ntip_width = \"0.10 mm\"\n");
        files.put("job.toml", job(name, 100 * times, 80 * times, tool, program("isolation.ngc", "isolation")));
        files.put("isolation.ngc", out.toString());
        return files;
    }

    private static Map<String, String> typical() {
        SplittableRandom random = new SplittableRandom(SEED);
        Map<String, String> files = new LinkedHashMap<>();
        String tools = tool("engraver", 1, "V", "included_angle = \"30 deg\"\ntip_width = \"0.10 mm\"\n")
                + tool("bore mill", 2, "flat", "diameter = \"0.6 mm\"\n")
                + tool("outline mill", 3, "flat", "diameter = \"1/32 in\"\n");
        files.put(
                "job.toml",
                job(
                        "T",
                        60,
                        45,
                        tools,
                        program("isolation.ngc", "isolation")
                                + program("bores.ngc", "boring")
                                + program("outline.ngc", "outline")));
        StringBuilder out = start("(reference job T, seed " + SEED + ")", 1);
        Grid grid = new Grid(11, 9, 49, 37, 17, 14, 0.376);
        loops(out, random, grid);
        end(out);
        files.put("isolation.ngc", out.toString());
        files.put("bores.ngc", bores(random, grid));
        files.put("outline.ngc", outline());
        return files;
    }

    /** Where loops lie: a box, cells across it, and the length of a segment. */
    private record Grid(double x0, double y0, double x1, double y1, int columns, int rows, double stepMm) {
        double pitchX() {
            return (x1 - x0) / columns;
        }

        double pitchY() {
            return (y1 - y0) / rows;
        }
    }

    /** One shape a cell, every second one with another loop beside it: a third of all loops. */
    private static void loops(StringBuilder out, SplittableRandom random, Grid g) {
        for (int row = 0; row < g.rows(); row++) {
            for (int column = 0; column < g.columns(); column++) {
                double cx = g.x0() + (column + 0.5) * g.pitchX();
                double cy = g.y0() + (row + 0.5) * g.pitchY();
                boolean second = (row + column) % 2 == 0;
                double gap = 0.3 + 0.6 * random.nextDouble();
                double halfX = (g.pitchX() - gap) / 2 - (second ? BESIDE_MM : 0);
                double halfY = (g.pitchY() - gap) / 2 - (second ? BESIDE_MM : 0);
                boolean curvy = random.nextInt(3) == 0;
                double phase = 2 * Math.PI * random.nextDouble();
                cut(out, shape(cx, cy, halfX, halfY, curvy, phase, 0, g.stepMm()));
                if (second) {
                    cut(out, shape(cx, cy, halfX, halfY, curvy, phase, BESIDE_MM, g.stepMm()));
                }
            }
        }
    }

    private static List<double[]> shape(
            double cx, double cy, double halfX, double halfY, boolean curvy, double phase, double beside, double step) {
        return curvy
                ? curvy(cx, cy, halfX, halfY, phase, beside, step)
                : rounded(cx, cy, halfX + beside, halfY + beside, Math.min(0.3, halfY - 0.02) + beside, step);
    }

    /** A rounded rectangle as short segments, counter-clockwise. */
    private static List<double[]> rounded(double cx, double cy, double hx, double hy, double r, double step) {
        List<double[]> points = new ArrayList<>();
        double[][] centres = {
            {cx + hx - r, cy + hy - r},
            {cx - hx + r, cy + hy - r},
            {cx - hx + r, cy - hy + r},
            {cx + hx - r, cy - hy + r}
        };
        for (int corner = 0; corner < 4; corner++) {
            double[] c = centres[corner];
            int turns = (int) Math.max(3, Math.round(r * Math.PI / 2 / step));
            for (int k = 0; k <= turns; k++) {
                double a = Math.PI / 2 * (corner + (double) k / turns);
                points.add(new double[] {c[0] + r * StrictMath.cos(a), c[1] + r * StrictMath.sin(a)});
            }
            double[] next = centres[(corner + 1) % 4];
            double length = Math.hypot(next[0] - c[0], next[1] - c[1]);
            double[] from = points.get(points.size() - 1);
            int pieces = (int) Math.max(1, Math.round(length / step));
            for (int k = 1; k < pieces; k++) {
                double s = (double) k / pieces;
                points.add(new double[] {from[0] + s * (next[0] - c[0]), from[1] + s * (next[1] - c[1])});
            }
        }
        points.add(points.get(0));
        return points;
    }

    /** A wavy oval as short segments; {@code beside} moves it outwards along its normals. */
    private static List<double[]> curvy(
            double cx, double cy, double hx, double hy, double phase, double beside, double step) {
        int n = (int) Math.round(Math.PI * (hx + hy) * 1.02 / step);
        List<double[]> points = new ArrayList<>();
        for (int k = 0; k <= n; k++) {
            double a = 2 * Math.PI * (k % n) / n;
            double[] at = wave(hx, hy, phase, a);
            double[] after = wave(hx, hy, phase, a + 1e-4);
            double tx = after[0] - at[0];
            double ty = after[1] - at[1];
            double t = Math.hypot(tx, ty);
            points.add(new double[] {cx + at[0] + beside * ty / t, cy + at[1] - beside * tx / t});
        }
        return points;
    }

    private static double[] wave(double hx, double hy, double phase, double a) {
        double r = 0.93 + 0.07 * StrictMath.sin(3 * a + phase);
        return new double[] {hx * r * StrictMath.cos(a), hy * r * StrictMath.sin(a)};
    }

    private static void cut(StringBuilder out, List<double[]> points) {
        out.append("G0 X")
                .append(n(points.get(0)[0]))
                .append(" Y")
                .append(n(points.get(0)[1]))
                .append('\n');
        out.append("G1 Z").append(n(DEPTH_MM)).append(" F120\n");
        String feed = " F600";
        for (double[] p : points.subList(1, points.size())) {
            out.append("G1 X")
                    .append(n(p[0]))
                    .append(" Y")
                    .append(n(p[1]))
                    .append(feed)
                    .append('\n');
            feed = "";
        }
        out.append("G0 Z2\n");
    }

    /** 40 holes of 0.9 mm in as many shapes, by circular milling. */
    private static String bores(SplittableRandom random, Grid g) {
        StringBuilder out = start("(bores 0.9 mm, end mill 0.6 mm)", 2);
        List<Integer> cells = new ArrayList<>();
        for (int i = 0; i < g.rows() * g.columns(); i++) {
            cells.add(i);
        }
        for (int hole = 0; hole < 40; hole++) {
            int cell = cells.remove(random.nextInt(cells.size()));
            double x = g.x0() + (cell % g.columns() + 0.5) * g.pitchX() + 0.15;
            double y = g.y0() + (cell / g.columns() + 0.5) * g.pitchY();
            out.append("G0 X").append(n(x)).append(" Y").append(n(y)).append("\nG0 Z0.5\nG1 Z0 F120\n");
            String round = "G3 X" + n(x) + " Y" + n(y) + " I-0.150 J0";
            for (double z : new double[] {-0.35, -0.7, -1.05, -1.4, -1.65}) {
                out.append(round).append(" Z").append(n(z)).append(z == -0.35 ? " F180\n" : "\n");
            }
            out.append(round).append("\nG0 Z2\n");
        }
        end(out);
        return out.toString();
    }

    private static String outline() {
        StringBuilder out = start("(outline 40 x 30 mm, four tabs)", 3);
        double r = MILL_RADIUS_MM;
        double[][] corners = {{10 - r, 8 - r}, {10 - r, 38 + r}, {50 + r, 38 + r}, {50 + r, 8 - r}, {10 - r, 8 - r}};
        out.append("G0 X")
                .append(n(corners[0][0]))
                .append(" Y")
                .append(n(corners[0][1]))
                .append('\n');
        for (double z : new double[] {-0.45, -0.9, -1.35, -1.7}) {
            out.append("G1 Z").append(n(z)).append(" F90\nF480\n");
            for (int i = 1; i < corners.length; i++) {
                double[] a = corners[i - 1];
                double[] b = corners[i];
                if (z < -1) {
                    double half = (1 + r) / Math.hypot(b[0] - a[0], b[1] - a[1]);
                    line(out, a, b, 0.5 - half);
                    out.append("G1 Z-1.0000\n");
                    line(out, a, b, 0.5 + half);
                    out.append("G1 Z").append(n(z)).append(" F90\nF480\n");
                }
                line(out, a, b, 1);
            }
        }
        out.append("G0 Z2\n");
        end(out);
        return out.toString();
    }

    private static void line(StringBuilder out, double[] a, double[] b, double share) {
        out.append("G1 X").append(n(a[0] + share * (b[0] - a[0])));
        out.append(" Y").append(n(a[1] + share * (b[1] - a[1]))).append('\n');
    }

    private static StringBuilder start(String comment, int tool) {
        StringBuilder out = new StringBuilder(1 << 16);
        out.append(comment)
                .append('\n')
                .append(ProgramWriter.HEADER)
                .append("\nM5\nG0 Z25\nT")
                .append(tool);
        return out.append(" M6\nM0\nS16000 M3\nG4 P3\nG0 Z2\n");
    }

    private static void end(StringBuilder out) {
        out.append("G0 Z25\nM5\nM2\n");
    }

    private static String tool(String name, int number, String shape, String keys) {
        return "\n[[tool]]\nname = \"" + name + "\"\nnumber = " + number + "\nshape = \"" + shape + "\"\n" + keys
                + "shank = \"3.175 mm\"\nflutes = " + (shape.equals("V") ? 1 : 2)
                + "\nrunout = \"0 mm\"\ncentre_cutting = true\nduty = \"any\"\n";
    }

    private static String program(String file, String work) {
        return "\n  [[side.program]]\n  file = \"" + file + "\"\n  work = \"" + work + "\"\n";
    }

    private static String job(String name, int widthMm, int heightMm, String tools, String programs) {
        return "job = \"Reference " + name
                + "\"\n\n[blank]\nsubstrate = \"FR-1\"\nthickness = \"1.5 mm\"\nfoil = \"0.5 oz\"\n"
                + "copper = \"one side\"\nwidth = \"" + widthMm + " mm\"\nheight = \"" + heightMm + " mm\"\n"
                + "hold = \"full tape\"\ntape = \"0.1 mm\"\nsurface = \"flat\"\n\n[spoil_board]\nthickness = \"6 mm\"\n"
                + tools + "\n[[side]]\nface = \"bottom\"\nwork_zero = [\"0 mm\", \"0 mm\"]\nz_zero = \"foil\"\n"
                + programs;
    }

    private static String n(double value) {
        return String.format(Locale.ROOT, "%.4f", value);
    }
}
