package foilproof.bench;

import foilproof.source.SourceFile;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A rough look at a file of a folder: is it a design file, of which kind, and how far does it reach. For guesses that
 * a person checks; reading it in earnest is the design package's job.
 */
record DesignSketch(Kind kind, double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
    /** What a design file is. */
    enum Kind {
        TOP_COPPER("top_copper"),
        BOTTOM_COPPER("bottom_copper"),
        OUTLINE("outline"),
        DRILL("drill"),
        NETLIST("netlist");

        final String key;

        Kind(String key) {
            this.key = key;
        }
    }

    private static final int HEAD_CHARS = 4096;
    private static final int MOST_CHARS = 8 * 1024 * 1024;
    private static final Pattern LAYER_FORMAT = Pattern.compile("%FS[LT][AI]X(\\d)(\\d)Y\\d\\d\\*%");
    private static final Pattern FUNCTION = Pattern.compile("TF\\.FileFunction,([A-Za-z]+)(?:,([^*\\n]*))?");
    private static final Pattern OPERATION =
            Pattern.compile("(?:X([+-]?\\d+))?(?:Y([+-]?\\d+))?(?:[IJ][+-]?\\d+)*D0?[123]\\*");
    private static final Pattern DRILL_HIT = Pattern.compile("(?m)^X([+-]?\\d*\\.\\d+)Y([+-]?\\d*\\.\\d+)");
    private static final Pattern NET_POINT = Pattern.compile("(?m)^3[126]7.{38}X([+-]?\\d{6})Y([+-]?\\d{6})");

    /** Whether it says where it reaches. */
    boolean reaches() {
        return x0Mm <= x1Mm && y0Mm <= y1Mm;
    }

    /** The sketch of a design file, or null where the file is none that a job names. */
    static @Nullable DesignSketch of(SourceFile file) {
        String text = file.latin1();
        if (text.length() > MOST_CHARS) {
            text = text.substring(0, MOST_CHARS);
        }
        String head = text.substring(0, Math.min(HEAD_CHARS, text.length()));
        String name = file.name().toLowerCase(Locale.ROOT);
        if (LAYER_FORMAT.matcher(head).find()) {
            Kind kind = layerKind(head, name);
            return kind == null ? null : layer(kind, head, text);
        }
        if (head.startsWith("M48") || head.contains("\nM48")) {
            double unitMm = head.contains("INCH") ? 25.4 : 1;
            return extent(Kind.DRILL, DRILL_HIT.matcher(text), unitMm, unitMm);
        }
        if (head.startsWith("C  ")
                || head.startsWith("P  ")
                || NET_POINT.matcher(head).find()) {
            boolean metric = head.contains("CUST 1") || head.contains("UNITS SI");
            double unitMm = metric ? 0.001 : 0.00254;
            return extent(Kind.NETLIST, NET_POINT.matcher(text), unitMm, unitMm);
        }
        return null;
    }

    private static @Nullable Kind layerKind(String head, String name) {
        Matcher function = FUNCTION.matcher(head);
        if (function.find()) {
            String rest = function.group(2) == null ? "" : function.group(2).toLowerCase(Locale.ROOT);
            return switch (function.group(1)) {
                case "Copper" ->
                    rest.contains("top") ? Kind.TOP_COPPER : rest.contains("bot") ? Kind.BOTTOM_COPPER : null;
                case "Profile" -> Kind.OUTLINE;
                default -> null;
            };
        }
        if (name.contains("mask") || name.contains("paste") || name.contains("silk") || name.contains("legend")) {
            return null;
        }
        if (name.contains("outline") || name.contains("profile") || name.contains("edge")) {
            return Kind.OUTLINE;
        }
        if (name.contains("bot") || name.contains("solder") || name.contains("back")) {
            return Kind.BOTTOM_COPPER;
        }
        return name.contains("top") || name.contains("component") || name.contains("front") ? Kind.TOP_COPPER : null;
    }

    private static DesignSketch layer(Kind kind, String head, String text) {
        Matcher format = LAYER_FORMAT.matcher(head);
        double scaleMm = head.contains("%MOIN*%") ? 25.4 : 1;
        if (format.find()) {
            for (int i = format.group(2).charAt(0) - '0'; i > 0; i--) {
                scaleMm /= 10;
            }
        }
        double[] box = {
            Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY
        };
        double x = 0;
        double y = 0;
        Matcher m = OPERATION.matcher(text);
        while (m.find()) {
            x = m.group(1) == null ? x : number(m.group(1)) * scaleMm;
            y = m.group(2) == null ? y : number(m.group(2)) * scaleMm;
            include(box, x, y);
        }
        return new DesignSketch(kind, box[0], box[1], box[2], box[3]);
    }

    private static DesignSketch extent(Kind kind, Matcher m, double xUnitMm, double yUnitMm) {
        double[] box = {
            Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY
        };
        while (m.find()) {
            include(box, number(m.group(1)) * xUnitMm, number(m.group(2)) * yUnitMm);
        }
        return new DesignSketch(kind, box[0], box[1], box[2], box[3]);
    }

    /** A number of a coordinate; one too long to mean anything counts as 0. */
    private static double number(String text) {
        return text.length() > 20 ? 0 : Double.parseDouble(text);
    }

    private static void include(double[] box, double xMm, double yMm) {
        box[0] = Math.min(box[0], xMm);
        box[1] = Math.min(box[1], yMm);
        box[2] = Math.max(box[2], xMm);
        box[3] = Math.max(box[3], yMm);
    }
}
