package foilproof.geom;

/** Union-find with path halving; the smaller index always becomes the root, so that roots do not depend on order. */
public final class DisjointSets {
    private final int[] parent;

    /** So many sets of one member each. */
    public DisjointSets(int size) {
        parent = new int[size];
        for (int i = 0; i < size; i++) {
            parent[i] = i;
        }
    }

    /** The root of a member's set: its smallest member. */
    public int find(int i) {
        int a = i;
        while (parent[a] != a) {
            parent[a] = parent[parent[a]];
            a = parent[a];
        }
        return a;
    }

    /** Makes one set of two; false where they were one before. */
    public boolean union(int i, int j) {
        int a = find(i);
        int b = find(j);
        if (a == b) {
            return false;
        }
        if (a < b) {
            parent[b] = a;
        } else {
            parent[a] = b;
        }
        return true;
    }
}
