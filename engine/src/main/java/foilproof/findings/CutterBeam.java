package foilproof.findings;

/**
 * A slender cutter as a stepped cantilever: the fluted part as a rod of the core's diameter, then the shank out to the
 * stick-out, held rigidly in the collet; one lateral force at the tip. Formula: Euler-Bernoulli beam,
 * delta = F/(3E) [L1^3/I1 + ((L1+L2)^3 - L1^3)/I2], I = pi d^4/64 (check value P9).
 *
 * @param coreMm diameter of the equivalent rod of the fluted part, mm
 * @param fluteLengthMm length of the fluted part, mm
 * @param shankMm shank diameter, mm
 * @param stickOutMm length from the collet to the tip, mm; at least the flute length
 */
public record CutterBeam(double coreMm, double fluteLengthMm, double shankMm, double stickOutMm) {
    /** Young's modulus of cemented carbide, N/mm2 (580 to 600 GPa; from memory). */
    public static final double CARBIDE_N_PER_MM2 = 600_000;

    /** Share of the cutting diameter that the core of a two-flute end mill has (common practice, no source). */
    public static final double CORE_SHARE = 0.7;

    /** Deflection of the tip under a lateral force, mm. */
    public double tipDeflectionMm(double forceN) {
        double whole = Math.max(stickOutMm, fluteLengthMm);
        double fluted = cube(fluteLengthMm) / secondMoment(coreMm);
        double shank = (cube(whole) - cube(fluteLengthMm)) / secondMoment(shankMm);
        return forceN / (3 * CARBIDE_N_PER_MM2) * (fluted + shank);
    }

    /** Largest bending stress under a lateral force at the tip, N/mm2: at the flutes' root or at the collet. */
    public double stressNPerMm2(double forceN) {
        double atFlutes = 32 * forceN * fluteLengthMm / (Math.PI * cube(coreMm));
        double atCollet = 32 * forceN * Math.max(stickOutMm, fluteLengthMm) / (Math.PI * cube(shankMm));
        return Math.max(atFlutes, atCollet);
    }

    private static double secondMoment(double diameterMm) {
        return Math.PI * diameterMm * diameterMm * diameterMm * diameterMm / 64;
    }

    private static double cube(double value) {
        return value * value * value;
    }
}
