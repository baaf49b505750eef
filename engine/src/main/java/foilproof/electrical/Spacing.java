package foilproof.electrical;

/**
 * Least distance between conductors by voltage, IPC-2221A table 6-1 as publicly transcribed; the row to 500 V of
 * columns other than B2, and the additions per volt of B3, are from memory. A milled board without solder mask is
 * column B2. Check the current edition; mains voltage is outside what this tool judges.
 */
public enum Spacing {
    /** Inside a board. */
    B1(0.0025, 0.05, 0.05, 0.1, 0.1, 0.2, 0.2, 0.2, 0.2, 0.25),
    /** Outside, bare, up to 3050 m above the sea: a milled board. */
    B2(0.005, 0.1, 0.1, 0.6, 0.6, 0.6, 1.25, 1.25, 1.25, 2.5),
    /** Outside, bare, higher than 3050 m. */
    B3(0.025, 0.1, 0.1, 0.6, 1.5, 3.2, 3.2, 6.4, 12.5, 12.5),
    /** Outside, with a permanent coating. */
    B4(0.00305, 0.05, 0.05, 0.13, 0.13, 0.4, 0.4, 0.4, 0.4, 0.8),
    /** Stuffed board with a conformal coat. */
    A5(0.00305, 0.13, 0.13, 0.13, 0.13, 0.4, 0.4, 0.4, 0.4, 0.8),
    /** Bare lead or termination. */
    A6(0.00305, 0.13, 0.25, 0.4, 0.5, 0.8, 0.8, 0.8, 0.8, 1.5),
    /** Coated lead or termination. */
    A7(0.00305, 0.13, 0.13, 0.13, 0.13, 0.4, 0.4, 0.4, 0.8, 0.8);

    /** Above this a direct voltage is refused, V. */
    public static final double MOST_DC_V = 60;
    /** Above this an alternating voltage (root mean square) is refused, V. */
    public static final double MOST_AC_V = 30;

    private static final double[] UP_TO_V = {15, 30, 50, 100, 150, 170, 250, 300, 500};

    private final double perVolt;
    private final double[] mm;

    Spacing(double perVolt, double... mm) {
        this.perVolt = perVolt;
        this.mm = mm;
    }

    /** Least distance for a peak or direct voltage, mm. */
    public double leastMm(double volt) {
        double v = Math.abs(volt);
        for (int i = 0; i < UP_TO_V.length; i++) {
            if (v <= UP_TO_V[i]) {
                return mm[i];
            }
        }
        return mm[mm.length - 1] + (v - UP_TO_V[UP_TO_V.length - 1]) * perVolt;
    }

    /** True where a board for that voltage is refused: above 60 V direct or 30 V alternating. */
    public static boolean refused(double volt, boolean alternating) {
        return Math.abs(volt) > (alternating ? MOST_AC_V : MOST_DC_V);
    }

    /** The larger distance for power conversion, 0.6 + 0.005 V mm (IPC-9592, secondary source); V peak. */
    public static double powerRuleMm(double peakV) {
        return 0.6 + 0.005 * Math.abs(peakV);
    }
}
