package foilproof.electrical;

/** Solders that a trace may be flooded with, by bulk resistivity (makers' data sheets; alloy and age change it a little). */
public enum Solder {
    /** Tin 63, lead 37. */
    SN63PB37("Sn63Pb37", 0.145e-3),
    /** Tin 60, lead 40. */
    SN60PB40("Sn60Pb40", 0.153e-3),
    /** Tin, silver 3, copper 0.5. */
    SAC305("SAC305", 0.132e-3),
    /** Tin, copper 0.7. */
    SN99CU1("Sn99.3Cu0.7", 0.126e-3);

    private final String label;
    private final double ohmMm;

    Solder(String label, double ohmMm) {
        this.label = label;
        this.ohmMm = ohmMm;
    }

    /** Name of the alloy. */
    public String label() {
        return label;
    }

    /** Resistivity, ohm mm. */
    public double ohmMm() {
        return ohmMm;
    }

    /** Resistivity relative to copper. */
    public double timesCopper() {
        return ohmMm / CopperMetal.OHM_MM_20C;
    }

    /** Thickness of copper that conducts like this thickness of solder, mm. */
    public double asCopperMm(double solderMm) {
        return solderMm / timesCopper();
    }

    /** Resistance of a flooded trace relative to the bare one: two films in parallel, 1 / (1 + ts rho_cu / (tcu rho_s)). */
    public double floodedFactor(double foilMm, double solderMm) {
        return 1 / (1 + asCopperMm(solderMm) / foilMm);
    }
}
