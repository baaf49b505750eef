package foilproof.language;

import java.util.Arrays;

/** The modal state by line, kept only where a line changed it. */
final class ModalTrace {
    private int count;
    private int[] lines = new int[16];
    private ModalState[] states = new ModalState[16];

    ModalTrace(ModalState initial) {
        states[0] = initial;
        count = 1;
    }

    void add(int line, ModalState state) {
        if (state.equals(states[count - 1])) {
            return;
        }
        if (lines[count - 1] == line) {
            states[count - 1] = state;
            return;
        }
        if (count == lines.length) {
            lines = Arrays.copyOf(lines, 2 * count);
            states = Arrays.copyOf(states, 2 * count);
        }
        lines[count] = line;
        states[count++] = state;
    }

    ModalState at(int line) {
        int found = Arrays.binarySearch(lines, 0, count, line);
        return states[found >= 0 ? found : Math.max(0, -found - 2)];
    }
}
