package foilproof.electrical;

/** Resistance of copper foil. */
public final class CopperMetal {
    /** Resistivity of annealed copper at 20 C, ohm mm: 100 % IACS is 58 MS/m (IEC 60028, 1925). */
    public static final double OHM_MM_20C = 1.0 / 58_000.0;
    /** Change of resistance per kelvin, referred to 20 C (IEC 60028). */
    public static final double PER_KELVIN = 0.00393;

    private CopperMetal() {}

    /**
     * Resistance of a square of foil: resistivity / thickness x (1 + 0.00393 (T - 20)).
     *
     * @param thicknessMm foil thickness, mm
     * @param temperatureC temperature, C
     * @return ohm per square
     */
    public static double sheetOhm(double thicknessMm, double temperatureC) {
        return OHM_MM_20C / thicknessMm * factorAt(temperatureC);
    }

    /** Resistance at a temperature relative to that at 20 C. */
    public static double factorAt(double temperatureC) {
        return 1 + PER_KELVIN * (temperatureC - 20);
    }
}
