package foilproof.electrical;

/**
 * Heating of a trace by its current: the fit I = k dT^0.44 A^0.725 to the charts of IPC-2221, A in square thou, k =
 * 0.048 for traces in air and 0.024 for buried ones. A rule of thumb for glass-epoxy boards; the charts end near 35 A and
 * 100 K. On paper phenolic expect worse. The current edition of the standard and licensed practice decide.
 */
public final class TemperatureRise {
    /** k for a trace on the outside of a board. */
    public static final double EXTERNAL = 0.048;
    /** k for a trace inside a board. */
    public static final double INTERNAL = 0.024;
    /** End of the charts, A. */
    public static final double CHART_END_A = 35;
    /** End of the charts, K. */
    public static final double CHART_END_K = 100;

    private static final double MM_PER_THOU = 0.0254;
    private static final double RISE_POWER = 0.44;
    private static final double AREA_POWER = 0.725;

    private TemperatureRise() {}

    /** Current that warms a section by {@code riseK}, A. */
    public static double currentA(double k, double riseK, double areaMm2) {
        return k * StrictMath.pow(riseK, RISE_POWER) * StrictMath.pow(squareThou(areaMm2), AREA_POWER);
    }

    /** Rise of temperature of a section under a current, K. */
    public static double riseK(double k, double currentA, double areaMm2) {
        if (currentA == 0) {
            return 0;
        }
        return StrictMath.pow(
                Math.abs(currentA) / (k * StrictMath.pow(squareThou(areaMm2), AREA_POWER)), 1 / RISE_POWER);
    }

    /** Section that a current warms by {@code riseK}, mm2. */
    public static double areaMm2(double k, double currentA, double riseK) {
        double square = StrictMath.pow(currentA / (k * StrictMath.pow(riseK, RISE_POWER)), 1 / AREA_POWER);
        return square * MM_PER_THOU * MM_PER_THOU;
    }

    /** Width of a rectangular trace of that foil that a current warms by {@code riseK}, mm. */
    public static double widthMm(double k, double currentA, double riseK, double foilMm) {
        return areaMm2(k, currentA, riseK) / foilMm;
    }

    /** False beyond the end of the charts, where the fit has nothing under it. */
    public static boolean withinCharts(double currentA, double riseK) {
        return currentA <= CHART_END_A && riseK <= CHART_END_K;
    }

    private static double squareThou(double areaMm2) {
        return areaMm2 / (MM_PER_THOU * MM_PER_THOU);
    }
}
