package foilproof.bench;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/** The limits of all checks: the defaults, and what the job or its shop file changed. Immutable. */
public final class Limits {
    /** Every limit at its default. */
    public static final Limits DEFAULT = new Limits(new EnumMap<>(LimitKey.class));

    private final EnumMap<LimitKey, Double> changed;

    private Limits(EnumMap<LimitKey, Double> changed) {
        this.changed = changed;
    }

    /** The limit in the engine's unit of its dimension: mm, mm/min, rpm, deg, s, mm2, K, V, a share of one. */
    public double value(LimitKey key) {
        Double own = changed.get(key);
        return own != null ? own : key.defaultValue();
    }

    /** The same limits with one changed, in the engine's unit. */
    public Limits with(LimitKey key, double value) {
        EnumMap<LimitKey, Double> copy = new EnumMap<>(changed);
        copy.put(key, value);
        return new Limits(copy);
    }

    /** The limits that were changed, in the order of the catalogue. */
    public Map<LimitKey, Double> changed() {
        return Collections.unmodifiableMap(changed);
    }
}
