package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.motion.Segments;
import java.util.List;

/** Rapids that remove material or cross the blank too low (A7, B15). */
final class Rapids implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.RAPID_IN_MATERIAL);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A7", "B15");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null) {
                cutting(x, run, out);
            }
        }
    }

    private static void cutting(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        double most = x.limit(LimitKey.RAPID_VOLUME);
        double least = x.limit(LimitKey.RAPID_HEIGHT);
        double touchMm = Math.max(0, x.spreadOf(run).toMm());
        int first = -1;
        int count = 0;
        double volume = 0;
        int low = -1;
        double lowestMm = Double.POSITIVE_INFINITY;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!s.isRapid(i) || s.has(i, Segments.POSITION_UNKNOWN)) {
                continue;
            }
            if (x.removedMm3(i) > most) {
                first = first < 0 ? i : first;
                volume += x.removedMm3(i);
                count++;
            } else if (s.planLengthMm(i) > 1e-6
                    && !s.has(i, Segments.START_UNKNOWN)
                    && !s.has(i, Segments.MACHINE_COORDINATES)) {
                double height = x.lowestAboveFoilMm(i);
                if (height < lowestMm) {
                    lowestMm = height;
                    low = i;
                }
            }
        }
        if (first >= 0) {
            out.add(x.at(Finding.of(Kinds.RAPID_IN_MATERIAL, Severity.STOP, Certainty.GEOMETRY), first)
                    .atMost(Measured.exact("removed by the rapid", x.removedMm3(first), "mm3"), most)
                    .says("A rapid (G0) moves through material"
                            + (count > 1
                                    ? ", and " + (count - 1) + " more do (together " + Words.number(volume, 3) + " mm3)"
                                    : "")
                            + ": the cutter snaps at this speed.")
                    .doThis("Use G1 with a feed for moves into material, or lift first.")
                    .build());
        }
        if (low >= 0 && lowestMm < least + touchMm - 1e-9) {
            boolean geometry = lowestMm < least - 1e-9;
            out.add(x.at(
                            Finding.of(
                                    Kinds.RAPID_IN_MATERIAL,
                                    Severity.WATCH,
                                    geometry ? Certainty.GEOMETRY : Certainty.SET_UP),
                            low)
                    .atLeast(
                            Measured.mm("height of the rapid above the foil", lowestMm, 0.001),
                            geometry ? least : least + touchMm)
                    .says("A rapid crosses the blank only " + Words.mm(lowestMm) + " above the foil. It wants at least "
                            + Words.plainMm(least)
                            + (touchMm > 0
                                    ? ", and with a touch-off that is " + Words.plainMm(touchMm) + " deep "
                                            + Words.plainMm(least + touchMm) + "."
                                    : "."))
                    .doThis("Lift to 1 mm or more before moving across.")
                    .build());
        }
    }
}
