package foilproof.bench;

import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a job is to be read. The engine looks at no environment: whoever calls it finds the user's own shop file.
 *
 * @param allowOutside whether a job may name files outside its folder
 * @param shop a shop file named on the command line, instead of the job's own and the user's, or null
 * @param userShop the user's own shop file, used where the job names none, or null where there is none or it is to be
 *     left out
 * @param settings {@code KEY=VALUE} of the command line, in order; the last of a key wins
 * @param limits limits of the inputs
 */
public record ReadOptions(
        boolean allowOutside,
        @Nullable SourceFile shop,
        @Nullable SourceFile userShop,
        List<String> settings,
        InputLimits limits) {
    /** Nothing outside, no shop file of the user, nothing set. */
    public static final ReadOptions DEFAULT = new ReadOptions(false, null, null, List.of(), InputLimits.DEFAULT);

    public ReadOptions {
        settings = List.copyOf(settings);
    }

    /** The same with these {@code KEY=VALUE} settings. */
    public ReadOptions withSettings(List<String> newSettings) {
        return new ReadOptions(allowOutside, shop, userShop, newSettings, limits);
    }
}
