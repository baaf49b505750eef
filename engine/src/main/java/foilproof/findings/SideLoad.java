package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;
import java.util.List;

/**
 * Side load (C7) and bend (C8) of slender cutters: force = k x depth x chip load, on a stepped beam. V-shaped bits are
 * cones and exempt; drills carry no side load. Pressure and stress limits are common practice, no source.
 */
final class SideLoad implements Check {
    /** Fluted length of a cutter of which it is not known, in diameters (common practice, no source). */
    private static final double FLUTES_IN_DIAMETERS = 3;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SIDE_LOAD);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C7", "C8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (RunFacts run : x.runs()) {
            Tool tool = run.tool();
            if (tool != null
                    && tool.flutes().isPresent()
                    && (tool.shape() == ToolShape.FLAT || tool.shape() == ToolShape.BALL)) {
                judge(x, run, out);
            }
        }
    }

    private static void judge(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        Tool tool = run.knownTool();
        double pressure = x.limit(x.glass() ? LimitKey.CUTTING_PRESSURE_GLASS : LimitKey.CUTTING_PRESSURE_PAPER);
        double flutesMm = tool.fluteLengthMm().orElse(FLUTES_IN_DIAMETERS * tool.diameterMm());
        // a shank that nobody states adds what nobody knows: the flutes alone bend at least this much
        boolean shank = tool.shankMm().isPresent();
        CutterBeam beam = new CutterBeam(
                CutterBeam.CORE_SHARE * tool.diameterMm(),
                flutesMm,
                tool.shankMm().orElse(tool.diameterMm()),
                shank ? tool.stickOutMm().orElse(flutesMm) : flutesMm);
        double worst = 0;
        int worstAt = -1;
        double bentN = 0;
        int bentAt = -1;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (!s.isFeed(i) || s.planLengthMm(i) < 1e-6 || !x.removes(i)) {
                continue;
            }
            double load = ChipLoad.chipLoadMm(s, i, tool.flutes().getAsInt());
            double most = pressure * x.engagedMm(i) * load;
            if (!(most > worst) && !(x.cutsFoil(i) && most > bentN)) {
                continue;
            }
            double force = pressure * PassDepth.mm(x, i) * load;
            if (force > worst) {
                worst = force;
                worstAt = i;
            }
            if (x.cutsFoil(i) && force > bentN) {
                bentN = force;
                bentAt = i;
            }
        }
        if (worstAt < 0) {
            return;
        }
        if (!shank && tool.stickOutMm().orElse(0) > flutesMm) {
            out.notChecked(
                    "how far " + run.quotedName() + " bends above its flutes",
                    "the diameter of its shank is not given");
        }
        double stress = beam.stressNPerMm2(worst);
        if (stress > x.limit(LimitKey.BEND_WATCH)) {
            boolean stop = stress > x.limit(LimitKey.BEND_STOP);
            out.add(x.at(
                            Finding.of(Kinds.SIDE_LOAD, stop ? Severity.STOP : Severity.WATCH, Certainty.RULE_OF_THUMB),
                            worstAt)
                    .atMost(
                            new Measured("bending stress", stress, "N/mm2", 0.3 * stress),
                            x.limit(stop ? LimitKey.BEND_STOP : LimitKey.BEND_WATCH))
                    .says("About " + Words.rounded(worst, 0.3 * worst, 1) + " N push sideways on " + run.quotedName()
                            + ": bending stress "
                            + Words.number(stress, 0) + " N/mm2 (rule of thumb, +/- 30 %). "
                            + (stop ? "Carbide this thin snaps." : "Carbide this thin may snap."))
                    .doThis("Take more passes, feed slower, or let the cutter stick out less.")
                    .build());
        }
        double bend = bentAt < 0 ? 0 : beam.tipDeflectionMm(bentN);
        if (bend > x.limit(LimitKey.DEFLECTION)) {
            out.add(x.at(Finding.of(Kinds.SIDE_LOAD, Severity.WATCH, Certainty.RULE_OF_THUMB), bentAt)
                    .atMost(Measured.mm("bend at the tip", bend, 0.3 * bend), x.limit(LimitKey.DEFLECTION))
                    .says("The cutter bends about " + Words.mm(bend, 0.3 * bend)
                            + " off its line at a copper wall (rule of thumb, +/- 30 %).")
                    .doThis("Let the cutter stick out less, cut shallower or feed slower.")
                    .build());
        }
    }
}
