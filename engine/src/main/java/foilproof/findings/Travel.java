package foilproof.findings;

import foilproof.bench.Machine;
import foilproof.bench.XyzMm;
import foilproof.language.CanonicalProgram;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;

/** Moves beyond the machine's travel (B14). */
final class Travel implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.BEYOND_TRAVEL);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B14");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        XyzMm travel = x.job().machine().travelMm();
        if (travel == null) {
            out.notChecked("machine travel", "[machine] travel is not given");
            return;
        }
        XyzMm blankAt = x.job().machine().blankAtMm();
        if (blankAt != null) {
            byPlace(x, travel, blankAt, out);
        } else {
            byExtents(x, travel, out);
        }
    }

    /**
     * Machine coordinates: X and Y run from 0 to the travel, Z from minus the travel (down) to 0. Z is that of the
     * tip, as the job gives the spoil board's top; where the cutters' lengths are known, its upper end is asked of the
     * spindle, since a short cutter hangs higher above the blank than a long one when the spindle is home.
     */
    private static void byPlace(Examination x, XyzMm travel, XyzMm blankAt, FindingCollector out) {
        Segments s = x.plan().segments();
        boolean measured = x.job().machine().onToolChange() == Machine.OnToolChange.MEASURED;
        double foilTopMm =
                blankAt.zMm() + x.job().blank().thicknessMm() + x.job().blank().tapeMm();
        for (var program : x.plan().programs()) {
            double worst = ROUNDING_MM;
            int at = -1;
            String axis = "";
            for (int i = program.firstSegment(); i < program.endSegment(); i++) {
                if (s.has(i, Segments.POSITION_UNKNOWN)) {
                    continue;
                }
                double[] box = s.planBox(i);
                RunFacts run = x.run(s.run(i));
                double highest = Math.max(s.z0Mm(i), s.z1Mm(i));
                // a start height that nobody gave is no move of this program
                double top = foilTopMm + run.blankFromRunMm(s.has(i, Segments.START_UNKNOWN) ? s.z1Mm(i) : highest);
                double[] over = {
                    -(box[0] + blankAt.xMm()),
                    box[2] + blankAt.xMm() - travel.xMm(),
                    -(box[1] + blankAt.yMm()),
                    box[3] + blankAt.yMm() - travel.yMm(),
                    measured ? Double.NEGATIVE_INFINITY : top,
                    -(foilTopMm + run.blankFromRunMm(s.lowestMm(i))) - travel.zMm()
                };
                for (int k = s.has(i, Segments.START_UNKNOWN) ? 4 : 0; k < 6; k++) {
                    if (over[k] > worst) {
                        worst = over[k];
                        at = i;
                        axis = List.of("X-", "X+", "Y-", "Y+", "Z+", "Z-").get(k);
                    }
                }
            }
            CanonicalProgram commands = program.interpretation().commands();
            for (int c = 0; measured && c < commands.size(); c++) {
                if (commands.isMotion(c)
                        && (commands.flags(c) & CanonicalProgram.END_Z_UNKNOWN) == 0
                        && commands.endMm(c, 2) > worst) {
                    worst = commands.endMm(c, 2);
                    at = segmentOf(s, program, commands.line(c));
                    axis = "Z+";
                }
            }
            if (at >= 0) {
                out.add(x.at(Finding.of(Kinds.BEYOND_TRAVEL, Severity.STOP, Certainty.SET_UP), at)
                        .atMost(Measured.mm("beyond the travel", worst, 0.001), 0)
                        .says("The move goes " + Words.mm(worst) + " beyond the machine's travel in " + axis + ".")
                        .doThis("Move the blank, or the work zero, by at least " + Words.plainMm(worst) + ".")
                        .build());
            }
        }
    }

    /** The last segment of a line; the program's first where the line moves nothing. */
    private static int segmentOf(Segments s, PlannedProgram program, int line) {
        int found = program.firstSegment();
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            found = s.line(i) == line ? i : found;
        }
        return found;
    }

    private static void byExtents(Examination x, XyzMm travel, FindingCollector out) {
        Segments s = x.plan().segments();
        for (var program : x.plan().programs()) {
            double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
            double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
            for (int i = program.firstSegment(); i < program.endSegment(); i++) {
                if (s.has(i, Segments.POSITION_UNKNOWN) || s.has(i, Segments.START_UNKNOWN)) {
                    continue;
                }
                double[] box = s.planBox(i);
                double[] a = {box[0], box[1], s.lowestMm(i)};
                double[] b = {box[2], box[3], Math.max(s.z0Mm(i), s.z1Mm(i))};
                for (int k = 0; k < 3; k++) {
                    low[k] = Math.min(low[k], a[k]);
                    high[k] = Math.max(high[k], b[k]);
                }
            }
            double[] most = {travel.xMm(), travel.yMm(), travel.zMm()};
            for (int k = 0; k < 3; k++) {
                double span = high[k] - low[k];
                if (span > most[k] + ROUNDING_MM) {
                    out.add(x.at(
                                    Finding.of(Kinds.BEYOND_TRAVEL, Severity.STOP, Certainty.SET_UP),
                                    program.firstSegment())
                            .program(program.file())
                            .atMost(Measured.mm("extent in " + "XYZ".charAt(k), span, 0.001), most[k])
                            .says("The program spans " + Words.mm(span) + " in " + "XYZ".charAt(k)
                                    + "; the machine travels " + Words.plainMm(most[k]) + ".")
                            .doThis("Check the units and the largest coordinates; split the job if it is right.")
                            .build());
                }
            }
        }
        out.notChecked("where the moves lie within the machine's travel", "[machine] blank_at is not given");
    }
}
