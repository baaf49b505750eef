package foilproof.findings;

/**
 * The limit that a measured value was held against.
 *
 * @param value the limit in {@code unit}
 * @param unit the unit
 */
public record Limit(double value, String unit) {
    /** A length limit. */
    public static Limit mm(double valueMm) {
        return new Limit(valueMm, "mm");
    }
}
