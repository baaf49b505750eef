package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.DrillFile;
import foilproof.design.HoleFit;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Holes held against the drill file: missing, extra, moved (G3), too small or too large (G2). */
final class HolesAsDesigned implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.HOLE_MISSING, Kinds.HOLE_SIZE);
    }

    @Override
    public List<String> needsRows() {
        return List.of("G2", "G3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        DrillFile drill = x.design().read().drill();
        if (drill == null) {
            out.notChecked("missing, extra and wrongly sized holes", "no drill file is given");
            return;
        }
        List<Hole> made = new ArrayList<>(x.holes());
        made.addAll(Holes.ringed(x));
        // a ring counts as work on holes only where the drill file has one: a round board is cut out by a ring as well
        boolean boring = x.holes().stream().anyMatch(h -> h.meantThrough(x.thicknessMm()))
                || made.stream().skip(x.holes().size()).anyMatch(h -> wanted(x, drill, h));
        if (!boring) {
            out.notChecked("the drill file's " + drill.holes().size() + " holes", "no program of this job makes holes");
            return;
        }
        double near = x.limit(LimitKey.HOLE_PLACE);
        Map<Integer, double[]> shifts = shifts(x, drill);
        boolean[] used = new boolean[made.size()];
        List<Finding> missing = new ArrayList<>();
        List<Finding> sized = new ArrayList<>();
        for (DrillFile.Hole wanted : drill.holes()) {
            int found = -1;
            double best = near + 1e-9;
            for (int i = 0; i < made.size(); i++) {
                Hole hole = made.get(i);
                PlaneMap map = x.design().blankFromDesign(hole.side());
                double[] shift = shifts.getOrDefault(hole.side(), new double[2]);
                double d = StrictMath.hypot(
                        map.xMm(wanted.xMm(), wanted.yMm()) + shift[0] - hole.xMm(),
                        map.yMm(wanted.xMm(), wanted.yMm()) + shift[1] - hole.yMm());
                if (d < best && hole.meantThrough(x.thicknessMm())) {
                    best = d;
                    found = i;
                }
            }
            if (found < 0) {
                missing.add(missing(x, wanted));
            } else {
                used[found] = true;
                size(x, wanted, made.get(found), sized);
            }
        }
        List<Finding> extra = new ArrayList<>();
        if (drill.cutShort()) {
            out.notChecked(
                    "holes that the drill file does not ask for",
                    "it ends without M30 after " + drill.holes().size() + " holes"
                            + (drill.holes().isEmpty()
                                    ? ""
                                    : ", the last in line "
                                            + drill.holes()
                                                    .get(drill.holes().size() - 1)
                                                    .line())
                            + ": it may be cut short");
        }
        for (int i = 0; i < x.holes().size() && !drill.cutShort(); i++) {
            Hole hole = x.holes().get(i);
            if (!used[i] && !Slots.inSlot(x, drill, hole) && hole.meantThrough(x.thicknessMm())) {
                extra.add(extra(x, hole));
            }
        }
        lead(missing, out);
        lead(extra, out);
        lead(sized, out);
    }

    /** Whether the drill file has a hole within the limit of where this one is. */
    private static boolean wanted(Examination x, DrillFile drill, Hole made) {
        PlaneMap map = x.design().blankFromDesign(made.side());
        return made.meantThrough(x.thicknessMm())
                && drill.holes().stream()
                        .anyMatch(h -> StrictMath.hypot(
                                        map.xMm(h.xMm(), h.yMm()) - made.xMm(), map.yMm(h.xMm(), h.yMm()) - made.yMm())
                                <= x.limit(LimitKey.HOLE_PLACE) + 1e-9);
    }

    /**
     * The shift that all bores of a side share, by side, where it is told as such (B8): the holes are then looked for
     * where it takes them, so that one wrong zero is not as many missing holes.
     */
    private static Map<Integer, double[]> shifts(Examination x, DrillFile drill) {
        Map<Integer, double[]> shifts = new HashMap<>();
        for (var side : x.job().sides()) {
            if (x.design().layerUp(side.number()) == null
                    && BoresOnRings.rings(x, side.number()).size() < SharedShift.LEAST_PAIRS) {
                continue;
            }
            List<double[]> bores = SharedShift.bores(x, side.number());
            HoleFit fit = SharedShift.fit(
                    bores, SharedShift.places(x, drill, side.number()), x.limit(LimitKey.HOLE_PLACE), bores.size());
            if (fit != null
                    && SharedShift.alike(fit)
                    && StrictMath.hypot(fit.dxMm(), fit.dyMm()) > x.limit(LimitKey.XY_SHIFT_FIX)) {
                shifts.put(side.number(), new double[] {fit.dxMm(), fit.dyMm()});
            }
        }
        return shifts;
    }

    private static void lead(List<Finding> all, FindingCollector out) {
        if (!all.isEmpty()) {
            out.add(all.get(0).withConsequences(all.subList(1, all.size())));
        }
    }

    private static Finding missing(Examination x, DrillFile.Hole wanted) {
        int side = x.holes().isEmpty() ? 1 : x.holes().get(0).side();
        PlaneMap map = x.design().blankFromDesign(side);
        return Finding.of(Kinds.HOLE_MISSING, Severity.STOP, Certainty.GEOMETRY)
                .side(side)
                .at(map.xMm(wanted.xMm(), wanted.yMm()), map.yMm(wanted.xMm(), wanted.yMm()))
                .measured(Measured.mm("wanted diameter", wanted.diameterMm(), 0.001))
                .says("The drill file asks for a hole of " + Words.mm(wanted.diameterMm())
                        + " here, and no program makes one within " + Words.plainMm(x.limit(LimitKey.HOLE_PLACE)) + ".")
                .doThis("Check that drill file and programs come from one export, and that no program is missing.")
                .build();
    }

    private static Finding extra(Examination x, Hole hole) {
        return x.at(Finding.of(Kinds.HOLE_MISSING, Severity.STOP, Certainty.GEOMETRY), hole.segment())
                .at(hole.xMm(), hole.yMm())
                .measured(Measured.mm("diameter", hole.entryMm(), 0.001))
                .says("A hole of " + Words.mm(hole.entryMm()) + " is made here that the drill file does not ask for.")
                .doThis("Check that drill file and programs come from one export, and that no cycle was left in force.")
                .build();
    }

    private static void size(Examination x, DrillFile.Hole wanted, Hole made, List<Finding> out) {
        double narrow = Math.min(made.entryMm(), made.through() ? made.exitMm() : made.entryMm());
        double over = made.entryMm() - wanted.diameterMm();
        double under = wanted.diameterMm() - narrow;
        boolean large = over > x.limit(LimitKey.HOLE_OVERSIZE) + 1e-6;
        boolean small = under > x.limit(LimitKey.HOLE_UNDERSIZE) + 1e-6;
        if (!large && !small) {
            return;
        }
        double value = large ? made.entryMm() : narrow;
        Finding.Builder b = x.at(Finding.of(Kinds.HOLE_SIZE, Severity.FIX, Certainty.GEOMETRY), made.segment())
                .at(made.xMm(), made.yMm())
                .says("The hole comes out " + Words.mm(value) + " wide; the drill file asks for "
                        + Words.mm(wanted.diameterMm()) + ".")
                .doThis("Check the cutter's diameter and the path's radius, or use the drill of that size.");
        if (large) {
            b.atMost(Measured.mm("diameter", value, 0.001), wanted.diameterMm() + x.limit(LimitKey.HOLE_OVERSIZE));
        } else {
            b.atLeast(Measured.mm("diameter", value, 0.001), wanted.diameterMm() - x.limit(LimitKey.HOLE_UNDERSIZE));
        }
        out.add(b.build());
    }
}
