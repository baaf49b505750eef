package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Side;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import foilproof.motion.Toolpaths;
import foilproof.stock.BlankSurface;

/**
 * Z of copper work against the height of the foil there: whether a program was made with the touched points, so that its
 * Z follows the surface.
 *
 * @param samples how many places were compared
 * @param correlation of Z with the height of the touched points, -1 to 1
 * @param zRangeMm how far Z changes, mm
 * @param slope change of Z by change of height
 * @param segment the first segment that was compared, -1 where none
 */
record HeightMap(int samples, double correlation, double zRangeMm, double slope, int segment) {
    /** Z that changes less than this along copper work is flat, mm. */
    private static final double FLAT_MM = 0.004;

    private static final int LEAST_SAMPLES = 8;
    /** Z that rises by less than this share of the foil does not follow it. */
    private static final double LEAST_SLOPE = 0.5;
    /** Depths below a surface are looked at so often along a move, mm. */
    private static final double STEP_MM = 0.5;

    private static final int MOST_STEPS = 200;

    boolean map(double least) {
        return samples >= LEAST_SAMPLES && zRangeMm > FLAT_MM && Math.abs(correlation) > least;
    }

    /** Whether the Z of a run's copper work follows the foil as it lies, corrected in the program itself. */
    static boolean followed(Examination x, RunFacts run) {
        if (run.side().surface().touches().size() < 3 || x.job().machine().appliesHeightMap()) {
            return false;
        }
        HeightMap map = of(x, run.side(), run.run().index());
        return map.map(x.limit(LimitKey.HEIGHT_MAP_CORRELATION)) && map.slope() > LEAST_SLOPE;
    }

    /** Largest depth of the tip below the uncut foil as it lies, along a segment over the blank, mm; negative above it. */
    static double belowFoilMm(Examination x, RunFacts run, int segment) {
        Segments s = x.plan().segments();
        int n = (int) Math.min(MOST_STEPS, 1 + Math.ceil(s.planLengthMm(segment) / STEP_MM));
        double deepest = Double.NEGATIVE_INFINITY;
        for (int k = 0; k <= n; k++) {
            double[] p = s.pointAt(segment, (double) k / n);
            if (x.onBlank(p[0], p[1])) {
                double surface = x.side(run.side().number()).surfaceMm(p[0], p[1]);
                deepest = Math.max(deepest, surface - run.blankFromRunMm(p[2]));
            }
        }
        return deepest;
    }

    /**
     * Compares.
     *
     * @param run index of the run to look at, -1 for all of the side
     */
    static HeightMap of(Examination x, Side side, int run) {
        Segments s = x.plan().segments();
        // The touched points themselves: where the controller follows them, the dry run takes the blank for flat.
        BlankSurface touched = BlankSurface.of(side.surface());
        double n = 0;
        double sz = 0;
        double sh = 0;
        double szz = 0;
        double shh = 0;
        double szh = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        int first = -1;
        for (Stroke stroke : x.paths().strokes()) {
            if (x.run(stroke.run()).side().number() != side.number()
                    || run >= 0 && stroke.run() != run
                    || x.copperWork().partOfDeepCut(stroke)
                    || x.paths().makesHole(stroke)
                    || stroke.depthMm() > Toolpaths.COPPER_DEPTH_MM) {
                continue;
            }
            boolean in = false;
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                boolean sideways = s.planLengthMm(i) > 0.05;
                in |= sideways;
                if (!in || !sideways) {
                    continue;
                }
                double z = s.z1Mm(i);
                double h = touched.heightMm(s.x1Mm(i), s.y1Mm(i));
                n++;
                sz += z;
                sh += h;
                szz += z * z;
                shh += h * h;
                szh += z * h;
                low = Math.min(low, z);
                high = Math.max(high, z);
                first = first < 0 ? i : first;
            }
        }
        double vz = szz - sz * sz / n;
        double vh = shh - sh * sh / n;
        double c = szh - sz * sh / n;
        boolean none = n < 2 || vz < 1e-12 || vh < 1e-12;
        return new HeightMap(
                (int) n, none ? 0 : c / Math.sqrt(vz * vh), n < 2 ? 0 : high - low, none ? 0 : c / vh, first);
    }
}
