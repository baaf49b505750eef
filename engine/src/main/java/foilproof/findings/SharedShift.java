package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.DrillFile;
import foilproof.design.HoleFit;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Holes of a side laid on the places that another file has for them: what one shift, scale and turn explains. */
final class SharedShift {
    static final int LEAST_PAIRS = 3;
    /** Holes that share one shift scatter by no more than this, mm. */
    private static final double SCATTER_MM = 0.08;

    private SharedShift() {}

    /** Middles of the holes of a side that are meant to pass the blank, mm. */
    static List<double[]> bores(Examination x, int side) {
        List<double[]> bores = new ArrayList<>();
        for (Hole hole : x.holes()) {
            if (hole.side() == side && hole.meantThrough(x.thicknessMm())) {
                bores.add(new double[] {hole.xMm(), hole.yMm()});
            }
        }
        return bores;
    }

    /** Places of the drill file on the blank as it lies on a side, mm. */
    static List<double[]> places(Examination x, DrillFile drill, int side) {
        PlaneMap map = x.design().blankFromDesign(side);
        List<double[]> places = new ArrayList<>();
        for (DrillFile.Hole hole : drill.holes()) {
            places.add(new double[] {map.xMm(hole.xMm(), hole.yMm()), map.yMm(hole.xMm(), hole.yMm())});
        }
        return places;
    }

    /**
     * The fit, where it explains at least three places and half of {@code of}, and the units are the same; else null. A few
     * holes that were moved by themselves do not count in it.
     */
    static @Nullable HoleFit fit(List<double[]> bores, List<double[]> places, double withinMm, int of) {
        HoleFit fit = HoleFit.fit(bores, places, withinMm);
        if (fit == null
                || fit.unitsSlipped()
                || fit.matched().size() < LEAST_PAIRS
                || 2 * fit.matched().size() < of) {
            return null;
        }
        return fit.agreeing(bores, places);
    }

    /** Whether scale or turn is beyond its limit, and more than the scatter of the fit makes by chance. */
    static boolean scaled(Examination x, HoleFit fit) {
        return Math.abs(fit.scale() - 1) > x.limit(LimitKey.XY_SCALE) + 1e-5 && fit.scaleTold()
                || Math.abs(fit.turnDeg()) > x.limit(LimitKey.XY_ROTATION) + 1e-3 && fit.turnTold();
    }

    /** Whether the holes of a fit lie off their places all alike. */
    static boolean alike(HoleFit fit) {
        return fit.scatterMm() <= SCATTER_MM;
    }
}
