package foilproof.electrical;

/**
 * Cross-section of a milled trace: a trapezium, as wide at the foil's top and at its bottom as the cutters left it.
 *
 * @param topMm width at the foil's top, mm
 * @param bottomMm width at the foil's bottom, mm
 * @param foilMm thickness of the foil, mm
 */
public record TraceSection(double topMm, double bottomMm, double foilMm) {
    /** Area, mm2. */
    public double areaMm2() {
        return 0.5 * (topMm + bottomMm) * foilMm;
    }

    /** The same trace flooded with solder, as an area of copper that conducts alike, mm2; solder on the top width. */
    public double floodedAreaMm2(Solder solder, double solderMm) {
        return areaMm2() + topMm * solder.asCopperMm(solderMm);
    }
}
