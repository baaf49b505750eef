package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.motion.Segments;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Paths that are cut twice and feeds through air (A22): they cost minutes only, so this is never more than a note. */
final class WastedMoves implements Check {
    private static final double STEP_MM = 1e-4;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.WASTED_MOVES);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A22");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        Map<List<Long>, Integer> seen = new HashMap<>();
        boolean any = idleMm(x) > x.limit(LimitKey.DUPLICATE_LENGTH);
        double twice = 0;
        int firstTwice = -1;
        double air = 0;
        double feeding = 0;
        int firstAir = -1;
        for (int i = 0; i < s.size(); i++) {
            if (!s.isFeed(i) || x.run(s.run(i)).tool() == null) {
                continue;
            }
            feeding += s.durationS(i);
            if (x.removes(i)) {
                if (any) {
                    seen.putIfAbsent(key(s, i), i);
                }
                continue;
            }
            air += s.durationS(i);
            boolean inPlan = s.planLengthMm(i) > 1e-6;
            firstAir = firstAir < 0 && inPlan ? i : firstAir;
            if (any && inPlan && seen.containsKey(key(s, i))) {
                twice += s.lengthMm(i);
                firstTwice = firstTwice < 0 ? i : firstTwice;
            }
        }
        if (twice > x.limit(LimitKey.DUPLICATE_LENGTH) + 1e-9) {
            out.add(x.at(Finding.of(Kinds.WASTED_MOVES, Severity.NOTE, Certainty.GEOMETRY), firstTwice)
                    .atMost(Measured.mm("length run twice", twice, 0.01), x.limit(LimitKey.DUPLICATE_LENGTH))
                    .says("Paths of " + Words.mm(twice, 0.01)
                            + " together are run again at the same depth and cut nothing.")
                    .doThis("Take the second run out if it was not meant.")
                    .build());
        }
        double share = feeding > 0 ? air / feeding : 0;
        if (share > x.limit(LimitKey.AIR_SHARE) + 1e-9 && firstAir >= 0) {
            out.add(x.at(Finding.of(Kinds.WASTED_MOVES, Severity.NOTE, Certainty.GEOMETRY), firstAir)
                    .atMost(
                            Measured.exact("share of feed time that cuts nothing", share, ""),
                            x.limit(LimitKey.AIR_SHARE))
                    .says(Words.number(100 * share, 0) + " % of the time at feed cuts nothing (" + Words.number(air, 0)
                            + " s of " + Words.number(feeding, 0) + " s).")
                    .doThis("Use rapids above the blank and begin feeds nearer to the foil; it saves time only.")
                    .build());
        }
    }

    /** Length of all feeds that remove nothing, mm: what is run twice is no longer than this. */
    private static double idleMm(Examination x) {
        Segments s = x.plan().segments();
        double length = 0;
        for (int i = 0; i < s.size(); i++) {
            length += s.isFeed(i) && !x.removes(i) ? s.lengthMm(i) : 0;
        }
        return length;
    }

    /** The path of a segment, the same both ways. */
    private static List<Long> key(Segments s, int i) {
        List<Long> from = List.of(step(s.x0Mm(i)), step(s.y0Mm(i)), step(s.z0Mm(i)));
        List<Long> to = List.of(step(s.x1Mm(i)), step(s.y1Mm(i)), step(s.z1Mm(i)));
        boolean forward = from.hashCode() <= to.hashCode();
        List<Long> a = forward ? from : to;
        List<Long> b = forward ? to : from;
        return List.of(
                (long) s.run(i),
                a.get(0),
                a.get(1),
                a.get(2),
                b.get(0),
                b.get(1),
                b.get(2),
                step(s.cxMm(i)),
                step(s.cyMm(i)));
    }

    private static long step(double mm) {
        return Math.round(mm / STEP_MM);
    }
}
