package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.CopperProbe;
import foilproof.design.DrillFile;
import foilproof.design.HoleFit;
import foilproof.design.LayerImage;
import foilproof.design.PlaneMap;
import foilproof.design.Registration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Where the milled copper lies against the design: mirrored or turned (B9, B11), shifted between the sides, or the bores
 * against the copper (B8).
 */
final class PlaceOfDesign implements Check {
    /** A score in place from which the board lies as declared; the shift is then looked for nearby only. */
    private static final double IN_PLACE = 0.75;

    private static final double REACH_MM = 2.5;
    private static final double PLUS_MINUS_MM = 0.02;
    private static final double SCALE_OFF = 0.001;
    private static final double TURN_DEG = 0.05;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.MIRRORED, Kinds.SIDES_SHIFTED);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B8", "B9", "B11");
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
        CopperProbe milled = (px, py) -> copper.map().pieceAt(px, py) >= 0;
        int side = copper.side();
        if (Registration.scoreInPlace(layer, milled) >= IN_PLACE) {
            Registration.Match near = Registration.shiftInPlace(layer, milled);
            return new Shift(side, near.dxMm(), near.dyMm());
        }
        Registration r = Registration.compare(
                layer, milled, x.job().blank().widthMm(), x.job().blank().heightMm(), REACH_MM);
        switch (r.verdict()) {
            case AS_DECLARED -> {
                return new Shift(side, r.declared().dxMm(), r.declared().dyMm());
            }
            case OTHERWISE ->
                out.add(Finding.of(Kinds.MIRRORED, Severity.STOP, Certainty.GEOMETRY)
                        .side(side)
                        .measured(new Measured(
                                "score " + r.best().way().words(), r.best().score(), "", 0.02))
                        .says(String.format(
                                Locale.ROOT,
                                "The copper milled on side %d fits the design %s (score %.2f of 1), not as the job places it"
                                        + " (%.2f).",
                                side,
                                r.best().way().words(),
                                r.best().score(),
                                r.declared().score()))
                        .doThis(
                                "Check how the copper was exported (bottom copper is milled mirrored), which face lies up, and"
                                        + " about which axis the blank is turned.")
                        .build());
            case CANNOT_TELL -> {
                if (r.declared().score() > r.best().score() - Registration.LEAD) {
                    return new Shift(side, r.declared().dxMm(), r.declared().dyMm());
                }
                out.notChecked("whether side " + side + " is mirrored", "its copper is too symmetric to tell");
            }
            default ->
                out.notChecked(
                        "whether side " + side + " is mirrored or shifted",
                        "the milled copper fits the layer image in no way: another revision, or hardly anything is milled");
        }
        return null;
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
            if (severity != null) {
                out.add(shifted(x, severity, later.side(), shift)
                        .says(String.format(
                                Locale.ROOT,
                                "The copper of side %d lies %.2f mm off that of side %d: by (%+.2f, %+.2f) mm in X and Y"
                                        + " as the blank lies on side %d.",
                                later.side(),
                                shift,
                                first.side(),
                                dx,
                                dy,
                                later.side()))
                        .doThis(String.format(
                                Locale.ROOT,
                                "Move the work zero of side %d by (%+.2f, %+.2f) mm, or touch off against the pins again.",
                                later.side(),
                                -dx,
                                -dy))
                        .build());
            }
        }
        double alone = StrictMath.hypot(first.dxMm(), first.dyMm());
        if (grade(x, alone) != null) {
            out.add(shifted(x, Severity.WATCH, first.side(), alone)
                    .says(String.format(
                            Locale.ROOT,
                            "The copper of side %d lies (%+.2f, %+.2f) mm from where the job places the design.",
                            first.side(),
                            first.dxMm(),
                            first.dyMm()))
                    .doThis("Correct placed_at or the work zero: everything judged against the design is off by this.")
                    .build());
        }
    }

    private static Finding.Builder shifted(Examination x, Severity severity, int side, double shiftMm) {
        LimitKey key = severity == Severity.FIX ? LimitKey.XY_SHIFT_FIX : LimitKey.XY_SHIFT_WATCH;
        return Finding.of(Kinds.SIDES_SHIFTED, severity, Certainty.GEOMETRY)
                .side(side)
                .atMost(Measured.mm("shift", shiftMm, PLUS_MINUS_MM), x.limit(key));
    }

    /** The bores of a side against its copper. */
    private static void bores(Examination x, Shift copper, FindingCollector out) {
        DrillFile drill = x.design().read().drill();
        if (drill == null) {
            return;
        }
        PlaneMap map = x.design().blankFromDesign(copper.side());
        List<double[]> places = new ArrayList<>();
        for (DrillFile.Hole hole : drill.holes()) {
            places.add(new double[] {map.xMm(hole.xMm(), hole.yMm()), map.yMm(hole.xMm(), hole.yMm())});
        }
        List<double[]> bores = new ArrayList<>();
        for (Hole hole : x.holes()) {
            if (hole.side() == copper.side() && (hole.through() || -hole.tipMm() > x.thicknessMm() / 2)) {
                bores.add(new double[] {hole.xMm(), hole.yMm()});
            }
        }
        HoleFit fit = HoleFit.fit(bores, places, 0.5);
        if (fit == null
                || fit.unitsSlipped()
                || fit.matched().size() < 3
                || 2 * fit.matched().size() < bores.size()) {
            return;
        }
        double dx = fit.dxMm() - copper.dxMm();
        double dy = fit.dyMm() - copper.dyMm();
        double shift = StrictMath.hypot(dx, dy);
        Severity severity = grade(x, shift);
        boolean scaled = Math.abs(fit.scale() - 1) > SCALE_OFF || Math.abs(fit.turnDeg()) > TURN_DEG;
        if (severity == null && !scaled) {
            return;
        }
        String how = scaled
                ? String.format(Locale.ROOT, ", scaled by %.4f and turned by %+.3f deg", fit.scale(), fit.turnDeg())
                : "";
        out.add(shifted(x, scaled || severity == null ? Severity.FIX : severity, copper.side(), shift)
                .says(String.format(
                        Locale.ROOT,
                        "The bores of side %d lie (%+.2f, %+.2f) mm off the copper%s; %.3f mm of scatter is left.",
                        copper.side(),
                        dx,
                        dy,
                        how,
                        fit.scatterMm()))
                .doThis("Use one XY zero for all programs of a side, and export them together.")
                .build());
    }
}
