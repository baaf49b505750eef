package foilproof.copper;

import java.util.Arrays;

/** A growing array of ints. */
final class IntList {
    int[] data;
    int size;

    IntList(int capacity) {
        data = new int[capacity];
    }

    void add(int value) {
        if (size == data.length) {
            data = Arrays.copyOf(data, size + (size >> 1) + 16);
        }
        data[size++] = value;
    }

    int[] toArray() {
        return Arrays.copyOf(data, size);
    }
}
