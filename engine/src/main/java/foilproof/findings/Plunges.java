package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.SegmentKind;
import foilproof.motion.Segments;
import java.util.List;

/**
 * Straight plunges: too fast (A9, G11), too slow a turn (G11), deeper than an end mill clears its chips (G6), a cutter
 * that cannot plunge (C11). One line per rule and tool run.
 */
final class Plunges implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.PLUNGE_TOO_FAST, Kinds.DEEP_PLUNGE, Kinds.CHIP_LOAD);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A9", "C11", "G6", "G11");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            if (run.tool() != null) {
                new Judge(x, run).judge(out);
            }
        }
    }

    private static boolean down(Segments s, int i) {
        return s.kind(i) == SegmentKind.FEED && s.planLengthMm(i) < 1e-6 && s.z1Mm(i) < s.z0Mm(i);
    }

    /** Gathers the first place of each fault over one run. */
    private static final class Judge {
        private final Examination x;
        private final RunFacts run;
        private final Tool tool;
        private int fast = -1;
        private int perTurnHigh = -1;
        private int perTurnLow = -1;
        private int deep = -1;
        private double deepestMm;
        private int cannot = -1;
        private double fastMm;

        /** Depth of the plunge so far: moves straight down that follow each other are one plunge, mm. */
        private double plungeMm;

        private int last = -2;

        Judge(Examination x, RunFacts run) {
            this.x = x;
            this.run = run;
            this.tool = java.util.Objects.requireNonNull(run.tool());
        }

        void judge(FindingCollector out) {
            Segments s = x.plan().segments();
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (down(s, i) && x.removes(i)) {
                    one(s, i);
                }
            }
            tell(s, out);
        }

        private void one(Segments s, int i) {
            plungeMm = (last == i - 1 ? plungeMm : 0) + x.engagedMm(i);
            last = i;
            double depth = plungeMm;
            boolean small = FeedAndSpindle.small(tool, x.limit(LimitKey.SMALL_TOOL));
            if (small
                    && (tool.shape() == ToolShape.V || tool.diameterMm() < x.limit(LimitKey.SMALL_TOOL) - 1e-9)
                    && depth > x.limit(LimitKey.PLUNGE_DEPTH) + 1e-9
                    && s.feedMmPerMin(i) > x.limit(LimitKey.PLUNGE_FEED) * (1 + 1e-9)) {
                fastMm = fast < 0 ? depth : fastMm;
                fast = fast < 0 ? i : fast;
            }
            if (depth > x.limit(LimitKey.PLUNGE_PER_TURN_DEPTH) + 1e-9 && s.spindleRpm(i) > 0) {
                double perTurn = s.feedMmPerMin(i) / s.spindleRpm(i);
                if (perTurn > x.limit(LimitKey.PLUNGE_PER_TURN_MOST) * tool.diameterMm() * (1 + 1e-9)) {
                    perTurnHigh = perTurnHigh < 0 ? i : perTurnHigh;
                } else if (perTurn < x.limit(LimitKey.PLUNGE_PER_TURN_LEAST) * (1 - 1e-9)) {
                    perTurnLow = perTurnLow < 0 ? i : perTurnLow;
                }
            }
            if ((tool.shape() == ToolShape.FLAT || tool.shape() == ToolShape.BALL)
                    && depth > x.limit(LimitKey.MILL_PLUNGE) * tool.diameterMm() + 1e-9
                    && depth > deepestMm) {
                deepestMm = depth;
                deep = deep < 0 ? i : deep;
            }
            if (!tool.centreCutting() && depth > 0.005) {
                cannot = cannot < 0 ? i : cannot;
            }
        }

        private void tell(Segments s, FindingCollector out) {
            if (fast >= 0) {
                out.add(x.at(Finding.of(Kinds.PLUNGE_TOO_FAST, Severity.FIX, Certainty.GEOMETRY), fast)
                        .atMost(
                                Measured.exact("plunge feed", s.feedMmPerMin(fast), "mm/min"),
                                x.limit(LimitKey.PLUNGE_FEED))
                        .says("A small cutter plunges " + Words.plainMm(fastMm) + " into material at "
                                + Words.feed(s.feedMmPerMin(fast)) + ": the plunge has the feed of a lateral move.")
                        .doThis("Give the plunge its own F, a third of the lateral feed or less.")
                        .build());
            }
            if (perTurnHigh >= 0) {
                double perTurn = s.feedMmPerMin(perTurnHigh) / s.spindleRpm(perTurnHigh);
                out.add(x.at(Finding.of(Kinds.PLUNGE_TOO_FAST, Severity.WATCH, Certainty.RULE_OF_THUMB), perTurnHigh)
                        .atMost(
                                Measured.mm("plunge a turn", perTurn, 0.0001),
                                x.limit(LimitKey.PLUNGE_PER_TURN_MOST) * tool.diameterMm())
                        .says("The plunge takes " + Words.number(perTurn * 1000, 1) + " um a turn; for this cutter "
                                + Words.number(x.limit(LimitKey.PLUNGE_PER_TURN_MOST) * tool.diameterMm() * 1000, 1)
                                + " um is usual at most.")
                        .doThis("Plunge slower.")
                        .build());
            }
            if (perTurnLow >= 0) {
                double perTurn = s.feedMmPerMin(perTurnLow) / s.spindleRpm(perTurnLow);
                out.add(x.at(Finding.of(Kinds.CHIP_LOAD, Severity.WATCH, Certainty.RULE_OF_THUMB), perTurnLow)
                        .atLeast(Measured.mm("plunge a turn", perTurn, 0.0001), x.limit(LimitKey.PLUNGE_PER_TURN_LEAST))
                        .says("The plunge takes only " + Words.number(perTurn * 1000, 1)
                                + " um a turn: the cutter rubs and heats instead of cutting.")
                        .doThis("Plunge faster or turn slower.")
                        .build());
            }
            if (deep >= 0) {
                out.add(x.at(Finding.of(Kinds.DEEP_PLUNGE, Severity.WATCH, Certainty.RULE_OF_THUMB), deep)
                        .atMost(
                                Measured.mm("straight plunge", deepestMm, 0.005),
                                x.limit(LimitKey.MILL_PLUNGE) * tool.diameterMm())
                        .says("The end mill goes " + Words.mm(deepestMm) + " straight down in one plunge, "
                                + Words.number(deepestMm / tool.diameterMm(), 2)
                                + " times its diameter: its flutes clear about "
                                + Words.number(x.limit(LimitKey.MILL_PLUNGE), 1) + " times.")
                        .doThis("Go down in a helix of 0.3 to 0.4 mm a turn, or peck.")
                        .build());
            }
            if (cannot >= 0) {
                out.add(x.at(Finding.of(Kinds.DEEP_PLUNGE, Severity.STOP, Certainty.GEOMETRY), cannot)
                        .says("The cutter " + run.quotedName()
                                + " does not cut over its centre and is sent straight down into material.")
                        .doThis("Ramp or spiral into the material, or take a centre-cutting tool.")
                        .build());
            }
        }
    }
}
