package foilproof.bench;

/**
 * A closed interval of lengths.
 *
 * @param fromMm lower end, mm
 * @param toMm upper end, mm, not below the lower
 */
public record IntervalMm(double fromMm, double toMm) {}
