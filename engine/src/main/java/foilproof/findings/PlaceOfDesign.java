package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.CopperMap;
import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import foilproof.design.DrillFile;
import foilproof.design.EdgeFit;
import foilproof.design.HoleFit;
import foilproof.design.LayerImage;
import foilproof.design.PlaneMap;
import foilproof.design.Registration;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Where the milled copper lies against the design: mirrored or turned (B9, B11), shifted between the sides, or the bores
 * against the copper (B8).
 */
final class PlaceOfDesign implements Check {
    /** Share of the drawn edges found in place from which the board lies as declared. */
    private static final double IN_PLACE = 0.9;

    /** Bores farther from all places than this, after the fit, are no pair, mm. */
    static final double BORES_WITHIN_MM = 0.5;

    private static final double REACH_MM = 2.5;
    private static final double PLUS_MINUS_MM = 0.006;
    /** Edges that the fit explains this well are those of the design, mm. */
    private static final double CLEAN_EDGE_MM = 0.05;
    /** Share of the copper work's length in copper of the design from which the files are of two boards. */
    private static final double OTHER_SHARE = 0.10;

    private static final double INSIDE_MM = 0.25;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.MIRRORED, Kinds.SIDES_SHIFTED, Kinds.OTHER_REVISION);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A23", "B8", "B9", "B11", "B19");
    }

    /** Shift of a side's copper against the design, in the frame of that side. */
    private record Shift(int side, double dxMm, double dyMm) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<Shift> shifts = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            LayerImage layer = x.design().layerUp(copper.side());
            if (layer == null) {
                out.notChecked(
                        "whether side " + copper.side() + " is mirrored or shifted",
                        "no layer image of its copper is given");
            } else if (!copper.windows().isEmpty()) {
                Shift shift = side(x, copper, layer.mapped(x.design().blankFromDesign(copper.side())), out);
                if (shift != null) {
                    shifts.add(shift);
                }
            }
        }
        between(x, shifts, out);
        for (Shift shift : shifts) {
            bores(x, shift, out);
        }
    }

    private static @Nullable Shift side(Examination x, CopperFacts copper, LayerImage layer, FindingCollector out) {
        CopperMap map = copper.map();
        CopperProbe milled = (px, py) -> map.pieceAt(px, py) >= 0;
        int side = copper.side();
        double width = x.job().blank().widthMm();
        double height = x.job().blank().heightMm();
        Bounds blank = new Bounds(0, 0, width, height);
        EdgeFit edges = EdgeFit.fit(layer, milled, blank, 0, 0);
        if (edges != null && edges.share() >= IN_PLACE && edges.rmsMm() < CLEAN_EDGE_MM) {
            return new Shift(side, edges.dxMm(), edges.dyMm());
        }
        double[] middle = middle(x, side);
        Registration r = Registration.compare(
                layer,
                milled,
                width,
                height,
                REACH_MM,
                middle[0],
                middle[1],
                x.options().threads());
        boolean declaredFits = r.declared().score() > Registration.FITS_FROM
                && r.declared().score() > r.best().score() - Registration.LEAD;
        if (declaredFits) {
            return refined(side, layer, milled, blank, r.declared());
        }
        if (r.best().score() > Registration.FITS_FROM) {
            out.add(otherwise(x, side, r));
        } else if (runsInDesign(x, copper, layer) > OTHER_SHARE) {
            out.add(x.at(Finding.of(Kinds.OTHER_REVISION, Severity.STOP, Certainty.GEOMETRY), firstCut(x, side))
                    .side(side)
                    .measured(new Measured(
                            "best score of all ways to lay the design", r.best().score(), "", 0.02))
                    .says(String.format(
                            Locale.ROOT,
                            "The copper milled on side %d agrees with the layer image in no way, turned, mirrored or shifted"
                                    + " (best score %.2f of 1): the grooves run through copper of the design.",
                            side,
                            r.best().score()))
                    .doThis("Export programs and layer image again from one revision of one board, all at once.")
                    .build());
        } else {
            out.notChecked(
                    "whether side " + side + " is mirrored or shifted",
                    "the milled copper fits the layer image in no way: another revision, or hardly anything is milled");
        }
        return null;
    }

    private static Finding otherwise(Examination x, int side, Registration r) {
        boolean symmetric = r.verdict() == Registration.Verdict.CANNOT_TELL;
        return x.at(Finding.of(Kinds.MIRRORED, Severity.STOP, Certainty.GEOMETRY), firstCut(x, side))
                .side(side)
                .measured(
                        new Measured("score " + r.best().way().words(), r.best().score(), "", 0.02))
                .says(String.format(
                        Locale.ROOT,
                        "The copper milled on side %d fits the design %s%s (score %.2f of 1), not as the job places it"
                                + " (%.2f).",
                        side,
                        r.best().way().words(),
                        symmetric ? " or another way, its art is symmetric," : "",
                        r.best().score(),
                        r.declared().score()))
                .doThis(
                        "Check how the copper was exported (bottom copper is milled mirrored), which face lies up, and about"
                                + " which axis the blank is turned.")
                .build();
    }

    /** The shift by the edges, where they are found beside the place that the score found. */
    private static Shift refined(
            int side, LayerImage layer, CopperProbe milled, Bounds blank, Registration.Match match) {
        EdgeFit edges = EdgeFit.fit(layer, milled, blank, match.dxMm(), match.dyMm());
        if (edges == null) {
            return new Shift(side, match.dxMm(), match.dyMm());
        }
        EdgeFit again = EdgeFit.fit(layer, milled, blank, edges.dxMm(), edges.dyMm());
        return again == null
                ? new Shift(side, edges.dxMm(), edges.dyMm())
                : new Shift(side, again.dxMm(), again.dyMm());
    }

    /** Middle of the box round the copper work of a side, mm. */
    private static double[] middle(Examination x, int side) {
        double[] box = x.copperWork().boxOn(side);
        return box == null
                ? new double[] {Double.NaN, Double.NaN}
                : new double[] {(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
    }

    /** Whether a place lies in copper of the design, and not just at its edge: grooves nibble at narrow lands. */
    private static boolean wellInside(LayerImage layer, double x, double y) {
        return layer.covers(x, y)
                && layer.covers(x + INSIDE_MM, y)
                && layer.covers(x - INSIDE_MM, y)
                && layer.covers(x, y + INSIDE_MM)
                && layer.covers(x, y - INSIDE_MM);
    }

    /** Share of the copper work's length that runs in copper of the design. */
    private static double runsInDesign(Examination x, CopperFacts copper, LayerImage layer) {
        Segments s = x.plan().segments();
        double all = 0;
        double within = 0;
        for (Stroke stroke : x.copperWork().on(copper.side())) {
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                int n = (int) Math.ceil(s.planLengthMm(i) / 0.2);
                for (int k = 0; k < n; k++) {
                    double[] p = s.pointAt(i, (k + 0.5) / n);
                    all += s.planLengthMm(i) / n;
                    within += wellInside(layer, p[0], p[1]) ? s.planLengthMm(i) / n : 0;
                }
            }
        }
        return all > 0 ? within / all : 0;
    }

    private static @Nullable Severity grade(Examination x, double shiftMm) {
        if (shiftMm > x.limit(LimitKey.XY_SHIFT_FIX) + 1e-6) {
            return Severity.FIX;
        }
        return shiftMm > x.limit(LimitKey.XY_SHIFT_WATCH) + PLUS_MINUS_MM ? Severity.WATCH : null;
    }

    /** One side: the design is not where the job says. More: the later sides against the first. */
    private static void between(Examination x, List<Shift> shifts, FindingCollector out) {
        if (shifts.isEmpty()) {
            return;
        }
        Shift first = shifts.get(0);
        for (int k = 1; k < shifts.size(); k++) {
            Shift later = shifts.get(k);
            PlaneMap map =
                    x.design().designFromBlank(first.side()).then(x.design().blankFromDesign(later.side()));
            double dx = later.dxMm() - (map.xx() * first.dxMm() + map.xy() * first.dyMm());
            double dy = later.dyMm() - (map.yx() * first.dxMm() + map.yy() * first.dyMm());
            double shift = StrictMath.hypot(dx, dy);
            Severity severity = grade(x, shift);
            boolean residual = shift > x.limit(LimitKey.SIDES_RESIDUAL) + PLUS_MINUS_MM;
            if (severity != null || residual) {
                Finding.Builder b = residual || severity == null
                        ? x.at(
                                        Finding.of(Kinds.SIDES_SHIFTED, Severity.FIX, Certainty.GEOMETRY),
                                        firstCut(x, later.side()))
                                .atMost(
                                        Measured.mm("shift", shift, PLUS_MINUS_MM),
                                        x.limit(
                                                severity == Severity.FIX
                                                        ? LimitKey.XY_SHIFT_FIX
                                                        : LimitKey.SIDES_RESIDUAL))
                        : shifted(x, severity, firstCut(x, later.side()), shift);
                out.add(b.side(later.side())
                        .says(String.format(
                                Locale.ROOT,
                                "The copper of side %d lies %.2f mm off that of side %d: by %s in X and Y"
                                        + " as the blank lies on side %d.",
                                later.side(),
                                shift,
                                first.side(),
                                Words.shift(dx, dy),
                                later.side()))
                        .doThis(String.format(
                                Locale.ROOT,
                                "Move the work zero of side %d by %s, or touch off against the pins again.",
                                later.side(),
                                Words.shift(-dx, -dy)))
                        .build());
            }
        }
        double alone = StrictMath.hypot(first.dxMm(), first.dyMm());
        if (grade(x, alone) != null) {
            out.add(shifted(x, Severity.WATCH, firstCut(x, first.side()), alone)
                    .side(first.side())
                    .says(String.format(
                            Locale.ROOT,
                            "The copper of side %d lies %s from where the job places the design.",
                            first.side(),
                            Words.shift(first.dxMm(), first.dyMm())))
                    .doThis("Correct placed_at or the work zero: everything judged against the design is off by this.")
                    .build());
        }
    }

    /** The first cut of a side's copper work, -1 where there is none. */
    static int firstCut(Examination x, int side) {
        for (Stroke stroke : x.copperWork().on(side)) {
            int first = CopperWork.firstCut(x, stroke);
            if (first >= 0) {
                return first;
            }
        }
        return -1;
    }

    private static Finding.Builder shifted(Examination x, Severity severity, int segment, double shiftMm) {
        LimitKey key = severity == Severity.FIX ? LimitKey.XY_SHIFT_FIX : LimitKey.XY_SHIFT_WATCH;
        return x.at(Finding.of(Kinds.SIDES_SHIFTED, severity, Certainty.GEOMETRY), segment)
                .atMost(Measured.mm("shift", shiftMm, PLUS_MINUS_MM), x.limit(key));
    }

    /** The bores of a side against its copper. */
    private static void bores(Examination x, Shift copper, FindingCollector out) {
        DrillFile drill = x.design().read().wholeDrill();
        if (drill == null) {
            return;
        }
        List<double[]> places = SharedShift.places(x, drill, copper.side());
        List<double[]> bores = SharedShift.bores(x, copper.side());
        int first = x.holes().stream()
                .filter(hole -> hole.side() == copper.side() && hole.meantThrough(x.thicknessMm()))
                .mapToInt(Hole::segment)
                .min()
                .orElse(-1);
        if (BoresOnRings.scattered(x, copper.side(), bores, places, "the drill file", first, out)) {
            return;
        }
        HoleFit fit = SharedShift.fit(bores, places, BORES_WITHIN_MM, bores.size());
        if (fit == null) {
            return;
        }
        double dx = fit.dxMm() - copper.dxMm();
        double dy = fit.dyMm() - copper.dyMm();
        double shift = StrictMath.hypot(dx, dy);
        Severity severity = grade(x, shift);
        boolean scaled = SharedShift.scaled(x, fit);
        if (severity == null && !scaled) {
            return;
        }
        String how = scaled
                ? String.format(
                        Locale.ROOT,
                        ", scaled by %.4f and turned by %s deg",
                        fit.scale(),
                        Words.signed(fit.turnDeg(), 3))
                : "";
        out.add(shifted(x, scaled || severity == null ? Severity.FIX : severity, first, shift)
                .side(copper.side())
                .says(String.format(
                        Locale.ROOT,
                        "The bores of side %d lie %s off the copper%s; %.3f mm of scatter is left.",
                        copper.side(),
                        Words.shift(dx, dy),
                        how,
                        fit.scatterMm()))
                .doThis("Use one XY zero for all programs of a side, and export them together.")
                .build());
    }
}
