package foilproof.language;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** The modal state by line, kept only where a line changed it. */
final class ModalTrace {
    private int count;
    private int[] lines = new int[16];
    private ModalState[] states = new ModalState[16];

    /** States met lately, so that a program that goes to and fro between a few keeps each of them once. */
    private final @Nullable ModalState[] lately = new ModalState[64];

    ModalTrace(ModalState initial) {
        states[0] = initial;
        count = 1;
    }

    void add(int line, ModalState state) {
        if (state.equals(states[count - 1])) {
            return;
        }
        if (lines[count - 1] == line) {
            states[count - 1] = shared(state);
            return;
        }
        if (count == lines.length) {
            lines = Arrays.copyOf(lines, 2 * count);
            states = Arrays.copyOf(states, 2 * count);
        }
        lines[count] = line;
        states[count++] = shared(state);
    }

    private ModalState shared(ModalState state) {
        int slot = state.hashCode() >>> 3 & lately.length - 1 ^ state.hashCode() & 7;
        ModalState kept = lately[slot];
        if (kept != null && kept.equals(state)) {
            return kept;
        }
        lately[slot] = state;
        return state;
    }

    ModalState at(int line) {
        int found = Arrays.binarySearch(lines, 0, count, line);
        return states[found >= 0 ? found : Math.max(0, -found - 2)];
    }
}
