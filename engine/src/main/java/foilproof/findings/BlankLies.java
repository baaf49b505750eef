package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Side;
import foilproof.bench.Surface;
import foilproof.bench.Touch;
import foilproof.bench.Turn;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** How the blank lies: tilted (B6), its height map applied twice (B7), on burrs of the side before (B17). */
public final class BlankLies implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.TILT, Kinds.HEIGHT_MAP_TWICE, Kinds.BURR);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B6", "B7", "B17");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (Side side : x.job().sides()) {
            if (side.surface().touches().size() >= 3) {
                HeightMap follows = HeightMap.of(x, side, -1);
                double least = x.limit(LimitKey.HEIGHT_MAP_CORRELATION);
                boolean map = follows.map(least);
                if (map && x.job().machine().appliesHeightMap()) {
                    twice(x, follows, least, out);
                }
                if (!x.job().machine().appliesHeightMap() && !(map && follows.slope() > 0.5)) {
                    tilt(x, side, out);
                }
            }
            if (side.turned() != Turn.NO && !side.deburred() && workedBefore(x, side)) {
                out.add(Finding.of(Kinds.BURR, Severity.NOTE, Certainty.SET_UP)
                        .side(side.number())
                        .says("Side " + side.number()
                                + " lies on a face that was milled before: burrs of 0.05 to 0.1 mm"
                                + " make the blank rock, and its foil lies that much higher in places.")
                        .doThis(
                                "Deburr and brush the face before laying it down, touch off again, and say deburred = true.")
                        .build());
            }
        }
    }

    private static boolean workedBefore(Examination x, Side side) {
        return x.runs().stream().anyMatch(r -> r.side().number() < side.number() && x.cutsAnyFoil(r));
    }

    private static void twice(Examination x, HeightMap follows, double least, FindingCollector out) {
        out.add(x.at(Finding.of(Kinds.HEIGHT_MAP_TWICE, Severity.STOP, Certainty.GEOMETRY), follows.segment())
                .atMost(
                        new Measured(
                                "correlation of Z with the touched points", Math.abs(follows.correlation()), "x", 0.01),
                        least)
                .says(String.format(
                        Locale.ROOT,
                        "The program's Z already follows the touched points (correlation %.2f, Z changes by %.3f mm), and"
                                + " the machine is said to apply the height map itself: the surface is corrected twice.",
                        follows.correlation(),
                        follows.zRangeMm()))
                .doThis("Correct once: run the flat program, or switch the machine's height map off.")
                .build());
    }

    /** The best plane through the touched points, over the box of the copper work. */
    private static void tilt(Examination x, Side side, FindingCollector out) {
        double[] box = x.copperWork().boxOn(side.number());
        if (box == null) {
            return;
        }
        double[] slope = plane(side.surface().touches());
        double rise = Math.abs(slope[0]) * (box[2] - box[0]) + Math.abs(slope[1]) * (box[3] - box[1]);
        double limit = x.limit(LimitKey.TILT);
        if (rise > limit + 1e-6) {
            boolean right = slope[0] > 0;
            boolean far = slope[1] > 0;
            out.add(Finding.of(Kinds.TILT, Severity.FIX, Certainty.SET_UP)
                    .side(side.number())
                    .at(right ? box[0] : box[2], far ? box[1] : box[3])
                    .box(box[0], box[1], box[2], box[3])
                    .atMost(Measured.mm("tilt across the copper work", rise, 0.002), limit)
                    .says(String.format(
                            Locale.ROOT,
                            "The blank is tilted: the best plane through the touched points rises by %s across the copper"
                                    + " work (%s mm per 100 mm along X, %s along Y).",
                            Words.mm(rise),
                            Words.signed(slope[0] * 100, 3),
                            Words.signed(slope[1] * 100, 3)))
                    .doThis("Look for swarf under a corner, clean and stick it down again, or skim the spoil board.")
                    .build());
        }
    }

    /**
     * A surface with its best plane taken out: what is left is its bow.
     *
     * @param surface with touched points
     */
    public static Surface levelled(Surface surface) {
        double[] slope = plane(surface.touches());
        List<Touch> level = new ArrayList<>();
        Touch first = surface.touches().get(0);
        for (Touch t : surface.touches()) {
            double rise = slope[0] * (t.xMm() - first.xMm()) + slope[1] * (t.yMm() - first.yMm());
            level.add(new Touch(t.xMm(), t.yMm(), t.heightMm() - rise));
        }
        return new Surface(level);
    }

    /** Slopes along X and Y of the least-squares plane; 0 where the points lie on one line. */
    private static double[] plane(List<Touch> touches) {
        List<Touch> all = new ArrayList<>(touches);
        double mx = all.stream().mapToDouble(Touch::xMm).sum() / all.size();
        double my = all.stream().mapToDouble(Touch::yMm).sum() / all.size();
        double mh = all.stream().mapToDouble(Touch::heightMm).sum() / all.size();
        double xx = 0;
        double xy = 0;
        double yy = 0;
        double xh = 0;
        double yh = 0;
        for (Touch t : all) {
            double a = t.xMm() - mx;
            double b = t.yMm() - my;
            double c = t.heightMm() - mh;
            xx += a * a;
            xy += a * b;
            yy += b * b;
            xh += a * c;
            yh += b * c;
        }
        double det = xx * yy - xy * xy;
        return Math.abs(det) < 1e-9 * xx * yy + 1e-12
                ? new double[2]
                : new double[] {(xh * yy - yh * xy) / det, (yh * xx - xh * xy) / det};
    }
}
