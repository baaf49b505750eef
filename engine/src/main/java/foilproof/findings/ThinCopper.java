package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.copper.EdgeStrip;
import foilproof.copper.NarrowGap;
import foilproof.copper.Strip;
import java.util.ArrayList;
import java.util.List;

/**
 * Strips of copper that peel (F1 to F5), spikes (F6), strips beside an edge or a
 * cut through the blank (F7), traces below the rule (E8, F5) and gaps too narrow to solder (E3). The worst
 * place of each kind leads; the other places of that kind on the side are folded under it.
 */
final class ThinCopper implements Check {
    private static final int MOST_FOLDED = 60;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.HAIR, Kinds.SLIVER, Kinds.THIN_TRACE, Kinds.NARROW_GAP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E3", "E8", "F1", "F2", "F3", "F4", "F5", "F6", "F7", "F8", "J9");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CopperFacts copper : x.copper()) {
            List<Finding> hairs = new ArrayList<>();
            List<Finding> slivers = new ArrayList<>();
            List<Finding> traces = new ArrayList<>();
            OutlineSide outline = OutlineSide.of(x, copper.side());
            for (Strip strip : copper.strips()) {
                boolean hair = isHair(x, strip);
                boolean spike = strip.taperRad() > 0 && !(hair && strip.leftover());
                if (besideHole(x, copper, strip) || outline.isWaste(strip.xMm(), strip.yMm())) {
                    continue;
                }
                if (spike) {
                    if (StrictMath.toDegrees(strip.taperRad()) < x.limit(LimitKey.SPIKE_ANGLE)
                            && strip.baseMm() < x.limit(LimitKey.SPIKE_WIDTH)
                            && strip.baseMm() < x.limit(LimitKey.THIN_WIDTH)) {
                        slivers.add(spike(x, copper, strip));
                    }
                } else if (!strip.leftover()) {
                    Finding trace = trace(x, copper, strip);
                    if (trace != null) {
                        traces.add(trace);
                    }
                } else if (hair) {
                    hairs.add(strip(x, copper, strip, true));
                } else if (strip.baseMm() < x.limit(LimitKey.THIN_WIDTH) - 1e-6) {
                    slivers.add(beside(x, strip) ? edge(x, copper, strip) : strip(x, copper, strip, false));
                }
            }
            if (!outline.cutsThePartOut()) {
                for (EdgeStrip strip : copper.edgeStrips()) {
                    slivers.add(edge(x, copper, strip));
                }
            }
            lead(hairs, out);
            lead(slivers, out);
            lead(traces, out);
            lead(gaps(x, copper), out);
        }
    }

    /** The worst leads, the rest is folded under it. */
    private static void lead(List<Finding> all, FindingCollector out) {
        if (all.isEmpty()) {
            return;
        }
        List<Finding> sorted = new ArrayList<>(all);
        sorted.sort(java.util.Comparator.comparing(Finding::severity)
                .thenComparing(f -> f.measured() == null ? 0 : f.measured().value()));
        List<Finding> rest = sorted.subList(1, Math.min(sorted.size(), 1 + MOST_FOLDED));
        out.add(sorted.get(0).withConsequences(rest));
        if (sorted.size() > 1 + MOST_FOLDED) {
            out.notChecked(
                    (sorted.size() - 1 - MOST_FOLDED) + " more places of "
                            + sorted.get(0).kind() + " on side " + sorted.get(0).side(),
                    "found, but not listed one by one");
        }
    }

    /** Whether a strip is the ring of a hole: rings have a finding of their own. */
    private static boolean besideHole(Examination x, CopperFacts copper, Strip strip) {
        for (Hole hole : x.holes()) {
            boolean own = hole.side() == copper.side();
            if (!own && !hole.through() || x.run(hole.run()).tool() == null) {
                continue;
            }
            double px = x.stock().xOnSideMm(hole.side(), copper.side(), hole.xMm());
            double py = x.stock().yOnSideMm(hole.side(), copper.side(), hole.yMm());
            double away = StrictMath.hypot(strip.xMm() - px, strip.yMm() - py) - Rings.radiusMm(x, hole, own);
            if (away < strip.baseMm() + 0.02) {
                return true;
            }
        }
        return false;
    }

    private static boolean isHair(Examination x, Strip strip) {
        double least = x.limit(LimitKey.SLIVER_LENGTH);
        return strip.hairMm() > least || strip.knifeMm() > least;
    }

    private static Finding strip(Examination x, CopperFacts copper, Strip strip, boolean hair) {
        boolean sliver = !hair && strip.sliverMm() > x.limit(LimitKey.SLIVER_LENGTH);
        double limit = x.limit(hair ? LimitKey.HAIR_WIDTH : sliver ? LimitKey.SLIVER_WIDTH : LimitKey.THIN_WIDTH);
        boolean knifeOnly = hair && strip.hairMm() <= x.limit(LimitKey.SLIVER_LENGTH);
        Severity severity = Severity.WATCH;
        Certainty certainty = Certainty.RULE_OF_THUMB;
        if (hair) {
            // one that reaches nothing is only watched (F4), but a free end or an island raises it one grade (F3)
            boolean near = strip.reachesOther() || copper.map().pieces().size() < 2;
            boolean loose = strip.freeEnds() > 0 || strip.pieceMm2() < x.limit(LimitKey.HAIR_ISLAND_AREA);
            severity = near || loose ? Severity.FIX : Severity.WATCH;
            certainty = near ? Certainty.GEOMETRY : Certainty.RULE_OF_THUMB;
        }
        String what = knifeOnly ? "knife edge" : hair ? "hair" : sliver ? "sliver" : "thin strip";
        Finding.Builder b = Finding.of(hair ? Kinds.HAIR : Kinds.SLIVER, severity, certainty)
                .side(copper.side())
                .at(strip.xMm(), strip.yMm())
                .box(strip.x0Mm(), strip.y0Mm(), strip.x1Mm(), strip.y1Mm())
                .measured(Measured.mm("width", strip.baseMm(), strip.errorMm()))
                .says("A " + what + " of copper is left between two grooves: " + Words.mm(strip.baseMm())
                        + " wide at the foil bottom, " + Words.plainMm(strip.topMm()) + " on top, "
                        + Words.plainMm(strip.lengthMm()) + " long, " + ends(strip) + ". " + reach(strip))
                .doThis("Step over by at most 75 % of the groove's width at the foil bottom, so that nothing is left.");
        if (knifeOnly) {
            b.atMost(Measured.mm("width on top", strip.topMm(), strip.errorMm()), x.limit(LimitKey.KNIFE_EDGE_TOP))
                    .margin(strip.topMm() - x.limit(LimitKey.KNIFE_EDGE_TOP));
        } else {
            b.atLeast(Measured.mm("width", strip.baseMm(), strip.errorMm()), limit);
        }
        place(x, copper, b, strip.program(), strip.line());
        return b.build();
    }

    /** A corner of copper that runs out to a point. */
    private static Finding spike(Examination x, CopperFacts copper, Strip strip) {
        Finding.Builder b = Finding.of(Kinds.SLIVER, Severity.WATCH, Certainty.RULE_OF_THUMB)
                .side(copper.side())
                .at(strip.xMm(), strip.yMm())
                .box(strip.x0Mm(), strip.y0Mm(), strip.x1Mm(), strip.y1Mm())
                .atLeast(
                        Measured.mm("width of the tip", strip.baseMm(), strip.errorMm()), x.limit(LimitKey.SPIKE_WIDTH))
                .says("A corner of copper runs out to a spike of about "
                        + Words.number(StrictMath.toDegrees(strip.taperRad()), 0) + " deg between two grooves, "
                        + Words.plainMm(strip.lengthMm()) + " long and " + Words.mm(strip.baseMm())
                        + " wide at its tip: so little glue may let go.")
                .doThis("Let the traces fan out, or clear the point of the corner away.");
        place(x, copper, b, strip.program(), strip.line());
        return b.build();
    }

    /** Whether one wall of a strip is that of a cut through the blank or of a bore. */
    private static boolean beside(Examination x, Strip strip) {
        return deep(x, strip.program(), strip.line()) || deep(x, strip.otherProgram(), strip.otherLine());
    }

    private static boolean deep(Examination x, int program, int line) {
        if (program < 0 || line <= 0) {
            return false;
        }
        int segment = x.firstSegmentFrom(x.plan().programs().get(program), line);
        Work work = segment < 0 ? null : x.workOf(segment);
        return work == Work.OUTLINE || work == Work.BORING;
    }

    private static Finding edge(Examination x, CopperFacts copper, Strip strip) {
        Finding.Builder b = edge(
                x,
                copper,
                new EdgeStrip(
                        strip.xMm(),
                        strip.yMm(),
                        strip.x0Mm(),
                        strip.y0Mm(),
                        strip.x1Mm(),
                        strip.y1Mm(),
                        strip.lengthMm(),
                        strip.baseMm(),
                        strip.errorMm()),
                "an edge or a cut through the blank");
        place(x, copper, b, strip.program(), strip.line());
        return b.build();
    }

    private static Finding edge(Examination x, CopperFacts copper, EdgeStrip strip) {
        Finding.Builder b = edge(x, copper, strip, "the edge of the blank");
        copper.nearestLine(x, b, strip.xMm(), strip.yMm());
        return b.build();
    }

    private static Finding.Builder edge(Examination x, CopperFacts copper, EdgeStrip strip, String beside) {
        return Finding.of(Kinds.SLIVER, Severity.WATCH, Certainty.RULE_OF_THUMB)
                .side(copper.side())
                .at(strip.xMm(), strip.yMm())
                .box(strip.x0Mm(), strip.y0Mm(), strip.x1Mm(), strip.y1Mm())
                .atLeast(Measured.mm("width", strip.widthMm(), strip.errorMm()), x.limit(LimitKey.EDGE_STRIP))
                .says("A strip of copper only " + Words.mm(strip.widthMm()) + " wide and "
                        + Words.plainMm(strip.lengthMm()) + " long is left between a groove and " + beside
                        + ": the cutter may peel it off.")
                .doThis("Leave 0.5 mm of copper there, or clear the strip away.");
    }

    private static String ends(Strip strip) {
        return strip.island()
                ? strip.ring() ? "a ring held by nothing else" : "held by nothing else"
                : strip.freeEnds() == 0
                        ? "held at both ends"
                        : strip.freeEnds() == 1 ? "with one free end" : "with " + strip.freeEnds() + " free ends";
    }

    private static String reach(Strip strip) {
        if (Double.isInfinite(strip.gapMm())) {
            return "No other piece of copper is within its reach.";
        }
        return strip.reachesOther()
                ? "Loose, it reaches the nearest other copper, " + Words.plainMm(strip.gapMm()) + " away."
                : "The nearest other copper, " + Words.plainMm(strip.gapMm()) + " away, is beyond its reach.";
    }

    private static @org.jspecify.annotations.Nullable Finding trace(Examination x, CopperFacts copper, Strip strip) {
        double watch = x.limit(LimitKey.TRACE_WIDTH);
        double fix = x.limit(LimitKey.TRACE_WIDTH_FIX);
        if (strip.baseMm() >= watch - 1e-6) {
            return null;
        }
        boolean bad = strip.baseMm() < fix - 1e-6;
        Finding.Builder b = Finding.of(
                        Kinds.THIN_TRACE,
                        bad ? Severity.FIX : Severity.WATCH,
                        bad ? Certainty.GEOMETRY : Certainty.RULE_OF_THUMB)
                .side(copper.side())
                .at(strip.xMm(), strip.yMm())
                .box(strip.x0Mm(), strip.y0Mm(), strip.x1Mm(), strip.y1Mm())
                .atLeast(Measured.mm("width", strip.baseMm(), strip.errorMm()), bad ? fix : watch)
                .says("A trace is only " + Words.mm(strip.baseMm()) + " wide at the foil bottom over "
                        + Words.plainMm(strip.lengthMm()) + ": so little glue may lift, above all under a soldering"
                        + " iron.")
                .doThis("Widen the trace in the layout, cut shallower, or use a narrower cutter.");
        place(x, copper, b, strip.program(), strip.line());
        return b.build();
    }

    /** One finding for each width: a groove that is narrow all over is one place, not one for each pair of pieces. */
    private static List<Finding> gaps(Examination x, CopperFacts copper) {
        List<Finding> told = new ArrayList<>();
        List<NarrowGap> open = new ArrayList<>(copper.gaps());
        // where foil is left there is no groove yet whose width could be judged
        open.removeIf(g -> copper.foilLeftNear(g.xMm(), g.yMm()));
        while (!open.isEmpty()) {
            NarrowGap worst = open.get(0);
            int before = open.size();
            open.removeIf(g -> g.bottomMm() < worst.bottomMm() + Math.max(0.004, 2 * worst.errorMm()));
            told.add(gap(x, copper, worst, before - open.size()));
        }
        return told;
    }

    private static Finding gap(Examination x, CopperFacts copper, NarrowGap gap, int pairs) {
        boolean bad = gap.bottomMm() < x.limit(LimitKey.NARROW_GAP_FIX) - 1e-6;
        Finding.Builder b = Finding.of(Kinds.NARROW_GAP, bad ? Severity.FIX : Severity.WATCH, Certainty.GEOMETRY)
                .side(copper.side())
                .at(gap.xMm(), gap.yMm())
                .atLeast(
                        Measured.mm("gap", gap.bottomMm(), gap.errorMm()),
                        x.limit(bad ? LimitKey.NARROW_GAP_FIX : LimitKey.NARROW_GAP))
                .says("The gap between two pieces of copper is only " + Words.mm(gap.bottomMm())
                        + " at the foil bottom"
                        + (!Double.isFinite(gap.topMm()) ? "" : " (" + Words.plainMm(gap.topMm()) + " on top)")
                        + ", over " + Words.plainMm(gap.lengthMm())
                        + (pairs > 1
                                ? "; so it is between " + Words.count(pairs - 1, "more pair", "more pairs")
                                        + " of pieces"
                                : "")
                        + ". Solder and dust bridge it easily.")
                .doThis("Cut deeper, or run a second pass beside the first.");
        copper.nearestLine(x, b, gap.xMm(), gap.yMm());
        return b.build();
    }

    private static void place(Examination x, CopperFacts copper, Finding.Builder b, int program, int line) {
        if (program < 0 || line <= 0) {
            return;
        }
        b.line(x.plan().programs().get(program).file(), line);
        for (RunFacts run : x.runs()) {
            if (run.side().number() == copper.side()
                    && run.run().firstProgram() <= program
                    && run.run().lastProgram() >= program
                    && copper.windows().containsKey(run.run().index())) {
                double time = x.timeAtLine(run, program, line);
                if (!Double.isNaN(time)) {
                    b.time(time).tool(run.toolName());
                    return;
                }
            }
        }
    }
}
