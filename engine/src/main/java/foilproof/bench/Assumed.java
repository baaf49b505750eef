package foilproof.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Collects every default that is used, so that none is hidden. */
final class Assumed {
    private final Map<String, List<String>> byWhat = new LinkedHashMap<>();

    /** {@code key} was not stated and this is taken. */
    void taken(String key, String value) {
        add(key + " = " + value + ", as nothing was stated");
    }

    /** A line of its own. */
    void add(String line) {
        byWhat.computeIfAbsent(line, k -> new ArrayList<>());
    }

    /** The same was taken for one more of several tools or sides: folded into one line. */
    void takenFor(String who, String what) {
        byWhat.computeIfAbsent(what, k -> new ArrayList<>()).add(who);
    }

    /** The lines, in the order of reading. */
    List<String> lines() {
        List<String> lines = new ArrayList<>();
        byWhat.forEach((what, who) -> lines.add(who.isEmpty() ? what : what + ": " + String.join(", ", who)));
        return lines;
    }
}
