package foilproof.copper;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the Z window of a tool run is asked with.
 *
 * @param field e* of the run, with what the others leave
 * @param lines the run's centre lines
 * @param terminals places of the design on this side; empty: judged by pieces
 * @param leftoverMm places (x, y, x, y ...) in pieces that are leftover strips and no nets; only without terminals
 * @param copperOnly whether the cutter is kept for copper
 * @param deepest where the run goes deepest below its own zero while cutting; null where it cuts nothing
 * @param spreadFromMm lower end of the spread of e, mm
 * @param spreadToMm upper end
 * @param widths the limit that copper widths set, found elsewhere; null for none
 * @param widthsFix the same at grade fix
 * @param limits the shop's limits
 */
public record ZWindowSetup(
        ToolRunField field,
        CutLines lines,
        List<Terminal> terminals,
        double[] leftoverMm,
        boolean copperOnly,
        @Nullable Deepest deepest,
        double spreadFromMm,
        double spreadToMm,
        @Nullable ZLimit widths,
        @Nullable ZLimit widthsFix,
        Limits limits) {
    /**
     * Where a run goes deepest below its own zero.
     *
     * @param belowZeroMm depth below the run's zero, positive down, mm
     * @param xMm blank's frame
     * @param yMm blank's frame
     * @param program index of the program
     * @param line physical line, from 1
     */
    public record Deepest(double belowZeroMm, double xMm, double yMm, int program, int line) {}

    /**
     * Limits of the shop's profile.
     *
     * @param clearedBelowFoilMm how much deeper than the foil counts as cleared
     * @param dutyWatchMm deepest cut of a copper-only cutter below its zero before a watch (needs.md C13)
     * @param dutyFixMm before a fix
     */
    public record Limits(double clearedBelowFoilMm, double dutyWatchMm, double dutyFixMm) {
        /** The defaults of needs.md. */
        public static final Limits DEFAULTS = new Limits(FoilLeft.CLEARED_BELOW_FOIL_MM, 0.15, 0.30);
    }

    /**
     * The spread of e that a touch-off error and a bow make.
     *
     * @param zTouchMm touch-off error, either way
     * @param bowMm how far the middle of 100 mm may lie low
     * @param lengthMm the longer side of the box round the run's paths in copper
     * @return lower and upper end, mm
     */
    public static double[] spread(double zTouchMm, double bowMm, double lengthMm) {
        return new double[] {-(zTouchMm + bowMm * lengthMm / 100), zTouchMm};
    }
}
