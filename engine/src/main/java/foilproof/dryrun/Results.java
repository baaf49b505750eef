package foilproof.dryrun;

import foilproof.bench.Blank;
import foilproof.bench.IntervalMm;
import foilproof.bench.Job;
import foilproof.bench.Side;
import foilproof.bench.Spread;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.findings.Catalogue;
import foilproof.findings.Examination;
import foilproof.findings.Hole;
import foilproof.findings.RemovalRate;
import foilproof.findings.RunFacts;
import foilproof.findings.Words;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.report.ResultDocument;
import foilproof.report.Verdict;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Turns an examination and its findings into the result document. */
final class Results {
    private Results() {}

    static ResultDocument document(Examination x, Catalogue.Outcome outcome) {
        List<String> assumed = new ArrayList<>(x.job().assumed());
        if (x.job().machine().appliesHeightMap()
                && x.job().sides().stream().anyMatch(side -> !side.surface().flat())) {
            assumed.add(
                    "machine.applies_height_map: cutters follow the touched points, so depths count from the foil as it"
                            + " lies; the underside stays on the spoil board");
        }
        for (String line : x.plan().assumed()) {
            if (!assumed.contains(line)) {
                assumed.add(line);
            }
        }
        return new ResultDocument(
                x.job().name(),
                Verdict.of(outcome.findings()),
                x.options().cellMm() * 1000,
                assumed,
                inputs(x.job()),
                setUp(x.job()),
                CopperResults.windows(x),
                CopperResults.joint(x),
                outcome.findings(),
                outcome.notChecked(),
                CopperResults.sides(x),
                CopperResults.removed(x),
                tools(x),
                runs(x),
                holes(x),
                CopperResults.nets(x),
                time(x));
    }

    private static List<ResultDocument.InputFile> inputs(Job job) {
        Map<String, ResultDocument.InputFile> byName = new LinkedHashMap<>();
        for (SourceFile file : job.inputs()) {
            byName.putIfAbsent(file.name(), new ResultDocument.InputFile(file.name(), file.sha256()));
        }
        return List.copyOf(byName.values());
    }

    private static List<ResultDocument.SetUp> setUp(Job job) {
        Blank blank = job.blank();
        List<ResultDocument.SetUp> lines = new ArrayList<>();
        lines.add(new ResultDocument.SetUp(
                "blank",
                blank.substrate().word() + " " + Words.mm(blank.thicknessMm()) + " thick, foil "
                        + Words.um(blank.foilMm()) + (blank.foilKnown() ? "" : " (not known for sure)") + " on "
                        + (blank.bothSides() ? "both sides" : "one side") + ", "
                        + Words.area(blank.widthMm(), blank.heightMm())));
        lines.add(new ResultDocument.SetUp("hold", blank.hold().word() + ", tape " + Words.plainMm(blank.tapeMm())));
        lines.add(new ResultDocument.SetUp("spoil board", known(job.spoilBoard().thicknessMm())));
        lines.add(new ResultDocument.SetUp("spread", spread(job)));
        for (Side side : job.sides()) {
            lines.add(new ResultDocument.SetUp(
                    "side " + side.number(),
                    side.face().word() + " copper up"
                            + (side.number() == 1
                                    ? ""
                                    : ", turned " + side.turned().word())
                            + ", work zero at "
                            + Words.place(
                                    side.workZeroMm().xMm(), side.workZeroMm().yMm()) + ", Z zero on the "
                            + side.zZero().word()));
        }
        return lines;
    }

    /** How far the person believes their own set-up to be off. */
    private static String spread(Job job) {
        Spread spread = job.spread();
        List<String> said = new ArrayList<>();
        if (spread.zMm() != null) {
            said.add("Z error " + interval(spread.zMm()));
        }
        spread.toolZMm().forEach((tool, z) -> said.add("Z error of \"" + tool + "\" " + interval(z)));
        if (spread.zMm() == null) {
            said.add("touch-off +/- " + Words.plainMm(spread.zTouchMm()) + ", bow "
                    + Words.plainMm(spread.bowPer100Mm()) + " in 100 mm");
        }
        said.add("thickness of the blank +/- " + Words.plainMm(spread.thicknessMm()));
        return String.join("; ", said);
    }

    private static String interval(IntervalMm z) {
        return Words.signedMm(z.fromMm()) + " to " + Words.signedMm(z.toMm());
    }

    private static String known(OptionalDouble lengthMm) {
        return lengthMm.isPresent() ? Words.mm(lengthMm.getAsDouble()) + " thick" : "thickness not known";
    }

    private static List<ResultDocument.ToolFacts> tools(Examination x) {
        List<ResultDocument.ToolFacts> all = new ArrayList<>();
        for (Tool tool : x.job().tools()) {
            all.add(tool(x, tool));
        }
        return all;
    }

    private static ResultDocument.ToolFacts tool(Examination x, Tool tool) {
        Segments s = x.plan().segments();
        int runs = 0;
        double cut = 0;
        double inSubstrate = 0;
        double time = 0;
        Double deepest = null;
        double[] feed = {Double.POSITIVE_INFINITY, 0};
        double[] rpm = {Double.POSITIVE_INFINITY, 0};
        for (RunFacts run : x.runs()) {
            if (run.tool() == null
                    || !run.tool().name().equals(tool.name())
                    || run.run().segmentCount() == 0) {
                continue;
            }
            runs++;
            time += run.run().endS() - run.run().startS();
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (!x.removes(i)) {
                    continue;
                }
                double low = run.blankFromRunMm(s.lowestMm(i));
                deepest = deepest == null ? low : Math.min(deepest, low);
                if (s.isRapid(i)) {
                    continue;
                }
                double length = x.cutLengthMm(i);
                cut += length;
                if (low < -x.foilMm() - 1e-9) {
                    inSubstrate += length;
                }
                feed[0] = Math.min(feed[0], s.feedMmPerMin(i));
                feed[1] = Math.max(feed[1], s.feedMmPerMin(i));
                rpm[0] = Math.min(rpm[0], s.spindleRpm(i));
                rpm[1] = Math.max(rpm[1], s.spindleRpm(i));
            }
        }
        RemovalRate rate = RemovalRate.of(x, tool);
        return new ResultDocument.ToolFacts(
                tool.name(),
                tool.number().isPresent() ? tool.number().getAsInt() : null,
                shape(tool),
                tool.duty().words(),
                runs,
                cut,
                deepest,
                inSubstrate,
                time,
                feed[1] > 0 && !Double.isInfinite(feed[0]) ? feed : null,
                rpm[1] > 0 && !Double.isInfinite(rpm[0]) ? rpm : null,
                rate.mostMm3PerMin() > 0 ? rate.mostMm3PerMin() : null,
                rate.mostMm3PerMin() > 0 && tool.shape() == ToolShape.FLAT ? rate.leastShareInCut() : null);
    }

    private static String shape(Tool tool) {
        String angle = Words.number(StrictMath.toDegrees(tool.includedAngleRad()), 0) + " deg";
        return switch (tool.shape()) {
            case FLAT -> "flat end mill " + Words.mm(tool.diameterMm());
            case BALL -> "ball end mill " + Words.mm(tool.diameterMm());
            case DRILL -> "drill " + Words.mm(tool.diameterMm()) + ", point " + angle;
            case V ->
                "V-shaped engraving bit, included angle " + angle + ", "
                        + (tool.tipWidthMm().isPresent()
                                ? "flat tip " + Words.mm(tool.tipWidthMm().getAsDouble())
                                : tool.tipRadiusMm().isPresent()
                                        ? "tip radius "
                                                + Words.mm(tool.tipRadiusMm().getAsDouble())
                                        : "tip not known");
        };
    }

    private static List<ResultDocument.RunFacts> runs(Examination x) {
        List<ResultDocument.RunFacts> all = new ArrayList<>();
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            if (run.run().segmentCount() == 0) {
                continue;
            }
            Double deepest = null;
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                if (x.removes(i)) {
                    double low = run.blankFromRunMm(s.lowestMm(i));
                    deepest = deepest == null ? low : Math.min(deepest, low);
                }
            }
            PlannedProgram program = x.plan().programs().get(run.run().firstProgram());
            all.add(new ResultDocument.RunFacts(
                    run.run().index() + 1,
                    run.toolName(),
                    run.side().number(),
                    program.file(),
                    Math.max(1, run.run().startLine()),
                    run.run().startS(),
                    run.run().endS(),
                    deepest));
        }
        return all;
    }

    private static List<ResultDocument.HoleFacts> holes(Examination x) {
        List<ResultDocument.HoleFacts> all = new ArrayList<>();
        Segments s = x.plan().segments();
        for (Hole hole : x.holes()) {
            all.add(new ResultDocument.HoleFacts(
                    hole.side(),
                    new double[] {hole.xMm(), hole.yMm()},
                    hole.entryMm(),
                    hole.exitMm(),
                    hole.through(),
                    CopperResults.ringMm(x, hole),
                    x.run(hole.run()).toolName(),
                    s.line(hole.segment())));
        }
        return all;
    }

    private static ResultDocument.TimeFacts time(Examination x) {
        var totals = x.plan().totals();
        return new ResultDocument.TimeFacts(totals.totalS(), totals.cuttingS(), totals.rapidS(), totals.toolChanges());
    }

    /** The ends of an interval as an array. */
    static double @Nullable [] ends(@Nullable IntervalMm interval) {
        return interval == null ? null : new double[] {interval.fromMm(), interval.toMm()};
    }

    /** Whether a shape has upright walls only. */
    static boolean upright(Tool tool) {
        return tool.shape() == ToolShape.FLAT;
    }
}
