package foilproof.findings;

import foilproof.geom.Length;
import java.util.Locale;

/** Numbers as people read them in messages: mm with thou beside, degrees, seconds. Always with the unit. */
public final class Words {
    private Words() {}

    /** A length in mm (three decimals) with thou beside it. */
    public static String mm(double valueMm) {
        return String.format(
                Locale.ROOT,
                "%.3f mm (%.1f thou)",
                zero(valueMm),
                zero(Length.ofMm(valueMm).thou()));
    }

    /** A length in mm alone, three decimals. */
    public static String plainMm(double valueMm) {
        return String.format(Locale.ROOT, "%.3f mm", zero(valueMm));
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
        return String.format(Locale.ROOT, "%.1f um", zero(valueMm * 1000));
    }

    /** A signed Z error, mm, + = really deeper. */
    public static String signedMm(double valueMm) {
        return String.format(Locale.ROOT, "%+.3f mm", zero(valueMm));
    }

    /** A place. */
    public static String place(double xMm, double yMm) {
        return String.format(Locale.ROOT, "(%.2f, %.2f) mm", zero(xMm), zero(yMm));
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
        return String.format(Locale.ROOT, "%." + decimals + "f", zero(value));
    }

    private static double zero(double value) {
        return value == 0 ? 0 : value;
    }
}
