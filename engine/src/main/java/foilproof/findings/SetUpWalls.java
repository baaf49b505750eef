package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.bench.XyMm;
import foilproof.copper.Strip;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Walls of grooves that rest on numbers of the set-up: lost motion of the axes (B18; E1 where a loop no longer closes), an
 * angle taken for the half one (C2), more runout than stated (C9). What would be a fix or a stop is a watch; what would
 * only be a watch is a note, since every board has copper near those limits.
 */
final class SetUpWalls implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.BACKLASH, Kinds.ANGLE_DOUBT, Kinds.RUNOUT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B18", "C2", "C9", "E1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CopperFacts copper : x.copper()) {
            if (!copper.windows().isEmpty()) {
                backlash(x, copper, out);
                angles(x, copper, out);
                runout(x, copper, out);
            }
        }
    }

    // ---- B18, E1

    private static void backlash(Examination x, CopperFacts copper, FindingCollector out) {
        XyMm lost = x.job().machine().backlashMm();
        double most = Math.max(lost.xMm(), lost.yMm());
        if (most <= 0) {
            return;
        }
        double trace = x.limit(LimitKey.TRACE_WIDTH);
        double[] limits = {trace, x.limit(LimitKey.TRACE_WIDTH_FIX), x.limit(LimitKey.HAIR_WIDTH)};
        GrooveWalls walls = new GrooveWalls(x, copper, trace + 3 * most, lost);
        List<Finding> all = new ArrayList<>();
        for (GrooveWalls.Flip flip : walls.flips(limits, x.limit(LimitKey.SLIVER_LENGTH))) {
            Finding f = told(x, copper, flip, lost);
            if (f != null) {
                all.add(f);
            }
        }
        lead(all, out);
    }

    private static @Nullable Finding told(Examination x, CopperFacts copper, GrooveWalls.Flip flip, XyMm lost) {
        Strip strip = stripAt(copper, flip.xMm(), flip.yMm());
        boolean leftover = strip != null && strip.leftover();
        boolean hair = flip.limitMm() == x.limit(LimitKey.HAIR_WIDTH);
        boolean grave =
                switch (flip.kind()) {
                    case NECK -> true;
                    case STRIP -> flip.afterMm() < x.limit(LimitKey.HAIR_WIDTH);
                    case NARROWER -> hair ? leftover : flip.limitMm() == x.limit(LimitKey.TRACE_WIDTH_FIX) && !leftover;
                };
        if (hair && !leftover && flip.kind() == GrooveWalls.Kind.NARROWER) {
            return null;
        }
        String lines = lines(x, flip.segment(), flip.otherSegment());
        String axes = "An axis that stands " + Words.plainMm(Math.max(lost.xMm(), lost.yMm()))
                + " behind after it turns round (machine.backlash) ";
        Finding.Builder b = x.at(
                        Finding.of(Kinds.BACKLASH, grave ? Severity.WATCH : Severity.NOTE, Certainty.SET_UP),
                        flip.segment())
                .side(copper.side())
                .at(flip.xMm(), flip.yMm());
        switch (flip.kind()) {
            case NECK ->
                b.atMost(Measured.mm("neck of copper", flip.afterMm(), 0.004), 0)
                        .says(axes + "leaves a neck of copper " + Words.mm(flip.afterMm())
                                + " wide where the grooves of " + lines + " meet as programmed by only "
                                + Words.plainMm(-flip.beforeMm()) + ".")
                        .doThis("Run a lead-over of 0.3 to 0.5 mm where the groove closes, or take up the backlash.");
            case STRIP ->
                b.atLeast(Measured.mm("width", flip.afterMm(), 0.004), x.limit(LimitKey.HAIR_WIDTH))
                        .says(axes + "leaves a strip of copper " + Words.mm(flip.afterMm()) + " wide over "
                                + Words.plainMm(flip.lengthMm()) + " between the grooves of " + lines
                                + ", which overlap by only " + Words.plainMm(-flip.beforeMm()) + " as programmed.")
                        .doThis("Step over less, or run both passes in the same direction.");
            default ->
                b.atLeast(Measured.mm("width", flip.afterMm(), 0.004), flip.limitMm())
                        .says(axes + "leaves only " + Words.mm(flip.afterMm()) + " of copper between the grooves of "
                                + lines + "; as programmed it is " + Words.plainMm(flip.beforeMm()) + ".")
                        .doThis("Run both grooves in the same direction, take up the backlash, or widen the copper.");
        }
        return b.build();
    }

    private static String lines(Examination x, int segment, int other) {
        int a = x.plan().segments().line(segment);
        int b = x.plan().segments().line(other);
        return a == b ? "line " + a : "lines " + Math.min(a, b) + " and " + Math.max(a, b);
    }

    private static @Nullable Strip stripAt(CopperFacts copper, double px, double py) {
        Strip best = null;
        double least = Double.POSITIVE_INFINITY;
        for (Strip strip : copper.strips()) {
            double dx = Math.max(0, Math.max(strip.x0Mm() - px, px - strip.x1Mm()));
            double dy = Math.max(0, Math.max(strip.y0Mm() - py, py - strip.y1Mm()));
            double d = Math.sqrt(dx * dx + dy * dy);
            if (d < 0.1 && d < least) {
                least = d;
                best = strip;
            }
        }
        return best;
    }

    // ---- C2

    /** A stated angle that is really the half one: grooves are wider, and what is between them narrower. */
    private static void angles(Examination x, CopperFacts copper, FindingCollector out) {
        Set<String> told = new TreeSet<>();
        for (int index : copper.windows().keySet()) {
            RunFacts run = x.run(index);
            Tool tool = run.knownTool();
            double doubled = 2 * tool.includedAngleRad();
            if (tool.shape() != ToolShape.V || doubled >= Math.PI || !told.add(tool.name())) {
                continue;
            }
            Tool other = tool.withIncludedAngle(doubled);
            double depth = depthMm(x, run);
            double under = Math.max(0, depth - x.foilMm());
            double wider = other.cutRadiusAtHeightMm(under) - tool.cutRadiusAtHeightMm(under);
            Finding f = narrowed(x, copper, run, Kinds.ANGLE_DOUBT, wider);
            if (f != null) {
                out.add(f.saying("The angle of " + run.quotedName() + " is taken as the included one, "
                        + Words.number(StrictMath.toDegrees(tool.includedAngleRad()), 0)
                        + " deg. Were it the half angle, its groove would be "
                        + Words.mm(2 * other.cutRadiusAtHeightMm(depth)) + " wide on top instead of "
                        + Words.plainMm(2 * tool.cutRadiusAtHeightMm(depth)) + ", and " + f.message()));
            }
        }
    }

    // ---- C9

    /** More runout than stated: both walls of every groove stand back by half the difference. */
    private static void runout(Examination x, CopperFacts copper, FindingCollector out) {
        Set<String> told = new TreeSet<>();
        double doubted = x.limit(LimitKey.RUNOUT_DOUBT);
        for (int index : copper.windows().keySet()) {
            RunFacts run = x.run(index);
            double stated = run.knownTool().runoutMm();
            if (stated >= doubted || !told.add(run.toolName())) {
                continue;
            }
            Finding f = narrowed(x, copper, run, Kinds.RUNOUT, (doubted - stated) / 2);
            if (f != null) {
                out.add(f.saying("With a runout (total indicator reading) of " + Words.plainMm(doubted)
                        + " instead of the " + Words.plainMm(stated) + " of " + run.quotedName() + ", " + f.message()));
            }
        }
    }

    private static double depthMm(Examination x, RunFacts run) {
        double depth = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (x.cutsFoil(i)) {
                depth = Math.max(depth, x.engagedMm(i));
            }
        }
        return depth;
    }

    /** The narrowest trace that would fall below the limit of a fix were each of its walls to stand back by so much. */
    private static @Nullable Finding narrowed(
            Examination x, CopperFacts copper, RunFacts run, String kind, double eachWallMm) {
        double limit = x.limit(LimitKey.TRACE_WIDTH_FIX);
        Strip worst = null;
        double least = limit - 1e-6;
        for (Strip strip : copper.strips()) {
            boolean own =
                    run.run().firstProgram() <= strip.program() && run.run().lastProgram() >= strip.program();
            double then = strip.baseMm() - 2 * eachWallMm;
            if (own && !strip.leftover() && strip.taperRad() <= 0 && strip.baseMm() >= limit - 1e-6 && then < least) {
                least = then;
                worst = strip;
            }
        }
        if (worst == null) {
            return null;
        }
        double then = Math.max(0, worst.baseMm() - 2 * eachWallMm);
        Finding.Builder b = Finding.of(kind, Severity.WATCH, Certainty.SET_UP)
                .side(copper.side())
                .at(worst.xMm(), worst.yMm())
                .box(worst.x0Mm(), worst.y0Mm(), worst.x1Mm(), worst.y1Mm())
                .atLeast(Measured.mm("width of the trace then", then, worst.errorMm()), limit)
                .says("a trace of " + Words.mm(worst.baseMm()) + " would be only " + Words.plainMm(then)
                        + " wide at the foil bottom.")
                .doThis(
                        kind.equals(Kinds.RUNOUT)
                                ? "Clean collet and shank, measure the runout, and state it as tool.runout."
                                : "Measure the width of a test groove of known depth, or look up which angle the maker"
                                        + " states.");
        copper.nearestLine(x, b, worst.xMm(), worst.yMm());
        return b.build();
    }

    private static void lead(List<Finding> all, FindingCollector out) {
        if (!all.isEmpty()) {
            all.sort(Comparator.comparing(Finding::severity));
            out.add(all.get(0).withConsequences(all.subList(1, all.size())));
        }
    }
}
