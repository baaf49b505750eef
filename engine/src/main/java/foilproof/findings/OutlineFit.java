package foilproof.findings;

import foilproof.bench.DesignFiles;
import foilproof.bench.LimitKey;
import foilproof.bench.XyMm;
import foilproof.design.Bounds;
import foilproof.design.Outline;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The cut-out board against the outline that was drawn, or the finished size that the job states (H1, H11): first its
 * size, since a cut on the wrong side of the line is off by a multiple of the cutter's radius; where that fits, its shape
 * line by line, and what stays in inside corners (H9). Where the outline lies is not judged here.
 */
final class OutlineFit implements Check {
    /** The cut is on the wrong side of the line where it is off by the cutter's measure within this, mm. */
    static final double SAME_MM = 0.05;

    private static final double PLUS_MINUS_MM = 0.002;
    /** A round cut up to this wide is a screw hole, mm. */
    private static final double LARGEST_HOLE_MM = 10;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.OUTLINE_OFF, Kinds.CORNER_LEFT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("H1", "H9", "H11");
    }

    /** A wanted contour: its box in the frame of the side that cuts it; the middle is NaN where only its size is known. */
    private record Wanted(
            double widthMm,
            double heightMm,
            double midXMm,
            double midYMm,
            boolean opening,
            Outline.@Nullable Ring ring) {}

    /** A cut against a contour. */
    private record Fit(CutLoop loop, Wanted wanted, double dxMm, double dyMm, double radiusMm) {
        /** Signed difference of the size that is farther off, mm, + = larger than wanted. */
        double offMm() {
            return Math.abs(dxMm) >= Math.abs(dyMm) ? dxMm : dyMm;
        }
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        List<CutLoop> cuts = through(x);
        if (cuts.isEmpty()) {
            return;
        }
        Outline outline = x.design().read().outline();
        DesignFiles files = x.job().design();
        if (outline == null && (files == null || files.finishedSizeMm() == null)) {
            out.notChecked("the size of the cut-out board", "neither an outline nor finished_size is given");
            return;
        }
        for (Wanted wanted : wanted(x, outline, files, cuts.get(0).side())) {
            Fit best = best(x, cuts, wanted);
            if (best != null) {
                judge(x, best, out);
            }
        }
    }

    /** Closed cuts that go through or nearly so. */
    static List<CutLoop> through(Examination x) {
        List<CutLoop> cuts = new ArrayList<>();
        for (CutLoop loop : x.paths().outlines()) {
            RunFacts run = x.run(loop.run());
            if (run.tool() != null && run.blankFromRunMm(loop.deepestMm()) < -0.75 * x.thicknessMm()) {
                cuts.add(loop);
            }
        }
        return cuts;
    }

    /** Whether a cut is a round hole, if a large one, and no outline. */
    static boolean roundHole(CutLoop loop) {
        Extents e = loop.extents();
        double w = e.x1Mm() - e.x0Mm();
        double h = e.y1Mm() - e.y0Mm();
        return Math.max(w, h) < LARGEST_HOLE_MM && Math.abs(w - h) < 0.05 && loop.areaMm2() < 0.81 * w * h;
    }

    private static List<Wanted> wanted(
            Examination x, @Nullable Outline outline, @Nullable DesignFiles files, int side) {
        List<Wanted> all = new ArrayList<>();
        if (outline != null) {
            Outline laid = outline.mapped(x.design().blankFromDesign(side));
            for (Outline.Ring ring : laid.rings()) {
                Bounds b = ring.bounds();
                boolean opening = laid.rings().stream()
                        .anyMatch(r -> r != ring && r.areaMm2() > ring.areaMm2() && encloses(r.bounds(), b));
                all.add(new Wanted(
                        b.widthMm(),
                        b.heightMm(),
                        (b.minXMm() + b.maxXMm()) / 2,
                        (b.minYMm() + b.maxYMm()) / 2,
                        opening,
                        ring));
            }
        } else if (files != null && files.finishedSizeMm() != null) {
            XyMm size = files.finishedSizeMm();
            all.add(new Wanted(size.xMm(), size.yMm(), Double.NaN, Double.NaN, false, null));
        }
        return all;
    }

    private static boolean encloses(Bounds a, Bounds b) {
        return a.minXMm() < b.minXMm() && a.minYMm() < b.minYMm() && a.maxXMm() > b.maxXMm() && a.maxYMm() > b.maxYMm();
    }

    /** The cut that comes nearest to a contour; null where none can be meant for it. */
    private static @Nullable Fit best(Examination x, List<CutLoop> cuts, Wanted wanted) {
        Fit best = null;
        double bestBy = Double.POSITIVE_INFINITY;
        for (CutLoop loop : cuts) {
            boolean inner = cuts.stream().anyMatch(o -> o != loop && o.side() == loop.side() && surrounds(o, loop));
            if (inner != wanted.opening()) {
                continue;
            }
            Extents e = loop.extents();
            double r = x.run(loop.run()).knownTool().cutRadiusAtHeightMm(0);
            double grow = wanted.opening() ? 2 * r : -2 * r;
            double w = e.x1Mm() - e.x0Mm() + grow;
            double h = e.y1Mm() - e.y0Mm() + grow;
            double aside = Double.isNaN(wanted.midXMm())
                    ? 0
                    : StrictMath.hypot(
                            (e.x0Mm() + e.x1Mm()) / 2 - wanted.midXMm(), (e.y0Mm() + e.y1Mm()) / 2 - wanted.midYMm());
            Fit fit = new Fit(loop, wanted, w - wanted.widthMm(), h - wanted.heightMm(), r);
            if (Double.isNaN(wanted.midXMm())) {
                Fit turned = new Fit(loop, wanted, w - wanted.heightMm(), h - wanted.widthMm(), r);
                fit = Math.abs(turned.offMm()) < Math.abs(fit.offMm()) ? turned : fit;
            }
            double by = Math.abs(fit.offMm()) + aside;
            // an opening that is far off is another one, and a cut that is much too small is no board's
            boolean meant = wanted.opening()
                    ? by < 4 * r + 1
                    : Math.min(w, h) > Math.min(wanted.widthMm(), wanted.heightMm()) / 2
                            && Math.max(w, h) > Math.max(wanted.widthMm(), wanted.heightMm()) / 2;
            if (meant && by < bestBy - 1e-9) {
                bestBy = by;
                best = fit;
            }
        }
        return best;
    }

    private static boolean surrounds(CutLoop a, CutLoop b) {
        return a.extents().x0Mm() < b.extents().x0Mm() - 0.3
                && a.extents().y0Mm() < b.extents().y0Mm() - 0.3
                && a.extents().x1Mm() > b.extents().x1Mm() + 0.3
                && a.extents().y1Mm() > b.extents().y1Mm() + 0.3;
    }

    private static void judge(Examination x, Fit fit, FindingCollector out) {
        double off = fit.offMm();
        double size = Math.abs(off);
        double limit = x.limit(LimitKey.OUTLINE_OFF);
        Double fits = x.job().limits().changed().get(LimitKey.FIT_ALLOWANCE_MOST);
        boolean tooFar = fits != null && size > fits + 1e-6;
        if (size <= limit + 1e-6 && !tooFar) {
            if (fit.wanted().ring() != null) {
                OutlineShape.judge(
                        x, fit.loop(), fit.wanted().ring(), fit.wanted().opening(), out);
            }
            return;
        }
        double r = fit.radiusMm();
        boolean bothWays = Math.abs(Math.abs(fit.dxMm()) - Math.abs(fit.dyMm())) < SAME_MM;
        boolean wrongSide = bothWays
                && (Math.abs(size - r) < SAME_MM
                        || Math.abs(size - 2 * r) < SAME_MM
                        || Math.abs(size - 4 * r) < SAME_MM);
        // beside the line, a cut round the board lies outward of it and one in an opening inward
        boolean outward = !fit.wanted().opening();
        String how = !wrongSide
                ? ""
                : Math.abs(size - 4 * r) < SAME_MM
                        ? " That is twice the cutter's diameter: the cut runs on the wrong side of the line."
                        : Math.abs(size - 2 * r) < SAME_MM
                                ? outward == off > 0
                                        ? " That is the cutter's diameter: the cut was moved off the line twice."
                                        : " That is the cutter's diameter: the cut runs on the line itself, not beside it."
                                : " That is the cutter's radius: the cut is beside the line by half of what it should.";
        Extents e = fit.loop().extents();
        int segment = x.paths().strokes().get(fit.loop().strokes().get(0)).firstSegment();
        out.add(x.at(
                        Finding.of(Kinds.OUTLINE_OFF, wrongSide ? Severity.STOP : Severity.WATCH, Certainty.GEOMETRY),
                        firstSideways(x, segment))
                .box(e.x0Mm(), e.y0Mm(), e.x1Mm(), e.y1Mm())
                .atMost(Measured.mm("difference of the finished size", size, PLUS_MINUS_MM), tooFar ? fits : limit)
                .says(String.format(
                        Locale.ROOT,
                        "The %s comes out %s too %s: %.2f x %.2f mm are wanted, the cut leaves %.2f x %.2f mm.%s",
                        fit.wanted().opening() ? "opening" : "board",
                        Words.mm(size),
                        off > 0 ? "large" : "small",
                        fit.wanted().widthMm(),
                        fit.wanted().heightMm(),
                        fit.wanted().widthMm() + fit.dxMm(),
                        fit.wanted().heightMm() + fit.dyMm(),
                        how))
                .doThis(
                        "Make the outline program again with the cut beside the line: outside for the board, inside for an"
                                + " opening, off it by the radius of the cutter that runs it.")
                .build());
    }

    private static int firstSideways(Examination x, int segment) {
        int i = segment;
        while (i + 1 < x.plan().segments().size() && x.plan().segments().planLengthMm(i) < 1e-6) {
            i++;
        }
        return i;
    }
}
