package foilproof.findings;

import java.util.ArrayList;
import java.util.List;

/**
 * The copper of one side at the end of the job.
 *
 * @param side from 1
 */
public record CopperFacts(int side) {
    static List<CopperFacts> of(Examination x) {
        List<CopperFacts> all = new ArrayList<>();
        for (var side : x.job().sides()) {
            all.add(new CopperFacts(side.number()));
        }
        return List.copyOf(all);
    }
}
