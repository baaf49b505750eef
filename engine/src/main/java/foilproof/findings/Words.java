package foilproof.findings;

import foilproof.geom.Length;
import java.util.Locale;

/** Numbers as people read them in messages: mm with thou beside, degrees, seconds. Always with the unit. */
public final class Words {
    private Words() {}

    /** A length in mm (three decimals) with thou beside it. */
    public static String mm(double valueMm) {
        return plainMm(valueMm) + " (" + plain("%.1f", Length.ofMm(valueMm).thou()) + " thou)";
    }

    /** A length in mm with thou beside it, no digit finer than the first one of its error. */
    public static String mm(double valueMm, double plusMinusMm) {
        return rounded(valueMm, plusMinusMm, 3) + " mm ("
                + rounded(Length.ofMm(valueMm).thou(), Length.ofMm(plusMinusMm).thou(), 1) + " thou)";
    }

    /** A number with the decimals that its error allows: none finer than the error's first digit. */
    public static String rounded(double value, double plusMinus, int mostDecimals) {
        int decimals = mostDecimals;
        for (double digit = StrictMath.pow(10, -mostDecimals);
                decimals > 0 && 10 * digit <= plusMinus * (1 + 1e-9);
                digit *= 10) {
            decimals--;
        }
        return number(value, decimals);
    }

    /** A length in mm alone, three decimals. */
    public static String plainMm(double valueMm) {
        return plain("%.3f", valueMm) + " mm";
    }

    /** Width and height: {@code 60.00 x 45.00 mm (2362 x 1772 thou)}. */
    public static String area(double widthMm, double heightMm) {
        return String.format(
                Locale.ROOT,
                "%.2f x %.2f mm (%.0f x %.0f thou)",
                widthMm,
                heightMm,
                Length.ofMm(widthMm).thou(),
                Length.ofMm(heightMm).thou());
    }

    /** A small length in micrometres, one decimal. */
    public static String um(double valueMm) {
        return plain("%.1f", valueMm * 1000) + " um";
    }

    /** A signed Z error, mm, + = really deeper. */
    public static String signedMm(double valueMm) {
        return signed(valueMm, 3) + " mm";
    }

    /** A place. */
    public static String place(double xMm, double yMm) {
        return "(" + plain("%.2f", xMm) + ", " + plain("%.2f", yMm) + ") mm";
    }

    /** A feed. */
    public static String feed(double feedMmPerMin) {
        return String.format(Locale.ROOT, "%.0f mm/min", feedMmPerMin);
    }

    /** A spindle speed. */
    public static String rpm(double speedRpm) {
        return String.format(Locale.ROOT, "%.0f rpm", speedRpm);
    }

    /** A name that a person gave, as it stands in a sentence. */
    public static String quoted(String name) {
        return "\"" + name + "\"";
    }

    /** A number with so many decimals. */
    public static String number(double value, int decimals) {
        return plain("%." + decimals + "f", value);
    }

    /** A signed number with so many decimals; a zero is {@code +0}. */
    public static String signed(double value, int decimals) {
        return plain("%+." + decimals + "f", value).replaceFirst("^(?=[0-9])", "+");
    }

    /** By how much something lies off in X and Y: {@code (+0.25, -0.20) mm}. */
    public static String shift(double dxMm, double dyMm) {
        return "(" + signed(dxMm, 2) + ", " + signed(dyMm, 2) + ") mm";
    }

    /** How many of something: {@code 1 hole}, {@code 2 holes}. */
    public static String count(int number, String one, String many) {
        return number + " " + (number == 1 ? one : many);
    }

    /** A number that never says minus nought, be it rounded to it or not. */
    private static String plain(String format, double value) {
        String text = String.format(Locale.ROOT, format, value);
        return text.matches("-0(\\.0*)?") ? text.substring(1) : text;
    }
}
