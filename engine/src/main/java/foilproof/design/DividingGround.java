package foilproof.design;

import foilproof.geom.DisjointSets;
import java.util.BitSet;

/**
 * The bare ground of a drawn layer that parts one piece of copper from another, and so must be milled. Ground that meets
 * one piece only (outside a plane, in a hole of it) parts nothing: a sound board may leave all its copper there, and what
 * is or is not milled there says nothing of where the board lies.
 */
final class DividingGround {
    private final BitSet copper;
    private final int columns;
    private final int rows;
    /** Where each stretch of equal cells begins, row by row, and the number of all cells at the end. */
    private final int[] begin;
    /** The first stretch of each row. */
    private final int[] ofRow;

    private DividingGround(RasterGrid grid, BitSet copper) {
        this.copper = copper;
        columns = grid.columns();
        rows = grid.rows();
        ofRow = new int[rows + 1];
        int[] found = new int[1024];
        int n = 0;
        for (int r = 0; r < rows; r++) {
            ofRow[r] = n;
            int end = (r + 1) * columns;
            for (int i = r * columns; i < end; ) {
                if (n == found.length) {
                    found = java.util.Arrays.copyOf(found, 2 * n);
                }
                found[n++] = i;
                int next = copper.get(i) ? copper.nextClearBit(i) : copper.nextSetBit(i);
                i = next < 0 || next > end ? end : next;
            }
        }
        ofRow[rows] = n;
        begin = java.util.Arrays.copyOf(found, n + 1);
        begin[n] = rows * columns;
    }

    /**
     * The cells of dividing ground; all ground where none divides.
     *
     * @param grid cells of which row by row {@link RasterGrid#index} counts
     * @param copper which of them are drawn copper
     */
    static BitSet of(RasterGrid grid, BitSet copper) {
        return new DividingGround(grid, copper).find();
    }

    private BitSet find() {
        int n = begin.length - 1;
        DisjointSets sets = new DisjointSets(n);
        neighbours((a, b) -> {
            if (copper.get(begin[a]) == copper.get(begin[b])) {
                sets.union(a, b);
            }
        });
        // by ground: 0 no copper met, else one more than the first piece met, -1 where it meets a second one
        int[] met = new int[n];
        neighbours((a, b) -> {
            boolean first = copper.get(begin[a]);
            if (first != copper.get(begin[b])) {
                int ground = sets.find(first ? b : a);
                int piece = sets.find(first ? a : b) + 1;
                met[ground] = met[ground] == 0 || met[ground] == piece ? piece : -1;
            }
        });
        BitSet divides = new BitSet(rows * columns);
        for (int k = 0; k < n; k++) {
            if (!copper.get(begin[k]) && met[sets.find(k)] < 0) {
                divides.set(begin[k], begin[k + 1]);
            }
        }
        if (divides.isEmpty()) {
            divides.set(0, rows * columns);
            divides.andNot(copper);
        }
        return divides;
    }

    private interface Pair {
        void of(int a, int b);
    }

    /** Stretches that lie side by side in a row or over one another in two. */
    private void neighbours(Pair each) {
        for (int r = 0; r < rows; r++) {
            for (int k = ofRow[r] + 1; k < ofRow[r + 1]; k++) {
                each.of(k - 1, k);
            }
            if (r + 1 == rows) {
                break;
            }
            int a = ofRow[r];
            int b = ofRow[r + 1];
            while (a < ofRow[r + 1] && b < ofRow[r + 2]) {
                each.of(a, b);
                int endA = begin[a + 1] + columns;
                int endB = begin[b + 1];
                a += endA <= endB ? 1 : 0;
                b += endB <= endA ? 1 : 0;
            }
        }
    }
}
