package foilproof.geom;

/**
 * A length at a border of the engine, where units are parsed or shown. Inside, lengths are {@code double}
 * millimetres in names that end in {@code Mm}.
 *
 * @param mm the length in millimetres
 */
public record Length(double mm) {
    /** Millimetres in an inch, exact by definition (1959 agreement). */
    public static final double MM_PER_INCH = 25.4;

    /** A length of {@code mm} millimetres. */
    public static Length ofMm(double mm) {
        return new Length(mm);
    }

    /** A length of {@code inch} inches. */
    public static Length ofInch(double inch) {
        return new Length(inch * MM_PER_INCH);
    }

    /** A length of {@code thou} thousandths of an inch. */
    public static Length ofThou(double thou) {
        return new Length(thou * MM_PER_INCH / 1000);
    }

    /** A length of {@code um} micrometres. */
    public static Length ofUm(double um) {
        return new Length(um / 1000);
    }

    /** The length in thousandths of an inch. */
    public double thou() {
        return mm * 1000 / MM_PER_INCH;
    }

    /** The length in micrometres. */
    public double um() {
        return mm * 1000;
    }
}
