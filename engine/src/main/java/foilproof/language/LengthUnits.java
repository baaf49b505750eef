package foilproof.language;

import foilproof.geom.Length;

/** Length units of program text. */
public enum LengthUnits {
    /** G21. */
    MM(1),
    /** G20. */
    INCH(Length.MM_PER_INCH),
    /** Nothing said so far; runs as millimetres. */
    UNKNOWN(1);

    private final double mmPerUnit;

    LengthUnits(double mmPerUnit) {
        this.mmPerUnit = mmPerUnit;
    }

    /** Millimetres in one unit; 1 where unknown. */
    public double mmPerUnit() {
        return mmPerUnit;
    }
}
