package foilproof.findings;

import org.jspecify.annotations.Nullable;

/**
 * A measured value with its own error.
 *
 * @param name what was measured, e.g. {@code width}
 * @param value the value in {@code unit}
 * @param unit the unit, e.g. {@code mm}
 * @param plusMinus the error bound in {@code unit}, or null where the value is exact or a count
 */
public record Measured(
        String name, double value, String unit, @Nullable Double plusMinus) {
    /** A length in mm with its error. */
    public static Measured mm(String name, double valueMm, double plusMinusMm) {
        return new Measured(name, valueMm, "mm", plusMinusMm);
    }

    /** An exact value. */
    public static Measured exact(String name, double value, String unit) {
        return new Measured(name, value, unit, null);
    }
}
