package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Machine;
import foilproof.bench.Tool;
import foilproof.bench.Work;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * Units never stated, or files of one side that differ by the inch (A1): by the size of their cuts, or by where their
 * holes would lie with their numbers read in the other unit.
 */
final class Units implements Check {
    private static final double MM_PER_INCH = 25.4;
    /** Copper work fills at least so much of its board each way, or nothing is told by it. */
    private static final double LEAST_FILL = 0.5;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.UNITS_UNSET);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<PlannedProgram> told = new ArrayList<>();
        for (PlannedProgram program : x.plan().programs()) {
            List<LanguageNote> unset = new ArrayList<>(program.interpretation().notes(NoteKind.UNITS_UNSET));
            unset.addAll(program.interpretation().notes(NoteKind.UNITS_BY_DEFAULT));
            if (unset.isEmpty() || x.job().whatIf().programUnits().containsKey(program.file())) {
                continue;
            }
            boolean known = x.job().machine().units() != Machine.Units.UNKNOWN;
            int line = unset.get(0).span().line();
            out.add(x.at(
                            Finding.of(Kinds.UNITS_UNSET, known ? Severity.NOTE : Severity.STOP, Certainty.GEOMETRY),
                            x.firstSegmentFrom(program, line))
                    .line(program.file(), line)
                    .says(
                            known
                                    ? "The program moves before it says G20 or G21; it runs in the machine's own default, "
                                            + x.job().machine().units().word() + ", as the job states it."
                                    : "The program moves before it says G20 (inch) or G21 (mm), and the job does not say what"
                                            + " the controller assumes. It was run as mm; in inches everything is 25.4 times"
                                            + " as large.")
                    .doThis("Write G21 (or G20) into the first lines, or state [machine] units.")
                    .build());
            if (!known) {
                told.add(program);
            }
        }
        if (!ratios(x, told, out) && !copperInOutline(x, told, out)) {
            againstTheDesign(x, told, out);
            OtherUnit.holes(x, told, out);
        }
    }

    /** Copper work, or holes, of a program against the box of the design: 25.4 times as small or as large. */
    private static void againstTheDesign(Examination x, List<PlannedProgram> told, FindingCollector out) {
        double least = x.limit(LimitKey.UNITS_RATIO_LEAST);
        double most = x.limit(LimitKey.UNITS_RATIO_MOST);
        for (PlannedProgram program : x.plan().programs()) {
            var layer = x.design().layerUp(program.side().number());
            if (layer == null || layer.bounds().isEmpty() || told.contains(program) || !cutsCopper(x, program)) {
                continue;
            }
            double[] a = extents(x, program);
            var b = layer.mapped(x.design().blankFromDesign(program.side().number()))
                    .bounds();
            double wide = (b.maxXMm() - b.minXMm()) / Math.max(1e-9, a[0]);
            double high = (b.maxYMm() - b.minYMm()) / Math.max(1e-9, a[1]);
            if (a[0] > 0 && a[1] > 0 && within(wide, least, most) && within(high, least, most)) {
                out.add(x.at(Finding.of(Kinds.UNITS_UNSET, Severity.STOP, Certainty.GEOMETRY), program.firstSegment())
                        .program(program.file())
                        .atMost(new Measured("size of the design over that of the cuts", wide, "x", 0.1), least)
                        .says("The copper work of " + program.file() + " spans " + Words.plainMm(a[0]) + " x "
                                + Words.plainMm(a[1]) + ", the layer image " + Words.number(wide, 1)
                                + " times as much: the program was most likely written in inches and run in mm.")
                        .doThis("Check one coordinate by hand and set G20 or G21 to match the numbers.")
                        .build());
            }
        }
    }

    private static boolean cutsCopper(Examination x, PlannedProgram program) {
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            Work work = x.workOf(i);
            if (work == Work.ISOLATION || work == Work.CLEARING) {
                return true;
            }
        }
        return false;
    }

    private static boolean ratios(Examination x, List<PlannedProgram> told, FindingCollector out) {
        double least = x.limit(LimitKey.UNITS_RATIO_LEAST);
        double most = x.limit(LimitKey.UNITS_RATIO_MOST);
        List<PlannedProgram> programs =
                x.plan().programs().stream().filter(p -> !onePlace(x, p)).toList();
        for (int i = 0; i < programs.size(); i++) {
            for (int j = 0; j < programs.size(); j++) {
                PlannedProgram small = programs.get(i);
                PlannedProgram large = programs.get(j);
                if (i == j
                        || small.side().number() != large.side().number()
                        || told.contains(small)
                        || told.contains(large)) {
                    continue;
                }
                double[] a = extents(x, small);
                double[] b = extents(x, large);
                if (a[0] > 0 && a[1] > 0 && within(b[0] / a[0], least, most) && within(b[1] / a[1], least, most)) {
                    out.add(x.at(Finding.of(Kinds.UNITS_UNSET, Severity.STOP, Certainty.GEOMETRY), small.firstSegment())
                            .program(small.file())
                            .says("The cuts of " + small.file() + " span " + Words.plainMm(a[0]) + " x "
                                    + Words.plainMm(a[1]) + ", those of " + large.file() + " span "
                                    + Words.plainMm(b[0]) + " x " + Words.plainMm(b[1]) + ": "
                                    + Words.number(b[0] / a[0], 1)
                                    + " times as much. One of them was most likely written in the other unit.")
                            .doThis("Check one coordinate by hand and set G20 or G21 to match the numbers.")
                            .build());
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Copper work and the outline of a board in two programs: the one lies within the other, and fills half of it at least
     * each way, only where the smaller one's numbers are read in the larger unit. So far from one another as they were run
     * they belong to no board.
     */
    private static boolean copperInOutline(Examination x, List<PlannedProgram> told, FindingCollector out) {
        for (PlannedProgram outline : x.plan().programs()) {
            for (PlannedProgram copper : x.plan().programs()) {
                if (outline == copper
                        || outline.side().number() != copper.side().number()
                        || told.contains(outline)
                        || told.contains(copper)
                        || !cutsOutline(x, outline)
                        || cutsCopper(x, outline)
                        || !cutsCopper(x, copper)
                        || cutsOutline(x, copper)) {
                    continue;
                }
                double[] board = box(x, outline, 1);
                double[] work = box(x, copper, 1);
                boolean small = holds(board, box(x, copper, MM_PER_INCH), LEAST_FILL);
                boolean large = holds(box(x, outline, MM_PER_INCH), work, LEAST_FILL);
                if (!small && !large || holds(board, work, 0) && !small) {
                    continue;
                }
                PlannedProgram less = small ? copper : outline;
                double[] a = small ? work : board;
                double[] b = small ? board : work;
                out.add(x.at(Finding.of(Kinds.UNITS_UNSET, Severity.STOP, Certainty.GEOMETRY), less.firstSegment())
                        .program(less.file())
                        .says("The cuts of " + less.file() + " span " + Words.plainMm(a[2] - a[0]) + " x "
                                + Words.plainMm(a[3] - a[1]) + ", those of " + (small ? outline : copper).file()
                                + " span " + Words.plainMm(b[2] - b[0]) + " x " + Words.plainMm(b[3] - b[1])
                                + ". The copper work lies in the outline, and fills it, only if the numbers of "
                                + less.file()
                                + " are 25.4 times as large: one of them was most likely written in the other unit.")
                        .doThis("Check one coordinate by hand and set G20 or G21 to match the numbers.")
                        .build());
                return true;
            }
        }
        return false;
    }

    private static boolean cutsOutline(Examination x, PlannedProgram program) {
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (x.workOf(i) == Work.OUTLINE) {
                return true;
            }
        }
        return false;
    }

    /** The box round the cuts of a program, its numbers times so much, counted from its work zero: x0, y0, x1, y1, mm. */
    private static double[] box(Examination x, PlannedProgram program, double factor) {
        double[] box = boxOf(x, program);
        var run = x.run(x.plan().segments().run(program.firstSegment())).run();
        double[] zero = {run.workZeroXMm(), run.workZeroYMm(), run.workZeroXMm(), run.workZeroYMm()};
        for (int k = 0; k < 4; k++) {
            box[k] = zero[k] + factor * (box[k] - zero[k]);
        }
        return box;
    }

    /** Whether a box holds another, which fills at least a share of it each way. */
    private static boolean holds(double[] outer, double[] inner, double share) {
        double w = outer[2] - outer[0];
        double h = outer[3] - outer[1];
        return w > 0
                && h > 0
                && inner[2] > inner[0]
                && inner[3] > inner[1]
                && inner[0] >= outer[0]
                && inner[1] >= outer[1]
                && inner[2] <= outer[2]
                && inner[3] <= outer[3]
                && inner[2] - inner[0] >= share * w
                && inner[3] - inner[1] >= share * h;
    }

    /** Whether all cuts of a program lie in one place, such as a single hole: its size then says nothing of the unit. */
    private static boolean onePlace(Examination x, PlannedProgram program) {
        double widest = 0;
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            Tool tool = x.run(x.plan().segments().run(i)).tool();
            widest = Math.max(widest, tool == null ? 0 : 2 * tool.cutRadiusAtHeightMm(0));
        }
        // a single hole's cuts span what its bore is wider than the cutter, whatever it measures
        boolean holes = x.paths().holes().stream()
                        .filter(h ->
                                h.firstSegment() >= program.firstSegment() && h.firstSegment() < program.endSegment())
                        .count()
                == 1;
        double[] span = extents(x, program);
        return span[0] < widest && span[1] < widest && holes;
    }

    private static boolean within(double ratio, double least, double most) {
        return ratio >= least && ratio <= most;
    }

    /** Width and height of the box round the feed moves below the nominal foil top, mm. */
    private static double[] extents(Examination x, PlannedProgram program) {
        double[] box = boxOf(x, program);
        return box[2] < box[0] ? new double[] {0, 0} : new double[] {box[2] - box[0], box[3] - box[1]};
    }

    /** The box round the feed moves below the nominal foil top, mm; none where its ends are the wrong way round. */
    private static double[] boxOf(Examination x, PlannedProgram program) {
        Segments s = x.plan().segments();
        double far = Double.MAX_VALUE;
        double[] box = {far, far, -far, -far};
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            if (s.isFeed(i) && x.run(s.run(i)).depthMm(s.lowestMm(i)) > 0) {
                double[] of = s.planBox(i);
                box[0] = Math.min(box[0], of[0]);
                box[1] = Math.min(box[1], of[1]);
                box[2] = Math.max(box[2], of[2]);
                box[3] = Math.max(box[3], of[3]);
            }
        }
        return box;
    }
}
