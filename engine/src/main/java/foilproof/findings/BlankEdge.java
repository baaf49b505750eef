package foilproof.findings;

import foilproof.bench.Tool;
import foilproof.bench.Work;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import java.util.List;
import java.util.Locale;

/** Copper work that leaves the blank (B13), with the nudge that brings it back. */
final class BlankEdge implements Check {
    private static final double ROUNDING_MM = 1e-4;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.OFF_BLANK);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B13");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (!x.job().blank().sizeKnown()) {
            out.notChecked("copper work beside the blank", "the blank's size is not given");
            return;
        }
        for (var side : x.job().sides()) {
            judge(x, side.number(), out);
        }
    }

    private static void judge(Examination x, int side, FindingCollector out) {
        double w = x.job().blank().widthMm();
        double h = x.job().blank().heightMm();
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        double out0 = 0;
        int at = -1;
        Segments s = x.plan().segments();
        for (Stroke stroke : x.paths().strokes()) {
            RunFacts run = x.run(stroke.run());
            if (run.side().number() != side || run.tool() == null || !copper(x, stroke)) {
                continue;
            }
            double radius = radiusMm(run.knownTool(), stroke.depthMm());
            // an area is cleared to the blank's edge and beyond it by the cutter's radius
            double allowed = x.paths().workOf(stroke) == Work.CLEARING ? radius : 0;
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                if (s.has(i, Segments.POSITION_UNKNOWN) || s.has(i, Segments.START_UNKNOWN)) {
                    continue;
                }
                double[] b = s.planBox(i);
                double over = Math.max(Math.max(-b[0], b[2] - w), Math.max(-b[1], b[3] - h)) - allowed;
                if (over > ROUNDING_MM && at < 0) {
                    at = i;
                }
                out0 = Math.max(out0, over);
                box[0] = Math.min(box[0], b[0] - radius);
                box[1] = Math.min(box[1], b[1] - radius);
                box[2] = Math.max(box[2], b[2] + radius);
                box[3] = Math.max(box[3], b[3] + radius);
            }
        }
        if (at < 0) {
            return;
        }
        double px = s.x1Mm(at);
        double py = s.y1Mm(at);
        if (px >= 0 && py >= 0 && px <= w && py <= h) {
            px = s.x0Mm(at);
            py = s.y0Mm(at);
        }
        out.add(x.at(Finding.of(Kinds.OFF_BLANK, Severity.WATCH, Certainty.GEOMETRY), at)
                .at(px, py)
                .box(box[0], box[1], box[2], box[3])
                .atMost(Measured.mm("copper work beyond the blank's edge", out0, 0.001), 0)
                .says("Copper work leaves the blank by up to " + Words.mm(out0)
                        + ": it cuts tape or spoil board there, and" + " that copper is not made.")
                .doThis(nudge(box, w, h))
                .build());
    }

    /** Wider than copper work: text counts, and what found nothing to cut beyond the blank. */
    private static boolean copper(Examination x, Stroke stroke) {
        if (x.copperWork().partOfDeepCut(stroke) || x.paths().makesHole(stroke) || stroke.vertical()) {
            return false;
        }
        Work work = x.paths().workOf(stroke);
        return work != null && work.copper();
    }

    private static double radiusMm(Tool tool, double depthMm) {
        return tool.cutRadiusAtHeightMm(Math.max(0, depthMm));
    }

    private static String nudge(double[] box, double w, double h) {
        if (box[2] - box[0] > w || box[3] - box[1] > h) {
            return String.format(
                    Locale.ROOT,
                    "The copper work needs %.1f x %.1f mm and does not fit the blank of %.1f x %.1f mm: take a larger one.",
                    box[2] - box[0],
                    box[3] - box[1],
                    w,
                    h);
        }
        double dx = box[0] < 0 ? -box[0] : Math.min(0, w - box[2]);
        double dy = box[1] < 0 ? -box[1] : Math.min(0, h - box[3]);
        return String.format(
                Locale.ROOT,
                "Move the work zero by %s, so that all of it lies on the blank; or lay the blank" + " accordingly.",
                Words.shift(dx, dy));
    }
}
