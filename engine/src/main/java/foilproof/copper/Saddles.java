package foilproof.copper;

import foilproof.geom.DisjointSets;
import java.util.Arrays;

/** Edges between basins: a list on primitive arrays. */
final class Saddles {
    int[] a;
    int[] b;
    float[] height;
    /** Row times 2^32 plus column of the lower cell at the saddle. */
    long[] cell;

    int size;

    Saddles(int capacity) {
        a = new int[Math.max(16, capacity)];
        b = new int[a.length];
        height = new float[a.length];
        cell = new long[a.length];
    }

    void add(int from, int to, float heightMm, long at) {
        if (size == a.length) {
            int longer = size + (size >> 1) + 16;
            a = Arrays.copyOf(a, longer);
            b = Arrays.copyOf(b, longer);
            height = Arrays.copyOf(height, longer);
            cell = Arrays.copyOf(cell, longer);
        }
        a[size] = from;
        b[size] = to;
        height[size] = heightMm;
        cell[size++] = at;
    }

    /** A maximal spanning forest by Kruskal's rule, highest saddle first; equal ones in the order in which they came. */
    Saddles spanning(int basins) {
        int[] order = descending();
        DisjointSets sets = new DisjointSets(basins);
        Saddles kept = new Saddles(Math.min(size, basins));
        for (int k : order) {
            if (sets.union(a[k], b[k])) {
                kept.add(a[k], b[k], height[k], cell[k]);
            }
        }
        return kept;
    }

    private int[] descending() {
        long[] keys = new long[size];
        for (int k = 0; k < size; k++) {
            keys[k] = (long) ~sortable(height[k]) << 32 | k;
        }
        Arrays.sort(keys);
        int[] order = new int[size];
        for (int k = 0; k < size; k++) {
            order[k] = (int) keys[k];
        }
        return order;
    }

    private static int sortable(float f) {
        int bits = Float.floatToIntBits(f);
        return bits >= 0 ? bits : bits ^ 0x7fffffff;
    }
}
