package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.LayerImage;
import foilproof.design.Pad;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What is left of a ring on the other side of the board when the play of the pins, backlash and repeatability are taken
 * off (B12). The ring is the geometric one of the dry run, so a measured shift between the sides is in it.
 */
final class RegistrationBudget implements Check {
    private static final double ROUNDING_MM = 1e-4;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.RING_THIN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B12");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (!x.job().blank().bothSides() || x.job().sides().size() < 2) {
            return;
        }
        var machine = x.job().machine();
        double pins = x.limit(LimitKey.PIN_FIT);
        double backlash =
                Math.max(machine.backlashMm().xMm(), machine.backlashMm().yMm());
        double budget = pins + backlash + machine.repeatabilityMm();
        List<Finding> thin = new ArrayList<>();
        for (Hole hole : x.holes()) {
            for (CopperFacts copper : x.copper()) {
                if (copper.side() != hole.side()
                        && hole.through()
                        && !copper.windows().isEmpty()
                        && x.run(hole.run()).tool() != null) {
                    judge(x, hole, copper, budget, thin);
                }
            }
        }
        thin.sort(Comparator.comparing(Finding::severity)
                .thenComparing(f -> f.measured() == null ? 0 : f.measured().value()));
        if (!thin.isEmpty()) {
            out.add(thin.get(0).withConsequences(thin.subList(1, thin.size())));
        }
    }

    private static void judge(Examination x, Hole hole, CopperFacts copper, double budget, List<Finding> thin) {
        double px = x.stock().xOnSideMm(hole.side(), copper.side(), hole.xMm());
        double py = x.stock().yOnSideMm(hole.side(), copper.side(), hole.yMm());
        LayerImage layer = x.design().layerUp(copper.side());
        Pad pad = layer == null ? null : land(x, layer, copper.side(), px, py);
        if (layer != null && pad == null) {
            return;
        }
        boolean via = pad != null && isVia(pad);
        double least = x.limit(via ? LimitKey.VIA_RING_BUDGET : LimitKey.RING_BUDGET);
        double radius = Rings.radiusMm(x, hole, false);
        double ring = copper.ringMm(px, py, radius, least + budget + 0.1);
        double left = ring - budget;
        // without a design a hole in bare substrate has no ring to lose
        if (left >= least - ROUNDING_MM || layer == null && ring <= 0.001) {
            return;
        }
        boolean fix = left < -ROUNDING_MM;
        thin.add(
                x.at(Finding.of(Kinds.RING_THIN, fix ? Severity.FIX : Severity.WATCH, Certainty.SET_UP), hole.segment())
                        .side(copper.side())
                        .at(px, py)
                        .atLeast(Measured.mm("ring left by the registration budget", left, 0.003), fix ? 0 : least)
                        .says(String.format(
                                Locale.ROOT,
                                "The %s on side %d, holed from the other side, has a ring of %s; less the registration budget of"
                                        + " %.3f mm (play of the pins %.3f, backlash and repeatability of the machine %.3f) %s is"
                                        + " left%s.",
                                via ? "via's land" : "land",
                                copper.side(),
                                Words.mm(ring),
                                budget,
                                x.limit(LimitKey.PIN_FIT),
                                budget - x.limit(LimitKey.PIN_FIT),
                                Words.plainMm(left),
                                fix ? ": it may break out" : ""))
                        .doThis(
                                "Make the lands larger or the holes smaller, or take up the backlash and fit the pins closer.")
                        .build());
    }

    /** The flash in which a place lies, or null. */
    static @Nullable Pad land(Examination x, LayerImage layer, int side, double xMm, double yMm) {
        PlaneMap map = x.design().designFromBlank(side);
        double dx = map.xMm(xMm, yMm);
        double dy = map.yMm(xMm, yMm);
        for (Pad pad : layer.padsNear(dx, dy, 0)) {
            if (Math.abs(pad.xMm() - dx) <= pad.widthMm() / 2 && Math.abs(pad.yMm() - dy) <= pad.heightMm() / 2) {
                return pad;
            }
        }
        return null;
    }

    /** Whether the file says that a land is a via's. */
    static boolean isVia(Pad pad) {
        String function = pad.attributes().function();
        return function != null && function.startsWith("ViaPad");
    }
}
