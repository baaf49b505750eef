package foilproof.bench;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What the person believes of their own set-up. Signs: a Z error is + where the cutter is really deeper.
 *
 * @param zTouchMm how far a touch-off may be wrong either way, mm
 * @param bowPer100Mm how far the middle of 100 mm may lie low, mm
 * @param zMm the spread of the Z error said outright for all cutters, or null
 * @param toolZMm the spread said outright for one cutter, by tool name
 * @param thicknessMm how far the blank's thickness may be off either way, mm
 */
public record Spread(
        double zTouchMm,
        double bowPer100Mm,
        @Nullable IntervalMm zMm,
        Map<String, IntervalMm> toolZMm,
        double thicknessMm) {

    public Spread {
        toolZMm = Collections.unmodifiableMap(new TreeMap<>(toolZMm));
    }

    /**
     * The spread of a cutter's Z error: said for it, else said for all, else
     * {@code [-(z_touch + bow x L / 100 mm), +z_touch]}.
     *
     * @param tool name of the tool
     * @param longerSideMm the longer side L of the box round that tool run's paths in copper, mm
     */
    public IntervalMm zErrorMm(String tool, double longerSideMm) {
        IntervalMm own = toolZMm.get(tool);
        if (own != null) {
            return own;
        }
        if (zMm != null) {
            return zMm;
        }
        return new IntervalMm(-(zTouchMm + bowPer100Mm * longerSideMm / 100), zTouchMm);
    }
}
