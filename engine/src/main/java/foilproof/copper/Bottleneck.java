package foilproof.copper;

import foilproof.geom.DisjointSets;

/** The largest Z error at which two places are still joined: the lowest point of the best way between them. */
final class Bottleneck {
    private Bottleneck() {}

    /**
     * Asks a tree for two of its points.
     *
     * @return mm, + = really deeper; negative infinity where they are never joined
     */
    static double between(MergeTree tree, int pointA, int pointB) {
        int a = tree.basinOfPoint(pointA);
        int b = tree.basinOfPoint(pointB);
        if (a < 0 || b < 0) {
            return Double.NEGATIVE_INFINITY;
        }
        if (a == b) {
            return tree.peakMm(a);
        }
        DisjointSets sets = new DisjointSets(tree.peaks());
        Saddles saddles = tree.saddles();
        for (int k = 0; k < saddles.size; k++) {
            sets.union(saddles.a[k], saddles.b[k]);
            if (sets.find(a) == sets.find(b)) {
                return saddles.height[k];
            }
        }
        return Double.NEGATIVE_INFINITY;
    }
}
