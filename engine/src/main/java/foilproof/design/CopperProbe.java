package foilproof.design;

/** Copper that can be asked point by point: milled or drawn. */
@FunctionalInterface
public interface CopperProbe {
    /** True where there is copper at the point of the probe's frame, mm. */
    boolean copperAt(double xMm, double yMm);
}
