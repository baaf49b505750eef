package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.copper.MarginField;
import foilproof.copper.Piece;
import foilproof.design.LayerImage;
import foilproof.design.RasterGrid;
import foilproof.electrical.Chord;
import foilproof.electrical.CopperBridges;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Copper that joins two nets: where it is narrowest, which line left it, and the smallest change that removes it. */
final class Bridges {
    /** Copper wider than this between two nets is no bridge but a groove that is not there, mm. */
    private static final double WIDEST_MM = 4;
    /** A cutter that passes so near the middle of a bridge passed over it, mm. */
    private static final double OVER_MM = 0.03;
    /** Foil counts as thinned from this on: heights are kept in steps, mm. */
    private static final double THINNED_MM = 0.001;
    /** Floods meet up to this far from the middle of a shallow groove, mm. */
    private static final double BESIDE_MM = 0.12;
    /** Deepening beyond this is no remedy, mm. */
    private static final double MOST_DEEPER_MM = 0.08;

    private static final int MOST = 40;

    /** What is measured of a short that a shallow groove leaves. */
    static final String SHALLOW = "foil left on the floor of the groove";

    private Bridges() {}

    /**
     * One bridge and the two nets that it joins.
     *
     * @param shallow whether a groove runs between them and only leaves foil on its floor
     */
    record Told(String netA, String netB, boolean shallow, Finding finding) {}

    static List<Told> of(Examination x) {
        List<Told> out = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            Map<Integer, List<CopperBridges.Seed>> byPiece = seeds(x, copper);
            for (Map.Entry<Integer, List<CopperBridges.Seed>> e : byPiece.entrySet()) {
                Set<Integer> nets = new HashSet<>();
                e.getValue().forEach(s -> nets.add(s.net()));
                if (nets.size() > 1 && out.size() < MOST) {
                    onPiece(x, copper, e.getKey(), e.getValue(), out);
                }
            }
        }
        return out;
    }

    private static Map<Integer, List<CopperBridges.Seed>> seeds(Examination x, CopperFacts copper) {
        Map<Integer, List<CopperBridges.Seed>> byPiece = new LinkedHashMap<>();
        List<IntendedNets.Net> nets = x.design().nets().nets();
        for (int n = 0; n < nets.size() && n < Short.MAX_VALUE; n++) {
            for (NetPlace place : nets.get(n).places()) {
                if (x.design().sideOf(place.face()) != copper.side()) {
                    continue;
                }
                var map = x.design().blankFromDesign(copper.side());
                for (double[] p : place.probes()) {
                    double px = map.xMm(p[0], p[1]);
                    double py = map.yMm(p[0], p[1]);
                    int piece = copper.map().pieceAt(px, py);
                    if (piece >= 0) {
                        byPiece.computeIfAbsent(piece, k -> new ArrayList<>()).add(new CopperBridges.Seed(n, px, py));
                    }
                }
            }
        }
        return byPiece;
    }

    private static void onPiece(
            Examination x, CopperFacts copper, int index, List<CopperBridges.Seed> seeds, List<Told> out) {
        Piece piece = copper.map().pieces().get(index);
        LayerImage layer = x.design().layerUp(copper.side());
        LayerImage laid = layer == null ? null : layer.mapped(x.design().blankFromDesign(copper.side()));
        List<CopperBridges.Bridge> bridges = CopperBridges.find(
                (px, py) -> copper.map().pieceAt(px, py) == index,
                thinned(copper, x.foilMm()),
                new double[] {piece.x0Mm(), piece.y0Mm(), piece.x1Mm(), piece.y1Mm()},
                copper.field().cellMm(),
                (x0, y0, cell, columns, rows) ->
                        laid == null ? new BitSet() : laid.rasterise(new RasterGrid(x0, y0, cell, columns, rows)),
                seeds);
        for (CopperBridges.Bridge bridge : bridges) {
            String a = x.design().nets().nets().get(bridge.netA()).name();
            String b = x.design().nets().nets().get(bridge.netB()).name();
            if (out.size() < MOST) {
                out.add(told(x, copper, bridge, a, b));
            }
        }
    }

    /** What cutters left of the foil; asked row by row. */
    private static CopperBridges.Floor thinned(CopperFacts copper, double foilMm) {
        MarginField field = copper.field();
        float[] margins = new float[field.columns()];
        int[] loaded = {-1};
        return (px, py) -> {
            int column = (int) Math.floor(px / field.cellMm());
            int row = (int) Math.floor(py / field.cellMm());
            if (column < 0 || row < 0 || column >= field.columns() || row >= field.rows()) {
                return 0;
            }
            if (loaded[0] != row) {
                field.marginRow(row, margins);
                loaded[0] = row;
            }
            return margins[column] > 0 && margins[column] < foilMm - THINNED_MM ? margins[column] / foilMm : 0;
        };
    }

    private static Told told(Examination x, CopperFacts copper, CopperBridges.Bridge bridge, String a, String b) {
        double step = copper.field().cellMm() / 2;
        Chord chord = Chord.narrowest(
                (px, py) -> copper.field().exactMarginMm(px, py) > 0 && onBlank(copper, px, py),
                bridge.xMm(),
                bridge.yMm(),
                step,
                WIDEST_MM);
        double px = chord == null ? bridge.xMm() : chord.xMm();
        double py = chord == null ? bridge.yMm() : chord.yMm();
        // where no groove is cut at all, its meant way may run across all the same
        Finding.Builder f = Finding.of(Kinds.SHORT, Severity.STOP, Certainty.GEOMETRY)
                .side(copper.side())
                .at(px, py);
        String where = " at " + Words.place(px, py);
        int floor = chord == null ? grooveOver(x, copper, px, py) : -1;
        Cause cause = floor < 0 ? cause(x, copper.side(), px, py) : new Cause(floor, true, "", new double[] {px, py});
        Crossing over = floor >= 0 || cause.over() ? null : Crossing.of(x, copper, chord, px, py);
        if (over != null) {
            floor = over.segment();
            px = over.xMm();
            py = over.yMm();
            where = " at " + Words.place(px, py);
            f.at(px, py);
            cause = new Cause(floor, true, "", new double[] {px, py});
        }
        boolean shallow = floor >= 0;
        if (shallow) {
            double left = over == null
                    ? leastMarginMm(copper, px, py)
                    : copper.field().exactMarginMm(px, py);
            f.atMost(Measured.mm(SHALLOW, Math.min(left, x.foilMm()), 0.001), 0)
                    .says("Nets " + a + " and " + b + " are joined: line "
                            + x.plan().segments().line(floor) + " runs between them" + where + ", but "
                            + (left > x.foilMm() + 1e-6
                                    ? "passes " + Words.um(left - x.foilMm()) + " above the foil there."
                                    : "leaves " + Words.um(left) + " of foil on its floor."));
        } else if (chord == null) {
            f.says("Nets " + a + " and " + b + " are joined: no groove runs between them" + where
                    + ", the copper there is more than " + Words.plainMm(WIDEST_MM) + " wide.");
        } else {
            f.atMost(Measured.mm("bridge width", chord.lengthMm(), 0.002), 0)
                    .says("Nets " + a + " and " + b + " are joined by a bridge of copper " + Words.mm(chord.lengthMm())
                            + " wide at the foil bottom" + where + ". " + cause.words());
        }
        if (cause.segment() >= 0) {
            Segments s = x.plan().segments();
            f.line(x.plan().programOf(cause.segment()).file(), s.line(cause.segment()))
                    .time(s.endS(cause.segment()))
                    .tool(x.run(s.run(cause.segment())).toolName());
        }
        String remedy = shallow
                ? "Line " + x.plan().segments().line(floor) + ": "
                        + Words.plainMm((over == null
                                        ? leastMarginMm(copper, px, py)
                                        : copper.field().exactMarginMm(px, py))
                                + x.limit(LimitKey.FOIL_CLEARED))
                        + " deeper here clears the foil."
                : remedy(x, copper, chord, cause);
        return new Told(a, b, shallow, f.doThis(remedy).build());
    }

    private static boolean onBlank(CopperFacts copper, double px, double py) {
        return px >= 0
                && py >= 0
                && px <= copper.field().widthMm()
                && py <= copper.field().heightMm();
    }

    /** Where a groove as it was meant runs across the copper between two nets, too high to cut it. */
    private record Crossing(int segment, double xMm, double yMm) {
        private static final int STEPS = 64;

        /** The crossing of the way over a bridge, or past a place where nets meet; null where none crosses. */
        static @Nullable Crossing of(Examination x, CopperFacts copper, @Nullable Chord chord, double px, double py) {
            Segments s = x.plan().segments();
            for (RunFacts run : x.runs()) {
                if (run.side().number() != copper.side() || run.tool() == null) {
                    continue;
                }
                double r = run.tool().cutRadiusAtHeightMm(0);
                double[] a = chord == null ? null : new double[] {chord.x0Mm(), chord.y0Mm()};
                double[] b = chord == null ? null : new double[] {chord.x1Mm(), chord.y1Mm()};
                double[] near = {px - WIDEST_MM / 2, py - WIDEST_MM / 2, px + WIDEST_MM / 2, py + WIDEST_MM / 2};
                for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                    double[] box = s.planBox(i);
                    boolean meant = s.isFeed(i)
                            && s.planLengthMm(i) > 0
                            && run.depthMm(s.lowestMm(i)) - run.zErrorMm() > x.foilMm()
                            && box[0] <= near[2]
                            && box[1] <= near[3]
                            && box[2] >= near[0]
                            && box[3] >= near[1];
                    for (int k = 0; meant && k < STEPS; k++) {
                        double[] p = s.pointAt(i, (double) k / STEPS);
                        double[] q = s.pointAt(i, (k + 1.0) / STEPS);
                        double[] at = a == null || b == null ? past(p, q, px, py, r) : meets(p, q, a, b);
                        if (at != null && copper.field().exactMarginMm(at[0], at[1]) > 0) {
                            return new Crossing(i, at[0], at[1]);
                        }
                    }
                }
            }
            return null;
        }

        private static double @Nullable [] past(double[] p, double[] q, double px, double py, double within) {
            double dx = q[0] - p[0];
            double dy = q[1] - p[1];
            double t = ((px - p[0]) * dx + (py - p[1]) * dy) / Math.max(1e-18, dx * dx + dy * dy);
            double u = Math.max(0, Math.min(1, t));
            double[] at = {p[0] + u * dx, p[1] + u * dy};
            return StrictMath.hypot(at[0] - px, at[1] - py) <= within ? at : null;
        }

        private static double @Nullable [] meets(double[] p, double[] q, double[] a, double[] b) {
            double dx = q[0] - p[0];
            double dy = q[1] - p[1];
            double ex = b[0] - a[0];
            double ey = b[1] - a[1];
            double det = dx * ey - dy * ex;
            if (Math.abs(det) < 1e-15) {
                return null;
            }
            double t = ((a[0] - p[0]) * ey - (a[1] - p[1]) * ex) / det;
            double u = ((a[0] - p[0]) * dy - (a[1] - p[1]) * dx) / det;
            return t < 0 || t > 1 || u < 0 || u > 1 ? null : new double[] {p[0] + t * dx, p[1] + t * dy};
        }
    }

    /** What left the bridge. {@code over}: the cutter passed there, but not deep enough. */
    private record Cause(int segment, boolean over, String words, double[] at) {}

    private static Cause cause(Examination x, int side, double px, double py) {
        Segments s = x.plan().segments();
        int over = -1;
        int end = -1;
        int start = -1;
        double overLow = Double.POSITIVE_INFINITY;
        double endD = Double.POSITIVE_INFINITY;
        double startD = Double.POSITIVE_INFINITY;
        for (RunFacts run : x.runs()) {
            if (run.side().number() != side || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (!s.isFeed(i) || s.planLengthMm(i) == 0) {
                    continue;
                }
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (low < 0.5 && low < overLow && Paths.distanceMm(s, i, px, py) < OVER_MM) {
                    over = i;
                    overLow = low;
                }
                if (low >= 0) {
                    continue;
                }
                double d = StrictMath.hypot(s.x1Mm(i) - px, s.y1Mm(i) - py);
                if (d < endD - 1e-6 && leaves(x, i, run)) {
                    endD = d;
                    end = i;
                }
                d = StrictMath.hypot(s.x0Mm(i) - px, s.y0Mm(i) - py);
                if (d < startD - 1e-6 && enters(x, i, run)) {
                    startD = d;
                    start = i;
                }
            }
        }
        if (over >= 0) {
            return new Cause(
                    over,
                    true,
                    "Line " + s.line(over) + " runs over it, but not deep enough to cut the foil there.",
                    new double[] {px, py});
        }
        if (end >= 0 && endD <= 1.5 * startD + 0.2) {
            return new Cause(
                    end,
                    false,
                    "The groove of line " + s.line(end) + " ends " + Words.plainMm(endD) + " from it.",
                    new double[] {s.x1Mm(end), s.y1Mm(end)});
        }
        if (start >= 0) {
            return new Cause(
                    start,
                    false,
                    "The groove of line " + s.line(start) + " begins only " + Words.plainMm(startD) + " from it.",
                    new double[] {s.x0Mm(start), s.y0Mm(start)});
        }
        return new Cause(-1, false, "No groove ends near it.", new double[] {px, py});
    }

    /** Whether the cutter leaves the foil where a segment ends. */
    static boolean leaves(Examination x, int i, RunFacts run) {
        Segments s = x.plan().segments();
        return i + 1 >= run.run().endSegment() || run.blankFromRunMm(Math.max(s.z0Mm(i + 1), s.z1Mm(i + 1))) >= 0;
    }

    /** Whether the cutter came into the foil where a segment begins. */
    static boolean enters(Examination x, int i, RunFacts run) {
        Segments s = x.plan().segments();
        return i == run.run().firstSegment() || run.blankFromRunMm(Math.max(s.z0Mm(i - 1), s.z1Mm(i - 1))) >= 0;
    }

    /**
     * The line whose groove runs over a place where nets meet and only leaves foil on its floor; -1 where no cutter took
     * any foil there.
     */
    private static int grooveOver(Examination x, CopperFacts copper, double px, double py) {
        if (leastMarginMm(copper, px, py) > x.foilMm() - 1e-6) {
            return -1;
        }
        Segments s = x.plan().segments();
        int nearest = -1;
        double least = Double.POSITIVE_INFINITY;
        for (RunFacts run : x.runs()) {
            if (run.side().number() != copper.side() || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (s.isFeed(i) && s.planLengthMm(i) > 0 && run.blankFromRunMm(s.lowestMm(i)) < 0) {
                    double d = Paths.distanceMm(s, i, px, py);
                    if (d < least - 1e-9) {
                        least = d;
                        nearest = i;
                    }
                }
            }
        }
        return nearest;
    }

    /** The least depth that is missing to the foil bottom round a place: floods meet beside a groove's middle, too, mm. */
    private static double leastMarginMm(CopperFacts copper, double px, double py) {
        double least = copper.field().exactMarginMm(px, py);
        for (int k = 0; k < 24; k++) {
            double r = BESIDE_MM * (1 + k / 8) / 3;
            double a = k * StrictMath.PI / 4;
            double qx = px + r * StrictMath.cos(a);
            double qy = py + r * StrictMath.sin(a);
            if (onBlank(copper, qx, qy)) {
                least = Math.min(least, copper.field().exactMarginMm(qx, qy));
            }
        }
        return least;
    }

    private static String remedy(Examination x, CopperFacts copper, @Nullable Chord chord, Cause cause) {
        String check = " Check that every isolation move is in the program.";
        if (chord == null || cause.segment() < 0) {
            return "Put a groove between the two nets: one pass that no cutter made yet." + check;
        }
        double highest = 0;
        for (int k = 1; k < 40; k++) {
            double t = k / 40.0;
            highest = Math.max(
                    highest,
                    copper.field()
                            .exactMarginMm(
                                    chord.x0Mm() + t * (chord.x1Mm() - chord.x0Mm()),
                                    chord.y0Mm() + t * (chord.y1Mm() - chord.y0Mm())));
        }
        double deeper = highest + x.limit(LimitKey.FOIL_CLEARED);
        boolean known = highest < copper.field().capMm() - 1e-6;
        String plain = "Line " + x.plan().segments().line(cause.segment()) + ": ";
        if (cause.over()) {
            return known
                    ? plain + Words.plainMm(deeper) + " deeper here closes it."
                    : plain + "take it down to the depth of the rest of the groove here.";
        }
        Tool tool = x.run(x.plan().segments().run(cause.segment())).knownTool();
        double half = tool.cutRadiusAtHeightMm(Math.max(
                0,
                -x.run(x.plan().segments().run(cause.segment()))
                                .blankFromRunMm(x.plan().segments().lowestMm(cause.segment()))
                        - x.foilMm()));
        double ax = cause.at()[0];
        double ay = cause.at()[1];
        double dx = chord.xMm() - ax;
        double dy = chord.yMm() - ay;
        double d = Math.max(1e-9, StrictMath.hypot(dx, dy));
        double length = Math.max(0.01, d + chord.lengthMm() / 2 - half + 0.01);
        String groove = "about " + Words.number(length, 2) + " mm of groove on from " + Words.place(ax, ay)
                + " towards " + Words.place(ax + dx / d * length, ay + dy / d * length) + " closes it";
        return plain + groove
                + (known && deeper <= MOST_DEEPER_MM ? ", or " + Words.plainMm(deeper) + " deeper here" : "")
                + "; run a lead-over of 0.3 to 0.5 mm where a loop closes.";
    }
}
