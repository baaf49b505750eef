package foilproof.stock;

import foilproof.bench.Tool;

/**
 * The shape that a turning cutter sweeps: for every distance from its axis the rise above its lowest point. Radial
 * and convex: a flat core, then a round nose tangent to a cone, then the cone, then an upright wall at the largest
 * radius. Runout widens the whole shape sideways by half the total indicator reading.
 *
 * <p>With a the core's radius, r the nose radius, b half the included angle, rt = r cos b, g = max(R - a, 0) and
 * q = min(g, rt), the rise at radius R is {@code r - sqrt(r2 - q2) + (g - q) / tan b} (check-values Q1 to Q7, Q21).
 * Where the tip of a bit is unknown, its two readings are two profiles.
 */
public final class ToolProfile {
    /** A place this little beyond the wall still counts as reached, mm: rounding of exact touching, far below a cell. */
    static final double TOUCH_MM = 1e-9;

    private final double coreMm;
    private final double noseMm;
    private final double tangentMm;
    private final double coneRise;
    private final double maxRadiusMm;
    private final boolean cone;

    private ToolProfile(double coreMm, double noseMm, double tangentMm, double coneRise, double maxRadiusMm) {
        this.coreMm = coreMm;
        this.noseMm = noseMm;
        this.tangentMm = tangentMm;
        this.cone = coreMm + tangentMm < maxRadiusMm;
        this.coneRise = cone ? coneRise : 0;
        this.maxRadiusMm = maxRadiusMm;
    }

    /**
     * A flat end mill.
     *
     * @param diameterMm its diameter, above 0
     * @param runoutMm total indicator reading, not negative: the cut is that much wider (check-values Q26)
     * @throws IllegalArgumentException where a value is out of range
     */
    public static ToolProfile flat(double diameterMm, double runoutMm) {
        check(diameterMm > 0 && runoutMm >= 0, "diameter above 0 and runout not negative");
        double radiusMm = diameterMm / 2 + runoutMm / 2;
        return new ToolProfile(radiusMm, 0, 0, 0, radiusMm);
    }

    /**
     * A V-shaped engraving bit with a flat tip.
     *
     * @param includedAngleRad full angle between the flanks, above 0 and below pi
     * @param tipWidthMm width (diameter) of the flat, not negative
     * @param shankMm largest diameter; infinite where not known
     * @param runoutMm total indicator reading
     * @throws IllegalArgumentException where a value is out of range
     */
    public static ToolProfile vFlatTip(double includedAngleRad, double tipWidthMm, double shankMm, double runoutMm) {
        check(tipWidthMm >= 0 && shankMm > tipWidthMm && runoutMm >= 0, "a tip narrower than the shank");
        return new ToolProfile(
                tipWidthMm / 2 + runoutMm / 2, 0, 0, coneRise(includedAngleRad), shankMm / 2 + runoutMm / 2);
    }

    /**
     * A V-shaped engraving bit whose tip is a ball tangent to the cone.
     *
     * @param includedAngleRad full angle between the flanks, above 0 and below pi
     * @param tipRadiusMm radius of the ball, not negative
     * @param shankMm largest diameter; infinite where not known
     * @param runoutMm total indicator reading
     * @throws IllegalArgumentException where a value is out of range
     */
    public static ToolProfile vRoundTip(double includedAngleRad, double tipRadiusMm, double shankMm, double runoutMm) {
        double tangentMm = tipRadiusMm * StrictMath.cos(includedAngleRad / 2);
        check(tipRadiusMm >= 0 && shankMm / 2 >= tangentMm && runoutMm >= 0, "a tip narrower than the shank");
        return new ToolProfile(
                runoutMm / 2, tipRadiusMm, tangentMm, coneRise(includedAngleRad), shankMm / 2 + runoutMm / 2);
    }

    /**
     * A ball end mill.
     *
     * @param diameterMm its diameter, above 0
     * @param runoutMm total indicator reading
     * @throws IllegalArgumentException where a value is out of range
     */
    public static ToolProfile ball(double diameterMm, double runoutMm) {
        check(diameterMm > 0 && runoutMm >= 0, "diameter above 0 and runout not negative");
        double radiusMm = diameterMm / 2;
        return new ToolProfile(runoutMm / 2, radiusMm, radiusMm, 0, radiusMm + runoutMm / 2);
    }

    /**
     * A drill with a conical point, of length (D/2) cot(point angle / 2) (check-values Q21).
     *
     * @param diameterMm its diameter, above 0
     * @param pointAngleRad full angle of the point, above 0 and below pi
     * @param runoutMm total indicator reading
     * @throws IllegalArgumentException where a value is out of range
     */
    public static ToolProfile drill(double diameterMm, double pointAngleRad, double runoutMm) {
        return vFlatTip(pointAngleRad, 0, diameterMm, runoutMm);
    }

    /**
     * The profile of a cutter of the bench, its runout included.
     *
     * @throws IllegalArgumentException where its tip is unknown: take one of {@link Tool#readings}; or where a value is
     *     out of range
     */
    public static ToolProfile of(Tool tool) {
        double runoutMm = tool.runoutMm();
        return switch (tool.shape()) {
            case FLAT -> flat(tool.diameterMm(), runoutMm);
            case BALL -> ball(tool.diameterMm(), runoutMm);
            case DRILL -> drill(tool.diameterMm(), tool.includedAngleRad(), runoutMm);
            case V -> {
                check(!tool.tipUnknown(), "a known tip");
                yield tool.tipRadiusMm().isPresent()
                        ? vRoundTip(
                                tool.includedAngleRad(), tool.tipRadiusMm().getAsDouble(), tool.diameterMm(), runoutMm)
                        : vFlatTip(
                                tool.includedAngleRad(), tool.tipWidthMm().getAsDouble(), tool.diameterMm(), runoutMm);
            }
        };
    }

    private static double coneRise(double includedAngleRad) {
        check(includedAngleRad > 0 && includedAngleRad < Math.PI, "an angle between 0 and 180 deg");
        return 1 / StrictMath.tan(includedAngleRad / 2);
    }

    private static void check(boolean holds, String what) {
        if (!holds) {
            throw new IllegalArgumentException("a cutter needs " + what);
        }
    }

    /** Radius of the flat core, mm: half the tip width of a bit, the whole radius of a flat end mill, with runout. */
    public double coreMm() {
        return coreMm;
    }

    /** Radius of the round nose, mm; 0 where there is none. */
    public double noseMm() {
        return noseMm;
    }

    /** Largest radius that is cut, mm, runout included; infinite where the shank is not known. */
    public double maxRadiusMm() {
        return maxRadiusMm;
    }

    /** How far beyond the core the nose passes into the cone, mm. */
    double tangentMm() {
        return tangentMm;
    }

    /** Rise of the cone per mm of radius; 0 where there is no cone. */
    double coneRise() {
        return coneRise;
    }

    /** Whether there is a cone between nose and wall. */
    boolean hasCone() {
        return cone;
    }

    /** Whether the end of the cutter is nothing but flat: all its walls are upright. */
    public boolean isFlat() {
        return coreMm == maxRadiusMm;
    }

    /**
     * Rise of the shape above its lowest point.
     *
     * @param radiusMm distance from the axis, not negative
     * @return mm; infinite beyond the largest radius
     */
    public double riseMm(double radiusMm) {
        if (radiusMm > maxRadiusMm + TOUCH_MM) {
            return Double.POSITIVE_INFINITY;
        }
        double g = Math.max(radiusMm - coreMm, 0);
        double q = Math.min(g, tangentMm);
        double nose = noseMm == 0 ? 0 : noseMm - Math.sqrt(Math.max(noseMm * noseMm - q * q, 0));
        return nose + coneRise * (g - q);
    }

    /**
     * Radius that is cut at a height above the lowest point: the largest radius whose rise is no more.
     *
     * @param riseMm height above the lowest point
     * @return mm; 0 below the lowest point
     */
    public double radiusMm(double riseMm) {
        if (riseMm < 0) {
            return 0;
        }
        double noseTopMm = noseMm - Math.sqrt(Math.max(noseMm * noseMm - tangentMm * tangentMm, 0));
        if (riseMm < noseTopMm) {
            return Math.min(coreMm + Math.sqrt(riseMm * (2 * noseMm - riseMm)), maxRadiusMm);
        }
        return cone ? Math.min(coreMm + tangentMm + (riseMm - noseTopMm) / coneRise, maxRadiusMm) : maxRadiusMm;
    }

    /** Slope of the shape at a radius: rise per mm of radius, from outside; infinite at a wall. */
    double slopeAt(double radiusMm) {
        double g = radiusMm - coreMm;
        if (g <= 0) {
            return 0;
        }
        if (g < tangentMm) {
            double left = noseMm * noseMm - g * g;
            return left <= 0 ? Double.POSITIVE_INFINITY : g / Math.sqrt(left);
        }
        return cone ? coneRise : Double.POSITIVE_INFINITY;
    }

    /** Height of the wall's foot above the lowest point, mm; infinite where there is no wall. */
    public double wallFootMm() {
        return Double.isInfinite(maxRadiusMm) ? maxRadiusMm : riseMm(maxRadiusMm);
    }

    @Override
    public boolean equals(@org.jspecify.annotations.Nullable Object other) {
        return other instanceof ToolProfile o
                && coreMm == o.coreMm
                && noseMm == o.noseMm
                && tangentMm == o.tangentMm
                && coneRise == o.coneRise
                && maxRadiusMm == o.maxRadiusMm
                && cone == o.cone;
    }

    @Override
    public int hashCode() {
        return java.util.Objects.hash(coreMm, noseMm, tangentMm, coneRise, maxRadiusMm);
    }
}
