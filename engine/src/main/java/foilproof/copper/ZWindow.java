package foilproof.copper;

import org.jspecify.annotations.Nullable;

/**
 * The interval of Z error in which no copper or duty check raises a watch or worse, for one tool run with the others at
 * their set-up, or for all runs at the same error.
 *
 * <p>Z error e in mm, + = really deeper. An end is null where no check raises anything within the headroom. Ends are
 * snapped to 1 nm; people are shown {@link #printedFromMm} and {@link #printedToMm}, rounded inward to 1 um.
 *
 * @param fromMm least good Z error
 * @param toMm greatest good Z error
 * @param limitedFrom what raises below {@code fromMm}
 * @param limitedTo what raises above {@code toMm}
 * @param fixFromMm least Z error at which nothing at fix or stop is raised
 * @param fixToMm greatest such
 * @param spreadFromMm lower end of the stated spread of e
 * @param spreadToMm upper end of the stated spread
 * @param noneWithinHeadroom whether what must hold holds at no Z error that the envelope reaches (two nets that no
 *     groove parts, say)
 * @param flattened where the interval is empty or narrower than the spread: the same limits if the blank were flat and touched off on it; null
 *     where the interval is wide enough
 */
public record ZWindow(
        @Nullable Double fromMm,
        @Nullable Double toMm,
        @Nullable ZLimit limitedFrom,
        @Nullable ZLimit limitedTo,
        @Nullable Double fixFromMm,
        @Nullable Double fixToMm,
        double spreadFromMm,
        double spreadToMm,
        boolean noneWithinHeadroom,
        @Nullable ZWindow flattened) {
    /**
     * The same window counted from another set-up: one at which the run already goes this much deeper.
     *
     * @param deeperMm Z error that is in the set-up, mm, + = really deeper
     */
    public ZWindow from(double deeperMm) {
        return deeperMm == 0
                ? this
                : new ZWindow(
                        less(fromMm, deeperMm),
                        less(toMm, deeperMm),
                        less(limitedFrom, deeperMm),
                        less(limitedTo, deeperMm),
                        less(fixFromMm, deeperMm),
                        less(fixToMm, deeperMm),
                        spreadFromMm,
                        spreadToMm,
                        noneWithinHeadroom,
                        flattened == null ? null : flattened.from(deeperMm));
    }

    private static @Nullable Double less(@Nullable Double end, double deeperMm) {
        return end == null ? null : snap(end - deeperMm);
    }

    private static @Nullable ZLimit less(@Nullable ZLimit limit, double deeperMm) {
        return limit == null
                ? null
                : new ZLimit(
                        limit.kind(),
                        limit.eMm() - deeperMm,
                        limit.errorMm(),
                        limit.xMm(),
                        limit.yMm(),
                        limit.program(),
                        limit.line());
    }

    /** Whether no Z error is good: no depth works. */
    public boolean empty() {
        return noneWithinHeadroom || (fromMm != null && toMm != null && fromMm > toMm);
    }

    /** Whether no shift of depth puts the whole stated spread into the window: no depth setting works (needs.md D6). */
    public boolean narrowerThanSpread() {
        return empty() || fromMm != null && toMm != null && toMm - fromMm < spreadToMm - spreadFromMm - 1e-9;
    }

    /** Lower end rounded inward to 1 um. */
    public @Nullable Double printedFromMm() {
        return fromMm == null ? null : inwardUp(fromMm);
    }

    /** Upper end rounded inward to 1 um. */
    public @Nullable Double printedToMm() {
        return toMm == null ? null : inwardDown(toMm);
    }

    /** How far the ends may be off, mm: the larger of the two. */
    public double plusMinusMm() {
        double from = limitedFrom == null ? 0 : limitedFrom.errorMm();
        double to = limitedTo == null ? 0 : limitedTo.errorMm();
        return Math.max(from, to);
    }

    /**
     * Room between the stated spread and the nearer end, mm; negative where the spread reaches beyond it. That of the
     * other end where one is unknown, null where both are.
     */
    public @Nullable Double marginMm() {
        if (fromMm == null && toMm == null) {
            return null;
        }
        double low = fromMm == null ? Double.POSITIVE_INFINITY : spreadFromMm - fromMm;
        double high = toMm == null ? Double.POSITIVE_INFINITY : toMm - spreadToMm;
        return snap(Math.min(low, high));
    }

    /** Which end has the margin: the limit nearer to the spread; null where there is none. */
    public @Nullable ZLimit nearerLimit() {
        if (fromMm == null) {
            return limitedTo;
        }
        if (toMm == null || spreadFromMm - fromMm <= toMm - spreadToMm) {
            return limitedFrom;
        }
        return limitedTo;
    }

    /**
     * How much deeper (+) or shallower the program would have to cut for the widest margin, mm; null where an end is
     * unknown, so that any depth on that side does.
     */
    public @Nullable Double bestShiftMm() {
        return fromMm == null || toMm == null ? null : snap(0.5 * (fromMm + toMm - spreadFromMm - spreadToMm));
    }

    /** Snaps to 1 nm, mm. */
    static double snap(double mm) {
        return Math.rint(mm * 1e6) / 1e6;
    }

    /** The next micrometre not below a value snapped to 1 nm. */
    static double inwardUp(double mm) {
        double nm = Math.rint(mm * 1e6);
        return StrictMath.ceil(nm / 1000) / 1000;
    }

    /** The next micrometre not above a value snapped to 1 nm. */
    static double inwardDown(double mm) {
        double nm = Math.rint(mm * 1e6);
        return StrictMath.floor(nm / 1000) / 1000;
    }
}
