package foilproof.copper;

import java.util.ArrayList;
import java.util.List;

/**
 * Memory that one thread lends to band after band, so that each band does not ask for megabytes of its own. What is lent
 * holds whatever the band before left in it. Not thread-safe.
 */
final class RowPool {
    private final int columns;
    private final List<float[]> free = new ArrayList<>();
    private int[] ints = {};
    private byte[] bytes = {};

    /**
     * A pool for rows of one length.
     *
     * @param columns cells in a row
     */
    RowPool(int columns) {
        this.columns = columns;
    }

    /** A row to write into, of {@code columns} cells. */
    float[] take() {
        return free.isEmpty() ? new float[columns] : free.remove(free.size() - 1);
    }

    /** Takes a row back. */
    void give(float[] row) {
        free.add(row);
    }

    /** The one array of ints, at least so long. */
    int[] ints(int size) {
        if (ints.length < size) {
            ints = new int[size];
        }
        return ints;
    }

    /** The one array of bytes, at least so long. */
    byte[] bytes(int size) {
        if (bytes.length < size) {
            bytes = new byte[size];
        }
        return bytes;
    }
}
