package foilproof.bench;

/**
 * The copper-clad blank before work. Its frame: X to the right and Y up as it lies with the side in question facing
 * up, lower-left corner (0, 0), Z 0 the nominal foil top, down negative.
 *
 * @param substrate what lies below the foil
 * @param thicknessMm over all, foil (both foils) included, mm; a stand-in (listed as assumed) where not known
 * @param thicknessKnown false where the job says "unknown": whatever rests on the thickness is then not checked
 * @param foilMm thickness of the foil, mm; a stand-in (listed as assumed) where the job says "unknown"
 * @param foilKnown false: half-ounce and one-ounce foil are both judged, and what differs is told
 * @param bothSides true where there is foil on both faces; else the foil faces up in the first side
 * @param widthMm along X as it lies for the first side, mm
 * @param heightMm along Y as it lies for the first side, mm
 * @param sizeKnown false where width and height are stand-ins, to be replaced by the extents of the programs (a bare
 *     program without a job file)
 * @param hold how it is held, unless a side says otherwise
 * @param tapeMm thickness of the tape between blank and spoil board, mm, 0 where none
 * @param surface the foil top as it lies, unless a side says otherwise
 */
public record Blank(
        Substrate substrate,
        double thicknessMm,
        boolean thicknessKnown,
        double foilMm,
        boolean foilKnown,
        boolean bothSides,
        double widthMm,
        double heightMm,
        boolean sizeKnown,
        Hold hold,
        double tapeMm,
        Surface surface) {
    /** Nominal thickness of half-ounce foil, mm (the job file's contract: 17.4 um). */
    public static final double HALF_OUNCE_MM = 0.0174;

    /** Nominal thickness of one-ounce foil, mm (the job file's contract: 34.8 um). */
    public static final double ONE_OUNCE_MM = 0.0348;

    /** The same blank with another size, known from then on. */
    public Blank withSize(double newWidthMm, double newHeightMm) {
        return new Blank(
                substrate,
                thicknessMm,
                thicknessKnown,
                foilMm,
                foilKnown,
                bothSides,
                newWidthMm,
                newHeightMm,
                true,
                hold,
                tapeMm,
                surface);
    }

    /** The same blank with another foil. */
    public Blank withFoil(double newFoilMm) {
        return new Blank(
                substrate,
                thicknessMm,
                thicknessKnown,
                newFoilMm,
                foilKnown,
                bothSides,
                widthMm,
                heightMm,
                sizeKnown,
                hold,
                tapeMm,
                surface);
    }

    /** The same blank with another thickness over all. */
    public Blank withThickness(double newThicknessMm) {
        return new Blank(
                substrate,
                newThicknessMm,
                thicknessKnown,
                foilMm,
                foilKnown,
                bothSides,
                widthMm,
                heightMm,
                sizeKnown,
                hold,
                tapeMm,
                surface);
    }
}
