package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.Work;
import foilproof.copper.NarrowGap;
import foilproof.copper.StripFinder;
import foilproof.design.LayerImage;
import foilproof.design.Pad;
import foilproof.design.PlaneMap;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Lands and pads of the layer image as milled: width that a V-shaped groove eats (D3), gaps beside them too narrow to
 * solder by hand (E4), area left (E9), heat drawn off into large copper (E10), little copper round a bore (F9); and
 * lettering too small for its groove (E12). Judged only where a layer image says where lands are.
 */
final class Lands implements Check {
    private static final int MOST_FOLDED = 40;
    private static final int GRID = 40;
    /** Samples across a land whose share of copper may matter: an edge between them is off by half a part in 160. */
    private static final int FINE_GRID = 160;
    /** An edge off by half a sample on every side of a land, and the copper's by as much: 4 x 0.5 / GRID. */
    private static final double AREA_ROUGH = 0.05;
    /** Copper is asked this far beyond a land's edge (E10), mm. */
    private static final double BESIDE_MM = 0.15;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOO_DEEP, Kinds.NARROW_GAP, Kinds.LAND_SMALL, Kinds.LAND_HEAT, Kinds.LETTERING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("D3", "E4", "E9", "E10", "E12", "F9");
    }

    /** A pad on the blank: design's pad, place, half sides along the blank's X and Y, bored radius there. */
    private record Land(Pad pad, double xMm, double yMm, double halfXMm, double halfYMm, double holeMm) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CopperFacts copper : x.copper()) {
            LayerImage layer = x.design().layerUp(copper.side());
            if (layer == null || copper.windows().isEmpty()) {
                continue;
            }
            List<Land> lands = lands(x, copper.side(), layer);
            RunFacts run = engraving(x, copper);
            // where foil stays in the grooves every land is joined to all
            boolean cleared = copper.left().values().stream().allMatch(List::isEmpty);
            List<Suspect> deep = new ArrayList<>();
            List<Suspect> small = new ArrayList<>();
            List<Suspect> heat = new ArrayList<>();
            for (Land land : lands) {
                boolean untouched = untouched(x, copper, run, land);
                if (!untouched) {
                    add(deep, run == null ? null : width(x, copper, run, layer, land));
                    double[] areas = areas(x, copper, layer, land);
                    add(small, area(x, copper, land, areas));
                    add(heat, lifting(x, copper, land, areas));
                }
                add(heat, cleared ? thermal(x, copper, land, untouched) : null);
            }
            lead(deep, out);
            lead(small, out);
            lead(heat, out);
            lead(gaps(x, copper, layer, lands), out);
        }
        lettering(x, out);
    }

    /** A land with something to say, said only of the worst: an image may flash a million. */
    private record Suspect(Severity severity, double value, Supplier<Finding> finding) {}

    /** Whether no wall of a groove or bore comes near a land, on top of the foil or below. */
    private static boolean untouched(Examination x, CopperFacts copper, @Nullable RunFacts run, Land land) {
        double slope = run == null
                ? 0
                : run.knownTool()
                        .cutRadiusAtHeightMm(
                                x.foilMm() + Math.max(0, x.spreadOf(run).toMm()));
        double reach = Math.max(BESIDE_MM, slope) + copper.field().cellMm();
        return copper.map()
                .wholeIn(
                        land.xMm - land.halfXMm - reach,
                        land.yMm - land.halfYMm - reach,
                        land.xMm + land.halfXMm + reach,
                        land.yMm + land.halfYMm + reach);
    }

    private static void add(List<Suspect> list, @Nullable Suspect f) {
        if (f != null) {
            list.add(f);
        }
    }

    private static void lead(List<Suspect> all, FindingCollector out) {
        if (!all.isEmpty()) {
            all.sort(Comparator.comparing(Suspect::severity).thenComparing(Suspect::value));
            List<Finding> told = new ArrayList<>();
            for (Suspect f : all.subList(0, Math.min(all.size(), 1 + MOST_FOLDED))) {
                told.add(f.finding().get());
            }
            out.add(told.get(0).withConsequences(told.subList(1, told.size())));
        }
    }

    private static List<Land> lands(Examination x, int side, LayerImage layer) {
        PlaneMap map = x.design().blankFromDesign(side);
        List<double[]> bored = bored(x, side);
        List<Land> lands = new ArrayList<>();
        for (Pad pad : layer.pads()) {
            double px = map.xMm(pad.xMm(), pad.yMm());
            double py = map.yMm(pad.xMm(), pad.yMm());
            if (px < 0
                    || py < 0
                    || px > x.job().blank().widthMm()
                    || py > x.job().blank().heightMm()) {
                continue;
            }
            double qx = map.xMm(pad.xMm() + 1, pad.yMm()) - px;
            boolean turned = Math.abs(qx) < 0.5;
            double hole = 0;
            double near = 0.25 * (pad.widthMm() + pad.heightMm());
            for (double[] h : bored) {
                if (Math.abs(h[0] - px) < near && StrictMath.hypot(h[0] - px, h[1] - py) < near) {
                    hole = Math.max(hole, h[2]);
                }
            }
            lands.add(new Land(
                    pad,
                    px,
                    py,
                    0.5 * (turned ? pad.heightMm() : pad.widthMm()),
                    0.5 * (turned ? pad.widthMm() : pad.heightMm()),
                    hole));
        }
        return lands;
    }

    /** Holes through the foil of a side: X, Y on that side and radius there, mm. */
    private static List<double[]> bored(Examination x, int side) {
        List<double[]> out = new ArrayList<>();
        for (Hole h : x.holes()) {
            boolean own = h.side() == side;
            if ((own || h.through())
                    && -h.tipMm() > x.thicknessMm() / 2
                    && x.run(h.run()).tool() != null) {
                out.add(new double[] {
                    x.stock().xOnSideMm(h.side(), side, h.xMm()),
                    x.stock().yOnSideMm(h.side(), side, h.yMm()),
                    Rings.radiusMm(x, h, own)
                });
            }
        }
        return out;
    }

    /** D3: the width on top across the shorter side, with the deepest error that the spread allows. */
    private static @Nullable Suspect width(
            Examination x, CopperFacts copper, RunFacts run, LayerImage layer, Land land) {
        boolean alongX = land.halfXMm <= land.halfYMm;
        double half = alongX ? land.halfXMm : land.halfYMm;
        double ux = alongX ? 1 : 0;
        double uy = alongX ? 0 : 1;
        // A line beside the bore where there is one.
        double aside = land.holeMm > 0 ? 0.5 * (land.holeMm + (alongX ? land.halfYMm : land.halfXMm)) : 0;
        double sx = land.xMm + (alongX ? 0 : aside);
        double sy = land.yMm + (alongX ? aside : 0);
        double e = Math.max(0, x.spreadOf(run).toMm());
        double designed = designedMm(x, copper.side(), layer, sx, sy, ux, uy, half);
        // no further: beyond the groove the copper stands higher
        double reach = half + 0.02;
        double top = StripFinder.widthMm(copper.field(), sx, sy, ux, uy, reach, x.foilMm() - 1e-6 + e);
        double bottom = StripFinder.widthMm(copper.field(), sx, sy, ux, uy, reach, 0);
        double loss = designed - top;
        double bad = x.limit(LimitKey.WIDTH_LEFT_FIX);
        double thin = x.limit(LimitKey.WIDTH_LEFT_WATCH);
        boolean eaten = loss > x.limit(LimitKey.WIDTH_LOSS) * designed + 1e-6;
        boolean slopes = bottom - top > 0.002;
        boolean much = loss > 0.05 * designed;
        if (!slopes || designed <= 0 || top <= 0 || !(eaten || much && top < thin - 1e-6)) {
            return null;
        }
        boolean fix = top < bad - 1e-6 && much;
        double limit = fix ? bad : eaten ? (1 - x.limit(LimitKey.WIDTH_LOSS)) * designed : thin;
        Severity severity = fix ? Severity.FIX : Severity.WATCH;
        return new Suspect(severity, top, () -> {
            Finding.Builder b = Finding.of(Kinds.TOO_DEEP, severity, Certainty.SET_UP)
                    .side(copper.side())
                    .at(land.xMm, land.yMm)
                    .atLeast(Measured.mm("width on top", top, 0.002), limit)
                    .says("A groove eats " + Words.number(100 * loss / designed, 0) + " % of the width of "
                            + named(land) + ": " + Words.mm(top) + " of " + Words.plainMm(designed)
                            + " is left on top" + (e > 0 ? " where the cut is " + Words.plainMm(e) + " deeper." : "."))
                    .doThis("Cut shallower, or use a bit with a narrower angle or tip.");
            copper.nearestLine(x, b, land.xMm, land.yMm);
            return b.build();
        });
    }

    /** The V-shaped or ball cutter whose window this side has; null where walls do not slope. */
    private static @Nullable RunFacts engraving(Examination x, CopperFacts copper) {
        for (int index : copper.windows().keySet()) {
            Tool tool = x.run(index).tool();
            if (tool != null && (tool.shape() == ToolShape.V || tool.shape() == ToolShape.BALL)) {
                return x.run(index);
            }
        }
        return null;
    }

    /** Width of the design's copper on a line, at most a little more than the pad; mm. */
    private static double designedMm(
            Examination x, int side, LayerImage layer, double sx, double sy, double ux, double uy, double half) {
        PlaneMap map = x.design().designFromBlank(side);
        double width = 0;
        for (int sign = -1; sign <= 1; sign += 2) {
            double low = 0;
            double high = half + 0.01;
            if (covers(layer, map, sx + sign * high * ux, sy + sign * high * uy)) {
                return -1;
            }
            while (high - low > 1e-4) {
                double mid = 0.5 * (low + high);
                if (covers(layer, map, sx + sign * mid * ux, sy + sign * mid * uy)) {
                    low = mid;
                } else {
                    high = mid;
                }
            }
            width += low;
        }
        return width;
    }

    private static boolean covers(LayerImage layer, PlaneMap map, double px, double py) {
        return layer.covers(map.xMm(px, py), map.yMm(px, py));
    }

    /** Area of the land without its hole: designed, left; mm2. Looked at closely where the loss may matter. */
    private static double[] areas(Examination x, CopperFacts copper, LayerImage layer, Land land) {
        double[] rough = areas(x, copper, layer, land, GRID);
        boolean whole = rough[1] > (x.limit(LimitKey.LAND_SHARE) + AREA_ROUGH) * rough[0];
        boolean large = rough[1] > (1 + AREA_ROUGH) * x.limit(LimitKey.LIFTING_LAND_AREA);
        return whole && large ? rough : areas(x, copper, layer, land, FINE_GRID);
    }

    private static double[] areas(Examination x, CopperFacts copper, LayerImage layer, Land land, int grid) {
        PlaneMap map = x.design().designFromBlank(copper.side());
        int designed = 0;
        int left = 0;
        // no closer than half a cell: the map knows no more
        double closest = Math.ceil(
                4 * Math.max(land.halfXMm, land.halfYMm) / copper.field().cellMm());
        int n = (int) Math.max(4, Math.min(grid, closest));
        for (int j = 0; j < n; j++) {
            for (int i = 0; i < n; i++) {
                double dx = land.halfXMm * (2 * (i + 0.5) / n - 1);
                double dy = land.halfYMm * (2 * (j + 0.5) / n - 1);
                boolean round = land.pad.shape() == Pad.Shape.CIRCLE && dx * dx + dy * dy > land.halfXMm * land.halfXMm;
                if (round || dx * dx + dy * dy <= land.holeMm * land.holeMm) {
                    continue;
                }
                double px = land.xMm + dx;
                double py = land.yMm + dy;
                if (covers(layer, map, px, py)) {
                    designed++;
                    left += copper.map().pieceAt(px, py) >= 0 ? 1 : 0;
                }
            }
        }
        double cell = 4 * land.halfXMm * land.halfYMm / ((double) n * n);
        return new double[] {designed * cell, left * cell};
    }

    private static @Nullable Suspect area(Examination x, CopperFacts copper, Land land, double[] areas) {
        double share = areas[0] <= 0 ? 1 : areas[1] / areas[0];
        double limit = x.limit(LimitKey.LAND_SHARE);
        if (share >= limit - 0.01) {
            return null;
        }
        return new Suspect(Severity.WATCH, 100 * share, () -> {
            Finding.Builder b = Finding.of(Kinds.LAND_SMALL, Severity.WATCH, Certainty.GEOMETRY)
                    .side(copper.side())
                    .at(land.xMm, land.yMm)
                    .atLeast(new Measured("share of the land's area", 100 * share, "%", 2.0), 100 * limit)
                    .says("Of " + named(land) + " only " + Words.number(100 * share, 0)
                            + " % of the designed area is left: too little to solder to.")
                    .doThis("Cut shallower or with a narrower groove, or enlarge the land.");
            copper.nearestLine(x, b, land.xMm, land.yMm);
            return b.build();
        });
    }

    /** E10: copper goes on round more than a share of the land's edge, in a large piece. */
    private static @Nullable Suspect thermal(Examination x, CopperFacts copper, Land land, boolean untouched) {
        int piece = -1;
        int joined = 0;
        int rays = 72;
        if (untouched) {
            piece = copper.map().pieceAt(land.xMm, land.yMm);
            joined = rays;
        }
        for (int k = joined; k < rays; k++) {
            double c = StrictMath.cos(2 * Math.PI * k / rays);
            double s = StrictMath.sin(2 * Math.PI * k / rays);
            double edge = land.pad.shape() == Pad.Shape.CIRCLE
                    ? land.halfXMm
                    : Math.min(
                            Math.abs(c) < 1e-9 ? Double.MAX_VALUE : land.halfXMm / Math.abs(c),
                            Math.abs(s) < 1e-9 ? Double.MAX_VALUE : land.halfYMm / Math.abs(s));
            int at = copper.map().pieceAt(land.xMm + (edge + BESIDE_MM) * c, land.yMm + (edge + BESIDE_MM) * s);
            double within = 0.5 * (Math.min(land.holeMm, edge) + edge);
            boolean own = at >= 0 && at == copper.map().pieceAt(land.xMm + within * c, land.yMm + within * s);
            joined += own ? 1 : 0;
            piece = own ? at : piece;
        }
        double share = (double) joined / rays;
        if (share <= x.limit(LimitKey.THERMAL_SHARE)
                || piece < 0
                || copper.map().pieces().get(piece).areaMm2() <= x.limit(LimitKey.THERMAL_AREA)) {
            return null;
        }
        return new Suspect(
                Severity.NOTE, 100 * share, () -> Finding.of(Kinds.LAND_HEAT, Severity.NOTE, Certainty.RULE_OF_THUMB)
                        .side(copper.side())
                        .at(land.xMm, land.yMm)
                        .atMost(
                                new Measured("share of the edge joined to large copper", 100 * share, "%", 3.0),
                                100 * x.limit(LimitKey.THERMAL_SHARE))
                        .says("Round " + Words.number(100 * share, 0) + " % of its edge " + named(land)
                                + " goes over into large copper, which draws the heat off: soldering needs a big iron, and the"
                                + " foil may lift.")
                        .doThis("Join it by spokes.")
                        .build());
    }

    /** F9: a small land round a bore lifts by heat. */
    private static @Nullable Suspect lifting(Examination x, CopperFacts copper, Land land, double[] areas) {
        if (land.holeMm <= 0 || areas[1] <= 0 || areas[1] >= x.limit(LimitKey.LIFTING_LAND_AREA)) {
            return null;
        }
        return new Suspect(
                Severity.NOTE, areas[1], () -> Finding.of(Kinds.LAND_HEAT, Severity.NOTE, Certainty.RULE_OF_THUMB)
                        .side(copper.side())
                        .at(land.xMm, land.yMm)
                        .atLeast(
                                new Measured("copper round the bore", areas[1], "mm2", 0.03),
                                x.limit(LimitKey.LIFTING_LAND_AREA))
                        .says("Only " + Words.number(areas[1], 2) + " mm2 of copper hold round the bore of "
                                + named(land) + ": soldered by hand more than once it may lift.")
                        .doThis("Use a longer land or a teardrop.")
                        .build());
    }

    /**
     * E4: gaps between pieces whose narrowest place lies beside a land. Solder that crosses a gap to copper of no net
     * joins nothing yet, and one pass of a fine bit leaves such gaps round every land of a sound board: those are a note.
     * Two nets that face one another so closely are a watch.
     */
    private static List<Suspect> gaps(Examination x, CopperFacts copper, LayerImage layer, List<Land> lands) {
        double pinMm = x.limit(LimitKey.PIN_GAP);
        double padMm = x.limit(LimitKey.LAND_GAP);
        PlaneMap map = x.design().designFromBlank(copper.side());
        Map<Integer, Land> byObject = new HashMap<>();
        lands.forEach(land -> byObject.put(land.pad.object(), land));
        List<Suspect> found = new ArrayList<>();
        for (NarrowGap gap : StripFinder.gaps(copper.map(), Math.max(pinMm, padMm))) {
            // narrower ones have a finding of their own
            if (gap.bottomMm() < x.limit(LimitKey.NARROW_GAP) - 1e-6 || copper.foilLeftNear(gap.xMm(), gap.yMm())) {
                continue;
            }
            for (Pad pad : layer.padsNear(
                    map.xMm(gap.xMm(), gap.yMm()), map.yMm(gap.xMm(), gap.yMm()), gap.bottomMm() + 1e-6)) {
                Land land = byObject.get(pad.object());
                if (land == null) {
                    continue;
                }
                double limit = land.holeMm > 0 ? pinMm : padMm;
                double off = outsideMm(land, gap.xMm(), gap.yMm());
                if (off < gap.bottomMm() && gap.bottomMm() < limit - 1e-6) {
                    boolean nets = x.design().carriesNet(copper.side(), gap.pieceA())
                            && x.design().carriesNet(copper.side(), gap.pieceB());
                    Severity severity = nets ? Severity.WATCH : Severity.NOTE;
                    found.add(new Suspect(severity, gap.bottomMm(), () -> gap(x, copper, gap, land, limit, severity)));
                    break;
                }
            }
        }
        return found;
    }

    private static Finding gap(
            Examination x, CopperFacts copper, NarrowGap gap, Land land, double limit, Severity severity) {
        boolean nets = severity == Severity.WATCH;
        Finding.Builder b = Finding.of(Kinds.NARROW_GAP, severity, Certainty.RULE_OF_THUMB)
                .side(copper.side())
                .at(gap.xMm(), gap.yMm())
                .atLeast(Measured.mm("gap", gap.bottomMm(), gap.errorMm()), limit)
                .says("The gap beside " + named(land) + " is only " + Words.mm(gap.bottomMm()) + " at the foil bottom: "
                        + (nets
                                ? "without solder mask, soldering by hand bridges it to the other net easily."
                                : "solder may bridge it, but the copper beyond belongs to no net; only two such"
                                        + " bridges to the same piece join two nets."))
                .doThis(
                        nets
                                ? "Run extra passes round the lands."
                                : "Solder sparingly there, or run extra passes round the lands.");
        copper.nearestLine(x, b, gap.xMm(), gap.yMm());
        return b.build();
    }

    private static double outsideMm(Land land, double px, double py) {
        double dx = Math.abs(px - land.xMm);
        double dy = Math.abs(py - land.yMm);
        if (land.pad.shape() == Pad.Shape.CIRCLE) {
            return StrictMath.hypot(dx, dy) - land.halfXMm;
        }
        double ox = Math.max(0, dx - land.halfXMm);
        double oy = Math.max(0, dy - land.halfYMm);
        return Math.sqrt(ox * ox + oy * oy);
    }

    private static String named(Land land) {
        String pin = land.pad.pinName();
        return (land.holeMm > 0 ? "land " : "pad ") + (pin != null ? pin : "at " + Words.place(land.xMm, land.yMm));
    }

    /** E12: letters smaller than two widths of their groove. */
    private static void lettering(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        for (Stroke stroke : x.paths().strokes()) {
            RunFacts run = x.run(stroke.run());
            if (x.paths().workOf(stroke) != Work.TEXT || run.tool() == null || stroke.vertical()) {
                continue;
            }
            double depth = Math.max(0, -run.blankFromRunMm(stroke.deepestMm()));
            double groove = 2 * run.knownTool().cutRadiusAtHeightMm(depth);
            double size = Math.max(
                    stroke.extents().x1Mm() - stroke.extents().x0Mm(),
                    stroke.extents().y1Mm() - stroke.extents().y0Mm());
            if (size < 2 * groove - 1e-6 && s.isFeed(stroke.firstSegment())) {
                out.add(x.at(Finding.of(Kinds.LETTERING, Severity.NOTE, Certainty.GEOMETRY), stroke.firstSegment())
                        .measured(Measured.mm("stroke of a letter", size, 0.001))
                        .says("A stroke of the lettering is " + Words.mm(size) + " long, less than two widths of its"
                                + " groove of " + Words.plainMm(groove) + ": it may not be readable.")
                        .doThis("Use larger letters or a narrower groove.")
                        .build());
                return;
            }
        }
    }
}
