package foilproof.design;

/**
 * A box along the axes, in the frame of the thing it bounds.
 *
 * @param minXMm left, mm
 * @param minYMm lower, mm
 * @param maxXMm right, mm
 * @param maxYMm upper, mm
 */
public record Bounds(double minXMm, double minYMm, double maxXMm, double maxYMm) {
    /** The box of nothing: {@link #isEmpty()}. */
    public static final Bounds NONE = new Bounds(
            Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY);

    /** True where the box holds no point. */
    public boolean isEmpty() {
        return minXMm > maxXMm || minYMm > maxYMm;
    }

    /** Width along X, mm; 0 for the empty box. */
    public double widthMm() {
        return isEmpty() ? 0 : maxXMm - minXMm;
    }

    /** Height along Y, mm; 0 for the empty box. */
    public double heightMm() {
        return isEmpty() ? 0 : maxYMm - minYMm;
    }

    /** The smallest box round both. */
    public Bounds with(Bounds other) {
        return new Bounds(
                Math.min(minXMm, other.minXMm),
                Math.min(minYMm, other.minYMm),
                Math.max(maxXMm, other.maxXMm),
                Math.max(maxYMm, other.maxYMm));
    }

    /** The smallest box round this one and a point. */
    public Bounds with(double xMm, double yMm) {
        return new Bounds(Math.min(minXMm, xMm), Math.min(minYMm, yMm), Math.max(maxXMm, xMm), Math.max(maxYMm, yMm));
    }

    /** True where the point lies inside or on the edge. */
    public boolean holds(double xMm, double yMm) {
        return xMm >= minXMm && xMm <= maxXMm && yMm >= minYMm && yMm <= maxYMm;
    }

    /** The box grown by {@code byMm} on every side. */
    public Bounds grown(double byMm) {
        return new Bounds(minXMm - byMm, minYMm - byMm, maxXMm + byMm, maxYMm + byMm);
    }
}
