package foilproof.design;

import java.util.Arrays;

/**
 * Intervals along one scan line: a growing list of [from, to) pairs with the set operations that polarity needs.
 * Every end carries the number of the object whose outline it lies on. Scratch of one thread; never shared.
 */
final class Spans {
    double[] at = new double[32];
    int[] owner = new int[32];
    int count;
    /** Owner of what is added next. */
    int tag;
    /** Crossings of one figure, reused between calls. */
    double[] crossX = new double[32];

    int[] crossDir = new int[32];
    private double[] spare = new double[32];
    private int[] spareOwner = new int[32];

    void clear() {
        count = 0;
    }

    void add(double from, double to) {
        add(from, to, tag, tag);
    }

    private void add(double from, double to, int fromOwner, int toOwner) {
        if (!(to > from)) {
            return;
        }
        if (2 * count + 2 > at.length) {
            at = Arrays.copyOf(at, at.length * 2);
            owner = Arrays.copyOf(owner, at.length);
        }
        at[2 * count] = from;
        at[2 * count + 1] = to;
        owner[2 * count] = fromOwner;
        owner[2 * count + 1] = toOwner;
        count++;
    }

    void ensureCrossings(int n) {
        if (crossX.length < n) {
            crossX = new double[n * 2];
            crossDir = new int[n * 2];
        }
    }

    /**
     * Ends nearer than this lie on one another, mm: outlines that coincide (tracks that share a round end) belong to the
     * first of them, since rounding would hand the end from one to the other at every height.
     */
    private static final double SAME_MM = 1e-9;

    /** Sorts the intervals and unites those that overlap or touch. */
    void normalise() {
        if (count < 2) {
            return;
        }
        sortPairs();
        int out = 0;
        for (int i = 1; i < count; i++) {
            if (at[2 * i] <= at[2 * out + 1]) {
                if (at[2 * i] - at[2 * out] <= SAME_MM) {
                    owner[2 * out] = Math.min(owner[2 * out], owner[2 * i]);
                }
                double beyond = at[2 * i + 1] - at[2 * out + 1];
                if (Math.abs(beyond) <= SAME_MM) {
                    owner[2 * out + 1] = Math.min(owner[2 * out + 1], owner[2 * i + 1]);
                } else if (beyond > 0) {
                    owner[2 * out + 1] = owner[2 * i + 1];
                }
                at[2 * out + 1] = Math.max(at[2 * out + 1], at[2 * i + 1]);
            } else {
                out++;
                at[2 * out] = at[2 * i];
                at[2 * out + 1] = at[2 * i + 1];
                owner[2 * out] = owner[2 * i];
                owner[2 * out + 1] = owner[2 * i + 1];
            }
        }
        count = out + 1;
    }

    /** Shell sort by the lower end (gaps of M. Ciura, 2001): short lists, no scratch. */
    private void sortPairs() {
        for (int gap : new int[] {701, 301, 132, 57, 23, 10, 4, 1}) {
            for (int i = gap; i < count; i++) {
                double a = at[2 * i];
                if (at[2 * (i - gap)] <= a) {
                    continue;
                }
                double b = at[2 * i + 1];
                int oa = owner[2 * i];
                int ob = owner[2 * i + 1];
                int j = i;
                while (j >= gap && at[2 * (j - gap)] > a) {
                    at[2 * j] = at[2 * (j - gap)];
                    at[2 * j + 1] = at[2 * (j - gap) + 1];
                    owner[2 * j] = owner[2 * (j - gap)];
                    owner[2 * j + 1] = owner[2 * (j - gap) + 1];
                    j -= gap;
                }
                at[2 * j] = a;
                at[2 * j + 1] = b;
                owner[2 * j] = oa;
                owner[2 * j + 1] = ob;
            }
        }
    }

    /** This becomes this and {@code other}, both normalised. */
    void unite(Spans other) {
        if (other.count == 0) {
            return;
        }
        for (int i = 0; i < other.count; i++) {
            add(other.at[2 * i], other.at[2 * i + 1], other.owner[2 * i], other.owner[2 * i + 1]);
        }
        normalise();
    }

    /** This becomes this without {@code other}, both normalised. */
    void subtract(Spans other) {
        if (other.count == 0 || count == 0) {
            return;
        }
        int need = 2 * (count + other.count);
        if (spare.length < need) {
            spare = new double[need * 2];
            spareOwner = new int[need * 2];
        }
        int out = 0;
        int j = 0;
        for (int i = 0; i < count; i++) {
            double from = at[2 * i];
            double to = at[2 * i + 1];
            int fromOwner = owner[2 * i];
            while (j < other.count && other.at[2 * j + 1] <= from) {
                j++;
            }
            int k = j;
            while (k < other.count && other.at[2 * k] < to) {
                if (other.at[2 * k] > from) {
                    spare[2 * out] = from;
                    spare[2 * out + 1] = other.at[2 * k];
                    spareOwner[2 * out] = fromOwner;
                    spareOwner[2 * out + 1] = other.owner[2 * k];
                    out++;
                }
                if (other.at[2 * k + 1] > from) {
                    from = other.at[2 * k + 1];
                    fromOwner = other.owner[2 * k + 1];
                }
                k++;
            }
            if (from < to) {
                spare[2 * out] = from;
                spare[2 * out + 1] = to;
                spareOwner[2 * out] = fromOwner;
                spareOwner[2 * out + 1] = owner[2 * i + 1];
                out++;
            }
        }
        double[] swap = at;
        at = spare;
        spare = swap;
        int[] swapOwner = owner;
        owner = spareOwner;
        spareOwner = swapOwner;
        count = out;
    }
}
