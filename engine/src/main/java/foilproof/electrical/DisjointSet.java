package foilproof.electrical;

/** Union-find over small whole numbers; the smallest member stands for its set, so results do not depend on order. */
final class DisjointSet {
    private final int[] parent;

    DisjointSet(int n) {
        parent = new int[n];
        for (int i = 0; i < n; i++) {
            parent[i] = i;
        }
    }

    int find(int i) {
        int r = i;
        while (parent[r] != r) {
            parent[r] = parent[parent[r]];
            r = parent[r];
        }
        return r;
    }

    void union(int a, int b) {
        int x = find(a);
        int y = find(b);
        if (x != y) {
            parent[Math.max(x, y)] = Math.min(x, y);
        }
    }
}
