package foilproof.report;

import foilproof.findings.Finding;
import foilproof.findings.Limit;
import foilproof.findings.Measured;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Values as people read them: mm with thou beside, signs told, errors beside, in no locale. */
public final class HumanText {
    private static final double MM_PER_THOU = 0.0254;

    /** From here on a length is told in metres: how far a cutter cuts, not a size of anything. */
    private static final double LONG_MM = 500;

    private HumanText() {}

    /** A length: {@code 0.794 mm (31.3 thou)}. */
    public static String length(double lengthMm) {
        return Decimals.fixed(lengthMm, 3) + " mm (" + Decimals.fixed(lengthMm / MM_PER_THOU, 1) + " thou)";
    }

    /** A signed length: {@code +0.050 mm (+2.0 thou)}. */
    public static String signedLength(double lengthMm) {
        return Math.abs(lengthMm) >= LONG_MM ? signedMetres(lengthMm) : signedMm(lengthMm);
    }

    private static String signedMetres(double lengthMm) {
        return Decimals.signed(lengthMm / 1000, 3) + " m";
    }

    private static String signedMm(double lengthMm) {
        return Decimals.signed(lengthMm, 3) + " mm (" + Decimals.signed(lengthMm / MM_PER_THOU, 1) + " thou)";
    }

    /** A place: {@code (22.400, 9.100) mm}. */
    public static String place(double[] atMm) {
        return "(" + Decimals.fixed(atMm[0], 3) + ", " + Decimals.fixed(atMm[1], 3) + ") mm";
    }

    /** A moment or a duration: {@code 0:12.3}, {@code 1:02:03.4}. */
    public static String moment(double timeS) {
        long tenths = Math.round(Math.abs(timeS) * 10);
        long seconds = tenths / 10;
        String sign = timeS < 0 && tenths > 0 ? "-" : "";
        String tail = two(seconds % 60) + "." + tenths % 10;
        long minutes = seconds / 60;
        return sign + (minutes < 60 ? minutes + ":" + tail : minutes / 60 + ":" + two(minutes % 60) + ":" + tail);
    }

    /** A moment or a duration with its unit: {@code 0:12.3 min}, {@code 1:02:03.4 h}. */
    public static String clock(double timeS) {
        return moment(timeS) + (Math.round(Math.abs(timeS) * 10) < 36000 ? " min" : " h");
    }

    /** An area or volume with its unit: {@code 12.34 mm2}. */
    public static String amount(double value, String unit) {
        return Decimals.fixed(value, Math.abs(value) < 1 ? 4 : 2) + " " + unit;
    }

    /** A measured value with its error and, for lengths, thou: {@code width: 0.021 +/- 0.002 mm (0.8 thou)}. */
    public static String measured(Measured measured) {
        return measured(measured, Math.abs(measured.value()) >= LONG_MM);
    }

    private static String measured(Measured measured, boolean metres) {
        // "vias that need a wire: 15" names what is counted already
        boolean named = measured.name().contains(measured.unit());
        String unit = named && !measured.unit().equals("mm") ? "" : measured.unit();
        return measured.name() + ": "
                + (share(measured)
                        ? percent(measured.value())
                        : value(measured.value(), measured.plusMinus(), unit, metres));
    }

    /** Whether a number without a unit is a part of a whole. */
    private static boolean share(Measured measured) {
        return measured.unit().isEmpty() && measured.name().startsWith("share");
    }

    private static String percent(double share) {
        return Decimals.plain(100 * share, 1) + " %";
    }

    /** A Z window in words, or that there is none. */
    public static String window(boolean empty, @Nullable Double fromMm, @Nullable Double toMm) {
        return empty ? "no Z error satisfies every check" : window(fromMm, toMm);
    }

    /** The Z window, ends rounded inward: {@code -0.077 to +0.050 mm (-3.0 to +1.9 thou)}. */
    public static String window(@Nullable Double fromMm, @Nullable Double toMm) {
        Double low = fromMm != null && Double.isFinite(fromMm) ? fromMm : null;
        Double high = toMm != null && Double.isFinite(toMm) ? toMm : null;
        if (low == null) {
            return high == null
                    ? "the whole headroom and beyond"
                    : "up to " + upper(high) + " mm (" + upperThou(high) + " thou), below that beyond the headroom";
        }
        if (high == null) {
            return "from " + lower(low) + " mm (" + lowerThou(low) + " thou) on, above that beyond the headroom";
        }
        return lower(low) + " to " + upper(high) + " mm (" + lowerThou(low) + " to " + upperThou(high) + " thou)";
    }

    private static String lower(double valueMm) {
        return Decimals.signed(Decimals.upToUm(valueMm), 3);
    }

    private static String upper(double valueMm) {
        return Decimals.signed(Decimals.downToUm(valueMm), 3);
    }

    private static String lowerThou(double valueMm) {
        return Decimals.signed(Math.ceil(valueMm / MM_PER_THOU * 10 - 1e-6) / 10, 1);
    }

    private static String upperThou(double valueMm) {
        return Decimals.signed(Math.floor(valueMm / MM_PER_THOU * 10 + 1e-6) / 10, 1);
    }

    /** Where a finding lies, as far as it is known: {@code side 1, at (1.000, 2.000) mm, isolation.ngc line 42, ...}. */
    public static String where(Finding finding) {
        StringBuilder out = new StringBuilder();
        if (finding.side() != null) {
            out.append("side ").append(finding.side());
        }
        if (finding.atMm() != null) {
            comma(out).append("at ").append(place(finding.atMm()));
        }
        if (finding.program() != null) {
            comma(out).append(finding.program());
            if (finding.line() != null) {
                out.append(" line ").append(finding.line());
            }
        }
        if (finding.timeS() != null) {
            comma(out).append("moment ").append(clock(finding.timeS()));
        }
        if (finding.tool() != null) {
            comma(out).append("tool ").append(finding.tool());
        }
        return out.toString();
    }

    /** Measured value, limit and margin in one line, or nothing. */
    public static String numbers(Finding finding) {
        StringBuilder out = new StringBuilder();
        Measured measured = finding.measured();
        Limit limit = finding.limit();
        // one unit for the whole line
        boolean metres = measured != null && Math.abs(measured.value()) >= LONG_MM
                || limit != null && Math.abs(limit.value()) >= LONG_MM;
        if (measured != null) {
            out.append(measured(measured, metres));
        }
        if (limit != null) {
            comma(out).append("limit ");
            out.append(
                    measured != null && share(measured)
                            ? percent(limit.value())
                            : value(limit.value(), null, limit.unit(), metres));
        }
        Double margin = finding.marginMm();
        if (margin != null && Double.isFinite(margin)) {
            comma(out).append("margin ").append(metres ? signedMetres(margin) : signedMm(margin));
        }
        return out.toString();
    }

    /** First letter in upper case. */
    public static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private static String value(double value, @Nullable Double plusMinus, String unit, boolean metres) {
        if (!Double.isFinite(value)) {
            return "unknown";
        }
        if (unit.equals("mm") && metres) {
            return Decimals.fixed(value / 1000, 3) + " m";
        }
        boolean length = unit.equals("mm");
        double error = plusMinus == null ? Double.NaN : plusMinus;
        boolean known = Double.isFinite(error);
        if (length) {
            int places =
                    known && error > 0 ? (int) Math.max(1, Math.min(3, 1 - Math.floor(StrictMath.log10(error)))) : 3;
            double last = StrictMath.pow(10, -places);
            String around = known ? " +/- " + Decimals.fixed(Math.ceil(error / last - 1e-6) * last, places) : "";
            return Decimals.fixed(value, places) + around + " mm (" + Decimals.fixed(value / MM_PER_THOU, 1) + " thou)";
        }
        // No more digits than the error bears: its first two.
        int decimals = known && error > 0 ? (int) Math.max(0, Math.min(4, 1 - Math.floor(StrictMath.log10(error)))) : 4;
        double last = StrictMath.pow(10, -decimals);
        String around = known ? " +/- " + Decimals.plain(Math.ceil(error / last - 1e-9) * last, decimals) : "";
        return Decimals.plain(value, decimals) + around + (unit.isEmpty() ? "" : " " + unit);
    }

    private static StringBuilder comma(StringBuilder out) {
        return out.length() == 0 ? out : out.append(", ");
    }

    private static String two(long number) {
        return number < 10 ? "0" + number : Long.toString(number);
    }
}
