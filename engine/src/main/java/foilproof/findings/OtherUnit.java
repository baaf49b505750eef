package foilproof.findings;

import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Pad;
import foilproof.design.PlaneMap;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Holes whose numbers fit only in the other unit (A1): read as inches where they were run as mm, or the other way, they
 * lie on the places that the drill file, the layer image or the copper work has for holes; as they were run, they do not.
 * Judged cutter by cutter, since one file may hold both.
 */
final class OtherUnit {
    private static final double MM_PER_INCH = 25.4;
    /** Holes from which chance is no explanation. */
    private static final int LEAST_HOLES = 3;
    /** Places written with three decimals of an inch lie 0.018 mm off at most; zeros differ by more. */
    private static final double NEAR_MM = 0.2;

    private OtherUnit() {}

    /** Tells the first cutter of each program whose holes fit only in the other unit. */
    static void holes(Examination x, List<PlannedProgram> told, FindingCollector out) {
        Segments s = x.plan().segments();
        for (PlannedProgram program : x.plan().programs()) {
            if (told.contains(program)) {
                continue;
            }
            Map<Integer, List<foilproof.motion.Hole>> byRun = new TreeMap<>();
            for (foilproof.motion.Hole hole : x.paths().holes()) {
                if (s.program(hole.firstSegment()) == program.index()) {
                    byRun.computeIfAbsent(hole.run(), r -> new ArrayList<>()).add(hole);
                }
            }
            for (List<foilproof.motion.Hole> holes : byRun.values()) {
                if (holes.size() >= LEAST_HOLES && judge(x, program, holes, out)) {
                    break;
                }
            }
        }
    }

    private static boolean judge(
            Examination x, PlannedProgram program, List<foilproof.motion.Hole> holes, FindingCollector out) {
        List<double[]> places = places(x, program.side().number());
        int asRun = onPlaces(x, holes, places, 1);
        int asInch = onPlaces(x, holes, places, MM_PER_INCH);
        int asMm = onPlaces(x, holes, places, 1 / MM_PER_INCH);
        int best = Math.max(asInch, asMm);
        if (best < LEAST_HOLES || 5 * best < 4 * holes.size() || 2 * asRun >= holes.size()) {
            return false;
        }
        boolean inch = asInch >= asMm;
        out.add(x.at(
                        Finding.of(Kinds.UNITS_UNSET, Severity.STOP, Certainty.GEOMETRY),
                        holes.get(0).firstSegment())
                .at(holes.get(0).xMm(), holes.get(0).yMm())
                .measured(new Measured("holes that fit in the other unit", best, "of " + holes.size(), null))
                .says(best + " of " + holes.size()
                        + " holes of this cutter lie where the board has places for holes only if"
                        + " their numbers are read as " + (inch ? "inches" : "mm") + "; they were run as "
                        + (inch ? "mm" : "inches") + ", and " + asRun + " lie on such a place.")
                .doThis("Check one coordinate by hand and set G20 or G21 to match the numbers.")
                .build());
        return true;
    }

    /** How many holes lie on a place of their own when their numbers, counted from the work zero, are multiplied. */
    private static int onPlaces(
            Examination x, List<foilproof.motion.Hole> holes, List<double[]> places, double factor) {
        boolean[] taken = new boolean[places.size()];
        int count = 0;
        for (foilproof.motion.Hole hole : holes) {
            var run = x.run(hole.run()).run();
            double px = run.workZeroXMm() + factor * (hole.xMm() - run.workZeroXMm());
            double py = run.workZeroYMm() + factor * (hole.yMm() - run.workZeroYMm());
            for (int k = 0; k < taken.length; k++) {
                double[] place = places.get(k);
                if (!taken[k] && StrictMath.hypot(place[0] - px, place[1] - py) <= NEAR_MM) {
                    taken[k] = true;
                    count++;
                    break;
                }
            }
        }
        return count;
    }

    /** Holes of the drill file; where there is none, pads of the layer image; where there is neither, rings of the copper work. */
    private static List<double[]> places(Examination x, int side) {
        DrillFile drill = x.design().read().drill();
        if (drill != null) {
            return SharedShift.places(x, drill, side);
        }
        LayerImage layer = x.design().layerUp(side);
        if (layer == null) {
            return BoresOnRings.rings(x, side);
        }
        PlaneMap map = x.design().blankFromDesign(side);
        List<double[]> places = new ArrayList<>();
        for (Pad pad : layer.pads()) {
            places.add(new double[] {map.xMm(pad.xMm(), pad.yMm()), map.yMm(pad.xMm(), pad.yMm())});
        }
        return places;
    }
}
