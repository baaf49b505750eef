package foilproof.findings;

import foilproof.bench.Hold;
import foilproof.bench.LimitKey;
import foilproof.motion.CutLoop;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Parts that come free under a turning cutter (H2), slugs inside a cut (H6), work after that (H5), and tabs that are
 * too few, too thin or too thick (H3; common practice, no source).
 */
final class PartFree implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.PART_FREE, Kinds.TABS);
    }

    @Override
    public List<String> needsRows() {
        return List.of("H2", "H3", "H5", "H6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CutLoop loop : x.paths().outlines()) {
            RunFacts run = x.run(loop.run());
            boolean through = run.blankFromRunMm(loop.deepestMm()) <= -x.thicknessMm() + ROUNDING_MM;
            if (run.tool() == null || !through) {
                continue;
            }
            if (loop.tabs().isEmpty() && !loop.closedByGaps()) {
                freed(x, run, loop, out);
            } else {
                tabs(x, run, loop, out);
            }
        }
    }

    private static void freed(Examination x, RunFacts run, CutLoop loop, FindingCollector out) {
        Hold hold = run.side().hold();
        boolean slug = insideAnother(x, loop);
        double radius = run.knownTool().cutRadiusAtHeightMm(0);
        double width = loop.extents().x1Mm() - loop.extents().x0Mm() - 2 * radius;
        double height = loop.extents().y1Mm() - loop.extents().y0Mm() - 2 * radius;
        double least = x.limit(LimitKey.SLUG);
        if (slug && (width <= least + ROUNDING_MM || height <= least + ROUNDING_MM)) {
            return;
        }
        Severity severity = hold == Hold.FULL_TAPE
                ? Severity.NOTE
                : slug ? Severity.FIX : hold == Hold.EDGE_CLAMPS ? Severity.STOP : Severity.WATCH;
        int last = x.paths().strokes().get(deepestStroke(x, loop)).endSegment() - 1;
        Segments s = x.plan().segments();
        while (last > 0 && s.planLengthMm(last) < ROUNDING_MM) {
            last--;
        }
        Finding after = workAfter(x, run, loop, s.endS(last), hold);
        Finding freed = x.at(Finding.of(Kinds.PART_FREE, severity, Certainty.SET_UP), last)
                .time(s.endS(last))
                .box(
                        loop.extents().x0Mm(),
                        loop.extents().y0Mm(),
                        loop.extents().x1Mm(),
                        loop.extents().y1Mm())
                .measured(Measured.mm("longer side of the freed part", Math.max(width, height), 0.01))
                .says((slug ? "The slug of " : "The part of ") + Words.number(width, 1) + " x "
                        + Words.number(height, 1)
                        + " mm inside this cut comes free here, without tabs; the blank is held"
                        + " by " + hold.word() + "."
                        + (severity == Severity.NOTE ? "" : " A loose part is caught and thrown by the cutter."))
                .doThis(
                        hold == Hold.FULL_TAPE
                                ? "The tape holds it; check that it sticks all over."
                                : "Leave 3 or 4 tabs of 1.5 to 3 mm, 0.4 to 0.6 mm thick, or hold the part by full-face tape.")
                .build();
        // a part that tabs hold bears work: what comes after follows from the part that is free
        boolean leads = after != null && severity.atLeast(after.severity());
        out.add(leads ? freed.withConsequences(List.of(after)) : freed);
        if (after != null && !leads) {
            out.add(after);
        }
    }

    private static int deepestStroke(Examination x, CutLoop loop) {
        int best = loop.strokes().get(0);
        for (int stroke : loop.strokes()) {
            if (x.paths().strokes().get(stroke).deepestMm()
                    <= x.paths().strokes().get(best).deepestMm()) {
                best = stroke;
            }
        }
        return best;
    }

    static boolean insideAnother(Examination x, CutLoop loop) {
        for (CutLoop other : x.paths().outlines()) {
            if (other != loop
                    && other.side() == loop.side()
                    && other.extents().x0Mm() < loop.extents().x0Mm()
                    && other.extents().y0Mm() < loop.extents().y0Mm()
                    && other.extents().x1Mm() > loop.extents().x1Mm()
                    && other.extents().y1Mm() > loop.extents().y1Mm()
                    && holds(x, other, loop)) {
                return true;
            }
        }
        return false;
    }

    /** Whether one way goes round a place of another one. */
    private static boolean holds(Examination x, CutLoop outer, CutLoop inner) {
        int first = x.paths().strokes().get(inner.strokes().get(0)).firstSegment();
        Segments s = x.plan().segments();
        return LoopShape.of(x, outer, outer.side()).holds(s.x1Mm(first), s.y1Mm(first));
    }

    /** Cuts within the freed part after the moment at which it is free. */
    private static @Nullable Finding workAfter(Examination x, RunFacts run, CutLoop loop, double freeS, Hold hold) {
        Segments s = x.plan().segments();
        LoopShape shape = LoopShape.of(x, loop, run.side().number());
        for (int i = 0; i < s.size(); i++) {
            double[] box = s.planBox(i);
            boolean inside = box[0] > loop.extents().x0Mm() + ROUNDING_MM
                    && box[1] > loop.extents().y0Mm() + ROUNDING_MM
                    && box[2] < loop.extents().x1Mm() - ROUNDING_MM
                    && box[3] < loop.extents().y1Mm() - ROUNDING_MM;
            if (s.startS(i) >= freeS - 1e-9
                    && inside
                    && x.run(s.run(i)).side().number() == run.side().number()
                    && x.removes(i)
                    && shape.holds(s.pointAt(i, 0.5)[0], s.pointAt(i, 0.5)[1])) {
                return x.at(
                                Finding.of(
                                        Kinds.PART_FREE,
                                        hold == Hold.EDGE_CLAMPS ? Severity.STOP : Severity.WATCH,
                                        Certainty.SET_UP),
                                i)
                        .box(
                                loop.extents().x0Mm(),
                                loop.extents().y0Mm(),
                                loop.extents().x1Mm(),
                                loop.extents().y1Mm())
                        .says("Work goes on in a part that is already free since " + Words.number(freeS, 1)
                                + " s: it may have moved, or is thrown.")
                        .doThis("Cut holes and inner openings first, the outline last.")
                        .build();
            }
        }
        return null;
    }

    private static void tabs(Examination x, RunFacts run, CutLoop loop, FindingCollector out) {
        double diameter = 2 * run.knownTool().cutRadiusAtHeightMm(0);
        double least = x.limit(LimitKey.TAB_SECTION_LEAST);
        double most = x.limit(LimitKey.TAB_SECTION_MOST);
        if (loop.tabs().size() < x.limit(LimitKey.TAB_COUNT)) {
            Finding.Builder few = tab(x, loop, Severity.WATCH);
            for (CutLoop.Tab only : loop.tabs()) {
                few.at(only.xMm(), only.yMm());
            }
            out.add(few.atLeast(Measured.exact("tabs", loop.tabs().size(), "tabs"), x.limit(LimitKey.TAB_COUNT))
                    .says("Only " + loop.tabs().size() + " tab holds the part: it turns about it.")
                    .doThis("Leave 3 or 4 tabs.")
                    .build());
        }
        for (CutLoop.Tab tab : loop.tabs()) {
            double top = Math.min(0, Double.isInfinite(tab.lowestMm()) ? 0 : run.blankFromRunMm(tab.lowestMm()));
            double section = Math.max(0, tab.pathMm() - diameter) * (x.thicknessMm() + top);
            if (section < least - 1e-9 || section > most + 1e-9) {
                Finding.Builder b = tab(x, loop, Severity.NOTE)
                        .at(tab.xMm(), tab.yMm())
                        .says("A tab has a section of " + Words.number(section, 2) + " mm2; " + Words.number(least, 1)
                                + " to " + Words.number(most, 1) + " mm2 is usual.")
                        .doThis("Make tabs 1.5 to 3 mm wide and 0.4 to 0.6 mm thick.");
                Measured measured = new Measured("section of the tab", section, "mm2", 0.05);
                out.add((section < least ? b.atLeast(measured, least) : b.atMost(measured, most)).build());
                return;
            }
        }
    }

    private static Finding.Builder tab(Examination x, CutLoop loop, Severity severity) {
        Stroke stroke = x.paths().strokes().get(deepestStroke(x, loop));
        return x.at(
                Finding.of(Kinds.TABS, severity, Certainty.RULE_OF_THUMB),
                Math.max(stroke.firstSegment(), stroke.endSegment() - 1));
    }
}
