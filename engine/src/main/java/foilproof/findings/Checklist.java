package foilproof.findings;

import foilproof.bench.LimitKey;
import java.util.List;

/** What no dry run can see and a person ticks before a long cut (L3). */
final class Checklist implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.DUST);
    }

    @Override
    public List<String> needsRows() {
        return List.of("L3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        double cutting = x.plan().totals().cuttingS();
        if (x.job().machine().extraction() && cutting > x.limit(LimitKey.LONG_CUT)) {
            out.add(Finding.of(Kinds.DUST, Severity.NOTE, Certainty.RULE_OF_THUMB)
                    .atMost(Measured.exact("time of cutting", cutting, "s"), x.limit(LimitKey.LONG_CUT))
                    .says("This job cuts for " + Words.number(cutting / 60, 0)
                            + " minutes: whether the extraction runs all the time, and whether an ember got into it,"
                            + " nobody can see from here.")
                    .doThis("Tick before the start: extraction on, its filter empty, somebody near until it is done.")
                    .build());
        }
    }
}
