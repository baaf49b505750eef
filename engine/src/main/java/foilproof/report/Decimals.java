package foilproof.report;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * Numbers as text, the same on every machine: rounded to a decimal quantum (half up in magnitude) by exact decimal
 * arithmetic, never in scientific notation, never {@code -0}, in no locale. For people, what is
 * not finite reads "unknown".
 */
public final class Decimals {
    /** Decimals of millimetres in results: 1 nm. */
    public static final int MM_DECIMALS = 6;

    private static final String UNKNOWN = "unknown";

    private Decimals() {}

    /**
     * The value rounded to {@code decimals} places, trailing zeros dropped down to one decimal, e.g. {@code 5.0},
     * {@code -0.077}.
     *
     * @throws IllegalArgumentException where the value is not finite
     */
    public static String shortest(double value, int decimals) {
        BigDecimal rounded = rounded(value, decimals).stripTrailingZeros();
        if (rounded.signum() == 0) {
            return "0.0";
        }
        return (rounded.scale() < 1 ? rounded.setScale(1, RoundingMode.UNNECESSARY) : rounded).toPlainString();
    }

    /** The value with exactly {@code decimals} places, e.g. {@code 0.050}. */
    public static String fixed(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return UNKNOWN;
        }
        return rounded(value, decimals).toPlainString();
    }

    /** As {@link #fixed} with a plus sign where positive. */
    public static String signed(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return UNKNOWN;
        }
        BigDecimal rounded = rounded(value, decimals);
        return rounded.signum() > 0 ? "+" + rounded.toPlainString() : rounded.toPlainString();
    }

    /** At most {@code decimals} places, no decimal point where the value is whole, e.g. {@code 12}, {@code 12.5}. */
    public static String plain(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return UNKNOWN;
        }
        BigDecimal rounded = rounded(value, decimals).stripTrailingZeros();
        return (rounded.scale() < 0 ? rounded.setScale(0, RoundingMode.UNNECESSARY) : rounded).toPlainString();
    }

    /** The value snapped to 1 nm and then rounded up to a whole 1 um, mm: the lower end of a window, printed inward. */
    public static double upToUm(double valueMm) {
        return -Math.floorDiv(-nanometres(valueMm), 1000L) / 1000.0;
    }

    /** The value snapped to 1 nm and then rounded down to a whole 1 um, mm: the upper end of a window, printed inward. */
    public static double downToUm(double valueMm) {
        return Math.floorDiv(nanometres(valueMm), 1000L) / 1000.0;
    }

    private static long nanometres(double valueMm) {
        return Math.round(valueMm * 1e6);
    }

    private static BigDecimal rounded(double value, int decimals) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new IllegalArgumentException("no number to print: " + value);
        }
        // The exact binary value is rounded once: 0.0005 to three places depends on no intermediate text.
        BigDecimal rounded = new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP);
        return rounded.signum() == 0 ? BigDecimal.ZERO.setScale(decimals, RoundingMode.UNNECESSARY) : rounded;
    }
}
