package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.design.Outline;
import foilproof.design.PathEdge;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;

/**
 * Cutter radius compensation (A17): G41 or G42 without a diameter, and an outline that is moved outward twice, once by the
 * program's maker and once by the controller.
 */
final class RadiusCompensation implements Check {
    /** Share of the compensated path that must run two radii beside the outline: leads do not. */
    private static final double LEAST_SHARE = 0.6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.CUTTER_COMPENSATION);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A17");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            List<LanguageNote> missing =
                    new ArrayList<>(program.interpretation().notes(NoteKind.COMP_WITHOUT_D));
            missing.addAll(program.interpretation().notes(NoteKind.COMP_DIAMETER_UNKNOWN));
            if (!missing.isEmpty()) {
                LanguageNote note = missing.get(0);
                out.add(x.at(
                                Finding.of(Kinds.CUTTER_COMPENSATION, Severity.STOP, Certainty.GEOMETRY),
                                x.firstSegmentFrom(program, note.span().line()))
                        .side(program.side().number())
                        .line(program.file(), note.span().line())
                        .says(
                                note.kind() == NoteKind.COMP_WITHOUT_D
                                        ? "Radius compensation (G41 or G42) is switched on without a D word: which diameter"
                                                + " the controller takes is left to it."
                                        : "Radius compensation (G41 or G42) names a cutter whose diameter the job does not"
                                                + " give: the path was run uncompensated.")
                        .doThis("Write D with the cutter's number, or export compensated paths and write G40 into the"
                                + " first lines.")
                        .build());
            }
            if (!program.interpretation().notes(NoteKind.COMP_ON).isEmpty()) {
                twice(x, program, out);
            }
        }
    }

    private static void twice(Examination x, PlannedProgram program, FindingCollector out) {
        Outline outline = x.design().read().outline();
        if (outline == null) {
            out.notChecked(
                    "whether " + program.file() + " moves its outline outward twice (G41, G42)",
                    "no outline file is given");
            return;
        }
        Outline placed =
                outline.mapped(x.design().blankFromDesign(program.side().number()));
        Segments s = x.plan().segments();
        double within = x.limit(LimitKey.DOUBLE_COMPENSATION);
        int first = -1;
        double all = 0;
        double twice = 0;
        double sum = 0;
        double radius = 0;
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            Tool tool = x.run(s.run(i)).tool();
            if (!s.isFeed(i) || !s.has(i, Segments.RADIUS_COMPENSATED) || !x.removes(i) || tool == null) {
                continue;
            }
            radius = tool.diameterMm() / 2;
            double[] middle = s.pointAt(i, 0.5);
            double away = distanceMm(placed, middle[0], middle[1]);
            double length = s.planLengthMm(i);
            all += away < 4 * radius ? length : 0;
            if (Math.abs(away - 2 * radius) <= within + 1e-9) {
                first = first < 0 ? i : first;
                twice += length;
                sum += away * length;
            }
        }
        if (first < 0 || twice < LEAST_SHARE * all || radius <= 2 * within) {
            return;
        }
        out.add(x.at(Finding.of(Kinds.CUTTER_COMPENSATION, Severity.STOP, Certainty.GEOMETRY), first)
                .atMost(Measured.mm("distance of the path from the outline", sum / twice, 0.001), radius)
                .says("With radius compensation on, the path runs " + Words.mm(sum / twice)
                        + " beside the outline: twice the cutter's radius of " + Words.plainMm(radius)
                        + ". The program was already moved outward by the radius, and the controller does it again.")
                .doThis("Write G40 instead of G41 or G42, or export the outline itself.")
                .build());
    }

    /** Least distance of a point from the outline's edges, mm. */
    static double distanceMm(Outline outline, double xMm, double yMm) {
        double best = Double.POSITIVE_INFINITY;
        for (Outline.Ring ring : outline.rings()) {
            for (PathEdge edge : ring.edges()) {
                best = Math.min(best, distanceMm(edge, xMm, yMm));
            }
        }
        return best;
    }

    private static double distanceMm(PathEdge e, double xMm, double yMm) {
        if (e.isArc()) {
            // an arc's ends belong to its neighbours too, so that its whole circle does
            return Math.abs(StrictMath.hypot(xMm - e.cxMm(), yMm - e.cyMm()) - e.radiusMm());
        }
        double dx = e.x1Mm() - e.x0Mm();
        double dy = e.y1Mm() - e.y0Mm();
        double square = dx * dx + dy * dy;
        double f = square == 0 ? 0 : ((xMm - e.x0Mm()) * dx + (yMm - e.y0Mm()) * dy) / square;
        double at = Math.max(0, Math.min(1, f));
        return StrictMath.hypot(xMm - e.x0Mm() - at * dx, yMm - e.y0Mm() - at * dy);
    }
}
