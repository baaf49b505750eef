package foilproof.source;

import java.util.Collection;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Finds the valid word that a mistyped one most likely meant. */
public final class Spelling {
    private Spelling() {}

    /**
     * The candidate with the least Damerau-Levenshtein distance (adjacent swaps count once) to {@code word},
     * or null where none is within a third of its length, at least 1 and at most 3 edits. Ties go to the first.
     */
    public static @Nullable String nearest(String word, Collection<String> candidates) {
        String wanted = word.toLowerCase(Locale.ROOT);
        if (wanted.length() > 64) {
            return null;
        }
        int allowed = Math.max(1, Math.min(3, wanted.length() / 3));
        String best = null;
        int bestDistance = allowed + 1;
        for (String candidate : candidates) {
            int distance = distance(wanted, candidate.toLowerCase(Locale.ROOT));
            if (distance < bestDistance) {
                best = candidate;
                bestDistance = distance;
            }
        }
        return best;
    }

    private static int distance(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1), d[i - 1][j - 1] + cost);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
