package foilproof.app.viewer;

/**
 * How a picture is drawn.
 *
 * @param dark dark or light theme
 * @param paint what the colours mean
 * @param lifted whether the blank is shown off the spoil board, holes open
 * @param samples frames that are summed for smooth edges: 1 while something moves, 16 at rest
 * @param shade whether occlusion and cast shadows are drawn
 * @param fixtures whether clamps, touch points, clip and cutter are drawn
 * @param chosenRun index of a tool run whose floor is tinted, -1 for none
 * @param through how strongly what was cut from the far face is drawn over this one, 0 (not at all) to 1
 */
public record Look(
        boolean dark,
        Paint paint,
        boolean lifted,
        int samples,
        boolean shade,
        boolean fixtures,
        int chosenRun,
        double through) {
    /** Without the far face. */
    public Look(
            boolean dark, Paint paint, boolean lifted, int samples, boolean shade, boolean fixtures, int chosenRun) {
        this(dark, paint, lifted, samples, shade, fixtures, chosenRun, 0);
    }

    /** What the colours mean. */
    public enum Paint {
        /** Materials as they look. */
        MATERIAL("material"),
        /** Depth below the foil top. */
        DEPTH("depth below foil top"),
        /** Thickness of foil that a cutter left. */
        FOIL_LEFT("foil left in grooves"),
        /** How much deeper than the foil's underside the floor lies: what Z may lose before foil stays. */
        MARGIN("depth below the foil's underside"),
        /** Which tool run made the floor. */
        TOOL("tool run"),
        /** Which program line made the floor. */
        LINE("program line that made the floor"),
        /** When the floor was made. */
        TIME("moment that made the floor"),
        /** Width of the copper at the foil's underside. */
        WIDTH("copper width at the foil's underside");

        private final String words;

        Paint(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /** At rest: smooth, shaded, fine. */
    public static Look still(boolean dark) {
        return new Look(dark, Paint.MATERIAL, false, 8, true, true, -1);
    }

    /** The same with other colours. */
    public Look withPaint(Paint p) {
        return new Look(dark, p, lifted, samples, shade, fixtures, chosenRun, through);
    }

    /** The same at another fineness. */
    public Look fine(int newSamples, boolean newShade) {
        return new Look(dark, paint, lifted, newSamples, newShade, fixtures, chosenRun, through);
    }

    /** The same with the blank on or off the spoil board. */
    public Look withLifted(boolean newLifted) {
        return new Look(dark, paint, newLifted, samples, shade, fixtures, chosenRun, through);
    }

    /** The same with a tool run tinted. */
    public Look withChosenRun(int run) {
        return new Look(dark, paint, lifted, samples, shade, fixtures, run, through);
    }

    /** The same with or without clamps, touch points, clip and cutter. */
    public Look withFixtures(boolean newFixtures) {
        return new Look(dark, paint, lifted, samples, shade, newFixtures, chosenRun, through);
    }

    /** The same with the far face drawn over this one. */
    public Look withThrough(double strength) {
        double t = Math.max(0, Math.min(1, strength));
        return new Look(dark, paint, lifted, samples, shade, fixtures, chosenRun, t);
    }

    /** The same in the other theme. */
    public Look withDark(boolean newDark) {
        return new Look(newDark, paint, lifted, samples, shade, fixtures, chosenRun, through);
    }

    /** The widest copper that {@link Paint#WIDTH} tells apart, mm. */
    public static final double WIDEST_MM = 1.0;

    /** The ends of the colour scale, mm, for a foil thickness; for line and time see {@link FieldMap#range()}. */
    public double[] rangeMm(double foilMm, double thicknessMm) {
        return switch (paint) {
            case DEPTH -> new double[] {0, Math.min(0.3, thicknessMm)};
            case FOIL_LEFT -> new double[] {0, foilMm};
            case WIDTH -> new double[] {0, WIDEST_MM};
            default -> new double[] {-foilMm, 0.15};
        };
    }
}
