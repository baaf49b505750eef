package foilproof.app.ui;

import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What a groove's width, measured under the microscope, says of its depth: the closed form of a cone,
 * W = tip + runout + 2 d tan(angle / 2) at the foil top, d being the depth below the foil top; for a round tip the same
 * by the shape of the tip. Width at the foil bottom is the width at the foil top of a groove shallower by the foil.
 *
 * @param depthMm depth below the foil top that the width means, mm; NaN where the width cannot tell
 * @param zErrorMm the Z error that it means, mm, + = really deeper; NaN where the width cannot tell
 * @param plusMinusMm error of both, mm, from the reading's own error
 * @param tipMm the flat tip that would mean the same width at the depth as programmed, mm; NaN where there is none
 * @param words all of it for people
 */
record GrooveInverse(double depthMm, double zErrorMm, double plusMinusMm, double tipMm, String words) {
    /**
     * What was measured.
     *
     * @param widthMm the width
     * @param plusMinusMm how well it was read
     * @param atBottom whether at the foil bottom (bare substrate) or at the foil top
     */
    record Reading(double widthMm, double plusMinusMm, boolean atBottom) {}

    /**
     * Solves for the depth.
     *
     * @param tool the cutter; its tip must be known
     * @param expectedDepthMm depth below the foil top there without any Z error, mm
     * @param foilMm foil thickness, mm
     */
    static GrooveInverse of(Tool tool, double expectedDepthMm, double foilMm, Reading r) {
        if (tool.tipUnknown()) {
            return none("The tip of " + tool.name() + " is not known: a width cannot be turned into a depth.");
        }
        if (!(r.widthMm() > 0)) {
            return none("Type the width that you measured.");
        }
        double below = r.atBottom() ? foilMm : 0;
        double half = r.widthMm() / 2;
        if (tool.shape() == ToolShape.FLAT || tool.shape() == ToolShape.DRILL) {
            double wider = r.widthMm() - tool.diameterMm();
            return none(String.format(
                    Locale.ROOT,
                    "%s cuts as wide at any depth, so its width tells nothing of Z. It cuts %+.3f mm (%+.1f thou)"
                            + " beside its diameter: runout, wear or sideways play.",
                    tool.name(),
                    wider,
                    wider / 0.0254));
        }
        if (half <= tool.cutRadiusAtHeightMm(0) + 1e-12) {
            return none(String.format(
                    Locale.ROOT,
                    "No depth cuts so narrow: the tip with its runout is %.3f mm (%.1f thou) wide. A smaller tip, or a"
                            + " bit that scratches only with a part of it.",
                    2 * tool.cutRadiusAtHeightMm(0),
                    2 * tool.cutRadiusAtHeightMm(0) / 0.0254));
        }
        double depth = below + riseOf(tool, half);
        if (Double.isNaN(depth)) {
            return none("So wide the cutter is nowhere: that is more than its shank.");
        }
        double low = riseOf(tool, Math.max(tool.cutRadiusAtHeightMm(0), half - r.plusMinusMm() / 2));
        double high = riseOf(tool, half + r.plusMinusMm() / 2);
        double error = Double.isNaN(high) ? depth - below - low : Math.max(high - depth + below, depth - below - low);
        double e = depth - expectedDepthMm;
        double tan = StrictMath.tan(tool.halfAngleRad());
        double tip = tool.tipWidthMm().isPresent()
                ? r.widthMm() - tool.runoutMm() - 2 * (expectedDepthMm - below) * tan
                : Double.NaN;
        return new GrooveInverse(depth, e, error, tip, words(tool, expectedDepthMm, depth, e, error, tip));
    }

    private static GrooveInverse none(String words) {
        return new GrooveInverse(Double.NaN, Double.NaN, Double.NaN, Double.NaN, words);
    }

    /** Height above the tip at which the cutter cuts this half-width, mm; NaN where it never does. */
    private static double riseOf(Tool tool, double halfMm) {
        double high = 1e-3;
        while (tool.cutRadiusAtHeightMm(high) < halfMm) {
            high *= 2;
            if (high > 1000) {
                return Double.NaN;
            }
        }
        double low = 0;
        for (int i = 0; i < 80; i++) {
            double mid = (low + high) / 2;
            if (tool.cutRadiusAtHeightMm(mid) < halfMm) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return (low + high) / 2;
    }

    private static String words(Tool t, double expected, double depth, double e, double error, double tip) {
        StringBuilder s = new StringBuilder();
        s.append(String.format(
                Locale.ROOT,
                "Means %.3f mm (%.1f thou) below the foil top, +/- %.3f mm, where %.3f was programmed: Z error %+.3f mm"
                        + " (%+.1f thou), + = really deeper.",
                depth,
                depth / 0.0254,
                error,
                expected,
                e,
                e / 0.0254));
        if (!Double.isNaN(tip)) {
            double slope = 2 * StrictMath.tan(t.halfAngleRad());
            double now = t.tipWidthMm().orElse(0);
            if (tip > now + 5e-4) {
                s.append(String.format(
                        Locale.ROOT,
                        " Or the depth is right and the tip is worn from %.3f to %.3f mm; or both, by tip = width - %.3f"
                                + " x depth.",
                        now,
                        tip,
                        slope));
            } else if (tip < now - 5e-4 && tip > 0) {
                s.append(String.format(
                        Locale.ROOT, " Or the depth is right and the tip is %.3f mm wide, not %.3f.", tip, now));
            }
            s.append(" A second groove parts the two only where a depth is measured, too: a cone is as steep at any"
                    + " depth. Look at the tip, or focus on floor and foil.");
        }
        return s.append(" Rests on the angle, the tip and the runout of the job.")
                .toString();
    }

    /** The depth and error to be offered, or null where the width cannot tell. */
    @Nullable
    Double offered() {
        return Double.isNaN(zErrorMm) ? null : zErrorMm;
    }
}
