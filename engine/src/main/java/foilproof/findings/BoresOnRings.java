package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.HoleFit;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import foilproof.motion.ToolRun;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Bores against the rings that are milled round them, program by program (B8, B19, A23), where no layer image says
 * where the copper should be: shift, scale, turn, and scatter. Bores of a program whose units nobody states are judged
 * as if they were inches where their size says so: what remains when that is mended.
 */
final class BoresOnRings implements Check {
    private static final double INCH = 25.4;
    private static final double LARGEST_RING_MM = 8;
    private static final double SAME_MIDDLE_MM = 0.02;
    /** Sweep from which a round end of a groove has a middle of its own: nearly half a turn, rad. */
    private static final double END_SWEEP_RAD = 2.7;

    /** Places are rounded to 0.0005 mm, in inches to 0.0013 mm; a fit of several pairs is no worse. */
    private static final double PLUS_MINUS_MM = 0.0013;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SIDES_SHIFTED, Kinds.MIRRORED, Kinds.OTHER_REVISION, Kinds.HOLE_MISSING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A23", "B8", "B11", "B19", "G3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (var side : x.job().sides()) {
            if (x.design().layerUp(side.number()) == null) {
                side(x, side.number(), out);
            }
        }
    }

    private static void side(Examination x, int side, FindingCollector out) {
        List<double[]> rings = rings(x, side);
        if (rings.size() < SharedShift.LEAST_PAIRS) {
            return;
        }
        across(x, side, rings, out);
        Map<Integer, List<foilproof.motion.Hole>> byProgram = new TreeMap<>();
        Segments s = x.plan().segments();
        for (foilproof.motion.Hole hole : x.paths().holes()) {
            boolean unit = s.has(hole.firstSegment(), Segments.UNITS_UNSET);
            if (hole.side() == side && (unit || hole.depthMm() > x.thicknessMm() / 2)) {
                byProgram
                        .computeIfAbsent(s.program(hole.firstSegment()), p -> new ArrayList<>())
                        .add(hole);
            }
        }
        byProgram.forEach((program, holes) -> program(x, side, rings, holes, out));
    }

    /**
     * Holes made from an earlier side against the rings of this one (B11): where they fit as the blank is said to be
     * turned, how far they lie off; where they fit in another way only, that way.
     */
    private static void across(Examination x, int side, List<double[]> rings, FindingCollector out) {
        List<double[]> holes = new ArrayList<>();
        for (Hole hole : x.holes()) {
            if (hole.side() < side && hole.through()) {
                holes.add(new double[] {
                    x.stock().xOnSideMm(hole.side(), side, hole.xMm()),
                    x.stock().yOnSideMm(hole.side(), side, hole.yMm())
                });
            }
        }
        if (holes.size() < SharedShift.LEAST_PAIRS) {
            return;
        }
        int cut = PlaceOfDesign.firstCut(x, side);
        HoleFit nearest = HoleFit.fit(holes, rings, PlaceOfDesign.BORES_WITHIN_MM);
        int asDeclared = nearest == null ? 0 : nearest.matched().size();
        if (otherWay(x, side, holes, rings, asDeclared, cut, out)) {
            return;
        }
        HoleFit fit = SharedShift.fit(holes, rings, PlaceOfDesign.BORES_WITHIN_MM, rings.size());
        if (fit == null || !SharedShift.alike(fit)) {
            return;
        }
        double shift = StrictMath.hypot(fit.dxMm(), fit.dyMm());
        double fix = x.limit(LimitKey.SIDES_RESIDUAL);
        double watch = x.limit(LimitKey.XY_SHIFT_WATCH);
        if (shift <= watch + PLUS_MINUS_MM) {
            return;
        }
        boolean far = shift > fix + PLUS_MINUS_MM;
        out.add(x.at(Finding.of(Kinds.SIDES_SHIFTED, far ? Severity.FIX : Severity.WATCH, Certainty.GEOMETRY), cut)
                .atMost(Measured.mm("shift", shift, PLUS_MINUS_MM), far ? fix : watch)
                .says(String.format(
                        Locale.ROOT,
                        "The rings of side %d lie %s off the holes made from the side before; %d pairs,"
                                + " %.3f mm of scatter is left.",
                        side,
                        Words.shift(-fit.dxMm(), -fit.dyMm()),
                        fit.matched().size(),
                        fit.scatterMm()))
                .doThis(String.format(
                        Locale.ROOT,
                        "Move the work zero of side %d by %s, or touch off against the pins again.",
                        side,
                        Words.shift(fit.dxMm(), fit.dyMm())))
                .build());
    }

    private static boolean otherWay(
            Examination x,
            int side,
            List<double[]> holes,
            List<double[]> rings,
            int asDeclared,
            int cut,
            FindingCollector out) {
        int[][] ways = {{-1, 1}, {1, -1}, {-1, -1}};
        String[] words = {"mirrored left to right", "mirrored front to back", "turned by half a turn"};
        int best = -1;
        int most = 0;
        for (int k = 0; k < ways.length; k++) {
            int n = pairs(holes, rings, ways[k][0], ways[k][1]);
            if (n > most) {
                most = n;
                best = k;
            }
        }
        if (best < 0 || most < SharedShift.LEAST_PAIRS + 1 || 10 * most < 8 * rings.size() || most < asDeclared + 2) {
            return false;
        }
        out.add(x.at(Finding.of(Kinds.MIRRORED, Severity.STOP, Certainty.GEOMETRY), cut)
                .measured(new Measured("rings round a hole " + words[best], most, "", null))
                .says("The rings of side " + side + " fit the holes made from the side before only " + words[best]
                        + ": " + most + " of " + rings.size() + " then lie round a hole, as declared " + asDeclared
                        + ".")
                .doThis("Check about which axis the blank is turned, and how the copper of this side was exported.")
                .build());
        return true;
    }

    /** How many rings lie round a hole when the holes, mirrored so, are laid with their box in the middle of the rings'. */
    private static int pairs(List<double[]> holes, List<double[]> rings, int signX, int signY) {
        double[] h = middle(holes);
        double[] r = middle(rings);
        int count = 0;
        for (double[] ring : rings) {
            for (double[] hole : holes) {
                if (StrictMath.hypot(
                                r[0] + signX * (hole[0] - h[0]) - ring[0], r[1] + signY * (hole[1] - h[1]) - ring[1])
                        < 0.3) {
                    count++;
                    break;
                }
            }
        }
        return count;
    }

    private static double[] middle(List<double[]> points) {
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (double[] p : points) {
            box[0] = Math.min(box[0], p[0]);
            box[1] = Math.min(box[1], p[1]);
            box[2] = Math.max(box[2], p[0]);
            box[3] = Math.max(box[3], p[1]);
        }
        return new double[] {(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
    }

    private static void program(
            Examination x, int side, List<double[]> rings, List<foilproof.motion.Hole> holes, FindingCollector out) {
        Segments s = x.plan().segments();
        List<double[]> bores = new ArrayList<>();
        boolean inch = false;
        for (foilproof.motion.Hole hole : holes) {
            bores.add(new double[] {hole.xMm(), hole.yMm()});
            inch |= s.has(hole.firstSegment(), Segments.UNITS_UNSET);
        }
        HoleFit plain = HoleFit.fit(bores, rings, 1.0);
        if (holes.size() < SharedShift.LEAST_PAIRS) {
            return;
        }
        if (inch && plain != null && plain.unitsSlipped()) {
            ToolRun run = x.run(holes.get(0).run()).run();
            for (double[] bore : bores) {
                bore[0] = run.workZeroXMm() + INCH * (bore[0] - run.workZeroXMm());
                bore[1] = run.workZeroYMm() + INCH * (bore[1] - run.workZeroYMm());
            }
        } else {
            // the machine's own units were right
            inch = false;
            holes = holes.stream()
                    .filter(h -> h.depthMm() > x.thicknessMm() / 2)
                    .toList();
            bores = new ArrayList<>();
            for (foilproof.motion.Hole hole : holes) {
                bores.add(new double[] {hole.xMm(), hole.yMm()});
            }
        }
        if (holes.isEmpty()
                || scattered(
                        x,
                        side,
                        bores,
                        rings,
                        "the rings milled round them",
                        holes.get(0).firstSegment(),
                        out)) {
            return;
        }
        HoleFit fit = SharedShift.fit(bores, rings, PlaceOfDesign.BORES_WITHIN_MM, bores.size());
        if (fit == null || !SharedShift.alike(fit)) {
            return;
        }
        if (x.design().read().drill() == null) {
            moved(x, fit, holes, bores, rings, out);
        }
        tell(x, side, fit, holes.get(0).firstSegment(), bores, inch, out);
    }

    /** Holes that lie off their ring while all others lie on theirs (G3 where no drill file says where they belong). */
    private static void moved(
            Examination x,
            HoleFit fit,
            List<foilproof.motion.Hole> holes,
            List<double[]> bores,
            List<double[]> rings,
            FindingCollector out) {
        HoleFit all = HoleFit.fit(bores, rings, PlaceOfDesign.BORES_WITHIN_MM);
        if (all == null) {
            return;
        }
        double limit = x.limit(LimitKey.HOLE_PLACE);
        for (HoleFit.Pair pair : all.matched()) {
            double dx = bores.get(pair.bore())[0] - rings.get(pair.place())[0];
            double dy = bores.get(pair.bore())[1] - rings.get(pair.place())[1];
            double off = StrictMath.hypot(dx - fit.dxMm(), dy - fit.dyMm());
            if (fit.matched().stream().anyMatch(p -> p.bore() == pair.bore()) || off <= limit + PLUS_MINUS_MM) {
                continue;
            }
            out.add(x.at(
                            Finding.of(Kinds.HOLE_MISSING, Severity.STOP, Certainty.GEOMETRY),
                            holes.get(pair.bore()).firstSegment())
                    .at(bores.get(pair.bore())[0], bores.get(pair.bore())[1])
                    .atMost(Measured.mm("distance from the ring's middle", off, PLUS_MINUS_MM), limit)
                    .says(String.format(
                            Locale.ROOT,
                            "This hole lies (%+.2f, %+.2f) mm off the middle of the ring milled round it; %d others of this"
                                    + " program lie on theirs. It was moved, or its ring was.",
                            dx,
                            dy,
                            fit.matched().size()))
                    .doThis("Export copper and holes again from one revision, and compare this hole's X and Y.")
                    .build());
        }
    }

    private static void tell(
            Examination x,
            int side,
            HoleFit fit,
            int segment,
            List<double[]> bores,
            boolean inch,
            FindingCollector out) {
        double shift = StrictMath.hypot(fit.dxMm(), fit.dyMm());
        boolean scaled = SharedShift.scaled(x, fit);
        double watch = x.limit(LimitKey.XY_SHIFT_WATCH);
        double fix = x.limit(LimitKey.XY_SHIFT_FIX);
        if (shift <= watch + PLUS_MINUS_MM && !scaled) {
            return;
        }
        boolean far = shift > fix + PLUS_MINUS_MM || scaled;
        out.add(x.at(Finding.of(Kinds.SIDES_SHIFTED, far ? Severity.FIX : Severity.WATCH, Certainty.GEOMETRY), segment)
                .side(side)
                .at(bores.get(0)[0], bores.get(0)[1])
                .atMost(Measured.mm("shift", shift, PLUS_MINUS_MM), far ? fix : watch)
                .says(String.format(
                        Locale.ROOT,
                        "The bores of this program lie %s off the rings milled round them%s%s; %d of %d bores"
                                + " have a ring, %.3f mm of scatter is left.",
                        Words.shift(fit.dxMm(), fit.dyMm()),
                        scaled
                                ? String.format(
                                        Locale.ROOT,
                                        ", scaled by %.4f and turned by %s deg",
                                        fit.scale(),
                                        Words.signed(fit.turnDeg(), 3))
                                : "",
                        inch ? ", once its units are taken as inches" : "",
                        fit.matched().size(),
                        bores.size(),
                        fit.scatterMm()))
                .doThis(
                        scaled
                                ? "Calibrate the axes, or export both programs at one scale."
                                : String.format(
                                        Locale.ROOT,
                                        "Use one XY zero for all programs of a side: move that of this program by %s.",
                                        Words.shift(-fit.dxMm(), -fit.dyMm())))
                .build());
    }

    /** Tells holes that lie on no pattern of the other file: more scatter than one shift, scale and turn explain. */
    static boolean scattered(
            Examination x,
            int side,
            List<double[]> bores,
            List<double[]> places,
            String what,
            int segment,
            FindingCollector out) {
        HoleFit fit = HoleFit.fit(bores, places, 1.0);
        double limit = x.limit(LimitKey.FIT_SCATTER);
        if (fit == null || fit.unitsSlipped() || fit.matched().size() < 4 || fit.scatterMm() <= limit + 1e-6) {
            return false;
        }
        HoleFit agreed = fit.agreeing(bores, places);
        if (agreed.matched().size() == fit.matched().size() - 1 && SharedShift.alike(agreed)) {
            // all but one lie on their places: that one was moved
            return false;
        }
        out.add(x.at(Finding.of(Kinds.OTHER_REVISION, Severity.STOP, Certainty.GEOMETRY), segment)
                .side(side)
                .atMost(Measured.mm("scatter left after the best fit", fit.scatterMm(), 0.01), limit)
                .says(String.format(
                        Locale.ROOT,
                        "The bores of side %d and %s are of two boards: %s of scatter is left after the best shift, scale and"
                                + " turn of %d pairs, up to %.2f mm.",
                        side,
                        what,
                        Words.mm(fit.scatterMm()),
                        fit.matched().size(),
                        fit.worstMm()))
                .doThis("Export copper, holes and outline again from one revision of one board, all at once.")
                .build());
        return true;
    }

    /** Middles of round or square rings of copper work, the inner one where several lie round one place. */
    static List<double[]> rings(Examination x, int side) {
        List<double[]> rings = new ArrayList<>();
        for (CutLoop loop : x.paths().loops()) {
            Extents e = loop.extents();
            double w = e.x1Mm() - e.x0Mm();
            double h = e.y1Mm() - e.y0Mm();
            if (loop.side() != side
                    || loop.depthMm() > foilproof.motion.Toolpaths.COPPER_DEPTH_MM
                    || Math.abs(w - h) > 0.02
                    || w > LARGEST_RING_MM
                    || loop.areaMm2() < 0.3 * w * h) {
                continue;
            }
            double px = (e.x0Mm() + e.x1Mm()) / 2;
            double py = (e.y0Mm() + e.y1Mm()) / 2;
            boolean known = false;
            for (double[] ring : rings) {
                known |= StrictMath.hypot(ring[0] - px, ring[1] - py) < SAME_MIDDLE_MM;
            }
            if (!known) {
                rings.add(new double[] {px, py});
            }
        }
        ends(x, side, rings);
        return rings;
    }

    /** Adds the middles of round ends of grooves: half a turn and more about one place, as round a land with its trace. */
    private static void ends(Examination x, int side, List<double[]> rings) {
        Segments s = x.plan().segments();
        for (Stroke stroke : x.copperWork().on(side)) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (!s.isArc(i) || s.radiusMm(i) > LARGEST_RING_MM / 2) {
                    continue;
                }
                double sweep = s.sweepRad(i);
                int j = i + 1;
                while (j < stroke.endSegment()
                        && s.isArc(j)
                        && StrictMath.hypot(s.cxMm(j) - s.cxMm(i), s.cyMm(j) - s.cyMm(i)) < SAME_MIDDLE_MM) {
                    sweep += s.sweepRad(j++);
                }
                double px = s.cxMm(i);
                double py = s.cyMm(i);
                if (Math.abs(sweep) > END_SWEEP_RAD
                        && rings.stream().noneMatch(r -> StrictMath.hypot(r[0] - px, r[1] - py) < SAME_MIDDLE_MM)) {
                    rings.add(new double[] {px, py});
                }
                i = j - 1;
            }
        }
    }
}
