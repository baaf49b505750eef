package foilproof.dryrun;

import foilproof.findings.Examination;
import foilproof.findings.Hole;
import foilproof.report.ResultDocument;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What the result says of the copper. */
final class CopperResults {
    private CopperResults() {}

    static List<ResultDocument.ZWindow> windows(Examination x) {
        return List.of();
    }

    static ResultDocument.@Nullable JointWindow joint(Examination x) {
        return null;
    }

    static List<ResultDocument.SideFacts> sides(Examination x) {
        List<ResultDocument.SideFacts> all = new ArrayList<>();
        for (var side : x.job().sides()) {
            all.add(new ResultDocument.SideFacts(side.face().word(), 0, 0, 0, 0));
        }
        return all;
    }

    static ResultDocument.Removed removed(Examination x) {
        return new ResultDocument.Removed(0, 0, 0);
    }

    static List<ResultDocument.NetFacts> nets(Examination x) {
        return List.of();
    }

    static @Nullable Double ringMm(Examination x, Hole hole) {
        return null;
    }
}
