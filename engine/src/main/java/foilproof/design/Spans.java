package foilproof.design;

import java.util.Arrays;

/**
 * Intervals along one scan line: a growing list of [from, to) pairs with the set operations that polarity needs.
 * Scratch of one thread; never shared.
 */
final class Spans {
    double[] at = new double[32];
    int count;
    /** Crossings of one figure, reused between calls. */
    double[] crossX = new double[32];

    int[] crossDir = new int[32];
    private double[] spare = new double[32];

    void clear() {
        count = 0;
    }

    void add(double from, double to) {
        if (!(to > from)) {
            return;
        }
        if (2 * count + 2 > at.length) {
            at = Arrays.copyOf(at, at.length * 2);
        }
        at[2 * count] = from;
        at[2 * count + 1] = to;
        count++;
    }

    void ensureCrossings(int n) {
        if (crossX.length < n) {
            crossX = new double[n * 2];
            crossDir = new int[n * 2];
        }
    }

    /** Sorts the intervals and unites those that overlap or touch. */
    void normalise() {
        if (count < 2) {
            return;
        }
        boolean sorted = true;
        for (int i = 1; i < count && sorted; i++) {
            sorted = at[2 * i] >= at[2 * i - 2];
        }
        if (!sorted) {
            sortPairs();
        }
        int out = 0;
        for (int i = 1; i < count; i++) {
            if (at[2 * i] <= at[2 * out + 1]) {
                at[2 * out + 1] = Math.max(at[2 * out + 1], at[2 * i + 1]);
            } else {
                out++;
                at[2 * out] = at[2 * i];
                at[2 * out + 1] = at[2 * i + 1];
            }
        }
        count = out + 1;
    }

    private void sortPairs() {
        if (count <= 24) {
            for (int i = 1; i < count; i++) {
                double a = at[2 * i];
                double b = at[2 * i + 1];
                int j = i - 1;
                while (j >= 0 && at[2 * j] > a) {
                    at[2 * j + 2] = at[2 * j];
                    at[2 * j + 3] = at[2 * j + 1];
                    j--;
                }
                at[2 * j + 2] = a;
                at[2 * j + 3] = b;
            }
            return;
        }
        // starts and ends sorted apart describe the same union as the pairs do (parenthesis counting)
        double[] from = new double[count];
        double[] to = new double[count];
        for (int i = 0; i < count; i++) {
            from[i] = at[2 * i];
            to[i] = at[2 * i + 1];
        }
        Arrays.sort(from);
        Arrays.sort(to);
        int out = 0;
        int open = 0;
        int f = 0;
        int t = 0;
        double start = 0;
        while (t < count) {
            if (f < count && from[f] <= to[t]) {
                if (open++ == 0) {
                    start = from[f];
                }
                f++;
            } else {
                if (--open == 0) {
                    at[2 * out] = start;
                    at[2 * out + 1] = to[t];
                    out++;
                }
                t++;
            }
        }
        count = out;
    }

    /** This becomes this and {@code other}, both normalised. */
    void unite(Spans other) {
        if (other.count == 0) {
            return;
        }
        for (int i = 0; i < other.count; i++) {
            add(other.at[2 * i], other.at[2 * i + 1]);
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
        }
        int out = 0;
        int j = 0;
        for (int i = 0; i < count; i++) {
            double from = at[2 * i];
            double to = at[2 * i + 1];
            while (j < other.count && other.at[2 * j + 1] <= from) {
                j++;
            }
            int k = j;
            while (k < other.count && other.at[2 * k] < to) {
                if (other.at[2 * k] > from) {
                    spare[2 * out] = from;
                    spare[2 * out + 1] = other.at[2 * k];
                    out++;
                }
                from = Math.max(from, other.at[2 * k + 1]);
                k++;
            }
            if (from < to) {
                spare[2 * out] = from;
                spare[2 * out + 1] = to;
                out++;
            }
        }
        double[] swap = at;
        at = spare;
        spare = swap;
        count = out;
    }

    double total() {
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += at[2 * i + 1] - at[2 * i];
        }
        return sum;
    }
}
