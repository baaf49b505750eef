package foilproof.findings;

import java.util.List;

/** Glass-fibre dust without extraction (L1). */
final class Dust implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.DUST);
    }

    @Override
    public List<String> needsRows() {
        return List.of("L1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (!x.glass() || x.job().machine().extraction()) {
            return;
        }
        for (RunFacts run : x.runs()) {
            if (x.cuts(run)) {
                out.add(Finding.of(Kinds.DUST, Severity.WATCH, Certainty.GEOMETRY)
                        .says("The blank is " + x.job().blank().substrate().word()
                                + " (glass fibre), and the job does not say that dust extraction or an enclosure is in"
                                + " use. Its dust harms lungs and skin.")
                        .doThis("Use extraction or an enclosure and a suitable mask, wipe wet, never blow; follow your"
                                + " local rules. Then set [machine] extraction = true.")
                        .build());
                return;
            }
        }
    }
}
