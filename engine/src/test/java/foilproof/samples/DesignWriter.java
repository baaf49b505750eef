package foilproof.samples;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Writes a small board as open design files, seen from the top side, mm: layer images (Gerber Layer Format, X2
 * attributes), a drill file (XNC) and a netlist (IPC-D-356A).
 */
final class DesignWriter {
    /**
     * A hole with its land, or a pad without hole.
     *
     * @param part reference of the part, empty for a via
     * @param holeMm 0 for a pad on one face
     */
    record Pad(
            String net,
            String part,
            String pin,
            double xMm,
            double yMm,
            double widthMm,
            double heightMm,
            double holeMm) {
        static Pad through(String net, String part, String pin, double xMm, double yMm, double landMm, double holeMm) {
            return new Pad(net, part, pin, xMm, yMm, landMm, landMm, holeMm);
        }
    }

    /** Copper of a net: a filled outline, or a trace where {@code widthMm} is above 0. */
    record Copper(String net, double widthMm, List<double[]> points) {}

    private DesignWriter() {}

    /**
     * A copper layer.
     *
     * @param function value of .FileFunction, such as {@code Copper,L2,Bot}
     */
    static String layer(String function, List<Copper> copper, List<Pad> pads) {
        StringBuilder out = new StringBuilder();
        out.append("G04 Sample board of Foilproof, written by its generator*\n");
        out.append("%TF.FileFunction,").append(function).append("*%\n");
        out.append("%TF.FilePolarity,Positive*%\n%FSLAX46Y46*%\n%MOMM*%\nG01*\n");
        Map<String, Integer> apertures = new LinkedHashMap<>();
        for (Copper c : copper) {
            if (c.widthMm() > 0) {
                apertures.putIfAbsent("C," + size(c.widthMm()) + " Conductor", 10 + apertures.size());
            }
        }
        for (Pad p : pads) {
            apertures.putIfAbsent(aperture(p), 10 + apertures.size());
        }
        apertures.forEach((shape, code) -> {
            String[] parts = shape.split(" ", 2);
            out.append("%TA.AperFunction,").append(parts[1]).append("*%\n");
            out.append("%ADD").append(code).append(parts[0]).append("*%\n%TD*%\n");
        });
        for (Copper c : copper) {
            out.append("%TO.N,").append(c.net()).append("*%\n");
            if (c.widthMm() > 0) {
                out.append('D')
                        .append(apertures.get("C," + size(c.widthMm()) + " Conductor"))
                        .append("*\n");
                path(out, c.points());
            } else {
                out.append("G36*\n");
                List<double[]> closed = new ArrayList<>(c.points());
                closed.add(c.points().get(0));
                path(out, closed);
                out.append("G37*\n");
            }
        }
        for (Pad p : pads) {
            out.append("%TO.N,").append(p.net()).append("*%\n");
            if (!p.part().isEmpty()) {
                out.append("%TO.P,")
                        .append(p.part())
                        .append(',')
                        .append(p.pin())
                        .append("*%\n");
            }
            out.append('D').append(apertures.get(aperture(p))).append("*\n");
            out.append(xy(p.xMm(), p.yMm())).append("D03*\n");
            if (!p.part().isEmpty()) {
                out.append("%TD.P*%\n");
            }
        }
        return out.append("%TD*%\nM02*\n").toString();
    }

    /** The board's outline as a profile layer. */
    static String outline(List<double[]> points) {
        StringBuilder out = new StringBuilder();
        out.append("G04 Sample board of Foilproof, written by its generator*\n");
        out.append("%TF.FileFunction,Profile,NP*%\n%FSLAX46Y46*%\n%MOMM*%\nG01*\n");
        out.append("%TA.AperFunction,Profile*%\n%ADD10C,0.100*%\n%TD*%\nD10*\n");
        List<double[]> closed = new ArrayList<>(points);
        closed.add(points.get(0));
        path(out, closed);
        return out.append("M02*\n").toString();
    }

    /** The drill file. */
    static String drill(List<Pad> pads) {
        Map<String, Integer> tools = new LinkedHashMap<>();
        StringBuilder body = new StringBuilder();
        for (Pad p : pads) {
            if (p.holeMm() > 0) {
                tools.putIfAbsent(size(p.holeMm()), tools.size() + 1);
            }
        }
        StringBuilder out = new StringBuilder("M48\n;Sample board of Foilproof, written by its generator\nMETRIC\n");
        tools.forEach((size, number) -> {
            out.append(String.format(Locale.ROOT, "T%02dC%s%n", number, size).replace("\r", ""));
            body.append(String.format(Locale.ROOT, "T%02d\n", number));
            for (Pad p : pads) {
                if (p.holeMm() > 0 && size(p.holeMm()).equals(size)) {
                    body.append('X')
                            .append(size(p.xMm()))
                            .append('Y')
                            .append(size(p.yMm()))
                            .append('\n');
                }
            }
        });
        return out.append("%\nG05\n").append(body).append("M30\n").toString();
    }

    /** The netlist; columns as IPC-D-356A has them. {@code side} is the access of pads without hole, 1 top. */
    static String netlist(List<Pad> pads, int side) {
        StringBuilder out = new StringBuilder();
        out.append("C  Sample board of Foilproof, written by its generator\n");
        out.append("P  UNITS CUST 1\n");
        for (Pad p : pads) {
            boolean hole = p.holeMm() > 0;
            StringBuilder row = new StringBuilder();
            row.append(hole ? "317" : "327");
            row.append(String.format(Locale.ROOT, "%-14s   ", p.net()));
            row.append(String.format(Locale.ROOT, "%-6s-%-4s ", p.part().isEmpty() ? "VIA" : p.part(), p.pin()));
            row.append(hole ? String.format(Locale.ROOT, "D%04dU", um(p.holeMm())) : "      ");
            row.append(hole ? "A00" : String.format(Locale.ROOT, "A%02d", side));
            row.append(signed('X', p.xMm())).append(signed('Y', p.yMm()));
            boolean round = p.widthMm() == p.heightMm() && hole;
            row.append(String.format(Locale.ROOT, "X%04dY%04d", um(p.widthMm()), round ? 0 : um(p.heightMm())));
            row.append("R000 S0");
            out.append(row).append('\n');
        }
        return out.append("999\n").toString();
    }

    private static String aperture(Pad p) {
        String function = p.holeMm() == 0 ? "SMDPad,CuDef" : p.part().isEmpty() ? "ViaPad" : "ComponentPad";
        boolean round = p.widthMm() == p.heightMm() && p.holeMm() > 0;
        return (round ? "C," + size(p.widthMm()) : "R," + size(p.widthMm()) + "X" + size(p.heightMm())) + " "
                + function;
    }

    private static void path(StringBuilder out, List<double[]> points) {
        String code = "D02*\n";
        for (double[] p : points) {
            out.append(xy(p[0], p[1])).append(code);
            code = "D01*\n";
        }
    }

    private static String xy(double xMm, double yMm) {
        return "X" + Math.round(xMm * 1e6) + "Y" + Math.round(yMm * 1e6);
    }

    private static long um(double mm) {
        return Math.round(mm * 1000);
    }

    private static String signed(char axis, double mm) {
        return String.format(Locale.ROOT, "%c%c%06d", axis, mm < 0 ? '-' : '+', Math.abs(um(mm)));
    }

    private static String size(double mm) {
        return new BigDecimal(mm).setScale(3, RoundingMode.HALF_EVEN).toPlainString();
    }

    /** The same points seen from the other side of a board of this width. */
    static List<double[]> turned(List<double[]> points, double widthMm) {
        List<double[]> out = new ArrayList<>();
        for (double[] p : points) {
            out.add(new double[] {widthMm - p[0], p[1]});
        }
        return out;
    }

    /** A pad by reference and pin, or null. */
    static @Nullable Pad find(List<Pad> pads, String part, String pin) {
        return pads.stream()
                .filter(p -> p.part().equals(part) && p.pin().equals(pin))
                .findFirst()
                .orElse(null);
    }
}
