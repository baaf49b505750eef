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
        if (Math.abs(lengthMm) >= LONG_MM) {
            return Decimals.signed(lengthMm / 1000, 3) + " m";
        }
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

    /** An area or volume with its unit: {@code 12.34 mm2}. */
    public static String amount(double value, String unit) {
        return Decimals.fixed(value, Math.abs(value) < 1 ? 4 : 2) + " " + unit;
    }

    /** A measured value with its error and, for lengths, thou: {@code width 0.021 +/- 0.002 mm (0.8 thou)}. */
    public static String measured(Measured measured) {
        return measured.name() + " " + value(measured.value(), measured.plusMinus(), measured.unit());
    }

    /** A limit: {@code limit 0.050 mm (2.0 thou)}. */
    public static String limit(Limit limit) {
        return "limit " + value(limit.value(), null, limit.unit());
    }

    /** A Z window in words, or that there is none. */
    public static String window(boolean empty, @Nullable Double fromMm, @Nullable Double toMm) {
        return empty ? "no Z error satisfies every check" : window(fromMm, toMm);
    }

    /** The Z window, ends rounded inward: {@code -0.077 .. +0.050 mm (-3.0 .. +1.9 thou)}. */
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
        return lower(low) + " .. " + upper(high) + " mm (" + lowerThou(low) + " .. " + upperThou(high) + " thou)";
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
            comma(out).append("moment ").append(moment(finding.timeS()));
        }
        if (finding.tool() != null) {
            comma(out).append("tool ").append(finding.tool());
        }
        return out.toString();
    }

    /** Measured value, limit and margin in one line, or nothing. */
    public static String numbers(Finding finding) {
        StringBuilder out = new StringBuilder();
        if (finding.measured() != null) {
            out.append(measured(finding.measured()));
        }
        if (finding.limit() != null) {
            comma(out).append(limit(finding.limit()));
        }
        if (finding.marginMm() != null && Double.isFinite(finding.marginMm())) {
            comma(out).append("margin ").append(signedLength(finding.marginMm()));
        }
        return out.toString();
    }

    /** First letter in upper case. */
    public static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private static String value(double value, @Nullable Double plusMinus, String unit) {
        if (!Double.isFinite(value)) {
            return "unknown";
        }
        if (unit.equals("mm") && Math.abs(value) >= LONG_MM) {
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
