package foilproof.stock;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/**
 * What was worked out for earlier dry runs and holds for later ones: envelopes, replays, copper, Z windows. What is
 * kept under a key depends on nothing but what the key holds, so that a result is the same bytes with a memo, without
 * one, and whatever the memo has seen. What was not asked for longest goes first when there is too much. Safe for
 * several threads; two that ask for the same thing at once may both make it.
 */
public final class Memo {
    /** Makes a value. */
    @FunctionalInterface
    public interface Making<T, E extends Exception> {
        /** The value. */
        T make() throws E;
    }

    private record Kept(Object value, long bytes) {}

    private final long mostBytes;
    private final Map<Object, Kept> kept = new LinkedHashMap<>(64, 0.75f, true);
    private long bytes;
    private long found;
    private long made;

    /**
     * An empty memo.
     *
     * @param mostBytes how much memory the kept things may take, estimated, bytes
     */
    public Memo(long mostBytes) {
        this.mostBytes = mostBytes;
    }

    /**
     * What a key stands for: what was kept under an equal one, else made now and kept.
     *
     * @param memo where to look; null to make it always
     * @param key holds everything that the value depends on, and is of a type that is used for one kind of value
     * @param size memory that the value takes, estimated, bytes
     * @param make makes the value; what it throws is thrown on, and nothing is kept
     */
    @SuppressWarnings("unchecked")
    public static <T, E extends Exception> T of(
            @Nullable Memo memo, Object key, ToLongFunction<T> size, Making<T, E> make) throws E {
        if (memo == null) {
            return make.make();
        }
        @Nullable Object have = memo.find(key);
        if (have != null) {
            return (T) have;
        }
        T value = make.make();
        memo.keep(key, value, size.applyAsLong(value));
        return value;
    }

    /** Keeps a value under a key, whatever stood there; it takes no memory worth counting. */
    static void put(@Nullable Memo memo, Object key, Object value) {
        if (memo != null) {
            memo.keep(key, value, 0);
        }
    }

    /** What stands under a key; null where nothing does. */
    static @Nullable Object peek(@Nullable Memo memo, Object key) {
        return memo == null ? null : memo.find(key);
    }

    private synchronized @Nullable Object find(Object key) {
        Kept have = kept.get(key);
        if (have == null) {
            return null;
        }
        found++;
        return have.value();
    }

    private synchronized void keep(Object key, Object value, long size) {
        made++;
        Kept before = kept.put(key, new Kept(value, size));
        bytes += size - (before == null ? 0 : before.bytes());
        Iterator<Kept> oldest = kept.values().iterator();
        while (bytes > mostBytes && oldest.hasNext()) {
            bytes -= oldest.next().bytes();
            oldest.remove();
        }
    }

    /** How often something was asked for that was there. */
    public synchronized long found() {
        return found;
    }

    /** How often something had to be made. */
    public synchronized long made() {
        return made;
    }

    /** Memory that the kept things take, estimated, bytes. */
    public synchronized long bytes() {
        return bytes;
    }
}
