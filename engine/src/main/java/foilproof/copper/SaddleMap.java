package foilproof.copper;

import java.util.Arrays;

/** For each pair of basins that touch, the highest place where they do: open addressing on primitive arrays. */
final class SaddleMap {
    private long[] keys = new long[1024];
    float[] heights = new float[1024];
    long[] cells = new long[1024];
    private int size;

    SaddleMap() {
        Arrays.fill(keys, -1);
    }

    void offer(int a, int b, float height, long cell) {
        long key = a < b ? (long) a << 32 | b : (long) b << 32 | a;
        int mask = keys.length - 1;
        int slot = (int) (key * 0x9E3779B97F4A7C15L >>> 40) & mask;
        while (keys[slot] != key) {
            if (keys[slot] == -1) {
                keys[slot] = key;
                heights[slot] = height;
                cells[slot] = cell;
                if (++size * 2 > keys.length) {
                    grow();
                }
                return;
            }
            slot = slot + 1 & mask;
        }
        if (height > heights[slot] || (height == heights[slot] && cell < cells[slot])) {
            heights[slot] = height;
            cells[slot] = cell;
        }
    }

    private void grow() {
        long[] oldKeys = keys;
        float[] oldHeights = heights;
        long[] oldCells = cells;
        keys = new long[oldKeys.length * 4];
        heights = new float[keys.length];
        cells = new long[keys.length];
        Arrays.fill(keys, -1);
        int mask = keys.length - 1;
        for (int i = 0; i < oldKeys.length; i++) {
            if (oldKeys[i] != -1) {
                int slot = (int) (oldKeys[i] * 0x9E3779B97F4A7C15L >>> 40) & mask;
                while (keys[slot] != -1) {
                    slot = slot + 1 & mask;
                }
                keys[slot] = oldKeys[i];
                heights[slot] = oldHeights[i];
                cells[slot] = oldCells[i];
            }
        }
    }

    /** Appends all saddles to a list. */
    void addTo(Saddles list) {
        for (int i = 0; i < keys.length; i++) {
            if (keys[i] != -1) {
                list.add((int) (keys[i] >>> 32), (int) keys[i], heights[i], cells[i]);
            }
        }
    }

    /** Moves the saddles into an edge list, keeping only a maximal spanning forest: no other saddle can ever join. */
    Saddles spanning(int basins) {
        Saddles all = new Saddles(size);
        for (int i = 0; i < keys.length; i++) {
            if (keys[i] != -1) {
                all.add((int) (keys[i] >>> 32), (int) keys[i], heights[i], cells[i]);
            }
        }
        return all.spanning(basins);
    }
}
