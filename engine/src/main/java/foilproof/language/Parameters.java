package foilproof.language;

/**
 * The 5399 parameters of NISTIR 6556 section 3.2. Coordinate parameters (probe result, homes, G92 offsets, system
 * origins) hold numbers in the units in force: when units change they are converted, so that no origin moves (open
 * point A3).
 */
final class Parameters {
    /** Highest parameter number. */
    static final int LAST = 5399;

    static final int PROBE = 5061;
    static final int HOME_28 = 5161;
    static final int HOME_30 = 5181;
    static final int G92 = 5211;
    static final int SYSTEM = 5220;

    private final double[] values = new double[LAST + 1];
    private final boolean[] set = new boolean[LAST + 1];
    /** Number of the last parameter that was read without ever having been set, 0 for none. */
    int unsetRead;

    double read(int number) {
        if (!set[number] && number < 5061) {
            unsetRead = number;
        }
        return values[number];
    }

    double get(int number) {
        return values[number];
    }

    void set(int number, double value) {
        values[number] = value;
        set[number] = true;
    }

    /** First parameter of the origin of system 1 to 9. */
    static int origin(int system) {
        return 5221 + 20 * (system - 1);
    }

    void convertLengths(double factor) {
        scale(PROBE, factor);
        scale(HOME_28, factor);
        scale(HOME_30, factor);
        scale(G92, factor);
        for (int system = 1; system <= 9; system++) {
            scale(origin(system), factor);
        }
    }

    private void scale(int first, double factor) {
        for (int i = 0; i < 3; i++) {
            values[first + i] *= factor;
        }
    }
}
