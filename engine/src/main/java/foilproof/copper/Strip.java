package foilproof.copper;

/**
 * A strip of copper narrower than the widest that is told, along its whole length (needs.md F1 to F4).
 *
 * @param xMm where it is narrowest, blank's frame
 * @param yMm likewise
 * @param x0Mm box round it
 * @param y0Mm likewise
 * @param x1Mm likewise
 * @param y1Mm likewise
 * @param lengthMm length along its middle
 * @param baseMm least width at the foil's bottom, measured across it there, mm
 * @param topMm width at the foil's top at the same place; 0 for a knife edge
 * @param errorMm how far either width may be off
 * @param usualBaseMm median width at the foil's bottom
 * @param hairMm length with a base below 0.05 mm
 * @param sliverMm length with a base below 0.15 mm
 * @param knifeMm length where no foil top is left on a base above 0.01 mm
 * @param freeEnds ends that nothing holds
 * @param piece piece of the map that it belongs to; -1 for a crumb
 * @param pieceMm2 area of the copper that hangs together with it
 * @param leftover whether it is left between two different grooves (or is not in the design); a designed trace is not
 * @param gapMm distance to the nearest other piece; infinite where none is near
 * @param otherPiece that piece; -1 where none is near
 * @param program program of the groove beside it; -1 where not known
 * @param line physical line of that groove, from 1; 0 where not known
 * @param otherProgram program of the groove on the other side; -1 where not known
 * @param otherLine physical line of that groove, from 1; 0 where not known
 * @param taperRad angle between its walls where it runs out to a point; 0 where its walls run side by side
 */
public record Strip(
        double xMm,
        double yMm,
        double x0Mm,
        double y0Mm,
        double x1Mm,
        double y1Mm,
        double lengthMm,
        double baseMm,
        double topMm,
        double errorMm,
        double usualBaseMm,
        double hairMm,
        double sliverMm,
        double knifeMm,
        int freeEnds,
        int piece,
        double pieceMm2,
        boolean leftover,
        double gapMm,
        int otherPiece,
        int program,
        int line,
        int otherProgram,
        int otherLine,
        double taperRad) {
    /** Strips not longer than this are not told, mm (needs.md F1; the shop may set another length). */
    public static final double LEAST_LENGTH_MM = 0.5;

    /**
     * Widths and lengths by which strips are told and graded, mm (needs.md F1, F2).
     *
     * @param hairMm narrower at the base is a hair
     * @param sliverMm narrower is a sliver
     * @param widestMm widest that is told
     * @param knifeTopMm a strip with less on top has no top ...
     * @param knifeBaseMm ... and is a knife edge where its base is wider than this
     * @param lengthMm least length that is told
     */
    public record Limits(
            double hairMm, double sliverMm, double widestMm, double knifeTopMm, double knifeBaseMm, double lengthMm) {
        /** The defaults of needs.md. */
        public static final Limits DEFAULTS = new Limits(0.05, 0.15, 0.25, 0.005, 0.01, LEAST_LENGTH_MM);

        /** The same with another widest strip. */
        public Limits withWidest(double mm) {
            return new Limits(hairMm, sliverMm, mm, knifeTopMm, knifeBaseMm, lengthMm);
        }
    }

    /** What becomes of a leftover strip. */
    public enum Grade {
        /** Base below 0.05 mm, or a knife edge: will come loose. */
        HAIR,
        /** Base 0.05 to 0.15 mm: may peel. */
        SLIVER,
        /** Base 0.15 to 0.25 mm. */
        THIN
    }

    /** The worst grade that holds over {@link #LEAST_LENGTH_MM}. */
    public Grade grade() {
        if (hairMm >= LEAST_LENGTH_MM || knifeMm >= LEAST_LENGTH_MM) {
            return Grade.HAIR;
        }
        return sliverMm >= LEAST_LENGTH_MM ? Grade.SLIVER : Grade.THIN;
    }

    /** Whether it would reach the nearest other piece if it came loose at an end (needs.md F4). */
    public boolean reachesOther() {
        return lengthMm >= gapMm;
    }

    /** Whether the whole piece is this strip, held by nothing: two free ends, or a ring of its own. */
    public boolean island() {
        return freeEnds >= 2 || lengthMm * usualBaseMm > 0.7 * pieceMm2;
    }

    /** Whether it closes in a ring of its own, with no ends. */
    public boolean ring() {
        return freeEnds == 0 && island();
    }
}
