package foilproof.language;

/** Which programs are accepted. */
public enum Dialect {
    /** RS274/NGC exactly as NISTIR 6556 publishes it; everything else is an error. */
    STRICT,
    /** The strict language plus what desktop controllers commonly accept; {@code package-info} lists the additions. */
    COMMON;

    /**
     * How far the two radii of an arc may differ, mm: strict as published (NISTIR 6556 section 3.5.3: 0.002 mm, 0.0002
     * inch), common as the job's contract says.
     */
    public double arcToleranceMm(double radiusMm, LengthUnits units) {
        if (this == COMMON) {
            return Math.max(0.005, 0.001 * radiusMm);
        }
        return units == LengthUnits.INCH ? 0.0002 * LengthUnits.INCH.mmPerUnit() : 0.002;
    }
}
