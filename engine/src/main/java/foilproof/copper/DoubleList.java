package foilproof.copper;

import java.util.Arrays;

/** A growing array of doubles. */
final class DoubleList {
    double[] data;
    int size;

    DoubleList(int capacity) {
        data = new double[capacity];
    }

    void add(double value) {
        if (size == data.length) {
            data = Arrays.copyOf(data, size + (size >> 1) + 16);
        }
        data[size++] = value;
    }
}
