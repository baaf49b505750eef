package foilproof.electrical;

/** Currents at which copper melts: rough bounds for short faults, not for design. */
public final class Fusing {
    private static final double MELTS_C = 1083;
    private static final double MM_PER_THOU = 0.0254;
    private static final double MM_PER_INCH = 25.4;

    private Fusing() {}

    /**
     * I. M. Onderdonk's equation, adiabatic: I = A sqrt(log10((1083 - Ta) / (234 + Ta) + 1) / (33 s)), A in circular thou.
     * Holds up to a few seconds.
     *
     * @param areaMm2 section, mm2
     * @param seconds how long, s
     * @param ambientC temperature before, C
     * @return A
     */
    public static double onderdonkA(double areaMm2, double seconds, double ambientC) {
        double circularThou = areaMm2 / (MM_PER_THOU * MM_PER_THOU) * 4 / StrictMath.PI;
        double term = StrictMath.log10((MELTS_C - ambientC) / (234 + ambientC) + 1);
        return circularThou * Math.sqrt(term / (33 * seconds));
    }

    /** W. H. Preece's equation for a copper wire in free air, steady: 10244 d^1.5, d in inch; A. */
    public static double preeceA(double diameterMm) {
        return 10244 * StrictMath.pow(diameterMm / MM_PER_INCH, 1.5);
    }
}
